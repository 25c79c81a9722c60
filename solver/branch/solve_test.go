package branch

import (
	"context"
	"math"
	"reflect"
	"testing"
	"time"

	"rationwright/solver/linear"
)

// plain is a result without the audit's trail and without the clock.
func plain(r Result) Result {
	r.trail = nil
	return r
}

// TestSameInputSameResult runs a search twice, and once more with an audit: all
// must be equal to the last bit, nodes and work included.
func TestSameInputSameResult(t *testing.T) {
	p := rationLike(3, 2, 40, 8)
	for _, workers := range []int{1, 2, 3} {
		opt := Options{Gap: 0.004, Workers: workers, Work: 30000}
		first := plain(Solve(context.Background(), p, opt))
		second := plain(Solve(context.Background(), p, opt))
		if !reflect.DeepEqual(first, second) {
			t.Errorf("%d workers: two runs differ:\n%+v\n%+v", workers, first, second)
		}
		opt.Audit = true
		if audited := plain(Solve(context.Background(), p, opt)); !reflect.DeepEqual(first, audited) {
			t.Errorf("%d workers: the run with an audit differs:\n%+v\n%+v", workers, first, audited)
		}
		if first.ByClock {
			t.Errorf("%d workers: ByClock is set", workers)
		}
	}
}

// TestProblemUnchanged holds the caller's program against a copy made before.
func TestProblemUnchanged(t *testing.T) {
	p, q := rationLike(3, 1, 20, 6), rationLike(3, 1, 20, 6)
	Solve(context.Background(), p, Options{Work: 5000})
	if !reflect.DeepEqual(p, q) {
		t.Error("Solve changed the program")
	}
}

// TestWorkersAgree solves with one, two and three workers: the search differs,
// the optimum must not.
func TestWorkersAgree(t *testing.T) {
	p := rationLike(11, 1, 20, 4)
	var value float64
	for _, workers := range []int{1, 2, 3} {
		r := Solve(context.Background(), p, Options{Workers: workers, Gap: 1e-7})
		if r.Status != Optimal {
			t.Fatalf("%d workers: status %v (%s), gap %g", workers, r.Status, r.Why, r.Gap)
		}
		if workers > 1 && math.Abs(r.Value-value) > 1e-6*value {
			t.Errorf("%d workers: value %v, with one fewer %v", workers, r.Value, value)
		}
		value = r.Value
	}
}

// TestCancel cancels a search that has a point, and one before it starts: what
// comes back is a feasible point with a valid gap, or nothing, and ByClock.
func TestCancel(t *testing.T) {
	p := rationLike(5, 3, 60, 10)
	ctx, cancel := context.WithCancel(context.Background())
	r := Solve(ctx, p, Options{Progress: func(g Progress) {
		if g.HasValue && g.Nodes > 0 {
			cancel()
		}
	}})
	if r.Status != Limit || !r.ByClock || r.X == nil {
		t.Fatalf("status %v, ByClock %v, point %v, want limit by the clock with a point", r.Status, r.ByClock, r.X != nil)
	}
	if v, ok := Check(p, r.X); !ok || math.Abs(v-r.Value) > 1e-9*v {
		t.Errorf("point feasible %v, value %v, stated %v", ok, v, r.Value)
	}
	if r.Bound > r.Value || math.Abs(r.Gap-(r.Value-r.Bound)/r.Value) > 1e-12 {
		t.Errorf("value %v, bound %v, gap %v do not agree", r.Value, r.Bound, r.Gap)
	}
	if r.RootDual == nil || len(r.RootDual) != len(p.Rows) || len(r.RootReduced) != len(p.Cols) {
		t.Error("the root relaxation is missing")
	}
	value := r.Value
	r = Solve(ctx, p, Options{})
	if r.Status != Limit || !r.ByClock || r.X != nil || r.Bound > value {
		t.Errorf("cancelled before it began: %v, ByClock %v, bound %v of at most %v", r.Status, r.ByClock, r.Bound, value)
	}
}

// TestTime stops a search by the clock.
func TestTime(t *testing.T) {
	p := rationLike(5, 4, 90, 12)
	began := time.Now()
	ctx, stop := context.WithTimeout(context.Background(), 150*time.Millisecond)
	defer stop()
	r := Solve(ctx, p, Options{})
	if r.Status != Limit || !r.ByClock {
		t.Errorf("status %v, ByClock %v, want limit by the clock", r.Status, r.ByClock)
	}
	// Generous: the machine may be shared. The search must not go on to the end.
	if took := time.Since(began); took > 10*time.Second {
		t.Errorf("took %v", took)
	}
}

// TestWorkLimit stops after a number of simplex iterations.
func TestWorkLimit(t *testing.T) {
	p := rationLike(5, 3, 60, 10)
	r := Solve(context.Background(), p, Options{Work: 4000})
	if r.Status != Limit || r.ByClock || r.Work < 4000 {
		t.Errorf("status %v, ByClock %v, work %d, want limit at 4000", r.Status, r.ByClock, r.Work)
	}
}

// TestProgress watches a search: the bound never falls, the value never rises,
// the gap is that of both.
func TestProgress(t *testing.T) {
	p := rationLike(8, 2, 40, 8)
	var last Progress
	count := 0
	Solve(context.Background(), p, Options{Gap: 0.01, Work: 60000, Progress: func(g Progress) {
		if count > 0 {
			if g.Bound < last.Bound-1e-9 {
				t.Errorf("the bound fell from %v to %v", last.Bound, g.Bound)
			}
			if last.HasValue && (!g.HasValue || g.Value > last.Value) {
				t.Errorf("the value rose from %v to %v", last.Value, g.Value)
			}
			if g.Work < last.Work || g.Nodes < last.Nodes {
				t.Errorf("work or nodes fell: %+v after %+v", g, last)
			}
		}
		if g.HasValue && math.Abs(g.Gap-(g.Value-g.Bound)/g.Value) > 1e-9 {
			t.Errorf("gap %v of value %v and bound %v", g.Gap, g.Value, g.Bound)
		}
		last = g
		count++
	}})
	if count < 3 || !last.HasValue {
		t.Errorf("%d reports, the last %+v", count, last)
	}
}

// TestStart gives a search a point to start from.
func TestStart(t *testing.T) {
	p := rationLike(9, 2, 30, 8)
	best := Solve(context.Background(), p, Options{Gap: 0.01, Work: 100000})
	if best.X == nil {
		t.Fatal("no point to start from")
	}
	first := func(start []float64) (first Progress) {
		seen := false
		Solve(context.Background(), p, Options{Start: start, Work: 1, Progress: func(g Progress) {
			if !seen && g.HasValue {
				first, seen = g, true
			}
		}})
		return first
	}
	if g := first(best.X); g.Value > best.Value+1e-9 {
		t.Errorf("the first value is %v, started from %v", g.Value, best.Value)
	}
	// The packs alone are enough: the grams are solved for.
	packs := append([]float64(nil), best.X...)
	for j, c := range p.Cols {
		if !c.Integer {
			packs[j] = 0
		}
	}
	if g := first(packs); g.Value > best.Value+1e-6*best.Value {
		t.Errorf("from the packs alone the first value is %v, want %v", g.Value, best.Value)
	}
	// A start that cannot be mended does no harm.
	none := make([]float64, len(p.Cols))
	if r := Solve(context.Background(), p, Options{Start: none, Gap: 0.05}); r.Status != Optimal {
		t.Errorf("from an infeasible start: %v", r.Status)
	}
	if r := Solve(context.Background(), p, Options{Start: []float64{1}, Gap: 0.05}); r.Status != Optimal {
		t.Errorf("from a start of the wrong length: %v", r.Status)
	}
}

// TestMaximize solves a program and its mirror image.
func TestMaximize(t *testing.T) {
	p := rationLike(2, 1, 12, 5)
	q := rationLike(2, 1, 12, 5)
	q.Maximize = true
	for j := range q.Cols {
		q.Cols[j].Cost = -q.Cols[j].Cost
	}
	a := Solve(context.Background(), p, Options{Gap: 1e-6})
	b := Solve(context.Background(), q, Options{Gap: 1e-6})
	if a.Status != Optimal || b.Status != Optimal || math.Abs(a.Value+b.Value) > 1e-9 || math.Abs(a.RootBound+b.RootBound) > 1e-6 {
		t.Errorf("minimum %v (%v, root %v), maximum of the mirror %v (%v, root %v)", a.Value, a.Status, a.RootBound, b.Value, b.Status, b.RootBound)
	}
	for i := range a.RootDual {
		if math.Abs(a.RootDual[i]+b.RootDual[i]) > 1e-6*(1+math.Abs(a.RootDual[i])) {
			t.Fatalf("dual of row %d: %v and %v", i, a.RootDual[i], b.RootDual[i])
		}
	}
}

// TestLazyRows marks rows as lazy: the result is that of the whole program.
func TestLazyRows(t *testing.T) {
	whole := Solve(context.Background(), rationLike(11, 1, 20, 4), Options{Gap: 1e-7})
	p := rationLike(11, 1, 20, 4)
	for i := range p.Rows {
		p.Rows[i].Lazy = i%2 == 0
	}
	r := Solve(context.Background(), p, Options{Gap: 1e-7, Audit: true})
	if r.Status != Optimal || math.Abs(r.Value-whole.Value) > 1e-6*whole.Value {
		t.Errorf("value %v (%v), without lazy rows %v", r.Value, r.Status, whole.Value)
	}
	if a := Audit(context.Background(), p, r); !confirmed(a) {
		t.Errorf("audit %+v", a)
	}
}

// TestRayOfInfeasible asks for the ray of a program whose relaxation is
// infeasible, and confirms it from the rows: x + y ≥ 5 with x, y ≤ 2.
func TestRayOfInfeasible(t *testing.T) {
	p := &linear.Problem{}
	p.AddRow("need", 5, inf)
	col(p, 1, 0, 2, true, 1)
	col(p, 1, 0, 2, false, 1)
	r := Solve(context.Background(), p, Options{Audit: true})
	if r.Status != Infeasible || len(r.Ray) != 1 {
		t.Fatalf("status %v, ray %v", r.Status, r.Ray)
	}
	if a := Audit(context.Background(), p, r); !a.RootOK {
		t.Errorf("the ray %v is not confirmed", r.Ray)
	}
}

// TestNotANumber refuses data that are no numbers, as a status.
func TestNotANumber(t *testing.T) {
	for name, spoil := range map[string]func(p *linear.Problem){
		"cost":        func(p *linear.Problem) { p.Cols[0].Cost = math.NaN() },
		"bound":       func(p *linear.Problem) { p.Cols[0].Upper = math.NaN() },
		"coefficient": func(p *linear.Problem) { p.Cols[0].Entries[0].Value = inf },
		"side":        func(p *linear.Problem) { p.Rows[0].Lower = math.NaN() },
		"offset":      func(p *linear.Problem) { p.Offset = inf },
		"row":         func(p *linear.Problem) { p.Cols[0].Entries[0].Row = 9 },
	} {
		p := &linear.Problem{}
		p.AddRow("r", 1, 5)
		col(p, 1, 0, 9, true, 2)
		spoil(p)
		if r := Solve(context.Background(), p, Options{}); r.Status != Numerical || r.Why == "" {
			t.Errorf("%s: status %v %q, want numerical with a reason", name, r.Status, r.Why)
		}
	}
	p := &linear.Problem{}
	col(p, 1, 3, 2, true)
	if r := Solve(context.Background(), p, Options{}); r.Status != Infeasible {
		t.Errorf("crossed bounds: %v, want infeasible", r.Status)
	}
}

package search

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/simplex"
)

// someProblem is a small linear program within finite bounds, some of its rows lazy, some
// without sides and one without columns.
func someProblem(rng *rand.Rand) *linear.Problem {
	p := &linear.Problem{Maximize: rng.IntN(2) == 0, Offset: float64(rng.IntN(9) - 4)}
	m, n := 2+rng.IntN(5), 2+rng.IntN(5)
	for i := range m {
		side := float64(rng.IntN(13) - 3)
		lower, upper := -linear.Inf, side
		switch rng.IntN(5) {
		case 0:
			lower, upper = -side, linear.Inf
		case 1:
			lower = side - float64(rng.IntN(6))
		case 2:
			upper = linear.Inf
		}
		p.AddRow(fmt.Sprint("r", i), lower, upper)
		p.Rows[i].Lazy = rng.IntN(3) == 0
	}
	for j := range n {
		p.AddCol(fmt.Sprint("x", j), float64(rng.IntN(9)-4), 0, float64(1+rng.IntN(6)), rng.IntN(2) == 0)
		for i := range m {
			if rng.IntN(3) > 0 && i != 1 || j == 0 && i == 0 {
				p.Set(i, j, float64(rng.IntN(9)-4))
			}
		}
	}
	return p
}

// solved is the answer for the whole program.
func solved(t *testing.T, p *linear.Problem) simplex.Result {
	t.Helper()
	s, err := simplex.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return s.Solve(context.Background(), simplex.Limits{})
}

// TestRelaxationIsOfTheWhole: whatever is left out, brought in late, changed, held and
// released again, a relaxation has the answer of the whole program as it is then: its point
// keeps every row, its multipliers prove its value, a ray proves that there is no point.
func TestRelaxationIsOfTheWhole(t *testing.T) {
	rng := rand.New(rand.NewPCG(28, 4))
	seen := map[simplex.Status]int{}
	for k := range 600 {
		p := someProblem(rng)
		out := make([]bool, len(p.Cols))
		var late []int
		now := p.Clone() // the program as the relaxation should have it
		for j := range out {
			if out[j] = rng.IntN(4) == 0; out[j] {
				late = append(late, j)
				now.Cols[j].Upper = 0
			}
		}
		x, err := RelaxWithout(p.Clone(), out)
		if err != nil {
			t.Fatal(err)
		}
		rows := len(p.Rows)
		check := func(when string) {
			got, want := x.Solve(t.Context()), solved(t, now)
			seen[want.Status]++
			fail := func(what string, a ...any) {
				t.Fatalf("program %d, %s: %s; %v %g %v, want %v %g\n%s", k, when, fmt.Sprintf(what, a...), got.Status, got.Value, got.X, want.Status, want.Value, now)
			}
			switch {
			case got.Status != want.Status:
				fail("another status")
			case got.Status == simplex.Infeasible:
				if len(got.Ray) != rows {
					fail("a ray of %d figures for %d rows", len(got.Ray), rows)
				}
				held := len(now.Rows) > rows // what is held has no figure
				if margin, err := now.FarkasMargin(append(got.Ray, make([]float64, len(now.Rows)-rows)...)); !held && (err != nil || margin <= 0) {
					fail("the ray %v proves nothing: %g %v", got.Ray, margin, err)
				}
			case got.Status == simplex.Optimal:
				if math.Abs(got.Value-want.Value) > 1e-7 {
					fail("another value")
				}
				if missed, err := now.Relaxation().Check(got.X, 1e-7); err != nil || len(missed) > 0 {
					fail("missed: %v %v", missed, err)
				}
				pt, err := now.Evaluate(got.X)
				if err != nil || math.Abs(pt.Value-got.Value) > 1e-7 {
					fail("the point has the value %g", pt.Value)
				}
				if len(now.Rows) > rows { // what is held has no figure
					break
				}
				dual, err := now.Dual(got.Dual)
				if err != nil || dual.Residual > 1e-7 || math.Abs(dual.Bound-got.Value) > 1e-6 || math.Abs(got.Bound-got.Value) > 1e-6 {
					fail("its multipliers prove %g, it says %g, %v", dual.Bound, got.Bound, err)
				}
			}
		}
		check("as it was made")
		for _, j := range late {
			now.Cols[j].Upper = p.Cols[j].Upper
		}
		j := rng.IntN(len(p.Cols)) // a cost may change before its column is there
		now.Cols[j].Cost = float64(rng.IntN(9) - 4)
		x.SetCost(j, now.Cols[j].Cost)
		if err := x.AddColumns(append(late, late...)); err != nil {
			t.Fatal(err)
		}
		check("with all columns")
		j = rng.IntN(len(p.Cols))
		now.Cols[j].Lower = float64(rng.IntN(int(now.Cols[j].Upper) + 1))
		x.SetBounds(j, now.Cols[j].Lower, now.Cols[j].Upper)
		if lower, upper := x.Bounds(j); lower != now.Cols[j].Lower || upper != now.Cols[j].Upper {
			t.Errorf("bounds %g to %g", lower, upper)
		}
		check("with other bounds")
		i := rng.IntN(rows)
		now.Rows[i].Lower, now.Rows[i].Upper = -4, float64(rng.IntN(9)-2)
		x.SetRowBounds(i, now.Rows[i].Lower, now.Rows[i].Upper)
		check("with other sides")
		before := now.Clone()
		cols, values := []int{0, len(p.Cols) - 1}, []float64{1, 2}
		x.AddRow(-linear.Inf, 3, cols, values)
		held := now.AddRow("held", -linear.Inf, 3)
		for n, j := range cols {
			now.Cols[j].Entries = append(now.Cols[j].Entries, linear.Entry{Row: held, Value: values[n]})
		}
		check("with a row held")
		y := x.Clone()
		y.SetCost(0, 17)
		y.AddRow(-linear.Inf, -99, cols[:1], values[:1])
		y.Solve(t.Context())
		check("after a copy was changed")
		if err := x.again(); err != nil {
			t.Fatal(err)
		}
		check("made anew")
		x.Release()
		now = before
		check("with the row released")
		x.AddRow(2, linear.Inf, cols, values)
		x.Release()
		check("with another held and released")
	}
	if seen[simplex.Optimal] < 1000 || seen[simplex.Infeasible] < 100 {
		t.Errorf("%v: the test shows little", seen)
	}
}

// TestRelaxationEnds: at so many iterations, and once the bound passes what is asked, with a
// bound that holds; without a limit at the optimum. By hand: min 2x + 3y with x + y ≥ 10, x ≤ 4: 26.
func TestRelaxationEnds(t *testing.T) {
	build := func() *Relaxation {
		p := &linear.Problem{}
		p.AddRow("need", 10, linear.Inf)
		p.Set(0, p.AddCol("x", 2, 0, 4, true), 1)
		p.Set(0, p.AddCol("y", 3, 0, 9, false), 1)
		x, err := Relax(p)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	for _, most := range []float64{26.001, math.Inf(1)} {
		if r := build().SolveUpTo(t.Context(), most); r.Status != simplex.Optimal || math.Abs(r.Value-26) > 1e-9 {
			t.Errorf("up to %g: %v %g", most, r.Status, r.Value)
		}
	}
	for _, most := range []float64{-1, 10, 25.999} {
		if r := build().SolveUpTo(t.Context(), most); r.Status == simplex.Limit && (!r.HasBound || r.Bound < most || r.Bound > 26+1e-9) || r.Status != simplex.Limit && r.Status != simplex.Optimal {
			t.Errorf("up to %g: %v %g, %v", most, r.Status, r.Bound, r.HasBound)
		}
	}
	x := build()
	if r := x.SolveWithin(t.Context(), 1); r.Status == simplex.Limit && r.Iterations != 1 || x.Spent != int64(r.Iterations) {
		t.Errorf("within one iteration: %v after %d, %d spent", r.Status, r.Iterations, x.Spent)
	}
	first := x.Spent
	if r := x.SolveWithin(t.Context(), 100); r.Status != simplex.Optimal || x.Spent != first+int64(r.Iterations) {
		t.Errorf("within a hundred more: %v after %d, %d spent", r.Status, r.Iterations, x.Spent)
	}
}

// TestNearlyOptimal: a point whose rows hold to the tolerance of the check, and whose value
// the bound confirms to 1e-4 of it, or of 1, passes for an optimum; no other does.
func TestNearlyOptimal(t *testing.T) {
	near := simplex.Result{Status: simplex.Numerical, HasBound: true, Value: 50, Bound: 50 - 0.0049, PrimalResidual: ration.CheckTolerance}
	for _, c := range []struct {
		name   string
		change func(r *simplex.Result)
		want   simplex.Status
	}{
		{"near", func(*simplex.Result) {}, simplex.Optimal},
		{"near from the other side", func(r *simplex.Result) { r.Bound = 50 + 0.0049 }, simplex.Optimal},
		{"too far", func(r *simplex.Result) { r.Bound = 50 - 0.0051 }, simplex.Numerical},
		{"too far from the other side", func(r *simplex.Result) { r.Bound = 50 + 0.0051 }, simplex.Numerical},
		{"near of a small value", func(r *simplex.Result) { r.Value, r.Bound = 0.1, 0.1-0.9e-4 }, simplex.Optimal},
		{"too far of a small value", func(r *simplex.Result) { r.Value, r.Bound = 0.1, 0.1-1.1e-4 }, simplex.Numerical},
		{"near below zero", func(r *simplex.Result) { r.Value, r.Bound = -50, -50-0.0049 }, simplex.Optimal},
		{"without a bound", func(r *simplex.Result) { r.HasBound = false }, simplex.Numerical},
		{"beside a row", func(r *simplex.Result) { r.PrimalResidual *= 1.01 }, simplex.Numerical},
		{"stopped", func(r *simplex.Result) { r.Status = simplex.Limit }, simplex.Limit},
		{"no point", func(r *simplex.Result) { r.Status = simplex.Infeasible }, simplex.Infeasible},
	} {
		r := near
		c.change(&r)
		if got := nearlyOptimal(r).Status; got != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

// TestPlaces: what stands at a bound, to 1e-9 of its size, is there, anything else between.
func TestPlaces(t *testing.T) {
	for _, c := range []struct {
		v, lower, upper float64
		want            simplex.Place
	}{
		{2, 2, 9, simplex.AtLower}, {2 + 1.9e-9, 2, 9, simplex.AtLower}, {2 + 2.1e-9, 2, 9, simplex.Basic}, {1, 2, 9, simplex.AtLower},
		{9, 2, 9, simplex.AtUpper}, {9 - 8.9e-9, 2, 9, simplex.AtUpper}, {9 - 9.1e-9, 2, 9, simplex.Basic}, {10, 2, 9, simplex.AtUpper},
		{0.9e-9, 0, 9, simplex.AtLower}, {1.1e-9, 0, 9, simplex.Basic}, {-5 + 4.9e-9, -5, 9, simplex.AtLower}, {-5 + 5.1e-9, -5, 9, simplex.Basic},
		{5, -linear.Inf, linear.Inf, simplex.Basic}, {3, 3, 3, simplex.AtLower},
	} {
		if got := placeOf(c.v, c.lower, c.upper); got != c.want {
			t.Errorf("%g between %g and %g: place %v, want %v", c.v, c.lower, c.upper, got, c.want)
		}
	}
}

// TestStartAt: from the optimum nothing is left to be done, whatever rows were left out. By
// hand: max 3x + 5y with x ≤ 4, 2y ≤ 12, 3x + 2y ≤ 18 has its optimum at (2, 6).
func TestStartAt(t *testing.T) {
	for _, lazy := range []bool{false, true} {
		p := &linear.Problem{Maximize: true}
		for i, most := range []float64{4, 12, 18} {
			p.AddRow(fmt.Sprint("r", i), -linear.Inf, most)
			p.Rows[i].Lazy = lazy
		}
		x, y := p.AddCol("x", 3, 0, 99, false), p.AddCol("y", 5, 0, 99, false)
		p.Set(0, x, 1)
		p.Set(2, x, 3)
		p.Set(1, y, 2)
		p.Set(2, y, 2)
		r, err := Relax(p)
		if err != nil {
			t.Fatal(err)
		}
		r.StartAt([]float64{2, 6})
		if got := r.Solve(t.Context()); got.Status != simplex.Optimal || math.Abs(got.Value-36) > 1e-9 || got.Iterations != 0 {
			t.Errorf("rows left out %v: %v %g after %d iterations, want 36 after none", lazy, got.Status, got.Value, got.Iterations)
		}
	}
}

// TestUntil: a search for a point within a limit ends when it has one, or when it is proven
// that none is.
func TestUntil(t *testing.T) {
	ends := WithinOrBeyond(100, 101)
	for _, c := range []struct {
		now  Progress
		want bool
	}{
		{Progress{Value: 99, HasValue: true, Bound: 50}, true}, {Progress{Value: 100, HasValue: true, Bound: 50}, true}, {Progress{Value: 100.1, HasValue: true, Bound: 50}, false},
		{Progress{Value: 99, Bound: 50}, false}, {Progress{Bound: 101}, false}, {Progress{Bound: 101.1}, true}, {Progress{Value: 120, HasValue: true, Bound: 102}, true},
	} {
		if got := ends(c.now); got != c.want {
			t.Errorf("%+v: ends %v, want %v", c.now, got, c.want)
		}
	}
}

// TestCompareBool: false before true.
func TestCompareBool(t *testing.T) {
	for _, c := range []struct {
		a, b bool
		want int
	}{{false, false, 0}, {true, true, 0}, {false, true, -1}, {true, false, 1}} {
		if got := CompareBool(c.a, c.b); got != c.want {
			t.Errorf("%v against %v: %d, want %d", c.a, c.b, got, c.want)
		}
	}
}

// TestWork: 48 million iterations a second of the time, over the columns, of the shorter of
// time and effort; what the request says itself comes first.
func TestWork(t *testing.T) {
	for _, c := range []struct {
		own          int64
		time, effort time.Duration
		want         int64
	}{
		{0, 10 * time.Second, 0, 120000}, {0, 10 * time.Second, 5 * time.Second, 60000}, {0, 10 * time.Second, 20 * time.Second, 120000},
		{0, 500 * time.Millisecond, 0, 6000}, {77, 10 * time.Second, 5 * time.Second, 77}, {1, time.Second, 0, 1},
	} {
		m := &model.Model{Request: &ration.Request{Work: c.own, Time: c.time, Effort: c.effort}, Problem: &linear.Problem{Cols: make([]linear.Col, 4000)}}
		if got := Work(m); got != c.want {
			t.Errorf("%+v: %d iterations, want %d", c, got, c.want)
		}
	}
}

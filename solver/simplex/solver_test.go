package simplex

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"rationwright/solver/linear"
)

func TestNewRefuses(t *testing.T) {
	ok := linear.Col{Upper: 1, Entries: []linear.Entry{{Row: 0, Value: 1}}}
	row := []linear.Row{{Upper: 1}, {Upper: 1}}
	for _, c := range []struct {
		name string
		p    linear.Problem
		want error
	}{
		{"cost", linear.Problem{Cols: []linear.Col{{Cost: math.NaN()}}}, ErrNotFinite},
		{"constant", linear.Problem{Offset: math.Inf(1)}, ErrNotFinite},
		{"coefficient", linear.Problem{Rows: row, Cols: []linear.Col{{Entries: []linear.Entry{{Row: 0, Value: math.Inf(1)}}}}}, ErrNotFinite},
		{"bound", linear.Problem{Cols: []linear.Col{{Lower: math.NaN()}}}, ErrBound},
		{"lower bound at infinity", linear.Problem{Cols: []linear.Col{{Lower: math.Inf(1), Upper: math.Inf(1)}}}, ErrBound},
		{"row bound", linear.Problem{Rows: []linear.Row{{Upper: math.NaN()}}}, ErrBound},
		{"row too large", linear.Problem{Rows: row[:1], Cols: []linear.Col{ok, {Entries: []linear.Entry{{Row: 1, Value: 1}}}}}, ErrEntry},
		{"row negative", linear.Problem{Rows: row, Cols: []linear.Col{{Entries: []linear.Entry{{Row: -1, Value: 1}}}}}, ErrEntry},
		{"row twice", linear.Problem{Rows: row, Cols: []linear.Col{{Entries: []linear.Entry{{Row: 1, Value: 1}, {Row: 1, Value: 2}}}}}, ErrEntry},
	} {
		if _, err := New(&c.p); !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", c.name, err, c.want)
		}
	}
}

// TestIterationLimit stops at every count of iterations there is: the bound
// must hold at each, and going on must reach the optimum.
func TestIterationLimit(t *testing.T) {
	p := ration(1, 40, 3)
	want := solveFresh(t, p)
	if want.Status != Optimal {
		t.Fatal(want.Status, want.Why)
	}
	bounded := 0
	for limit := 1; limit < want.Iterations; limit++ {
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		r := s.Solve(context.Background(), Limits{Iterations: limit})
		if r.Status != Limit || r.Iterations != limit || r.Why == "" {
			t.Fatalf("limit %d: %v after %d iterations, %q", limit, r.Status, r.Iterations, r.Why)
		}
		if r.HasBound {
			bounded++
			if r.Bound > want.Value+1e-9 {
				t.Errorf("limit %d: bound %g above the optimum %g", limit, r.Bound, want.Value)
			}
		}
		if r = s.Solve(context.Background(), Limits{}); !same(r, want) {
			t.Errorf("limit %d: then %v %g, want %g", limit, r.Status, r.Value, want.Value)
		}
	}
	if bounded < want.Iterations/2 {
		t.Errorf("a bound at %d of %d limits only", bounded, want.Iterations)
	}
}

// TestCutoff branches on a ration and asks for cutoffs below and above the
// optimum of the branch.
func TestCutoff(t *testing.T) {
	p := ration(2, 60, 4)
	s, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	root := s.Solve(context.Background(), Limits{})
	cut, reached := 0, 0
	for j, c := range p.Cols {
		f := root.X[j] - math.Floor(root.X[j])
		if !c.Integer || f < 0.01 || f > 0.99 {
			continue
		}
		var saved Snapshot
		s.Save(&saved)
		s.SetBounds(j, math.Ceil(root.X[j]), c.Upper)
		full := s.Solve(context.Background(), Limits{})
		for _, share := range []float64{0.1, 0.5, 0.9, 1.1} {
			if err := s.Restore(&saved); err != nil {
				t.Fatal(err)
			}
			s.SetBounds(j, math.Ceil(root.X[j]), c.Upper)
			cutoff := root.Value + share*(full.Value-root.Value)
			r := s.Solve(context.Background(), Limits{HasCutoff: true, Cutoff: cutoff})
			switch {
			case r.Status == Limit:
				cut++
				if !r.HasBound || r.Bound < cutoff || r.Bound > full.Value+1e-7 {
					t.Errorf("column %d: bound %g, %v; cutoff %g, optimum %g", j, r.Bound, r.HasBound, cutoff, full.Value)
				}
				if r.Iterations > full.Iterations {
					t.Errorf("column %d: %d iterations to the cutoff, %d to the optimum", j, r.Iterations, full.Iterations)
				}
			case r.Status == Optimal:
				reached++
				if !same(r, full) {
					t.Errorf("column %d: %g, want %g", j, r.Value, full.Value)
				}
			default:
				t.Errorf("column %d: %v %s", j, r.Status, r.Why)
			}
			if share > 1 && r.Status == Limit {
				t.Errorf("column %d: cut off at %g below the cutoff %g", j, full.Value, cutoff)
			}
		}
		s.SetBounds(j, c.Lower, c.Upper)
		if err := s.Restore(&saved); err != nil {
			t.Fatal(err)
		}
	}
	if cut == 0 || reached == 0 {
		t.Errorf("%d cut off, %d not: both should happen", cut, reached)
	}
}

// TestOddBounds sets bounds that no program may have.
func TestOddBounds(t *testing.T) {
	inf := math.Inf(1)
	for _, b := range [][2]float64{{inf, inf}, {-inf, -inf}, {math.NaN(), 1}, {0, math.NaN()}} {
		s, err := New(parse(t, `
			min x
			r: x >= 1`))
		if err != nil {
			t.Fatal(err)
		}
		s.SetBounds(0, b[0], b[1])
		if r := s.Solve(context.Background(), Limits{}); r.Status != Numerical || r.Why == "" {
			t.Errorf("bounds %v: %v %q", b, r.Status, r.Why)
		}
	}
}

func TestCancel(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	s, err := New(ration(2, 60, 4))
	if err != nil {
		t.Fatal(err)
	}
	r := s.Solve(ctx, Limits{})
	if r.Status != Limit || r.Why != "cancelled" || r.Iterations > pollEvery {
		t.Errorf("%v after %d iterations: %s", r.Status, r.Iterations, r.Why)
	}
	if r = s.Solve(context.Background(), Limits{}); r.Status != Optimal {
		t.Errorf("then %v: %s", r.Status, r.Why)
	}
}

// TestClone changes a clone and expects the original to know nothing of it.
func TestClone(t *testing.T) {
	p := ration(1, 40, 5)
	s, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	want := s.Solve(context.Background(), Limits{})
	c := s.Clone()
	for j := range p.Cols {
		c.SetCost(j, 1)
		c.SetBounds(j, 0, 1)
	}
	c.SetRowBounds(0, 0, 0)
	c.AddRow(1, 2, []int{0, 1}, []float64{1, 1})
	if _, err := c.AddCol(linear.Col{Cost: -1, Upper: 1}); err != nil {
		t.Fatal(err)
	}
	c.Solve(context.Background(), Limits{})
	if s.Rows() != len(p.Rows) || s.Cols() != len(p.Cols) {
		t.Errorf("%d × %d after changes to the clone", s.Rows(), s.Cols())
	}
	r := s.Solve(context.Background(), Limits{})
	if !same(r, want) || r.Iterations != 0 {
		t.Errorf("%v %g after %d iterations, want %g after none", r.Status, r.Value, r.Iterations, want.Value)
	}
}

// TestClonesTogether solves clones side by side; it is for the race detector,
// and each must find what it finds alone.
func TestClonesTogether(t *testing.T) {
	p := ration(2, 40, 9)
	s, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	s.Solve(context.Background(), Limits{})
	work := func(s *Solver, seed uint64) []float64 {
		r := rand.New(rand.NewPCG(seed, 1))
		var values []float64
		for range 20 {
			j := r.IntN(len(p.Cols))
			s.SetBounds(j, p.Cols[j].Lower, max(p.Cols[j].Lower, p.Cols[j].Upper/2))
			values = append(values, s.Solve(context.Background(), Limits{}).Value)
		}
		return values
	}
	a, b := s.Clone(), s.Clone()
	wantA, wantB := work(s.Clone(), 1), work(s.Clone(), 2)
	other := make(chan []float64)
	go func() { other <- work(b, 2) }()
	gotA := work(a, 1)
	gotB := <-other
	if !slices.Equal(gotA, wantA) || !slices.Equal(gotB, wantB) {
		t.Errorf("together %v and %v, alone %v and %v", gotA, gotB, wantA, wantB)
	}
}

// TestMaximise asks a maximum for its bound, cutoff and signs: all in its own
// sense.
func TestMaximise(t *testing.T) {
	p := ration(1, 40, 10)
	low := solveFresh(t, p)
	p.Maximize, p.Offset = true, 100
	for j := range p.Cols {
		p.Cols[j].Cost = -p.Cols[j].Cost
	}
	high := solveFresh(t, p)
	verify(t, p, high)
	if math.Abs(high.Value-(100-low.Value)) > 1e-6 {
		t.Errorf("the maximum of 100 − cost is %g, the minimum of cost %g", high.Value, low.Value)
	}
	s, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	s.Solve(context.Background(), Limits{})
	for j, c := range p.Cols {
		if high.X[j] > 0.5 && c.Cost < 0 {
			s.SetBounds(j, math.Ceil(high.X[j]), c.Upper)
		}
	}
	full := s.Clone().Solve(context.Background(), Limits{})
	if full.Status != Optimal || full.Value > high.Value-0.1 {
		t.Fatalf("%v %g: the test needs an optimum well below %g", full.Status, full.Value, high.Value)
	}
	cutoff := (high.Value + full.Value) / 2
	r := s.Solve(context.Background(), Limits{HasCutoff: true, Cutoff: cutoff})
	if r.Status != Limit || !r.HasBound || r.Bound > cutoff || r.Bound < full.Value-1e-7 {
		t.Errorf("%v, bound %g, %v; want one between %g and %g", r.Status, r.Bound, r.HasBound, full.Value, cutoff)
	}
}

// TestSpoiledFactor spoils numbers of the factor behind the solver's back, as
// rounding might: it must notice and recover, or say numerical, but never a
// wrong word.
func TestSpoiledFactor(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 1))
	recovered := 0
	for trial := range 60 {
		p := ration(1, 60, uint64(trial))
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		first := s.Solve(context.Background(), Limits{})
		if first.Status != Optimal {
			t.Fatalf("trial %d: %v", trial, first.Status)
		}
		for j, c := range p.Cols {
			if c.Integer && first.X[j] > 0 && r.IntN(3) == 0 {
				p.Cols[j].Lower = math.Ceil(first.X[j])
				s.SetBounds(j, p.Cols[j].Lower, c.Upper)
			}
		}
		for range 1 + r.IntN(3) {
			f := &s.core.factor
			switch r.IntN(3) {
			case 0:
				f.diag[r.IntN(len(f.diag))] *= 1 + r.Float64()
			case 1:
				if n := len(f.uCols.value); n > 0 {
					f.uCols.value[r.IntN(n)] += r.NormFloat64()
				}
			case 2:
				if n := len(f.lCols.value); n > 0 {
					f.lCols.value[r.IntN(n)] += r.NormFloat64()
				}
			}
		}
		got := s.Solve(context.Background(), Limits{})
		if got.Status == Numerical {
			continue
		}
		recovered++
		verify(t, p, got)
		if want := solveFresh(t, p); !same(got, want) {
			t.Errorf("trial %d: %v %g, want %v %g", trial, got.Status, got.Value, want.Status, want.Value)
		}
	}
	if recovered < 50 {
		t.Errorf("recovered %d times of 60", recovered)
	}
}

// TestSlightlySpoiledFactor: a factor that is off in its eleventh digit gives points that a
// certificate still takes; they are reckoned anew from a fresh factor, so that their residuals
// are as small as usual.
func TestSlightlySpoiledFactor(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 2))
	for trial := range 60 {
		p := ration(1, 60, uint64(trial))
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		if first := s.Solve(context.Background(), Limits{}); first.Status != Optimal {
			t.Fatalf("trial %d: %v", trial, first.Status)
		}
		s.core.refresh(true)
		for i := range s.core.factor.diag {
			s.core.factor.diag[i] *= 1 + 3e-11*r.NormFloat64()
		}
		for j, c := range p.Cols { // a little more of something, for an update or two
			if c.Integer && r.IntN(6) == 0 {
				p.Cols[j].Lower = 1
				s.SetBounds(j, 1, c.Upper)
			}
		}
		got := s.Solve(context.Background(), Limits{})
		if got.Status != Optimal {
			continue
		}
		if worst := max(got.PrimalResidual, got.DualResidual, got.Complementarity/(1+math.Abs(got.Value))); s.core.factor.updates() > 0 && worst > 1e-9 {
			t.Errorf("trial %d: a residual of %g after %d iterations", trial, worst, got.Iterations)
		}
	}
}

// TestDeterminism expects the same program to be solved by the same steps.
func TestDeterminism(t *testing.T) {
	p := ration(3, 50, 6)
	first := solveFresh(t, p)
	for range 3 {
		r := solveFresh(t, p)
		if r.Iterations != first.Iterations || r.Value != first.Value {
			t.Errorf("%d iterations to %v, then %d to %v", first.Iterations, first.Value, r.Iterations, r.Value)
		}
	}
}

// TestTableau checks rows of B⁻¹·[A, −I] on the original rows: each is the sum
// of rows that its multipliers say, a unit vector on the basis, and every
// point with matching activities makes it zero.
func TestTableau(t *testing.T) {
	for _, p := range []*linear.Problem{ration(1, 40, 7), transport(rand.New(rand.NewPCG(1, 1)))} {
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		s.AddRow(math.Inf(-1), 1e6, []int{0, 1}, []float64{3, 1000})
		r := s.Solve(context.Background(), Limits{})
		if r.Status != Optimal {
			t.Fatal(r.Status, r.Why)
		}
		n := s.Cols()
		var mult []float64
		for i := range s.Rows() {
			mult = s.TableauRow(i, mult)
			coef, terms := make([]float64, n+s.Rows()), make([]float64, n+s.Rows())
			for k, m := range mult {
				index, values := s.a.row(k)
				for e, j := range index {
					coef[j] += m * values[e]
					terms[j] = max(terms[j], math.Abs(m*values[e]))
				}
				coef[n+k], terms[n+k] = -m, math.Abs(m)
			}
			value, size := 0.0, 1.0
			for k, v := range coef {
				x := 0.0
				if k < n {
					x = r.X[k]
				} else {
					x = r.RowValue[k-n]
				}
				value += v * x
				size = max(size, math.Abs(v*x))
			}
			if math.Abs(value) > 1e-9*size {
				t.Errorf("position %d: the row is %g at the optimum, not zero", i, value)
			}
			for q := range s.Rows() {
				k, want := s.BasicIn(q), 0.0
				if q == i {
					want = 1
				}
				if math.Abs(coef[k]-want) > dualTol*max(1, terms[k]) { // a row of B⁻¹ is no better than duals are
					t.Errorf("position %d: basic variable %d has %g, want %g", i, k, coef[k], want)
				}
			}
		}
	}
}

// TestSingularBasis starts from bases that are none: every column basic, the
// same direction twice, nothing basic.
func TestSingularBasis(t *testing.T) {
	p := parse(t, `
		min x + 2 y + 3 z
		a: x + y + z >= 3
		b: 2 x + 2 y + z >= 4
		c: x + y >= 1`)
	want := solveFresh(t, p)
	for name, b := range map[string]Basis{
		"parallel": {Basic, Basic, Basic, AtLower, AtLower, AtLower},
		"too many": {Basic, Basic, Basic, Basic, Basic, Basic},
		"none":     {AtLower, AtLower, AtLower, AtLower, AtLower, AtLower},
		"upper":    {AtUpper, AtZero, Basic, AtUpper, AtUpper, Basic},
		"short":    {Basic, Basic, AtLower},
	} {
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		if err := s.SetBasis(b); err != nil {
			t.Fatal(err)
		}
		r := s.Solve(context.Background(), Limits{})
		if !same(r, want) {
			t.Errorf("%s: %v %g %s, want %g", name, r.Status, r.Value, r.Why, want.Value)
		}
		verify(t, p, r)
		basics := 0
		for _, v := range s.Basis() {
			if v == Basic {
				basics++
			}
		}
		if basics != s.Rows() {
			t.Errorf("%s: %d basic variables for %d rows", name, basics, s.Rows())
		}
	}
	s, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.SetBasis(make(Basis, 2)); !errors.Is(err, ErrBasis) {
		t.Errorf("two places for three columns: %v", err)
	}
	if err := s.SetBasis(make(Basis, 7)); !errors.Is(err, ErrBasis) {
		t.Errorf("seven places for six variables: %v", err)
	}
}

// TestSnapshot restores after other changes, repeatedly, and expects to go on
// as if nothing had been.
func TestSnapshot(t *testing.T) {
	p := ration(1, 60, 8)
	s, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	root := s.Solve(context.Background(), Limits{})
	var saved Snapshot
	s.Save(&saved)
	for j, c := range p.Cols {
		if !c.Integer || math.Abs(root.X[j]-math.Round(root.X[j])) < 0.01 {
			continue
		}
		s.SetBounds(j, c.Lower, math.Floor(root.X[j]))
		s.SetCost(j, 2*c.Cost)
		s.Solve(context.Background(), Limits{Iterations: 3})
		if err := s.Restore(&saved); err != nil {
			t.Fatal(err)
		}
		if r := s.Solve(context.Background(), Limits{}); r.Iterations != 0 || r.Value != root.Value {
			t.Fatalf("column %d: %g after %d iterations, want %g after none", j, r.Value, r.Iterations, root.Value)
		}
	}
	s.AddRow(0, 1, []int{0}, []float64{1})
	if err := s.Restore(&saved); !errors.Is(err, ErrBasis) {
		t.Errorf("restored over a new row: %v", err)
	}
}

// TestSnapshotHoldsTheCosts: a state saved anywhere on the way to the optimum is gone on from
// as it was, with other bounds, and with some costs lower, for which the costs worked with are
// shifted for a while: after other costs were solved for and the state was restored it takes
// the same steps to the same point as before them.
func TestSnapshotHoldsTheCosts(t *testing.T) {
	p := ration(2, 60, 4)
	bounds := func(s *Solver) {
		for j, c := range p.Cols {
			if c.Integer && j%3 == 0 {
				s.SetBounds(j, 1, c.Upper)
			}
		}
	}
	cheaper := func(s *Solver) {
		for j, c := range p.Cols {
			if j%4 == 1 {
				s.SetCost(j, c.Cost/10)
			}
		}
	}
	whole := 0
	for _, part := range []float64{1, 0.1, 0.25, 0.5, 0.9} {
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		root := s.Solve(context.Background(), Limits{Iterations: int(part * float64(whole))}) // 0: no limit
		if whole == 0 {
			whole = root.Iterations
		}
		var saved Snapshot
		s.Save(&saved)
		for name, change := range map[string]func(){
			"as it was": func() {}, "other bounds": func() { bounds(s) }, "cheaper": func() { cheaper(s) }, "other bounds and cheaper": func() { bounds(s); cheaper(s) },
		} {
			var first Result
			for turn := range 2 {
				if turn == 1 {
					for j, c := range p.Cols {
						s.SetCost(j, c.Cost*[]float64{0.2, 3, 1}[j%3]+float64(j%2))
					}
					s.Solve(context.Background(), Limits{Iterations: whole / 2})
				}
				if err := s.Restore(&saved); err != nil {
					t.Fatal(err)
				}
				change()
				r := s.Solve(context.Background(), Limits{})
				switch {
				case r.Status != Optimal:
					t.Fatalf("saved at %g of the way, %s: %v %s", part, name, r.Status, r.Why)
				case turn == 0:
					first = r
				case r.Iterations != first.Iterations || r.Value != first.Value || !slices.Equal(r.X, first.X):
					t.Errorf("saved at %g of the way, %s: %g in %d iterations after other costs, before them %g in %d", part, name, r.Value, r.Iterations, first.Value, first.Iterations)
				}
			}
		}
	}
}

// TestFiguresOfWhatIsAdded: rows and columns that are added count on from those there are,
// whether they have been taken in or not, and have the bounds and costs given.
func TestFiguresOfWhatIsAdded(t *testing.T) {
	s, err := New(parse(t, `
		min x + 2 y
		a: x + y >= 3`))
	if err != nil {
		t.Fatal(err)
	}
	count := func(when string, rows, cols int) {
		t.Helper()
		if s.Rows() != rows || s.Cols() != cols {
			t.Errorf("%s: %d rows and %d columns, want %d and %d", when, s.Rows(), s.Cols(), rows, cols)
		}
	}
	count("at first", 1, 2)
	for k := range 3 {
		if i := s.AddRow(float64(k), 50, []int{1, 0}, []float64{1, 0}); i != 1+k {
			t.Errorf("the row added as %d has the figure %d", 1+k, i)
		}
		count("rows added", 2+k, 2)
	}
	for k := range 3 {
		j, err := s.AddCol(linear.Col{Cost: float64(5 + k), Lower: float64(k), Upper: 1e30, Entries: []linear.Entry{{Row: 0, Value: 1}, {Row: 3, Value: 2}}})
		if err != nil || j != 2+k {
			t.Errorf("the column added as %d has the figure %d (%v)", 2+k, j, err)
		}
		count("columns added", 4, 3+k)
	}
	if i := s.AddRow(-1, 1, []int{4}, []float64{1}); i != 4 {
		t.Errorf("the row after the columns has the figure %d", i)
	}
	count("all", 5, 5)
	for k := range 3 {
		if lower, upper := s.RowBounds(1 + k); lower != float64(k) || upper != 50 {
			t.Errorf("row %d from %g to %g", 1+k, lower, upper)
		}
		if lower, upper := s.Bounds(2 + k); lower != float64(k) || upper != math.Inf(1) || s.Cost(2+k) != float64(5+k) {
			t.Errorf("column %d from %g to %g at %g", 2+k, lower, upper, s.Cost(2+k))
		}
	}
	// The last column is at least 2, and at most 1 by the last row.
	if r := s.Solve(context.Background(), Limits{}); r.Status != Infeasible {
		t.Errorf("%v, want infeasible by the last row", r.Status)
	}
	s.SetRowBounds(4, -1, 2)
	// By their bounds the last two columns are 1 and 2, for 6·1 + 7·2, which is enough for the
	// first row and the fourth; the third asks for y ≥ 1, for 2.
	if r := s.Solve(context.Background(), Limits{}); r.Status != Optimal || math.Abs(r.Value-22) > 1e-9 {
		t.Errorf("%v %g, want 22", r.Status, r.Value)
	}
	if _, err := s.AddCol(linear.Col{Entries: []linear.Entry{{Row: 5, Value: 1}}}); !errors.Is(err, ErrEntry) {
		t.Errorf("a column of a row that is not there: %v", err)
	}
}

// TestClonesGrowApart: a clone and what it was made of each add a row and a column of their
// own, of very different size, and change costs and bounds; both have the answers of programs made anew, with
// multipliers that prove them.
func TestClonesGrowApart(t *testing.T) {
	build := func() *linear.Problem {
		return parse(t, `
			min 3 x + 2 y
			a: x + y >= 4
			b: x - y <= 2`)
	}
	first, err := New(build())
	if err != nil {
		t.Fatal(err)
	}
	first.Solve(context.Background(), Limits{})
	// Lists that have grown have room to grow into; what shares them would overwrite it.
	first.AddRow(0, 1e6, []int{0}, []float64{1})
	first.Solve(context.Background(), Limits{})
	second := first.Clone()
	for k, s := range []*Solver{first, second} {
		size := []float64{1e5, 1e-4}[k]
		s.AddRow(3*size, math.Inf(1), []int{0, 1}, []float64{size, 0.1 * size})
		s.SetCost(0, float64(4+k))
		s.SetBounds(1, float64(k), 9)
	}
	for k, s := range []*Solver{first, second} {
		size := []float64{1e-4, 1e5}[k]
		if _, err := s.AddCol(linear.Col{Cost: size, Upper: 1, Entries: []linear.Entry{{Row: 0, Value: size}}}); err != nil {
			t.Fatal(err)
		}
	}
	for k, s := range []*Solver{first, second} {
		p, size, other := build(), []float64{1e5, 1e-4}[k], []float64{1e-4, 1e5}[k]
		p.AddRow("c", 0, 1e6)
		p.AddRow("d", 3*size, math.Inf(1))
		p.Set(2, 0, 1)
		p.Set(3, 0, size)
		p.Set(3, 1, 0.1*size)
		p.Cols[0].Cost, p.Cols[1].Lower, p.Cols[1].Upper = float64(4+k), float64(k), 9
		p.Set(0, p.AddCol("z", other, 0, 1, false), other)
		r := s.Solve(context.Background(), Limits{})
		verify(t, p, r)
		if want := solveFresh(t, p); !same(r, want) {
			t.Errorf("solver %d: %v %g, want %v %g", k, r.Status, r.Value, want.Status, want.Value)
		}
	}
}

// TestCrossedBounds: bounds that cross leave no point, and it is said whose they are; rows
// as columns, added ones too.
func TestCrossedBounds(t *testing.T) {
	s, err := New(parse(t, `
		min x + y
		a: x + y >= 1
		b: x - y <= 5`))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name  string
		cross func()
		mend  func()
		ray   []float64
		why   string
	}{
		{"a column", func() { s.SetBounds(1, 3, 2) }, func() { s.SetBounds(1, 0, 9) }, []float64{0, 0}, "the bounds of a column cross"},
		{"the last row", func() { s.SetRowBounds(1, 3, 2) }, func() { s.SetRowBounds(1, -9, 9) }, []float64{0, 1}, "the bounds of a row cross"},
		{"the first row", func() { s.SetRowBounds(0, 3, 2) }, func() { s.SetRowBounds(0, 2, 2) }, []float64{1, 0}, "the bounds of a row cross"},
	} {
		c.cross()
		if r := s.Solve(context.Background(), Limits{}); r.Status != Infeasible || !slices.Equal(r.Ray, c.ray) || r.Why != c.why {
			t.Errorf("%s: %v %v %q, want %v %q", c.name, r.Status, r.Ray, r.Why, c.ray, c.why)
		}
		c.mend()
		if r := s.Solve(context.Background(), Limits{}); r.Status != Optimal {
			t.Errorf("%s, mended: %v", c.name, r.Status)
		}
	}
}

// TestWaitingRowsAndColumns: what has been added and not been solved with yet is part of a
// clone, of a snapshot, and of what is added next.
func TestWaitingRowsAndColumns(t *testing.T) {
	for name, add := range map[string]func(s *Solver) error{
		"a row": func(s *Solver) error { s.AddRow(5, math.Inf(1), []int{0, 1}, []float64{1, 1}); return nil },
		"a column": func(s *Solver) error {
			_, err := s.AddCol(linear.Col{Cost: 2, Lower: 1, Upper: 9, Entries: []linear.Entry{{Row: 0, Value: 1}}})
			return err
		},
		"a row, and a column in it": func(s *Solver) error {
			i := s.AddRow(5, math.Inf(1), []int{0, 1}, []float64{1, 1})
			_, err := s.AddCol(linear.Col{Cost: 0.5, Lower: 1, Upper: 9, Entries: []linear.Entry{{Row: i, Value: 1}}})
			return err
		},
	} {
		// min x + 2y with x + y ≥ 3 and x ≤ 2: 4. With x + y ≥ 5 as well 8; with z ≥ 1 at 2 in the
		// first row 4 = 2 + 2; with z at 0.5 for the second row alone, 4 + 0.5·2 = 5.
		want := map[string]float64{"a row": 8, "a column": 4, "a row, and a column in it": 5}[name]
		s, err := New(parse(t, `
			min x + 2 y
			a: x + y >= 3
			x in [0, 2]`))
		if err != nil {
			t.Fatal(err)
		}
		if r := s.Solve(context.Background(), Limits{}); math.Abs(r.Value-4) > 1e-9 {
			t.Fatalf("%v %g", r.Status, r.Value)
		}
		if err := add(s); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		c := s.Clone()
		var saved Snapshot
		s.Save(&saved)
		s.SetCost(1, 7)
		s.Solve(context.Background(), Limits{})
		if err := s.Restore(&saved); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		for k, s := range []*Solver{c, s} {
			if r := s.Solve(context.Background(), Limits{}); r.Status != Optimal || math.Abs(r.Value-want) > 1e-9 {
				t.Errorf("%s, %d: %v %g, want %g", name, k, r.Status, r.Value, want)
			}
		}
	}
}

package simplex

import (
	"context"
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"rationwright/solver/linear"
)

// Everything here is computed in rational arithmetic from the program and the
// result alone: no tolerance stands between a claim and the truth but the
// rounding of the result's own figures, 1e-12 of what they are sums of.
const rounding = 1e-12

func rat(v float64) *big.Rat { return new(big.Rat).SetFloat64(v) }

// exactSum is Σ a·b with the sum of the sizes of its terms.
type exactSum struct{ total, size *big.Rat }

func newSum() *exactSum { return &exactSum{new(big.Rat), new(big.Rat)} }

func (s *exactSum) add(a, b float64) {
	t := new(big.Rat).Mul(rat(a), rat(b))
	s.total.Add(s.total, t)
	s.size.Add(s.size, t.Abs(t))
}

// is says whether v is the sum to rounding.
func (s *exactSum) is(v float64) bool {
	d := new(big.Rat).Sub(s.total, rat(v))
	room, _ := s.size.Float64()
	off, _ := d.Float64()
	return math.Abs(off) <= rounding*(room+math.Abs(v))
}

func (s *exactSum) float() float64 { v, _ := s.total.Float64(); return v }

// exactDual returns, for multipliers of the minimisation that p is or mirrors,
// what they prove, and the columns whose reduced cost leans on a bound that is
// not there.
func exactDual(p *linear.Problem, y []float64) (bound *exactSum, reduced []*exactSum, spoiled []int) {
	sign := 1.0
	if p.Maximize {
		sign = -1
	}
	bound = newSum()
	bound.add(p.Offset, 1)
	for i, v := range y {
		if v == 0 {
			continue
		}
		at := p.Rows[i].Lower
		if sign*v < 0 {
			at = p.Rows[i].Upper
		}
		bound.add(v, at) // an infinite side makes SetFloat64 return nil: a panic is a failed test
	}
	for j, c := range p.Cols {
		d := newSum()
		d.add(c.Cost, 1)
		for _, e := range c.Entries {
			d.add(-e.Value, y[e.Row])
		}
		reduced = append(reduced, d)
		at := c.Lower
		if sign*d.float() < 0 {
			at = c.Upper
		}
		switch {
		case d.total.Sign() == 0:
		case math.IsInf(at, 0):
			spoiled = append(spoiled, j)
		default:
			bound.total.Add(bound.total, new(big.Rat).Mul(d.total, rat(at)))
			bound.size.Add(bound.size, new(big.Rat).Abs(new(big.Rat).Mul(d.size, rat(at))))
		}
	}
	return bound, reduced, spoiled
}

// exactFault says what of a result is not so.
func exactFault(p *linear.Problem, r Result) error {
	if r.X != nil {
		value := newSum()
		value.add(p.Offset, 1)
		rows := make([]*exactSum, len(p.Rows))
		for i := range rows {
			rows[i] = newSum()
		}
		for j, c := range p.Cols {
			value.add(c.Cost, r.X[j])
			for _, e := range c.Entries {
				rows[e.Row].add(e.Value, r.X[j])
			}
		}
		if !value.is(r.Value) {
			return fmt.Errorf("value %v, want %v", r.Value, value.float())
		}
		for i, s := range rows {
			if !s.is(r.RowValue[i]) {
				return fmt.Errorf("row %d: %v, want %v", i, r.RowValue[i], s.float())
			}
		}
	}
	if r.Dual != nil {
		bound, reduced, spoiled := exactDual(p, r.Dual)
		for j, d := range reduced {
			if !d.is(r.Reduced[j]) {
				return fmt.Errorf("reduced cost of column %d: %v, want %v", j, r.Reduced[j], d.float())
			}
		}
		if r.HasBound {
			for _, j := range spoiled {
				if d := math.Abs(reduced[j].float()); d > 1e-6*(1+math.Abs(p.Cols[j].Cost)) {
					return fmt.Errorf("a bound is claimed though the reduced cost %v of column %d has no bound to lean on", d, j)
				}
			}
			if len(spoiled) == 0 && !bound.is(r.Bound) {
				return fmt.Errorf("bound %v, its multipliers prove %v", r.Bound, bound.float())
			}
		}
	}
	switch r.Status {
	case Optimal:
		return optimalFault(p, r)
	case Infeasible:
		return rayFault(p, r.Ray)
	}
	return nil
}

// optimalFault holds an optimum to 1e-8: a hundredth of what [Solver.Solve]
// promises, which it meets where the figures are small.
func optimalFault(p *linear.Problem, r Result) error {
	const tol = 1e-8
	for j, c := range p.Cols {
		if v := math.Max(c.Lower-r.X[j], r.X[j]-c.Upper); v > tol*(1+math.Abs(r.X[j])) {
			return fmt.Errorf("column %d is outside by %v", j, v)
		}
	}
	for i, row := range p.Rows {
		if v := math.Max(row.Lower-r.RowValue[i], r.RowValue[i]-row.Upper); v > tol*(1+math.Abs(r.RowValue[i])) {
			return fmt.Errorf("row %d is outside by %v", i, v)
		}
	}
	if !r.HasBound || math.Abs(r.Value-r.Bound) > tol*(1+math.Abs(r.Value)) {
		return fmt.Errorf("value %v, bound %v (%v)", r.Value, r.Bound, r.HasBound)
	}
	return nil
}

// rayFault says why a ray proves nothing: the rows must ask for more than the
// columns can give, strictly, in exact arithmetic.
func rayFault(p *linear.Problem, y []float64) error {
	margin := new(big.Rat)
	for i, v := range y {
		if v == 0 {
			continue
		}
		at := p.Rows[i].Lower
		if v < 0 {
			at = p.Rows[i].Upper
		}
		margin.Add(margin, new(big.Rat).Mul(rat(v), rat(at)))
	}
	for j, c := range p.Cols {
		g := newSum()
		for _, e := range c.Entries {
			g.add(e.Value, y[e.Row])
		}
		at := c.Upper
		if g.total.Sign() < 0 {
			at = c.Lower
		}
		size, _ := g.size.Float64()
		switch {
		case g.total.Sign() == 0:
		case !math.IsInf(at, 0):
			margin.Sub(margin, new(big.Rat).Mul(g.total, rat(at)))
		case math.Abs(g.float()) > rounding*size:
			return fmt.Errorf("column %d has no bound and %v in the ray", j, g.float())
		}
	}
	if margin.Sign() <= 0 {
		return fmt.Errorf("the rows ask for no more than the columns give: %v", margin.FloatString(20))
	}
	return nil
}

// wild is a program with free and half-open columns, whose duals on the way
// often lean on bounds that are not there.
func wild(rng *rand.Rand) *linear.Problem {
	p := &linear.Problem{Maximize: rng.IntN(2) == 0, Offset: float64(rng.IntN(9))}
	for range 2 + rng.IntN(5) {
		lo, up := -linear.Inf, linear.Inf
		switch b := float64(rng.IntN(40) - 10); rng.IntN(3) {
		case 0:
			lo = b
		case 1:
			up = b
		default:
			lo, up = b, b+float64(rng.IntN(3))
		}
		p.AddRow("", lo, up)
	}
	for range 2 + rng.IntN(7) {
		lo, up := -linear.Inf, linear.Inf
		if rng.IntN(3) > 0 {
			lo = float64(rng.IntN(3))
		}
		if rng.IntN(3) > 0 {
			up = 3 + float64(rng.IntN(20))
		}
		j := p.AddCol("", float64(rng.IntN(19)-9), lo, up, false)
		for i := range p.Rows {
			if rng.IntN(3) > 0 {
				p.Set(i, j, float64(rng.IntN(13)-6))
			}
		}
	}
	return p
}

// TestExactly recomputes what solves claim, to the end and stopped on the way,
// in rational arithmetic.
func TestExactly(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 12))
	ends := map[Status]int{}
	bounded, unbounded := 0, 0
	for k := range 1500 * *campaign {
		p := wild(rng)
		for _, limit := range []int{0, 1, 2, 4} {
			s, err := New(p)
			if err != nil {
				t.Fatal(err)
			}
			r := s.Solve(context.Background(), Limits{Iterations: limit})
			ends[r.Status]++
			if r.Status == Limit && r.HasBound {
				bounded++
			} else if r.Status == Limit {
				unbounded++
			}
			if err := exactFault(p, r); err != nil {
				t.Fatalf("program %d, %d iterations: %v: %v\n%s", k, limit, r.Status, err, p)
			}
		}
	}
	for _, s := range []Status{Optimal, Infeasible, Unbounded, Limit} {
		if ends[s] < 20 {
			t.Errorf("only %d ended %v: the programs are too tame for this test", ends[s], s)
		}
	}
	if bounded < 20 || unbounded < 20 {
		t.Errorf("stopped on the way: %d with a bound, %d without", bounded, unbounded)
	}
}

// TestCertifyLimits holds a certificate just inside and just outside of each of
// its limits: 1e-6 of one plus the size of a bound, of one plus the largest cost,
// and of one plus the objective.
//
//	min 9x + y,  x + y ≥ 99,  0 ≤ x ≤ 1000,  y ≥ 0
//
// has its optimum 99 at (0, 99) with the multiplier 1 and reduced costs (8, 0).
func TestCertifyLimits(t *testing.T) {
	p := &linear.Problem{}
	p.AddRow("need", 99, linear.Inf)
	p.Set(0, p.AddCol("x", 9, 0, 1000, false), 1)
	p.Set(0, p.AddCol("y", 1, 0, linear.Inf, false), 1)
	s, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name  string
		limit float64
		spoil func(r *Result, by float64)
	}{
		{"row", 1e-6 * (1 + 99), func(r *Result, by float64) { r.RowValue[0] -= by }},
		{"lower bound", 1e-6, func(r *Result, by float64) { r.X[1] = -by }},
		{"upper bound", 1e-6 * (1 + 1000), func(r *Result, by float64) { r.X[0], r.Reduced[0] = 1000+by, 0 }},
		{"reduced cost without a bound to lean on", 1e-6 * (1 + 9), func(r *Result, by float64) { r.Reduced[1] = -by }},
		{"multiplier without a side to lean on", 1e-6 * (1 + 9), func(r *Result, by float64) { r.Dual[0] = -by }},
		{"complementarity", 1e-6 * (1 + 99), func(r *Result, by float64) { r.X[0] = by / 8 }},
	} {
		for _, share := range []float64{0.99, 1.01} {
			r := Result{Status: Optimal, Value: 99, X: []float64{0, 99}, RowValue: []float64{99}, Dual: []float64{1}, Reduced: []float64{8, 0}}
			c.spoil(&r, share*c.limit)
			s.certify(&r)
			if want := map[bool]Status{true: Optimal, false: Numerical}[share < 1]; r.Status != want {
				t.Errorf("%s: %v at %v of the limit, want %v", c.name, r.Status, share, want)
			}
		}
	}
	r := Result{Status: Optimal, Value: 99, X: []float64{0, math.NaN()}, RowValue: []float64{99}, Dual: []float64{1}, Reduced: []float64{8, 0}}
	if s.certify(&r); r.Status != Numerical {
		t.Error("a value that is not a number is certified")
	}
}

// TestProvesLimits offers rays just above and just below what a proof needs.
func TestProvesLimits(t *testing.T) {
	build := func(need float64, more ...func(p *linear.Problem)) *Solver {
		p := &linear.Problem{}
		p.AddRow("need", need, linear.Inf)
		p.Set(0, p.AddCol("x", 0, 0, 3, false), 1)
		for _, f := range more {
			f(p)
		}
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	free := func(p *linear.Problem) { // two rows that a free column joins
		p.AddRow("b", 1, 1)
		j := p.AddCol("f", 0, -linear.Inf, linear.Inf, false)
		p.Set(0, j, 1)
		p.Set(1, j, 1)
	}
	for _, c := range []struct {
		name string
		s    *Solver
		ray  []float64
		want bool
	}{
		{"x ≥ 3 + 1e-10, x ≤ 3", build(3 + 1e-10), []float64{1}, true},
		{"x ≥ 3 + 1e-12: within the rounding of the figures", build(3 + 1e-12), []float64{1}, false},
		{"x ≥ 3", build(3), []float64{1}, false},
		{"x ≥ 2", build(2), []float64{1}, false},
		{"the wrong sign", build(4), []float64{-1}, false},
		{"a free column with nothing left", build(9, free), []float64{1, -1}, true},
		{"a free column with 1e-11 left", build(9, free), []float64{1, -1 + 1e-11}, false},
		{"no ray", build(9), []float64{0}, false},
	} {
		if got := c.s.proves(c.ray); got != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

// TestEndlessLimits does so with directions: max x + y with x − y ≤ 5 has no end
// along (1, 1); a row changes by 1e-11 of its terms as rounding does, by 1e-9 it
// does not.
func TestEndlessLimits(t *testing.T) {
	p := &linear.Problem{Maximize: true}
	p.AddRow("r", -linear.Inf, 5)
	p.Set(0, p.AddCol("x", 1, 0, linear.Inf, false), 1)
	p.Set(0, p.AddCol("y", 1, 0, linear.Inf, false), -1)
	s, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		ray  []float64
		want bool
	}{
		{[]float64{1, 1}, true},
		{[]float64{1, 2}, true},
		{[]float64{1 + 1e-11, 1}, true},
		{[]float64{1 + 1e-9, 1}, false},
		{[]float64{1, 0}, false},
		{[]float64{-1, 1}, false},  // x has a lower bound
		{[]float64{0, 0}, false},   // improves nothing
		{[]float64{-1, -1}, false}, // both
	} {
		if got := s.endless(c.ray); got != c.want {
			t.Errorf("%v: %v, want %v", c.ray, got, c.want)
		}
	}
}

// TestCutoffNeedsBound stops at a cutoff only with a bound that proves it, as
// the limit says, over programs whose duals on the way lean on missing bounds.
func TestCutoffNeedsBound(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 8))
	stopped := 0
	for k := range 3000 {
		p := wild(rng)
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		full := s.Solve(context.Background(), Limits{})
		if full.Status != Optimal {
			continue
		}
		sense := 1.0
		if p.Maximize {
			sense = -1
		}
		for _, away := range []float64{-3, -0.1, 0.1, 3} { // the optimum is beyond the first two
			cutoff := full.Value + sense*away
			s.core.setSlacks()
			r := s.Solve(context.Background(), Limits{Cutoff: cutoff, HasCutoff: true})
			if r.Status == Limit {
				stopped++
				if !r.HasBound || sense*(r.Bound-cutoff) < 0 {
					t.Fatalf("program %d: stopped at %v with the bound %v (%v)\n%s", k, cutoff, r.Bound, r.HasBound, p)
				}
				if err := exactFault(p, r); err != nil {
					t.Fatalf("program %d: %v\n%s", k, err, p)
				}
			}
			if away > 0 && r.Status != Optimal {
				t.Fatalf("program %d: %v with the cutoff beyond the optimum", k, r.Status)
			}
		}
	}
	if stopped < 50 {
		t.Errorf("only %d stopped at the cutoff", stopped)
	}
}

// TestSetCost changes costs in both senses and holds the optimum to that of a
// solver made anew, without the ways to mend a wrong one.
func TestSetCost(t *testing.T) {
	defer func(all []func(*Solver, *control) Result) { recoveries = all }(recoveries)
	recoveries = nil
	rng := rand.New(rand.NewPCG(4, 4))
	for k := range 300 {
		p := wild(rng)
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		s.Solve(context.Background(), Limits{})
		for j := range p.Cols {
			p.Cols[j].Cost = float64(rng.IntN(19) - 9)
			s.SetCost(j, p.Cols[j].Cost)
		}
		got := s.Solve(context.Background(), Limits{})
		fresh, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		want := fresh.Solve(context.Background(), Limits{})
		if got.Status != want.Status || want.Status == Optimal && math.Abs(got.Value-want.Value) > 1e-8*(1+math.Abs(want.Value)) {
			t.Fatalf("program %d: %v %v after new costs, %v %v afresh\n%s", k, got.Status, got.Value, want.Status, want.Value, p)
		}
	}
}

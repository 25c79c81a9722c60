package branch

import (
	"context"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"rationwright/solver/linear"
	"rationwright/solver/simplex"
)

var campaign = flag.Int("campaign", 1, "size of the randomised campaigns: 1 small, 10 middle, 100 full")

// enumerate finds the optimum of p by trying every integer point of its box and
// solving for the rest. best is +Inf (for a minimum) if there is no point. It
// knows nothing of branching.
func enumerate(t *testing.T, p *linear.Problem) (best float64) {
	t.Helper()
	sign := 1.0
	if p.Maximize {
		sign = -1
	}
	best = math.Inf(1)
	eachPoint(p, func(fixed []float64) {
		if v, ok := completed(t, p, fixed); ok {
			best = math.Min(best, sign*v)
		}
	})
	return sign * best
}

// eachPoint calls visit with every choice of the integer columns, the others
// zero.
func eachPoint(p *linear.Problem, visit func(x []float64)) {
	x := make([]float64, len(p.Cols))
	var next func(j int)
	next = func(j int) {
		if j == len(p.Cols) {
			visit(x)
			return
		}
		c := p.Cols[j]
		if !c.Integer {
			next(j + 1)
			return
		}
		for v := math.Ceil(c.Lower); v <= c.Upper; v++ {
			x[j] = v
			next(j + 1)
		}
		x[j] = 0
	}
	next(0)
}

// completed returns the best objective of p with its integers fixed.
func completed(t *testing.T, p *linear.Problem, x []float64) (value float64, ok bool) {
	t.Helper()
	free := false
	for _, c := range p.Cols {
		free = free || !c.Integer
	}
	if !free {
		return Check(p, x)
	}
	q := *p
	q.Cols = append([]linear.Col(nil), p.Cols...)
	for j := range q.Cols {
		if q.Cols[j].Integer {
			q.Cols[j].Lower, q.Cols[j].Upper = x[j], x[j]
		}
	}
	s, err := simplex.New(&q)
	if err != nil {
		t.Fatal(err)
	}
	r := s.Solve(context.Background(), simplex.Limits{})
	if r.Status != simplex.Optimal && r.Status != simplex.Infeasible {
		t.Fatalf("enumeration: relaxation ended %v", r.Status)
	}
	return r.Value, r.Status == simplex.Optimal
}

// randomProblem makes a small mixed-integer program of one of several families;
// all columns have finite boxes, so that it can be enumerated.
func randomProblem(rng *rand.Rand) *linear.Problem {
	family := rng.IntN(6)
	n, m := 2+rng.IntN(5), 1+rng.IntN(6)
	p := &linear.Problem{Name: fmt.Sprintf("family %d", family), Maximize: rng.IntN(2) == 0, Offset: float64(rng.IntN(5))}
	coef := func() float64 { return float64(rng.IntN(11) - 5) }
	for i := range m {
		lo, up := math.Inf(-1), math.Inf(1)
		b := float64(rng.IntN(20) - 4)
		switch rng.IntN(4) {
		case 0:
			lo = -b
		case 1:
			lo, up = b-float64(rng.IntN(9)), b
		default:
			up = b
		}
		if family == 3 && i == 0 { // an equation
			lo, up = b, b
		}
		p.AddRow(fmt.Sprintf("r%d", i), lo, up)
	}
	for j := range n {
		lo := float64(rng.IntN(4) - 2)
		up := lo + float64(rng.IntN(5))
		integer := rng.IntN(3) > 0
		switch family {
		case 1: // binary
			lo, up, integer = 0, 1, true
		case 2: // packs and grams
			lo, integer = 0, j%2 == 0
		}
		cost := coef()
		if family == 4 {
			cost = float64(rng.IntN(100)) / 7
		}
		p.AddCol(fmt.Sprintf("x%d", j), cost, lo, up, integer)
		for i := range m {
			if rng.IntN(3) == 0 {
				continue
			}
			v := coef()
			if family == 5 {
				v *= math.Pow(10, float64(rng.IntN(5)-2))
			}
			p.Set(i, j, v)
		}
	}
	return p
}

// TestRandomAgainstEnumeration solves small programs and compares status and
// optimum with exhaustive enumeration; the audit must confirm each proof.
func TestRandomAgainstEnumeration(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for k := range 400 * *campaign {
		p := randomProblem(rng)
		want := enumerate(t, p)
		r := Solve(context.Background(), p, Options{Audit: true})
		name := fmt.Sprintf("program %d (%s)", k, p.Name)
		if math.IsInf(want, 0) {
			if r.Status != Infeasible {
				t.Fatalf("%s: status %v value %g, want infeasible (%s)\n%s", name, r.Status, r.Value, r.Why, p.String())
			}
			if a := Audit(context.Background(), p, r); !a.BoundOK || a.CutsTrusted > 0 {
				t.Fatalf("%s: infeasible by %q, audit %+v\n%s", name, r.Why, a, p.String())
			}
			continue
		}
		if r.Status != Optimal || math.Abs(r.Value-want) > 1e-6*math.Max(1, math.Abs(want)) {
			t.Fatalf("%s: status %v value %g bound %g, want optimal %g (%s)\n%s", name, r.Status, r.Value, r.Bound, want, r.Why, p.String())
		}
		if v, ok := Check(p, r.X); !ok || math.Abs(v-r.Value) > 1e-9*math.Max(1, math.Abs(v)) {
			t.Fatalf("%s: point feasible %v, recomputed %g, stated %g", name, ok, v, r.Value)
		}
		if a := Audit(context.Background(), p, r); !confirmed(a) || !a.ValueOK {
			t.Fatalf("%s: audit %+v\n%s", name, a, p.String())
		}
	}
}

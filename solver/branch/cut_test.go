package branch

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"rationwright/solver/linear"
	"rationwright/solver/simplex"
)

// TestCutsKeepPoints makes the cuts of the root for small random programs and
// holds every integer point against them: for each choice of the integers the
// greatest value of the cut's left side, over the rows of the original, must
// not pass its right side.
func TestCutsKeepPoints(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	made := 0
	for k := range 150 * *campaign {
		p := randomProblem(rng)
		if k%5 == 0 {
			p = knapsackProblem(rng)
		}
		s := &search{space: &space{program: newProgram(p)}, ctx: context.Background()}
		// Only what holds for every point may be done here: no dominated
		// columns, no dual fixing.
		for _, j := range s.integers {
			if !s.roundBounds(j) {
				continue
			}
		}
		s.findLocks()
		s.findVariableBounds()
		r, err := newRelaxation(s.space, nil, nil)
		if err != nil {
			t.Fatal(err)
		}
		out := r.solve(s.ctx, math.Inf(1), 0)
		if out.status != simplex.Optimal {
			continue
		}
		s.cutRoot(r, out)
		for _, c := range s.cuts {
			made++
			eachPoint(p, func(x []float64) {
				if top, ok := greatest(t, p, x, c.terms); ok && top > c.upper+1e-7*math.Max(1, math.Abs(c.upper)) {
					t.Fatalf("program %d: cut %v ≤ %v cuts off %v, where it is %v\n%s",
						k, c.terms, c.upper, x, top, p.String())
				}
			})
		}
	}
	if made == 0 {
		t.Error("no cut was made")
	}
}

// greatest returns the greatest value of a sum over the points of p with the
// integers given.
func greatest(t *testing.T, p *linear.Problem, x []float64, terms []term) (top float64, ok bool) {
	t.Helper()
	q := *p
	q.Maximize, q.Offset = true, 0
	q.Cols = append([]linear.Col(nil), p.Cols...)
	for j := range q.Cols {
		q.Cols[j].Cost = coefficientOf(terms, j)
		if q.Cols[j].Integer {
			q.Cols[j].Lower, q.Cols[j].Upper = x[j], x[j]
		}
	}
	v, ok := completed(t, &q, x)
	return v, ok
}

// knapsackProblem makes zero-one programs with one or two knapsack rows, and
// grams held by packs.
func knapsackProblem(rng *rand.Rand) *linear.Problem {
	p := &linear.Problem{Name: "knapsack", Maximize: true}
	n := 5 + rng.IntN(3)
	p.AddRow("weight", -inf, float64(10+rng.IntN(20)))
	p.AddRow("held", -inf, 0)
	p.AddRow("room", -inf, float64(20+rng.IntN(20)))
	for range n {
		col(p, float64(1+rng.IntN(20)), 0, 1, true, float64(2+rng.IntN(12)), 0, float64(1+rng.IntN(5)))
	}
	for range 2 {
		col(p, 2+rng.Float64(), 0, float64(2+rng.IntN(4)), false, 0, 1, 0.3)
	}
	col(p, -float64(3+rng.IntN(5)), 0, 2, true, 1, -float64(4+rng.IntN(9)), 0)
	return p
}

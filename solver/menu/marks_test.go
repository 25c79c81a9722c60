package menu

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// TestStartsWhereAnotherEnded: a program that is like another but for one thing less, one
// more and another order ends at the same value from there as from nothing, in fewer
// iterations.
func TestStartsWhereAnotherEnded(t *testing.T) {
	built := func(things []int) *program {
		p := &program{}
		common := p.row(1000, inf)
		for _, thing := range things {
			p.mark(thing)
			rng := rand.New(rand.NewPCG(uint64(thing), 1))
			for range 3 {
				row := p.row(-inf, 10+10*rng.Float64())
				for range 4 {
					j := p.col(1+rng.Float64(), inf)
					p.Set(row, j, 1+rng.Float64())
					p.Set(common, j, 1+rng.Float64())
				}
			}
		}
		return p
	}
	solve := func(p *program, from places) (simplex.Result, *search.Relaxation) {
		s, err := search.Relax(p.problem())
		if err != nil {
			t.Fatal(err)
		}
		if from != nil {
			if !from.start(&p.marks, s) {
				t.Fatal("it does not start from there")
			}
		}
		r := s.Solve(context.Background())
		if r.Status != simplex.Optimal {
			t.Fatalf("%s %s", r.Status, r.Why)
		}
		return r, s
	}
	first := make([]int, 30)
	for i := range first {
		first[i] = i
	}
	p := built(first)
	_, s := solve(p, nil)
	seen := places{}
	seen.keep(&p.marks, s)
	second := append([]int{99}, first[1:]...)
	cold, _ := solve(built(second), nil)
	warm, _ := solve(built(second), seen)
	if math.Abs(cold.Value-warm.Value) > 1e-6*cold.Value {
		t.Errorf("%g from where another ended, %g from nothing", warm.Value, cold.Value)
	}
	if 2*warm.Iterations > cold.Iterations {
		t.Errorf("%d iterations from where another ended, %d from nothing", warm.Iterations, cold.Iterations)
	}
}

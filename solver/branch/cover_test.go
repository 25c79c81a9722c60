package branch

import (
	"context"
	"math"
	"testing"

	"rationwright/solver/linear"
)

// TestCoverOverfills: three members of weight 2 are a cover of a knapsack that holds a
// little less than 6, so that two may be one; of one that holds 6 they are none, nor
// where it holds a little more.
func TestCoverOverfills(t *testing.T) {
	for _, c := range []struct {
		side float64
		want bool
	}{{6.5, false}, {6, false}, {5.99, true}, {5.5, true}, {5, true}} {
		p := &linear.Problem{Maximize: true}
		row := p.AddRow("weight", -linear.Inf, c.side)
		for _, name := range []string{"a", "b", "c"} {
			p.Set(row, p.AddCol(name, 1, 0, 1, true), 2)
		}
		s := &search{space: &space{program: newProgram(p)}, ctx: context.Background()}
		s.findLocks()
		s.findVariableBounds()
		r, err := newRelaxation(s.space, nil, nil)
		if err != nil {
			t.Fatal(err)
		}
		x := []float64{1, 1, math.Min(1, (c.side-4)/2)}
		got := r.cover(newWorkspace(3), 0, true, x)
		if (got != nil) != c.want {
			t.Errorf("a knapsack of %g: cut %v, want one %v", c.side, got, c.want)
		}
		if got != nil && (math.Abs(got.upper-2) > 1e-9 || len(got.terms) != 3) {
			t.Errorf("a knapsack of %g: %v ≤ %g, want a + b + c ≤ 2", c.side, got.terms, got.upper)
		}
	}
}

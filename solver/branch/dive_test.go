package branch

import (
	"context"
	"math"
	"testing"

	"rationwright/solver/linear"
)

// TestDive: fractions are raised until all is whole where no row minds more of a column, and
// nothing is raised where one does. 2x + 3y ≥ 7 at costs of 1 and 2 is 3.5 of x; rounded up,
// 4 of x at a cost of 4. A row that x may not go beyond minds, and one of y alone does not.
func TestDive(t *testing.T) {
	for _, c := range []struct {
		name   string
		x, y   float64 // coefficients of a row of at most 10; 0: the column is not in it
		points bool
	}{{"no limit", 0, 0, true}, {"a limit of x", 1, 0, false}, {"a limit of y", 0, 1, true}, {"a floor of x", -1, 0, true}} {
		p := &linear.Problem{}
		x, y := p.AddCol("x", 1, 0, 9, true), p.AddCol("y", 2, 0, 9, true)
		need, limit := p.AddRow("need", 7, math.Inf(1)), p.AddRow("limit", math.Inf(-1), 10)
		p.Set(need, x, 2)
		p.Set(need, y, 3)
		if c.x != 0 {
			p.Set(limit, x, c.x)
		}
		if c.y != 0 {
			p.Set(limit, y, c.y)
		}
		s := &space{program: newProgram(p)}
		s.findLocks()
		r, err := newRelaxation(s, nil, nil)
		if err != nil {
			t.Fatal(err)
		}
		h := newLNS(s, s.newGuide(r.solve(context.Background(), math.Inf(1), 0)), 1)
		h.r = r
		switch got := h.dive(context.Background()); {
		case !c.points && got != nil:
			t.Errorf("%s: %v, want no point", c.name, got.x)
		case c.points && (got == nil || math.Abs(got.value-4) > 1e-9):
			t.Errorf("%s: %+v, want a value of 4", c.name, got)
		}
	}
}

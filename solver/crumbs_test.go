package solver

import (
	"context"
	"math"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/plantest"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// A crumb that is left in a plan cannot be given up by itself: with the packs as
// they are, the others' shares do not make up for it at the plan's value without as
// many crumbs of something else. What is
// given up costs next to nothing, and the plan still passes the check.
func TestNobodyEatsACrumbInVain(t *testing.T) {
	tried := 0
	for _, least := range []ration.Least{ration.LeastCost, ration.LeastWeight, ration.LeastVolume} {
		req := &ration.Request{
			People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Torgeir", 40, nutrients.Male), rationtest.Adult("Solveig", 71, nutrients.Female)},
			Table:  rationtest.Table(t), Least: least, Start: "2026-11-25", Time: time.Minute, Work: 8000, Within: 0.02,
		}
		plan := plantest.MustMake(t, req)
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		x := m.PointOf(plan)
		left, count := 0, func(x []float64) int {
			n := 0
			for _, e := range m.Eaters {
				for _, y := range e.Eats {
					if x[y.Col] > model.Dust && x[y.Col] < search.CrumbShare*y.CapG/m.Days() {
						n++
					}
				}
			}
			return n
		}
		all := count(x)
		for _, e := range m.Eaters {
			for _, y := range e.Eats {
				if x[y.Col] <= model.Dust || x[y.Col] >= search.CrumbShare*y.CapG/m.Days() {
					continue
				}
				left++
				p := m.Problem.Clone()
				m.FixPacks(p, x)
				p.Cols[y.Col].Upper = 0
				for i := range p.Rows {
					p.Rows[i].Lazy = false
				}
				s, err := simplex.New(p.Relaxation())
				if err != nil {
					t.Fatal(err)
				}
				result := s.Solve(context.Background(), simplex.Limits{})
				if result.Status == simplex.Optimal && result.Value < *plan.Value*(1+search.CrumbSlack/2) && count(result.X) < all {
					t.Errorf("least %s: %s eats %.2g g of %s in %d days, and need not: %g against %g", least, e.Person.Name, x[y.Col],
						m.Larder[y.Food].Food.Name, m.Request.Days, result.Value, *plan.Value)
				}
			}
		}
		if plan.Bound == nil || math.IsNaN(*plan.Gap) {
			t.Errorf("least %s: no bound", least)
		}
		t.Logf("least %s: %d crumbs that are needed", least, left)
		tried += left
	}
	if tried == 0 {
		t.Error("no plan has a crumb: the test shows nothing")
	}
}

package solver

import (
	"context"
	"math"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/simplex"
)

// A morsel that is left in a plan cannot be given up by itself: with the packs as
// they are, the others' shares do not make up for it at the plan's value. What is
// given up costs next to nothing, and the plan still passes the check.
func TestNobodyEatsAMorselInVain(t *testing.T) {
	for _, least := range []ration.Least{ration.LeastCost, ration.LeastWeight, ration.LeastVolume} {
		req := &ration.Request{
			People: []nutrients.Person{adult("Signe", 30, nutrients.Female), adult("Torgeir", 40, nutrients.Male), adult("Solveig", 71, nutrients.Female)},
			Table:  table(t), Least: least, Start: "2026-11-25", Time: time.Minute, Work: 8000, Within: 0.02,
		}
		plan := mustMake(t, req)
		r, err := Build(req)
		if err != nil {
			t.Fatal(err)
		}
		x := r.pointOf(plan)
		left := 0
		for _, e := range r.eaters {
			for _, y := range e.eats {
				if x[y.col] <= dust || x[y.col] >= morsel*y.capG/r.days() {
					continue
				}
				left++
				p := r.copyProblem()
				r.fixPacks(p, x)
				p.Cols[y.col].Upper = 0
				for i := range p.Rows {
					p.Rows[i].Lazy = false
				}
				s, err := simplex.New(p.Relaxation())
				if err != nil {
					t.Fatal(err)
				}
				result := s.Solve(context.Background(), simplex.Limits{})
				if result.Status == simplex.Optimal && result.Value < *plan.Value*(1+morselSlack/2) {
					t.Errorf("least %s: %s eats %.2g g of %s in %d days, and need not: %g against %g", least, e.person.Name, x[y.col],
						r.larder[y.food].food.Name, r.Request.Days, result.Value, *plan.Value)
				}
			}
		}
		if plan.Bound == nil || math.IsNaN(*plan.Gap) {
			t.Errorf("least %s: no bound", least)
		}
		t.Logf("least %s: %d morsels that are needed", least, left)
	}
}

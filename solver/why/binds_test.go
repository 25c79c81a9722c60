package why

import (
	"context"
	"math"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/answer"
	"rationwright/solver/linear"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestOnlyWhatBindsIsTold: a limit is told of a row that stands at it in the relaxation, at
// that side, and of no other; of an equation once.
func TestOnlyWhatBindsIsTold(t *testing.T) {
	w := relaxation(t, rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female)))
	told, apart := 0, 0
	for i, row := range w.model.Problem.Rows {
		for _, upper := range []bool{false, true} {
			amount := row.Lower
			if upper {
				amount = row.Upper
			}
			if math.Abs(amount) == linear.Inf {
				continue
			}
			far := math.Abs(w.root.RowValue[i]-amount) > 1e-3*math.Max(1, math.Abs(amount))
			p, binds, err := w.limit(context.Background(), i, upper)
			if err != nil {
				t.Fatal(err)
			}
			switch {
			case binds && far:
				t.Errorf("%s is at %g, told at %g: %+v", row.Name, w.root.RowValue[i], amount, p)
			case binds && (upper && p.Marginal > 1e-9 || !upper && p.Marginal < -1e-9):
				t.Errorf("%s has the price of its other side: %+v", row.Name, p)
			case binds && p.largest() < answer.DullPrice:
				t.Errorf("%s costs nothing and is told: %+v", row.Name, p)
			case binds:
				told++
			case far:
				apart++
			}
		}
	}
	if told < 2 || apart < 2 {
		t.Errorf("%d limits bind and %d stand apart: the test shows nothing", told, apart)
	}
}

// TestAlmostReachedIsNotReached: a limit that is missed by less than the step with which
// slopes are taken has no price, though its slopes would say so: it does not bind.
func TestAlmostReachedIsNotReached(t *testing.T) {
	w := relaxation(t, rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female)))
	bound := 0
	for i := range w.model.Problem.Rows {
		row := &w.model.Problem.Rows[i]
		if row.Lower == row.Upper || math.Abs(row.Lower) < 1e-3 || math.IsInf(row.Lower, 0) {
			continue
		}
		if _, binds, err := w.limit(t.Context(), i, false); err != nil || !binds {
			continue
		}
		bound++
		was := row.Lower
		row.Lower = was - limitStep/5*math.Abs(was)
		if p, binds, err := w.limit(t.Context(), i, false); err != nil || binds {
			t.Errorf("%s is at %g, told at %g: %+v, %v", row.Name, w.root.RowValue[i], row.Lower, p, err)
		}
		row.Lower = was
		w.lp.Solver.SetRowBounds(w.lp.At[i], row.Lower, row.Upper)
	}
	if bound == 0 {
		t.Error("nothing binds: the test shows nothing")
	}
}

// TestReserveIsNotEaten: of the packs of a food those that are set aside do not count.
func TestReserveIsNotEaten(t *testing.T) {
	w := &explainer{plan: &ration.Plan{Packs: []ration.PlanPack{
		{Food: "sugar, white", Count: 2}, {Food: "sugar, white", Count: 5, Reserve: true}, {Food: "salt", Count: 9}, {Food: "sugar, white", Count: 1, FromStock: 1},
	}}}
	for name, want := range map[string]int{"sugar, white": 3, "salt": 9, "rice": 0} {
		if got := w.inPlan(&foods.Food{Name: name}); got != want {
			t.Errorf("%d packs of %s, want %d", got, name, want)
		}
	}
}

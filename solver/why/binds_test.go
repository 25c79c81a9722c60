package why

import (
	"context"
	"math"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/answer"
	"rationwright/solver/linear"
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

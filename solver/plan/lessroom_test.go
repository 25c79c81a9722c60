package plan

import (
	"math"
	"testing"

	"rationwright/foods/stores"
	"rationwright/solver/ration"
)

// TestLessRoom: of 10 boxes of 10 L and 5 kg, 2 find no place, so that a plan has to do with
// 80 L; and with 40 kg where the boards bear little more than is stored, with all that they
// bear where they bear far more.
func TestLessRoom(t *testing.T) {
	box := stores.Load{Key: "box", LengthMM: 250, WidthMM: 200, HeightMM: 200, Kg: 5, Count: 10}
	for _, c := range []struct{ roomL, bearsKg, wantL, wantKg float64 }{
		{200, 200, 80, 200}, // far from the load: room alone is short
		{200, 55, 80, 40},
		{200, 50, 80, 40},
		{90, 50, 70, 40}, // less room than is stored: less of that
		{200, 45, 80, 35},
	} {
		fit := &ration.ShelfFit{Loads: []stores.Load{box, {Key: "other", LengthMM: 1, WidthMM: 1, HeightMM: 1, Count: 0}}}
		fit.Left = []stores.LeftOver{{Pack: "box", Count: 2}}
		boxL, kg := lessRoom(fit, c.roomL, c.bearsKg)
		if math.Abs(boxL-c.wantL) > 1e-9 || math.Abs(kg-c.wantKg) > 1e-9 {
			t.Errorf("boards with %g L that bear %g kg: %g L and %g kg left, want %g and %g", c.roomL, c.bearsKg, boxL, kg, c.wantL, c.wantKg)
		}
	}
}

package rules

import (
	"math"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// In a hot climate the need to drink is twice the usual (FEMA and American Red
// Cross: heat can double the amount), but never past what a clinician allows, and
// what a clinician ordered stays as it is.
func TestHeatAndOrders(t *testing.T) {
	limit := func(litres float64, kind string) *nutrients.Limit {
		return &nutrients.Limit{Amount: litres, Kind: kind}
	}
	for _, c := range []struct {
		name         string
		water        nutrients.WaterNeed
		total, drink float64 // in the heat
	}{
		{"usual", nutrients.WaterNeed{Total: limit(2.7, "AI"), Drinks: limit(1.2, "planning")}, 5.4, 2.4},
		{"at least so much is ordered", nutrients.WaterNeed{Total: limit(2.7, "AI"), Drinks: limit(2, nutrients.KindOrder)}, 5.4, 2},
		{"at most so much is ordered", nutrients.WaterNeed{Total: limit(1.2, nutrients.KindOrder), Drinks: limit(0.9, "planning"), Most: limit(1.2, nutrients.KindOrder)}, 1.2, 1.2},
	} {
		hot := &ration.Request{Hot: true}
		if got := TotalWaterL(hot, &c.water); math.Abs(got-c.total) > 1e-9 {
			t.Errorf("%s: %g L in all, want %g", c.name, got, c.total)
		}
		if got := LeastDrinksL(hot, &c.water); math.Abs(got-c.drink) > 1e-9 {
			t.Errorf("%s: at least %g L drunk, want %g", c.name, got, c.drink)
		}
		if got := LeastDrinksL(&ration.Request{}, &c.water); math.Abs(got-c.water.Drinks.Amount) > 1e-9 {
			t.Errorf("%s: at least %g L drunk without the heat, want %g", c.name, got, c.water.Drinks.Amount)
		}
	}
}

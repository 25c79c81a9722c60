package solver

import (
	"context"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/simplex"
)

// Being allowed to cook takes nothing away: whatever can be eaten without cooking can
// be eaten by those who have a stove and no fuel.
func TestCookingWithoutHeatIsNoWorseThanNone(t *testing.T) {
	none := 0.0
	value := func(cook ration.Cook) float64 {
		r, err := Build(&ration.Request{
			People: []nutrients.Person{adult("Signe", 30, nutrients.Female)}, Table: table(t), Least: ration.LeastCost,
			Start: "2026-11-25", Time: time.Minute, Cook: cook, Limits: ration.Limits{HeatMJ: &none},
		})
		if err != nil {
			t.Fatal(err)
		}
		x, err := relax(r.Problem)
		if err != nil {
			t.Fatal(err)
		}
		result := x.solve(context.Background())
		if result.Status != simplex.Optimal {
			t.Fatalf("cooking %s without heat: %v", cook, result.Status)
		}
		return result.Value
	}
	cold := value(ration.CookNone)
	for _, cook := range []ration.Cook{ration.CookWarm, ration.CookBoil, ration.CookSimmer} {
		if got := value(cook); got > cold*(1+1e-6) {
			t.Errorf("cooking up to %s without heat comes to %g, no cooking at all to %g", cook, got, cold)
		}
	}
}

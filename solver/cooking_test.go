package solver

import (
	"context"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// Being allowed to cook takes nothing away: whatever can be eaten without cooking can
// be eaten by those who have a stove and no fuel.
func TestCookingWithoutHeatIsNoWorseThanNone(t *testing.T) {
	none := 0.0
	value := func(cook ration.Cook) float64 {
		m, err := model.Build(&ration.Request{
			People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female)}, Table: rationtest.Table(t), Least: ration.LeastCost,
			Start: "2026-11-25", Time: time.Minute, Cook: cook, Limits: ration.Limits{HeatMJ: &none},
		})
		if err != nil {
			t.Fatal(err)
		}
		x, err := search.Relax(m.Problem)
		if err != nil {
			t.Fatal(err)
		}
		result := x.Solve(context.Background())
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

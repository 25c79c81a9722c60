package model_test

import (
	"math"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/rationtest"
)

// TestServingSize: an adult's usual serving is that of 2,050 kcal a day (own planning rule, no
// source), and everybody's grows with what they need.
func TestServingSize(t *testing.T) {
	m, err := model.Build(rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Odd", 80, nutrients.Male)))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range m.Eaters {
		kcal := 0.0
		for _, need := range e.Needs.List {
			if need.Nutrient == nutrients.Energy {
				kcal = need.Floor.Amount
			}
		}
		if got := e.ServingSize(); kcal < 1000 || math.Abs(got*2050-kcal) > 1e-6 {
			t.Errorf("%s: servings of %g, for %g kcal", e.Person.Name, got, kcal)
		}
	}
}

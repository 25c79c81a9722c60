package rules

import (
	"math"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// TestWaterIntoFood: the water into an infant's formula is told apart from that of the
// kitchen, both for all heads of a row; of formula a tenth is made and thrown away
// (common practice, no source). By hand: 1 kg of powder at 640 mL per 100 g and 2 kg of
// rice at 200 mL per 100 g, two infants and three adults.
func TestWaterIntoFood(t *testing.T) {
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	var powder, rice *foods.Food
	for _, f := range table.Foods {
		if f.Preparation == nil || f.Preparation.WaterML == 0 {
			continue
		}
		if f.HasTag(foods.TagInfantFormula) && powder == nil {
			powder = f
		}
		if f.Group == "grains" && rice == nil {
			rice = f
		}
	}
	powder.Preparation.WaterML, rice.Preparation.WaterML = 640, 200
	req := &ration.Request{Table: table, Days: 14, Start: "2026-11-25", People: []nutrients.Person{
		{Name: "Liv", AgeMonths: 4, Sex: nutrients.Female, WeightKg: 6, Feeding: nutrients.FormulaFed, Count: 2},
		{Name: "Signe", AgeMonths: 360, Sex: nutrients.Female, Count: 3, Activity: nutrients.LowActive},
	}}
	in := WaterInput(req, []ration.PlanPerson{
		{Name: "Liv", Count: 2, Foods: []ration.PersonFood{{Food: powder.Name, Grams: 1000}}},
		{Name: "Signe", Count: 3, DrinkLPerDay: 2, Foods: []ration.PersonFood{{Food: rice.Name, Grams: 2000}, {Food: "no such food", Grams: 9}}},
	})
	if want := 2 * 1.1 * 6.4; math.Abs(in.FormulaL-want) > 1e-9 {
		t.Errorf("formula takes %g L, want %g", in.FormulaL, want)
	}
	if want := 3 * 4.0; math.Abs(in.PreparationL-want) > 1e-9 {
		t.Errorf("the kitchen takes %g L, want %g", in.PreparationL, want)
	}
	if len(in.Pets) != 0 {
		t.Errorf("water for %+v, but there are no pets", in.Pets)
	}
	if req.Pets = 2; WaterInput(req, nil).Pets[0].Count != 2 {
		t.Errorf("water for %+v, want two pets", WaterInput(req, nil).Pets)
	}
	if len(in.People) != 2 || in.People[1].DrinkLPerDay != 2 || in.People[1].Count != 3 {
		t.Errorf("people %+v", in.People)
	}
}

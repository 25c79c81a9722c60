package rules

import (
	"math"
	"rationwright/foods/stores"
	"slices"
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

// TestWhoTheWaterIsFor: those who are fed with what they drink in the plan, in its order, and after
// them those whom a clinician plans for, with all the water that they need (IOM 2005: 2.7 L of a
// woman), twice as much in the heat; who is ill is marked. Where water is short nobody is reckoned to
// drink less than the least that they must.
func TestWhoTheWaterIsFor(t *testing.T) {
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	person := func(name string, conditions ...nutrients.Condition) nutrients.Person {
		return nutrients.Person{Name: name, AgeMonths: 480, Sex: nutrients.Female, Activity: nutrients.LowActive, Count: 1, Conditions: conditions}
	}
	ragna, signe, odd := person("Ragna", nutrients.Dysphagia), person("Signe"), person("Odd")
	odd.Count = 2
	req := &ration.Request{Table: table, Days: 10, Pets: 3, Start: "2026-11-25", People: []nutrients.Person{ragna, signe, odd}, Ill: []string{"Odd", "Ragna"}}
	served := []ration.PlanPerson{{Name: "Signe", Count: 1, DrinkLPerDay: 0.5}, {Name: "Odd", Count: 2, DrinkLPerDay: 5}}
	in := WaterInput(req, served)
	if in.Days != 10 || in.Hot || !in.HeatCounted || in.WashingL != nil || len(in.People) != 3 || len(in.Pets) != 1 {
		t.Fatalf("%+v", in)
	}
	for i, want := range []struct {
		name    string
		drinks  float64
		refused bool
		ill     bool
	}{{"Signe", 0.5, false, false}, {"Odd", 5, false, true}, {"Ragna", 2.7, true, true}} {
		p := in.People[i]
		if p.Name != want.name || p.DrinkLPerDay != want.drinks || p.Refused != want.refused || slices.Contains(p.Tags, stores.Ill) != want.ill {
			t.Errorf("%+v, want %+v", p, want)
		}
	}
	needs, err := nutrients.For(signe, nutrients.Options{})
	if err != nil {
		t.Fatal(err)
	}
	must := needs.Water.Drinks.Amount
	if must <= 0.5 || must >= 5 {
		t.Fatalf("Signe must drink %g L: the test shows nothing", must)
	}
	asked := []ration.PlanPerson{{Name: "Signe", Count: 1, DrinkLPerDay: must}, served[1]}
	if got, want := WaterShort(req, served, 50), WaterShort(req, asked, 50); got.MissingL != want.MissingL || got.Days != want.Days || got.MissingL <= 0 {
		t.Errorf("with half a litre %g L are missing, with what she must drink %g", got.MissingL, want.MissingL)
	}
	if got, want := WaterShort(req, served, 50).MissingL, stores.Short(stores.ComputeWater(in), 50, in.Pets).MissingL; got <= want {
		t.Errorf("with what she must drink no more is missing: %g, %g", got, want)
	}
	req.Hot = true
	if in := WaterInput(req, served); !in.Hot || in.People[2].DrinkLPerDay != 5.4 {
		t.Errorf("in the heat %+v", in.People)
	}
	if got := RefusedDrinkL(req, &nutrients.Needs{}); got != 0 {
		t.Errorf("%g L of whom no water is known", got)
	}
	if got := LeastDrinksL(req, &nutrients.WaterNeed{}); got != 0 {
		t.Errorf("%g L where no drinks are asked", got)
	}
	// Seven US gallons a head for a fortnight, a gallon a day for a pet, of ten days.
	if got, want := AllowanceL(req), 10*3.785411784*(4*0.5+3); math.Abs(got-want) > 0.01 {
		t.Errorf("the usual allowance is %g L, want %g", got, want)
	}
}

// TestOptionsOfNeeds: the needs are asked for as the request has it.
func TestOptionsOfNeeds(t *testing.T) {
	got := NeedOptions(&ration.Request{Standard: nutrients.StandardEAR, Energy: nutrients.Energy2005, LeanEnergy: true, Start: "2026-11-25"})
	if want := (nutrients.Options{Standard: nutrients.StandardEAR, EnergySet: nutrients.Energy2005, LeanEnergy: true, Start: "2026-11-25"}); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	if NeedOptions(&ration.Request{EasyOpen: true, Hot: true}).LeanEnergy {
		t.Error("lean energy unasked")
	}
}

// TestCautionsAsTheyStand: each caution of a situation is in the plan with its action and source.
func TestCautionsAsTheyStand(t *testing.T) {
	s := stores.Situation{}
	got, want := CautionsOf(s), s.Cautions()
	if len(got) != len(want) || len(got) == 0 {
		t.Fatalf("%d cautions, want %d", len(got), len(want))
	}
	for i, c := range want {
		if g := got[i]; g.ID != c.ID || g.Severity != c.Severity || g.Text != c.Text+" "+c.Action || g.Source != ration.SourceOf(c.Source, c.Verified) {
			t.Errorf("%+v, want %+v", g, c)
		}
	}
}

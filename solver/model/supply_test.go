package model_test

import (
	"math"
	"slices"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// rowNamed is the row of a program of that name, -1 where it has none.
func rowNamed(p *linear.Problem, name string) int {
	return slices.IndexFunc(p.Rows, func(r linear.Row) bool { return r.Name == name })
}

// TestWaterThatNoFoodChanges, by hand for 14 days: a litre a head for washing, or what is
// asked for; a gallon, 3.785411784 L, a pet; and with a tenth for what is spilt the drinks of
// those who have none in the plan: 4 quarts, 3.785 L, of an infant of six months and over who
// is ill (CDC), and of whom a clinician plans for all the water that they need, 3.7 L of a
// man and 2.7 L of a woman (IOM 2005), or 4 quarts if that is more.
func TestWaterThatNoFoodChanges(t *testing.T) {
	man := rationtest.Adult("Odd", 40, nutrients.Male)
	planned := func(sex nutrients.Sex) nutrients.Person {
		p := rationtest.Adult("Aud", 60, sex)
		p.Conditions = []nutrients.Condition{nutrients.KidneyDisease}
		return p
	}
	infant := func(months int) nutrients.Person {
		return rationtest.Infant("Liv", months, 8, nutrients.FormulaFed)
	}
	twins := infant(8)
	twins.Count = 2
	zero, two := 0.0, 2.0
	const day = 14
	for _, c := range []struct {
		name   string
		people []nutrients.Person
		change func(*ration.Request)
		want   float64
	}{
		{"a man", []nutrients.Person{man}, nil, day},
		{"a man who is ill drinks by the plan", []nutrients.Person{man}, func(r *ration.Request) { r.Ill = []string{"Odd"} }, day},
		{"an infant", []nutrients.Person{man, infant(8)}, nil, 2 * day},
		{"an infant in the heat", []nutrients.Person{man, infant(8)}, func(r *ration.Request) { r.Hot = true }, 2 * day},
		{"an infant who is ill", []nutrients.Person{man, infant(8)}, func(r *ration.Request) { r.Ill = []string{"Liv"} }, 2*day + 1.1*3.785*day},
		{"an infant of six months who is ill", []nutrients.Person{man, infant(6)}, func(r *ration.Request) { r.Ill = []string{"Liv"} }, 2*day + 1.1*3.785*day},
		{"an infant under six months who is ill", []nutrients.Person{man, infant(5)}, func(r *ration.Request) { r.Ill = []string{"Liv"} }, 2 * day},
		{"twins who are ill", []nutrients.Person{man, twins}, func(r *ration.Request) { r.Ill = []string{"Liv"} }, 3*day + 2*1.1*3.785*day},
		{"two pets", []nutrients.Person{man}, func(r *ration.Request) { r.Pets = 2 }, day + 2*3.785411784*day},
		{"no washing, an infant who is ill", []nutrients.Person{man, infant(8)}, func(r *ration.Request) { r.WashingL, r.Ill = &zero, []string{"Liv"} }, 1.1 * 3.785 * day},
		{"two litres to wash", []nutrients.Person{man, infant(8)}, func(r *ration.Request) { r.WashingL = &two }, 4 * day},
		{"a man whom a clinician plans for", []nutrients.Person{man, planned(nutrients.Male)}, nil, 2*day + 1.1*3.7*day},
		{"a woman whom a clinician plans for", []nutrients.Person{man, planned(nutrients.Female)}, nil, 2*day + 1.1*2.7*day},
		{"and who is ill", []nutrients.Person{man, planned(nutrients.Female)}, func(r *ration.Request) { r.Ill = []string{"Aud"} }, 2*day + 1.1*3.785*day},
	} {
		req := rationtest.Basics(t, c.people...)
		if c.change != nil {
			c.change(req)
		}
		m, err := model.Build(req)
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		if got := m.Problem.Rows[rowNamed(m.Problem, "water-stored")].Lower; math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: %g L stored without any food, want %g", c.name, got, c.want)
		}
	}
}

package solver

import (
	"math/rand/v2"
	"slices"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// In a shared pot, what a person may not eat has no path to them: no column of
// the model holds it, whatever the household. Shown on models of random
// households, and on every plan of the campaign by [CheckForbidden].
func TestNoPathToForbiddenFood(t *testing.T) {
	rng := rand.New(rand.NewPCG(2026, 12))
	all := rationtest.Table(t)
	columns, kept := 0, map[string]bool{}
	for range 15 * *rationtest.Campaign {
		household := rationtest.RandomHousehold(rng)
		m, err := model.Build(&ration.Request{People: household, Table: all, Least: ration.LeastWeight})
		if err != nil {
			t.Fatalf("%v: %v", nutrients.HouseholdRows(household), err)
		}
		for j, info := range m.Cols {
			if info.Kind != model.ColEat {
				continue
			}
			columns++
			e, f := m.Eaters[info.Eater], m.Larder[info.Larder].Food
			if why := rationtest.Barred(&e.Person, household, f); why != "" {
				t.Errorf("%s: %s, %v, has column %s", why, e.Person.Name, nutrients.HouseholdRows(household), m.Problem.Cols[j].Name)
			}
			kept[f.Name] = true
		}
	}
	if columns < 5_000 || len(kept) < 200 {
		t.Errorf("only %d columns of %d foods were seen: the test shows too little", columns, len(kept))
	}
}

// The rule of the shared pot itself: everything eaten comes out of packs that
// others may share, so a household with one allergy buys what the others eat,
// and only "!" keeps it out of the house.
func TestSharedPot(t *testing.T) {
	for _, c := range []struct {
		name    string
		allergy nutrients.Allergy
		others  bool // the others may eat it
	}{
		{"an allergy of one", nutrients.Allergy{Allergen: "wheat"}, true},
		{"an allergy of the household", nutrients.Allergy{Allergen: "wheat", Level: nutrients.AllergyHousehold}, false},
	} {
		one, other := rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Arvid", 40, nutrients.Male)
		one.Allergies = []nutrients.Allergy{c.allergy}
		m, err := model.Build(rationtest.Request(t, one, other))
		if err != nil {
			t.Fatal(err)
		}
		for i, want := range []bool{false, c.others} {
			got := slices.ContainsFunc(m.OpenTo(m.Eaters[i]), rationtest.AllergenWords["wheat"].In)
			if got != want {
				t.Errorf("%s: %s may eat wheat: %v, want %v", c.name, m.Eaters[i].Person.Name, got, want)
			}
		}
	}
}

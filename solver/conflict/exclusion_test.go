package conflict

import (
	"slices"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestExclusionsEachLifted: all that a request rules out is listed once, and lifting one
// leaves every other. Allergies are no exclusions.
func TestExclusionsEachLifted(t *testing.T) {
	signe, arvid := rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Arvid", 40, nutrients.Male)
	signe.Dislikes = []string{"white rice", "canned fish"}
	signe.Allergies = []nutrients.Allergy{{Allergen: "peanut"}}
	signe.Rules = []nutrients.Rule{{Kind: nutrients.RuleNo, Food: "lentils", Text: "no lentils"}, {Kind: nutrients.RuleMost, Food: "sugar", Text: "most sugar 10 g/day"}}
	arvid.Dislikes = []string{"white rice"}
	req := &ration.Request{
		People: []nutrients.Person{signe, arvid}, Table: rationtest.Table(t), Cook: ration.CookNone, EasyOpen: true, Without: []string{"pasta", "soups"},
	}
	all := exclusionsOf(req)
	type short struct {
		kind   exclusionKind
		person int
		name   string
	}
	var got []short
	for _, e := range all {
		got = append(got, short{e.kind, e.person, e.name})
	}
	want := []short{
		{excludeFood, -1, "pasta"}, {excludeFood, -1, "soups"}, {excludeCooking, -1, "none"}, {excludeHard, -1, ""},
		{excludeDislike, 0, "white rice"}, {excludeDislike, 0, "canned fish"}, {excludeRule, 0, "lentils"}, {excludeDislike, 1, "white rice"},
	}
	if !slices.Equal(got, want) {
		t.Fatalf("%v, want %v", got, want)
	}
	for k, e := range all {
		var left []short
		for _, other := range exclusionsOf(e.lift(req)) {
			left = append(left, short{other.kind, other.person, other.name})
		}
		if others := slices.Delete(slices.Clone(want), k, k+1); !slices.Equal(left, others) {
			t.Errorf("without %v: %v, want %v", want[k], left, others)
		}
		if p := e.lift(req).People[0]; len(p.Allergies) != 1 || !slices.ContainsFunc(p.Rules, func(r nutrients.Rule) bool { return r.Kind == nutrients.RuleMost }) {
			t.Errorf("without %v an allergy or another rule is gone: %+v", want[k], p)
		}
	}
	if len(exclusionsOf(req)) != len(want) {
		t.Error("lifting changed the request itself")
	}
}

package recheck

import (
	"slices"
	"strings"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/answer"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestEatableAsItFollows: how far people eat a plan is what follows from it; each figure,
// and each rule that gave way, that is another is found.
func TestEatableAsItFollows(t *testing.T) {
	m, err := model.Build(rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female)))
	if err != nil {
		t.Fatal(err)
	}
	fresh := func() *ration.Plan {
		p := answer.EmptyPlan(m)
		p.Totals = &ration.Totals{}
		p.People = []ration.PlanPerson{{Name: "Signe", Count: 1}}
		for _, f := range m.Request.Table.Foods { // far more of everything than anybody eats
			if e := m.LarderOf(f); e != nil && len(e.Buy) > 0 {
				p.People[0].Foods = append(p.People[0].Foods, ration.PersonFood{Food: f.Name, Grams: 5000})
			}
		}
		p.Packs = []ration.PlanPack{{Pack: "a", Food: "a", Count: 1}}
		p.Eatable = answer.Eatable(m, p)
		p.Eatable.Loosened = slices.Clone(p.Eatable.Loosened)
		return p
	}
	p := fresh()
	if found := eatableFindings(m, p); len(found) > 0 || len(p.Eatable.Loosened) < 2 {
		t.Fatalf("as it is: %v; %d rules gave way", found, len(p.Eatable.Loosened))
	}
	for name, c := range map[string]struct {
		change func(*ration.Eatable)
		place  string
	}{
		"products":           {func(e *ration.Eatable) { e.Products++ }, "eatable.products"},
		"sizes":              {func(e *ration.Eatable) { e.MostSizes++ }, "eatable.most_sizes"},
		"crumbs":             {func(e *ration.Eatable) { e.Crumbs++ }, "eatable.crumbs"},
		"share of a food":    {func(e *ration.Eatable) { e.LargestFoodShare *= 0.9 }, "eatable.largest_food_share"},
		"share of a kind":    {func(e *ration.Eatable) { e.LargestKindShare *= 0.9 }, "eatable.largest_kind_share"},
		"a rule fewer":       {func(e *ration.Eatable) { e.Loosened = e.Loosened[1:] }, "eatable.loosened has"},
		"another person":     {func(e *ration.Eatable) { e.Loosened[0].Person = "Arvid" }, "another rule"},
		"another kind":       {func(e *ration.Eatable) { e.Loosened[0].Kind = "moon cheese" }, "another rule"},
		"another unit":       {func(e *ration.Eatable) { e.Loosened[0].Unit = "lb" }, "another rule"},
		"another limit":      {func(e *ration.Eatable) { e.Loosened[0].Limit++ }, "another rule"},
		"another amount":     {func(e *ration.Eatable) { e.Loosened[0].Amount *= 2 }, "eatable.loosened"},
		"of a second aim":    {func(e *ration.Eatable) { v := 1.0; e.Price = &v }, "first is not there"},
		"a bound of its own": {func(e *ration.Eatable) { v := 1.0; e.Bound = &v }, "first is not there"},
	} {
		p := fresh()
		c.change(p.Eatable)
		if found := strings.Join(eatableFindings(m, p), "; "); !strings.Contains(found, c.place) {
			t.Errorf("%s: %q is not in %q", name, c.place, found)
		}
	}
}

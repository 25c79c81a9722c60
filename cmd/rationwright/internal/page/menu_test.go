package page

import (
	"reflect"
	"testing"

	"rationwright/cmd/rationwright/internal/view"
	"rationwright/solver/ration"
)

// TestStripsOfTheMenu: a strip has its day in words, its meals with their dishes, for whom
// where a dish is not for all, be it one person, and the packs that are opened, counted.
func TestStripsOfTheMenu(t *testing.T) {
	r := &Report{Plan: &view.Plan{}}
	r.Shopping = []view.Aisle{{Foods: []view.Food{{Name: "beans", Packs: []view.Packs{{Key: "beans-400g-can", Size: "400 g can"}}}}}}
	r.addStrips(&ration.Menu{
		Notice: "All is eaten.", Cautions: []string{"Boil beans."},
		Misfits: []ration.MenuMisfit{{Text: "a spoon of oil is left"}, {Person: "Torben\x1b", Text: "no soup for them"}},
		Days: []ration.MenuDay{
			{Day: 1, Date: "2026-01-05", Tonight: []string{"soak beans"}, Meals: []ration.MenuMeal{
				{Meal: "midday", Opens: []string{"beans-400g-can", "beans-400g-can"}, Dishes: []ration.MenuDish{
					{Name: "bean stew"}, {Name: "rice", For: []string{"Torben"}}, {Name: "tuna", For: []string{"Signe", "Siri"}},
				}},
				{Meal: "evening"},
			}},
			{Day: 2, Date: "soon", Cold: true},
		},
	})
	want := []Strip{
		{Title: "Day 1, Monday 5 January", Tonight: []string{"soak beans"}, Meals: []StripMeal{
			{Name: "midday", Dishes: []string{"bean stew", "rice (Torben)", "tuna (Signe and Siri)"}, Opens: []string{"2 × beans 400 g can"}}, {Name: "evening"},
		}},
		{Title: "Day 2", Cold: true},
	}
	if !reflect.DeepEqual(r.Strips, want) {
		t.Errorf("%+v\nwant %+v", r.Strips, want)
	}
	if said := []string{"All is eaten.", "A spoon of oil is left.", "Torben : No soup for them."}; !reflect.DeepEqual(r.MenuSays, said) || !reflect.DeepEqual(r.Kitchen, []string{"Boil beans."}) {
		t.Errorf("%q, %q, want %q", r.MenuSays, r.Kitchen, said)
	}
}

package dishes

import (
	"strings"
	"testing"

	"rationwright/foods"
)

// TestVerifyFindsEachFault: a dish in which all fits has no finding; each change of one thing has the
// one that it makes, and its near miss has none. Of a dish of the user's own it is a warning.
func TestVerifyFindsEachFault(t *testing.T) {
	beans := &foods.Food{Name: "dry beans", OccasionG: 80, Preparation: &foods.Preparation{Class: "simmer"}}
	milk := &foods.Food{Name: "milk", Allergens: []string{"milk"}}
	fruit := &foods.Food{Name: "fruit", Serves: []foods.Serving{{Group: "fruit", Per100g: 1}}}
	dairy := &foods.Food{Name: "yoghurt", Serves: []foods.Serving{{Group: "dairy", Per100g: 1}}}
	meat := &foods.Food{Name: "ham", Tags: []string{"meat"}}
	egg := &foods.Food{Name: "egg", Allergens: []string{"wheat", "egg"}}
	oil := &foods.Food{Name: "oil", Serves: []foods.Serving{{Group: "oils", Per100g: 1}}, Allergens: []string{"soy"}, Tags: []string{"vegan"}}
	good := func() *Dish {
		return &Dish{
			Key: "x", Slots: []Slot{Midday}, Cooking: "simmer", SimmerMin: 60, SoakHours: 12, Pots: 1, TimesUsual: 2, TimesMax: 4,
			Parts: []*Part{{Name: "beans", Role: "base", UsualG: 80, ReckonedAs: beans, EatenAs: "soaked"}, {Name: "oil", Role: "fat", UsualG: 10, ReckonedAs: oil}},
		}
	}
	wet := func(f *foods.Food) func(*Dish) {
		return func(d *Dish) {
			d.Parts = append(d.Parts, &Part{Name: "wet", Role: "flavour", UsualG: 10, ReckonedAs: f, EatenAs: "soaked"})
		}
	}
	const stands = "x: wet stands 12 hours; nothing wet with milk, egg, juice, fruit, fish or meat stands over an hour"
	for _, c := range []struct {
		name   string
		change func(*Dish)
		want   string // "" none
	}{
		{"as it is", func(*Dish) {}, ""},
		{"no pot", func(d *Dish) { d.Pots = 0 }, "x: 0 pots; cooking is simmer"},
		{"two pots", func(d *Dish) { d.Pots = 2 }, "x: 2 pots; cooking is simmer"},
		{"cold in a pot", func(d *Dish) { d.Cooking, d.Parts[0].ReckonedAs = "none", oil }, "x: 1 pots; cooking is none"},
		{"cold in none", func(d *Dish) { d.Cooking, d.Pots, d.Parts[0].ReckonedAs = "none", 0, oil }, ""},
		{"boiled for long", func(d *Dish) { d.Cooking, d.SimmerMin, d.Minutes, d.Parts[0].ReckonedAs = "boil", 20, 30, oil }, "x: simmers 20 minutes; boil is under 20"},
		{"boiled for less", func(d *Dish) { d.Cooking, d.SimmerMin, d.Minutes, d.Parts[0].ReckonedAs = "boil", 19.5, 30, oil }, ""},
		{"for the cold and hot", func(d *Dish) { d.ColdOnly = true }, "x: is for where nothing is heated; cooking is simmer"},
		{"for the cold", func(d *Dish) { d.ColdOnly, d.Cooking, d.Pots, d.Parts[0].ReckonedAs = true, "none", 0, oil }, ""},
		{"no base", func(d *Dish) { d.Parts[0].Role = "vegetable" }, "x: is for a main meal and has neither base nor protein that it cannot do without: who has none of it would count as fed"},
		{"a base that can be left out", func(d *Dish) { d.Parts[0].Optional = true }, "x: is for a main meal and has neither base nor protein that it cannot do without: who has none of it would count as fed"},
		{"protein", func(d *Dish) { d.Parts[0].Role = "protein" }, ""},
		{"a snack without base", func(d *Dish) { d.Slots, d.Parts[0].Role = []Slot{Snack, Drink}, "vegetable" }, ""},
		{"breakfast without base", func(d *Dish) { d.Slots, d.Parts[0].Role = []Slot{Snack, Breakfast}, "vegetable" }, "x: is for a main meal"},
		{"supper without base", func(d *Dish) { d.Slots, d.Parts[0].Role = []Slot{Evening}, "vegetable" }, "x: is for a main meal"},
		{"not cooked enough", func(d *Dish) { d.Cooking, d.SimmerMin = "boil", 10 }, "x: dry beans needs simmer; cooking is boil"},
		{"a class that counts", func(d *Dish) { d.Cooking, d.SimmerMin, d.Parts[0].Note = "boil", 10, "the class of the dish counts" }, ""},
		{"much", func(d *Dish) { d.Parts[0].UsualG = 84 }, ""}, // 1.05 × 80
		{"too much", func(d *Dish) { d.Parts[0].UsualG = 84.1 }, "x: 84.1 g of dry beans; at most 80 g are eaten at a sitting"},
		{"a child's own", func(d *Dish) { d.Parts[0].UsualG, d.UnderMonths = 84.1, 24 }, ""},
		{"milk stands", wet(milk), stands}, {"egg stands", wet(egg), stands}, {"fruit stands", wet(fruit), stands}, {"dairy stands", wet(dairy), stands}, {"meat stands", wet(meat), stands}, {"oil stands", wet(oil), ""},
		{"milk for an hour", func(d *Dish) { wet(milk)(d); d.SoakHours = 1 }, ""},
		{"milk that can be left out", func(d *Dish) { wet(milk)(d); d.Parts[2].Optional = true }, ""},
		{"milk that is poured on", func(d *Dish) { wet(milk)(d); d.Parts[2].EatenAs = "" }, ""},
	} {
		for _, own := range []bool{false, true} {
			d := good()
			c.change(d)
			d.Own = own
			found := (&Book{Dishes: []*Dish{d}}).Verify()
			want := c.want
			if own && strings.Contains(want, " pots; ") {
				want = "" // of the user's own the pots are taken as they are
			}
			severity := map[bool]foods.Severity{false: foods.Error, true: foods.Warning}[own]
			if len(found) > 1 || (len(found) == 1) != (want != "") || len(found) == 1 && (!strings.HasPrefix(found[0].Text, want) || found[0].Severity != severity || found[0].Check != "dish") {
				t.Errorf("%s, own %v: %+v, want %q", c.name, own, found, want)
			}
		}
	}
}

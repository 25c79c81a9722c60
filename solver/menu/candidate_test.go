package menu

import (
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// TestCandidates: dishes for the household that its kitchen can cook, of which it has what
// they cannot do without for half of it at least; those for children are theirs.
func TestCandidates(t *testing.T) {
	rice, beans := &foods.Food{Name: "rice", Preparation: &foods.Preparation{Class: "boil"}}, &foods.Food{Name: "beans"}
	part := func(f *foods.Food, optional bool) *dishes.Part {
		return &dishes.Part{Name: f.Name, Role: "base", Optional: optional, Options: []dishes.Option{{Food: f, Factor: 1}}, ReckonedAs: f}
	}
	grown := func(grams map[*foods.Food]float64) *eater {
		return &eater{count: 1, size: 1, person: &nutrients.Person{AgeMonths: 360}, grams: grams}
	}
	both, none := map[*foods.Food]float64{rice: 1, beans: 1}, map[*foods.Food]float64{rice: 1}
	for _, c := range []struct {
		name string
		dish dishes.Dish
		cook ration.Cook
		eats []map[*foods.Food]float64 // of each
		want bool
	}{
		{"all have it", dishes.Dish{Cooking: "boil", Parts: []*dishes.Part{part(rice, false), part(beans, false)}}, ration.CookBoil, []map[*foods.Food]float64{both, both}, true},
		{"more cooking than there is", dishes.Dish{Cooking: "boil", Parts: []*dishes.Part{part(beans, false)}}, ration.CookWarm, []map[*foods.Food]float64{both}, false},
		{"less cooking than there is", dishes.Dish{Cooking: "none", Parts: []*dishes.Part{part(beans, false)}}, ration.CookSimmer, []map[*foods.Food]float64{both}, true},
		{"a child's", dishes.Dish{Cooking: "boil", UnderMonths: 12, Parts: []*dishes.Part{part(rice, false)}}, ration.CookBoil, []map[*foods.Food]float64{both}, false},
		{"half have it", dishes.Dish{Cooking: "boil", Parts: []*dishes.Part{part(rice, false), part(beans, false)}}, ration.CookBoil, []map[*foods.Food]float64{both, none}, true},
		{"a third has it", dishes.Dish{Cooking: "boil", Parts: []*dishes.Part{part(rice, false), part(beans, false)}}, ration.CookBoil, []map[*foods.Food]float64{both, none, none}, false},
		{"a third has what may be left", dishes.Dish{Cooking: "boil", Parts: []*dishes.Part{part(rice, false), part(beans, true)}}, ration.CookBoil, []map[*foods.Food]float64{both, none, none}, true},
	} {
		book := &dishes.Book{Dishes: []*dishes.Dish{&c.dish}}
		h := &household{days: 14, book: book, cook: c.cook, of: map[*foods.Food]*stocked{rice: {food: rice}, beans: {food: beans}}}
		for _, grams := range c.eats {
			h.eaters = append(h.eaters, grown(grams))
			h.heads++
		}
		c.dish.Key = c.name
		if got := len(h.candidates()) == 1; got != c.want {
			t.Errorf("%s: a candidate %v, want %v", c.name, got, c.want)
		}
	}
}

// TestWhereADishIsServed: a dish of any of the slots is served at breakfasts, snacks and drinks
// where it has that slot, and at midday and evening where it has one of the two, then at that
// alone; all 32 sets of slots.
func TestWhereADishIsServed(t *testing.T) {
	slots := []dishes.Slot{dishes.Breakfast, dishes.Midday, dishes.Evening, dishes.Snack, dishes.Drink}
	at := [][]kind{{atBreakfasts}, {atMains}, {atMains}, {atSnacks}, {atDrinks}} // of each slot
	for set := range 1 << len(slots) {
		d := &dishes.Dish{}
		var want [kinds]bool
		half := -1 // of the main meals
		for i, s := range slots {
			if set>>i&1 == 0 {
				continue
			}
			d.Slots = append(d.Slots, s)
			for _, k := range at[i] {
				want[k] = true
			}
			switch {
			case s == dishes.Midday:
				half = 0
			case s == dishes.Evening && half < 0:
				half = 1
			case s == dishes.Evening:
				half = -1
			}
		}
		for k := range kinds {
			if got := servedAt(d, k); got != want[k] {
				t.Errorf("%q at places of sort %d: served %v, want %v", d.Slots, k, got, want[k])
			}
			wantHalf := -1
			if k == atMains && want[k] {
				wantHalf = half
			}
			if got := halfOf(d, k); want[k] && got != wantHalf {
				t.Errorf("%q at places of sort %d: half %d of the meals, want %d", d.Slots, k, got, wantHalf)
			}
		}
	}
}

// TestSteadyIsOneOfTheirs: what a medicine asks to keep alike is told of who takes it, by
// what they eat themselves: 60 and 90 µg on two days about a mean of 75, and what others
// eat is not theirs.
func TestSteadyIsOneOfTheirs(t *testing.T) {
	kale := &foods.Food{Name: "kale", Per100g: nutrients.Unknown()}
	kale.Per100g[nutrients.VitaminK] = 300
	one, other := &eater{name: "Olav", steady: []evened{{of: nutrients.VitaminK, mean: 75}}}, &eater{name: "Gro"}
	w := &writer{h: &household{days: 2, eaters: []*eater{one, other}}, menu: &Menu{FromDay: 1}}
	s := &stocked{food: kale}
	list := w.steady([]serving{{eater: one, t: 0, food: s, grams: 20}, {eater: one, t: meals, food: s, grams: 30}, {eater: other, t: 0, food: s, grams: 500}})
	if len(list) != 1 || !strings.HasPrefix(list[0], "Olav, vitamin K: between 60 and 90 µg a day in this menu, 75 on average") || slices.ContainsFunc(list, func(s string) bool { return strings.Contains(s, "furthest") }) {
		t.Errorf("%q", list)
	}
	list = w.steady([]serving{{eater: one, t: 0, food: s, grams: 30}, {eater: one, t: meals, food: s, grams: 10}})
	if len(list) != 1 || !strings.Contains(list[0], "between 30 and 90") || !strings.Contains(list[0], "day 2 is furthest from it, by -60 %") {
		t.Errorf("%q", list)
	}
	list = w.steady([]serving{{eater: one, t: 0, food: s, grams: 10}, {eater: one, t: meals, food: s, grams: 40}})
	if len(list) != 1 || !strings.Contains(list[0], "between 30 and 120") || !strings.Contains(list[0], "day 1 is furthest from it, by -60 %") {
		t.Errorf("%q", list)
	}
}

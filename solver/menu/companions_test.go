package menu

import (
	"context"
	"maps"
	"slices"
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// TestWithWhatItIsEaten: rice and oil make the dish of midday on every day. Garlic, which
// goes with grains, is eaten at midday. Who has no rice has no oil in a dish of rice.
func TestWithWhatItIsEaten(t *testing.T) {
	food := func(name, group string, kcal float64, companions ...string) *foods.Food {
		f := &foods.Food{Name: name, Group: group, OccasionG: 1000, DayG: 1000, Companions: companions, Per100g: nutrients.Unknown()}
		f.Per100g[nutrients.Energy], f.Per100g[nutrients.Protein], f.Per100g[nutrients.Carbohydrate] = kcal, 0, 0
		return f
	}
	rice, oil, garlic := food("rice", "grains", 360), food("oil", "fats and oils", 884), food("garlic", "seasonings", 331, "grains")
	part := func(f *foods.Food, role string, g float64, optional bool) candidatePart {
		o := dishes.Option{Food: f, Factor: 1}
		return candidatePart{part: &dishes.Part{Role: role, MinG: g / 2, UsualG: g, MaxG: 2 * g, Optional: optional, ReckonedAs: f, Options: []dishes.Option{o}}, options: []dishes.Option{o}}
	}
	dish := &choice{candidate: &candidate{dish: &dishes.Dish{Key: "rice", Slots: []dishes.Slot{dishes.Midday}}, parts: []candidatePart{part(rice, "base", 100, false), part(oil, "fat", 10, true)}}}
	const days = 7
	for _, riceG := range []float64{700, 0} {
		e := &eater{name: "A", count: 1, person: &nutrients.Person{AgeMonths: 360, Sex: nutrients.Female}, size: 1, kcal: riceG/days*3.6 + 10*8.84,
			grams: map[*foods.Food]float64{rice: riceG, oil: 10 * days, garlic: 4 * days}}
		h := &household{days: days, eaters: []*eater{e}, of: map[*foods.Food]*stocked{}, byName: map[string]*stocked{}}
		for _, f := range []*foods.Food{rice, oil, garlic} {
			s := &stocked{food: f, grams: e.grams[f], days: days}
			h.foods, h.of[f], h.byName[f.Name] = append(h.foods, s), s, s
		}
		l := make(layout, days*meals)
		for d := range days {
			l[d*meals+atMidday].main = dish
		}
		servings, err := h.share(context.Background(), l)
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range servings {
			if v.food.food == garlic && riceG > 0 && mealOf(v.t) != atMidday {
				t.Errorf("%.1f g of garlic at meal %d, where there is no rice", v.grams, mealOf(v.t))
			}
			if v.food.food == oil && (v.part != nil) != (riceG > 0) {
				t.Errorf("with %g g of rice, %.1f g of oil in the dish: %t", riceG, v.grams, v.part != nil)
			}
		}
		if len(servings) == 0 {
			t.Error("nothing is served")
		}
	}
}

// TestMealsOfCompanions: garlic, which goes with beans, is eaten at the last meal of each day with
// a dish of them: in the evening rather than at midday, and not where beans are not eaten, on a
// cold day, or by an infant or who counts carbohydrate, who have it spread over the day; what
// is eaten by itself, or is opened for a meal, has no such meals.
func TestMealsOfCompanions(t *testing.T) {
	table := newTable(t)
	beans, rice, garlic, salt, paste := table.add("beans", 100), table.add("rice", 360), table.add("garlic", 30), table.add("salt", 0), table.add("paste", 80)
	beans.Group, garlic.Companions, paste.Companions = "canned beans", []string{"canned beans"}, []string{"beans"}
	garlic.Preparation = &foods.Preparation{Class: "boil"} // not eaten cold
	table.of[paste].openings = []*opening{{}}
	stew, bowl := dishOf("stew", "boil", 20, nil, "base", rice, "protein", beans), dishOf("rice", "boil", 20, nil, "base", rice)
	for _, c := range []struct {
		name string
		e    eater
		cold bool
		eats []*foods.Food
		want []int
	}{
		{"all", eater{}, false, []*foods.Food{beans, rice, garlic, salt, paste}, []int{atEvening, meals + atMidday}},
		{"no beans", eater{}, false, []*foods.Food{rice, garlic, paste}, nil},
		{"a cold second day", eater{}, true, []*foods.Food{beans, rice, garlic}, []int{atEvening}},
		{"an infant", eater{infant: true}, false, []*foods.Food{beans, rice, garlic}, nil},
		{"who counts", eater{band: &ration.MealRange{}}, false, []*foods.Food{beans, rice, garlic}, nil},
	} {
		e := c.e
		e.person, e.grams = &nutrients.Person{AgeMonths: 400}, map[*foods.Food]float64{}
		for _, f := range c.eats {
			e.grams[f] = 100
		}
		h := &household{days: 3, eaters: []*eater{&e}, foods: table.foods, of: table.of, cold: map[int]bool{1: c.cold}}
		l := make(layout, 3*meals)
		l[atMidday].main, l[atEvening].main, l[meals+atMidday].main, l[meals+atEvening].main, l[2*meals+atMidday].main = stew, stew, stew, bowl, bowl
		with := l.companionMeals(h, &e)
		got := slices.Sorted(maps.Keys(with[table.of[garlic]]))
		if !slices.Equal(got, c.want) || len(with[table.of[salt]]) > 0 || len(with[table.of[paste]]) > 0 {
			t.Errorf("%s: garlic at %v, want %v; %d foods in all", c.name, got, c.want, len(with))
		}
	}
}

package menu

import (
	"context"
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
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

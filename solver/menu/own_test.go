package menu

import (
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// TestNoDishOfNothing: who has no dish is given one of their own where there is half a
// serving of what makes it beside what their other meals take, and none where there is not.
func TestNoDishOfNothing(t *testing.T) {
	for _, c := range []struct {
		grams float64
		dish  bool
	}{{300, true}, {200, true}, {100, false}, {0.5, false}} {
		rice := &foods.Food{Name: "rice"}
		part := &dishes.Part{Role: "base", MinG: 50, UsualG: 100, MaxG: 150, ReckonedAs: rice, Options: []dishes.Option{{Food: rice, Factor: 1}}}
		bowl := &dishes.Dish{Key: "bowl", Cooking: "none", Slots: []dishes.Slot{dishes.Midday}, TimesMax: 7, Parts: []*dishes.Part{part}}
		table := &dishes.Dish{Key: "table", Cooking: "none", Slots: []dishes.Slot{dishes.Midday}, TimesMax: 7, Parts: []*dishes.Part{part}}
		s := &stocked{food: rice, days: 2}
		e := &eater{person: &nutrients.Person{AgeMonths: 480}, size: 1, count: 1, grams: map[*foods.Food]float64{rice: c.grams}}
		book := &dishes.Book{Dishes: []*dishes.Dish{bowl}}
		h := &household{days: 2, book: book, cook: ration.CookNone, of: map[*foods.Food]*stocked{rice: s}, foods: []*stocked{s}, eaters: []*eater{e}, cold: map[int]bool{}}
		l := make(layout, h.days*meals)
		main := &choice{candidate: &candidate{dish: table, cold: true, parts: []candidatePart{{part: part, options: part.Options}}}}
		l[atMidday].main = main // takes 55 g
		h.swap(l)
		if got := l[meals+atMidday].instead[e] != nil; got != c.dish {
			t.Errorf("%g g of rice for two meals: a dish of one's own %v, want %v", c.grams, got, c.dish)
		}
		if l[atMidday].instead[e] != nil {
			t.Errorf("%g g of rice: another dish in place of the household's", c.grams)
		}
	}
}

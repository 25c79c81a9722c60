package menu

import (
	"math"
	"slices"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
)

// TestMisfitsByHand: in two days two women of a row eat 400 g of rice of 3.6 kcal in dishes,
// 100 g of it and 40 g of oil of 9 kcal beside them; a man all in dishes; 2 g of sugar a day
// are too little to be named, an infant is apart. The worst is said first, and what is to be
// asked for a small child without milk before the rules of the kitchen.
func TestMisfitsByHand(t *testing.T) {
	of := func(name string, kcal float64) *stocked {
		f := &foods.Food{Name: name, Per100g: nutrients.Unknown()}
		f.Per100g[nutrients.Energy] = kcal
		return &stocked{food: f}
	}
	rice, oil, sugar, nuts := of("rice", 360), of("oil", 900), of("sugar", 400), of("nuts", 600)
	two, man, girl, bo := &eater{name: "Ida", count: 2}, &eater{name: "Leif", count: 1}, &eater{name: "Tuva", count: 1}, &eater{name: "Bo", count: 1, infant: true}
	dish := &choice{}
	h := &household{days: 2, foods: []*stocked{rice, oil, sugar, nuts}, eaters: []*eater{two, man, girl, bo}, milkless: []string{"Tuva: ask the clinician."}}
	w := &writer{h: h, menu: &Menu{}}
	w.misfits([]serving{
		{eater: two, of: dish, food: rice, grams: 300}, {eater: two, of: dish, food: rice, grams: 100}, {eater: two, food: rice, grams: 60}, {eater: two, food: rice, grams: 40},
		{eater: two, food: oil, grams: 40}, {eater: two, food: sugar, grams: 2}, {eater: man, of: dish, food: rice, grams: 500},
		{eater: girl, food: nuts, grams: 200}, {eater: bo, food: nuts, grams: 1000},
	})
	// women: 1440 kcal in dishes, 360 of rice, 360 of oil and 8 of sugar beside; man 1800; girl 1200
	if want := (2*1440. + 1800) / (2*(1440+360+360+8) + 1800 + 1200); math.Abs(w.menu.InDishes-want) > 1e-12 {
		t.Errorf("%g in dishes, want %g", w.menu.InDishes, want)
	}
	want := []Misfit{
		{Person: "Tuva", Text: "each day beside the dishes, since none of them takes it: nuts 100 g", Kcal: 600},
		{Person: "Ida", Text: "each day beside the dishes, since none of them takes it: rice 50 g, oil 20 g", Kcal: 360},
	}
	if len(w.menu.Misfits) != 2 {
		t.Fatalf("%+v", w.menu.Misfits)
	}
	for i, m := range w.menu.Misfits {
		if m.Person != want[i].Person || m.Text != want[i].Text || math.Abs(m.Kcal-want[i].Kcal) > 1e-9 {
			t.Errorf("%+v, want %+v", m, want[i])
		}
	}
	if !slices.Equal(w.menu.Cautions, append([]string{"Tuva: ask the clinician."}, kitchenRules...)) {
		t.Errorf("cautions %q", w.menu.Cautions)
	}
}

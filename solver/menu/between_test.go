package menu

import (
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/rationtest"
)

// TestDrinkBesideNoNeighbour: a drink that is the breakfast of the first day is poured beside
// no main meal of that day or the next, but between meals or two days later.
func TestDrinkBesideNoNeighbour(t *testing.T) {
	table := rationtest.Table(t)
	book, err := dishes.Load(table)
	if err != nil {
		t.Fatal(err)
	}
	d := book.Dish("masa-drink")
	if d == nil || !d.Has(dishes.Breakfast) || !d.Has(dishes.Drink) {
		t.Fatal("no breakfast that is a drink: the test shows nothing")
	}
	ida := rationtest.Adult("Ida", 33, nutrients.Female)
	e := &eater{name: "Ida", person: &ida, count: 1, size: 1, grams: map[*foods.Food]float64{}}
	h := &household{days: 4, eaters: []*eater{e}, of: map[*foods.Food]*stocked{}}
	for _, p := range d.Required() {
		for _, o := range p.Options {
			s := &stocked{food: o.Food, days: h.days}
			h.of[o.Food], e.grams[o.Food] = s, 300
		}
	}
	l := make(layout, h.days*meals)
	l[atBreakfast].main = &choice{candidate: e.partsFor(d)}
	h.between(l, e, d, 20)
	beside, later := 0, 0
	for at := range l {
		if l.owns(at, e) == 0 {
			continue
		}
		switch {
		case isSnack(mealOf(at)):
			beside++
		case dayOf(at) < 2:
			t.Errorf("beside a main meal of day %d", dayOf(at)+1)
		default:
			later++
		}
	}
	if beside == 0 || later == 0 {
		t.Errorf("%d between meals, %d beside later ones: the test shows nothing", beside, later)
	}
}

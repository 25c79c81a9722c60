package menu

import (
	"slices"
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

// TestBetweenMeals: servings of a snack that were chosen with the plan are one a day, in the
// afternoon first, then in the forenoon and beside the meals; a pot stands where the stove is
// lit. What a twentieth is over a whole serving is none. A dish for main meals is no other's
// neighbour, and two at most stand at a place.
func TestBetweenMeals(t *testing.T) {
	snack := []dishes.Slot{dishes.Snack}
	for _, c := range []struct {
		name    string
		cooking string
		slots   []dishes.Slot
		n       float64
		want    []int
	}{
		{"two in two days", "none", snack, 2, []int{atAfternoon, meals + atAfternoon}},
		{"hardly more", "none", snack, 2.04, []int{atAfternoon, meals + atAfternoon}},
		{"three", "none", snack, 2.06, []int{atMorning, atAfternoon, meals + atAfternoon}},
		{"five", "none", snack, 5, []int{atMorning, atAfternoon, atEvening, meals + atMorning, meals + atAfternoon}},
		{"more than there is room for", "none", snack, 30, []int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}},
		{"a pot", "boil", snack, 3, []int{atMidday, atEvening, meals + atEvening}},
		{"a dish for main meals", "none", []dishes.Slot{dishes.Snack, dishes.Midday}, 30, []int{atMorning, atAfternoon, meals + atMorning, meals + atAfternoon}},
		{"none", "none", snack, 0.04, nil},
	} {
		table := newTable(t)
		f := table.add("f", 400)
		d := dishOf("d", c.cooking, 10, c.slots, "base", f).dish
		e := &eater{name: "Ida", size: 1, count: 1, person: &nutrients.Person{AgeMonths: 400}, grams: map[*foods.Food]float64{f: 100}}
		h := &household{days: 2, eaters: []*eater{e}, foods: table.foods, of: table.of}
		l := make(layout, 2*meals)
		h.between(l, e, d, c.n)
		var got []int
		for at := range l {
			if l.owns(at, e) > 0 {
				got = append(got, at)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: at %v, want %v", c.name, got, c.want)
		}
		e.grams = map[*foods.Food]float64{} // of a dish that cannot be made nothing is placed
		none := make(layout, 2*meals)
		h.between(none, e, d, 3)
		for at := range none {
			if none.owns(at, e) > 0 {
				t.Errorf("%s: of what they have not at %d", c.name, at)
			}
		}
	}
}

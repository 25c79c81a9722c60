package menu

import (
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestSpoonOnAColdDay: on the day on which nothing is heated a woman with flour and peanut
// butter may have that by the spoon, flour not; on the other day, and where no day is cold,
// nothing is added.
func TestSpoonOnAColdDay(t *testing.T) {
	table := rationtest.Table(t)
	book, err := dishes.Load(table)
	if err != nil {
		t.Fatal(err)
	}
	ida := rationtest.Adult("Ida", 33, nutrients.Female)
	for _, cold := range []map[int]bool{{1: true}, {}} {
		e := &eater{name: "Ida", person: &ida, count: 1, size: 1, grams: map[*foods.Food]float64{}}
		h := &household{days: 2, book: book, cook: ration.CookBoil, cold: cold, eaters: []*eater{e}, of: map[*foods.Food]*stocked{}}
		for _, name := range []string{"peanut butter, smooth", "wheat flour, white, enriched"} {
			f, err := table.Food(name)
			if err != nil {
				t.Fatal(err)
			}
			s := &stocked{food: f, days: 2}
			h.foods, h.of[f], e.grams[f] = append(h.foods, s), s, 300
		}
		l := make(layout, h.days*meals)
		coldSnacks(h, l)
		for at := range l {
			for _, o := range l[at].own {
				butter := false
				for _, p := range o.parts {
					for _, x := range p.options {
						butter = butter || x.Food == h.foods[0].food
					}
				}
				if !cold[dayOf(at)] || !butter {
					t.Errorf("cold %v: %s on day %d", cold, o.dish.Name, dayOf(at)+1)
				}
			}
		}
		if n := l.owns(1*meals+atAfternoon, e); n != len(cold) {
			t.Errorf("cold %v: %d snacks in the afternoon", cold, n)
		}
	}
}

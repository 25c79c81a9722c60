package menu

import (
	"context"
	"math"
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/rules"
	"rationwright/solver/simplex"
)

// TestGlassOfMilk: of a litre carton a child of 20 months has the 150 g of long-life milk at
// a sitting of kind_caps.csv, or 40 % more, before a gram over that costs more than half of
// what it costs that nobody drinks it.
func TestGlassOfMilk(t *testing.T) {
	table := rationtest.Table(t)
	f, err := table.Food("whole milk, vitamin D, long-life")
	if err != nil {
		t.Fatal(err)
	}
	tuva := &nutrients.Person{AgeMonths: 20, Sex: nutrients.Female}
	e := &eater{person: tuva, count: 1, glasses: rules.Glasses(table, tuva)}
	const glass = 150
	if s := (&stocked{food: f}); math.Abs(e.glass(s)-glass) > 1e-9 {
		t.Fatalf("a glass is %g g, want %d", e.glass(s), glass)
	}
	for _, c := range []struct{ worth, want float64 }{{1.7, glass}, {2, 1.4 * glass}, {10.8, 1.4 * glass}, {11.3, 400}} { // 61 kcal in 100 g: 3 a kcal, then six times that
		p, most := &program{}, newSittings()
		j := p.col(-c.worth, 400)
		most.add(e, &stocked{food: f, meal: true, openings: []*opening{{}}}, 2, j)
		most.hold(p, e)
		s, err := simplex.New(p.problem())
		if err != nil {
			t.Fatal(err)
		}
		if r := s.Solve(context.Background(), simplex.Limits{}); r.Status != simplex.Optimal || math.Abs(r.X[j]-c.want) > 1e-6 {
			t.Errorf("worth %g a gram: %v, %g g, want %g", c.worth, r.Status, r.X[j], c.want)
		}
	}
}

// TestLitreIsForAll: where the smallest child has half a litre of a carton, the adult who
// has none of it gets a drink of it; where she has a glass, nobody does.
func TestLitreIsForAll(t *testing.T) {
	table := rationtest.Table(t)
	book, err := dishes.Load(table)
	if err != nil {
		t.Fatal(err)
	}
	f, err := table.Food("whole milk, vitamin D, long-life")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		grams float64
		drawn bool
	}{{520, true}, {150, false}} {
		tuva := &nutrients.Person{AgeMonths: 20, Sex: nutrients.Female}
		ida := rationtest.Adult("Ida", 33, nutrients.Female)
		s := &stocked{food: f, meal: true}
		h := &household{days: 1, book: book, cook: ration.CookBoil, foods: []*stocked{s}}
		h.of, h.byName = map[*foods.Food]*stocked{f: s}, map[string]*stocked{f.Name: s}
		for _, p := range []*nutrients.Person{tuva, &ida} {
			h.eaters = append(h.eaters, &eater{name: p.Name, person: p, count: 1, size: 1, glasses: rules.Glasses(table, p), grams: map[*foods.Food]float64{f: 500}})
		}
		at := atAfternoon
		s.openings = []*opening{{from: at, last: at, grams: 1000}}
		l := make(layout, meals)
		got := drawIn(h, l, []serving{{eater: h.eaters[0], t: at, food: s, grams: c.grams}})
		if got != c.drawn || c.drawn != (l.owns(at, h.eaters[1]) == 1) || l.owns(at, h.eaters[0]) != 0 {
			t.Errorf("%g g for the child: drawn in %t, %d and %d dishes of their own", c.grams, got, l.owns(at, h.eaters[0]), l.owns(at, h.eaters[1]))
		}
	}
}

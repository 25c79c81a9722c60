package menu

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// TestStandInsByHand: of nine rows of people those stand together who have dishes of their own
// most often: the first, who has two, and the fifth, who has one. One stands for both of them,
// has the table of the first, and eats what one of them eats on average: 1 of 10 g and 3 of 50 g
// are 40 g, of sizes 0.6 and 1.
func TestStandInsByHand(t *testing.T) {
	rice, beans := &foods.Food{Name: "rice"}, &foods.Food{Name: "beans"}
	h := &household{days: 1}
	for i := range 9 {
		h.eaters = append(h.eaters, &eater{name: fmt.Sprint(i), count: 1, size: 1, person: &nutrients.Person{AgeMonths: 400}, grams: map[*foods.Food]float64{rice: 10 * float64(i+1)}})
	}
	first, fifth := h.eaters[0], h.eaters[4]
	first.size, fifth.count = 0.6, 3
	fifth.grams[beans] = 8
	first.may, fifth.may = map[*foods.Food]bool{rice: false, beans: true}, map[*foods.Food]bool{rice: true, beans: false}
	main, pot, cup, tea := &choice{}, &choice{}, &choice{}, &choice{}
	l := make(layout, meals)
	l[2] = place{main: main, instead: map[*eater]*choice{first: pot}}
	l[3] = place{own: []ownDish{{first, cup}, {fifth, tea}}}
	few, table := h.standIns(l)
	if len(few.eaters) != 8 || few.days != 1 || len(h.eaters) != 9 {
		t.Fatalf("%d stand for %d", len(few.eaters), len(h.eaters))
	}
	var names []string
	for i, e := range few.eaters {
		names = append(names, e.name)
		if i < 7 && (e.count != 1 || e.size != 1 || e.grams[rice] != 10*(float64(e.name[0]-'0')+1) || len(e.grams) != 1 || e.may != nil) {
			t.Errorf("%+v", e)
		}
	}
	if want := []string{"1", "2", "3", "5", "6", "7", "8", "0"}; !slices.Equal(names, want) {
		t.Errorf("%q, want %q", names, want)
	}
	e := few.eaters[7]
	if e == first || e.count != 4 || math.Abs(e.size-0.9) > 1e-12 || math.Abs(e.grams[rice]-40) > 1e-9 || math.Abs(e.grams[beans]-6) > 1e-9 || !e.may[rice] || !e.may[beans] {
		t.Errorf("%+v", e)
	}
	if first.grams[rice] != 10 || first.may[rice] || first.count != 1 {
		t.Errorf("who is stood for is changed: %+v", first)
	}
	if got := table[2]; got.main != main || len(got.instead) != 1 || got.instead[e] != pot || len(table[3].own) != 1 || table[3].own[0] != (ownDish{e, cup}) {
		t.Errorf("%+v", table)
	}
	if len(l[3].own) != 2 || l[2].instead[first] != pot {
		t.Error("the table before is changed")
	}
	h.eaters = h.eaters[:8]
	if same, as := h.standIns(l); same != h || &as[0] != &l[0] {
		t.Error("eight stand for themselves")
	}

	// For the choice infants do not count, and the first of a party stands for it.
	h.eaters = append(h.eaters, &eater{name: "Bo", infant: true, count: 1})
	if got := h.standing(); !slices.Equal(got, h.eaters[:8]) {
		t.Errorf("%d stand, want eight themselves", len(got))
	}
	h.eaters = append(h.eaters, &eater{name: "9", count: 1, size: 0.5, grams: map[*foods.Food]float64{rice: 20}})
	h.eaters[7].size = 0.7
	got := h.standing()
	if last := got[len(got)-1]; len(got) != 8 || got[0].name != "0" || last.name != "7" || last.count != 2 || math.Abs(last.size-0.6) > 1e-12 || math.Abs(last.grams[rice]-50) > 1e-9 {
		t.Errorf("%d stand, the last is %+v", len(got), last)
	}
}

// TestCrumbsAreNotServed: of 205 g of rice for a bowl of at most 200 g the other 5 g are no
// snack of its own, a twentieth of a usual one; of 213 g 13 g are. In a first share crumbs stay.
func TestCrumbsAreNotServed(t *testing.T) {
	for _, c := range []struct {
		grams float64
		rough bool
		want  float64 // g as a snack
	}{{205, false, 0}, {205, true, 5}, {213, false, 13}, {211.9, false, 0}, {200, false, 0}} {
		table := newTable(t)
		rice := table.add("rice", 360)
		bowl, slice := dishOf("bowl", "boil", 20, []dishes.Slot{dishes.Midday}, "base", rice), dishOf("slice", "none", 1, []dishes.Slot{dishes.Snack}, "base", rice)
		e := &eater{name: "Ida", count: 1, size: 1, person: &nutrients.Person{AgeMonths: 400, Sex: nutrients.Female}, grams: map[*foods.Food]float64{rice: c.grams}, kcal: 3.6 * c.grams, protein: 0.09 * c.grams}
		h := &household{days: 1, rough: c.rough, eaters: []*eater{e}, foods: table.foods, of: table.of, byName: map[string]*stocked{}}
		table.of[rice].days, table.of[rice].grams = 1, c.grams
		l := make(layout, meals)
		l[2].main, l[3].own = bowl, []ownDish{{e, slice}}
		servings, x, err := h.shareOf(context.Background(), l, h.eaters, nil, nil)
		if err != nil || len(x) == 0 {
			t.Fatal(err)
		}
		all, snack := 0.0, 0.0
		for _, v := range servings {
			all += v.grams
			if v.of == slice {
				snack += v.grams
			}
			if v.grams < 0.5 || math.Abs(x[v.col]-v.grams) > 1e-6 {
				t.Errorf("of %g g: %g g at %d, of a point with %g", c.grams, v.grams, v.t, x[v.col])
			}
		}
		if math.Abs(all-c.grams) > 1e-6 || math.Abs(snack-c.want) > 1e-6 {
			t.Errorf("of %g g, a first share %v: %g g in all, %g g as a snack, want %g", c.grams, c.rough, all, snack, c.want)
		}
	}
}

// TestMilkIsNotOpenedForMeals: milk that an infant is fed is in no openings of meals, however
// short it keeps; neither is what there is no pack of.
func TestMilkIsNotOpenedForMeals(t *testing.T) {
	pack := []opened{{&foods.Pack{NetG: 100}, noDate}}
	for _, c := range []struct {
		name  string
		feed  bool
		packs []opened
		days  int
		meal  bool
		open  int
	}{{"a feed", true, pack, 5, false, 0}, {"no pack", false, nil, 5, false, 0}, {"a can", false, pack, 0, true, 1}} {
		s := &stocked{food: &foods.Food{OccasionG: 50, DayG: 50, Keeping: &foods.Keeping{AfterOpenHours: 2}}, feed: c.feed, packs: c.packs, grams: 100}
		(&household{days: 5}).open(s)
		if s.days != c.days || s.meal != c.meal || len(s.openings) != c.open {
			t.Errorf("%s: keeps %d days, for a meal %v, in %d openings", c.name, s.days, s.meal, len(s.openings))
		}
	}
}

// TestWhatGivesNoEnergy: in the program of servings a gram of salt counts as 0.05 kcal beside the
// dishes and by its date, and as 0.5 in a part of a dish of which it is reckoned; not to eat it as 9.
func TestWhatGivesNoEnergy(t *testing.T) {
	table := newTable(t)
	salt := table.add("salt", 0)
	e := &eater{name: "Ida", count: 1, size: 1, person: &nutrients.Person{AgeMonths: 400, Sex: nutrients.Female}, grams: map[*foods.Food]float64{salt: 10}, byDate: []ration.DatedFood{{Food: "salt", Day: 1, Grams: 4}}}
	h := &household{days: 1, eaters: []*eater{e}, foods: table.foods, of: table.of, byName: map[string]*stocked{"salt": table.of[salt]}}
	l := make(layout, meals)
	l[2].main = dishOf("broth", "none", 1, nil, "base", salt)
	_, p := h.shareProgram(l, h.eaters, nil, nil)
	w := &wanted{t: t}
	w.missed("water", -inf, 0, 10000)
	w.row("Ida salt", 10, 10)
	w.col("uneaten", 4500, inf, at{"Ida salt": 1})
	w.missed("dated", 4, inf, 2.5)
	w.fixed("Ida kcal", 0, nil)
	w.fixed("Ida mean protein", 0, nil)
	w.day("Ida", " 0", 0, 0)
	both := at{"Ida salt": 1, "dated": 1}
	w.col("beside", 0.05, 1000, both)
	w.col("over a sitting", 0.05+30*0.05, inf, both) // 50 kcal of 1000 g
	w.col("broth", 0, 1000, also(both, at{"broth": 1, "broth bare": 1}))
	w.part("broth", 50, 200, 0.5, true)
	w.compare(p)
}

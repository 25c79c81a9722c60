package menu

import (
	"context"
	"math"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// atMeal shares out one day with a dish at midday to one eater of usual size, in grams of
// each food: those in the dish, and beside it.
func atMeal(t *testing.T, table *tableOf, main *choice, own []*choice, e *eater) (in, beside map[*foods.Food]float64) {
	t.Helper()
	h := &household{days: 1, eaters: []*eater{e}, foods: table.foods, of: table.of, byName: map[string]*stocked{}}
	for _, s := range h.foods {
		s.days, s.grams = 1, e.grams[s.food]
		e.kcal += e.grams[s.food] * kcalPerG(s.food)
		e.protein += e.grams[s.food] * proteinPerG(s.food)
	}
	l := make(layout, meals)
	l[atMidday].main = main
	for _, c := range own {
		l[atMidday].own = append(l[atMidday].own, ownDish{e, c})
	}
	servings, err := h.share(context.Background(), l)
	if err != nil {
		t.Fatal(err)
	}
	in, beside = map[*foods.Food]float64{}, map[*foods.Food]float64{}
	for _, v := range servings {
		if v.of != nil {
			in[v.food.food] += v.grams
		} else {
			beside[v.food.food] += v.grams
		}
	}
	for _, s := range h.foods {
		if got := in[s.food] + beside[s.food]; math.Abs(got-s.grams) > 1e-4 {
			t.Errorf("%g g of %s are eaten of %g", got, s.food.Name, s.grams)
		}
	}
	return in, beside
}

// TestServingsByHand: a dish of 100 g of rice (50 to 200) and as much of beans, and oil that can
// be left out, is what it takes up to its most, rather 40 % over that than beside it; oil goes
// with a serving of the rice, not without one.
func TestServingsByHand(t *testing.T) {
	for _, c := range []struct {
		name             string
		rice, beans, oil float64 // of the plan
		size             float64
		inRice, inOil    float64
	}{
		{"usual", 100, 100, 20, 1, 100, 20},
		{"at its most", 200, 100, 20, 1, 200, 20},
		{"half size, at its most", 100, 50, 20, 0.5, 100, 20},
		{"nothing of it, no oil in it", 0, 0, 20, 1, 0, 0},
		{"20 g of rice let four times as much oil in", 20, 100, 100, 1, 20, 80},
		{"half size, 10 g of 25", 10, 100, 60, 0.5, 10, 40},
	} {
		table := newTable(t)
		rice, beans, oil := table.add("rice", 360), table.add("beans", 100), table.add("oil", 884)
		main := dishOf("stew", "boil", 20, []dishes.Slot{dishes.Midday}, "base", rice, "protein", beans, "fat?", oil)
		e := &eater{name: "Ida", count: 1, size: c.size, person: &nutrients.Person{AgeMonths: 400, Sex: nutrients.Female}, grams: map[*foods.Food]float64{rice: c.rice, beans: c.beans, oil: c.oil}}
		for f, g := range e.grams {
			if g == 0 {
				delete(e.grams, f)
			}
		}
		in, _ := atMeal(t, table, main, nil, e)
		if math.Abs(in[rice]-c.inRice) > 1e-4 || math.Abs(in[oil]-c.inOil) > 1e-4 {
			t.Errorf("%s: %g g of rice and %g g of oil in the dish, want %g and %g", c.name, in[rice], in[oil], c.inRice, c.inOil)
		}
	}
}

// TestLeastAtEachMeal: of 100 g of rice for two meals of at least 50 g each has its 50 g; of 60 g,
// which are too few, neither has under 27.5 g, from which on it is a dish.
func TestLeastAtEachMeal(t *testing.T) {
	for _, c := range []struct{ rice, least float64 }{{100, 50}, {150, 50}, {60, 27.5}} {
		table := newTable(t)
		rice := table.add("rice", 360)
		bowl := dishOf("rice", "boil", 20, []dishes.Slot{dishes.Midday, dishes.Evening}, "base", rice)
		e := &eater{name: "Ida", count: 1, size: 1, person: &nutrients.Person{AgeMonths: 400, Sex: nutrients.Female}, grams: map[*foods.Food]float64{rice: c.rice}, kcal: c.rice * 3.6, protein: c.rice * 0.09}
		h := &household{days: 1, eaters: []*eater{e}, foods: table.foods, of: table.of, byName: map[string]*stocked{}}
		table.of[rice].days, table.of[rice].grams = 1, c.rice
		l := make(layout, meals)
		l[atMidday].main, l[atEvening].main = bowl, bowl
		servings, err := h.share(context.Background(), l)
		if err != nil {
			t.Fatal(err)
		}
		got := map[int]float64{}
		for _, v := range servings {
			got[v.t] += v.grams
		}
		if got[atMidday] < c.least-1e-6 || got[atEvening] < c.least-1e-6 || math.Abs(got[atMidday]+got[atEvening]-c.rice) > 1e-6 {
			t.Errorf("of %g g: %g g at midday, %g g in the evening, at least %g each", c.rice, got[atMidday], got[atEvening], c.least)
		}
	}
}

// TestMealsOfWhoCounts: who counts carbohydrate has the same of it at each main meal, within 9 g
// of their mean, a snack apart: of three dishes that can hold 50 to 200 g of rice, and 240 g.
func TestMealsOfWhoCounts(t *testing.T) {
	table := newTable(t)
	rice, fruit := table.add("rice", 400), table.add("fruit", 400) // half of a gram is carbohydrate
	fruit.Group = "fruit"
	bowl := dishOf("rice", "boil", 20, []dishes.Slot{dishes.Breakfast, dishes.Midday, dishes.Evening}, "base", rice)
	cup := dishOf("fruit", "none", 1, []dishes.Slot{dishes.Snack}, "base", fruit)
	e := &eater{name: "Ida", count: 1, size: 1, person: &nutrients.Person{AgeMonths: 400, Sex: nutrients.Female}, grams: map[*foods.Food]float64{rice: 240, fruit: 200}, band: &ration.MealRange{}, kcal: 1760, protein: 44}
	h := &household{days: 1, eaters: []*eater{e}, foods: table.foods, of: table.of, byName: map[string]*stocked{}}
	table.of[rice].days, table.of[fruit].days = 1, 1
	l := make(layout, meals)
	l[atBreakfast].main, l[atMidday].main, l[atEvening].main = bowl, bowl, bowl
	l[atAfternoon].own = []ownDish{{e, cup}}
	servings, err := h.share(context.Background(), l)
	if err != nil {
		t.Fatal(err)
	}
	got, all := map[int]float64{}, 0.0 // g of carbohydrate
	for _, v := range servings {
		got[v.t] += v.grams / 2
		if !isSnack(mealOf(v.t)) {
			all += v.grams / 2
		}
	}
	for _, m := range mainMeals {
		if math.Abs(got[m]-all/3) > 9+1e-6 {
			t.Errorf("%g g at %s, the mean is %g g", got[m], clock[m].name, all/3)
		}
	}
	if got[atAfternoon] < 99 {
		t.Errorf("%g g of carbohydrate between meals, want the fruit's 100 g", got[atAfternoon])
	}
}

// TestOwnDishInParts: cocoa with its milk as a drink of one's own, 50 to 200 g of each: of 400 g
// of cocoa no more than four times the milk's part are drunk in it.
func TestOwnDishInParts(t *testing.T) {
	for _, c := range []struct{ milk, cocoa, want float64 }{{100, 100, 100}, {20, 200, 80}, {15, 100, 60}} {
		table := newTable(t)
		milk, cocoa := table.add("milk", 60), table.add("cocoa", 230)
		cup := dishOf("cup", "none", 5, []dishes.Slot{dishes.Drink}, "liquid", milk, "flavour", cocoa)
		e := &eater{name: "Ida", count: 1, size: 1, person: &nutrients.Person{AgeMonths: 400, Sex: nutrients.Female}, grams: map[*foods.Food]float64{milk: c.milk, cocoa: c.cocoa}}
		in, beside := atMeal(t, table, nil, []*choice{cup}, e)
		if math.Abs(in[cocoa]-c.want) > 1e-4 || math.Abs(beside[cocoa]-(c.cocoa-c.want)) > 1e-4 {
			t.Errorf("%g g of milk: %g g of cocoa in it and %g beside, want %g in it", c.milk, in[cocoa], beside[cocoa], c.want)
		}
	}
}

// TestOfferedFoods: what may be eaten where it is free is what the plan may give, not what it
// gives; without that it is what it gives.
func TestOfferedFoods(t *testing.T) {
	f, g := &foods.Food{}, &foods.Food{}
	e := &eater{grams: map[*foods.Food]float64{f: 10}}
	if !e.eats(f) || e.eats(g) {
		t.Error("eats what the plan gives")
	}
	e.may = map[*foods.Food]bool{g: true}
	if e.eats(f) || !e.eats(g) || e.dayWeight() != 3 {
		t.Error("eats what it may, and its days count three times")
	}
}

// TestCansAtTheirDish: three cans of 100 g that are finished at the meal, of which two people
// eat 150 g each, are opened at the three meals at which a dish takes them; with a date of the
// second day none is opened later, and an opening lasts as long as it keeps.
func TestCansAtTheirDish(t *testing.T) {
	for _, c := range []struct {
		name  string
		hours float64
		date  string
		want  []int // where
		last  []int
	}{
		{"for a meal", 2, "", []int{atMidday, 2*meals + atEvening, 4*meals + atMidday}, nil},
		{"for half a day", 6.5, "", []int{atMidday, 2*meals + atEvening, 4*meals + atMidday}, []int{atEvening, 2*meals + atEvening, 4*meals + atEvening}},
		{"by the third day", 2, "2026-01-07", []int{atMidday, 2*meals + atEvening}, nil},
	} {
		table := newTable(t)
		rice, fish := table.add("rice", 360), table.add("fish", 200)
		fish.OccasionG, fish.DayG, fish.Keeping = 100, 150, &foods.Keeping{AfterOpenHours: c.hours}
		with := dishOf("fish and rice", "boil", 20, []dishes.Slot{dishes.Midday, dishes.Evening}, "base", rice, "protein", fish)
		with.dish.Parts[1].MinG, with.dish.Parts[1].UsualG, with.dish.Parts[1].MaxG = 25, 50, 75
		plain := dishOf("rice", "boil", 20, []dishes.Slot{dishes.Midday, dishes.Evening}, "base", rice)
		h := &household{days: 5, cook: ration.CookBoil, foods: table.foods, of: table.of, cold: map[int]bool{}}
		h.start = time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC)
		for _, name := range []string{"Ida", "Leif"} {
			h.eaters = append(h.eaters, &eater{name: name, count: 1, size: 1, person: &nutrients.Person{AgeMonths: 400, Sex: nutrients.Female}, grams: map[*foods.Food]float64{rice: 1000, fish: 150}})
		}
		table.of[rice].grams, table.of[rice].packs, table.of[rice].days = 2000, []opened{{&foods.Pack{Key: "bag", Food: rice, NetG: 2000}, noDate}}, 5
		s := table.of[fish]
		s.grams = 300
		can := &foods.Pack{Key: "can", Food: fish, NetG: 100}
		for range 3 {
			s.packs = append(s.packs, opened{can, c.date})
		}
		h.open(s)
		l := make(layout, 5*meals)
		for at := range l {
			if mealOf(at) == atMidday || mealOf(at) == atEvening {
				l[at].main = plain
			}
		}
		l[atMidday].main, l[2*meals+atEvening].main, l[4*meals+atMidday].main = with, with, with
		if err := h.host(context.Background(), l); err != nil {
			t.Fatal(err)
		}
		packs := 0
		for i, o := range s.openings {
			packs += len(o.packs)
			if o.grams != 100*float64(len(o.packs)) {
				t.Errorf("%s: %g g in %d cans", c.name, o.grams, len(o.packs))
			}
			if i >= len(c.want) || o.from != c.want[i] || c.last == nil && o.last != o.from || c.last != nil && o.last != c.last[i] {
				t.Errorf("%s: opened at %d, to %d, want one of %v", c.name, o.from, o.last, c.want)
			}
		}
		if packs != 3 || len(s.openings) != len(c.want) {
			t.Errorf("%s: %d cans in %d openings", c.name, packs, len(s.openings))
		}
	}
}

// TestMeatOnDaysApart: three jars of meat of an infant for nine days are served on three days,
// three apart, at midday, or in the evening where midday is no place; the meals are taken from
// those that are left.
func TestMeatOnDaysApart(t *testing.T) {
	for _, c := range []struct {
		jars    int
		midday  bool
		want    []int
		notHers bool
	}{{3, true, []int{atMidday, 3*meals + atMidday, 6*meals + atMidday}, false}, {2, false, []int{atEvening, 4*meals + atEvening}, false}, {3, true, nil, true}} {
		table := newTable(t)
		meat, err := rationtest.Table(t).Food("infant-beef-junior-71g-jar")
		if err != nil || !meat.IsInfantMeat() {
			t.Fatal("no meat for infants: the test shows nothing", err)
		}
		table.of[meat] = &stocked{food: meat}
		table.foods = append(table.foods, table.of[meat])
		jar := dishOf("jar", "none", 0, []dishes.Slot{dishes.Midday, dishes.Evening}, "protein", meat)
		jar.dish.UnderMonths, jar.dish.FromMonths = 12, 6
		fruit := dishOf("fruit", "none", 0, []dishes.Slot{dishes.Midday, dishes.Evening}, "base", table.add("fruit", 60))
		e := &eater{infant: true, size: 0.4, count: 1, person: &nutrients.Person{AgeMonths: 8}, grams: map[*foods.Food]float64{meat: 300}}
		if c.notHers {
			e.grams = map[*foods.Food]float64{}
		}
		h := &household{days: 9, foods: table.foods, of: table.of, eaters: []*eater{e}, cold: map[int]bool{}}
		left := map[*stocked]float64{}
		for _, s := range h.foods {
			s.days = 9
			left[s] = 900
		}
		table.of[meat].packs = make([]opened, c.jars)
		l := make(layout, 9*meals)
		var lacking []int
		for at := range l {
			if mealOf(at) == atEvening || mealOf(at) == atMidday && c.midday {
				lacking = append(lacking, at)
			}
		}
		all := len(lacking)
		rest := meatFirst(h, l, e, lacking, []*choice{fruit, jar}, left)
		got := l.mealsOf(e, jar.dish)
		if len(got) != len(c.want) || len(rest) != all-len(got) || len(l.mealsOf(e, fruit.dish)) != 0 {
			t.Errorf("%d jars: at %v, want %v, %d meals left of %d", c.jars, got, c.want, len(rest), all)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("%d jars: at %v, want %v", c.jars, got, c.want)
			}
		}
	}
}

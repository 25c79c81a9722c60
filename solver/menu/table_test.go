package menu

import (
	"math"
	"slices"
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// TestDayOfALayout: what is wrong with a day of three dishes of 600 kcal and 30 g of protein
// each, one fault at a time, beside the square of what it is off the mean in hundredths, of
// protein half of that.
func TestDayOfALayout(t *testing.T) {
	rice, oats, pasta, fish := &foods.Food{Name: "rice"}, &foods.Food{Name: "oats"}, &foods.Food{Name: "pasta"}, &foods.Food{Name: "fish"}
	all := []dishes.Slot{dishes.Breakfast, dishes.Midday, dishes.Evening, dishes.Snack}
	of := func(key string, f *foods.Food, slots ...dishes.Slot) *choice {
		c := dishOf(key, "boil", 20, slots, "base", f, "protein", fish)
		c.kcal, c.protein = 600, 30
		return c
	}
	porridge, stew, bake := of("porridge", oats, all...), of("stew", rice, all...), of("bake", pasta, all...)
	soup, midday, cold := of("soup", rice, all...), of("midday", fish, dishes.Midday), of("cold", oats, all...)
	cold.cold, cold.dish.ColdOnly = true, true
	type day [meals]*choice
	plain := day{porridge, nil, stew, nil, bake}
	none := map[int]bool{}
	for _, c := range []struct {
		name          string
		before, day   day
		cold          map[int]bool
		kcal, protein float64 // means
		want          float64
	}{
		{"even", day{}, plain, none, 1800, 90, 0},
		{"a tenth over", day{}, plain, none, 1800 / 1.1, 90, 100},
		{"a tenth under", day{}, plain, none, 2000, 90, 100},
		{"a tenth of protein", day{}, plain, none, 1800, 100, 25},
		{"both", day{}, plain, none, 2000, 100, 125},
		{"a snack", day{}, day{porridge, nil, stew, bake, nil}, none, 1800, 90, 0},
		{"a dish that is not for breakfast", day{}, day{midday, nil, stew, nil, bake}, none, 1800, 90, 4000},
		{"twice", day{}, day{stew, nil, porridge, nil, stew}, none, 1800, 90, 3000},
		{"twice, once between meals", day{}, day{porridge, nil, stew, stew, nil}, none, 1800, 90, 0},
		{"twice on rice", day{}, day{porridge, nil, stew, nil, soup}, none, 1800, 90, 60},
		{"running", day{nil, nil, stew, nil, nil}, plain, none, 1800, 90, 3000},
		{"running, other meals", day{nil, nil, bake, nil, stew}, plain, none, 1800, 90, 6000},
		{"a snack the day before", day{nil, stew, nil, nil, nil}, plain, none, 1800, 90, 0},
		{"a snack today", day{nil, nil, stew, nil, nil}, day{porridge, stew, nil, nil, bake}, none, 1800, 90, 0},
		{"heated on a cold day", day{}, day{cold, nil, stew, nil, bake}, map[int]bool{1: true}, 1800, 90, 10000},
		{"better hot, on a day that heats", day{}, day{cold, nil, stew, nil, bake}, map[int]bool{0: true}, 1800, 90, 4000},
		{"better hot, where no day is cold", day{}, day{cold, nil, stew, nil, bake}, none, 1800, 90, 0},
	} {
		l := make(layout, 2*meals)
		for m := range meals {
			l[m].main, l[meals+m].main = c.before[m], c.day[m]
		}
		if got := l.dayCost(1, c.kcal, c.protein, c.cold); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("%s: %g, want %g", c.name, got, c.want)
		}
	}
}

// TestLaidOut: every serving stands at a place of its kind, no dish on two days running or
// twice on a day, hot ones on no cold day; fewer snacks than places are spread over the days.
func TestLaidOut(t *testing.T) {
	var chosen []*choice
	add := func(k kind, times int, slots ...dishes.Slot) *choice {
		c := dishOf("dish "+string(rune('a'+len(chosen))), "boil", 10, slots, "base", &foods.Food{})
		c.times[k], c.kcal, c.protein = times, 500, 20
		chosen = append(chosen, c)
		return c
	}
	for range 3 {
		add(atBreakfasts, 2, dishes.Breakfast)
	}
	for range 5 {
		add(atMains, 2, dishes.Midday, dishes.Evening)
	}
	cool := add(atMains, 2, dishes.Midday, dishes.Evening)
	cool.cold, cool.dish.Cooking = true, "none"
	snack := add(atSnacks, 3, dishes.Snack)
	snack.kcal, snack.protein = 0, 0
	h := &household{days: 6}
	l := h.lay(chosen)
	count := map[*choice]int{}
	var snackDays []int
	for at := range l {
		c := l[at].main
		if c == nil {
			if !isSnack(mealOf(at)) {
				t.Errorf("nothing at %d", at)
			}
			continue
		}
		count[c]++
		if c == snack {
			snackDays = append(snackDays, dayOf(at))
			continue
		}
		if !c.dish.Has(clock[mealOf(at)].slot) {
			t.Errorf("%s at %s", c.dish.Key, clock[mealOf(at)].name)
		}
		for other := at + 1; other < len(l); other++ {
			if l[other].main == c && dayOf(other)-dayOf(at) <= 1 {
				t.Errorf("%s at %d and %d", c.dish.Key, at, other)
			}
		}
	}
	for _, c := range chosen {
		want := 0
		for _, n := range c.times {
			want += n
		}
		if count[c] != want {
			t.Errorf("%s stands %d times, want %d", c.dish.Key, count[c], want)
		}
	}
	if len(snackDays) != 3 {
		t.Errorf("snacks on days %v", snackDays)
	}
	// n servings, at one meal after the other, each over all days: of four in three days the
	// fourth comes at the next meal, and what finds no place is left.
	for _, c := range []struct {
		n, full, left int
		want          []int
	}{{2, -1, 0, []int{atMidday, meals + atMidday}}, {4, -1, 0, []int{atMidday, meals + atMidday, 2*meals + atMidday, atEvening}}, {3, atMidday, 0, []int{meals + atMidday, 2*meals + atMidday, atEvening}}, {9, -1, 3, nil}} {
		var got []int
		left := make(layout, 3*meals).spread([]int{atMidday, atEvening}, c.n, func(at int) bool {
			if at == c.full {
				return false
			}
			got = append(got, at)
			return true
		})
		if left != c.left || c.want != nil && !slices.Equal(got, c.want) {
			t.Errorf("%d servings: at %v, %d left, want %v and %d", c.n, got, left, c.want, c.left)
		}
	}
}

// TestPoured: a drink three times in three days comes once a day, beside a breakfast, on the
// day with least energy first; cooked ones on no cold day, and none beside itself.
func TestPoured(t *testing.T) {
	cup := dishOf("cup", "none", 0, []dishes.Slot{dishes.Drink, dishes.Breakfast}, "liquid", &foods.Food{})
	tea := dishOf("tea", "boil", 5, []dishes.Slot{dishes.Drink}, "liquid", &foods.Food{})
	main := func(kcal float64) *choice {
		c := dishOf("main", "boil", 60, []dishes.Slot{dishes.Midday}, "base", &foods.Food{})
		c.kcal = kcal
		return c
	}
	cup.times[atDrinks], cup.kcal = 3, 100
	l := make(layout, 3*meals)
	l[atMidday].main, l[meals+atMidday].main, l[2*meals+atMidday].main = main(900), main(700), main(800)
	l[meals+atBreakfast].main = cup // then it is poured at another meal of that day
	h := &household{days: 3, cold: map[int]bool{0: true}}
	h.pour(l, []*choice{cup})
	for d := range 3 {
		if got := l.drinksOf(d, cup); got != 1 {
			t.Errorf("day %d: poured %d times, want once", d+1, got)
		}
	}
	if len(l[meals+atBreakfast].drinks) != 0 || len(l[atBreakfast].drinks) != 1 || len(l[2*meals+atBreakfast].drinks) != 1 || len(l[meals+atEvening].drinks) != 1 {
		t.Error("beside breakfast, and where that is the drink itself beside the evening meal")
	}
	tea.times[atDrinks], tea.kcal = 1, 10
	h.pour(l, []*choice{tea})
	if l.drinksOf(0, tea) != 0 || l.drinksOf(1, tea)+l.drinksOf(2, tea) != 1 {
		t.Error("hot tea on a cold day, or none at all")
	}
	for range 2 { // on the other two days as often as three in a day's share of it
		h.pour(l, []*choice{tea})
	}
	for at := range l {
		if len(l[at].drinks) > 2 {
			t.Errorf("%d drinks at %d", len(l[at].drinks), at)
		}
	}
}

// TestSwapped: who has no dish, or lacks what makes it, has one of their own of what they
// have at main meals, an infant what is hers, and who lacks nothing that of all.
func TestSwapped(t *testing.T) {
	table := newTable(t)
	rice, beans, oats, puree := table.add("rice", 100), table.add("beans", 100), table.add("oats", 100), table.add("puree", 100)
	all := []dishes.Slot{dishes.Breakfast, dishes.Midday, dishes.Evening}
	stew, gruel := dishOf("stew", "boil", 20, all, "base", rice, "protein", beans), dishOf("gruel", "boil", 20, all, "base", oats)
	jar := dishOf("jar", "none", 0, []dishes.Slot{dishes.Midday}, "base", puree)
	jar.dish.FromMonths, jar.dish.UnderMonths = 6, 12
	ida := &eater{name: "Ida", count: 1, size: 1, person: &nutrients.Person{AgeMonths: 400}, grams: map[*foods.Food]float64{rice: 400, beans: 400}}
	leif := &eater{name: "Leif", count: 1, size: 1, person: &nutrients.Person{AgeMonths: 400}, grams: map[*foods.Food]float64{oats: 400, beans: 400}}
	bo := &eater{name: "Bo", count: 1, size: 0.4, infant: true, person: &nutrients.Person{AgeMonths: 8}, grams: map[*foods.Food]float64{puree: 300}}
	h := &household{days: 3, cook: ration.CookBoil, book: &dishes.Book{Dishes: []*dishes.Dish{stew.dish, gruel.dish, jar.dish}}, eaters: []*eater{ida, leif, bo}, foods: table.foods, of: table.of, cold: map[int]bool{}}
	for _, s := range h.foods {
		s.days = 3
	}
	l := make(layout, 3*meals)
	l[atMidday].main, l[2*meals+atMidday].main = stew, stew
	l[meals+atMorning].main = stew // between meals nobody lacks anything
	h.swap(l)
	// Leif's first main meal without a dish of his is breakfast, and none of his stands twice on
	// a day or on two days running; the infant's jar is for midday, and the first and the
	// third day are served before the second.
	for e, want := range map[*eater]map[*dishes.Dish][]int{
		ida: {stew.dish: {atMidday, 2*meals + atMidday}}, leif: {gruel.dish: {atBreakfast, 2*meals + atBreakfast}}, bo: {jar.dish: {atMidday, 2*meals + atMidday}, stew.dish: nil},
	} {
		for d, at := range want {
			if got := l.mealsOf(e, d); !slices.Equal(got, at) {
				t.Errorf("%s has %s at %v, want %v", e.name, d.Key, got, at)
			}
		}
	}
	if l[meals+atMorning].mainOf(leif) != stew || len(l[meals+atMorning].instead) != 0 {
		t.Error("another dish between meals")
	}
}

// tableOf is foods for a household of tests.
type tableOf struct {
	foods []*stocked
	of    map[*foods.Food]*stocked
}

func newTable(t *testing.T) *tableOf {
	t.Helper()
	return &tableOf{of: map[*foods.Food]*stocked{}}
}

// add is a food of so many kcal in 100 g that keeps.
func (l *tableOf) add(name string, kcal float64) *foods.Food {
	f := &foods.Food{NDB: name, Name: name, OccasionG: 1000, DayG: 1000, Per100g: nutrients.Unknown()}
	f.Per100g[nutrients.Energy], f.Per100g[nutrients.Protein], f.Per100g[nutrients.Carbohydrate] = kcal, kcal/40, kcal/8
	s := &stocked{food: f}
	l.foods = append(l.foods, s)
	l.of[f] = s
	return f
}

// TestFilledAndTaken: a serving of 100 g of a base and 100 g of a protein for one of half size
// is filled by the part of which least is left, three times at most; what is taken of it
// leaves the rest, substitutes by their factor after the food itself.
func TestFilledAndTaken(t *testing.T) {
	table := newTable(t)
	rice, beans, powder, oil := table.add("rice", 360), table.add("beans", 100), table.add("powder", 300), table.add("oil", 900)
	c := dishOf("stew", "boil", 20, nil, "base", rice, "protein", beans, "fat?", oil)
	c.parts[1].options = []dishes.Option{{Food: beans, Factor: 1}, {Food: powder, Factor: 0.4, Substitute: true}}
	e := &eater{size: 0.5, person: &nutrients.Person{AgeMonths: 400}}
	h := &household{days: 2, foods: table.foods, of: table.of}
	for _, s := range h.foods {
		s.days = 2
	}
	for _, w := range []struct{ rice, beans, powder, want float64 }{
		{50, 50, 0, 1}, {100, 25, 0, 0.5}, {25, 100, 0, 0.5}, {50, 0, 20, 1}, {50, 30, 8, 1}, {1000, 1000, 0, 3}, {0, 100, 0, 0},
	} {
		left := map[*stocked]float64{table.of[rice]: w.rice, table.of[beans]: w.beans, table.of[powder]: w.powder}
		if got := c.fill(h, e, left, 0); math.Abs(got-w.want) > 1e-9 {
			t.Errorf("%+v: filled %g", w, got)
		}
	}
	can := table.of[beans] // now of a can for a meal
	can.days = 0
	for _, w := range []struct {
		from, last int
		want       float64
	}{{-1, -1, 1}, {3, 3, 1}, {2, 4, 1}, {4, 4, 0}, {0, 2, 0}} {
		can.openings = []*opening{{from: w.from, last: w.last}}
		left := map[*stocked]float64{table.of[rice]: 50, can: 50}
		if got := c.fill(h, e, left, 3); math.Abs(got-w.want) > 1e-9 {
			t.Errorf("a can open from %d to %d: filled %g at 3, want %g", w.from, w.last, got, w.want)
		}
		if open := c.openFor(h, &eater{grams: map[*foods.Food]float64{rice: 1, beans: 1}}, 3); open != (w.want > 0 && w.from >= 0) {
			t.Errorf("a can open from %d to %d: the dish can be had at 3: %v", w.from, w.last, open)
		}
	}
	if c.openFor(h, &eater{grams: map[*foods.Food]float64{beans: 1}}, 1) || !c.openFor(h, &eater{grams: map[*foods.Food]float64{rice: 1, powder: 1}}, 9) {
		t.Error("open for who has no rice, or not for who has powder in place of beans")
	}
	left := map[*stocked]float64{table.of[rice]: 80, can: 20, table.of[powder]: 100, table.of[oil]: 100}
	c.take(h, e, left, 1) // 50 g of rice; 20 g of beans and for 30 g of them 12 g of powder; 50 g of oil
	for f, want := range map[*foods.Food]float64{rice: 30, beans: 0, powder: 88, oil: 50} {
		if got := left[table.of[f]]; math.Abs(got-want) > 1e-9 {
			t.Errorf("%g g of %s left, want %g", got, f.Name, want)
		}
	}
	c.take(h, e, left, 0.5) // a part of a serving: what can be left out is
	for f, want := range map[*foods.Food]float64{rice: 5, beans: 0, powder: 78, oil: 50} {
		if got := left[table.of[f]]; math.Abs(got-want) > 1e-9 {
			t.Errorf("then %g g of %s left, want %g", got, f.Name, want)
		}
	}
}

// TestRecounted: after the grams were free, each eater's and food's are those that are
// served, a day's energy and protein with what is fed.
func TestRecounted(t *testing.T) {
	table := newTable(t)
	rice, beans, milk := table.add("rice", 360), table.add("beans", 100), table.add("formula", 500)
	table.of[milk].feed, table.of[milk].grams, table.of[rice].grams = true, 300, 5
	two := &eater{count: 2, grams: map[*foods.Food]float64{rice: 9, beans: 9}, kcal: 1, protein: 1}
	bo := &eater{count: 1, grams: map[*foods.Food]float64{}, feeds: []feed{{milk, 300}}}
	h := &household{days: 3, eaters: []*eater{two, bo}, foods: table.foods, of: table.of}
	h.recount([]serving{{eater: two, food: table.of[rice], grams: 100}, {eater: two, food: table.of[rice], grams: 50}, {eater: bo, food: table.of[rice], grams: 30}})
	if two.grams[rice] != 150 || two.grams[beans] != 0 || math.Abs(two.kcal-180) > 1e-9 || math.Abs(two.protein-4.5) > 1e-9 { // 540 kcal and 13.5 g in three days
		t.Errorf("%v, %g kcal, %g g", two.grams, two.kcal, two.protein)
	}
	if bo.grams[rice] != 30 || math.Abs(bo.kcal-(500+36)) > 1e-9 || math.Abs(bo.protein-(12.5+0.9)) > 1e-9 {
		t.Errorf("%v, %g kcal, %g g", bo.grams, bo.kcal, bo.protein)
	}
	if table.of[rice].grams != 330 || table.of[beans].grams != 0 || table.of[milk].grams != 300 {
		t.Errorf("%g g of rice, %g of beans, %g of milk", table.of[rice].grams, table.of[beans].grams, table.of[milk].grams)
	}
}

// TestStarchForMeals: who counts carbohydrate and has 20 g at breakfast, 60 at midday and 40 in
// the evening has a dish beside breakfast, which is more than 9 g under the mean of 40; by a
// band from 45 g beside the evening meal too. Bread comes before what is cooked, the larger
// first; what has under 8 g of it, a drink, a main dish or what is open for a meal only is none.
func TestStarchForMeals(t *testing.T) {
	table := newTable(t)
	oats, bread, rice, fruit, can := table.add("oats", 400), table.add("bread", 240), table.add("rice", 400), table.add("fruit", 50), table.add("can", 400)
	snack := []dishes.Slot{dishes.Snack}
	slice, bowl := dishOf("slice", "none", 1, snack, "base", bread), dishOf("bowl", "boil", 20, snack, "base", rice)
	small, drink := dishOf("fruit", "none", 1, snack, "base", fruit), dishOf("drink", "none", 1, []dishes.Slot{dishes.Snack, dishes.Drink}, "base", oats)
	main, canned := dishOf("main", "none", 1, []dishes.Slot{dishes.Snack, dishes.Midday}, "base", oats), dishOf("canned", "none", 1, snack, "base", can)
	ida := &eater{name: "Ida", size: 1, count: 1, person: &nutrients.Person{AgeMonths: 400}, grams: map[*foods.Food]float64{}}
	for _, f := range []*foods.Food{oats, bread, rice, fruit, can} {
		ida.grams[f] = 500
		table.of[f].days = 1
	}
	table.of[can].days = 0
	other := &eater{name: "Leif", size: 1, count: 1, person: ida.person, grams: ida.grams}
	h := &household{days: 1, cook: ration.CookBoil, eaters: []*eater{other, ida}, foods: table.foods, of: table.of,
		book: &dishes.Book{Dishes: []*dishes.Dish{bowl.dish, small.dish, drink.dish, main.dish, canned.dish, slice.dish}}}
	for _, c := range []struct {
		band ration.MealRange
		want map[int]int
	}{{ration.MealRange{}, map[int]int{atBreakfast: 1}}, {ration.MealRange{Enforced: true, LowG: 45}, map[int]int{atBreakfast: 1, atEvening: 1}}, {ration.MealRange{Enforced: true, LowG: 15}, nil}} {
		ida.band = &c.band
		l := make(layout, meals)
		added := h.addStarch(l, []serving{ // half of these is carbohydrate
			{eater: ida, t: atBreakfast, food: table.of[oats], grams: 40}, {eater: ida, t: atMidday, food: table.of[oats], grams: 120}, {eater: ida, t: atEvening, food: table.of[oats], grams: 80},
			{eater: ida, t: atMorning, food: table.of[oats], grams: 500}, {eater: other, t: atBreakfast, food: table.of[oats], grams: 500},
		})
		if added != (len(c.want) > 0) {
			t.Errorf("%+v: added %v", c.band, added)
		}
		for at := range l {
			if got := len(l[at].own); got != c.want[at] {
				t.Errorf("%+v: %d dishes at %s, want %d", c.band, got, clock[at].name, c.want[at])
			}
			for _, o := range l[at].own {
				if o.dish != slice.dish || o.eater != ida {
					t.Errorf("%s of %s", o.dish.Key, o.eater.name)
				}
			}
		}
	}
}

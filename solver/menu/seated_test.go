package menu

import (
	"context"
	"maps"
	"math"
	"slices"
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// TestSeatedOverAWeek: Leif has of the household's dishes the stew, three of the four times that
// it is on the table in the evening, and every soup; a dish is his less than every other day,
// three times in seven. Of his own he has pasta once, of the evening alone, plates and toast.
//
// What is for fewest meals is placed first: pasta in the evening of the one stew that he does
// without. The plates are then at midday, where the roast leaves the stove no time, as soups he
// has all: on the first day, as far from that as they may, on the sixth, since on the seventh
// nothing is heated, and on the third, which is as near to both as the fourth. Toast, which is
// cold, is on the first, seventh and fourth; it is a snack too, but nothing is put between
// meals.
func TestSeatedOverAWeek(t *testing.T) {
	table := newTable(t)
	food := map[string]*foods.Food{}
	for _, name := range []string{"oats", "meat", "rice", "beans", "flour", "bread", "pasta"} {
		food[name] = table.add(name, 360)
	}
	mains := []dishes.Slot{dishes.Midday, dishes.Evening}
	breakfast := []dishes.Slot{dishes.Breakfast}
	porridge, roast := dishOf("porridge", "boil", 10, breakfast, "base", food["oats"]), dishOf("roast", "boil", 80, mains, "base", food["meat"])
	stew, soup := dishOf("stew", "boil", 20, mains, "base", food["rice"]), dishOf("soup", "boil", 20, mains, "base", food["beans"])
	porridge.times[atBreakfasts], roast.times[atMains], stew.times[atMains], soup.times[atMains] = 7, 7, 4, 3
	plate, toast := dishOf("plate", "boil", 20, mains, "base", food["flour"]), dishOf("toast", "none", 5, []dishes.Slot{dishes.Breakfast, dishes.Snack}, "base", food["bread"])
	pasta := dishOf("pasta", "boil", 20, mains[1:], "base", food["pasta"])
	pasta.dish.TimesMax = 1
	leif := &eater{name: "Leif", count: 1, size: 1, person: &nutrients.Person{AgeMonths: 400}, grams: map[*foods.Food]float64{food["rice"]: 300, food["beans"]: 300, food["flour"]: 300, food["bread"]: 300, food["pasta"]: 100}}
	h := &household{days: 7, cook: ration.CookBoil, eaters: []*eater{leif}, foods: table.foods, of: table.of, cold: map[int]bool{6: true}, book: &dishes.Book{Dishes: []*dishes.Dish{plate.dish, toast.dish, pasta.dish}}}
	for _, s := range h.foods {
		s.days = 7
	}
	l := make(layout, 7*meals)
	for d := range 7 {
		l[d*meals].main, l[d*meals+atMidday].main, l[d*meals+atEvening].main = porridge, roast, soup
		if d%2 == 0 {
			l[d*meals+atEvening].main = stew
		}
	}
	if err := h.seat(context.Background(), l, leif, []*choice{porridge, roast, stew, soup}); err != nil {
		t.Fatal(err)
	}
	got := map[int]string{}
	for at := range l {
		if c := l[at].instead[leif]; c != nil {
			got[at] = c.dish.Key
		}
	}
	want := map[int]string{
		atEvening:   "pasta",
		0*meals + 2: "plate", 5*meals + 2: "plate", 2*meals + 2: "plate",
		0 * meals: "toast", 6 * meals: "toast", 3 * meals: "toast",
	}
	if !maps.Equal(got, want) {
		t.Errorf("in place of the household's %v, want %v", got, want)
	}
}

// TestSeatedWhereThereIsTime: three plates of one's own in a week are in the evenings, where
// nothing is cooked, of the first day, the last and the one between, rather than at midday
// beside a roast; a pie on the first evening that is left.
func TestSeatedWhereThereIsTime(t *testing.T) {
	table := newTable(t)
	flour, meat, apples := table.add("flour", 360), table.add("meat", 200), table.add("apples", 200)
	mains := []dishes.Slot{dishes.Midday, dishes.Evening}
	roast, plate := dishOf("roast", "boil", 80, mains, "base", meat), dishOf("plate", "boil", 20, mains, "base", flour)
	pie := dishOf("pie", "boil", 20, mains, "base", apples)
	pie.dish.TimesMax = 1
	roast.times[atMains] = 7
	leif := &eater{name: "Leif", count: 1, size: 1, person: &nutrients.Person{AgeMonths: 400}, grams: map[*foods.Food]float64{flour: 300, apples: 100}}
	h := &household{days: 7, cook: ration.CookBoil, eaters: []*eater{leif}, foods: table.foods, of: table.of, cold: map[int]bool{}, book: &dishes.Book{Dishes: []*dishes.Dish{plate.dish, pie.dish}}}
	for _, s := range h.foods {
		s.days = 7
	}
	l := make(layout, 7*meals)
	for d := range 7 {
		l[d*meals+atMidday].main = roast
	}
	if err := h.seat(context.Background(), l, leif, []*choice{roast}); err != nil {
		t.Fatal(err)
	}
	if got, want := l.mealsOf(leif, plate.dish), []int{atEvening, 3*meals + atEvening, 6*meals + atEvening}; !slices.Equal(got, want) {
		t.Errorf("plates at %v, want %v", got, want)
	}
	if got, want := l.mealsOf(leif, pie.dish), []int{meals + atEvening}; !slices.Equal(got, want) {
		t.Errorf("a pie at %v, want %v", got, want)
	}
}

// TestSnacksFillTheirPlaces: four snacks of two days are in the forenoon and the afternoon of both,
// two breakfasts and four main dishes at theirs.
func TestSnacksFillTheirPlaces(t *testing.T) {
	at := []struct {
		k     kind
		slot  dishes.Slot
		times int
		want  []int
	}{{atSnacks, dishes.Snack, 4, []int{1, 3, 6, 8}}, {atBreakfasts, dishes.Breakfast, 2, []int{0, 5}}, {atMains, dishes.Midday, 4, []int{2, 4, 7, 9}}}
	var chosen []*choice
	for _, v := range at {
		c := dishOf(string(v.slot), "none", 5, []dishes.Slot{v.slot}, "base", &foods.Food{})
		c.times[v.k] = v.times
		chosen = append(chosen, c)
	}
	l := (&household{days: 2}).lay(chosen)
	for i, v := range at {
		var got []int
		for t := range l {
			if l[t].main == chosen[i] {
				got = append(got, t)
			}
		}
		if !slices.Equal(got, v.want) {
			t.Errorf("%s at %v, want %v", v.slot, got, v.want)
		}
	}
}

// TestInsteadOfTheHouseholds: at midday of the third of six days that dish is had of which most
// is left, in servings of 100 g, by the times that it is had and once more; none of which under
// half a serving is left but one chosen with the plan, which comes first; one that the stove has
// no time for last.
func TestInsteadOfTheHouseholds(t *testing.T) {
	const at = 2*meals + atMidday
	for _, c := range []struct {
		name         string
		apples, corn float64 // left
		served       []int   // days on which the corn is had in the evening
		most         int     // of the corn
		set          func(h *household, l layout, e *eater, corn *choice)
		want         string // "" none
		left         float64
	}{
		{"more corn", 150, 200, nil, 14, nil, "corn", 100},
		{"more apples", 200, 150, nil, 14, nil, "apples", 100},
		{"as much", 150, 150, nil, 14, nil, "apples", 50}, // the first
		{"corn once already", 150, 290, []int{0}, 14, nil, "apples", 50},
		{"more than twice as much", 140, 290, []int{0}, 14, nil, "corn", 190},
		{"three servings at most count", 160, 900, []int{0}, 14, nil, "apples", 60},
		{"corn twice of three times", 60, 300, []int{0, 4}, 3, nil, "corn", 200},
		{"corn twice of twice", 60, 300, []int{0, 4}, 2, nil, "apples", 0},
		{"corn the day before", 60, 300, []int{1}, 14, nil, "apples", 0},
		{"corn the day after", 60, 300, []int{3}, 14, nil, "apples", 0},
		{"corn is for the evening", 60, 300, nil, 14, func(_ *household, _ layout, _ *eater, corn *choice) { corn.dish.Slots = []dishes.Slot{dishes.Evening} }, "apples", 0},
		{"hot on a cold day", 60, 300, nil, 14, func(h *household, _ layout, _ *eater, corn *choice) { h.cold[2], corn.cold = true, false }, "apples", 0},
		{"hot on a day after a cold one", 60, 300, nil, 14, func(h *household, _ layout, _ *eater, corn *choice) { h.cold[1], corn.cold = true, false }, "corn", 200},
		{"half a serving", 50, 0, nil, 14, nil, "apples", 0},
		{"less than half", 49, 0, nil, 14, nil, "", 0},
		{"less than half, chosen", 49, 10, nil, 14, func(_ *household, _ layout, e *eater, _ *choice) { e.instead = map[string]bool{"corn": true} }, "corn", 0},
		{"chosen, before all", 300, 10, nil, 14, func(_ *household, _ layout, e *eater, _ *choice) { e.instead = map[string]bool{"corn": true} }, "corn", 0},
		{"no time for it", 60, 300, nil, 14, func(_ *household, l layout, _ *eater, corn *choice) {
			corn.dish.Cooking, corn.dish.Minutes = "boil", 20
			l[at].main = dishOf("roast", "boil", 71, nil, "base", &foods.Food{})
		}, "apples", 0},
		{"just time for it", 60, 300, nil, 14, func(_ *household, l layout, _ *eater, corn *choice) {
			corn.dish.Cooking, corn.dish.Minutes = "boil", 20
			l[at].main = dishOf("roast", "boil", 70, nil, "base", &foods.Food{})
		}, "corn", 200},
		{"no time, and nothing else", 0, 300, nil, 14, func(_ *household, l layout, _ *eater, corn *choice) {
			corn.dish.Cooking, corn.dish.Minutes = "boil", 20
			l[at].main = dishOf("roast", "boil", 71, nil, "base", &foods.Food{})
		}, "corn", 200},
	} {
		table := newTable(t)
		apple, maize := table.add("apples", 50), table.add("corn", 100)
		slots := []dishes.Slot{dishes.Midday}
		apples, corn := dishOf("apples", "none", 5, slots, "base", apple), dishOf("corn", "none", 5, slots, "base", maize)
		corn.dish.TimesMax = c.most
		e := &eater{name: "Ida", size: 1, count: 1, person: &nutrients.Person{AgeMonths: 400}, grams: map[*foods.Food]float64{}}
		h := &household{days: 6, foods: table.foods, of: table.of, cold: map[int]bool{}}
		for _, s := range h.foods {
			s.days = 6
		}
		l := make(layout, 6*meals)
		for _, d := range c.served {
			l[d*meals+atEvening].instead = put(nil, e, corn)
		}
		if c.set != nil {
			c.set(h, l, e, corn)
		}
		left := map[*stocked]float64{table.of[apple]: c.apples, table.of[maize]: c.corn}
		had := h.instead(l, at, e, []*choice{apples, corn}, left, 0.5)
		got := ""
		if own := l[at].instead[e]; own != nil {
			got = own.dish.Key
		}
		if got != c.want || had != (c.want != "") {
			t.Errorf("%s: %q, had %v, want %q", c.name, got, had, c.want)
			continue
		}
		for f, grams := range map[*foods.Food]float64{apple: c.apples, maize: c.corn} {
			want := grams
			if f.Name == got {
				want = c.left
			}
			if got := left[table.of[f]]; math.Abs(got-want) > 1e-9 {
				t.Errorf("%s: %g g of %s left, want %g", c.name, got, f.Name, want)
			}
		}
	}
}

// TestDishesOfOnesOwn: what one person may be served alone is what the kitchen can cook, by age, no
// milk feed, and what they have every part for that a dish cannot do without; what they lack of the
// rest is left out, and what is only warmed takes a pot.
func TestDishesOfOnesOwn(t *testing.T) {
	table := newTable(t)
	rice, beans := table.add("rice", 360), table.add("beans", 100)
	midday, drink := []dishes.Slot{dishes.Midday}, []dishes.Slot{dishes.Drink}
	of := func(key, cooking string, slots []dishes.Slot, set func(*dishes.Dish), parts ...any) *dishes.Dish {
		d := dishOf(key, cooking, 5, slots, parts...).dish
		if set != nil {
			set(d)
		}
		return d
	}
	from := func(from, under int) func(*dishes.Dish) {
		return func(d *dishes.Dish) { d.FromMonths, d.UnderMonths = from, under }
	}
	h := &household{days: 2, cook: ration.CookWarm, foods: table.foods, of: table.of, cold: map[int]bool{}, book: &dishes.Book{Dishes: []*dishes.Dish{
		of("cold", "none", midday, nil, "base", rice), of("warm", "warm", midday, nil, "base", rice), of("boiled", "boil", midday, nil, "base", rice),
		of("better hot", "none", midday, func(d *dishes.Dish) { d.ColdOnly = true }, "base", rice),
		of("lacks beans", "none", midday, nil, "base", rice, "protein", beans), of("beans may be left", "none", midday, nil, "protein?", beans, "base", rice),
		of("older", "none", midday, from(10, 0), "base", rice), of("younger", "none", midday, from(0, 9), "base", rice), of("of that age", "none", midday, from(9, 10), "base", rice),
		of("feed", "none", drink, from(0, 12), "base", rice), of("cup", "none", drink, from(0, 13), "base", rice), of("snack", "none", []dishes.Slot{dishes.Drink, dishes.Snack}, from(0, 12), "base", rice), of("drink", "none", drink, nil, "base", rice),
	}}}
	e := &eater{person: &nutrients.Person{AgeMonths: 9}, grams: map[*foods.Food]float64{rice: 100}}
	var got []string
	for _, c := range h.ownDishes(e) {
		got = append(got, c.dish.Key)
		if want := c.dish.Key != "warm"; c.cold != want {
			t.Errorf("%s: without a pot %v, want %v", c.dish.Key, c.cold, want)
		}
		if len(c.parts) != 1 || len(c.parts[0].options) != 1 || c.parts[0].options[0].Food != rice || c.parts[0].part.ReckonedAs != rice {
			t.Errorf("%s: parts %+v", c.dish.Key, c.parts)
		}
	}
	if want := []string{"cold", "warm", "beans may be left", "of that age", "cup", "snack", "drink"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

// TestRowsOfSittings: the rows of what two of a row get at a meal and on a day. Milk of 0.6 kcal
// a gram counts whole and juice of 0.4 half to a glass of 150 g; both are finished at their
// meal. A gram over a glass weighs 3 a kcal by what it counts: 1.8 of milk and 2.4 of juice,
// twice; from 40 % over on six times that. Over two days' most of a fluid, 2 · 400 g, it weighs
// 3 a kcal, and over a sitting 30; what keeps is held by itself, and one column by its own end.
// A sitting of salt counts as 50 kcal.
func TestRowsOfSittings(t *testing.T) {
	table := newTable(t)
	milk, juice, rice, salt := table.add("milk", 60), table.add("juice", 40), table.add("rice", 360), table.add("salt", 0)
	milk.Group, juice.Group = "juice", "juice"
	milk.OccasionG, milk.DayG, juice.OccasionG, juice.DayG, salt.OccasionG, salt.DayG = 200, 300, 250, 400, 4, 8
	if !milk.IsFluid() || rice.IsFluid() {
		t.Fatal("milk is no drink, or rice is one: the test shows nothing")
	}
	counts := func(f *foods.Food) float64 { return map[*foods.Food]float64{milk: 1, juice: 0.5, rice: 1}[f] }
	e := &eater{count: 2, person: &nutrients.Person{AgeMonths: 400, Sex: nutrients.Female}, glasses: []rules.Limit{{Most: 70, Days: 1, Counts: func(*foods.Food) float64 { return 0 }}, {Most: 150, Days: 1, Counts: counts}}}
	for _, f := range []*foods.Food{milk, juice} {
		table.of[f].meal, table.of[f].openings = true, []*opening{{}}
	}
	p, most := &program{}, newSittings()
	for _, v := range []struct {
		food *foods.Food
		t    int
	}{{milk, 7}, {juice, 7}, {rice, 7}, {rice, 7}, {salt, 5}, {salt, 5}, {rice, 9}, {milk, 9}, {milk, 2}} {
		most.add(e, table.of[v.food], v.t, p.col(0, 1000))
	}
	most.hold(p, e)

	w := &wanted{t: t}
	w.col("milk 7", 0, 1000, at{"drinks at 7": 1, "glass at 7": 1, "drinks of day 1": 1})
	w.col("juice 7", 0, 1000, at{"drinks at 7": 1, "glass at 7": 0.5, "drinks of day 1": 1})
	w.col("rice 7", 0, 1000, at{"rice at 7": 1})
	w.col("rice 7", 0, 1000, at{"rice at 7": 1})
	w.col("salt 5", 0, 1000, at{"salt at 5": 1})
	w.col("salt 5", 0, 1000, at{"salt at 5": 1})
	w.col("rice 9", 0, 1000, nil)
	w.col("milk 9", 0, 1000, at{"glass at 9": 1, "drinks of day 1": 1})
	w.col("milk 2", 0, 1000, at{"glass at 2": 1})
	w.sitting("drinks at 7", 250, 36)
	w.row("glass at 7", -inf, 150)
	w.over("glass at 7", 60, 4.8, 28.8)
	w.sitting("drinks of day 1", 800, 3.6)
	w.sitting("rice at 7", 1000, 216)
	w.sitting("salt at 5", 4, 750) // 30 times 12.5 kcal
	w.row("glass at 9", -inf, 150)
	w.over("glass at 9", 60, 3.6, 21.6)
	w.row("glass at 2", -inf, 150)
	w.over("glass at 2", 60, 3.6, 21.6)
	w.compare(p)
}

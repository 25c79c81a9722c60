package model

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// TestDishesAsOftenAsCounted: where it is said how often each dish is eaten, and who has a jar a
// day, the columns are fixed there, at nothing for what is not said; where it is not said they are
// free. Without anything beside the dishes there are no such rows.
func TestDishesAsOftenAsCounted(t *testing.T) {
	free := map[string][2]float64{"breakfast[bowl]": {0, 2}, "main[bowl]": {0, 2}, "breakfast[porridge]": {0, 5}, "main[rice]": {0, 3}, "main[salmon-plate]": {0, 1}, "main[soup]": {0, 4}, "jar-a-day[Liv]": {0, 1}}
	fixed := func(of map[string]float64) map[string][2]float64 {
		out := map[string][2]float64{}
		for name := range free {
			out[name] = [2]float64{of[name], of[name]}
		}
		return out
	}
	counts := map[string][2]int{"bowl": {2, 1}, "porridge": {4, 9}, "soup": {7, 3}}
	for _, c := range []struct {
		name   string
		change func(*Menu)
		want   map[string][2]float64
	}{
		{"free", func(*Menu) {}, free},
		{"counted, with a jar a day", func(m *Menu) { m.Counts, m.Jars = counts, map[string]bool{"Liv": true} },
			fixed(map[string]float64{"breakfast[bowl]": 2, "main[bowl]": 1, "breakfast[porridge]": 4, "main[soup]": 3, "jar-a-day[Liv]": 1})},
		{"counted, with none", func(m *Menu) { m.Counts, m.Jars = map[string][2]int{}, map[string]bool{"Siri": true} }, fixed(nil)},
	} {
		l := lay(14)
		l.in[11] = false // formula, an infant's milk, which is never part of a dish and stays
		menu := l.menu()
		menu.Beside = 0
		c.change(&menu)
		l.AddDishes(menu)
		seen := 0
		for _, col := range l.Problem.Cols {
			if strings.HasPrefix(col.Name, "beside") {
				t.Errorf("%s: a column %s", c.name, col.Name)
			}
			if strings.HasSuffix(col.Name, ",formula]") && col.Upper != 9999 {
				t.Errorf("%s: at most %g of %s", c.name, col.Upper, col.Name)
			}
			if want, ok := c.want[col.Name]; ok {
				seen++
				if got := [2]float64{col.Lower, col.Upper}; got != want {
					t.Errorf("%s: %s from %g to %g, want %g to %g", c.name, col.Name, got[0], got[1], want[0], want[1])
				}
			}
		}
		for _, row := range l.Problem.Rows {
			if strings.HasPrefix(row.Name, "beside") {
				t.Errorf("%s: a row %s", c.name, row.Name)
			}
		}
		if seen != len(c.want) {
			t.Errorf("%s: %d columns, want %d", c.name, seen, len(c.want))
		}
	}
}

// TestWhoIsServed: a dish of the child's age, both its ends; what is better hot only where nothing is
// heated; what the cooker gives; with a food that is eaten for every part that it cannot do
// without, cooked by the dish and bought for dishes at all.
func TestWhoIsServed(t *testing.T) {
	oats, rice, salt := &foods.Food{Name: "oats"}, &foods.Food{Name: "rice", Preparation: &foods.Preparation{Class: "boil"}}, &foods.Food{Name: "salt"}
	part := func(optional bool, made ...*foods.Food) *dishes.Part {
		p := &dishes.Part{Optional: optional}
		for _, f := range made {
			p.Options = append(p.Options, dishes.Option{Food: f, Factor: 1})
		}
		return p
	}
	for _, c := range []struct {
		name   string
		months int
		cook   ration.Cook
		eats   string // larder indices
		notIn  int    // a food that is in no dish, -1 none
		dish   dishes.Dish
		want   bool
	}{
		{"plain", 400, ration.CookBoil, "012", -1, dishes.Dish{Cooking: "boil", Parts: []*dishes.Part{part(false, oats), part(false, rice)}}, true},
		{"too young", 11, ration.CookBoil, "012", -1, dishes.Dish{FromMonths: 12, Cooking: "boil", Parts: []*dishes.Part{part(false, oats)}}, false},
		{"old enough", 12, ration.CookBoil, "012", -1, dishes.Dish{FromMonths: 12, Cooking: "boil", Parts: []*dishes.Part{part(false, oats)}}, true},
		{"too old", 36, ration.CookBoil, "012", -1, dishes.Dish{UnderMonths: 36, Cooking: "boil", Parts: []*dishes.Part{part(false, oats)}}, false},
		{"young enough", 35, ration.CookBoil, "012", -1, dishes.Dish{UnderMonths: 36, Cooking: "boil", Parts: []*dishes.Part{part(false, oats)}}, true},
		{"cold where one cooks", 400, ration.CookBoil, "012", -1, dishes.Dish{ColdOnly: true, Cooking: "none", Parts: []*dishes.Part{part(false, oats)}}, false},
		{"cold where one warms", 400, ration.CookWarm, "012", -1, dishes.Dish{ColdOnly: true, Cooking: "none", Parts: []*dishes.Part{part(false, oats)}}, false},
		{"cold where nobody cooks", 400, ration.CookNone, "012", -1, dishes.Dish{ColdOnly: true, Cooking: "none", Parts: []*dishes.Part{part(false, oats)}}, true},
		{"boiled where one warms", 400, ration.CookWarm, "012", -1, dishes.Dish{Cooking: "boil", Parts: []*dishes.Part{part(false, oats)}}, false},
		{"simmered where one boils", 400, ration.CookBoil, "012", -1, dishes.Dish{Cooking: "simmer", Parts: []*dishes.Part{part(false, oats)}}, false},
		{"warmed where one boils", 400, ration.CookBoil, "012", -1, dishes.Dish{Cooking: "warm", Parts: []*dishes.Part{part(false, oats)}}, true},
		{"rice that is only warmed", 400, ration.CookBoil, "012", -1, dishes.Dish{Cooking: "warm", Parts: []*dishes.Part{part(false, rice)}}, false},
		{"oats or rice that is only warmed", 400, ration.CookBoil, "012", -1, dishes.Dish{Cooking: "warm", Parts: []*dishes.Part{part(false, rice, oats)}}, true},
		{"without the first part", 400, ration.CookBoil, "12", -1, dishes.Dish{Cooking: "boil", Parts: []*dishes.Part{part(false, oats), part(false, rice)}}, false},
		{"without the last part", 400, ration.CookBoil, "02", -1, dishes.Dish{Cooking: "boil", Parts: []*dishes.Part{part(false, oats), part(false, rice)}}, false},
		{"without what may be left", 400, ration.CookBoil, "01", -1, dishes.Dish{Cooking: "boil", Parts: []*dishes.Part{part(true, salt), part(false, oats)}}, true},
		{"by another food", 400, ration.CookBoil, "0", -1, dishes.Dish{Cooking: "boil", Parts: []*dishes.Part{part(false, salt, oats)}}, true},
		{"of what is in no dish", 400, ration.CookBoil, "012", 0, dishes.Dish{Cooking: "boil", Parts: []*dishes.Part{part(false, oats)}}, false},
		{"beside what is in no dish", 400, ration.CookBoil, "012", 0, dishes.Dish{Cooking: "boil", Parts: []*dishes.Part{part(false, rice)}}, true},
	} {
		b := &seater{Model: &Model{Request: &ration.Request{Cook: c.cook}}}
		for _, f := range []*foods.Food{oats, rice, salt} {
			b.Larder = append(b.Larder, &LarderFood{Food: f})
		}
		b.menu.Foods = []bool{c.notIn != 0, c.notIn != 1, c.notIn != 2}
		e := &Eater{Person: nutrients.Person{AgeMonths: c.months}}
		for _, digit := range c.eats {
			e.Eats = append(e.Eats, eatCol{Food: int(digit - '0')})
		}
		if got := b.servable(e, &c.dish); got != c.want {
			t.Errorf("%s: served %v, want %v", c.name, got, c.want)
		}
		// At table from twelve months on.
		if got, want := b.atTable(&Party{Eaters: []*Eater{e}}, &c.dish), c.want && c.months >= 12; got != want {
			t.Errorf("%s: at table %v, want %v", c.name, got, want)
		}
	}
}

// TestParties: those who may be served the same of the dishes that may be chosen are one party, in
// the order of the household; infants are a party each, but at twelve months no more; who has milk
// alone is in none. Servings are an adult's usual, 2050 kcal a day; who has no least of energy has one.
func TestParties(t *testing.T) {
	oats, rice := &foods.Food{Name: "oats"}, &foods.Food{Name: "rice"}
	dish := func(key string, f *foods.Food) *dishes.Dish {
		return &dishes.Dish{Key: key, Parts: []*dishes.Part{{Options: []dishes.Option{{Food: f, Factor: 1}}}}}
	}
	porridge, pudding := dish("porridge", oats), dish("pudding", rice)
	eater := func(name string, months int, count, kcal float64, eats ...int) *Eater {
		e := &Eater{Person: nutrients.Person{Name: name, AgeMonths: months}, Count: count}
		e.Needs.List = []nutrients.Need{{Nutrient: nutrients.Energy, Ceiling: &nutrients.Limit{Amount: 9000}}, {Nutrient: nutrients.Protein, Floor: &nutrients.Limit{Amount: 50}}}
		if kcal > 0 {
			e.Needs.List = append(e.Needs.List, nutrients.Need{Nutrient: nutrients.Energy, Floor: &nutrients.Limit{Amount: kcal}})
		}
		for _, li := range eats {
			e.Eats = append(e.Eats, eatCol{Food: li})
		}
		return e
	}
	feeding := func(e *Eater, feed nutrients.Feed) *Eater { e.Needs.Feed = &feed; return e }
	for _, c := range []struct {
		name       string
		table, own []*dishes.Dish
		want       string
	}{
		{"both", []*dishes.Dish{porridge}, []*dishes.Dish{pudding}, "Aud Kai 2.5 3; Odd Eli 2.3 3; Liv 0.8 2; Lev 0.4 1"},
		{"on the table alone", []*dishes.Dish{porridge, pudding}, nil, "Aud Kai 2.5 3; Odd Eli 2.3 3; Liv 0.8 2; Lev 0.4 1"},
		{"beside it alone", nil, []*dishes.Dish{porridge, pudding}, "Aud Kai 2.5 3; Odd Eli 2.3 3; Liv 0.8 2; Lev 0.4 1"},
		{"without rice", []*dishes.Dish{porridge}, nil, "Aud Odd Eli Kai 4.8 6; Liv 0.8 2; Lev 0.4 1"},
	} {
		b := &seater{Model: &Model{Request: &ration.Request{Cook: ration.CookBoil}}, seating: &Seating{}}
		b.Larder = []*LarderFood{{Food: oats}, {Food: rice}}
		b.Eaters = []*Eater{
			eater("Aud", 500, 2, 2050, 0, 1), eater("Odd", 400, 1, 2460, 0), eater("Liv", 11, 2, 820, 0, 1), feeding(eater("Sol", 3, 1, 500, 0), nutrients.Feed{Only: true}),
			feeding(eater("Lev", 8, 1, 820, 0, 1), nutrients.Feed{}), eater("Eli", 12, 2, 1127.5, 0), eater("Kai", 30, 1, 1025, 0, 1),
		}
		b.menu = Menu{Book: &dishes.Book{Dishes: []*dishes.Dish{porridge, pudding}}, Foods: []bool{true, true},
			Table: func(d *dishes.Dish) bool { return slices.Contains(c.table, d) }, Own: func(d *dishes.Dish) bool { return slices.Contains(c.own, d) }}
		b.part()
		var got []string
		for _, g := range b.seating.Parties {
			var who []string
			for _, e := range g.Eaters {
				who = append(who, e.Person.Name)
			}
			got = append(got, fmt.Sprintf("%s %.6g %g", strings.Join(who, " "), g.Heads, g.Count))
			// A child's dish has the child's own amounts.
			if adult, child := g.HeadsOf(porridge), g.HeadsOf(&dishes.Dish{UnderMonths: 1}); adult != g.Heads || child != g.Count {
				t.Errorf("%s: %g servings, %g of a child's dish, want %g and %g", c.name, adult, child, g.Heads, g.Count)
			}
		}
		if text := strings.Join(got, "; "); text != c.want {
			t.Errorf("%s: %s, want %s", c.name, text, c.want)
		}
	}
	if got := eater("Aud", 500, 2, 0).ServingSize(); got != 1 {
		t.Errorf("without a least of energy %g of a serving, want 1", got)
	}
}

// TestDishOfTheHousehold: a dish is on the table where half of those at it may have it, by servings,
// and not where less; children under twelve months are not at table; nobody's dish is not on it.
func TestDishOfTheHousehold(t *testing.T) {
	rice := &foods.Food{Name: "rice"}
	meal := &dishes.Dish{Key: "meal", FromMonths: 12, TimesMax: 3, Slots: []dishes.Slot{dishes.Midday}, Parts: []*dishes.Part{{Options: []dishes.Option{{Food: rice, Factor: 1}}}}}
	for _, c := range []struct {
		may, mayNot, infants float64
		want                 bool
	}{{1, 0, 0, true}, {1, 1, 0, true}, {1, 1.01, 0, false}, {0.99, 1, 0, false}, {2, 1, 5, true}, {1, 1, 9, true}, {0, 1, 0, false}, {0, 0, 3, false}} {
		b := &seater{Model: &Model{Request: &ration.Request{Days: 14, Cook: ration.CookBoil}}, seating: &Seating{}}
		l := lay(14)
		b.Problem, b.Larder = l.Problem, []*LarderFood{{Food: rice}}
		b.menu = Menu{Book: &dishes.Book{Dishes: []*dishes.Dish{meal}}, Foods: []bool{true}, Table: func(*dishes.Dish) bool { return true }}
		add := func(months int, heads float64, eats ...eatCol) {
			if heads > 0 {
				b.seating.Parties = append(b.seating.Parties, &Party{Heads: heads, Eaters: []*Eater{{Person: nutrients.Person{AgeMonths: months}, Eats: eats}}})
			}
		}
		add(12, c.may, eatCol{})
		add(400, c.mayNot)
		add(11, c.infants, eatCol{})
		b.seat()
		if got := len(b.seating.Seats) == 1; got != c.want {
			t.Errorf("%+v: on the table %v", c, got)
		}
	}
}

// TestDaysOfADish: a dish is the main one of a meal on ⌊0.45 D⌋ of D days, one at least: 0.9 of 2,
// 1.8 of 4, 2.25 of 5, 6.3 of 14, 9 of 20; as often as its most of a fortnight for each one begun.
func TestDaysOfADish(t *testing.T) {
	for _, c := range []struct {
		days      int
		main, all float64
	}{{1, 1, 3}, {2, 1, 3}, {4, 1, 3}, {5, 2, 3}, {13, 5, 3}, {14, 6, 3}, {15, 6, 6}, {20, 9, 6}, {28, 12, 6}, {29, 13, 9}} {
		if got := EveryOther(float64(c.days)); got != c.main {
			t.Errorf("of %d days on %g, want %g", c.days, got, c.main)
		}
		b := &seater{Model: &Model{Request: &ration.Request{Days: c.days}}}
		if got := b.timesMost(&dishes.Dish{TimesMax: 3}); got != c.all {
			t.Errorf("three times a fortnight in %d days: %g, want %g", c.days, got, c.all)
		}
	}
}

// TestWaterBeyondTheFoods: rice takes 2 mL a gram by itself. In a dish with 3 it takes 1 mL more, of
// which a tenth beyond is stored for what is spilt; with as much nothing, with 0.5 it takes 1.5 less,
// which saves none. A food that needs no preparing takes none; powder reckoned as oats, which take
// 1 mL by themselves, takes in a dish of 3 three times its own 4. What a float leaves of equal amounts counts as none.
func TestWaterBeyondTheFoods(t *testing.T) {
	rice := &foods.Food{Form: "rice", Preparation: &foods.Preparation{WaterML: 200}}
	oats := &foods.Food{Form: "oats", Preparation: &foods.Preparation{WaterML: 100}}
	powder := &foods.Food{Form: "powder", Preparation: &foods.Preparation{WaterML: 400}}
	odd := &foods.Food{Form: "odd", Preparation: &foods.Preparation{WaterML: 0.3}}
	jam := &foods.Food{Form: "jam"}
	per := func(v float64) *float64 { return &v }
	for _, c := range []struct {
		name       string
		water      *float64
		as, food   *foods.Food
		more, kept float64 // mL a gram
	}{
		{"more", per(300), rice, rice, 1, 1.1}, {"as much", per(200), rice, rice, 0, 0}, {"less", per(50), rice, rice, -1.5, 0},
		{"by itself", nil, rice, rice, 0, 0}, {"nothing to prepare", per(300), rice, jam, 0, 0}, {"reckoned as another", per(300), oats, powder, 8, 8.8},
		{"hardly more", per(200 + 2e-7), rice, rice, 2e-9, 2.2e-9}, {"as much but for dust", per(200 + 2e-8), rice, rice, 0, 0},
		{"hardly less", per(200 - 2e-7), rice, rice, -2e-9, 0}, {"a third", per(0.1 + 0.2), odd, odd, 0, 0},
	} {
		p := &dishes.Part{WaterML: c.water, ReckonedAs: c.as}
		if got, want := BeyondL(p, c.food), c.more/1000; math.Abs(got-want) > 1e-6*math.Abs(want) {
			t.Errorf("%s: %g L more, want %g", c.name, got, want)
		}
		if got, want := StoredBeyondL(p, c.food), c.kept/1000; math.Abs(got-want) > 1e-6*want {
			t.Errorf("%s: %g L stored, want %g", c.name, got, want)
		}
	}
}

// TestJarADay: an infant under twelve months has a jar a day or none, of the largest to be had;
// nobody has where jars are on hand, whether to eat or set aside, where none is to be had, or where
// meat is in no dish.
func TestJarADay(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(e *Eater, meat *LarderFood, in []bool)
		want   string
	}{
		{"to be had", func(*Eater, *LarderFood, []bool) {}, "0.. -1008, ..0 -1120"}, // 0.9·80·14 and 80·14
		{"of eleven months", func(e *Eater, _ *LarderFood, _ []bool) { e.Person.AgeMonths = 11 }, "0.. -1008, ..0 -1120"},
		{"of twelve months", func(e *Eater, _ *LarderFood, _ []bool) { e.Person.AgeMonths = 12 }, ""},
		{"of one size", func(_ *Eater, meat *LarderFood, _ []bool) { meat.Buy = meat.Buy[:1] }, "0.. -756, ..0 -840"}, // 60 g
		{"on hand", func(_ *Eater, meat *LarderFood, _ []bool) { meat.Stock = meat.Buy[:1] }, ""},
		{"set aside", func(_ *Eater, meat *LarderFood, _ []bool) { meat.Reserve = meat.Buy[:1] }, ""},
		{"not to be had", func(_ *Eater, meat *LarderFood, _ []bool) { meat.Buy = nil }, ""},
		{"in no dish", func(_ *Eater, _ *LarderFood, in []bool) { in[10] = false }, ""},
		{"no infant's", func(_ *Eater, meat *LarderFood, _ []bool) { meat.Food.Tags = []string{foods.TagMeat} }, ""},
	} {
		l := lay(14)
		liv := l.Eaters[3]
		c.change(liv, l.Larder[10], l.in)
		b := &seater{Model: l.Model, menu: l.menu()}
		g, first := &Party{Eaters: []*Eater{liv}, Jars: 7}, len(l.Problem.Rows)
		b.addJars(g)
		rows := rowsFrom(l.Problem, first)
		var want []string
		for i, end := range strings.Split(c.want, ", ") {
			if bounds, jar, ok := strings.Cut(end, " "); ok {
				want = append(want, fmt.Sprintf("jars-%s[Liv] %s: eat[Liv,meat jar] 1, jar-a-day[Liv] %s", []string{"least", "most"}[i], bounds, jar))
			}
		}
		if !slices.Equal(rows, want) || (g.Jars >= 0) != (c.want != "") || g.Jars < -1 || g.Jars >= 0 && l.Problem.Cols[g.Jars].Name != "jar-a-day[Liv]" {
			t.Errorf("%s: column %d, %v, want %v", c.name, g.Jars, rows, want)
		}
	}
}

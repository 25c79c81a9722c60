package menucheck_test

import (
	"encoding/json"
	"math"
	"slices"
	"sync"
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/menucheck"
	"rationwright/solver/ration"
)

// small is a plan of one person who eats rice, 100 g a day, and a menu written by hand
// that keeps to it.
type small struct {
	t     *testing.T
	book  *dishes.Book
	table *foods.Table
	plan  *ration.Plan
	days  []map[string]any
	more  map[string]any // beside the days
	whose []string       // it was found of last
	ask   func(*ration.Request)
}

const rice = "white-rice-907g-bag"

// smallBook is the dishes of all these menus, which change nothing of them, and smallTable
// the foods.
var smallTable, smallBook = sync.OnceValues(func() (*foods.Table, error) {
	table, err := foods.Load()
	if err == nil {
		table.Sell(foods.SizesUS)
	}
	return table, err
}), sync.OnceValues(func() (*dishes.Book, error) {
	table, err := smallTable()
	if err != nil {
		return nil, err
	}
	return dishes.Load(table)
})

func newSmall(t *testing.T, days int) *small {
	t.Helper()
	book, err := smallBook()
	if err != nil {
		t.Fatal(err)
	}
	table, err := smallTable()
	if err != nil {
		t.Fatal(err)
	}
	s := &small{t: t, book: book, table: table, more: map[string]any{}, plan: &ration.Plan{
		Days: days, Totals: &ration.Totals{WaterL: 1e6, HeatMJ: 5}, People: []ration.PlanPerson{{Name: "A", Count: 1}},
	}}
	for day := range days {
		s.days = append(s.days, map[string]any{"day": day + 1, "meals": []any{}})
	}
	return s
}

// meal adds a meal to a day from 1.
func (s *small) meal(day int, name string, hour float64, dishes []string, opens []string, foods ...map[string]any) {
	var list []any
	for _, key := range dishes {
		list = append(list, map[string]any{"dish": key})
	}
	d := s.days[day-1]
	d["meals"] = append(d["meals"].([]any), map[string]any{
		"meal": name, "hour": hour, "dishes": list, "opens": opens, "people": []any{map[string]any{"name": "A", "count": 1, "foods": foods}},
	})
}

// eats is grams of the food of a pack.
func (s *small) eats(pack string, grams float64, dish string) map[string]any {
	return map[string]any{"food": s.food(pack).Name, "dish": dish, "grams": grams}
}

func (s *small) food(pack string) *foods.Food {
	s.t.Helper()
	f, err := s.table.Food(pack)
	if err != nil {
		s.t.Fatal(err)
	}
	return f
}

// found are the amounts by which the menu breaks a rule.
func (s *small) found(rule menucheck.Rule) []float64 {
	s.t.Helper()
	menu := map[string]any{"from_day": 1, "days": s.days}
	for k, v := range s.more {
		menu[k] = v
	}
	text, err := json.Marshal(menu)
	if err != nil {
		s.t.Fatal(err)
	}
	washing := 1.0 // L a day
	req := &ration.Request{WashingL: &washing, Table: s.table, Days: s.plan.Days, People: []nutrients.Person{{Name: "A", AgeMonths: 480, Sex: nutrients.Female, Count: 1}}}
	if months, ok := s.more["infant"].(int); ok {
		req.People = append(req.People, nutrients.Person{Name: "B", AgeMonths: months, Sex: nutrients.Male, Count: 1})
	}
	if s.ask != nil {
		s.ask(req)
	}
	all, err := menucheck.Check(text, s.plan, req, s.book)
	if err != nil {
		s.t.Fatal(err)
	}
	var list []float64
	s.whose = nil
	for _, f := range all {
		if f.Rule == rule {
			list = append(list, f.Amount)
			s.whose = append(s.whose, f.Person)
		}
	}
	return list
}

// TestOpenPacksByTheHour: what keeps so many hours once open is eaten in that time, and
// not half an hour later.
func TestOpenPacksByTheHour(t *testing.T) {
	for _, pack := range []string{"tomatoes-411g-can", rice, "peanut-butter-454g-jar"} {
		for _, late := range []float64{-0.5, 0, 0.5} {
			s := newSmall(t, 500)
			f := s.food(pack)
			hours := 8 + f.Keeping.AfterOpenHours + late
			day := int(hours / 24)
			if day+1 > 500 {
				continue
			}
			s.meal(1, "breakfast", 8, nil, []string{pack}, s.eats(pack, 1, ""))
			s.meal(day+1, "a meal", hours-24*float64(day), nil, nil, s.eats(pack, 100, ""))
			if got := s.found(menucheck.Spoiled); (len(got) > 0) != (late > 0) {
				t.Errorf("%s keeps %g h open and is eaten %g h after that: %v", f.Name, f.Keeping.AfterOpenHours, late, got)
			}
		}
	}
}

// TestWhatIsOpenedIsThere: every pack of the plan is opened once or said to be left; what
// is set aside is not opened.
func TestWhatIsOpenedIsThere(t *testing.T) {
	for _, c := range []struct {
		name         string
		opens        int // of two
		left         int
		reserve      bool // of sugar is opened
		packs, other int
	}{
		{"all opened", 2, 0, false, 0, 0}, {"one forgotten", 1, 0, false, 1, 0}, {"one left closed", 1, 1, false, 0, 0},
		{"one too many", 3, 0, false, 1, 0}, {"one left that is opened", 2, 1, false, 1, 0}, {"the sugar set aside", 2, 0, true, 1, 0},
	} {
		s := newSmall(t, 1)
		s.plan.Packs = []ration.PlanPack{{Pack: rice, Count: 2}, {Pack: "sugar-454g-bag", Count: 1, Reserve: true}}
		var opens []string
		for range c.opens {
			opens = append(opens, rice)
		}
		if c.reserve {
			opens = append(opens, "sugar-454g-bag")
		}
		s.meal(1, "midday", 12, nil, opens)
		if c.left > 0 {
			s.more["leftovers"] = []any{map[string]any{"pack": rice, "count": c.left}}
		}
		if got := s.found(menucheck.Packs); len(got) != c.packs {
			t.Errorf("%s: packs %v, want %d findings", c.name, got, c.packs)
		}
	}
}

// TestDaysNearTheirMean: with 100 g on 13 days and r·1300/(14 − r) g on the other, that
// day has r times the mean of all. A tenth of energy and a fifth of protein either way
// are the most.
func TestDaysNearTheirMean(t *testing.T) {
	for _, c := range []struct {
		times           float64
		energy, protein int
	}{{0.91, 0, 0}, {1.09, 0, 0}, {0.89, 1, 0}, {1.11, 1, 0}, {0.81, 1, 0}, {1.19, 1, 0}, {0.79, 1, 1}, {1.21, 1, 1}} {
		s := newSmall(t, 14)
		for day := 1; day <= 14; day++ {
			grams := 100.0
			if day == 5 {
				grams = c.times * 1300 / (14 - c.times)
			}
			s.meal(day, "midday", 12, nil, nil, s.eats(rice, grams, ""))
		}
		for rule, want := range map[menucheck.Rule]int{menucheck.Energy: c.energy, menucheck.Protein: c.protein} {
			got := s.found(rule)
			if len(got) != want || want == 1 && math.Abs(got[0]-math.Abs(c.times-1)) > 1e-9 {
				t.Errorf("a day of %g times the mean: %s off by %v, want %d", c.times, rule, got, want)
			}
		}
	}
}

// TestCarbohydrateOfMeals: who counts carbohydrate has each main meal within 10 g of
// their mean, or within the band that was ordered; snacks are apart.
func TestCarbohydrateOfMeals(t *testing.T) {
	for _, c := range []struct {
		off     float64 // g from 60 at one of three meals; the mean of them is off/3 more
		ordered bool
		want    int
	}{{14, false, 0}, {16, false, 1}, {-14, false, 0}, {-16, false, 1}, {4, true, 0}, {6, true, 1}, {-4, true, 0}, {-6, true, 1}} {
		s := newSmall(t, 1)
		s.plan.People[0].Carbohydrate = &ration.MealRange{Enforced: c.ordered, LowG: 55, HighG: 65}
		per := s.food(rice).Per100g.Known(nutrients.Carbohydrate) / 100
		for i, meal := range []string{"breakfast", "midday", "evening"} {
			grams := 60.0
			if i == 1 {
				grams += c.off
			}
			s.meal(1, meal, 8+float64(4*i), nil, nil, s.eats(rice, grams/per, ""))
		}
		s.meal(1, "afternoon", 15, nil, nil, s.eats(rice, 20/per, ""))
		if got := s.found(menucheck.Carbohydrate); len(got) != c.want {
			t.Errorf("%+g g at one meal, ordered %v: %v, want %d", c.off, c.ordered, got, c.want)
		}
	}
}

// TestHowOften: a dish is served as often as it may be in a fortnight and not once more;
// on two days running it is found, with a day between not.
func TestHowOften(t *testing.T) {
	for _, more := range []int{0, 1} {
		for _, days := range []int{14, 15} {
			s := newSmall(t, days)
			var dish *dishes.Dish
			for i := range s.book.Dishes {
				if d := s.book.Dishes[i]; dish == nil && d.Has(dishes.Midday) && d.TimesMax > 1 && d.TimesMax <= 3 && d.UnderMonths == 0 {
					dish = d
				}
			}
			times := dish.TimesMax*((days+13)/14) + more
			for n := range times {
				s.meal(1+2*(n%7), []string{"midday", "evening"}[n/7], 12, []string{dish.Key}, nil, s.eats(rice, 1, dish.Key))
			}
			if got := s.found(menucheck.Often); len(got) != more || more == 1 && got[0] != 1 {
				t.Errorf("%s %d times in %d days, at most %d a fortnight: %v", dish.Key, times, days, dish.TimesMax, got)
			}
			if got := s.found(menucheck.Running); times <= 7 && len(got) != 0 {
				t.Errorf("every other day: running on %v", got)
			}
			s.meal(2, "midday", 12, []string{dish.Key}, nil, s.eats(rice, 1, dish.Key))
			if got := s.found(menucheck.Running); len(got) < 2 { // after day 1 and before day 3
				t.Errorf("on days 1, 2 and 3: running on %v", got)
			}
		}
	}
}

// TestTheSameDishAgain: the same dish at two main meals is found where they are on one day or
// on two running, whichever meals they are; with a day between, or beside other dishes that
// are no main one, it is not.
func TestTheSameDishAgain(t *testing.T) {
	const dish, other = "dry-bean-tomato-rice", "cold-rice-beans"
	type at struct {
		day  int
		meal string
		dish string
	}
	for _, c := range []struct {
		name  string
		meals []at
		found int
	}{
		{"once", []at{{1, "midday", dish}}, 0},
		{"at midday and in the evening", []at{{1, "midday", dish}, {1, "evening", dish}}, 1},
		{"at breakfast and in the evening", []at{{1, "breakfast", dish}, {1, "evening", dish}}, 1},
		{"at all three", []at{{2, "breakfast", dish}, {2, "midday", dish}, {2, "evening", dish}}, 2},
		{"two dishes on one day", []at{{1, "midday", dish}, {1, "evening", other}}, 0},
		{"on the next day", []at{{1, "evening", dish}, {2, "midday", dish}}, 1},
		{"on one day and the next", []at{{1, "midday", dish}, {1, "evening", dish}, {2, "midday", dish}}, 2},
		{"with a day between", []at{{1, "evening", dish}, {2, "midday", other}, {3, "midday", dish}}, 0},
		{"beside a snack", []at{{1, "midday", dish}, {1, "afternoon snack", dish}}, 0},
	} {
		s := newSmall(t, 4)
		for _, key := range []string{dish, other} {
			if d := s.book.Dish(key); d == nil || !d.Has(dishes.Midday) {
				t.Fatalf("%s is no dish for midday", key)
			}
		}
		for _, m := range c.meals {
			s.meal(m.day, m.meal, 12, []string{m.dish}, nil, s.eats(rice, 1, m.dish))
		}
		if got := s.found(menucheck.Running); len(got) != c.found {
			t.Errorf("%s: found %d times, want %d", c.name, len(got), c.found)
		}
	}
}

// TestKitchenLimits: the minutes of what is heated at a meal, the heat and the water, each
// just at its limit and just beyond.
func TestKitchenLimits(t *testing.T) {
	s := newSmall(t, 1)
	var keys []string
	var last string
	minutes := 0.0
	for i := range s.book.Dishes {
		d := s.book.Dishes[i]
		switch {
		case d.Cooking == "none" || d.Minutes <= 0:
		case minutes+d.Minutes <= menucheck.StoveRoomMin:
			minutes += d.Minutes
			keys = append(keys, d.Key)
		default:
			last = d.Key
		}
	}
	s.meal(1, "midday", 12, keys, nil)
	if got := s.found(menucheck.Stove); len(got) != 0 {
		t.Errorf("%g minutes at the stove: %v", minutes, got)
	}
	s = newSmall(t, 1)
	s.meal(1, "midday", 12, append(keys, last), nil)
	if got := s.found(menucheck.Stove); len(got) != 1 || math.Abs(got[0]-(minutes+s.book.Dish(last).Minutes-menucheck.StoveRoomMin)) > 1e-9 {
		t.Errorf("%g and %g minutes at the stove: %v", minutes, s.book.Dish(last).Minutes, got)
	}
	for mj, want := range map[float64]int{4.999: 0, 5: 0, 5.001: 1} {
		s = newSmall(t, 1)
		s.meal(1, "midday", 12, nil, nil, s.eats(rice, 100*mj/s.food(rice).Preparation.HeatMJ, "plain-rice-beans"))
		s.days[0]["heat_mj"], s.more["heat_mj"] = mj, mj
		if got := s.found(menucheck.Heat); len(got) != want {
			t.Errorf("%g MJ of 5: %v", mj, got)
		}
	}
	// Heat that is said of a day is that of what is cooked on it, to a thousandth of an MJ.
	for said, want := range map[float64]int{3: 0, 3.0005: 0, 3.01: 1, 2.99: 1} {
		s = newSmall(t, 1)
		s.meal(1, "midday", 12, nil, nil, s.eats(rice, 100*3/s.food(rice).Preparation.HeatMJ, "plain-rice-beans"))
		s.days[0]["heat_mj"], s.more["heat_mj"] = said, said
		if got := s.found(menucheck.Heat); len(got) != want {
			t.Errorf("%g MJ of 3 that are cooked: %v", said, got)
		}
	}
	// A kilogram of rice takes the water of its table. What is stored beyond that and a
	// litre for washing may go into food, a tenth apart: 1.1 × 2 L for 2 L.
	takes := 10 * s.food(rice).Preparation.WaterML / 1000
	for more, want := range map[float64]int{1.99: 0, 2.01: 1} {
		s = newSmall(t, 1)
		s.plan.People[0].Foods = []ration.PersonFood{{Food: s.food(rice).Name, Grams: 1000}}
		s.plan.Totals.WaterL = 1.1*takes + 1.1*2 + 1
		s.meal(1, "midday", 12, nil, nil, s.eats(rice, 1000*(takes+more)/takes, ""))
		s.days[0]["water_l"], s.more["water_l"] = takes+more, takes+more
		if got := s.found(menucheck.Water); len(got) != want {
			t.Errorf("%g L beyond what the rice takes, 2 L are there: %v", more, got)
		}
	}
}

// TestWhoNeedsNoDish: a main meal without a dish is found of grown-ups, not of an infant
// under a year, whose milk is the meal; from the first birthday on it is.
func TestWhoNeedsNoDish(t *testing.T) {
	for months, want := range map[int]int{11: 3, 12: 6} {
		s := newSmall(t, 1)
		s.plan.People = append(s.plan.People, ration.PlanPerson{Name: "B", Count: 1})
		s.more["infant"] = months
		for i, meal := range []string{"breakfast", "midday", "evening"} {
			s.meal(1, meal, 8+float64(4*i), nil, nil)
		}
		got, grown := s.found(menucheck.NoDish), 0
		for _, name := range s.whose {
			if name == "A" {
				grown++
			}
		}
		if len(got) != want || grown != 3 {
			t.Errorf("with a child of %d months: %d meals without a dish, %d of the grown-up, want %d and 3", months, len(got), grown, want)
		}
	}
}

// TestGramsOfThePlan: what is eaten is what the plan gives to a thousandth of it, of each food
// and person; of what it does not give nothing, and as many days as it has.
func TestGramsOfThePlan(t *testing.T) {
	for _, c := range []struct {
		first, second float64 // g of rice of 100 g
		sugar         float64 // not in the plan
		days          int
		sums, theirs  int
	}{{60, 40, 0, 2, 0, 0}, {60, 40.09, 0, 2, 0, 0}, {60, 40.11, 0, 2, 1, 0}, {60, 39.91, 0, 2, 0, 0}, {60, 39.89, 0, 2, 1, 0}, {60, 40, 1, 2, 0, 1}, {60, 40, 0, 3, 1, 0}, {100, 0, 0, 2, 0, 0}} {
		s := newSmall(t, 2)
		s.plan.Days = c.days
		s.plan.People[0].Foods = []ration.PersonFood{{Food: s.food(rice).Name, Grams: 100}}
		s.meal(1, "midday", 13, nil, nil, s.eats(rice, c.first, ""))
		s.meal(2, "midday", 13, nil, nil, s.eats(rice, c.second, ""), s.eats("sugar-454g-bag", c.sugar, "")) // no grams are not a food that is theirs
		if c.sugar == 0 {
			s.plan.People[0].Foods = append(s.plan.People[0].Foods, ration.PersonFood{Food: s.food("sugar-454g-bag").Name, Grams: 0})
		}
		if got := s.found(menucheck.Sums); len(got) != c.sums {
			t.Errorf("%+v: sums off by %v", c, got)
		}
		if got := s.found(menucheck.NotTheirs); len(got) != c.theirs || c.theirs > 0 && s.whose[0] != "A" {
			t.Errorf("%+v: not theirs %v", c, got)
		}
	}
}

// TestOutOfTheOldestPack: of two cans that keep 48 hours, one opened on the first and one on the
// third day, what is eaten comes out of the first while it is good. 100 g more than is open is
// not opened; where all that is lacking is in the stale can it is spoiled. Milk is fed from
// half past seven on.
func TestOutOfTheOldestPack(t *testing.T) {
	const can = "tomatoes-411g-can"
	for _, c := range []struct {
		name               string
		first, third, late float64 // g, on the first day, the third at the hour of the first, half an hour later
		opens              int     // on the third day
		spoiled, notOpened int
	}{
		{"all of one can", 411, 0, 0, 0, 0, 0}, {"in two days", 200, 211, 0, 0, 0, 0}, {"too late", 200, 0, 211, 0, 1, 0},
		{"too late, and more than there was", 200, 0, 311, 0, 0, 1}, {"out of the second", 200, 211, 411, 1, 0, 0}, {"more than both", 200, 211, 412, 1, 0, 1}, {"more than one", 412, 0, 0, 0, 0, 1},
	} {
		s := newSmall(t, 4)
		f := s.food(can)
		if f.Keeping == nil || f.Keeping.AfterOpenHours != 24 && f.Keeping.AfterOpenHours >= 48 {
			t.Fatal("tomatoes keep otherwise: the test shows nothing")
		}
		day := 1 + int(f.Keeping.AfterOpenHours/24)
		at := 8 + f.Keeping.AfterOpenHours - 24*float64(day-1)
		for day > 4 || at > 23 {
			t.Fatal("tomatoes keep too long for the test")
		}
		s.plan.Packs = []ration.PlanPack{{Pack: can, Count: 1 + c.opens}}
		s.meal(1, "breakfast", 8, nil, []string{can}, s.eats(can, c.first, ""))
		var opens []string
		for range c.opens {
			opens = append(opens, can)
		}
		s.meal(day, "a meal", at, nil, opens, s.eats(can, c.third, ""))
		s.meal(day, "a later meal", at+0.5, nil, nil, s.eats(can, c.late, ""))
		if got := s.found(menucheck.Spoiled); len(got) != c.spoiled {
			t.Errorf("%s: spoiled %v", c.name, got)
		}
		if got := s.found(menucheck.NotOpened); len(got) != c.notOpened {
			t.Errorf("%s: not opened %v", c.name, got)
		}
	}
}

// TestPacksByTheirDates: of packs alike those that expire first are opened first: of three
// with dates of the first and the third day and none, opened on the first, third and fourth,
// none is late; opened a day later, each of the two with a date is.
func TestPacksByTheirDates(t *testing.T) {
	for _, c := range []struct {
		days []int
		want []float64 // days late
	}{{[]int{1, 3, 4}, nil}, {[]int{2, 3, 4}, []float64{1}}, {[]int{2, 5, 5}, []float64{1, 2}}, {[]int{1, 1, 5}, nil}} {
		s := newSmall(t, 5)
		for d := range s.days {
			s.days[d]["date"] = []string{"2026-01-05", "2026-01-06", "2026-01-07", "2026-01-08", "2026-01-09"}[d]
		}
		for _, d := range c.days {
			s.meal(d, "midday", 13, nil, []string{rice})
		}
		s.ask = func(req *ration.Request) {
			for _, k := range s.table.Packs {
				if k.Key == rice {
					req.Stock = []foods.StockLine{{Pack: k, Count: 1, BestBefore: "2026-01-07"}, {Pack: k, Count: 1}, {Pack: k, Count: 1, BestBefore: "2026-01-05"}}
				}
			}
		}
		if got := s.found(menucheck.Dated); !slices.Equal(got, c.want) {
			t.Errorf("opened on %v: late by %v days, want %v", c.days, got, c.want)
		}
	}
}

// TestBareByHand: rice with beans is at least 50 g of rice and 90 g of beans for a usual day of
// 2050 kcal, half of which is found; who eats half as much a day has half of that, and a dish
// for children is as it is written. Instant rice makes it as well; rice of another dish, or of
// another person, does not.
func TestBareByHand(t *testing.T) {
	const dish = "plain-rice-beans"
	for _, c := range []struct {
		name        string
		kcal        float64
		rice, beans float64
		as          string // the rice is in this dish
		want        int
	}{
		{"enough", 2050, 25.1, 45.1, dish, 0}, {"little rice", 2050, 24.9, 45.1, dish, 1}, {"few beans", 2050, 25.1, 44.9, dish, 1}, {"both", 2050, 24.9, 44.9, dish, 2},
		{"half a day", 1025, 12.6, 22.6, dish, 0}, {"little of half a day", 1025, 12.4, 22.6, dish, 1}, {"rice of another dish", 2050, 100, 100, "plain-rice-fish", 1},
	} {
		s := newSmall(t, 1)
		d := s.book.Dish(dish)
		if d.Parts[0].MinG != 50 || d.Parts[1].MinG != 90 {
			t.Fatal("the dish has other parts: the test shows nothing")
		}
		per := s.food(rice).Per100g.Known(nutrients.Energy) / 100
		s.plan.People[0].Foods = []ration.PersonFood{{Food: s.food(rice).Name, Grams: c.kcal / per}}
		s.meal(1, "midday", 13, []string{dish}, nil, s.eats(rice, c.rice, c.as), s.eats("black-beans-canned-439g-can", c.beans, dish))
		if got := s.found(menucheck.Bare); len(got) != c.want {
			t.Errorf("%s: %v, want %d", c.name, got, c.want)
		}
	}
}

// TestColdDays: on a cold day nothing that must be heated is eaten, nor is a dish that is
// cooked made; what may be eaten cold, and a dish that is warmed at most, is not found, and an
// infant's feeds are apart. On a day that is not cold all is well.
func TestColdDays(t *testing.T) {
	for _, c := range []struct {
		name string
		cold bool
		hour float64
		pack string
		dish string
		want int
	}{
		{"rice", true, 13, rice, "", 1}, {"rice on another day", false, 13, rice, "", 0}, {"oats", true, 13, "rolled-oats-510g-canister", "", 0}, {"a feed", true, 0, rice, "", 0},
		{"a cooked dish", true, 13, "sugar-454g-bag", "plain-rice-beans", 1}, {"a cold dish", true, 13, "sugar-454g-bag", "soaked-oats-raisins", 0}, {"rice in a cooked dish", true, 13, rice, "plain-rice-beans", 2},
		{"a feed in a cooked dish", true, 0, rice, "plain-rice-beans", 0}, {"a cooked dish on another day", false, 13, rice, "plain-rice-beans", 0},
	} {
		s := newSmall(t, 1)
		s.days[0]["cold"] = c.cold
		var keys []string
		if c.dish != "" {
			keys = append(keys, c.dish)
		}
		s.meal(1, "midday", c.hour, keys, nil, s.eats(c.pack, 50, c.dish))
		if got := s.found(menucheck.Cold); len(got) != c.want {
			t.Errorf("%s: %v, want %d", c.name, got, c.want)
		}
	}
	// No heat is said of a cold day, whatever is eaten on it, but that of the feeds.
	for hour, want := range map[float64]int{13: 1, 0: 0} {
		s := newSmall(t, 1)
		s.days[0]["cold"] = true
		s.meal(1, "midday", hour, nil, nil, s.eats(rice, 100, ""))
		mj := s.food(rice).Preparation.HeatMJ
		s.days[0]["heat_mj"], s.more["heat_mj"] = mj, mj
		if got := s.found(menucheck.Heat); len(got) != want {
			t.Errorf("%g MJ on a cold day at %g: %v, want %d", mj, hour, got, want)
		}
	}
	// Rice must be heated: less than its heat cannot be; oats may be soaked.
	for pack, want := range map[string]int{rice: 1, "rolled-oats-510g-canister": 0} {
		s := newSmall(t, 1)
		s.meal(1, "midday", 13, nil, nil, s.eats(pack, 100, ""))
		if got := s.found(menucheck.Heat); len(got) != want {
			t.Errorf("no heat for %s: %v, want %d", pack, got, want)
		}
	}
	// The heat of the days is that of the menu.
	s := newSmall(t, 2)
	s.more["heat_mj"] = 0.01
	if got := s.found(menucheck.Heat); len(got) != 1 || math.Abs(got[0]-0.01) > 1e-9 {
		t.Errorf("0.01 MJ of no day: %v", got)
	}
}

// TestWaterOfSoakedOats: 100 g of rolled oats take 590 mL by themselves and 300 mL soaked
// (preparation.csv, dish_parts.csv); instant oats 430 mL, and in their place 300 × 430/590 =
// 218.6 mL. What is said of a day lies between; milk in cartons takes none, in either way.
func TestWaterOfSoakedOats(t *testing.T) {
	const dish = "soaked-oats-raisins"
	for _, c := range []struct {
		pack, dish  string
		least, most float64 // L for 100 g
	}{
		{"rolled-oats-510g-canister", dish, 0.3, 0.59}, {"rolled-oats-510g-canister", "", 0.59, 0.59}, {"rolled-oats-510g-canister", "no-such-dish", 0.59, 0.59},
		{"instant-oats", dish, 0.2186, 0.43}, {"instant-oats", "", 0.43, 0.43}, {"long-life-milk", dish, 0, 0}, {rice, dish, -1, -1},
	} {
		s := newSmall(t, 1)
		var f *foods.Food
		for _, x := range s.table.Foods {
			switch {
			case c.pack == "instant-oats" && x.NDB == "08122", c.pack == "long-life-milk" && x.NDB == "01077":
				f = x
			}
		}
		if f == nil {
			f = s.food(c.pack)
		}
		if c.least < 0 { // what is no part of the dish takes what it takes by itself
			c.least = f.Preparation.WaterML / 1000
			c.most = c.least
		}
		for _, say := range []float64{c.least - 0.002, c.least, c.most, c.most + 0.002} {
			s.days[0]["meals"] = []any{}
			s.meal(1, "breakfast", 8, nil, nil, map[string]any{"food": f.Name, "dish": c.dish, "grams": 100.0})
			s.plan.People[0].Foods = []ration.PersonFood{{Food: f.Name, Grams: 100}}
			s.days[0]["water_l"], s.more["water_l"] = say, say
			want := 0
			if say < c.least-0.001 || say > c.most+0.001 {
				want = 1
			}
			if got := s.found(menucheck.Water); len(got) != want {
				t.Errorf("100 g of %s in %q with %g L: %v, want %d", f.Name, c.dish, say, got, want)
			}
		}
	}
}

// TestNoSpareWaterForOthers: two litres that are stored beyond all needs may go into food where
// they are kept for people alone: not where some is kept for pets, heat or illness, or for who
// is not fed, and not where no plan says how much there is.
func TestNoSpareWaterForOthers(t *testing.T) {
	for name, c := range map[string]struct {
		ask  func(*ration.Request)
		plan func(*ration.Plan)
		want int
	}{
		"people alone":  {want: 0},
		"pets":          {ask: func(r *ration.Request) { r.Pets = 1 }, want: 1},
		"heat":          {ask: func(r *ration.Request) { r.Hot = true }, want: 1},
		"illness":       {ask: func(r *ration.Request) { r.Ill = []string{"A"} }, want: 1},
		"not fed":       {plan: func(p *ration.Plan) { p.Refused = []ration.Refused{{Name: "C"}} }, want: 1},
		"no totals":     {plan: func(p *ration.Plan) { p.Totals = nil }, want: 1},
		"usual washing": {ask: func(r *ration.Request) { r.WashingL = nil }, plan: func(p *ration.Plan) { p.Totals.WaterL += stores.HygieneL().Value - 1 - 0.2 }, want: 1},
		"as much of it": {ask: func(r *ration.Request) { r.WashingL = nil }, plan: func(p *ration.Plan) { p.Totals.WaterL += stores.HygieneL().Value - 1 }, want: 0},
		"drinking":      {plan: func(p *ration.Plan) { p.People[0].DrinkLPerDay = 1 }, want: 1},
	} {
		s := newSmall(t, 1)
		s.ask = c.ask
		f := s.food(rice)
		takes := 10 * f.Preparation.WaterML / 1000 // of a kilogram
		s.plan.People[0].Foods = []ration.PersonFood{{Food: f.Name, Grams: 1000}}
		s.plan.Totals.WaterL = 1.1*takes + 1.1*2 + 1
		if c.plan != nil {
			c.plan(s.plan)
		}
		s.meal(1, "midday", 12, nil, nil, s.eats(rice, 1000*(takes+1.9)/takes, ""))
		s.days[0]["water_l"], s.more["water_l"] = takes+1.9, takes+1.9
		if got := s.found(menucheck.Water); len(got) != c.want {
			t.Errorf("%s: %v, want %d", name, got, c.want)
		}
	}
}

// TestWhatIsAMainDish: a main meal has a dish where the person eats of one for main meals: not of
// a side, not of what others eat, and the first is it. How much of it is missing is counted by
// the people.
func TestWhatIsAMainDish(t *testing.T) {
	for _, c := range []struct {
		name   string
		dishes []string
		as     string
		want   int
	}{
		{"a dish", []string{"plain-rice-beans"}, "plain-rice-beans", 0}, {"a side", []string{"side-grain"}, "side-grain", 1}, {"a dish that others eat", []string{"plain-rice-beans"}, "", 1},
		{"a side and a dish", []string{"side-grain", "plain-rice-beans"}, "plain-rice-beans", 0}, {"no dish of the book", []string{"no-such-dish"}, "no-such-dish", 1},
	} {
		for _, meal := range []string{"breakfast", "midday", "evening", "afternoon snack"} {
			s := newSmall(t, 1)
			s.meal(1, meal, 12, c.dishes, nil, s.eats(rice, 100, c.as))
			want := c.want
			if meal == "afternoon snack" {
				want = 0
			}
			if got := s.found(menucheck.NoDish); len(got) != want {
				t.Errorf("%s at %s: %v, want %d", c.name, meal, got, want)
			}
		}
	}
}

// TestAlikeOfMedicines: who takes a medicine that asks for it has each day within 30 % of the
// mean of that nutrient: with 100 g on 13 days, and r·1300/(14 − r) g on the other, that day
// has r times the mean.
func TestAlikeOfMedicines(t *testing.T) {
	for _, c := range []struct {
		times     float64
		condition nutrients.Condition
		want      int
	}{{1.29, nutrients.PotassiumSparing, 0}, {1.31, nutrients.PotassiumSparing, 1}, {0.71, nutrients.PotassiumSparing, 0}, {0.69, nutrients.PotassiumSparing, 1}, {1.31, nutrients.Lithium, 1}, {1.31, nutrients.Vegetarian, 0}} {
		s := newSmall(t, 14)
		s.ask = func(r *ration.Request) { r.People[0].Conditions = []nutrients.Condition{c.condition} }
		for day := 1; day <= 14; day++ {
			grams := 100.0
			if day == 5 {
				grams = c.times * 1300 / (14 - c.times)
			}
			s.meal(day, "midday", 12, nil, nil, s.eats(rice, grams, ""))
		}
		if got := s.found(menucheck.Steady); len(got) != c.want || c.want == 1 && math.Abs(got[0]-math.Abs(c.times-1)) > 1e-9 {
			t.Errorf("%s, a day of %g times the mean: %v, want %d", c.condition, c.times, got, c.want)
		}
	}
}

// TestMostOfADay: 10 g of ground flaxseed a day at most (EFSA Journal 17(4):5662), of each person
// and day, with half a hundredth of room.
func TestMostOfADay(t *testing.T) {
	s := newSmall(t, 2)
	var seed *foods.Food
	for _, f := range s.table.Foods {
		if f.NDB == "12220" {
			seed = f
		}
	}
	for grams, want := range map[float64]int{5: 0, 5.02: 0, 5.03: 1} { // at each of two meals
		s.days[0]["meals"], s.days[1]["meals"] = []any{}, []any{}
		for _, day := range []int{1, 1, 2} {
			s.meal(day, "midday", 12, nil, nil, map[string]any{"food": seed.Name, "dish": "", "grams": grams})
		}
		if got := s.found(menucheck.Daily); len(got) != want {
			t.Errorf("twice %g g: %v, want %d", grams, got, want)
		}
	}
}

// TestFeedsAreMadeInTheMorning: the first feed of a day is made at half past seven: of a milk
// that keeps 24 hours the pack of one day's feeds does for the next day's, not for the
// breakfast at eight of that.
func TestFeedsAreMadeInTheMorning(t *testing.T) {
	for _, c := range []struct {
		hour float64 // on the second day, 0 the feeds
		want int
	}{{0, 0}, {7.5, 0}, {8, 1}} {
		s := newSmall(t, 2)
		var pack string
		for _, k := range s.table.Packs {
			if k.Food.Keeping != nil && k.Food.Keeping.AfterOpenHours == 24 {
				pack = k.Key
			}
		}
		if pack == "" {
			t.Fatal("no food keeps for 24 hours: the test shows nothing")
		}
		s.meal(1, "feeds", 0, nil, []string{pack}, s.eats(pack, 1, ""))
		s.meal(2, "feeds", c.hour, nil, nil, s.eats(pack, 1, ""))
		if got := s.found(menucheck.Spoiled); len(got) != c.want {
			t.Errorf("opened for the feeds of the first day, eaten at %g: %v", c.hour, got)
		}
	}
}

// TestPacksOfNoPlan: a pack that is opened and not in the plan, and one that there is not, are
// found as not opened for it: that is a rule of safety.
func TestPacksOfNoPlan(t *testing.T) {
	for pack, want := range map[string]int{rice: 0, "sugar-454g-bag": 1, "no-such-pack": 2} { // not in the plan, and no pack
		s := newSmall(t, 1)
		s.plan.Packs = []ration.PlanPack{{Pack: rice, Count: 1}}
		s.meal(1, "midday", 13, nil, []string{pack})
		if got := s.found(menucheck.NotOpened); len(got) != want {
			t.Errorf("%s is opened: %v, want %d", pack, got, want)
		}
	}
	for rule, want := range map[menucheck.Rule]bool{menucheck.NotTheirs: true, menucheck.Spoiled: true, menucheck.NotOpened: true, menucheck.Packs: false, menucheck.Cold: false, menucheck.Sums: false} {
		if rule.Safety() != want {
			t.Errorf("%s is a rule of safety: %v", rule, !want)
		}
	}
}

// TestWaterOfTheMenu: the days together take what the menu says, to a thousandth of a litre, and
// two people of a row, or two foods, twice as much as one.
func TestWaterOfTheMenu(t *testing.T) {
	for _, c := range []struct {
		day, menu float64 // L, of two foods of 100 g for two people: 4 × 100 g
		want      int
	}{{0, 0, 0}, {0, 0.0009, 0}, {0, 0.002, 1}, {0, -0.002, 1}, {0.002, 0.002, 1}, {-0.002, -0.002, 1}} {
		s := newSmall(t, 1)
		s.plan.People[0].Count = 2
		takes := 4 * s.food(rice).Preparation.WaterML / 1000
		s.meal(1, "midday", 13, nil, nil, s.eats(rice, 100, ""), s.eats(rice, 100, ""))
		people := s.days[0]["meals"].([]any)[0].(map[string]any)["people"].([]any)[0].(map[string]any)
		people["count"] = 2
		s.plan.People[0].Foods = []ration.PersonFood{{Food: s.food(rice).Name, Grams: 200}}
		s.days[0]["water_l"], s.more["water_l"] = takes+c.day, takes+c.menu
		if got := s.found(menucheck.Water); len(got) != c.want {
			t.Errorf("%+g L on the day, %+g L in the menu: %v, want %d", c.day, c.menu, got, c.want)
		}
	}
}

// TestOfOneSlot: a dish that is for midday alone, for the evening alone or for breakfast alone is
// a main dish.
func TestOfOneSlot(t *testing.T) {
	seen := 0
	for _, slot := range []dishes.Slot{dishes.Breakfast, dishes.Midday, dishes.Evening} {
		s := newSmall(t, 1)
		i := slices.IndexFunc(s.book.Dishes, func(d *dishes.Dish) bool {
			main := 0
			for _, other := range []dishes.Slot{dishes.Breakfast, dishes.Midday, dishes.Evening} {
				if d.Has(other) {
					main++
				}
			}
			return main == 1 && d.Has(slot)
		})
		if i < 0 {
			continue
		}
		seen++
		key := s.book.Dishes[i].Key
		s.meal(1, string(slot), 12, []string{key}, nil, s.eats(rice, 100, key))
		if got := s.found(menucheck.NoDish); len(got) != 0 {
			t.Errorf("%s is no dish: %v", key, got)
		}
	}
	if seen < 2 {
		t.Error("hardly any dish is for one meal alone: the test shows nothing")
	}
}

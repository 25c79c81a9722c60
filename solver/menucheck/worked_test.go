package menucheck_test

import (
	"encoding/json"
	"math"
	"sync"
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
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

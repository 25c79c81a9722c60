package menucheck_test

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/menu"
	"rationwright/solver/menucheck"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// allowed is how far beyond its rule a menu may go where the plan itself leaves no
// other way, as it was made without dishes in mind, and at how many of the places
// where the rule could be broken at most. What is beyond is said in the menu. What is
// not here may not be broken at all.
var allowed = map[menucheck.Rule]allowance{
	menucheck.Energy:       {0.15, 0.002, days},
	menucheck.Protein:      {0.45, 0.008, days},
	menucheck.Carbohydrate: {15, 0.0005, mains},
	menucheck.NoDish:       {1, 0.04, mains},
	menucheck.Bare:         {1, 0.06, mains}, // who has none of a food in the plan has none in the dish
	menucheck.Water:        {0.01, 0.4, menus},
	menucheck.Stove:        {90, 0.01, days},
	menucheck.Daily:        {3, 0.05, days}, // a child's share of a carton that is finished at its meal
}

// allowance is how far a rule may be missed, and at what part of its places.
type allowance struct {
	most, part float64
	of         place
}

// place is where a rule can be broken.
type place int

const (
	days  place = iota // of a person
	mains              // main meals of a person
	menus
	places
)

// shop is the table of foods and the dishes.
func shop(t *testing.T) (*foods.Table, *dishes.Book) {
	t.Helper()
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	book, err := dishes.Load(table)
	if err != nil {
		t.Fatal(err)
	}
	return table, book
}

var from = flag.Int("from", 0, "the random household that a campaign begins with, so that parts of it can be run apart")

// TestRandomHouseholds makes a plan and a menu for random households and holds the
// menu to every rule by the check: the rules of safety, the sums and the packs are
// kept always, how far and how often others are missed is bounded. Plans whose search
// ended before it had begun in earnest are held to the rules that are kept always alone.
func TestRandomHouseholds(t *testing.T) {
	rng := rand.New(rand.NewPCG(15, 2026))
	table, book := shop(t)
	worst := map[menucheck.Rule]float64{}
	broken := map[menucheck.Rule]int{}
	var of [places]float64
	made, rough := 0, 0
	var inDishes []float64
	served := map[string]int{}
	total := func(n int) {
		t.Logf("menus for %d of %d households, %d of rough plans, %.0f person-days; of %d dishes %d are served", made, n, rough, of[days], len(book.Dishes), len(served))
		for _, rule := range slices.Sorted(maps.Keys(broken)) {
			t.Logf("%s: %d times, %.2f %%, worst %.3g", rule, broken[rule], 100*float64(broken[rule])/max(of[allowed[rule].of], 1), worst[rule])
		}
	}
	for n := range 4 * *rationtest.Campaign {
		if n > 0 && n%20 == 0 {
			total(n)
		}
		req := &ration.Request{
			People: rationtest.Kitchen(rng), Table: table, Start: "2026-01-05", Within: 0.1, Work: 3000, Slack: 0.03, Time: time.Minute,
			Least: []ration.Least{ration.LeastCost, ration.LeastWeight, ration.LeastVolume}[rng.IntN(3)],
			Cook:  []ration.Cook{ration.CookBoil, ration.CookBoil, ration.CookNone, ration.CookSimmer}[rng.IntN(4)],
			Days:  []int{14, 14, 14, 7, 10, 21}[rng.IntN(6)],
		}
		cold := rng.IntN(4) == 0
		if !rationtest.Asked(n) || n < *from {
			continue
		}
		plan, err := plan.Make(context.Background(), req, nil)
		if errors.Is(err, ration.ErrNoPlan) || err == nil && plan.Totals == nil {
			continue
		}
		if err != nil {
			t.Errorf("household %d: %v", n, err)
			continue
		}
		ask := &menu.Request{Plan: plan, Of: req, Book: book}
		if cold {
			ask.ColdDays = []int{3, 4}
		}
		m, err := menu.Make(context.Background(), ask)
		if err != nil {
			t.Errorf("household %d: %v", n, err)
			continue
		}
		for _, d := range m.Days {
			for _, meal := range d.Meals {
				for _, x := range meal.Dishes {
					served[x.Key]++
				}
			}
		}
		text, err := json.Marshal(m)
		if err != nil {
			t.Fatal(err)
		}
		found, err := menucheck.Check(text, plan, req, book)
		if err != nil {
			t.Fatal(err)
		}
		made++
		earnest := plan.Gap != nil && *plan.Gap < 0.25
		if earnest {
			people := float64(len(plan.People))
			of[days] += people * float64(plan.Days)
			of[mains] += 3 * people * float64(plan.Days)
			of[menus]++
			inDishes = append(inDishes, m.InDishes)
		} else {
			rough++
		}
		for _, f := range found {
			t.Logf("household %d, earnest %t: %s", n, earnest, f)
			if a, ok := allowed[f.Rule]; !ok {
				t.Errorf("household %d: %s", n, f)
			} else if earnest {
				broken[f.Rule]++
				worst[f.Rule] = max(worst[f.Rule], f.Amount)
				if f.Amount > a.most {
					t.Errorf("household %d: %s, beyond %g", n, f, a.most)
				}
			}
		}
	}
	if len(inDishes) == 0 {
		t.Fatal("no menu was made: the test shows nothing")
	}
	slices.Sort(inDishes)
	total(4 * *rationtest.Campaign)
	t.Logf("in dishes: least %.0f %%, median %.0f %%", 100*inDishes[0], 100*inDishes[len(inDishes)/2])
	for _, d := range book.Dishes {
		if served[d.Key] == 0 {
			t.Logf("never served: %s", d.Key)
		}
	}
	for rule, n := range broken {
		a := allowed[rule]
		at := max(of[a.of], 1)
		// A small sample has by chance up to two standard deviations (Poisson) more.
		if most := a.part * at; float64(n) > most+2*math.Sqrt(most) {
			t.Errorf("%s: at %d of its %.0f places, at most %.2f %% and what chance allows", rule, n, at, 100*a.part)
		}
	}
}

// TestManyPeople: of more people than are shared out to in one program, everyone gets what
// the plan gives them out of the packs that it has, and nothing that spoils.
func TestManyPeople(t *testing.T) {
	rng := rand.New(rand.NewPCG(60, 2026))
	table, book := shop(t)
	req := &ration.Request{Table: table, Start: "2026-01-05", Within: 0.5, Work: 300, Time: time.Minute}
	for len(req.People) < 9 {
		for _, p := range rationtest.Kitchen(rng) {
			p.Name = fmt.Sprintf("P%d", len(req.People)+1)
			req.People = append(req.People, p)
		}
	}
	plan, err := plan.Make(context.Background(), req, nil)
	if err != nil || plan.Totals == nil {
		t.Fatal("no plan", err)
	}
	m, err := menu.Make(context.Background(), &menu.Request{Plan: plan, Of: req, Book: book})
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(m)
	if err != nil {
		t.Fatal(err)
	}
	found, err := menucheck.Check(text, plan, req, book)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range found {
		if f.Rule.Safety() || f.Rule == menucheck.Sums || f.Rule == menucheck.Packs {
			t.Error(f)
		}
	}
}

// TestCheckFinds spoils a menu that keeps every rule of safety, one rule at a time:
// the check must name that rule.
func TestCheckFinds(t *testing.T) {
	table, book := shop(t)
	req := &ration.Request{
		People: []nutrients.Person{
			{Name: "A", AgeMonths: 12 * 40, Sex: nutrients.Female, Activity: nutrients.LowActive, Count: 1},
			{Name: "B", AgeMonths: 12 * 50, Sex: nutrients.Male, Activity: nutrients.LowActive, Count: 1, Conditions: []nutrients.Condition{nutrients.Diabetes2, nutrients.Warfarin}},
		},
		Table: table, Start: "2026-01-05", Within: 0.1, Work: 3000, Time: time.Minute,
	}
	plan, err := plan.Make(context.Background(), req, nil)
	if err != nil {
		t.Fatal(err)
	}
	fresh := func() *menu.Menu {
		m, err := menu.Make(context.Background(), &menu.Request{Plan: plan, Of: req, Book: book})
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	first := func(m *menu.Menu, day int) *menu.Served { return &m.Days[day].Meals[0].People[0] }
	opensShort := func(m *menu.Menu) (*menu.Meal, int, int) { // a pack that is finished at its meal
		for d := range m.Days {
			for i := range m.Days[d].Meals {
				for k, kept := range m.Days[d].Meals[i].Keeps {
					if kept.Until == "this meal" && d+1 < len(m.Days) {
						return &m.Days[d].Meals[i], d, k
					}
				}
			}
		}
		t.Fatal("the plan opens nothing that spoils: the test shows nothing")
		return nil, 0, 0
	}
	t.Run(string(menucheck.Dated), func(t *testing.T) { // what the first meal opens was to be eaten a week before
		m := fresh()
		dated := *req
		for _, k := range req.Table.Packs {
			if len(m.Days[0].Meals[0].Opens) > 0 && k.Key == m.Days[0].Meals[0].Opens[0] {
				dated.Stock = []foods.StockLine{{Pack: k, Count: 1, BestBefore: "2025-12-29"}}
			}
		}
		text, err := json.Marshal(m)
		if err != nil {
			t.Fatal(err)
		}
		found, err := menucheck.Check(text, plan, &dated, book)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.ContainsFunc(found, func(f menucheck.Finding) bool { return f.Rule == menucheck.Dated && f.Amount == 7 }) {
			t.Errorf("the check does not find it; it finds %v", found)
		}
	})
	for _, c := range []struct {
		rule  menucheck.Rule
		spoil func(m *menu.Menu)
	}{
		{menucheck.NotTheirs, func(m *menu.Menu) {
			first(m, 0).Foods = append(first(m, 0).Foods, menu.Amount{Food: "honey", Grams: 20})
		}},
		{menucheck.Sums, func(m *menu.Menu) { first(m, 2).Foods[0].Grams *= 1.5 }},
		{menucheck.Packs, func(m *menu.Menu) {
			for d := range m.Days {
				for i := range m.Days[d].Meals {
					if opens := &m.Days[d].Meals[i].Opens; len(*opens) > 0 {
						*opens = (*opens)[1:]
						return
					}
				}
			}
		}},
		{menucheck.Spoiled, func(m *menu.Menu) { // opened for one meal, eaten a day later
			meal, d, _ := opensShort(m)
			later := &m.Days[d+1].Meals[0]
			later.People, meal.People = append(later.People, meal.People...), nil
		}},
		{menucheck.NotOpened, func(m *menu.Menu) {
			for i := range m.Days[0].Meals {
				m.Days[0].Meals[i].Opens = nil
			}
		}},
		{menucheck.Energy, func(m *menu.Menu) {
			m.Days[0].Meals, m.Days[1].Meals = nil, append(m.Days[1].Meals, m.Days[0].Meals...)
		}},
		{menucheck.Protein, func(m *menu.Menu) {
			m.Days[3].Meals, m.Days[4].Meals = nil, append(m.Days[4].Meals, m.Days[3].Meals...)
		}},
		{menucheck.Steady, func(m *menu.Menu) {
			m.Days[5].Meals, m.Days[6].Meals = nil, append(m.Days[6].Meals, m.Days[5].Meals...) // a day without, and one with that of two
		}},
		{menucheck.Carbohydrate, func(m *menu.Menu) {
			for i := range m.Days[0].Meals {
				if m.Days[0].Meals[i].Meal == "midday" {
					m.Days[0].Meals[i].People = nil
				}
			}
		}},
		{menucheck.Running, func(m *menu.Menu) { m.Days[1].Meals = m.Days[0].Meals }},
		{menucheck.Often, func(m *menu.Menu) {
			for d := range m.Days {
				m.Days[d].Meals = m.Days[0].Meals
			}
		}},
		{menucheck.Bare, func(m *menu.Menu) {
			for d := range m.Days {
				for i := range m.Days[d].Meals {
					for k := range m.Days[d].Meals[i].People {
						for j := range m.Days[d].Meals[i].People[k].Foods {
							m.Days[d].Meals[i].People[k].Foods[j].Grams /= 20
						}
					}
				}
			}
		}},
		{menucheck.Stove, func(m *menu.Menu) {
			meal := &m.Days[0].Meals[0]
			for _, d := range book.Dishes {
				if d.Cooking == "simmer" {
					meal.Dishes = append(meal.Dishes, menu.Dish{Key: d.Key, Minutes: d.Minutes})
				}
			}
		}},
		{menucheck.Daily, func(m *menu.Menu) { // 10 g a day of ground flaxseed at most (EFSA Journal 17(4):5662)
			first(m, 1).Foods = append(first(m, 1).Foods, menu.Amount{Food: "flaxseed", Grams: 11})
		}},
		{menucheck.NoDish, func(m *menu.Menu) { m.Days[0].Meals[0].Dishes = nil }},
		{menucheck.Cold, func(m *menu.Menu) {
			for d := range m.Days {
				m.Days[d].Cold = true
			}
		}},
		{menucheck.Heat, func(m *menu.Menu) { m.HeatMJ = 1e3 }},
		{menucheck.Heat, func(m *menu.Menu) { m.HeatMJ *= 0.9 }},
		{menucheck.Heat, func(m *menu.Menu) { // said of another day than it is cooked on
			k := slices.IndexFunc(m.Days[1:], func(d menu.Day) bool { return d.HeatMJ > 0 }) + 1
			m.Days[0].HeatMJ, m.Days[k].HeatMJ = m.Days[0].HeatMJ+m.Days[k].HeatMJ, 0
		}},
		{menucheck.Water, func(m *menu.Menu) { m.WaterL = 1e3 }},
		{menucheck.Water, func(m *menu.Menu) { m.WaterL *= 0.9 }}, // less is said than what is eaten takes
		{menucheck.Water, func(m *menu.Menu) { // likewise on each day
			m.WaterL = 0
			for d := range m.Days {
				m.Days[d].WaterL *= 0.5
				m.WaterL += m.Days[d].WaterL
			}
		}},
	} {
		t.Run(string(c.rule), func(t *testing.T) {
			m := fresh()
			c.spoil(m)
			text, err := json.Marshal(m)
			if err != nil {
				t.Fatal(err)
			}
			found, err := menucheck.Check(text, plan, req, book)
			if err != nil {
				t.Fatal(err)
			}
			if !slices.ContainsFunc(found, func(f menucheck.Finding) bool { return f.Rule == c.rule }) {
				t.Errorf("the check does not find it; it finds %v", found)
			}
		})
	}
}

package withmenu_test

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/menu"
	"rationwright/solver/menucheck"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/verify"
	"rationwright/solver/withmenu"
)

var from = flag.Int("from", 0, "the random household that a campaign begins with, so that parts of it can be run apart")

// limits are how far beyond its rule a menu made with its plan may go; what is not here
// may not be broken at all.
var limits = map[menucheck.Rule]float64{menucheck.Protein: 0.45, menucheck.Bare: 1, menucheck.NoDish: 1, menucheck.Carbohydrate: 20, menucheck.Stove: 60, menucheck.Daily: 3}

// often is at what part of the main meals a rule may be missed at most.
var often = map[menucheck.Rule]float64{menucheck.Protein: 0.005, menucheck.Bare: 0.02, menucheck.NoDish: 0.002, menucheck.Carbohydrate: 0.005, menucheck.Stove: 0.01, menucheck.Daily: 0.015}

// leastMade is the part of the households that must get a plan with its menu.
const leastMade = 0.8

// TestRandomHouseholds makes plans with their menus: the check of the plan and the check
// of the menu, which share nothing with what made them, are kept, and no plan with dishes
// is under the bound of those without.
func TestRandomHouseholds(t *testing.T) {
	rng := rand.New(rand.NewPCG(15, 2026))
	worst, broken := map[menucheck.Rule]float64{}, map[menucheck.Rule]int{}
	none := map[string]int{}
	var prices, inDishes []float64
	var times []time.Duration
	made, asked, mains := 0, 0, 0
	served := map[string]int{}
	together, seats := 0, 0
	total := func() {
		if made == 0 {
			return
		}
		for _, list := range [][]float64{prices, inDishes} {
			slices.Sort(list)
		}
		slices.Sort(times)
		t.Logf("%d plans with menus of %d households; none: %v; dishes served: %d", made, asked, none, len(served))
		t.Logf("price of dishes: median %.2f %%, worst %.2f %%; in dishes: least %.1f %%, median %.1f %%; time: median %v, longest %v",
			100*prices[made/2], 100*prices[made-1], 100*inDishes[0], 100*inDishes[made/2], times[made/2], times[made-1])
		t.Logf("those who may eat as the others do have the dish of the household at %.1f %% of %d main meals", 100*float64(together)/float64(max(seats, 1)), seats)
		for _, rule := range slices.Sorted(maps.Keys(broken)) {
			t.Logf("%s: %d times of %d main meals, worst %.3g", rule, broken[rule], mains, worst[rule])
		}
	}
	for n := range 2 * *rationtest.Campaign {
		if n > 0 && n%20 == 0 {
			total()
		}
		req := &ration.Request{
			People: rationtest.Kitchen(rng), Table: rationtest.Table(t), Start: "2026-01-05", WithMenu: true,
			Least: []ration.Least{ration.LeastCost, ration.LeastWeight, ration.LeastVolume}[rng.IntN(3)],
			Cook:  []ration.Cook{ration.CookBoil, ration.CookBoil, ration.CookNone, ration.CookSimmer}[rng.IntN(4)],
			Days:  []int{14, 14, 14, 7, 10, 21}[rng.IntN(6)],
			Slack: []float64{0, 0.03}[rng.IntN(2)],
		}
		if !rationtest.Asked(n) || n < *from {
			continue
		}
		book, err := menu.BookOf(req)
		if err != nil {
			t.Fatal(err)
		}
		at := time.Now()
		p, err := withmenu.Make(context.Background(), req, book, nil)
		if errors.Is(err, ration.ErrNoPlan) || err == nil && p.Totals == nil {
			continue
		}
		if err != nil {
			t.Errorf("household %d: %v", n, err)
			continue
		}
		took := time.Since(at)
		asked++
		if p.Dishes.None != "" {
			none[p.Dishes.None]++
			t.Logf("household %d, %s, cook %s, %d days, %v: %s", n, req.Least, req.Cook, req.Days, nutrients.HouseholdRows(req.People), p.Dishes.None)
			continue
		}
		made++
		mains += 3 * len(p.People) * p.Days
		times = append(times, took)
		prices = append(prices, p.Dishes.Price)
		inDishes = append(inDishes, p.Menu.InDishes)
		for _, d := range p.Menu.Days {
			for _, meal := range d.Meals {
				for _, x := range meal.Dishes {
					served[x.Key]++
				}
				have, of := eatTogether(req.People, meal)
				together, seats = together+have, seats+of
			}
		}
		for _, v := range verify.Check(ration.Filled(req), p) {
			t.Errorf("household %d: %v", n, v)
		}
		if *p.Value < *p.Dishes.Bound*(1-ration.CheckTolerance) {
			t.Errorf("household %d: value %g, under the bound %g", n, *p.Value, *p.Dishes.Bound)
		}
		text, err := json.Marshal(p.Menu)
		if err != nil {
			t.Fatal(err)
		}
		found, err := menucheck.Check(text, p, ration.Filled(req), book)
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("household %d of %d, %s, cook %s, %d days: dishes add %.2f %%, in dishes %.1f %%, %d findings, %.1f s",
			n, len(req.People), req.Least, req.Cook, req.Days, 100*p.Dishes.Price, 100*p.Menu.InDishes, len(found), took.Seconds())
		for _, f := range found {
			broken[f.Rule]++
			worst[f.Rule] = max(worst[f.Rule], f.Amount)
			t.Logf("household %d: %s", n, f)
			if f.Amount > limits[f.Rule] {
				t.Errorf("household %d: %s: %.3g beyond", n, f, f.Amount)
			}
		}
	}
	if made == 0 {
		t.Fatal("no plan was made with its menu: the test shows nothing")
	}
	total()
	for _, d := range unserved(t, served) {
		t.Logf("never served: %s", d)
	}
	for rule, n := range broken {
		part, most := float64(n)/float64(mains), often[rule]
		if rule == menucheck.Daily { // a small sample has by chance up to two standard deviations (Poisson) more
			most += 2 * math.Sqrt(most/float64(mains))
		}
		if part > most {
			t.Errorf("%s: at %.2f %% of the main meals, at most %.2f %%", rule, 100*part, 100*most)
		}
	}
	if part := float64(made) / float64(asked); part < leastMade {
		t.Errorf("%.0f %% of the households have a plan with its menu, at least %.0f %%", 100*part, 100*leastMade)
	}
}

// eatTogether is how many of those of three years and more without conditions, orders or
// allergies have the dish that most have at a main meal, and how many they are: those may
// eat as the others do.
func eatTogether(people []nutrients.Person, meal menu.Meal) (have, of int) {
	if !slices.Contains([]string{"breakfast", "midday", "evening"}, meal.Meal) {
		return 0, 0
	}
	main := map[string]bool{}
	for _, x := range meal.Dishes {
		main[x.Key] = true
	}
	has := map[string]int{}
	for _, p := range people {
		i := slices.IndexFunc(meal.People, func(s menu.Served) bool { return s.Name == p.Name })
		if i < 0 || p.AgeMonths < 36 || len(p.Conditions) > 0 || len(p.Allergies) > 0 || len(p.Rules) > 0 {
			continue
		}
		of++
		got := map[string]bool{}
		for _, a := range meal.People[i].Foods {
			if main[a.Dish] && !got[a.Dish] {
				got[a.Dish] = true
				has[a.Dish]++
			}
		}
	}
	for _, n := range has {
		have = max(have, n)
	}
	if of < 2 {
		return 0, 0
	}
	return have, of
}

// unserved are the dishes of the book that are not among those served.
func unserved(t *testing.T, served map[string]int) []string {
	book, err := dishes.Load(rationtest.Table(t))
	if err != nil {
		t.Fatal(err)
	}
	var list []string
	for _, d := range book.Dishes {
		if served[d.Key] == 0 {
			list = append(list, d.Key)
		}
	}
	return list
}

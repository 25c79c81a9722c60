package withmenu_test

import (
	"context"
	"encoding/json"
	"errors"
	"maps"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/menu"
	"rationwright/solver/menucheck"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/verify"
	"rationwright/solver/withmenu"
)

// limits are how far beyond its rule a menu made with its plan may go; what is not here
// may not be broken at all.
var limits = map[menucheck.Rule]float64{menucheck.Protein: 0.45, menucheck.Bare: 1, menucheck.NoDish: 1, menucheck.Carbohydrate: 20, menucheck.Stove: 60}

// often is at what part of the main meals a rule may be missed at most.
var often = map[menucheck.Rule]float64{menucheck.Protein: 0.005, menucheck.Bare: 0.02, menucheck.NoDish: 0.002, menucheck.Carbohydrate: 0.005, menucheck.Stove: 0.01}

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
		if !rationtest.Asked(n) {
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
	for rule, n := range broken {
		part := float64(n) / float64(mains)
		if part > often[rule] {
			t.Errorf("%s: at %.2f %% of the main meals, at most %.2f %%", rule, 100*part, 100*often[rule])
		}
	}
	if part := float64(made) / float64(asked); part < leastMade {
		t.Errorf("%.0f %% of the households have a plan with its menu, at least %.0f %%", 100*part, 100*leastMade)
	}
}

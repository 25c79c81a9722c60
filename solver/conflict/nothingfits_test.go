package conflict_test

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/conflicttest"
	"rationwright/solver/model"
	"rationwright/solver/plan"
	"rationwright/solver/plantest"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/rules"
	"rationwright/solver/search"
	"rationwright/solver/verify"
)

// What a conflict, the closest ration and the ways out say of one plain case.
func TestNothingFitsInPlainWords(t *testing.T) {
	budget := 5.0
	req := &ration.Request{
		People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female)}, Table: rationtest.Table(t), Days: 3,
		Standard: nutrients.StandardBasic, Start: "2026-11-25", Limits: ration.Limits{Budget: &budget}, Time: time.Minute,
	}
	plan := plantest.MustMake(t, req)
	if plan.Status != ration.StatusInfeasible || plan.Proven == nil || !*plan.Proven {
		t.Fatalf("status %s, proven %v", plan.Status, plan.Proven)
	}
	words := map[string]bool{}
	for _, c := range plan.Conflict {
		words[c.Limit] = true
	}
	if !words["budget at most 5 TSD"] || len(plan.Conflict) < 2 {
		t.Errorf("conflict %v, want the budget and what it cannot buy", plan.Conflict)
	}
	if plan.Closest == nil || len(plan.Closest.Shortfalls) == 0 {
		t.Fatal("no closest ration")
	}
	// The closest ration is a ration but for what it says it lacks.
	near := &ration.Plan{Packs: plan.Closest.Packs, People: plan.Closest.People, Shortfalls: plan.Closest.Shortfalls}
	byNeed := *req
	byNeed.IgnoreEatable = true
	for _, v := range verify.Check(&byNeed, near) {
		if v.Limit != "the plan has no totals" {
			t.Errorf("closest ration: %v", v)
		}
	}
	found := map[string]bool{}
	for _, w := range plan.WaysOut {
		found[w.Change] = true
		conflicttest.CheckWayOut(t, "budget of 5", req, w)
	}
	if len(found) < 2 {
		t.Errorf("ways out %v, want more budget and fewer days", plan.WaysOut)
	}
}

// A safety rule may stand in a conflict, never in a way out: the milk of an
// infant is not given up for a budget.
func TestSafetyIsNoWayOut(t *testing.T) {
	budget := 1.0
	infant := nutrients.Person{Name: "Liv", AgeMonths: 4, Sex: nutrients.Female, WeightKg: 6.4, Feeding: nutrients.FormulaFed, Count: 1}
	plan := plantest.MustMake(t, &ration.Request{
		People: []nutrients.Person{infant}, Table: rationtest.Table(t), Start: "2026-11-25", Limits: ration.Limits{Budget: &budget}, Time: time.Minute,
	})
	if plan.Status != ration.StatusInfeasible {
		t.Fatalf("status %s", plan.Status)
	}
	if plan.Closest != nil {
		t.Error("a closest ration without the infant's milk is shown")
	}
	if len(plan.WaysOut) == 0 {
		t.Error("no way out: more budget is one")
	}
	for _, w := range plan.WaysOut {
		for _, line := range w.Plan.People {
			if len(line.Foods) == 0 {
				t.Errorf("%q leaves %s without milk", w.Change, line.Name)
			}
		}
	}
}

// Ways out come the cheapest first, fewer days last: with a budget between what a ration
// costs with a food and without it, the food comes back for less than the budget rises by.
func TestCheapestWayOutFirst(t *testing.T) {
	ordered := 0
	for _, food := range []string{"peanut butter", "rolled oats", "white rice"} {
		req := &ration.Request{
			People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female)}, Table: rationtest.SmallTable(t, rationtest.SmallShop...), Days: 5, IgnoreEatable: true,
			Standard: nutrients.StandardBasic, Start: "2026-11-25", Time: time.Minute, Within: 0.001,
		}
		with := plantest.MustMake(t, req)
		req.Without = []string{food}
		without := plantest.MustMake(t, req)
		if with.Value == nil || without.Value == nil {
			t.Fatalf("no ration without %s", food)
		}
		budget := (*with.Value + *without.Value) / 2
		req.Limits.Budget = &budget
		plan := plantest.MustMake(t, req)
		least, ways := 0.0, 0
		var changes []string
		for k, w := range plan.WaysOut {
			changes = append(changes, fmt.Sprintf("%s: %.2f", w.Change, *w.Cost))
			if strings.HasPrefix(w.Change, "plan for ") {
				if k != len(plan.WaysOut)-1 {
					t.Errorf("without %s: fewer days are not last: %q", food, changes)
				}
				continue
			}
			if *w.Cost < least {
				t.Errorf("without %s: a dearer way comes first: %q", food, changes)
			}
			if ways > 0 && *w.Cost > least {
				ordered++
			}
			least = *w.Cost
			ways++
		}
		t.Logf("%g to %g without %s: %q", *with.Value, *without.Value, food, changes)
	}
	if ordered == 0 {
		t.Error("there are never two ways out of different cost: the test shows nothing")
	}
}

// Cooking is allowed as far as it helps, no further.
func TestMoreCookingIsAWayOut(t *testing.T) {
	on := rationtest.SmallTable(t, "white-rice-907g-bag", "sunflower-oil-0.5l-bottle", "pasta-454g-bag", "egg-powder-227g-canister", "canned-chicken-354g-can", "rye-crispbread-250g-box")
	plan := plantest.MustMake(t, &ration.Request{
		People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female)}, Table: on, Standard: nutrients.StandardBasic,
		Cook: ration.CookNone, Start: "2026-11-25", Days: 3, Time: time.Minute, IgnoreEatable: true,
	})
	if plan.Status != ration.StatusInfeasible {
		t.Fatalf("status %s", plan.Status)
	}
	cooking := false
	for _, w := range plan.WaysOut {
		cooking = cooking || w.Change == rules.CookingWords[ration.CookBoil] && w.Request.Cook == ration.CookBoil
	}
	if !cooking {
		t.Errorf("conflict %v, ways out %v, want %q", plan.Conflict, plan.WaysOut, rules.CookingWords[ration.CookBoil])
	}
}

// Where water itself is short, the closest ration says so: first what is for
// washing goes, then what is to drink; and nothing else is wrong with it.
func TestClosestRationWithoutWater(t *testing.T) {
	for _, c := range []struct {
		share  float64 // of the least that a ration takes
		drinks bool    // falls short of water to drink as well
	}{{0.9, false}, {0.2, true}} {
		req := &ration.Request{
			People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Torgeir", 40, nutrients.Male)},
			Table:  rationtest.SmallTable(t, rationtest.SmallShop...), IgnoreEatable: true, Days: 5, Standard: nutrients.StandardBasic, Start: "2026-11-25", Time: time.Minute,
		}
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		for j := range m.Problem.Cols {
			m.Problem.Cols[j].Cost = 0
		}
		m.Problem.Cols[m.Water].Cost = 1
		x, err := search.Relax(m.Problem)
		if err != nil {
			t.Fatal(err)
		}
		litres := c.share * x.Solve(context.Background()).Value
		req.Limits.WaterL = &litres
		plan := plantest.MustMake(t, req)
		if plan.Status != ration.StatusInfeasible || plan.Closest == nil {
			t.Fatalf("%g L: status %s, closest ration %v", litres, plan.Status, plan.Closest != nil)
		}
		short := map[string]bool{}
		for _, s := range plan.Closest.Shortfalls {
			short[s.Nutrient] = true
		}
		if !short[ration.ShortWashing] || short[ration.ShortDrink] != c.drinks {
			t.Errorf("%g L: short of %v; want water for washing, and to drink %v", litres, short, c.drinks)
		}
		limited, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		if conflicttest.CheckClosest(t, fmt.Sprintf("%g L", litres), limited) != 1 {
			t.Errorf("%g L: no closest ration", litres)
		}
	}
}

// A budget that a plan found without it keeps is no reason to find none; one under
// the proven bound is impossible.
func TestBudgetAtThePlansOwnCost(t *testing.T) {
	req := &ration.Request{
		People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female)}, Table: rationtest.SmallTable(t, rationtest.SmallShop...), IgnoreEatable: true, Least: ration.LeastCost, Days: 3,
		Standard: nutrients.StandardBasic, Start: "2026-11-25", Time: 10 * time.Second, Within: 0.01,
	}
	free := plantest.MustMake(t, req)
	for _, room := range []float64{0, 0.002, 0.05} {
		budget := *free.Value * (1 + room)
		req.Limits.Budget = &budget
		plan, err := plan.Make(context.Background(), req, nil)
		if err != nil || plan.Status == ration.StatusInfeasible {
			t.Errorf("a plan costs %g, but with a budget of %g there is none: %v", *free.Value, budget, err)
			continue
		}
		if plan.Totals.Cost > budget*(1+1e-6) {
			t.Errorf("budget %g, the plan costs %g", budget, plan.Totals.Cost)
		}
	}
	budget := *free.Bound * 0.98
	req.Limits.Budget = &budget
	if plan, err := plan.Make(context.Background(), req, nil); err == nil && plan.Status != ration.StatusInfeasible && len(plan.Shortfalls) == 0 {
		t.Errorf("nothing costs less than %g, but a plan keeps a budget of %g", *free.Bound, budget)
	}
}

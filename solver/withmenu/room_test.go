package withmenu_test

import (
	"context"
	"testing"

	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/menu"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/verify"
	"rationwright/solver/withmenu"
)

// TestDishesWhereRulesGave: for a girl of four who may have no milk and eats cold, rules of what
// people gladly eat give already without dishes, as little as was found, and of exactly that no dishes can be made:
// they give a little more, at most by what the last of the rooms allows, and the answer says so.
func TestDishesWhereRulesGave(t *testing.T) {
	req := &ration.Request{
		People: []nutrients.Person{{Name: "Tuva", AgeMonths: 48, Sex: nutrients.Female, Count: 1, Allergies: []nutrients.Allergy{{Allergen: "milk"}}}},
		Table:  rationtest.Table(t), Start: "2026-12-01", Cook: ration.CookNone,
	}
	without, err := plan.Make(context.Background(), ration.Filled(req), nil)
	if err != nil {
		t.Fatal(err)
	}
	gave := map[string]float64{} // amount over limit, or the limit
	for _, l := range without.Eatable.Loosened {
		gave[l.Kind+l.Unit] = l.Amount
	}
	if len(gave) == 0 {
		t.Fatal("no rule gave: the test shows nothing")
	}
	p, _ := withDishes(t, req)
	const room = 0.25
	for _, l := range p.Eatable.Loosened {
		most := l.Limit
		if amount, ok := gave[l.Kind+l.Unit]; ok {
			most = amount
		}
		if l.Amount > most*(1+room)*(1+1e-6) {
			t.Errorf("%s: %g %s, %g without dishes", l.Kind, l.Amount, l.Unit, most)
		}
	}
	if p.Dishes.Room <= 0 || p.Dishes.Room > room {
		t.Errorf("rules gave %g more, it says", p.Dishes.Room)
	}
	// What dishes add is told beside the plan without them by the rules as they gave, which costs
	// less than that by the tighter ones, and so does what is proven of it.
	if p.Dishes.Value >= *without.Value || *p.Dishes.Bound > p.Dishes.Value || *p.Bound > p.Dishes.Value*(1+1e-9) {
		t.Errorf("without dishes %g by the looser rules, at least %g, %g by the tighter ones; the plan is at least %g", p.Dishes.Value, *p.Dishes.Bound, *without.Value, *p.Bound)
	}
	t.Logf("without dishes %g by the looser rules, at least %g; %g and %g by the tighter ones", p.Dishes.Value, *p.Dishes.Bound, *without.Value, *without.Bound)
}

// TestDishesWhereFedShort: a boy of 19 months who has no soy drink and a glass of milk a day gets a
// little less than all of vitamin D where nothing is cooked, with dishes as without: that is said, and is no reason that there are
// no dishes.
func TestDishesWhereFedShort(t *testing.T) {
	req := &ration.Request{
		People: []nutrients.Person{
			{Name: "Ida", AgeMonths: 34 * 12, Sex: nutrients.Female, Activity: nutrients.LowActive, Count: 1},
			{Name: "Kai", AgeMonths: 19, Sex: nutrients.Male, Activity: nutrients.LowActive, Count: 1, Dislikes: []string{"soy drink"},
				Rules: []nutrients.Rule{{Kind: nutrients.RuleMost, Food: "milk", Low: 252}}},
		},
		Table: rationtest.Table(t), Start: "2026-12-01", Cook: ration.CookNone,
	}
	p, _ := withDishes(t, req)
	if len(p.Shortfalls) == 0 {
		t.Error("nobody is fed short: the test shows nothing")
	}
}

// withDishes makes the plan of req with its menu, and holds it to the check of plans.
func withDishes(t *testing.T, req *ration.Request) (*ration.Plan, *dishes.Book) {
	t.Helper()
	book, err := menu.BookOf(req)
	if err != nil {
		t.Fatal(err)
	}
	p, err := withmenu.Make(context.Background(), req, book, nil)
	if err != nil {
		t.Fatal(err)
	}
	if p.Menu == nil || p.Dishes.None != "" {
		t.Fatal("no dishes:", p.Dishes.None)
	}
	for _, v := range verify.Check(ration.Filled(req), p) {
		t.Error(v)
	}
	return p, book
}

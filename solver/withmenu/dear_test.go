package withmenu_test

import (
	"context"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/menu"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/withmenu"
)

// Foods that only dishes call for are found though a plan without dishes is not made of
// them: a vegetarian who cooks nothing pays at most a tenth more for dishes (own planning
// rule). Among the sixty foods nearest in price to the plan without dishes there are none
// for all days, and dishes of all foods that are not bought with them in mind added 26 %.
func TestDishesAreNotDear(t *testing.T) {
	p := rationtest.Adult("Borghild", 86, nutrients.Female)
	p.Conditions = []nutrients.Condition{nutrients.Vegetarian}
	req := &ration.Request{
		People: []nutrients.Person{p}, Table: rationtest.Table(t), Start: "2026-01-05",
		WithMenu: true, Least: ration.LeastCost, Cook: ration.CookNone,
	}
	book, err := menu.BookOf(req)
	if err != nil {
		t.Fatal(err)
	}
	plan, err := withmenu.Make(context.Background(), req, book, nil)
	if err != nil || plan.Menu == nil || plan.Dishes.None != "" {
		t.Fatalf("no plan with its menu: %v", err)
	}
	if plan.Dishes.Price > 0.1 {
		t.Errorf("dishes add %.1f %%, at most 10 %%", 100*plan.Dishes.Price)
	}
}

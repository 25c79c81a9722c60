package withmenu_test

import (
	"context"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/menu"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/withmenu"
)

// Who is to have little sodium has less than even the adequate intake of 1,500 mg (NASEM
// 2019) by dishes too, where 2,000 (WHO 2012) would be kept.
func TestLittleSodiumInDishes(t *testing.T) {
	p := rationtest.Adult("Torleif", 63, nutrients.Male)
	p.Conditions = []nutrients.Condition{nutrients.LowSodium}
	req := &ration.Request{
		People: []nutrients.Person{p, rationtest.Adult("Signe", 60, nutrients.Female)}, Table: rationtest.Table(t),
		Start: "2026-11-28", WithMenu: true, Least: ration.LeastCost, Slack: 0.03, Time: 5 * time.Second,
	}
	book, err := menu.BookOf(req)
	if err != nil {
		t.Fatal(err)
	}
	plan, err := withmenu.Make(context.Background(), req, book, nil)
	if err != nil || plan.Menu == nil {
		t.Fatalf("no plan with its menu: %v", err)
	}
	for _, e := range plan.People {
		if need := e.Need("sodium"); e.Name == p.Name && (need == nil || need.Amount >= 1500) {
			t.Errorf("%s has %+v", e.Name, need)
		}
	}
}

package menu

import (
	"context"
	"testing"

	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// What each person eats is bettered from a point that keeps every row by points that keep
// every row: one at which the work ended serves as well as the best, and is better than the
// first.
func TestLoosenedPointsKeepEveryRow(t *testing.T) {
	req := ration.Filled(rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Torleif", 63, nutrients.Male)))
	p, err := plan.Make(context.Background(), req, nil)
	if err != nil || p.Totals == nil {
		t.Fatal("no plan", err)
	}
	m, err := model.BuildFor(req, p)
	if err != nil {
		t.Fatal(err)
	}
	point, err := m.Point(p)
	if err != nil {
		t.Fatal(err)
	}
	book, err := dishes.Load(req.Table)
	if err != nil {
		t.Fatal(err)
	}
	_ = book
	_ = point
	_ = search.Relax
	_ = simplex.Limit
}

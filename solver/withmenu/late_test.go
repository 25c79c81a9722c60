package withmenu

import (
	"context"
	"strings"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/menu"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestPlanStandsWhereTimeEndsBeforeItsMenu: a plan that was found is not lost where no time
// is left for the menu nearest to it; it says so.
func TestPlanStandsWhereTimeEndsBeforeItsMenu(t *testing.T) {
	req := ration.Filled(&ration.Request{
		People: []nutrients.Person{rationtest.Adult("Ida", 33, nutrients.Female)},
		Table:  rationtest.Table(t), Start: "2026-01-05", WithMenu: true, Time: time.Second,
	})
	free, err := plan.Make(context.Background(), req, nil)
	if err != nil || free.Value == nil {
		t.Fatal("no plan", err)
	}
	book, err := menu.BookOf(req)
	if err != nil {
		t.Fatal(err)
	}
	ended, stop := context.WithDeadline(context.Background(), time.Unix(0, 0))
	defer stop()
	d := &dining{req: req, book: book, free: free, tight: free}
	p, err := d.nearest(ended, "no dishes")
	if err != nil {
		t.Fatal(err)
	}
	if p.Value == nil || p.Menu != nil || !strings.Contains(p.Dishes.None, "time ended") {
		t.Errorf("value %v, menu %v, %q", p.Value, p.Menu != nil, p.Dishes.None)
	}
}

// TestNoDishesWhereTimeForThemEnds: where the time for choosing dishes ends, that is why there
// are none, not that what is needed cannot be eaten in dishes.
func TestNoDishesWhereTimeForThemEnds(t *testing.T) {
	req := ration.Filled(&ration.Request{
		People: []nutrients.Person{rationtest.Adult("Ida", 33, nutrients.Female)},
		Table:  rationtest.Table(t), Start: "2026-01-05", WithMenu: true, Time: time.Second,
	})
	free, err := plan.Make(context.Background(), req, nil)
	if err != nil || free.Value == nil {
		t.Fatal("no plan", err)
	}
	book, err := menu.BookOf(req)
	if err != nil {
		t.Fatal(err)
	}
	ended, stop := context.WithDeadline(context.Background(), time.Unix(0, 0))
	defer stop()
	d := &dining{req: req, book: book, free: free, tight: free}
	if _, c, why, err := d.choice(ended); c != nil || why != outOfTime || err != nil {
		t.Errorf("dishes %v, %q, %v", c != nil, why, err)
	}
	if _, c, why, err := d.choice(context.Background()); c == nil || why != "" || err != nil {
		t.Errorf("with time: dishes %v, %q, %v", c != nil, why, err)
	}
}

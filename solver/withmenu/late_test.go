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

// forOne is the table of a woman living alone, with her plan without dishes.
func forOne(t *testing.T) *dining {
	t.Helper()
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
	return &dining{req: req, book: book, free: free, tight: free}
}

// TestPlanStandsWhereTimeEndsBeforeItsMenu: a plan that was found is not lost where no time
// is left for the menu nearest to it; it says so.
func TestPlanStandsWhereTimeEndsBeforeItsMenu(t *testing.T) {
	d := forOne(t)
	ended, stop := context.WithDeadline(context.Background(), time.Unix(0, 0))
	defer stop()
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
	d := forOne(t)
	ended, stop := context.WithDeadline(context.Background(), time.Unix(0, 0))
	defer stop()
	if _, c, why, err := d.choice(ended); c != nil || why != outOfTime || err != nil {
		t.Errorf("dishes %v, %q, %v", c != nil, why, err)
	}
	if _, c, why, err := d.choice(context.Background()); c == nil || why != "" || err != nil {
		t.Errorf("with time: dishes %v, %q, %v", c != nil, why, err)
	}
}

// TestNoWorsePlanAgain: a plan without dishes that is made again in the time that is left
// stands only where it is hardly dearer by its first aim: four people had one a tenth dearer.
func TestNoWorsePlanAgain(t *testing.T) {
	was := 300.0
	d := &dining{tight: &ration.Plan{Value: &was}}
	for _, c := range []struct {
		value, first float64 // first 0: no second aim
		want         bool
	}{{300, 0, true}, {302, 0, true}, {330, 0, false}, {310, 301, true}, {339, 330, false}} {
		p := &ration.Plan{Value: &c.value}
		if c.first > 0 {
			p.First = &ration.First{Value: c.first}
		}
		if got := d.asGood(p); got != c.want {
			t.Errorf("%g, by its first aim %g, after %g: %t, want %t", c.value, c.first, was, got, c.want)
		}
	}
}

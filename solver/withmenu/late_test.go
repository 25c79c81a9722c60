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

// TestRequestOfWhatStands: where no time is left to make the plan without dishes again, the one for
// which they were sought stands, and its request says what was spent on what people eat gladly:
// nothing where it has no second aim, whatever was asked for, and what was asked for where it has
// one. All else of the request is as it was asked.
func TestRequestOfWhatStands(t *testing.T) {
	ended, stop := context.WithDeadline(context.Background(), time.Unix(0, 0))
	defer stop()
	for _, c := range []struct {
		slack  float64
		second bool
		want   float64
	}{{0, false, 0}, {0.03, false, 0}, {0.1, false, 0}, {0.03, true, 0.03}, {0.1, true, 0.1}} {
		req := ration.Filled(&ration.Request{
			People: []nutrients.Person{rationtest.Adult("Ida", 33, nutrients.Female)},
			Table:  rationtest.Table(t), Start: "2026-01-05", Days: 9, WithMenu: true, Time: time.Second, Slack: c.slack,
		})
		value := 50.0
		tight := &ration.Plan{Value: &value}
		if c.second {
			tight.First = &ration.First{Value: value}
		}
		d := &dining{req: req, free: tight, tight: tight}
		p := d.without(ended)
		if p != tight || p.Request == nil {
			t.Fatalf("slack %g, second aim %v: another plan, or one without its request", c.slack, c.second)
		}
		asked, err := p.Request.Load()
		if err != nil {
			t.Fatal(err)
		}
		if asked.Slack != c.want || asked.Days != 9 || len(asked.People) != 1 || asked.Start != "2026-01-05" || !asked.WithMenu {
			t.Errorf("slack %g, second aim %v: the plan says %g for %d days, want %g", c.slack, c.second, asked.Slack, asked.Days, c.want)
		}
		if req.Slack != c.slack {
			t.Errorf("the slack that was asked for is %g, was %g", req.Slack, c.slack)
		}
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

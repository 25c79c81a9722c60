package web

import (
	"encoding/json"
	"math"
	"net/url"
	"testing"
	"time"

	"rationwright/solver/ration"
)

// TestWhereGoingOnEnds: a plan that is proven as near the best as is asked for is not
// searched for again, once it is the one that people eat gladly or none such is asked
// for; any other is.
func TestWhereGoingOnEnds(t *testing.T) {
	was := stages
	stages = []time.Duration{time.Second}
	t.Cleanup(func() { stages = was })
	x := serve(t, Options{})
	x.post(t, "/household", url.Values{"rows": {"1"}, "do": {"save"}, "p0.name": {"Maja"}, "p0.age_years": {"38"}, "p0.sex": {"f"}})
	x.mu.Lock()
	asked, err := x.entered.request()
	x.mu.Unlock()
	if err != nil {
		t.Fatal(err)
	}
	near, far, value := furtherGap/2, furtherGap*2, 100.0
	for _, c := range []struct {
		name  string
		slack float64
		gap   float64
		first bool // the plan shown has been through the second aim
		again bool
	}{
		{"near, no second aim asked for", 0, near, false, false},
		{"near, the second aim done", 0.03, near, true, false},
		{"near, the second aim to come", 0.03, near, false, true},
		{"far, no second aim asked for", 0, far, false, true},
		{"far, the second aim done", 0.03, far, true, true},
	} {
		req := *asked
		req.Slack = c.slack
		p := &ration.Plan{Totals: &ration.Totals{}, Value: &value, Gap: &c.gap}
		if c.first {
			p.First = &ration.First{Value: value, Gap: &c.gap}
		}
		j := &job{}
		if err := x.goOn(t.Context(), j, &req, &made{plan: p, req: &req}); err != nil {
			t.Fatal(err)
		}
		if again := j.now.Work > 0; again != c.again {
			t.Errorf("%s: searched again %v, want %v", c.name, again, c.again)
		}
	}
}

// TestBestFoundIsKept: a plan that people eat gladly takes the place of the one shown within
// the slack of it; where its own search for the first aim ended worse, by 104 against 100, what
// was shown is the best found: 102 is 2 % more, and 96 proven is 4 % under it, not 7.7.
func TestBestFoundIsKept(t *testing.T) {
	plan := func(value float64, first *ration.First) *ration.Plan {
		bound := 96.0
		return &ration.Plan{Least: ration.LeastCost, Value: &value, Bound: &bound, First: first, Eatable: &ration.Eatable{Products: 31, MostSizes: 2, Crumbs: 9}}
	}
	for _, c := range []struct{ first, want, price, gap float64 }{{104, 100, 0.02, 0.04}, {99, 99, 3. / 99, 3. / 99}} {
		gap := ration.GapOf(c.first, 96, 0.01)
		p, price := plan(102, &ration.First{Value: c.first, Gap: &gap}), (102-c.first)/c.first
		p.Eatable.Price = &price
		shown := plan(100, nil)
		if !better(p, shown, 0.03) {
			t.Fatal("102 is not taken within 3 % of 100")
		}
		keepFirst(p, shown)
		if math.Abs(p.First.Value-c.want) > 1e-9 || math.Abs(*p.Eatable.Price-c.price) > 1e-9 || math.Abs(*p.Proof()-c.gap) > 1e-9 {
			t.Errorf("first aim %g: %g, price %g, gap %g; want %g, %g, %g", c.first, p.First.Value, *p.Eatable.Price, *p.Proof(), c.want, c.price, c.gap)
		}
		if kept := p.First.Products == 31; kept != (c.first > 100) {
			t.Errorf("first aim %g: %d products", c.first, p.First.Products)
		}
	}
}

// TestPlanOfThePageIsTakenBack: what the page keeps of a plan can be read back, also where the
// search went on beyond the 1 % that the plan asks for, and ended by its limit: within 1 % it is
// proven, over that it is not.
func TestPlanOfThePageIsTakenBack(t *testing.T) {
	for _, c := range []struct {
		gap    float64
		status string
	}{{0.002, ration.StatusOptimal}, {0.0065, ration.StatusOptimal}, {0.01, ration.StatusOptimal}, {0.0101, ration.StatusLimit}} {
		for _, first := range []bool{false, true} {
			p := &ration.Plan{Status: ration.StatusLimit, Stopped: "time limit reached", Gap: &c.gap}
			if far := 0.03; first {
				p.Gap, p.First = &far, &ration.First{Gap: &c.gap}
			}
			if judge(p); p.Status != c.status || (p.Stopped == "") != (c.status == ration.StatusOptimal) {
				t.Errorf("gap %g, first aim apart %v: %s %q, want %s", c.gap, first, p.Status, p.Stopped, c.status)
			}
		}
	}
	was := stages
	stages = []time.Duration{time.Second}
	t.Cleanup(func() { stages = was })
	x := serve(t, Options{})
	x.post(t, "/household", url.Values{"rows": {"2"}, "do": {"plan"}, "p0.name": {"Maja"}, "p0.age_years": {"38"}, "p0.sex": {"f"}, "p1.name": {"Odd"}, "p1.age_years": {"41"}, "p1.sex": {"m"}})
	x.end(t)
	x.mu.Lock()
	text, err := json.Marshal(x.made.plan)
	x.mu.Unlock()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := x.readPlan(text); err != nil {
		t.Errorf("status %s, proof %g: %v", x.made.plan.Status, *x.made.plan.Proof(), err)
	}
}

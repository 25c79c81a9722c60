package web

import (
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

package report

import (
	"testing"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/ration"
)

// TestHowGoodAPlanIs: proven, proven within a gap, or not known; why a search ended; of a
// plan that a second aim changed the best found is told.
func TestHowGoodAPlanIs(t *testing.T) {
	plan := func(status string, gap float64) *ration.Plan {
		return &ration.Plan{Status: status, Least: ration.LeastWeight, Value: ptr(31), Bound: ptr(30.52), Gap: &gap}
	}
	first := plan("optimal", 0.5)
	first.First = &ration.First{Value: 30.77, Gap: ptr(0.0083)}
	stopped := plan("limit", 0.0157)
	stopped.Stopped = "by the clock"
	unknown := plan("limit", 0.1)
	unknown.Bound = nil
	for _, c := range []struct {
		p    *ration.Plan
		want string
	}{
		{plan("optimal", 1e-6), "Proven: no plan in whole packs does better."},
		{plan("optimal", 2e-6), "Proven within 0.01 % of the best possible: no plan in whole packs does better than 30.5 kg."},
		{first, "The best found, 30.8 kg, is proven within 0.83 % of the best possible: no plan in whole packs does better than 30.5 kg."},
		{stopped, "Proven within 1.6 % of the best possible: no plan in whole packs does better than 30.5 kg. The search was stopped before it reached the gap asked for (by the clock)."},
		{unknown, "How close this is to the best possible is not known."},
		{&ration.Plan{Bound: ptr(3)}, "How close this is to the best possible is not known."},
	} {
		if got := proof(c.p, sheet.Metric); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

package ration

import (
	"math"
	"testing"
)

// The gap is the distance of the value from the bound as a part of the value, by
// hand, and of the smallest step where the value is less; a plan is proven at the
// gap that was asked and not beyond.
func TestJudge(t *testing.T) {
	for _, c := range []struct {
		value, bound, within, gap float64
		status                    string
	}{
		{100, 99, 0.01, 0.01, StatusOptimal},
		{100, 98.99, 0.01, 0.0101, StatusLimit},
		{100, 100, 0, 0, StatusOptimal},
		{100, 101, 0, 0, StatusOptimal}, // rounding: no gap is less than none
		{80, 60, 0.2, 0.25, StatusLimit},
		{80, 60, 0.25, 0.25, StatusOptimal},
		{0.005, 0, 0.4, 0.5, StatusLimit}, // of a cent
	} {
		p := &Plan{Least: LeastCost, Value: &c.value}
		p.Judge(c.bound, c.within)
		if p.Status != c.status || p.Gap == nil || math.Abs(*p.Gap-c.gap) > 1e-12 || *p.Bound != c.bound {
			t.Errorf("value %g, bound %g, asked %g: %s with a gap of %v, want %s and %g", c.value, c.bound, c.within, p.Status, p.Gap, c.status, c.gap)
		}
	}
	value := 100.0
	p := &Plan{Least: LeastCost, Value: &value}
	if p.Judge(math.Inf(-1), 1); p.Status != StatusLimit || p.Bound != nil || p.Gap != nil {
		t.Errorf("without a bound: %s, bound %v, gap %v", p.Status, p.Bound, p.Gap)
	}
}

package branch

import (
	"math"
	"testing"

	"rationwright/solver/linear"
)

// TestCheckTolerances holds points just inside and just outside of each
// tolerance, worked out by hand: 1e-6 of what a row is measured by, 1e-9 where
// all columns are integers, 1e-7 of a bound.
func TestCheckTolerances(t *testing.T) {
	row := func(lower, upper float64, build ...float64) *linear.Problem {
		p := &linear.Problem{}
		p.AddRow("r", lower, upper)
		for k, v := range build { // continuous columns
			p.AddCol("", 1, math.Inf(-1), inf, false)
			p.Set(0, k, v)
		}
		return p
	}
	whole := func(p *linear.Problem) *linear.Problem {
		for j := range p.Cols {
			p.Cols[j].Integer = true
		}
		return p
	}
	bounded := func(lower, upper float64, integer bool) *linear.Problem {
		p := &linear.Problem{}
		p.AddCol("", 1, lower, upper, integer)
		return p
	}
	for _, c := range []struct {
		name      string
		p         *linear.Problem
		in, out   []float64
		valueOfIn float64
	}{
		{"side of 1,000: 1e-3", row(1000, inf, 1), []float64{1000 - 0.99e-3}, []float64{1000 - 1.01e-3}, 1000 - 0.99e-3},
		{"upper side of 1,000", row(-inf, 1000, 1), []float64{1000 + 0.99e-3}, []float64{1000 + 1.01e-3}, 1000 + 0.99e-3},
		{"terms of 1e6 against side 0: 1", row(0, inf, 1, -1), []float64{1e6, 1e6 + 0.9}, []float64{1e6, 1e6 + 1.1}, 2e6 + 0.9},
		{"side 1e-3, coefficient 1: 1e-6", row(1e-3, inf, 1), []float64{1e-3 - 0.99e-6}, []float64{1e-3 - 1.01e-6}, 1e-3 - 0.99e-6},
		{"coefficient 1e-4, side 1e-5: 1e-10", row(1e-5, inf, 1e-4), []float64{0.1 - 0.99e-6}, []float64{0.1 - 1.01e-6}, 0.1 - 0.99e-6},
		{"integers, side 1e9: 1", whole(row(1e9, inf, 1)), []float64{1e9 - 1}, []float64{1e9 - 2}, 1e9 - 1},
		{"integers, side 1e-12", whole(row(1e-12, inf, 1)), []float64{1}, []float64{0}, 1},
		{"lower bound 0", bounded(0, 9, false), []float64{-0.99e-7}, []float64{-1.01e-7}, -0.99e-7},
		{"upper bound 1,000", bounded(0, 1000, false), []float64{1000 + 0.99e-4}, []float64{1000 + 1.01e-4}, 1000 + 0.99e-4},
		{"integer column", bounded(0, 9, true), []float64{3}, []float64{3 + 1e-12}, 3},
		{"integer bound of decimals", bounded(3*(1+0.99e-9), 9, true), []float64{3}, []float64{2}, 3},
		{"integer bound beside one", bounded(3*(1+1.01e-9), 9, true), []float64{4}, []float64{3}, 4},
		{"not a number", bounded(-inf, inf, false), []float64{0}, []float64{math.NaN()}, 0},
		{"infinite", bounded(-inf, inf, false), []float64{0}, []float64{inf}, 0},
	} {
		if v, ok := Check(c.p, c.in); !ok || math.Abs(v-c.valueOfIn) > 1e-12*math.Max(1, math.Abs(v)) {
			t.Errorf("%s: %v refused, or its value %v is not %v", c.name, c.in, v, c.valueOfIn)
		}
		if _, ok := Check(c.p, c.out); ok {
			t.Errorf("%s: %v accepted", c.name, c.out)
		}
	}
	if _, ok := Check(bounded(0, 1, false), nil); ok {
		t.Error("a point without values is accepted")
	}
}

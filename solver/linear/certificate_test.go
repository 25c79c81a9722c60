package linear_test

import (
	"math"
	"testing"

	"rationwright/solver/linear"
)

// The textbook pair, by hand:
//
//	maximise 3x + 5y,  x <= 4,  2y <= 12,  3x + 2y <= 18,  x, y >= 0
//
// has its optimum 36 at (2, 6) with the multipliers (0, 3/2, 1).
func textbook(maximize bool) *linear.Problem {
	sign := -1.0
	if maximize {
		sign = 1
	}
	p := &linear.Problem{Maximize: maximize}
	a := p.AddRow("a", -linear.Inf, 4)
	b := p.AddRow("b", -linear.Inf, 12)
	c := p.AddRow("c", -linear.Inf, 18)
	x := p.AddCol("x", sign*3, 0, linear.Inf, false)
	y := p.AddCol("y", sign*5, 0, linear.Inf, false)
	p.Set(a, x, 1)
	p.Set(c, x, 3)
	p.Set(b, y, 2)
	p.Set(c, y, 2)
	return p
}

func TestDual(t *testing.T) {
	for _, c := range []struct {
		name                     string
		maximize                 bool
		y                        []float64
		bound, residual, dropped float64
	}{
		{"optimal, maximising", true, []float64{0, 1.5, 1}, 36, 0, 0},
		{"optimal, minimising", false, []float64{0, -1.5, -1}, -36, 0, 0},
		{"weaker but valid", true, []float64{3, 2.5, 0}, 42, 0, 0},
		// −2 asks row a for a lower bound it lacks; without it x's reduced cost
		// is 3 and leans on a missing upper bound.
		{"wrong sign", true, []float64{-2, 2.5, 0}, 30, 3, 2},
	} {
		t.Run(c.name, func(t *testing.T) {
			dp, err := textbook(c.maximize).Dual(c.y)
			if err != nil {
				t.Fatal(err)
			}
			if dp.Bound != c.bound || dp.Residual != c.residual || dp.Dropped != c.dropped {
				t.Errorf("bound %g, residual %g, dropped %g; want %g, %g, %g", dp.Bound, dp.Residual, dp.Dropped, c.bound, c.residual, c.dropped)
			}
		})
	}
	if _, err := textbook(true).Dual([]float64{1}); err == nil {
		t.Error("too few multipliers give no error")
	}
	if _, err := textbook(true).Dual([]float64{1, math.NaN(), 1}); err == nil {
		t.Error("a multiplier NaN gives no error")
	}
}

// x + y >= 5 and x - y = 0 cannot be met with x <= 1 and y <= 2: the first row
// alone shows it (5 against 3 at most).
func TestFarkasMargin(t *testing.T) {
	p := &linear.Problem{}
	a := p.AddRow("a", 5, linear.Inf)
	b := p.AddRow("b", 0, 0)
	x := p.AddCol("x", 0, 0, 1, false)
	y := p.AddCol("y", 0, 0, 2, false)
	p.Set(a, x, 1)
	p.Set(b, x, 1)
	p.Set(a, y, 1)
	p.Set(b, y, -1)
	for _, c := range []struct {
		name string
		y    []float64
		want float64 // (what rows ask − what columns reach) ÷ sum of sizes
	}{
		{"first row", []float64{1, 0}, (5.0 - 3) / (5 + 3)},
		{"both rows", []float64{1, 1}, (5.0 - 2) / (5 + 2)},
		{"proves nothing", []float64{0, 1}, -1},
		{"wrong side", []float64{-1, 0}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := p.FarkasMargin(c.y)
			if err != nil || math.Abs(got-c.want) > 1e-15 {
				t.Errorf("FarkasMargin(%v) = %g (%v), want %g", c.y, got, err, c.want)
			}
		})
	}
	p.Cols[y].Upper = linear.Inf
	if got, _ := p.FarkasMargin([]float64{1, 0}); got != math.Inf(-1) {
		t.Errorf("a column without upper bound: margin %g, want -Inf", got)
	}
}

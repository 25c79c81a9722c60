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

// Reduced costs lean on the bounds of their columns, by hand: of r = a + b with the
// multiplier 1, costs 2 and −3 leave d = (1, −4). With 1 <= a <= 4 and 0 <= b <= 6,
// minimising over r >= 2 proves 2 + 1·1 − 4·6 = −21; maximising over r <= 7 proves
// 7 + 1·4 − 4·0 = 11.
func TestDualOfBounds(t *testing.T) {
	for _, maximize := range []bool{false, true} {
		p := &linear.Problem{Maximize: maximize}
		r := p.AddRow("r", 2, 7)
		p.Set(r, p.AddCol("a", 2, 1, 4, false), 1)
		p.Set(r, p.AddCol("b", -3, 0, 6, false), 1)
		want := map[bool]float64{false: -21, true: 11}[maximize]
		if dp, err := p.Dual([]float64{1}); err != nil || dp.Bound != want || dp.Residual != 0 || dp.WorstCol != -1 || dp.Reduced[0] != 1 || dp.Reduced[1] != -4 {
			t.Errorf("maximise %v: %+v (%v), want a bound of %g", maximize, dp, err, want)
		}
	}
}

// Of columns whose reduced costs lean on nothing, the largest counts, whatever its sign and place.
func TestDualResidual(t *testing.T) {
	for _, c := range []struct {
		costs []float64
		want  float64
		col   int
	}{
		{[]float64{-7, 3, 0.5}, 7, 0},
		{[]float64{0.5, 3, -7}, 7, 2},
		{[]float64{-1, 6, -2}, 6, 1},
		{[]float64{0, 0, 0}, 0, -1},
	} {
		for _, maximize := range []bool{false, true} {
			p := &linear.Problem{Maximize: maximize, Offset: 2}
			for k, cost := range c.costs {
				p.AddCol(string(rune('x'+k)), cost, -linear.Inf, linear.Inf, false)
			}
			if dp, err := p.Dual(nil); err != nil || dp.Residual != c.want || dp.WorstCol != c.col || dp.Bound != 2 {
				t.Errorf("costs %v: %+v (%v), want a residual of %g in column %d", c.costs, dp, err, c.want, c.col)
			}
		}
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

// The constant of the objective is part of what multipliers prove: 36 + 10.
func TestDualOffset(t *testing.T) {
	p := textbook(true)
	p.Offset = 10
	if dp, err := p.Dual([]float64{0, 1.5, 1}); err != nil || dp.Bound != 46 {
		t.Errorf("bound %g (%v), want 46", dp.Bound, err)
	}
}

// f + x >= 9 and f = 1 with f free and x <= 3: the difference of the rows proves
// it if nothing of f is left, to 1e-12 of what cancels.
func TestFarkasFreeColumn(t *testing.T) {
	p := &linear.Problem{}
	a := p.AddRow("a", 9, linear.Inf)
	b := p.AddRow("b", 1, 1)
	f := p.AddCol("f", 0, -linear.Inf, linear.Inf, false)
	x := p.AddCol("x", 0, 0, 3, false)
	p.Set(a, f, 1)
	p.Set(b, f, 1)
	p.Set(a, x, 1)
	for left, proven := range map[float64]bool{0: true, 1e-12: true, 1e-11: false, 1e-3: false} {
		for _, scale := range []float64{1, 1e-6, 1e6} { // multipliers prove the same in any measure
			if m, err := p.FarkasMargin([]float64{scale, scale * (-1 + left)}); err != nil || (m > 0) != proven {
				t.Errorf("%g of the free column left, times %g: margin %g (%v)", left, scale, m, err)
			}
		}
	}
}

// Points just inside and just outside of a row's tolerance of 1e-6, by hand.
func TestCheckRows(t *testing.T) {
	row := func(lower float64, coefficients ...float64) *linear.Problem {
		p := &linear.Problem{}
		r := p.AddRow("r", lower, linear.Inf)
		for k, v := range coefficients {
			p.Set(r, p.AddCol(string(rune('a'+k)), 0, -linear.Inf, linear.Inf, false), v)
		}
		return p
	}
	for _, c := range []struct {
		name    string
		p       *linear.Problem
		in, out []float64
	}{
		{"side of 1,000", row(1000, 1), []float64{1000 - 0.99e-3}, []float64{1000 - 1.01e-3}},
		{"terms of 1,000 twice", row(0, 1, -1), []float64{1000, 1000 + 1.9e-3}, []float64{1000, 1000 + 2.1e-3}},
		{"coefficient of 1e-4", row(1e-5, 1e-4), []float64{0.1 - 0.99e-6}, []float64{0.1 - 1.01e-6}},
	} {
		if missed, err := c.p.Check(c.in, 1e-6); err != nil || len(missed) > 0 {
			t.Errorf("%s: %v refused: %v %v", c.name, c.in, missed, err)
		}
		if missed, err := c.p.Check(c.out, 1e-6); err != nil || len(missed) != 1 {
			t.Errorf("%s: %v accepted (%v)", c.name, c.out, err)
		}
	}
}

// TestFarkasOfNegativeBounds: sizes are sizes whatever the signs, by hand: x + y >= 1 with
// x <= -1 and y <= -3 asks 1 of what reaches -4 at most, (1 + 4) / (1 + 1 + 3); with y <= 3
// the row can hold, (1 - 2) / (1 + 1 + 3).
func TestFarkasOfNegativeBounds(t *testing.T) {
	for upper, want := range map[float64]float64{-3: 1, 3: -0.2} {
		p := &linear.Problem{}
		r := p.AddRow("r", 1, linear.Inf)
		p.Set(r, p.AddCol("x", 0, -9, -1, false), 1)
		p.Set(r, p.AddCol("y", 0, -9, upper, false), 1)
		if got, err := p.FarkasMargin([]float64{1}); err != nil || math.Abs(got-want) > 1e-15 {
			t.Errorf("y <= %g: margin %g (%v), want %g", upper, got, err, want)
		}
	}
}

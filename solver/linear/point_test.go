package linear_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"rationwright/solver/linear"
)

// breakfast has the answers of TestEvaluate worked out by hand:
//
//	minimise 2 rye + 3 figs + 1
//	iron:  4 <= rye + 2 figs <= 10
//	fibre: rye - figs = 1
//	0 <= rye <= 3, figs whole, at least 0
func breakfast() *linear.Problem {
	p := &linear.Problem{Name: "breakfast", Offset: 1}
	iron := p.AddRow("iron", 4, 10)
	fibre := p.AddRow("fibre", 1, 1)
	rye := p.AddCol("rye", 2, 0, 3, false)
	figs := p.AddCol("figs", 3, 0, linear.Inf, true)
	p.Set(iron, rye, 1)
	p.Set(fibre, rye, 1)
	p.Set(iron, figs, 2)
	p.Set(fibre, figs, -1)
	return p
}

func TestEvaluate(t *testing.T) {
	for _, c := range []struct {
		name               string
		x                  []float64
		value, iron, fibre float64
		missed             []string
	}{
		{"feasible", []float64{2, 1}, 8, 4, 1, nil},
		{"above a column's bound", []float64{4, 3}, 18, 10, 1,
			[]string{`column "rye" is 4, outside its bound 3 by 1`}},
		{"below a row", []float64{1, 0}, 3, 1, 1,
			[]string{`row "iron" is 1, outside its bound 4 by 3`}},
		{"off an equation, below zero, not whole", []float64{3, -0.5}, 5.5, 2, 3.5,
			[]string{
				`column "figs" is -0.5, outside its bound 0 by 0.5`,
				`column "figs" is -0.5, not a whole number`,
				`row "iron" is 2, outside its bound 4 by 2`,
				`row "fibre" is 3.5, outside its bound 1 by 2.5`,
			}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := breakfast()
			pt, err := p.Evaluate(c.x)
			if err != nil {
				t.Fatal(err)
			}
			// All figures are exact in binary, so equality is asked for.
			if pt.Value != c.value || pt.Activity[0] != c.iron || pt.Activity[1] != c.fibre {
				t.Errorf("value %g, activities %v; want %g, %g and %g", pt.Value, pt.Activity, c.value, c.iron, c.fibre)
			}
			missed, err := p.Check(c.x, 1e-9)
			if err != nil {
				t.Fatal(err)
			}
			if !slices.Equal(missed, c.missed) {
				t.Errorf("missed %q, want %q", missed, c.missed)
			}
		})
	}
}

// Nothing that is not a number may pass for feasible.
func TestCheckRefusesNaN(t *testing.T) {
	p := breakfast()
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		missed, err := p.Check([]float64{bad, 1}, 1e-9)
		if err != nil || len(missed) < 2 {
			t.Errorf("x = %g: missed %v (%v), want the column and both rows", bad, missed, err)
		}
	}
	if _, err := p.Check([]float64{1}, 1e-9); err == nil {
		t.Error("a point with too few values gives no error")
	}
}

// A row of large terms that cancel: plain summation gives 0 or 2, not 1.
func TestEvaluateSumsExactly(t *testing.T) {
	p := &linear.Problem{}
	r := p.AddRow("cancels", 1, 1)
	for k, v := range []float64{1e17, 1, -1e17} {
		p.Set(r, p.AddCol(fmt.Sprint("x", k), 0, 0, 1, false), v)
	}
	pt, err := p.Evaluate([]float64{1, 1, 1})
	if err != nil || pt.Activity[0] != 1 {
		t.Errorf("activity %v (%v), want 1", pt.Activity, err)
	}
}

// What no float64 holds is endless, not "no number", and no row takes it, not even one
// without a side there.
func TestEvaluateOverflows(t *testing.T) {
	for _, sign := range []float64{1, -1} {
		p := &linear.Problem{}
		r := p.AddRow("free", -linear.Inf, linear.Inf)
		p.Set(r, p.AddCol("x", sign*1e308, 0, linear.Inf, false), sign*1e308)
		pt, err := p.Evaluate([]float64{100})
		if err != nil || !math.IsInf(pt.Value, int(sign)) || !math.IsInf(pt.Activity[0], int(sign)) {
			t.Errorf("value %g, row %g (%v), want infinity of sign %g", pt.Value, pt.Activity[0], err, sign)
		}
		if missed, err := p.Check([]float64{100}, 1e-9); err != nil || len(missed) != 1 {
			t.Errorf("missed %q (%v), want the row", missed, err)
		}
	}
}

// Costs without the constant, by hand: 2·5 + 3·0.5; and none once they are taken away.
func TestCosts(t *testing.T) {
	p := breakfast()
	if got := p.CostAt([]float64{5, 0.5}); got != 11.5 {
		t.Errorf("costs %g, want 11.5", got)
	}
	p.ClearCosts()
	if got := p.CostAt([]float64{5, 0.5}); got != 0 || p.Cols[0].Cost != 0 || p.Cols[1].Cost != 0 {
		t.Errorf("costs %g of costs of nothing", got)
	}
}

func TestByRow(t *testing.T) {
	p := breakfast()
	v := p.ByRow()
	cols, values := v.Row(0)
	if fmt.Sprint(cols, values) != "[0 1] [1 2]" {
		t.Errorf("row 0 = %v %v, want [0 1] [1 2]", cols, values)
	}
	if cols, values = v.Row(1); fmt.Sprint(cols, values) != "[0 1] [1 -1]" {
		t.Errorf("row 1 = %v %v, want [0 1] [1 -1]", cols, values)
	}
	if n := entries(p); n != 4 {
		t.Errorf("%d entries, want 4", n)
	}
	q := p.Relaxation()
	q.Cols[0].Entries[0].Value = 9
	q.Rows[0].Lower = 9
	if p.Cols[0].Entries[0].Value != 1 || p.Rows[0].Lower != 4 || integers(p) != 1 || integers(q) != 0 {
		t.Error("a relaxation shares data with its problem, or keeps integrality")
	}
}

// TestCheckLimits offers points just inside and just outside of what the tolerance of a
// millionth leaves: of a bound by the larger of 1 and its size, of a row by the largest
// of its bound, of its terms and, at most 1, of its coefficients; of a whole number by
// itself.
func TestCheckLimits(t *testing.T) {
	const tol = 1e-6
	for _, c := range []struct {
		name         string
		lower, upper float64 // of the column
		row          float64 // at most, of factor × column
		factor       float64
		whole        bool
		x            float64
		missed       int
	}{
		{"under a bound of 1", 1, 9, 99, 1, false, 1 - 0.9e-6, 0},
		{"too far under a bound of 1", 1, 9, 99, 1, false, 1 - 1.1e-6, 1},
		{"over a bound of 10", 0, 10, 99, 1, false, 10 + 9e-6, 0},
		{"too far over a bound of 10", 0, 10, 99, 1, false, 10 + 11e-6, 1},
		{"under nothing", 0, 9, 99, 1, false, -0.9e-6, 0},
		{"too far under nothing", 0, 9, 99, 1, false, -1.1e-6, 1},
		{"over a row of 50", 0, 99, 50, 1, false, 50 + 49e-6, 0},
		{"too far over a row of 50", 0, 99, 50, 1, false, 50 + 51e-6, 1},
		{"over a row of small numbers", 0, 99, 0.001, 0.001, false, 1 + 0.9e-6, 0},
		{"too far over a row of small numbers", 0, 99, 0.001, 0.001, false, 1 + 1.2e-6, 1},
		{"near nothing, of a row of nothing", 0, 9, 0, 1, true, 0.9e-6, 0},
		{"too far from nothing, of a row of nothing", 0, 9, 0, 1, true, 1.1e-6, 2},
		{"near a whole number", 0, 9, 99, 1, true, 3 + 0.9e-6, 0},
		{"under a whole number", 0, 9, 99, 1, true, 3 - 0.9e-6, 0},
		{"too far under a whole number", 0, 9, 99, 1, true, 3 - 1.1e-6, 1},
		{"half way", 0, 9, 99, 1, true, 2.5, 1},
		{"under a bound of −10", -10, 0, 99, 1, false, -10 - 9e-6, 0},
		{"too far under a bound of −10", -10, 0, 99, 1, false, -10 - 11e-6, 1},
		{"over a row of −50", -99, 0, -50, 1, false, -50 + 49e-6, 0},
		{"too far over a row of −50", -99, 0, -50, 1, false, -50 + 51e-6, 1},
		{"too far from a whole number", 0, 9, 99, 1, true, 3 + 1.1e-6, 1},
	} {
		p := &linear.Problem{}
		row := p.AddRow("row", -linear.Inf, c.row)
		p.Set(row, p.AddCol("x", 1, c.lower, c.upper, c.whole), c.factor)
		missed, err := p.Check([]float64{c.x}, tol)
		if err != nil {
			t.Fatal(err)
		}
		if len(missed) != c.missed {
			t.Errorf("%s: %v, want %d", c.name, missed, c.missed)
		}
	}
}

// TestSumsAreExact: what cancels leaves what is left: (1 + 2⁻³⁰)² − 1 − 2⁻²⁹ = 2⁻⁶⁰, of
// which the product alone loses all, and 10¹⁶ + 1 − 10¹⁶ = 1.
func TestSumsAreExact(t *testing.T) {
	for _, c := range []struct {
		name    string
		factors [][2]float64
		want    float64
	}{
		{"products", [][2]float64{{1 + 0x1p-30, 1 + 0x1p-30}, {-1, 1}, {-0x1p-29, 1}}, 0x1p-60},
		{"sums", [][2]float64{{1e16, 1}, {1, 1}, {-1e16, 1}}, 1},
		{"both", [][2]float64{{1e8 + 1, 1e8 + 1}, {-1e16, 1}, {-2e8, 1}}, 1},
	} {
		p := &linear.Problem{}
		row := p.AddRow("row", 0, linear.Inf)
		var x []float64
		for _, f := range c.factors {
			p.Set(row, p.AddCol("x", f[0], -linear.Inf, linear.Inf, false), f[0])
			x = append(x, f[1])
		}
		pt, err := p.Evaluate(x)
		if err != nil {
			t.Fatal(err)
		}
		if pt.Activity[0] != c.want || pt.Value != c.want {
			t.Errorf("%s: a row of %g, a value of %g, want %g", c.name, pt.Activity[0], pt.Value, c.want)
		}
	}
}

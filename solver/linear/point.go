package linear

import (
	"fmt"
	"math"
)

// A Point is what a vector x means to a [Problem], computed from the problem's
// own figures in twice the working precision.
type Point struct {
	Value    float64   // Offset + Σ Cost·x
	Activity []float64 // Σ_j a_ij x_j, one per row
	Size     []float64 // Σ_j |a_ij x_j|, one per row: what rounding is measured against
}

// Evaluate computes what x means to p. It returns an error if x has not one
// value per column.
func (p *Problem) Evaluate(x []float64) (Point, error) {
	if len(x) != len(p.Cols) {
		return Point{}, fmt.Errorf("linear: point has %d values for %d columns", len(x), len(p.Cols))
	}
	pt := Point{Activity: make([]float64, len(p.Rows)), Size: make([]float64, len(p.Rows))}
	rows := make([]sum, len(p.Rows))
	var value sum
	value.add(p.Offset)
	for j := range p.Cols {
		c := &p.Cols[j]
		value.addProduct(c.Cost, x[j])
		for _, e := range c.Entries {
			rows[e.Row].addProduct(e.Value, x[j])
			pt.Size[e.Row] += math.Abs(e.Value * x[j])
		}
	}
	pt.Value = value.total()
	for i := range rows {
		pt.Activity[i] = rows[i].total()
	}
	return pt, nil
}

// Check says, each in words, what rows, bounds and integrality requirements of p x misses
// by more than tol, columns first; nil means that x is feasible. A row is missed when it is outside by
// more than tol times the largest of its bound, Σ|a_ij x_j| and, at most 1, its
// coefficients of columns that are not exactly whole; a bound by more than tol
// times the larger of 1 and its size; an integer column when it is more than tol
// from a whole number. A row of small numbers is so not lost in an absolute
// tolerance. A value that is NaN or infinite counts as infinitely far outside, so that no
// comparison can take it for feasible.
func (p *Problem) Check(x []float64, tol float64) ([]string, error) {
	pt, err := p.Evaluate(x)
	if err != nil {
		return nil, err
	}
	var missed []string
	miss := func(format string, args ...any) { missed = append(missed, fmt.Sprintf(format, args...)) }
	unit := make([]float64, len(p.Rows))
	for j := range p.Cols {
		c := &p.Cols[j]
		if !c.Integer || x[j] != math.Round(x[j]) {
			for _, e := range c.Entries {
				unit[e.Row] = math.Min(1, math.Max(unit[e.Row], math.Abs(e.Value)))
			}
		}
		if v, bound := outside(x[j], c.Lower, c.Upper), nearest(x[j], c.Lower, c.Upper); v > tol*math.Max(1, math.Abs(bound)) {
			miss("column %q is %g, outside its bound %g by %g", c.Name, x[j], bound, v)
		}
		if f := fraction(x[j]); c.Integer && f > tol {
			miss("column %q is %g, not a whole number", c.Name, x[j])
		}
	}
	for i, r := range p.Rows {
		a := pt.Activity[i]
		v, bound := outside(a, r.Lower, r.Upper), nearest(a, r.Lower, r.Upper)
		scale := math.Max(unit[i], math.Max(math.Abs(bound), pt.Size[i]))
		if math.IsInf(scale, 1) || math.IsNaN(scale) {
			scale = 1
		}
		if v > tol*scale {
			miss("row %q is %g, outside its bound %g by %g", r.Name, a, bound, v)
		}
	}
	return missed, nil
}

// outside returns how far v is outside [lower, upper], +Inf if it is no number.
func outside(v, lower, upper float64) float64 {
	if !finite(v) {
		return Inf
	}
	return math.Max(0, math.Max(lower-v, v-upper))
}

// nearest returns the bound that v is outside of or nearer to.
func nearest(v, lower, upper float64) float64 {
	if v < lower || v-lower < upper-v {
		return lower
	}
	return upper
}

// fraction returns the distance from v to the nearest whole number.
func fraction(v float64) float64 {
	if !finite(v) {
		return Inf
	}
	return math.Abs(v - math.Round(v))
}

// sum adds numbers and products with the rounding error of each step carried
// along, so that the total is as good as if computed in twice the precision.
// Source: T. Ogita, S. M. Rump, S. Oishi, "Accurate sum and dot product",
// SIAM Journal on Scientific Computing 26 (2005), algorithms 4.3 and 5.3.
type sum struct{ high, low float64 }

func (s *sum) add(v float64) {
	t := s.high + v
	z := t - s.high
	s.low += (s.high - (t - z)) + (v - z)
	s.high = t
}

func (s *sum) addProduct(a, b float64) {
	product := a * b
	s.low += math.FMA(a, b, -product)
	s.add(product)
}

func (s *sum) total() float64 {
	if !finite(s.high) {
		return s.high // the error term of an overflow is NaN
	}
	return s.high + s.low
}

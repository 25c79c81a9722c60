package branch

import (
	"math"

	"rationwright/solver/linear"
)

// wholeBounds returns the least and greatest integer that an integer column with
// the given bounds can take.
func wholeBounds(lower, upper float64) (lo, up float64) {
	return math.Ceil(lower - wholeTol*math.Max(1, math.Abs(lower))), math.Floor(upper + wholeTol*math.Max(1, math.Abs(upper)))
}

// rowSum adds up a row at a point, with what its tolerance is measured by.
type rowSum struct {
	total float64
	size  float64 // the largest term
	unit  float64 // the largest coefficient of a continuous column, 0 if there is none
}

func (r *rowSum) add(coefficient, x float64, integer bool) {
	t := coefficient * x
	r.total += t
	r.size = math.Max(r.size, math.Abs(t))
	if !integer {
		r.unit = math.Max(r.unit, math.Abs(coefficient))
	}
}

// within says whether the sum keeps the sides, up to share of the tolerance.
func (r *rowSum) within(lower, upper, share float64) bool {
	tol, least := wholeRowTol, 0.0
	if r.unit > 0 {
		tol, least = rowTol, math.Min(1, r.unit)
	}
	miss, side := lower-r.total, lower
	if over := r.total - upper; over > miss {
		miss, side = over, upper
	}
	return miss <= 0 || miss <= share*tol*math.Max(least, math.Max(r.size, math.Abs(side)))
}

// Check recomputes x against every bound, integrality and row of p, with the
// tolerances above; integer columns must be exactly integer. It returns the
// objective and whether x is feasible.
func Check(p *linear.Problem, x []float64) (value float64, ok bool) {
	if len(x) != len(p.Cols) {
		return 0, false
	}
	sums := make([]rowSum, len(p.Rows))
	value = p.Offset
	for j := range p.Cols {
		c := &p.Cols[j]
		v := x[j]
		if math.IsNaN(v) || math.IsInf(v, 0) || c.Integer && v != math.Round(v) {
			return 0, false
		}
		lower, upper := c.Lower-boundTol*math.Max(1, math.Abs(c.Lower)), c.Upper+boundTol*math.Max(1, math.Abs(c.Upper))
		if c.Integer {
			lower, upper = wholeBounds(c.Lower, c.Upper)
		}
		if v < lower || v > upper {
			return 0, false
		}
		value += c.Cost * v
		for _, e := range c.Entries {
			sums[e.Row].add(e.Value, v, c.Integer)
		}
	}
	for i, r := range p.Rows {
		if !sums[i].within(r.Lower, r.Upper, 1) {
			return 0, false
		}
	}
	return value, true
}

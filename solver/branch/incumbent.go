package branch

import (
	"context"
	"math"

	"rationwright/solver/linear"
	"rationwright/solver/simplex"
)

// Tolerances of an incumbent, held against the original problem.
const (
	// rowTol is how far a row with continuous columns may be missed, relative to
	// the larger of its side, the largest term of its sum and what a unit of its
	// continuous columns makes, at most 1: rounding alone stays below 1e-12, the
	// simplex method promises 1e-9 on scaled rows. There is no absolute part: it
	// would swallow a row whose side is smaller.
	rowTol = 1e-6
	// wholeRowTol is the same for a row of integer columns only, relative to its
	// side and terms: they are exact, so that only decimal fractions in the data
	// and rounding of the sum are to be allowed for.
	wholeRowTol = 1e-9
	// boundTol is how far a continuous column may be outside its bounds,
	// relative to the larger of 1 and the bound.
	boundTol = 1e-7
	// wholeTol is how far from a whole number, relative to the larger of 1 and
	// its size, the bound of an integer column may be and still mean it: what
	// decimal arithmetic leaves.
	wholeTol = 1e-9
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

// point is an integer-feasible point: integers are exact, every row was
// recomputed from the original problem.
type point struct {
	x     []float64
	value float64 // in the sense of the search
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

// accept returns the point x if it is feasible, nil if not. It copies x.
func (s *space) accept(x []float64) *point {
	x = append(make([]float64, 0, len(x)), x...) // not nil, even without columns
	for j := range x {
		// A value outside by rounding is put on the bound.
		lower, upper := s.orig.Cols[j].Lower, s.orig.Cols[j].Upper
		if s.integer[j] {
			x[j] = math.Round(x[j])
			lower, upper = wholeBounds(lower, upper)
		}
		x[j] = math.Min(math.Max(x[j], lower), upper)
	}
	v, ok := Check(s.orig, x)
	if !ok {
		return nil
	}
	return &point{x: x, value: s.inside(v)}
}

// polish rounds the integers of x, fixes them, solves for the rest and returns
// the point if it is feasible and better than cutoff, else nil. The relaxation
// leaves with another box and basis.
func (r *relax) polish(ctx context.Context, x []float64, cutoff float64) *point {
	r.reset()
	for _, j := range r.integers {
		v := math.Round(x[j])
		if v < r.space.lower[j] || v > r.space.upper[j] {
			return nil
		}
		r.set(j, v, v)
	}
	out := r.solve(ctx, cutoff, 0)
	if out.status != simplex.Optimal {
		return nil
	}
	return r.accept(out.x)
}

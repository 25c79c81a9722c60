package branch

import (
	"context"
	"math"

	"rationwright/solver/linear"
	"rationwright/solver/simplex"
)

// Tolerances of an incumbent, held against the original problem.
const (
	// rowTol is how far a row may be missed, relative to the larger of 1, its
	// side and the largest term of its sum: rounding alone stays below 1e-12,
	// the simplex method promises 1e-7 on scaled rows.
	rowTol = 1e-6
	// boundTol is how far a continuous column may be outside its bounds,
	// relative to the larger of 1 and the bound.
	boundTol = 1e-7
)

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
	sum := make([]float64, len(p.Rows))
	size := make([]float64, len(p.Rows))
	value = p.Offset
	for j := range p.Cols {
		c := &p.Cols[j]
		v := x[j]
		if math.IsNaN(v) || math.IsInf(v, 0) || c.Integer && v != math.Round(v) {
			return 0, false
		}
		if v < c.Lower-boundTol*math.Max(1, math.Abs(c.Lower)) || v > c.Upper+boundTol*math.Max(1, math.Abs(c.Upper)) {
			return 0, false
		}
		value += c.Cost * v
		for _, e := range c.Entries {
			t := e.Value * v
			sum[e.Row] += t
			size[e.Row] = math.Max(size[e.Row], math.Abs(t))
		}
	}
	for i, r := range p.Rows {
		s := math.Max(1, size[i])
		if sum[i] < r.Lower-rowTol*math.Max(s, math.Abs(r.Lower)) || sum[i] > r.Upper+rowTol*math.Max(s, math.Abs(r.Upper)) {
			return 0, false
		}
	}
	return value, true
}

// accept returns the point x if it is feasible, nil if not. It copies x.
func (s *space) accept(x []float64) *point {
	x = append([]float64(nil), x...)
	for j := range x {
		if s.integer[j] {
			x[j] = math.Round(x[j])
		}
		// A value outside by rounding is put on the bound.
		c := &s.orig.Cols[j]
		x[j] = math.Min(math.Max(x[j], c.Lower), c.Upper)
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

package branch

import (
	"context"
	"math"

	"rationwright/solver/simplex"
)

// point is an integer-feasible point: integers are exact, every row was
// recomputed from the original problem.
type point struct {
	x     []float64
	value float64 // in the sense of the search
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
func (r *relaxation) polish(ctx context.Context, x []float64, cutoff float64) *point {
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

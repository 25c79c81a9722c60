package branch

import (
	"context"
	"math"

	"rationwright/solver/simplex"
)

// dive (fractional diving: Achterberg 2007, as simple rounding) looks for a first point
// where no row minds more of a column: the largest fractions of the relaxation are
// raised, and it is solved again, until all are whole. It returns nil where a row minds,
// or where it does not end.
func (h *lns) dive(ctx context.Context) *point {
	r := h.r
	r.reset()
	work, effort := r.work, r.effort
	defer func() {
		r.reset()
		h.work += r.work - work
		h.effort += r.effort - effort
	}()
	for range diveSteps {
		out := r.solve(ctx, math.Inf(1), 0)
		if out.status != simplex.Optimal {
			return nil
		}
		largest := 0.0
		for _, j := range r.integers {
			if f := out.x[j] - math.Floor(out.x[j]+intTol); f > intTol {
				if r.upLocked[j] {
					return nil
				}
				largest = math.Max(largest, f)
			}
		}
		if largest == 0 {
			if p := h.s.accept(out.x); p != nil {
				return p
			}
			return r.polish(ctx, append([]float64(nil), out.x...), math.Inf(1))
		}
		for _, j := range r.integers {
			if f := out.x[j] - math.Floor(out.x[j]+intTol); f > intTol && (f >= largest || f > diveNearly) {
				r.set(j, math.Min(math.Ceil(out.x[j]-intTol), r.upper[j]), r.upper[j])
			}
		}
	}
	return nil
}

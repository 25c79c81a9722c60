package branch

import "math"

// simpleRounding (T. Achterberg, Constraint integer programming, thesis, TU Berlin,
// 2007) moves every fractional column of a relaxation's point to an integer
// in a direction that no row minds (packs: one more) and returns the point if
// there is such a direction for all of them.
func (w *worker) simpleRounding(out outcome) *point {
	r := w.r
	value := out.value
	for _, c := range w.frac {
		up, down := r.upLocked[c.col], r.downLocked[c.col]
		if up && down {
			return nil
		}
		if !down && up {
			value -= r.cost[c.col] * (c.value - math.Floor(c.value))
		} else {
			value += r.cost[c.col] * (math.Ceil(c.value) - c.value)
		}
	}
	if value >= w.cutoff && (w.best == nil || value >= w.best.value) {
		return nil
	}
	x := append([]float64(nil), out.x...)
	for _, c := range w.frac {
		if r.upLocked[c.col] {
			x[c.col] = math.Floor(c.value)
		} else {
			x[c.col] = math.Ceil(c.value)
		}
	}
	return r.accept(x)
}

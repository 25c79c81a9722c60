package branch

import (
	"cmp"
	"context"
	"math"
	"slices"

	"rationwright/solver/simplex"
)

// candidate is a fractional integer column with what its branches promise.
type candidate struct {
	col      int
	value    float64
	down, up float64 // expected or measured rise of the bound
}

func (c candidate) score() float64 { return score(c.down, c.up) }

// decision is how a node goes on: a column to branch on, or what strong
// branching found on the way.
type decision struct {
	col   int // −1: nothing to branch on
	value float64
	// Of the branches down (index 0) and up (index 1).
	rise   [2]float64
	closed [2]bool
	proof  [2]*certificate // what proves bound
	bound  [2]float64
}

// fractional lists the integer columns of x that are off an integer, ascending.
func (s *space) fractional(x []float64, to []candidate) []candidate {
	to = to[:0]
	for _, j := range s.integers {
		f := x[j] - math.Floor(x[j])
		if f > intTol && f < 1-intTol {
			to = append(to, candidate{col: j, value: x[j]})
		}
	}
	return to
}

// decide chooses the column to branch on at a node whose relaxation has the
// bound given and the fractional columns frac. Columns with few observations
// are measured by solving both branches for a few iterations: strong branching
// (D. Applegate, R. Bixby, V. Chvátal and W. Cook, Finding cuts in the TSP, DIMACS
// 95-05, 1995). The basis in hand
// is the same afterwards.
func (w *worker) decide(ctx context.Context, frac []candidate, bound float64) decision {
	for k := range frac {
		c := &frac[k]
		c.down = distance(c.value, false) * w.pseudo.unit(c.col, false)
		c.up = distance(c.value, true) * w.pseudo.unit(c.col, true)
	}
	// Of the same score, the first column first: they ascend.
	slices.SortStableFunc(frac, func(a, b candidate) int { return cmp.Compare(b.score(), a.score()) })
	best := decision{col: -1}
	bestScore := -1.0
	measured, since := 0, 0
	saved := false
	for k := range frac {
		c := frac[k]
		if measured < w.strong && !w.pseudo.isReliable(c.col) && ctx.Err() == nil {
			if !saved {
				w.r.lp.Save(&w.saved)
				saved = true
			}
			measured++
			d := w.measure(ctx, c, bound)
			if d.closed[0] || d.closed[1] {
				return d
			}
			c.down, c.up = d.rise[0], d.rise[1]
		}
		if s := c.score(); s > bestScore || best.col < 0 {
			bestScore = s
			best = decision{col: c.col, value: c.value, rise: [2]float64{c.down, c.up}}
			since = 0
		} else if since++; since >= strongPatience && measured > 0 {
			break
		}
	}
	return best
}

// distance is how far a value is from the next integer down or up.
func distance(value float64, raised bool) float64 {
	f := value - math.Floor(value)
	if raised {
		return 1 - f
	}
	return f
}

// measure solves both branches of c for a few iterations.
func (w *worker) measure(ctx context.Context, c candidate, bound float64) decision {
	r := w.r
	lo, up := r.lower[c.col], r.upper[c.col]
	floor := math.Floor(c.value)
	d := decision{col: c.col, value: c.value}
	for _, raised := range []bool{false, true} {
		if raised {
			r.set(c.col, floor+1, up)
		} else {
			r.set(c.col, lo, floor)
		}
		out := r.solve(ctx, w.cutoff, strongIterations)
		out.bound = r.roundUp(out.bound)
		rise := risen(math.Max(out.bound, out.inside), bound)
		closed := out.bound >= w.cutoff
		if closed {
			rise = math.Max(w.cutoff-bound, 0)
			if math.IsInf(rise, 1) {
				rise = math.Max(1, math.Abs(bound))
			}
		} else if out.status != simplex.Numerical {
			w.observe(observation{c.col, raised, rise / distance(c.value, raised)})
		}
		k := direction(raised)
		d.rise[k], d.closed[k], d.proof[k], d.bound[k] = rise, closed, w.keep(out), out.bound
		r.set(c.col, lo, up)
		if r.lp.Restore(&w.saved) != nil {
			// Rows or columns came in: the optimum has to be found again.
			w.r.solve(ctx, math.Inf(1), 0)
			w.r.lp.Save(&w.saved)
		}
	}
	return d
}

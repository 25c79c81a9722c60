package branch

import (
	"context"
	"math"
	"sort"

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
	col      int // −1: nothing to branch on
	value    float64
	down, up float64 // rises of the bound
	// Branches that are already closed, with what closes them.
	downClosed, upClosed bool
	downProof, upProof   *certificate
	downBound, upBound   float64
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
		f := c.value - math.Floor(c.value)
		c.down = f * w.pseudo.unit(c.col, false)
		c.up = (1 - f) * w.pseudo.unit(c.col, true)
	}
	sort.SliceStable(frac, func(a, b int) bool {
		sa, sb := frac[a].score(), frac[b].score()
		if sa != sb {
			return sa > sb
		}
		return frac[a].col < frac[b].col
	})
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
			if d.downClosed || d.upClosed {
				return d
			}
			c.down, c.up = d.down, d.up
		}
		if s := c.score(); s > bestScore || best.col < 0 {
			bestScore = s
			best = decision{col: c.col, value: c.value, down: c.down, up: c.up}
			since = 0
		} else if since++; since >= strongPatience && measured > 0 {
			break
		}
	}
	return best
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
		proof := w.keep(out)
		if closed {
			rise = math.Max(w.cutoff-bound, 0)
			if math.IsInf(rise, 1) {
				rise = math.Max(1, math.Abs(bound))
			}
		} else if out.status != simplex.Numerical {
			dist := c.value - floor
			if raised {
				dist = 1 - dist
			}
			w.observe(observation{c.col, raised, rise / dist})
		}
		if raised {
			d.up, d.upClosed, d.upProof, d.upBound = rise, closed, proof, out.bound
		} else {
			d.down, d.downClosed, d.downProof, d.downBound = rise, closed, proof, out.bound
		}
		r.set(c.col, lo, up)
		if r.lp.Restore(&w.saved) != nil {
			// Rows or columns came in: the optimum has to be found again.
			w.r.solve(ctx, math.Inf(1), 0)
			w.r.lp.Save(&w.saved)
		}
	}
	return d
}

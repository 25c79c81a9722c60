package simplex

import (
	"cmp"
	"math"
	"slices"
)

// primalRatio returns the position that leaves the basis when q moves in
// direction dir along spike, and the length of the step; −1 and its range if q
// reaches its other bound first, −1 and +Inf if nothing blocks.
func (c primalMethod) primalRatio(q int, dir float64, phase1, bland bool) (r int, theta float64) {
	width := c.upper[q] - c.lower[q]
	for _, least := range []float64{leastPivot(c.factor.updates()), lastPivot} {
		switch {
		case phase1:
			r, theta = c.longRatio(q, dir, least)
		case bland:
			r, theta = c.exactRatio(dir, least)
		default:
			r, theta = c.harrisRatio(dir, least)
		}
		if width <= theta && !math.IsInf(width, 1) {
			return -1, width
		}
		if r >= 0 {
			break
		}
	}
	return r, theta
}

// room returns how far the variable in position i is from the bound it moves
// to when it changes at the rate −v; +Inf if there is none.
func (c primalMethod) room(i int, v float64) float64 {
	k := c.head[i]
	if v > 0 {
		return max(c.x[k]-c.lower[k], 0)
	}
	return max(c.upper[k]-c.x[k], 0)
}

// harrisRatio passes twice: the longest step within tolerance, then the largest
// pivot up to it. P. M. J. Harris (1973), Pivot selection methods of the Devex
// LP code, Mathematical Programming 5.
func (c primalMethod) harrisRatio(dir, least float64) (int, float64) {
	limit := math.Inf(1)
	for i, v := range c.spike {
		if math.Abs(v) >= least {
			limit = min(limit, (c.room(i, dir*v)+harrisTol)/math.Abs(v))
		}
	}
	if math.IsInf(limit, 1) {
		return -1, limit
	}
	at, size, theta := -1, 0.0, 0.0
	for i, v := range c.spike {
		a := math.Abs(v)
		if a < least || a <= size {
			continue
		}
		if ratio := c.room(i, dir*v) / a; ratio <= limit {
			at, size, theta = i, a, ratio
		}
	}
	return at, theta
}

// exactRatio returns the first variable to reach a bound, the smallest of
// several: Bland's rule.
func (c primalMethod) exactRatio(dir, least float64) (int, float64) {
	at, theta := -1, math.Inf(1)
	for i, v := range c.spike {
		if math.Abs(v) < least {
			continue
		}
		ratio := c.room(i, dir*v) / math.Abs(v)
		if ratio < theta || ratio == theta && at >= 0 && c.head[i] < c.head[at] {
			at, theta = i, ratio
		}
	}
	if math.IsInf(theta, 1) {
		return -1, theta
	}
	return at, theta
}

// longRatio is the ratio test of the first phase: the sum of infeasibilities is
// piecewise linear in the step and worth following while it falls, past bounds
// that are reached from outside. Of the last breakpoints before it rises, one
// with a large pivot is taken.
func (c primalMethod) longRatio(q int, dir, least float64) (int, float64) {
	points := c.points[:0]
	for i, v := range c.spike {
		a := math.Abs(v)
		if a < least {
			continue
		}
		k := c.head[i]
		near, far := c.lower[k], c.upper[k] // in the order they are met
		x := c.x[k]
		if dir*v > 0 {
			near, far = -far, -near
			x = -x
		}
		// The variable now rises at rate a from x; its bounds are near ≤ far.
		if x < near-primalTol {
			points = append(points, breakpoint{(near - x) / a, a, int32(i)})
		}
		if x <= far+primalTol && !math.IsInf(far, 1) {
			points = append(points, breakpoint{max(far-x, 0) / a, a, int32(i)})
		}
	}
	c.points = points
	slices.SortFunc(points, func(p, q breakpoint) int {
		return cmp.Or(cmp.Compare(p.theta, q.theta), cmp.Compare(p.at, q.at))
	})
	slope := -math.Abs(c.d[q])
	last, largest := -1, 0.0
	for t, p := range points {
		slope += p.size
		last, largest = t, max(largest, p.size)
		if slope >= 0 {
			break
		}
	}
	if last < 0 {
		return -1, math.Inf(1)
	}
	for points[last].size < goodPivot*largest {
		last--
	}
	return int(points[last].at), points[last].theta
}

package simplex

import "math"

// dualRatio chooses the variable that enters for position r, whose pivot row is
// in alpha, and leaves in candidates those that flip to their other bound on
// the way, by entries of at least least. It returns −1 if there is none: even
// with every bound flipped the basic variable stays outside.
//
// As the dual step grows, one reduced cost after the other reaches zero. A
// boxed variable may pass: it flips, which takes its range times its entry from
// the slope of the dual objective. The last to be reached before the slope is
// spent enters. Variables within the Harris tolerance are taken as a group, of
// which the largest pivot counts.
//
// P. M. J. Harris (1973), Pivot selection methods of the Devex LP code,
// Mathematical Programming 5. I. Maros (2003), Computational techniques of the
// simplex method, §10.3 on long steps.
func (c dualMethod) dualRatio(r int, least float64, bland bool) int {
	out := c.head[r]
	sign, slope := 1.0, c.x[out]-c.upper[out]
	if c.x[out] < c.lower[out] {
		sign, slope = -1, c.lower[out]-c.x[out]
	}
	c.candidates = c.candidates[:0]
	points := c.breakpoints(sign, least)
	if bland {
		return smallestRatio(points)
	}
	rest := points
	groups := c.groups[:0]
	largest := 0.0
	for len(rest) > 0 && slope > primalTol {
		limit := math.Inf(1)
		for _, p := range rest {
			limit = min(limit, p.theta+harrisTol/p.size)
		}
		n := 0
		best := group{start: len(points) - len(rest), at: -1}
		for t, p := range rest {
			if p.theta > limit {
				continue
			}
			rest[t], rest[n] = rest[n], p
			n++
			slope -= p.size * (c.upper[p.at] - c.lower[p.at])
			if p.size > best.pivot {
				best.pivot, best.at = p.size, p.at
			}
		}
		largest = max(largest, best.pivot)
		groups = append(groups, best)
		rest = rest[n:]
	}
	c.groups = groups
	if slope > primalTol || len(groups) == 0 {
		return -1
	}
	// The last group is the longest step; an earlier one is worth a shorter
	// step if the last has only a poor pivot.
	last := len(groups) - 1
	for groups[last].pivot < min(goodPivot*largest, 1) {
		last--
	}
	for _, p := range points[:groups[last].start] {
		c.candidates = append(c.candidates, p.at)
	}
	return int(groups[last].at)
}

// goodPivot is the share of the largest pivot at hand that is good enough to
// prefer a longer step.
const goodPivot = 0.1

// breakpoints lists the variables whose reduced cost reaches zero along sign
// times the pivot row, by an entry of at least least. What comes after the first
// that cannot pass, for want of another bound, is left out.
func (c dualMethod) breakpoints(sign, least float64) []breakpoint {
	points := c.points[:0]
	alpha, d, place, lower, upper := c.alpha, c.d, c.place, c.lower, c.upper
	limit := math.Inf(1)
	for _, j := range c.alphaList {
		a := sign * alpha[j]
		switch place[j] {
		case AtLower:
			if a < least {
				continue
			}
		case AtUpper:
			if a = -a; a < least {
				continue
			}
		default:
			if a = math.Abs(a); a < least {
				continue
			}
		}
		width := upper[j] - lower[j]
		if width == 0 {
			continue
		}
		theta := math.Abs(d[j]) / a
		if theta > limit {
			continue
		}
		points = append(points, breakpoint{theta, a, j})
		if math.IsInf(width, 1) {
			limit = min(limit, theta+harrisTol/a)
		}
	}
	n := 0
	for _, p := range points {
		if p.theta <= limit {
			points[n] = p
			n++
		}
	}
	c.points = points
	return points[:n]
}

// smallestRatio returns the variable whose reduced cost reaches zero first, the
// smallest of several: Bland's rule, without tolerance. It returns −1 if there
// is none.
func smallestRatio(points []breakpoint) int {
	q, best := -1, math.Inf(1)
	for _, p := range points {
		if p.theta < best || p.theta == best && int(p.at) < q {
			q, best = int(p.at), p.theta
		}
	}
	return q
}

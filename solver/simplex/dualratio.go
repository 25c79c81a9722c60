package simplex

import "math"

// dualRatio chooses the variable that enters for position r, whose pivot row is
// in alpha, and leaves in candidates those that flip to their other bound on
// the way. It returns −1 if there is none: even with every bound flipped the
// basic variable stays outside.
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
func (c *core) dualRatio(r int, bland bool) int {
	out := c.head[r]
	sign, slope := 1.0, c.x[out]-c.upper[out]
	if c.x[out] < c.lower[out] {
		sign, slope = -1, c.lower[out]-c.x[out]
	}
	c.collect(sign, leastPivot(c.factor.updates()))
	if bland {
		q := c.smallestRatio()
		c.candidates = c.candidates[:0]
		return q
	}
	d, alpha := c.d, c.alpha
	rest := c.candidates
	groups := c.groups[:0] // of each group: its end in candidates and its largest pivot
	largest := 0.0
	for len(rest) > 0 && slope > primalTol {
		limit := math.Inf(1)
		for _, j := range rest {
			limit = min(limit, (math.Abs(d[j])+harrisTol)/math.Abs(alpha[j]))
		}
		n := 0
		best := group{at: -1}
		for t, j := range rest {
			a := math.Abs(alpha[j])
			if math.Abs(d[j])/a > limit {
				continue
			}
			rest[t], rest[n] = rest[n], j
			n++
			slope -= a * (c.upper[j] - c.lower[j])
			if a > best.pivot {
				best.pivot, best.at = a, j
			}
		}
		largest = max(largest, best.pivot)
		best.start = len(c.candidates) - len(rest)
		groups = append(groups, best)
		rest = rest[n:]
	}
	c.groups = groups
	if slope > primalTol {
		c.candidates = c.candidates[:0]
		return -1
	}
	// The last group is the longest step; an earlier one is worth a shorter
	// step if the last has only a poor pivot.
	enough := min(0.1*largest, 1)
	for t := len(groups) - 1; t >= 0; t-- {
		if groups[t].pivot >= enough {
			c.candidates = c.candidates[:groups[t].start]
			return int(groups[t].at)
		}
	}
	return -1
}

// group is a set of variables whose reduced costs reach zero together.
type group struct {
	start int     // in candidates
	at    int32   // the variable with the largest pivot
	pivot float64 // its size
}

// collect lists in candidates the variables whose reduced cost moves towards
// zero along sign times the pivot row, if their entry is at least least.
func (c *core) collect(sign, least float64) {
	list := c.candidates[:0]
	alpha, place, lower, upper := c.alpha, c.place, c.lower, c.upper
	for _, j := range c.alphaList {
		a := sign * alpha[j]
		switch place[j] {
		case AtLower:
			if a < least {
				continue
			}
		case AtUpper:
			if a > -least {
				continue
			}
		default:
			if math.Abs(a) < least {
				continue
			}
		}
		if lower[j] != upper[j] {
			list = append(list, j)
		}
	}
	c.candidates = list
}

// smallestRatio returns the candidate whose reduced cost reaches zero first,
// the smallest of several: Bland's rule, without tolerance.
func (c *core) smallestRatio() int {
	q, best := -1, math.Inf(1)
	for _, j := range c.candidates {
		ratio := math.Abs(c.d[j]) / math.Abs(c.alpha[j])
		if ratio < best || ratio == best && int(j) < q {
			q, best = int(j), ratio
		}
	}
	return q
}

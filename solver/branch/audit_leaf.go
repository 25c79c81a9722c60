package branch

import (
	"math"
	"slices"
)

// checkLeaves confirms the bound of each leaf and that the leaves cover the
// box. It returns the bound that the confirmed leaves prove together, in the
// search's sense.
func (a *auditor) checkLeaves() float64 {
	bound := math.Inf(1)
	children := map[*boundChange][]*boundChange{}
	leafAt := map[*boundChange]bool{}
	known := map[*boundChange]bool{}
	for _, l := range a.trail.leaves {
		leafAt[l.box] = true
		for c := l.box; c != nil && !known[c]; c = c.up {
			known[c] = true
			children[c.up] = append(children[c.up], c)
		}
		a.rep.Leaves++
		b, ok := a.leafBound(l)
		if ok {
			a.rep.LeavesOK++
		} else {
			a.rep.note("leaf with bound %g: confirmed %g", l.bound, b)
		}
		bound = math.Min(bound, b)
	}
	a.rep.Covered = len(a.trail.leaves) > 0 && a.covered(children, leafAt)
	if len(a.trail.leaves) == 0 {
		return math.Inf(-1)
	}
	return bound
}

// leafBound recomputes the bound of one leaf over its box.
func (a *auditor) leafBound(l leaf) (bound float64, ok bool) {
	if a.ctx.Err() != nil {
		return math.Inf(-1), false
	}
	var path []*boundChange
	for c := l.box; c != nil; c = c.up {
		path = append(path, c)
	}
	lower := append([]float64(nil), a.wideLower...)
	upper := append([]float64(nil), a.wideUpper...)
	for _, c := range slices.Backward(path) {
		if !a.changeOK(c, lower, upper) {
			return math.Inf(-1), false
		}
		lower[c.col], upper[c.col] = math.Max(lower[c.col], c.lower), math.Min(upper[c.col], c.upper)
		if lower[c.col] > upper[c.col] {
			return math.Inf(1), true
		}
	}
	if l.proof == nil {
		return math.Inf(-1), math.IsInf(l.bound, -1)
	}
	b := a.roundUp(a.certified(l.proof, lower, upper).lo)
	if notBelow(b, l.bound) {
		return b, true
	}
	return b, false
}

// changeOK confirms one change of a path in the box before it. A change that
// many leaves share is confirmed once: its box is the same for all of them.
func (a *auditor) changeOK(c *boundChange, lower, upper []float64) bool {
	if ok, known := a.confirmed[c]; known {
		return ok
	}
	ok := true
	switch c.why {
	case whyRow:
		ok = a.rowAllows(c, lower, upper)
	case whyCost:
		ok = c.proof != nil && a.dearer(c.proof, c.cutoff, c.col, c.lower, c.upper, lower, upper)
	}
	a.confirmed[c] = ok
	return ok
}

// rowAllows confirms a box that a row implies: a value outside it breaks the
// row by more than its tolerance, or no integer is left out.
func (a *auditor) rowAllows(c *boundChange, lower, upper []float64) bool {
	terms, lo, up := a.g.rows[c.row], a.g.rowLower[c.row], a.g.rowUpper[c.row]
	if c.lower > c.upper { // the row cannot hold at all, or its column has no value left
		all := rangeOf(terms, lower, upper, -1)
		if all.lo > up || all.hi < lo {
			return true
		}
	}
	v := coefficientOf(terms, c.col)
	if v == 0 || !a.g.integer[c.col] {
		return false
	}
	x := solveFor(term{c.col, v}, lo, up, rangeOf(terms, lower, upper, c.col))
	x.lo, x.hi = math.Max(x.lo, lower[c.col]), math.Min(x.hi, upper[c.col])
	return losesNone(c.lower, c.upper, x)
}

// covered follows the branchings from the root: below each, either a leaf ends
// there, or one tighter box goes on (confirmed with the leaves), or two
// branches share all values of a column.
func (a *auditor) covered(children map[*boundChange][]*boundChange, leafAt map[*boundChange]bool) bool {
	lower, upper := slices.Clone(a.lower), slices.Clone(a.upper) // of the change in hand
	var follow func(at *boundChange) bool
	follow = func(at *boundChange) bool {
		if leafAt[at] {
			return true
		}
		kids := children[at]
		into := func(c *boundChange) bool {
			j, lo, up := c.col, lower[c.col], upper[c.col]
			lower[j], upper[j] = math.Max(a.lower[j], c.lower), math.Min(a.upper[j], c.upper)
			ok := follow(c)
			lower[j], upper[j] = lo, up
			return ok
		}
		switch {
		case len(kids) == 1 && kids[0].why != whyBranch:
			return into(kids[0])
		case len(kids) == 2 && kids[0].why == whyBranch && kids[1].why == whyBranch && kids[0].col == kids[1].col:
			low, high := kids[0], kids[1]
			if low.lower > high.lower {
				low, high = high, low
			}
			j := low.col
			if !a.g.integer[j] || low.lower > lower[j] || high.upper < upper[j] || low.upper+1 < high.lower {
				return false
			}
			return into(low) && into(high)
		}
		// A branch whose box the root's bounds have closed since needs no leaf.
		if len(kids) == 1 {
			if c := kids[0]; c.lower <= lower[c.col] && c.upper >= upper[c.col] {
				return into(c)
			}
		}
		return false
	}
	return follow(nil)
}

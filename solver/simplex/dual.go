package simplex

// dualMethod is the dual simplex method on a core.
type dualMethod struct{ *core }

// run runs the dual simplex method from a dual feasible basis until it is
// primal feasible (done), until a row of B⁻¹, in rho, is proven to show that no
// point is (noPoint), or until it must stop.
//
// A. Koberstein (2005), The dual simplex method, techniques for a fast and
// stable implementation, thesis, Universität Paderborn, is the outline.
func (c dualMethod) run(ctl *control) outcome {
	left := false // a row without a usable pivot was left
	for {
		r := c.chooseRow(ctl.bland)
		if r < 0 && !left {
			return done
		}
		if r < 0 {
			if c.factor.updates() == 0 || !c.restartDual(ctl) {
				return broken
			}
			left = false
			continue
		}
		if end := ctl.mayIterate(c.core); end != done {
			return end
		}
		if ctl.passed != nil && ctl.passed() {
			return stopped
		}
		c.unitRow(r)
		c.sharpenWeight(r)
		c.priceRow()
		q := c.dualRatio(r, leastPivot(c.factor.updates()), ctl.bland)
		if q < 0 {
			if ctl.infeasible(c.rho) {
				return noPoint
			}
			q = c.dualRatio(r, lastPivot, ctl.bland)
		}
		if q < 0 {
			c.infeas[r], left = 0, true
			continue
		}
		c.enteringColumn(q)
		pivot := c.spike[r]
		if !agree(pivot, c.alpha[q]) {
			if c.factor.updates() == 0 {
				c.infeas[r], left = 0, true
			} else if !c.restartDual(ctl) {
				return broken
			}
			continue
		}
		step := c.dualStep(r, q)
		c.flipBounds()
		place := c.primalStep(r, q)
		c.updateWeights(r)
		c.exchange(q, r, place)
		c.measure(r)
		if (!c.factor.update(r, pivot) || c.factor.updates() >= maxUpdates) && !c.restartDual(ctl) {
			return broken
		}
		if ctl.stepped(step) {
			c.perturbCosts()
		}
	}
}

// restartDual factorises afresh and sees to it that the basis is still dual
// feasible. It gives up when it is asked too often for the iterations made.
func (c dualMethod) restartDual(ctl *control) bool {
	c.refresh(true)
	c.makeDualFeasible()
	return ctl.mayRestart(c.core)
}

// chooseRow returns the position that leaves the basis, −1 if all are within
// bounds: the largest squared infeasibility per weight, or with bland the
// smallest variable.
func (c dualMethod) chooseRow(bland bool) int {
	at := -1
	if bland {
		for i, v := range c.infeas {
			if v > 0 && (at < 0 || c.head[i] < c.head[at]) {
				at = i
			}
		}
		return at
	}
	best := 0.0
	weight := c.weight[:len(c.infeas)]
	for i, v := range c.infeas {
		if v > best*weight[i] {
			best, at = v/weight[i], i
		}
	}
	return at
}

// dualStep moves the reduced costs along the pivot row until that of q is
// zero. Where that takes one to the wrong side of zero, within the Harris
// tolerance, its cost is shifted to make it zero. It returns the step.
func (c dualMethod) dualStep(r, q int) float64 {
	if c.wrongSide(q) {
		c.shift(q)
	}
	for _, j := range c.candidates {
		c.place[j] ^= 1 // flipped soon: the other side of zero is right
	}
	step := c.d[q] / c.alpha[q]
	d, alpha := c.d, c.alpha
	for _, j := range c.alphaList {
		d[j] -= step * alpha[j]
		if c.wrongSide(int(j)) {
			c.shift(int(j))
		}
	}
	for _, j := range c.candidates {
		c.place[j] ^= 1
	}
	d[c.head[r]] = -step
	d[q] = 0
	return step
}

// wrongSide reports whether the reduced cost of the non-basic variable k is on
// the wrong side of zero, be it by rounding only.
func (c dualMethod) wrongSide(k int) bool {
	d := c.d[k]
	if d == 0 {
		return false
	}
	switch c.place[k] {
	case AtLower:
		return d < 0 && c.lower[k] != c.upper[k]
	case AtUpper:
		return d > 0 && c.lower[k] != c.upper[k]
	}
	return true
}

// flipBounds moves the variables in candidates to their other bound.
func (c dualMethod) flipBounds() {
	if len(c.candidates) == 0 {
		return
	}
	clear(c.moved)
	for _, j := range c.candidates {
		old := c.x[j]
		c.place[j] ^= 1
		c.x[j] = c.atPlace(int(j))
		c.addColumn(int(j), old-c.x[j], c.moved)
	}
	c.factor.ftran(c.moved, false)
	for i, v := range c.moved {
		if v != 0 {
			c.x[c.head[i]] += v
			c.measure(i)
		}
	}
}

// primalStep moves the basic values along the column in spike until the
// variable in position r stands on the bound it had crossed, and returns that
// place.
func (c dualMethod) primalStep(r, q int) Place {
	out := c.head[r]
	bound, place := c.upper[out], AtUpper
	if c.x[out] < c.lower[out] {
		bound, place = c.lower[out], AtLower
	}
	c.move(q, (c.x[out]-bound)/c.spike[r])
	c.x[out] = bound
	return place
}

package simplex

// In the first phase the primal method minimises the sum of infeasibilities:
// the cost of a basic variable is its side, −1 below its bounds, 1 above them,
// 0 within. The costs change as variables come within their bounds; most steps
// change few, so that the reduced costs are corrected rather than computed
// afresh. In the second phase all sides are 0.

// pricePrimal sets the reduced costs: of the sum of infeasibilities while there
// are any, which it reports, else of the working costs.
func (c primalMethod) pricePrimal() (phase1 bool) {
	if c.infeasible() == 0 {
		clear(c.side)
		c.computeD()
		return false
	}
	for i := range c.side {
		c.side[i] = c.sideOf(i)
	}
	clear(c.d)
	c.subtractDuals(c.phase1Duals())
	c.priced = false
	return true
}

// sideOf returns the side that the variable in position i is on.
func (c primalMethod) sideOf(i int) float64 {
	if c.infeas[i] == 0 {
		return 0
	}
	if k := c.head[i]; c.x[k] < c.lower[k] {
		return -1
	}
	return 1
}

// phase1Duals computes into rho, and returns, the duals of the sum of
// infeasibilities.
func (c primalMethod) phase1Duals() []float64 {
	copy(c.rho, c.side)
	c.factor.btran(c.rho, false)
	return c.rho
}

// reprice corrects the reduced costs of the first phase after the basic values
// have moved, and reports whether the phase goes on. At its end it sets those of
// the second.
func (c primalMethod) reprice(phase1 bool) bool {
	if !phase1 {
		return false
	}
	if c.infeasible() == 0 {
		return c.pricePrimal()
	}
	changed := false
	for i, old := range c.side {
		now := c.sideOf(i)
		c.rho[i] = now - old
		c.side[i] = now
		changed = changed || now != old
	}
	if changed {
		c.factor.btran(c.rho, false)
		c.priceRow()
		for _, j := range c.alphaList {
			c.d[j] -= c.alpha[j]
		}
	}
	return true
}

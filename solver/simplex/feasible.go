package simplex

import "math"

// makeDualFeasible flips boxed variables to the bound their reduced cost wants
// and shifts the cost of the others, so that no reduced cost is on the wrong
// side of zero.
//
// With shifted costs the dual method is the first phase of the primal one: it
// finds a feasible point or proves that there is none, whatever the costs.
func (c *core) makeDualFeasible() {
	flipped := false
	for k, v := range c.place {
		if v == Basic || c.lower[k] == c.upper[k] {
			continue
		}
		d := c.d[k]
		switch {
		case v == AtLower && d >= -dualTol, v == AtUpper && d <= dualTol, v == AtZero && math.Abs(d) <= dualTol:
		case v == AtLower && c.upper[k] < math.Inf(1), v == AtUpper && c.lower[k] > math.Inf(-1):
			c.place[k] ^= 1
			c.x[k] = c.atPlace(k)
			flipped = true
		default:
			c.shift(k)
		}
	}
	if flipped {
		c.computeX()
	}
}

// wrongCosts returns how many reduced costs are on the wrong side of zero by
// more than the tolerance.
func (c *core) wrongCosts() int {
	n := 0
	for k := range c.place {
		if c.attraction(k) > dualTol {
			n++
		}
	}
	return n
}

// attraction returns the size of the reduced cost of variable k if moving it
// off its place improves the objective, else something not positive.
func (c *core) attraction(k int) float64 {
	if c.lower[k] == c.upper[k] {
		return 0
	}
	switch d := c.d[k]; c.place[k] {
	case AtLower:
		return -d
	case AtUpper:
		return d
	case AtZero:
		return math.Abs(d)
	}
	return 0
}

// infeasible returns how many basic values are outside their bounds.
func (c *core) infeasible() int {
	n := 0
	for _, v := range c.infeas {
		if v > 0 {
			n++
		}
	}
	return n
}

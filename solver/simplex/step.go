package simplex

import "math"

// shift changes the cost of the non-basic variable k so that its reduced cost
// is zero.
func (c *core) shift(k int) {
	c.cost[k] -= c.d[k]
	c.d[k] = 0
	c.shifted = true
}

// unitRow computes row r of B⁻¹ into rho.
func (c *core) unitRow(r int) {
	clear(c.rho)
	c.rho[r] = 1
	c.factor.btran(c.rho, true)
}

// enteringColumn computes B⁻¹·(column q) into spike.
func (c *core) enteringColumn(q int) {
	clear(c.spike)
	c.column(q, c.spike)
	c.factor.ftran(c.spike, true)
}

// agree reports whether the two values of a pivot, by column and by row, are
// the same number.
func agree(a, b float64) bool {
	return math.Abs(a-b) <= pivotAgree*min(math.Abs(a), math.Abs(b))
}

// move takes the non-basic variable q by and the basic ones along the column in
// spike.
func (c *core) move(q int, by float64) {
	if by == 0 {
		return
	}
	head, x, lower, upper, infeas := c.head, c.x, c.lower, c.upper, c.infeas
	for i, v := range c.spike {
		if v == 0 {
			continue
		}
		k := head[i]
		at := x[k] - by*v
		x[k] = at
		over := max(lower[k]-at, at-upper[k])
		if over <= primalTol {
			over = 0
		}
		infeas[i] = over * over
	}
	x[q] += by
}

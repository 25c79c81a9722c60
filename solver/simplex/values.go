package simplex

import "math"

// settle puts every non-basic variable on a bound that exists, at zero if it is
// free.
func (c *core) settle() {
	for k, v := range c.place {
		if v == Basic {
			continue
		}
		c.place[k] = c.restingPlace(k, v)
		c.x[k] = c.atPlace(k)
	}
}

func (c *core) restingPlace(k int, v Place) Place {
	hasLower, hasUpper := c.lower[k] > math.Inf(-1), c.upper[k] < math.Inf(1)
	switch {
	case hasLower && (v != AtUpper || !hasUpper):
		return AtLower
	case hasUpper:
		return AtUpper
	}
	return AtZero
}

// atPlace returns the value of a non-basic variable.
func (c *core) atPlace(k int) float64 {
	switch c.place[k] {
	case AtLower:
		return c.lower[k]
	case AtUpper:
		return c.upper[k]
	}
	return 0
}

// computeX sets the basic values from the non-basic ones: B·x_B = −N·x_N.
func (c *core) computeX() {
	w := c.moved
	clear(w)
	for k, p := range c.pos {
		if p < 0 && c.x[k] != 0 {
			c.addColumn(k, -c.x[k], w)
		}
	}
	c.factor.ftran(w, false)
	for i, k := range c.head {
		c.x[k] = w[i]
		c.measure(i)
	}
	clear(w)
}

// measure notes the infeasibility of the variable in position i.
func (c *core) measure(i int) {
	k := c.head[i]
	v := max(c.lower[k]-c.x[k], c.x[k]-c.upper[k])
	if v <= primalTol {
		v = 0
	}
	c.infeas[i] = v * v
}

// duals writes the solution of Bᵀ·y = cost_B into y.
func (c *core) duals(y []float64) {
	for i, k := range c.head {
		y[i] = c.cost[k]
	}
	c.factor.btran(y, false)
}

// computeD sets all reduced costs from the working costs.
func (c *core) computeD() {
	c.duals(c.tau)
	copy(c.d, c.cost)
	c.subtractDuals(c.tau)
	c.priced = true
}

// subtractDuals turns costs in d into reduced costs for the duals y.
func (c *core) subtractDuals(y []float64) {
	d, pos := c.d, c.pos
	for j, s := range d[:c.n] {
		if pos[j] >= 0 {
			d[j] = 0
			continue
		}
		index, value := c.a.column(j)
		value = value[:len(index)]
		for t, i := range index {
			s -= y[i] * value[t]
		}
		d[j] = s
	}
	d, pos = d[c.n:], pos[c.n:]
	for i, v := range y {
		if pos[i] >= 0 {
			d[i] = 0
		} else {
			d[i] += v
		}
	}
}

// priceRow computes the pivot row alpha = rhoᵀ·[A, −I] over the non-basic
// variables, listed in alphaList. Here and in the other inner loops slices are
// copied into locals: a field is loaded again after every store.
func (c *core) priceRow() {
	alpha, list, pos := c.alpha, c.alphaList, c.pos
	for _, k := range list {
		alpha[k] = 0
	}
	list = list[:0]
	start, cols, vals := c.a.rowStart, c.a.rowCol, c.a.rowVal
	for i, v := range c.rho {
		if v == 0 {
			continue
		}
		index := cols[start[i]:start[i+1]]
		value := vals[start[i]:start[i+1]]
		value = value[:len(index)]
		for t, j := range index {
			alpha[j] += v * value[t]
		}
	}
	for j, p := range pos[:c.n] {
		if alpha[j] == 0 {
			continue
		}
		if p >= 0 {
			alpha[j] = 0
			continue
		}
		list = append(list, int32(j))
	}
	slack, slackPos := alpha[c.n:], pos[c.n:]
	for i, v := range c.rho {
		if v != 0 && slackPos[i] < 0 {
			slack[i] = -v
			list = append(list, int32(c.n+i))
		}
	}
	c.alphaList = list
}

// column writes the column of variable k of [A, −I] into w, which is zero.
func (c *core) column(k int, w []float64) {
	if k >= c.n {
		w[k-c.n] = -1
		return
	}
	index, value := c.a.column(k)
	for t, i := range index {
		w[i] = value[t]
	}
}

// addColumn adds by times the column of variable k of [A, −I] to w.
func (c *core) addColumn(k int, by float64, w []float64) {
	if k >= c.n {
		w[k-c.n] -= by
		return
	}
	index, value := c.a.column(k)
	value = value[:len(index)]
	for t, i := range index {
		w[i] += by * value[t]
	}
}

// refresh recomputes all values, after a fresh factorisation if asked or
// needed.
func (c *core) refresh(again bool) {
	if again {
		c.factorise()
		c.settle()
	}
	c.computeX()
	c.computeD()
}

package simplex

import "math"

// primal runs the primal simplex method from a primal feasible basis, with the
// true costs, until it is dual feasible.
func (c *core) primal(ctl *control) outcome {
	fresh := true
	for {
		q := c.chooseColumn(ctl.bland)
		if q < 0 {
			if fresh {
				return done
			}
			c.refresh(true)
			fresh = true
			continue
		}
		if c.spent(ctl) {
			return stopped
		}
		clear(c.spike)
		c.column(q, c.spike)
		c.factor.ftran(c.spike, true)
		dir := 1.0
		if c.d[q] > 0 {
			dir = -1
		}
		r, theta := c.primalRatio(dir, ctl)
		if width := c.upper[q] - c.lower[q]; width <= theta {
			c.move(q, dir*width)
			if c.place[q] == AtLower {
				c.place[q], c.x[q] = AtUpper, c.upper[q]
			} else {
				c.place[q], c.x[q] = AtLower, c.lower[q]
			}
			continue
		}
		if r < 0 {
			if fresh {
				c.candidates = append(c.candidates[:0], int32(q))
				return noPivot
			}
			c.refresh(true)
			fresh = true
			continue
		}
		out := int(c.head[r])
		pivot := c.spike[r]
		place := AtLower
		if dir*pivot < 0 {
			place = AtUpper
		}
		c.move(q, dir*theta)
		c.x[out] = c.upper[out]
		if place == AtLower {
			c.x[out] = c.lower[out]
		}
		clear(c.rho)
		c.rho[r] = 1
		c.factor.btran(c.rho, true)
		c.priceRow()
		step := c.d[q] / pivot
		for _, j := range c.alphaList {
			c.d[j] -= step * c.alpha[j]
		}
		c.exchange(q, r, place)
		c.d[out] = -step
		c.weight[r] = 1
		fresh = false
		if !c.factor.update(r, pivot) || c.factor.updates() >= maxUpdates {
			c.refresh(true)
			fresh = true
		}
	}
}

// move takes the entering variable q and the basic ones along the column in
// spike.
func (c *core) move(q int, by float64) {
	for i, v := range c.spike {
		if v != 0 {
			c.x[c.head[i]] -= by * v
		}
	}
	c.x[q] += by
}

// chooseColumn returns the entering variable, −1 if all reduced costs are
// right.
func (c *core) chooseColumn(bland bool) int {
	best, at := dualTol, -1
	for k, v := range c.place {
		if v == Basic || c.lower[k] == c.upper[k] {
			continue
		}
		d := c.d[k]
		switch v {
		case AtLower:
			d = -d
		case AtZero:
			d = math.Abs(d)
		}
		if d > best {
			at = k
			if bland {
				return at
			}
			best = d
		}
	}
	return at
}

// primalRatio returns the position that blocks first when the entering variable
// moves by dir, and the step; −1 and +Inf if none does. It passes twice, after
// Harris (1973): the step within tolerance, then the largest pivot up to it.
func (c *core) primalRatio(dir float64, ctl *control) (int, float64) {
	limit := math.Inf(1)
	tol := primalTol
	if ctl.bland {
		tol = 0
	}
	for i, v := range c.spike {
		v *= dir
		k := c.head[i]
		if v > ctl.pivotTol {
			limit = min(limit, (max(c.x[k]-c.lower[k], 0)+tol)/v)
		} else if v < -ctl.pivotTol {
			limit = min(limit, (max(c.upper[k]-c.x[k], 0)+tol)/-v)
		}
	}
	if math.IsInf(limit, 1) {
		return -1, limit
	}
	at, size, theta := -1, 0.0, 0.0
	for i, v := range c.spike {
		v *= dir
		k := c.head[i]
		var room float64
		if v > ctl.pivotTol {
			room = c.x[k] - c.lower[k]
		} else if v < -ctl.pivotTol {
			room = c.upper[k] - c.x[k]
		} else {
			continue
		}
		a := math.Abs(v)
		if max(room, 0) > limit*a {
			continue
		}
		if ctl.bland && at >= 0 && k > c.head[at] {
			continue
		}
		if ctl.bland || a > size {
			at, size, theta = i, a, max(room, 0)/a
		}
	}
	return at, theta
}

package simplex

import "math"

// primalMethod is the primal simplex method on a core.
type primalMethod struct{ *core }

// run runs the primal simplex method with the working costs until the basis
// is optimal (done), an improving direction without end is found (noEnd: the
// variable in candidates moves along spike), or it must stop. While basic values
// are outside their bounds it minimises the sum of their infeasibilities; if
// that ends above zero and the duals, in rho, prove that no point is feasible,
// it returns noPoint.
func (c primalMethod) run(ctl *control) outcome {
	c.devex = filled(c.devex, c.n+c.m, 1)
	phase1 := c.pricePrimal()
	for {
		q := c.chooseColumn(ctl.bland)
		if q < 0 {
			if !phase1 {
				return done
			}
			if ctl.infeasible(c.phase1Duals()) {
				return noPoint
			}
			if c.factor.updates() == 0 {
				return broken
			}
		}
		if q < 0 || !c.confirm(q, phase1) {
			if !c.restartPrimal(ctl) {
				return broken
			}
			phase1 = c.pricePrimal()
			continue
		}
		if end := ctl.mayIterate(c.core); end != done {
			return end
		}
		dir := 1.0
		if c.d[q] > 0 {
			dir = -1
		}
		r, theta := c.primalRatio(q, dir, phase1, ctl.bland)
		if math.IsInf(theta, 1) && c.factor.updates() == 0 {
			if phase1 {
				return broken
			}
			c.candidates = append(c.candidates[:0], int32(q))
			return noEnd
		}
		switch {
		case r >= 0 && c.enter(ctl, q, r, dir*theta):
			phase1 = c.reprice(phase1)
		case r < 0 && !math.IsInf(theta, 1):
			c.flip(q, dir*theta)
			phase1 = c.reprice(phase1)
		case !c.restartPrimal(ctl):
			return broken
		default:
			phase1 = c.pricePrimal()
		}
	}
}

// enter moves q by, exchanges it for the variable in position r, and reports
// whether the factor is still good for the next iteration. If the pivot itself
// is not accurate it does nothing.
func (c primalMethod) enter(ctl *control, q, r int, by float64) bool {
	c.unitRow(r)
	c.priceRow()
	pivot := c.spike[r]
	if !agree(pivot, c.alpha[q]) && c.factor.updates() > 0 {
		return false
	}
	c.primalPivot(q, r, by)
	if ctl.stepped(by) {
		c.widenBounds()
	}
	return c.factor.update(r, pivot) && c.factor.updates() < maxUpdates
}

// flip moves q by its whole range to its other bound.
func (c primalMethod) flip(q int, by float64) {
	c.move(q, by)
	c.place[q] ^= 1
	c.x[q] = c.atPlace(q)
	c.iterations++
}

// restartPrimal factorises afresh. It gives up when it is asked too often for
// the iterations made.
func (c primalMethod) restartPrimal(ctl *control) bool {
	c.refresh(true)
	return ctl.mayRestart(c.core)
}

// confirm computes the entering column and the reduced cost of q from it, and
// reports whether that still attracts q.
func (c primalMethod) confirm(q int, phase1 bool) bool {
	c.enteringColumn(q)
	d := 0.0
	if phase1 {
		for i, v := range c.side {
			d -= v * c.spike[i]
		}
	} else {
		d = c.cost[q]
		for i, v := range c.spike {
			d -= c.cost[c.head[i]] * v
		}
	}
	c.d[q] = d
	return c.attraction(q) > dualTol/2
}

// chooseColumn returns the entering variable, the most attractive per Devex
// weight or with bland the smallest, and −1 if none is.
func (c primalMethod) chooseColumn(bland bool) int {
	best, at := 0.0, -1
	for k, v := range c.place {
		if v == Basic {
			continue
		}
		d := c.attraction(k)
		if d <= dualTol {
			continue
		}
		if bland {
			return k
		}
		if d*d > best*c.devex[k] {
			best, at = d*d/c.devex[k], k
		}
	}
	return at
}

// primalPivot moves q by, exchanges it for the variable in position r, which
// goes to the bound it met, and updates reduced costs and Devex weights from
// the pivot row in alpha. Off the basis a variable has no part in the sum of
// infeasibilities.
func (c primalMethod) primalPivot(q, r int, by float64) {
	out := int(c.head[r])
	c.move(q, by)
	place := c.nearestPlace(out)
	pivot := c.alpha[q]
	step := c.d[q] / pivot
	weight := c.devex[q]
	for _, j := range c.alphaList {
		a := c.alpha[j]
		c.d[j] -= step * a
		c.devex[j] = max(c.devex[j], a*a/(pivot*pivot)*weight)
	}
	c.exchange(q, r, place)
	c.d[out] = -step - c.side[r]
	c.side[r] = 0
	c.devex[out] = max(weight/(pivot*pivot), 1)
	c.x[out] = c.atPlace(out)
	c.measure(r)
	c.weight[r] = 1 // not known without another solve, and only the dual method asks
}

// nearestPlace returns the bound of variable k closest to its value.
func (c primalMethod) nearestPlace(k int) Place {
	if math.Abs(c.x[k]-c.lower[k]) <= math.Abs(c.upper[k]-c.x[k]) {
		return AtLower
	}
	return AtUpper
}

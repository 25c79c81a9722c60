package simplex

import (
	"context"
	"math"
)

// outcome is how a run of one of the two methods ended.
type outcome int

const (
	broken  outcome = iota // numerical trouble
	done                   // dual: primal feasible; primal: dual feasible
	noPivot                // dual: infeasible by the row in rho; primal: unbounded by the column in spike
	stopped                // limit, cutoff or cancellation
)

// control carries the limits of one solve through the methods.
type control struct {
	ctx        context.Context
	iterations int // left; negative for no limit
	limited    bool
	why        string
	bland      bool // smallest index rules, exact ratio tests: terminates
	pivotTol   float64
}

// spent counts an iteration and reports whether the solve must stop.
func (c *core) spent(ctl *control) bool {
	if ctl.limited {
		if ctl.iterations <= 0 {
			ctl.why = "the iteration limit was reached"
			return true
		}
		ctl.iterations--
	}
	c.iterations++
	if c.iterations%16 == 0 && ctl.ctx.Err() != nil {
		ctl.why = "cancelled"
		return true
	}
	return false
}

// refresh factorises if asked or needed and recomputes all values.
func (c *core) refresh(again bool) {
	if again || c.stale {
		c.factorise()
		c.settle()
	}
	c.computeX()
	c.computeD()
}

// makeDualFeasible flips boxed variables to the right bound and shifts the cost
// of the others so that no reduced cost has the wrong sign.
func (c *core) makeDualFeasible() {
	flipped := false
	for k, v := range c.place {
		if v == Basic || c.lower[k] == c.upper[k] {
			continue
		}
		d := c.d[k]
		switch {
		case v == AtLower && d < -dualTol:
			if c.upper[k] < math.Inf(1) {
				c.place[k], flipped = AtUpper, true
				c.x[k] = c.upper[k]
				continue
			}
		case v == AtUpper && d > dualTol:
			if c.lower[k] > math.Inf(-1) {
				c.place[k], flipped = AtLower, true
				c.x[k] = c.lower[k]
				continue
			}
		case v == AtZero && math.Abs(d) > dualTol:
		default:
			continue
		}
		c.cost[k] -= d
		c.d[k] = 0
		c.shifted = true
	}
	if flipped {
		c.computeX()
	}
}

// dual runs the dual simplex method from a dual feasible basis until it is
// primal feasible.
func (c *core) dual(ctl *control) outcome {
	fresh := true
	for {
		r := c.chooseRow(ctl.bland)
		if r < 0 {
			if fresh {
				return done
			}
			c.refresh(true)
			c.makeDualFeasible()
			fresh = true
			continue
		}
		if c.spent(ctl) {
			return stopped
		}
		out := int(c.head[r])
		clear(c.rho)
		c.rho[r] = 1
		c.factor.btran(c.rho, true)
		c.weight[r] = 0
		for _, v := range c.rho {
			c.weight[r] += v * v
		}
		c.priceRow()
		below := c.x[out] < c.lower[out]
		q := c.dualRatio(out, below, ctl)
		if q < 0 {
			if fresh {
				return noPivot
			}
			c.refresh(true)
			c.makeDualFeasible()
			fresh = true
			continue
		}
		clear(c.spike)
		c.column(q, c.spike)
		c.factor.ftran(c.spike, true)
		pivot := c.spike[r]
		if math.Abs(pivot-c.alpha[q]) > pivotAgree*(1+math.Abs(pivot)) || math.Abs(pivot) < ctl.pivotTol/10 {
			if fresh {
				return broken
			}
			c.refresh(true)
			c.makeDualFeasible()
			fresh = true
			continue
		}
		// Dual step.
		step := c.d[q] / c.alpha[q]
		c.d[out] = -step
		for _, j := range c.alphaList {
			c.d[j] -= step * c.alpha[j]
		}
		c.shiftWrong()
		// Primal step.
		c.applyFlips()
		bound, place := c.upper[out], AtUpper
		if below {
			bound, place = c.lower[out], AtLower
		}
		theta := (c.x[out] - bound) / pivot
		for i, v := range c.spike {
			if v != 0 {
				c.x[c.head[i]] -= theta * v
			}
		}
		c.x[q] += theta
		c.x[out] = bound
		c.updateWeights(r)
		c.exchange(q, r, place)
		fresh = false
		if !c.factor.update(r, pivot) || c.factor.updates() >= maxUpdates {
			c.refresh(true)
			c.makeDualFeasible()
			fresh = true
		}
	}
}

// chooseRow returns the position that leaves the basis, −1 if all are within
// bounds: the largest squared infeasibility per weight, or with bland the
// smallest variable.
func (c *core) chooseRow(bland bool) int {
	best, at := 0.0, -1
	for i, k := range c.head {
		v := max(c.lower[k]-c.x[k], c.x[k]-c.upper[k])
		if v <= primalTol {
			continue
		}
		if bland {
			if at < 0 || k < c.head[at] {
				at = i
			}
			continue
		}
		if v*v > best*c.weight[i] {
			best, at = v*v/c.weight[i], i
		}
	}
	return at
}

// dualRatio chooses the entering variable for the pivot row in alpha by the
// bound flipping ratio test; the variables to flip are left in candidates.
func (c *core) dualRatio(out int, below bool, ctl *control) int {
	sign, slope := 1.0, c.x[out]-c.upper[out]
	if below {
		sign, slope = -1, c.lower[out]-c.x[out]
	}
	c.candidates = c.candidates[:0]
	for _, j := range c.alphaList {
		a := sign * c.alpha[j]
		if c.lower[j] == c.upper[j] {
			continue
		}
		switch c.place[j] {
		case AtLower:
			if a <= ctl.pivotTol {
				continue
			}
		case AtUpper:
			if a >= -ctl.pivotTol {
				continue
			}
		default:
			if math.Abs(a) <= ctl.pivotTol {
				continue
			}
		}
		c.candidates = append(c.candidates, j)
	}
	rest := c.candidates
	for len(rest) > 0 {
		limit := math.Inf(1)
		for _, j := range rest {
			limit = min(limit, (math.Abs(c.d[j])+dualTol)/math.Abs(c.alpha[j]))
		}
		group := 0
		var q int32 = -1
		size, fall := 0.0, 0.0
		for t, j := range rest {
			a := math.Abs(c.alpha[j])
			if math.Abs(c.d[j]) > limit*a {
				continue
			}
			rest[t], rest[group] = rest[group], j
			group++
			fall += a * (c.upper[j] - c.lower[j])
			if ctl.bland && (q < 0 || j < q) || !ctl.bland && a > size {
				size, q = a, j
			}
		}
		slope -= fall
		if slope <= primalTol || ctl.bland {
			c.candidates = c.candidates[:len(c.candidates)-len(rest)]
			return int(q)
		}
		rest = rest[group:]
	}
	return -1
}

// applyFlips moves the flipped variables to their other bound.
func (c *core) applyFlips() {
	if len(c.candidates) == 0 {
		return
	}
	clear(c.flip)
	for _, j := range c.candidates {
		old := c.x[j]
		if c.place[j] == AtLower {
			c.place[j], c.x[j] = AtUpper, c.upper[j]
		} else {
			c.place[j], c.x[j] = AtLower, c.lower[j]
		}
		move := c.x[j] - old
		if int(j) >= c.n {
			c.flip[int(j)-c.n] += move
			continue
		}
		index, value := c.a.column(int(j))
		for t, i := range index {
			c.flip[i] -= move * value[t]
		}
	}
	c.factor.ftran(c.flip, false)
	for i, v := range c.flip {
		if v != 0 {
			c.x[c.head[i]] += v
		}
	}
}

// shiftWrong shifts the cost of every variable whose reduced cost the step took
// to the wrong side of zero, unless it is to be flipped.
func (c *core) shiftWrong() {
	for _, j := range c.candidates {
		c.place[j] ^= 1 // stand on the other bound for the test
	}
	for _, j := range c.alphaList {
		d := c.d[j]
		wrong := false
		switch c.place[j] {
		case AtLower:
			wrong = d < 0
		case AtUpper:
			wrong = d > 0
		case AtZero:
			wrong = d != 0
		}
		if wrong && c.lower[j] != c.upper[j] {
			c.cost[j] -= d
			c.d[j] = 0
			c.shifted = true
		}
	}
	for _, j := range c.candidates {
		c.place[j] ^= 1
	}
}

// updateWeights updates the dual steepest edge weights for a pivot in position
// r with the column in spike and the row in rho.
// Forrest and Goldfarb (1992), Steepest-edge simplex algorithms for linear
// programming, Mathematical Programming 57.
func (c *core) updateWeights(r int) {
	copy(c.tau, c.rho)
	c.factor.ftran(c.tau, false)
	w, pivot := c.weight[r], c.spike[r]
	for i, v := range c.spike {
		if v == 0 || i == r {
			continue
		}
		t := v / pivot
		c.weight[i] = max(c.weight[i]+t*(t*w-2*c.tau[i]), minWeight)
	}
	c.weight[r] = max(w/(pivot*pivot), minWeight)
}

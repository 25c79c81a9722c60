package simplex

import "math"

// perturbCosts moves the reduced costs of all non-basic variables away from
// zero by small pseudo-random amounts, so that ties in the ratio test end.
func (c *core) perturbCosts() {
	for k, v := range c.place {
		by := perturbation * (1 + math.Abs(c.trueCost[k])) * chance(k, 0)
		switch {
		case v == Basic || v == AtZero || c.lower[k] == c.upper[k]:
			continue
		case v == AtUpper:
			by = -by
		}
		c.cost[k] += by
		c.d[k] += by
	}
	c.shifted = true
}

// widenBounds moves the bounds of all basic variables out by small
// pseudo-random amounts, so that ties in the ratio test end.
func (c *core) widenBounds() {
	for i, k := range c.head {
		c.lower[k] -= perturbation * (1 + math.Abs(c.lower[k])) * chance(int(k), 1)
		c.upper[k] += perturbation * (1 + math.Abs(c.upper[k])) * chance(int(k), 2)
		c.measure(i)
	}
	c.widened = true
}

// restore drops what was done to costs and bounds; where there was anything, all values
// are computed afresh.
func (c *core) restore() {
	widened := c.widened
	if !c.unperturb() {
		return
	}
	if widened {
		c.settle()
	}
	c.refresh(false)
}

// unperturb brings back the true costs and bounds, and reports whether others were in use.
func (c *core) unperturb() bool {
	if !c.shifted && !c.widened {
		return false
	}
	copy(c.cost, c.trueCost)
	copy(c.lower, c.trueLower)
	copy(c.upper, c.trueUpper)
	c.shifted, c.widened = false, false
	return true
}

// chance returns a number in [1, 2) that depends on its arguments only.
func chance(k int, salt uint64) float64 {
	z := (uint64(k)+1)*0x9e3779b97f4a7c15 + salt*0xd1b54a32d192ed03
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	z ^= z >> 31
	return 1 + float64(z>>11)/(1<<53)
}

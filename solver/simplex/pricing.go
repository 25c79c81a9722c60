package simplex

// sharpenWeight sets the dual steepest edge weight of position r to its true
// value, the squared norm of the row in rho.
func (c dualMethod) sharpenWeight(r int) {
	w := 0.0
	for _, v := range c.rho {
		w += v * v
	}
	c.weight[r] = w
}

// updateWeights updates the dual steepest edge weights for a pivot in position
// r with the column in spike and the row in rho.
//
// J. J. Forrest, D. Goldfarb (1992), Steepest-edge simplex algorithms for
// linear programming, Mathematical Programming 57.
func (c dualMethod) updateWeights(r int) {
	tau := c.tau
	copy(tau, c.rho)
	c.factor.ftran(tau, false)
	w, pivot := c.weight[r], c.spike[r]
	weight := c.weight[:len(tau)]
	for i, v := range c.spike {
		if v == 0 {
			continue
		}
		t := v / pivot
		weight[i] = max(weight[i]+t*(t*w-2*tau[i]), minWeight)
	}
	weight[r] = max(w/(pivot*pivot), minWeight)
}

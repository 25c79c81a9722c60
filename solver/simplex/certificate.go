package simplex

import "math"

// Tolerances of the certificates, in the program's own terms. A row or bound
// may be missed by residualTol times one plus its size; a reduced cost by
// residualTol times one plus the largest cost.
const residualTol = 1e-6

// certify measures an optimal point against the original rows; what misses a
// tolerance becomes Numerical.
func (s *Solver) certify(r *Result) {
	n := s.a.cols
	top := 0.0
	for _, c := range s.cost {
		top = max(top, math.Abs(c))
	}
	check := func(k int, x, d float64) {
		lo, up := s.lower[k], s.upper[k]
		r.PrimalResidual = max(r.PrimalResidual, (lo-x)/(1+math.Abs(lo)), (x-up)/(1+math.Abs(up)))
		d *= s.sense
		// d > 0 wants x at lower, d < 0 at upper.
		if d > 0 {
			if math.IsInf(lo, -1) {
				r.DualResidual = max(r.DualResidual, d/(1+top))
			} else {
				r.Complementarity = max(r.Complementarity, d*math.Abs(x-lo))
			}
		} else if d < 0 {
			if math.IsInf(up, 1) {
				r.DualResidual = max(r.DualResidual, -d/(1+top))
			} else {
				r.Complementarity = max(r.Complementarity, -d*math.Abs(up-x))
			}
		}
	}
	for j, x := range r.X {
		check(j, x, r.Reduced[j])
	}
	for i, x := range r.RowValue {
		check(n+i, x, r.Dual[i])
	}
	if r.PrimalResidual > residualTol || r.DualResidual > residualTol || r.Complementarity > residualTol*(1+math.Abs(r.Value)) {
		r.Status = Numerical
		r.Why = "the residuals of the original rows are too large"
	}
}

// bound sets a valid dual bound from the duals of r, if there is one.
func (s *Solver) bound(r *Result) {
	b := s.offset * s.sense
	n := s.a.cols
	y := make([]float64, s.a.rows)
	for i, v := range r.Dual {
		v *= s.sense
		at := s.lower[n+i]
		if v < 0 {
			at = s.upper[n+i]
		}
		if v == 0 || math.IsInf(at, 0) {
			continue
		}
		y[i] = v
		b += v * at
	}
	for j := range n {
		d := s.sense * s.cost[j]
		size := math.Abs(d)
		index, value := s.a.column(j)
		for t, i := range index {
			d -= value[t] * y[i]
			size += math.Abs(value[t] * y[i])
		}
		at := s.lower[j]
		if d < 0 {
			at = s.upper[j]
		}
		if math.IsInf(at, 0) {
			if math.Abs(d) <= 1e-9*(1+size) {
				continue
			}
			return
		}
		b += d * at
	}
	r.Bound, r.HasBound = s.sense*b, true
}

// farkas returns the ray of the row in rho if it proves infeasibility.
func (s *Solver) farkas() ([]float64, bool) {
	ray := make([]float64, s.a.rows)
	for i, v := range s.core.rho {
		ray[i] = v * s.scale.row[i]
	}
	for range 2 {
		if s.proves(ray) {
			return ray, true
		}
		for i := range ray {
			ray[i] = -ray[i]
		}
	}
	return nil, false
}

// proves reports whether the most that Σ y·A·x reaches over the column bounds
// is less than the least of Σ y·r over the row bounds.
func (s *Solver) proves(y []float64) bool {
	most, least, size := 0.0, 0.0, 0.0
	n := s.a.cols
	for i, v := range y {
		if v == 0 {
			continue
		}
		at := s.lower[n+i]
		if v < 0 {
			at = s.upper[n+i]
		}
		if math.IsInf(at, 0) {
			if math.Abs(v) < 1e-11 {
				y[i] = 0
				continue
			}
			return false
		}
		least += v * at
		size += math.Abs(v * at)
	}
	for j := range n {
		g, mag := 0.0, 0.0
		index, value := s.a.column(j)
		for t, i := range index {
			g += value[t] * y[i]
			mag += math.Abs(value[t] * y[i])
		}
		if math.Abs(g) <= 1e-13*mag {
			continue
		}
		at := s.upper[j]
		if g < 0 {
			at = s.lower[j]
		}
		if math.IsInf(at, 0) {
			return false
		}
		most += g * at
		size += math.Abs(g * at)
	}
	return least-most > 1e-12*size
}

// direction returns the ray of the column in spike if it goes on for ever.
func (s *Solver) direction() ([]float64, bool) {
	c := s.core
	q := int(c.candidates[0])
	n := s.a.cols
	ray := make([]float64, n)
	dir := 1.0
	if c.d[q] > 0 {
		dir = -1
	}
	for i, k := range c.head {
		if int(k) < n {
			ray[k] = -dir * c.spike[i] * s.scale.col[k]
		}
	}
	if q < n {
		ray[q] = dir * s.scale.col[q]
	}
	gain := 0.0
	act := make([]float64, s.a.rows)
	size := make([]float64, s.a.rows)
	top := 0.0
	for _, v := range ray {
		top = max(top, math.Abs(v))
	}
	for j, v := range ray {
		if math.Abs(v) <= 1e-12*top {
			ray[j] = 0
			continue
		}
		if v > 0 && !math.IsInf(s.upper[j], 1) || v < 0 && !math.IsInf(s.lower[j], -1) {
			return nil, false
		}
		gain += s.sense * s.cost[j] * v
		index, value := s.a.column(j)
		for t, i := range index {
			act[i] += value[t] * v
			size[i] += math.Abs(value[t] * v)
		}
	}
	for i, v := range act {
		tol := 1e-9 * size[i]
		if v > tol && !math.IsInf(s.upper[n+i], 1) || v < -tol && !math.IsInf(s.lower[n+i], -1) {
			return nil, false
		}
	}
	return ray, gain < 0
}

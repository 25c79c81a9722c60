package simplex

import "math"

// Tolerances of the certificates, in the program's own terms.
const (
	// A row or bound may be missed by this times one plus its size, and a
	// reduced cost by this times one plus the largest cost. The sum of
	// |reduced cost · distance from the bound it wants| may be this times one
	// plus the objective.
	residualTol = 1e-6
	// A sum this small relative to the sizes of its terms is rounding.
	roundingTol = 1e-9
)

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
		if x < lo {
			r.PrimalResidual = max(r.PrimalResidual, (lo-x)/(1+math.Abs(lo)))
		} else if x > up {
			r.PrimalResidual = max(r.PrimalResidual, (x-up)/(1+math.Abs(up)))
		}
		d *= s.sense
		at := lo
		if d < 0 {
			at = up
		}
		switch {
		case d == 0:
		case math.IsInf(at, 0):
			r.DualResidual = max(r.DualResidual, math.Abs(d)/(1+top))
		default:
			r.Complementarity += math.Abs(d * (x - at))
		}
	}
	for j, x := range r.X {
		check(j, x, r.Reduced[j])
	}
	for i, x := range r.RowValue {
		check(n+i, x, r.Dual[i])
	}
	if !(r.PrimalResidual <= residualTol && r.DualResidual <= residualTol &&
		r.Complementarity <= residualTol*(1+math.Abs(r.Value))) {
		r.Status = Numerical
		r.Why = "the residuals of the original rows are too large"
	}
}

// farkas returns the ray that the scaled duals y give, if it or its opposite
// proves infeasibility on the original rows.
func (s *Solver) farkas(y []float64) ([]float64, bool) {
	ray := make([]float64, s.a.rows)
	for i, v := range y {
		ray[i] = v * s.scale.row[i]
	}
	for range 2 {
		if s.proves(ray) {
			return ray, true
		}
		for i, v := range y {
			ray[i] = -v * s.scale.row[i]
		}
	}
	return nil, false
}

// proves reports whether the most that Σ y·A·x reaches over the column bounds
// is less than the least of Σ y·r over the row bounds. Multipliers that lean on
// a row bound that does not exist are set to zero if they are small.
func (s *Solver) proves(y []float64) bool {
	most, least, size, top := 0.0, 0.0, 0.0, 0.0
	n := s.a.cols
	for _, v := range y {
		top = max(top, math.Abs(v))
	}
	for i, v := range y {
		if v == 0 {
			continue
		}
		at := s.lower[n+i]
		if v < 0 {
			at = s.upper[n+i]
		}
		if math.IsInf(at, 0) {
			if math.Abs(v) > roundingTol*top {
				return false
			}
			y[i] = 0
			continue
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
		at := s.upper[j]
		if g < 0 {
			at = s.lower[j]
		}
		if math.IsInf(at, 0) {
			if math.Abs(g) > 1e-12*mag {
				return false
			}
			continue
		}
		most += g * at
		size += mag * math.Abs(at)
	}
	return least-most > 1e-13*size
}

// direction returns the ray along which the primal method found no end, per
// column, if it is one on the original rows.
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

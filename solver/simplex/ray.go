package simplex

import "math"

// proof returns the ray that duals, one per row in scaled terms, or their
// opposite give, if it proves on the original rows that no point is feasible.
func (s *Solver) proof(y []float64) (ray []float64, proven bool) {
	for _, sign := range []float64{1, -1} {
		if ray = s.rowRay(y, sign); s.proves(ray) {
			return ray, true
		}
	}
	return nil, false
}

// rowRay returns scaled duals times sign in the program's own terms, without
// those that lean on a row bound that does not exist or are rounding.
func (s *Solver) rowRay(y []float64, sign float64) []float64 {
	ray := make([]float64, len(y))
	top := largest(y)
	for i, v := range y {
		if math.Abs(v) > dropTol*top && !math.IsInf(s.leastAt(s.a.cols+i, sign*v), 0) {
			ray[i] = sign * v * s.scale.row[i]
		}
	}
	return ray
}

// leastAt returns the bound of variable k at which v times it is least.
func (s *Solver) leastAt(k int, v float64) float64 {
	if v < 0 {
		return s.upper[k]
	}
	return s.lower[k]
}

// proves reports whether y is a Farkas ray: the most that y·A·x reaches over the
// column bounds is less than the least that y·r reaches over the row bounds, by
// more than the rounding of these sums can be and more than the rounding of the
// figures they are made of is likely to be.
func (s *Solver) proves(y []float64) bool {
	const unit = 0x1p-52
	n := s.a.cols
	inSum := max(unit*float64(n+len(y)+2), marginTol)
	gap, slack := 0.0, 0.0 // least − most, and what it must exceed
	for i, v := range y {
		if v != 0 {
			term := v * s.leastAt(n+i, v)
			gap += term
			slack += math.Abs(term) * inSum
		}
	}
	for j := range n {
		g, size := 0.0, 0.0
		index, value := s.a.column(j)
		for t, i := range index {
			v := value[t] * y[i]
			g += v
			size += math.Abs(v)
		}
		at := s.leastAt(j, -g)
		if math.IsInf(at, 0) {
			if math.Abs(g) > cancelTol*size {
				return false
			}
			continue
		}
		gap -= g * at
		slack += math.Abs(at) * (size*unit*float64(len(index)+1) + math.Abs(g)*inSum)
	}
	return gap > slack
}

// unbounded is the answer for the direction the primal method found no end in:
// Unbounded if it is one on the original rows and the point is feasible, else
// Numerical.
func (s *Solver) unbounded() Result {
	ray := s.direction()
	r := Result{Status: Unbounded, Ray: ray}
	s.fill(&r)
	r.Bound, r.HasBound = 0, false
	s.primalResidual(&r)
	if !s.endless(ray) || r.PrimalResidual > residualTol {
		return Result{Why: "an unbounded direction could not be verified"}
	}
	return r
}

// direction returns the direction of the variable in candidates along spike,
// per column in the program's own terms, without rounding.
func (s *Solver) direction() []float64 {
	c := s.core
	n := s.a.cols
	ray := make([]float64, n)
	q := int(c.candidates[0])
	dir := 1.0
	if c.d[q] > 0 {
		dir = -1
	}
	top := max(1, largest(c.spike))
	for i, k := range c.head {
		if v := c.spike[i]; int(k) < n && math.Abs(v) > dropTol*top {
			ray[k] = -dir * v * s.scale.col[k]
		}
	}
	if q < n {
		ray[q] = dir * s.scale.col[q]
	}
	return ray
}

// endless reports whether any multiple of ray can be added to a feasible point,
// and improves it.
func (s *Solver) endless(ray []float64) bool {
	n, m := s.a.cols, s.a.rows
	rate, size := make([]float64, m), make([]float64, m)
	gain, gainSize := 0.0, 0.0
	for j, v := range ray {
		if v == 0 {
			continue
		}
		if !math.IsInf(s.leastAt(j, -v), 0) {
			return false
		}
		gain += s.sense * s.cost[j] * v
		gainSize += math.Abs(s.cost[j] * v)
		index, value := s.a.column(j)
		for t, i := range index {
			rate[i] += value[t] * v
			size[i] += math.Abs(value[t] * v)
		}
	}
	for i, v := range rate {
		if math.Abs(v) > rateTol*size[i] && !math.IsInf(s.leastAt(n+i, -v), 0) {
			return false
		}
	}
	return gain < -rateTol*gainSize
}

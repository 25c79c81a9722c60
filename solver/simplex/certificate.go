package simplex

import "math"

// fill writes the point, the duals and the bound they prove, in the program's
// own terms, all computed from the original rows.
//
// The bound is that of weak duality: for any y,
//
//	c·x = y·(A·x) + (c − Aᵀ·y)·x ≥ Σ_i min y_i·r_i + Σ_j min d_j·x_j
//
// over the bounds of rows and columns. A multiplier that leans on a row bound
// that does not exist is set to zero first; a reduced cost that leans on a
// column bound that does not exist spoils it, unless it is within the tolerance
// that an optimum has too.
//
// A. Neumaier, O. Shcherbina (2004), Safe bounds in linear and mixed-integer
// linear programming, Mathematical Programming 99.
func (s *Solver) fill(r *Result) {
	c := s.core
	n, m := s.a.cols, s.a.rows
	block := make([]float64, 2*(n+m))
	x, reduced, activity, y := block[:n:n], block[n:2*n:2*n], block[2*n:2*n+m:2*n+m], block[2*n+m:]
	c.duals(c.tau)
	bound := s.sense * s.offset
	for i, v := range c.tau {
		v *= s.scale.row[i] / s.scale.cost
		at := s.leastAt(n+i, v)
		if v == 0 || math.IsInf(at, 0) {
			continue
		}
		y[i] = v
		bound += v * at
	}
	value := s.offset
	r.HasBound = true
	for j := range n {
		v := c.x[j] * s.scale.col[j]
		d := s.sense * s.cost[j]
		rows, entries := s.a.column(j)
		entries = entries[:len(rows)]
		if v == 0 {
			for t, i := range rows {
				d -= entries[t] * y[i]
			}
		} else {
			value += s.cost[j] * v
			for t, i := range rows {
				activity[i] += entries[t] * v
				d -= entries[t] * y[i]
			}
		}
		x[j], reduced[j] = v, s.sense*d
		if at := s.leastAt(j, d); !math.IsInf(at, 0) {
			bound += d * at
		} else if math.Abs(d)*s.scale.col[j]*s.scale.cost > dualTol {
			r.HasBound = false
		}
	}
	if r.HasBound {
		r.Bound = s.sense * bound
	}
	if s.sense < 0 {
		for i := range y {
			y[i] = -y[i]
		}
	}
	r.Value, r.X, r.Reduced, r.RowValue, r.Dual = value, x, reduced, activity, y
}

// certify measures an optimal point against the original rows; what misses a
// tolerance becomes Numerical.
func (s *Solver) certify(r *Result) {
	n := s.a.cols
	s.primalResidual(r)
	top := largest(s.cost)
	complement := func(k int, x, d float64) {
		if d == 0 {
			return
		}
		if at := s.leastAt(k, s.sense*d); math.IsInf(at, 0) {
			r.DualResidual = max(r.DualResidual, math.Abs(d)/(1+top))
		} else {
			r.Complementarity += math.Abs(d * (x - at))
		}
	}
	for j, x := range r.X {
		complement(j, x, r.Reduced[j])
	}
	for i, x := range r.RowValue {
		complement(n+i, x, r.Dual[i])
	}
	// Written so that a residual that is not a number fails too.
	if !(r.PrimalResidual <= residualTol && r.DualResidual <= residualTol &&
		r.Complementarity <= residualTol*(1+math.Abs(r.Value))) {
		r.Status = Numerical
		r.Why = "the residuals of the original rows are too large"
	}
}

// polished reports whether the residuals of an optimum are as small as they
// usually are.
func (s *Solver) polished(r *Result) bool {
	return r.PrimalResidual <= polishedTol && r.DualResidual <= polishedTol &&
		r.Complementarity <= polishedTol*(1+math.Abs(r.Value))
}

// primalResidual sets the largest relative violation of a bound or row.
func (s *Solver) primalResidual(r *Result) {
	worst := 0.0
	miss := func(k int, x float64) {
		if lo := s.lower[k]; x < lo {
			worst = max(worst, (lo-x)/(1+math.Abs(lo)))
		} else if up := s.upper[k]; x > up {
			worst = max(worst, (x-up)/(1+math.Abs(up)))
		} else if x != x {
			worst = math.Inf(1)
		}
	}
	for j, x := range r.X {
		miss(j, x)
	}
	for i, x := range r.RowValue {
		miss(s.a.cols+i, x)
	}
	r.PrimalResidual = worst
}

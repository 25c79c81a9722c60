package simplex

import (
	"context"
	"math"
)

// Solve solves the program from the current basis within lim and until ctx is
// cancelled, and certifies the answer on the original rows.
func (s *Solver) Solve(ctx context.Context, lim Limits) Result {
	s.build()
	for k := range s.lower {
		if s.lower[k] > s.upper[k] {
			return s.crossed(k)
		}
	}
	c := s.core
	start := c.iterations
	ctl := &control{ctx: ctx, last: forever}
	if lim.Iterations > 0 {
		ctl.last = start + lim.Iterations
	}
	var proof []float64
	ctl.infeasible = func(y []float64) bool {
		ray, ok := s.farkas(y)
		proof = ray
		return ok
	}
	if lim.HasCutoff {
		ctl.passed = s.cutoff(lim.Cutoff)
	}
	c.restore()
	c.needFactor()
	c.settle()
	c.refresh(false)

	r := s.attempt(ctl)
	r.Iterations = c.iterations - start
	if r.Status == Infeasible {
		r.Ray = proof
	}
	return r
}

// rounds is how often the two methods may take turns.
const rounds = 20

// attempt lets the two methods take turns: the dual one reaches a feasible
// point, the primal one optimality.
func (s *Solver) attempt(ctl *control) Result {
	c := s.core
	for range rounds {
		c.makeDualFeasible()
		switch c.dual(ctl) {
		case noPivot:
			return Result{Status: Infeasible}
		case stopped:
			return s.limit(ctl)
		case broken:
			return Result{Why: "no accurate pivot was left"}
		}
		if c.restore() {
			c.refresh(false)
		}
		if c.wrongCosts() > 0 {
			switch c.primal(ctl) {
			case noPivot:
				if r, ok := s.unbounded(); ok {
					return r
				}
				return Result{Why: "an unbounded direction could not be verified"}
			case noPoint:
				return Result{Status: Infeasible}
			case stopped:
				return s.limit(ctl)
			case broken:
				return Result{Why: "no accurate pivot was left"}
			}
			if c.restore() {
				c.refresh(false)
			}
		}
		if c.infeasible() > 0 {
			continue
		}
		r := Result{Status: Optimal}
		s.fill(&r)
		s.certify(&r)
		if r.Status == Optimal || c.factor.updates() == 0 {
			return r
		}
		c.refresh(true)
	}
	return Result{Why: "the two methods kept taking turns"}
}

// limit is the answer when a limit stopped the solve.
func (s *Solver) limit(ctl *control) Result {
	r := Result{Status: Limit, Why: ctl.why}
	s.fill(&r)
	return r
}

// unbounded is the answer for the direction the primal method ended on, if it
// can be verified.
func (s *Solver) unbounded() (Result, bool) {
	ray, ok := s.direction()
	if !ok {
		return Result{}, false
	}
	r := Result{Status: Unbounded}
	s.fill(&r)
	r.Ray, r.HasBound = ray, false
	return r, true
}

// cutoff returns the test of the dual method whether the objective is proven to
// be beyond the cutoff. The objective of the method itself may rest on shifted
// costs; so when it passes, the bound is computed from the original rows, and
// when that fails, not again for a while.
func (s *Solver) cutoff(cutoff float64) func() bool {
	c := s.core
	next := 0
	target := (cutoff - s.offset) * s.sense * s.scale.cost
	return func() bool {
		if c.iterations < next {
			return false
		}
		value := 0.0
		for k, d := range c.d {
			value += d * c.x[k]
		}
		if value < target {
			return false
		}
		next = c.iterations + 8
		var r Result
		s.fill(&r)
		return r.HasBound && s.sense*(r.Bound-cutoff) >= 0
	}
}

// crossed is the answer when the bounds of variable k cross.
func (s *Solver) crossed(k int) Result {
	r := Result{Status: Infeasible, Ray: make([]float64, s.a.rows), Why: "the bounds of a column cross"}
	if k >= s.a.cols {
		r.Ray[k-s.a.cols] = 1
		r.Why = "the bounds of a row cross"
	}
	return r
}

// fill writes the point, the duals and the bound they prove, in the program's
// own terms.
//
// The bound is that of weak duality: for any y,
//
//	c·x = y·(A·x) + (c − Aᵀ·y)·x ≥ Σ_i min y_i·r_i + Σ_j min d_j·x_j
//
// over the bounds of rows and columns. A multiplier that leans on a row bound
// that does not exist is set to zero first; a reduced cost that leans on a
// column bound that does not exist spoils it, unless it is within the tolerance
// that an optimum has too.
func (s *Solver) fill(r *Result) {
	c := s.core
	n, m := s.a.cols, s.a.rows
	block := make([]float64, 2*(n+m))
	r.X, r.Reduced, r.RowValue, r.Dual = block[:n:n], block[n:2*n:2*n], block[2*n:2*n+m:2*n+m], block[2*n+m:]
	c.duals(c.tau)
	y := r.Dual
	bound := s.sense * s.offset
	for i, v := range c.tau {
		v *= s.scale.row[i] / s.scale.cost
		at := s.lower[n+i]
		if v < 0 {
			at = s.upper[n+i]
		}
		if v == 0 || math.IsInf(at, 0) {
			continue
		}
		y[i] = v
		bound += v * at
	}
	r.Value = s.offset
	r.HasBound = true
	for j := range n {
		x := c.x[j] * s.scale.col[j]
		r.X[j] = x
		r.Value += s.cost[j] * x
		d := s.sense * s.cost[j]
		index, value := s.a.column(j)
		value = value[:len(index)]
		for t, i := range index {
			v := value[t]
			r.RowValue[i] += v * x
			d -= v * y[i]
		}
		r.Reduced[j] = s.sense * d
		at := s.lower[j]
		if d < 0 {
			at = s.upper[j]
		}
		if !math.IsInf(at, 0) {
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
}

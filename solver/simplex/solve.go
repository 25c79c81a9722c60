package simplex

import (
	"context"
	"math"
)

// rounds is how often the two methods may take turns before a solve is given up
// as numerical.
const rounds = 20

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
	ctl := &control{ctx: ctx, iterations: lim.Iterations, limited: lim.Iterations > 0, pivotTol: pivotTol}
	c.restoreCost()
	c.needFactor()
	c.settle()
	c.refresh(false)
	var end Result
	why := "the two methods kept taking turns"
turns:
	for range rounds {
		c.makeDualFeasible()
		switch c.dual(ctl) {
		case noPivot:
			if ray, ok := s.farkas(); ok {
				end = Result{Status: Infeasible, Ray: ray}
				why = ""
			} else {
				why = "an infeasibility could not be verified"
			}
			break turns
		case stopped:
			end = Result{Status: Limit}
			why = ctl.why
			break turns
		case broken:
			why = "pivots lost their accuracy"
			break turns
		}
		if c.shifted {
			c.restoreCost()
			c.refresh(false)
		}
		switch c.primal(ctl) {
		case noPivot:
			if ray, ok := s.direction(); ok {
				end = Result{Status: Unbounded, Ray: ray}
				why = ""
				s.fill(&end)
			} else {
				why = "an unbounded direction could not be verified"
			}
			break turns
		case stopped:
			end = Result{Status: Limit}
			why = ctl.why
			break turns
		case broken:
			why = "pivots lost their accuracy"
			break turns
		}
		if c.chooseRow(false) >= 0 {
			continue
		}
		end = Result{Status: Optimal}
		why = ""
		break
	}
	end.Iterations = c.iterations - start
	end.Why = why
	if end.Status == Optimal || end.Status == Limit {
		s.fill(&end)
		s.bound(&end)
	}
	if end.Status == Optimal {
		s.certify(&end)
	}
	return end
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

// fill writes the point and the duals of the core in the program's own terms.
func (s *Solver) fill(r *Result) {
	c := s.core
	n, m := s.a.cols, s.a.rows
	r.X, r.Reduced = make([]float64, n), make([]float64, n)
	r.RowValue, r.Dual = make([]float64, m), make([]float64, m)
	y := c.tau
	c.duals(c.cost, y)
	for i := range m {
		r.Dual[i] = s.sense * y[i] * s.scale.row[i] / s.scale.cost
	}
	clear(y)
	r.Value = s.offset
	for j := range n {
		f := s.scale.col[j]
		x := c.x[j] * f
		switch c.place[j] {
		case AtLower:
			x = s.lower[j]
		case AtUpper:
			x = s.upper[j]
		}
		r.X[j] = x
		r.Value += s.cost[j] * x
		d := s.cost[j]
		index, value := s.a.column(j)
		for t, i := range index {
			r.RowValue[i] += value[t] * x
			d -= value[t] * r.Dual[i]
		}
		r.Reduced[j] = d
	}
	_ = math.Inf
}

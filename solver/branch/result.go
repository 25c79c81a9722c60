package branch

import (
	"context"
	"math"

	"rationwright/solver/simplex"
)

// rootIterations bounds the solve of the relaxation on the original rows; it
// starts from the basis of the presolved one.
const rootIterations = 50000

// result makes the result of a search.
func (s *search) result(status Status, why string) Result {
	b := s.bound()
	switch status {
	case Infeasible:
		b = math.Inf(1)
	case Unbounded:
		b = math.Inf(-1)
	}
	r := Result{Status: status, Nodes: s.nodes, Work: s.spent(), Why: why, Bound: s.outside(b),
		Gap: math.Inf(1), ByClock: s.byClock, RootBound: s.outside(math.Inf(-1))}
	if s.best != nil {
		r.X, r.Value = s.best.x, s.outside(s.best.value)
		if status != Unbounded {
			r.Gap = s.gap.of(s.program, s.best.value, b)
		}
	}
	if debugSearch != nil {
		debugSearch(s)
	}
	s.addRoot(&r)
	if s.opt.Audit {
		r.trail = s.newTrail()
	}
	s.report()
	return r
}

// addRoot solves the relaxation of the original rows and bounds, without cuts,
// for its bound, duals and point, or for the ray that proves it infeasible.
func (s *search) addRoot(r *Result) {
	if r.Status == Unbounded || r.Status == Numerical && s.rootBasis == nil || r.Status == Limit && s.rootBasis == nil {
		return
	}
	lp, err := simplex.New(s.orig)
	if err != nil {
		return
	}
	if s.rootBasis != nil {
		b := append(append(simplex.Basis(nil), s.rootBasis.cols...), s.rootBasis.rows[:s.m]...)
		if lp.SetBasis(b) != nil {
			lp.SetSlackBasis()
		}
	}
	// The caller's clock may have run out; this is short and has its own limit.
	root := lp.Solve(context.Background(), simplex.Limits{Iterations: rootIterations})
	switch root.Status {
	case simplex.Optimal:
		r.RootBound, r.RootDual, r.RootReduced, r.RootX = root.Value, root.Dual, root.Reduced, root.X
		if root.HasBound {
			r.RootBound = root.Bound
		}
	case simplex.Infeasible:
		if r.Status == Infeasible {
			r.Ray = root.Ray
		}
	}
}

var debugSearch func(*search)

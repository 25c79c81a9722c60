package branch

import (
	"context"
	"math"
	"slices"
	"time"

	"rationwright/solver/simplex"
)

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
	s.addRoot(&r)
	if s.opt.Audit {
		r.trail = s.newTrail()
	}
	s.report()
	return r
}

// rootGrace is how long the root's relaxation may take when the time is up: a part
// of the second in which a command must end then.
const rootGrace = 200 * time.Millisecond

// addRoot adds the relaxation of the original rows and bounds, without cuts: its
// bound, duals and point, or the ray that proves it infeasible. Where presolve
// took nothing from the relaxation, the root's own solution serves.
func (s *search) addRoot(r *Result) {
	if s.rootBasis == nil && r.Status != Infeasible || r.Status == Unbounded {
		return
	}
	if s.rootBasis != nil && s.ownRoot(r) {
		return
	}
	lp, err := simplex.New(s.orig)
	if err != nil {
		return
	}
	if s.rootBasis != nil {
		b := append(append(simplex.Basis(nil), s.rootBasis.Cols...), s.rootBasis.Rows[:s.m]...)
		if lp.SetBasis(b) != nil {
			lp.SetSlackBasis()
		}
	}
	// The caller's time may be up; this is short and has limits of its own.
	ctx := s.ctx
	if ctx.Err() != nil {
		var stop context.CancelFunc
		ctx, stop = context.WithTimeout(context.WithoutCancel(ctx), rootGrace)
		defer stop()
	}
	root := lp.Solve(ctx, simplex.Limits{Iterations: rootIterations})
	switch root.Status {
	case simplex.Optimal:
		r.RootBound, r.RootDual, r.RootReduced = root.Value, root.Dual, root.Reduced
		if root.HasBound {
			r.RootBound = root.Bound
		}
	case simplex.Infeasible:
		if r.Status == Infeasible {
			r.Ray = root.Ray
		}
	}
}

// ownRoot fills the root's fields from the presolved relaxation if its duals
// prove as much on the original rows and bounds as there, and says whether.
func (s *search) ownRoot(r *Result) bool {
	for k := range s.log {
		if s.log[k].kind == coefficient {
			return false
		}
	}
	g := newProgram(s.orig)
	g.impliedLower, g.impliedUpper = s.impliedLower, s.impliedUpper
	plain := &space{program: g}
	rows := make([]int, s.m)
	duals := make([]float64, s.m)
	for k, i := range s.rootPlain.rows {
		duals[i] = s.rootPlain.duals[k]
	}
	for i := range rows {
		rows[i] = i
	}
	reduced := make([]float64, s.n)
	plain.price(rows, duals, false, reduced)
	bound := plain.sumUp(rows, duals, g.lower, g.upper, reduced)
	if !agree(bound, s.rootPlain.bound) {
		return false
	}
	for i := range duals {
		duals[i] *= s.sign
	}
	for j := range reduced {
		reduced[j] *= s.sign
	}
	r.RootBound, r.RootDual, r.RootReduced = s.outside(bound), duals, reduced
	return true
}

// newTrail keeps what the search went through; open parts count as leaves with
// the bounds they have.
func (s *search) newTrail() *trail {
	t := &trail{log: s.log, cuts: s.cuts, root: s.rootProof, value: math.Inf(1), step: s.step}
	t.leaves = append(t.leaves, s.leaves...)
	for _, n := range slices.Concat(s.open, s.stuck) {
		t.leaves = append(t.leaves, leaf{n.box, n.proof, n.bound})
	}
	if s.best != nil {
		t.value = s.best.value
	}
	return t
}

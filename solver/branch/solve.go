package branch

import (
	"context"
	"math"
	"time"

	"rationwright/solver/linear"
	"rationwright/solver/simplex"
)

// Solve finds the best integer point of p within the options, and says how far
// from the optimum it can be. It never changes p.
//
// The same p, options and number of workers give the same result unless ctx stops
// the search, by its deadline or by being cancelled; then ByClock is set and the
// result holds the best point and bound so far.
func Solve(ctx context.Context, p *linear.Problem, opt Options) Result {
	if opt.Until == nil {
		return solve(ctx, p, opt)
	}
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	show, ended := opt.Progress, false
	opt.Progress = func(now Progress) {
		if ended = ended || opt.Until(now); ended {
			stop()
		}
		if show != nil {
			show(now)
		}
	}
	found := solve(ctx, p, opt)
	found.ByClock = found.ByClock && !ended
	return found
}

func solve(ctx context.Context, p *linear.Problem, opt Options) Result {
	if why := sound(p); why != "" {
		return Result{Status: Numerical, Why: why, Gap: math.Inf(1)}
	}
	if opt.Workers <= 0 {
		opt.Workers = 2
	}
	s := &search{space: &space{program: newProgram(p)}, opt: opt, gap: newGapRule(opt), start: time.Now(),
		closed: math.Inf(1), floor: math.Inf(-1)}
	s.ctx = ctx
	status, why := s.run()
	return s.result(status, why)
}

// sound says what of p is not a number, "" if nothing.
func sound(p *linear.Problem) string {
	bad := func(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) }
	if bad(p.Offset) {
		return "the objective constant is not a number"
	}
	for _, r := range p.Rows {
		if math.IsNaN(r.Lower) || math.IsNaN(r.Upper) || math.IsInf(r.Lower, 1) || math.IsInf(r.Upper, -1) {
			return "a side of row " + r.Name + " is not a number"
		}
	}
	for _, c := range p.Cols {
		if bad(c.Cost) || math.IsNaN(c.Lower) || math.IsNaN(c.Upper) || math.IsInf(c.Lower, 1) || math.IsInf(c.Upper, -1) {
			return "the cost or a bound of column " + c.Name + " is not a number"
		}
		for k, e := range c.Entries {
			if bad(e.Value) {
				return "a coefficient of column " + c.Name + " is not a number"
			}
			if e.Row < 0 || e.Row >= len(p.Rows) || k > 0 && c.Entries[k-1].Row >= e.Row {
				return "the rows of column " + c.Name + " do not ascend or do not exist"
			}
		}
	}
	return ""
}

// run is the whole search: presolve, root relaxation, start, rounds.
func (s *search) run() (Status, string) {
	for _, c := range s.orig.Cols {
		if c.Lower > c.Upper {
			return Infeasible, "the bounds of column " + c.Name + " cross"
		}
	}
	if !s.presolve(s.ctx) {
		return Infeasible, "bounds and rows leave no integer point (presolve)"
	}
	s.findLocks()
	s.findVariableBounds()
	r, err := newRelaxation(s.space, nil, s.eager)
	if err != nil {
		return Numerical, err.Error()
	}
	if b := s.opt.Basis; b != nil && len(b.Cols) == s.n && len(b.Rows) == s.m {
		r.load(b)
	}
	out := r.solve(s.ctx, math.Inf(1), 0)
	s.spentEarly = r.work
	if out.status == simplex.Numerical { // once more from nothing
		if r, err = newRelaxation(s.space, nil, s.eager); err != nil {
			return Numerical, err.Error()
		}
		out = r.solve(s.ctx, math.Inf(1), 0)
		s.spentEarly += r.work
	}
	switch out.status {
	case simplex.Infeasible:
		if s.opt.Audit {
			s.leaves = append(s.leaves, leaf{proof: newCertificate(out.rows, out.duals, true), bound: math.Inf(1)})
		}
		return Infeasible, "the relaxation is infeasible"
	case simplex.Unbounded:
		return s.unbounded()
	case simplex.Limit:
		s.byClock = true
		s.floor = math.Max(s.floor, out.bound)
		return Limit, "stopped before the relaxation was solved"
	case simplex.Numerical:
		return Numerical, "the relaxation could not be solved"
	}
	s.rootBasis = r.basis()
	s.rootPlain.rows = append([]int(nil), out.rows...)
	s.rootPlain.duals = append([]float64(nil), out.duals...)
	s.rootPlain.x = append([]float64(nil), out.x...)
	s.rootPlain.bound = out.bound
	s.floor = s.roundUp(out.bound)
	s.startFrom(r)
	s.root(r, out)
	return s.rounds()
}

// unbounded decides a program whose relaxation is unbounded: with an integer
// point it is unbounded too (its data are rational), without one infeasible.
func (s *search) unbounded() (Status, string) {
	p := *s.orig
	p.Offset = 0
	p.Cols = append([]linear.Col(nil), s.orig.Cols...)
	p.ClearCosts()
	opt := s.opt
	opt.Progress, opt.Audit = nil, false
	r := solve(s.ctx, &p, opt)
	s.nodes, s.spentEarly = r.Nodes, s.spentEarly+r.Work
	s.byClock = r.ByClock
	switch {
	case r.X != nil:
		value, _ := Check(s.orig, r.X)
		s.best = &point{x: r.X, value: s.inside(value)}
		s.floor = math.Inf(-1)
		return Unbounded, "the relaxation is unbounded and an integer point exists"
	case r.Status == Infeasible:
		return Infeasible, r.Why
	}
	return r.Status, "the relaxation is unbounded; no integer point was found: " + r.Why
}

// startFrom takes the caller's starting point: as it is if it is feasible, else
// with its integers kept and the rest solved for.
func (s *search) startFrom(r *relaxation) {
	x := s.opt.Start
	if len(x) != s.n {
		return
	}
	for _, v := range x {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return
		}
	}
	if p := s.accept(x); p != nil {
		s.best = p
	}
	c := r.clone()
	if p := c.polish(s.ctx, x, math.Inf(1)); p != nil && (s.best == nil || p.value < s.best.value) {
		s.best = p
	}
	s.spentEarly += c.work
}

package simplex

import "context"

// Solve solves the program from the current basis within lim and until ctx is
// cancelled, and certifies the answer on the original rows. What it cannot
// certify it tries again by other ways before it says Numerical.
func (s *Solver) Solve(ctx context.Context, lim Limits) Result {
	s.build()
	for k, lower := range s.lower {
		if !isRange(lower, s.upper[k]) {
			return Result{Why: "a bound is not a number, or on the wrong side of infinity"}
		}
		if lower > s.upper[k] {
			return s.crossed(k)
		}
	}
	start := s.core.iterations
	ctl := s.control(ctx, lim)
	r := s.attempt(ctl, false)
	for _, try := range recoveries {
		if r.Status != Numerical {
			break
		}
		again := try(s, ctl)
		if again.Status != Numerical {
			r = again
		}
	}
	r.Iterations = s.core.iterations - start
	return r
}

// control returns the control of a solve from now on.
func (s *Solver) control(ctx context.Context, lim Limits) *control {
	ctl := &control{ctx: ctx, last: forever, blandAt: blandAfter * (s.core.n + s.core.m)}
	if lim.Iterations > 0 {
		ctl.last = s.core.iterations + lim.Iterations
	}
	if lim.HasCutoff {
		ctl.passed = s.cutoff(ctl, lim.Cutoff)
	}
	ctl.infeasible = func(y []float64) (proven bool) {
		ctl.ray, proven = s.proof(y)
		return proven
	}
	return ctl
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

// recoveries are the ways to solve again after numerical trouble, from the
// cheapest to the last resort.
var recoveries = []func(*Solver, *control) Result{
	// Fresh factor, nothing perturbed.
	func(s *Solver, ctl *control) Result {
		s.core.stale = true
		ctl.exact = true
		return s.attempt(ctl, false)
	},
	// From the slacks by the primal method.
	func(s *Solver, ctl *control) Result {
		s.core.setSlacks()
		ctl.exact = false
		return s.attempt(ctl, true)
	},
	// The same without scaling: the basis is handed back.
	func(s *Solver, ctl *control) Result {
		scale, core := s.scale, s.core
		s.scale = unit(s.a.rows, s.a.cols)
		s.core = newCore(&s.program, &s.scale)
		s.core.iterations = core.iterations
		r := s.attempt(ctl, true)
		core.iterations = s.core.iterations
		core.setPlaces(s.core.place)
		s.scale, s.core = scale, core
		return r
	},
}

// Turns of the two methods: after calmTurns nothing is perturbed any more,
// after maxTurns the attempt is given up.
const (
	calmTurns = 4
	maxTurns  = 12
)

// attempt lets the two methods take turns until one basis is both primal and
// dual feasible.
//
// The dual method starts unless the point is feasible already. It does so even
// if the costs are wrong, with shifted ones, unless primal asks for the other
// or the start is cold and most costs are zero: then every dual step ties with
// many others and the primal method needs a fraction of the iterations.
func (s *Solver) attempt(ctl *control, primal bool) Result {
	c := s.core
	ctl.stall, ctl.trouble, ctl.tries = stall{}, trouble{since: c.iterations}, 0
	c.start()
	primal = primal || c.flatCold()
	for turn := range maxTurns {
		ctl.exact = ctl.exact || turn >= calmTurns
		end := done
		switch {
		case c.infeasible() > 0 && !primal:
			c.makeDualFeasible()
			end = dualMethod{c}.run(ctl)
		case c.infeasible() > 0 || c.wrongCosts() > 0:
			end = primalMethod{c}.run(ctl)
		}
		switch end {
		case noPoint:
			return Result{Status: Infeasible, Ray: ctl.ray}
		case noEnd:
			c.restore()
			return s.unbounded()
		case stopped:
			return s.limit(ctl)
		case broken:
			return Result{Why: "no accurate pivot was left"}
		}
		primal = false
		c.restore()
		if c.infeasible() > 0 || c.wrongCosts() > 0 {
			continue
		}
		r := Result{Status: Optimal}
		s.fill(&r)
		s.certify(&r)
		if c.factor.updates() == 0 || r.Status == Optimal && s.polished(&r) {
			return r
		}
		c.refresh(true)
	}
	return Result{Why: "primal and dual feasibility were not reached together"}
}

// start brings the values of the core up to date with bounds, costs and basis.
func (c *core) start() {
	if c.unperturb() {
		c.priced = false
	}
	c.needFactor()
	c.settle()
	c.computeX()
	if !c.priced {
		c.computeD()
	}
}

// flatCold reports whether the basis is that of the slacks and most columns
// that can move cost nothing.
func (c *core) flatCold() bool {
	free, flat := 0, 0
	for j := range c.n {
		if c.pos[j] >= 0 {
			return false
		}
		if c.lower[j] < c.upper[j] {
			free++
			if c.cost[j] == 0 {
				flat++
			}
		}
	}
	return 2*flat > free
}

// limit is the answer when a limit stopped the solve.
func (s *Solver) limit(ctl *control) Result {
	r := ctl.beyond // the cutoff has filled it in
	r.Status, r.Why = Limit, ctl.why
	if r.X == nil {
		s.fill(&r)
	}
	return r
}

// cutoffEvery is how often a cutoff that could not be proven is tried again, in
// iterations.
const cutoffEvery = 8

// cutoff makes the test of the dual method whether the objective is proven to
// be beyond the cutoff. The objective of the method itself may rest on shifted
// costs; so when it passes, the bound is computed from the original rows.
func (s *Solver) cutoff(ctl *control, cutoff float64) func() bool {
	next := 0
	return func() bool {
		c := s.core
		if c.iterations < next {
			return false
		}
		value := 0.0
		for k, d := range c.d {
			value += d * c.x[k]
		}
		if value < (cutoff-s.offset)*s.sense*s.scale.cost {
			return false
		}
		next = c.iterations + cutoffEvery
		var r Result
		s.fill(&r)
		if !r.HasBound || s.sense*(r.Bound-cutoff) < 0 {
			return false
		}
		ctl.beyond, ctl.why = r, "the bound passed the cutoff"
		return true
	}
}

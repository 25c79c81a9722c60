package simplex

import (
	"context"
	"math"
)

// outcome is how a run of one of the two methods ended.
type outcome int

const (
	broken  outcome = iota // numerical trouble
	done                   // dual: primal feasible; primal: dual feasible
	noPoint                // no point is feasible, proven
	noEnd                  // the objective improves without end along spike
	stopped                // limit, cutoff or cancellation
)

// control carries the limits of one solve through the methods.
type control struct {
	ctx   context.Context
	last  int    // core.iterations at which to stop
	tries int    // to iterate; some find no pivot
	why   string // why it stopped

	exact   bool // neither perturb costs nor widen bounds
	blandAt int  // steps of length zero in a row from which Bland's rules hold
	stall        // steps of length zero in a row
	trouble      // fresh factorisations out of need

	// passed reports whether the bound is proven beyond the cutoff; nil without
	// a cutoff. infeasible reports whether the duals given, one per row in
	// scaled terms, prove that there is no feasible point.
	passed     func() bool
	beyond     Result // what passed was true of
	infeasible func(y []float64) bool
	ray        []float64 // the proof, in the program's own terms
}

// stall counts steps of length zero. After some the method perturbs, after many
// it takes Bland's rules, which end every degenerate stretch, until a step
// moves again.
//
// R. G. Bland (1977), New finite pivoting rules for the simplex method,
// Mathematics of Operations Research 2.
type stall struct {
	steps int
	bland bool
}

// Steps of length zero in a row after which a method perturbs, and after which,
// times the number of variables, it takes Bland's rules.
const (
	perturbAfter = 50
	blandAfter   = 2
)

// stepped notes a step and reports whether the method should perturb now.
func (ctl *control) stepped(length float64) bool {
	if math.Abs(length) > tiny {
		ctl.stall = stall{}
		return false
	}
	ctl.steps++
	ctl.bland = ctl.steps >= ctl.blandAt
	return ctl.steps%perturbAfter == 0 && !ctl.exact && !ctl.bland
}

// trouble counts the fresh factorisations that follow each other too closely.
type trouble struct {
	restarts, since int
}

// Restarts in a row, each after fewer iterations than calmStretch, that end a
// run as broken.
const (
	maxRestarts = 20
	calmStretch = 8
)

// mayRestart notes a restart and reports whether to go on.
func (t *trouble) mayRestart(c *core) bool {
	if c.iterations-t.since >= calmStretch {
		t.restarts = 0
	}
	t.since = c.iterations
	t.restarts++
	return t.restarts <= maxRestarts
}

// pollEvery is how often the context is looked at, in tries to iterate.
const pollEvery = 16

// mayIterate returns done if the method may iterate again, stopped if a limit
// is reached, and broken if so many iterations mean that rounding makes it go in
// circles.
func (ctl *control) mayIterate(c *core) outcome {
	if c.iterations >= ctl.last {
		ctl.why = "the iteration limit was reached"
		return stopped
	}
	ctl.tries++
	if ctl.tries%pollEvery == 0 && ctl.ctx.Err() != nil {
		ctl.why = "cancelled"
		return stopped
	}
	if ctl.tries > hopeless*(c.n+c.m+100) {
		return broken
	}
	return done
}

// hopeless is the number of iterations, times that of the variables, which no
// program comes near: two or three times is usual, ten much. Each of the ways to solve
// again has as many, so that what goes in circles ends in minutes, not hours.
const hopeless = 30

// forever is an iteration count that is never reached.
const forever = math.MaxInt

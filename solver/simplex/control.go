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
	noPivot                // dual: no feasible point; primal: unbounded
	noPoint                // primal: no feasible point
	stopped                // limit, cutoff or cancellation
)

// control carries the limits of one solve through the methods.
type control struct {
	ctx   context.Context
	last  int // core.iterations at which to stop
	bland bool
	why   string // why it stopped
	patience
	// passed reports whether the bound is proven beyond the cutoff; nil without
	// a cutoff. infeasible reports whether the duals given, one per row in
	// scaled terms, prove that there is no feasible point.
	passed     func() bool
	infeasible func(y []float64) bool
}

// patience bounds the fresh factorisations asked for out of trouble.
type patience struct {
	restarts, since int
}

// pollEvery is how often the context is looked at, in iterations.
const pollEvery = 16

// Restarts in a row, each after fewer iterations than calmStretch, that end a
// run as broken.
const (
	maxRestarts = 20
	calmStretch = 8
)

// mayRestart notes a restart and reports whether to go on.
func (p *patience) mayRestart(c *core) bool {
	if c.iterations-p.since >= calmStretch {
		p.restarts = 0
	}
	p.since = c.iterations
	p.restarts++
	return p.restarts <= maxRestarts
}

// stop counts an iteration and reports whether the solve must end before it.
func (ctl *control) stop(c *core) bool {
	if c.iterations >= ctl.last {
		ctl.why = "the iteration limit was reached"
		return true
	}
	c.iterations++
	if c.iterations%pollEvery == 0 && ctl.ctx.Err() != nil {
		ctl.why = "cancelled"
		return true
	}
	return false
}

// forever is an iteration count that is never reached.
const forever = math.MaxInt

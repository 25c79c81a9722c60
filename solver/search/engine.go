package search

import (
	"context"

	"rationwright/solver/branch"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
)

// What the engine answers with, so that nobody else need know it.
type (
	Progress = branch.Progress // a search at one moment; value and bound are in the unit of the objective
	Result   = branch.Result
	Basis    = branch.Basis
	Report   = branch.AuditReport // what an audit could confirm
)

// What a search may end in; see [branch.Status].
const (
	Numerical  = branch.Numerical
	Optimal    = branch.Optimal
	Infeasible = branch.Infeasible
	Unbounded  = branch.Unbounded
	Limit      = branch.Limit
)

// Options are what a caller wants of a search. The zero value asks for the optimum as
// exactly as the arithmetic tells, without a limit but the deadline of the context.
type Options struct {
	Gap      float64             // relative gap at which the search may end; 0 means [branch.DefaultGap]
	MinDenom float64             // the least that a gap is relative to, in the unit of the objective: its smallest step
	Work     int64               // simplex iterations, the same on every machine; 0 means no limit
	Workers  int                 // 0 means two
	Start    []float64           // a feasible point, one value per column; may be nil
	Basis    *Basis              // for the relaxation at the root to start from; may be nil
	Progress func(Progress)      // may be nil
	Until    func(Progress) bool // ends the search as soon as it holds; may be nil
	Audit    bool                // keep what [Audit] needs
}

// Run searches p by branch and cut. It is the one call of the engine. A search that
// Until ended is not one that the clock stopped.
func Run(ctx context.Context, p *linear.Problem, opt Options) Result {
	show, ended := opt.Progress, false
	if opt.Until != nil {
		var stop context.CancelFunc
		ctx, stop = context.WithCancel(ctx)
		defer stop()
		show = func(now Progress) {
			if ended = ended || opt.Until(now); ended {
				stop()
			}
			if opt.Progress != nil {
				opt.Progress(now)
			}
		}
	}
	found := branch.Solve(ctx, p, branch.Options{
		Gap: opt.Gap, MinDenom: opt.MinDenom, Work: opt.Work, Workers: opt.Workers,
		Start: opt.Start, Basis: opt.Basis, Progress: show, Audit: opt.Audit,
	})
	found.ByClock = found.ByClock && !ended
	return found
}

// OptionsOf are what the request of m asks of a search, from start.
func OptionsOf(m *model.Model, progress func(Progress), start []float64) Options {
	return Options{
		Gap:      m.Request.Within,
		MinDenom: ration.SmallestStep(m.Request.Least),
		Work:     Work(m),
		Start:    start,
		Progress: progress,
		Audit:    m.Request.Audit,
	}
}

// Audit goes through the proof of a result that was searched with Options.Audit.
func Audit(ctx context.Context, p *linear.Problem, result Result) Report {
	return branch.Audit(ctx, p, result)
}

// WithinOrBeyond ends a search as soon as its objective is settled against most: a
// point is no more, or the bound lies beyond what the tolerance leaves of it.
func WithinOrBeyond(most, beyond float64) func(Progress) bool {
	return func(now Progress) bool { return now.HasValue && now.Value <= most || now.Bound > beyond }
}

package search

import (
	"context"

	"rationwright/solver/branch"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
)

// What the engine is asked and answers with, so that nobody else need know it.
type (
	Options  = branch.Options
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
	Limit      = branch.Limit
)

// Run searches p by branch and cut. It is the one call of the engine.
func Run(ctx context.Context, p *linear.Problem, opt Options) Result {
	return branch.Solve(ctx, p, opt)
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

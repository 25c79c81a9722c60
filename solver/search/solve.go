package search

import (
	"context"
	"fmt"
	"math"

	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/simplex"
)

// Found is what a search came to.
type Found struct {
	Result
	NearMiss string // what was found where nothing was within the limits, to be added to a sentence; "" for nothing
	Empty    bool   // it is proven that nothing is within the limit on what is made least
}

// Solve runs the search on the program as it stands, from start, from the packs that
// the request begins with, or from a point that keeps its limits.
func Solve(ctx context.Context, m *model.Model, progress func(Progress), start []float64) Found {
	opt := OptionsOf(m, progress, start)
	var (
		found Found
		alone int
	)
	if opt.Basis, alone = Crash(ctx, m, m.Problem); alone >= 0 {
		found.Result = Result{
			Status: Infeasible, Bound: math.Inf(1), Gap: math.Inf(1),
			Why: "no food there is meets the needs and limits of " + m.Eaters[alone].Person.Name,
		}
		return found
	}
	if start == nil && len(m.Request.WarmStart) > 0 {
		opt.Start = FromPacks(ctx, m, opt.Basis, m.Request.WarmStart)
	}
	if opt.Start == nil {
		opt.Start, found.NearMiss = StartUnderLimits(ctx, m)
	}
	found.Result = Run(ctx, m.Problem, opt)
	return found
}

// SearchOnce searches the program as it stands within a fixed amount of work.
func SearchOnce(ctx context.Context, m *model.Model, gap float64, work int64, start []float64) Result {
	opt := Options{Gap: gap, MinDenom: ration.SmallestStep(m.Request.Least), Work: work, Start: start}
	if start == nil {
		opt.Start, _ = UnderLimits(ctx, m, false)
	}
	found := RestrictedSearch(ctx, m, m.Problem, opt)
	if found.X == nil && found.Status != Infeasible {
		found = Run(ctx, m.Problem, opt)
	}
	return found
}

// CanFit reports whether the relaxation of req has a point, vitamins that the
// body stores apart.
func CanFit(ctx context.Context, req *ration.Request) bool {
	m, err := model.Build(req)
	if err != nil {
		return false
	}
	m = model.WithoutStoredVitamins(m)
	ok, err := Feasible(ctx, m, m.Problem)
	return err == nil && ok
}

// Feasible decides the relaxation of p, a program of r with its columns first.
// Foods come in as they are needed.
func Feasible(ctx context.Context, m *model.Model, p *linear.Problem) (bool, error) {
	q := p.Clone()
	q.ClearCosts()
	x, err := NewMaster(m, q, make([]bool, len(m.Larder)))
	if err != nil {
		return false, err
	}
	switch result := x.Solve(ctx); result.Status {
	case simplex.Optimal, simplex.Unbounded:
		return true, nil
	case simplex.Infeasible:
		return false, nil
	case simplex.Limit:
		return false, fmt.Errorf("%w: %s", ration.ErrNoPlan, result.Why)
	default:
		return false, fmt.Errorf("%w: %s", ration.ErrNumerical, result.Why)
	}
}

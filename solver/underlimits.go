package solver

import (
	"context"
	"fmt"

	"rationwright/solver/branch"
)

// underLimitsWork is the work, in simplex iterations, that a point under a limit
// on packs is sought with.
const underLimitsWork = 4000

// startUnderLimits is a good point of a program that limits sums of packs: from
// one that keeps the limits, a quick search under its own objective. It is nil
// where nothing is limited or nothing was found.
func (r *Ration) startUnderLimits(ctx context.Context) []float64 {
	start := r.underLimits(ctx)
	if start == nil {
		return nil
	}
	found := r.quickly(ctx, r.Problem, branch.Options{
		Gap: r.Request.Within, MinDenom: smallest(r.Request.Least), Work: underLimitsWork, Start: start,
	})
	if found.X != nil {
		return found.X
	}
	return start
}

// underLimits is a point of the program where it limits sums of packs, found by
// making the first as small as the rest allows: a search under a tight limit
// seldom finds one by itself. It is nil where there is no such limit, or none was
// found; then the least that was found is remembered for the user.
func (r *Ration) underLimits(ctx context.Context) []float64 {
	limits := r.packLimits(r.Problem)
	if len(limits) == 0 {
		return nil
	}
	row := r.Problem.Rows[limits[0]]
	p := r.copyProblem()
	aimAtRow(p, limits[0])
	p.Rows[limits[0]].Upper = inf
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	q, err := r.newPriced(p, r.allFoods())
	if err != nil {
		return nil
	}
	if least := q.solve(ctx); least.HasBound && least.Bound > row.Upper*(1+limitTolerance) {
		return nil // nothing keeps the limit
	}
	found := q.quick(ctx, branch.Options{
		Gap: branch.DefaultGap, MinDenom: 1, Work: underLimitsWork,
		Progress: func(now branch.Progress) {
			if now.HasValue && now.Value <= row.Upper {
				stop()
			}
		},
	})
	if found.X == nil {
		return nil
	}
	if missed, err := r.Problem.Check(found.X, limitTolerance); err != nil || len(missed) > 0 {
		info := r.rows[limits[0]]
		r.nearMiss = fmt.Sprintf("; the least %s found is %.2f %s", info.text, found.Value, info.unit)
		return nil
	}
	return found.X
}

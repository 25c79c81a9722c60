package solver

import (
	"context"
	"fmt"
	"math"

	"rationwright/solver/branch"
	"rationwright/solver/linear"
	"rationwright/solver/ration"
)

// underLimitsWork is the work, in simplex iterations, that a point under a limit
// on packs is sought with.
const underLimitsWork = 4000

// ownLimit is the row that limits what the objective makes least, where no other
// sum of packs is limited; -1 where there is none.
func (r *Ration) ownLimit() int {
	limits := r.packLimits(r.Problem)
	if len(limits) == 1 && r.rows[limits[0]].total == r.Request.Least {
		return limits[0]
	}
	return -1
}

// solveUnderOwn solves the program whose objective is limited by row own. The
// limit is no help to the search, which looks for the least anyway: it is left
// out, and then what was found, or proven, is held against it. A search that ends
// between the two goes on until it is past one of them.
func (r *Ration) solveUnderOwn(ctx context.Context, progress func(Progress), own int) branch.Result {
	most := r.Problem.Rows[own].Upper
	r.Problem.Rows[own].Upper = inf
	defer func() { r.Problem.Rows[own].Upper = most }()
	beyond := most + limitTolerance*math.Max(1, most)
	settled := func(value, bound float64) bool { return value <= most || bound > beyond }
	until := func(gap float64, start []float64, done func(Progress) bool) branch.Result {
		ctx, stop := context.WithCancel(ctx)
		defer stop()
		ended := false
		opt := r.options(nil, start)
		opt.Gap = gap
		opt.Progress = func(now branch.Progress) {
			if ended = ended || done(now); ended {
				stop()
			}
			if progress != nil {
				progress(now)
			}
		}
		result := branch.Solve(ctx, r.Problem, opt)
		result.ByClock = result.ByClock && !ended
		return result
	}
	result := until(r.Request.Within, nil, func(now Progress) bool { return now.Bound > beyond })
	if result.X != nil && !settled(result.Value, result.Bound) && !result.ByClock {
		more := until(branch.DefaultGap, result.X, func(now Progress) bool { return now.HasValue && settled(now.Value, now.Bound) })
		if more.X != nil {
			result = more
			if ration.GapOf(result.Value, result.Bound, ration.SmallestStep(r.Request.Least)) <= r.Request.Within {
				result.Status = branch.Optimal
			}
		}
	}
	switch {
	case result.X != nil && result.Value <= beyond:
	case result.Status != branch.Infeasible && result.Bound > beyond:
		r.provenEmpty = true
		result.X, result.Status, result.Why = nil, branch.Infeasible, "the least there is lies over its limit"
	case result.X != nil:
		r.nearMiss = fmt.Sprintf("; the least %s found is %.2f %s", r.Request.Least, result.Value, r.rows[own].unit)
		result.X, result.Status, result.Why = nil, branch.Limit, "no ration was found within the limit, and none was proven impossible"
	}
	return result
}

// startUnderLimits is a good point of a program that limits sums of packs: from
// one that keeps the limits, a quick search under its own objective. It is nil
// where nothing is limited or nothing was found.
func (r *Ration) startUnderLimits(ctx context.Context) []float64 {
	start := r.underLimits(ctx, true)
	if start == nil {
		return nil
	}
	found := r.quickly(ctx, r.Problem, branch.Options{
		Gap: r.Request.Within, MinDenom: ration.SmallestStep(r.Request.Least), Work: underLimitsWork, Start: start,
	})
	if found.X != nil {
		return found.X
	}
	return start
}

// underLimits is a point of the program where it limits sums of packs, found by
// making the first as small as the rest allows: a search under a tight limit
// seldom finds one by itself. long lets it search for longer. It is nil where there
// is no such limit, or none was found; then the least that was found is remembered
// for the user.
func (r *Ration) underLimits(ctx context.Context, long bool) []float64 {
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
	if long && (found.X == nil || found.Value > row.Upper) {
		found = r.longer(ctx, p, row.Upper, found)
	}
	if found.X == nil {
		return nil
	}
	if missed, err := r.Problem.Check(found.X, limitTolerance); err != nil || len(missed) > 0 {
		info := r.rows[limits[0]]
		what := info.text
		if info.total != "" {
			what = string(info.total)
		}
		r.nearMiss = fmt.Sprintf("; the least %s found is %.2f %s", what, found.Value, info.unit)
		return nil
	}
	return found.X
}

// longer goes on looking for a point whose objective is no more than most, with a
// half of the work of the request.
func (r *Ration) longer(ctx context.Context, p *linear.Problem, most float64, found branch.Result) branch.Result {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	more := branch.Solve(ctx, p, branch.Options{
		Gap: branch.DefaultGap, MinDenom: 1, Work: r.work() / 2, Start: found.X,
		Progress: func(now branch.Progress) {
			if now.HasValue && now.Value <= most || now.Bound > most*(1+limitTolerance) {
				stop()
			}
		},
	})
	if more.X != nil {
		return more
	}
	return found
}

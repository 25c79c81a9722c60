package search

import (
	"context"
	"fmt"
	"math"

	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
)

// SolveUnderOwn solves the program whose objective is limited by row own. The
// limit is no help to the search, which looks for the least anyway: it is left
// out, and then what was found, or proven, is held against it. A search that ends
// between the two goes on until it is past one of them.
func SolveUnderOwn(ctx context.Context, m *model.Model, progress func(Progress), own int) Found {
	most := m.Problem.Rows[own].Upper
	free := model.WithoutLimit(m, own)
	beyond := most + LimitTolerance*math.Max(1, most)
	settled := func(value, bound float64) bool { return value <= most || bound > beyond }
	until := func(gap float64, start []float64, done func(Progress) bool) Result {
		opt := OptionsOf(free, progress, start)
		opt.Gap, opt.Until = gap, done
		return Run(ctx, free.Problem, opt)
	}
	found := Found{Result: until(m.Request.Within, nil, func(now Progress) bool { return now.Bound > beyond })}
	result := &found.Result
	if result.X != nil && !settled(result.Value, result.Bound) && !result.ByClock {
		more := until(0, result.X, func(now Progress) bool { return now.HasValue && settled(now.Value, now.Bound) })
		if more.X != nil {
			*result = more
			if ration.GapOf(result.Value, result.Bound, ration.SmallestStep(m.Request.Least)) <= m.Request.Within {
				result.Status = Optimal
			}
		}
	}
	switch {
	case result.X != nil && result.Value <= beyond:
	case result.Status != Infeasible && result.Bound > beyond:
		found.Empty = true
		result.X, result.Status, result.Why = nil, Infeasible, "the least there is lies over its limit"
	case result.X != nil:
		found.NearMiss = fmt.Sprintf("; the least %s found is %.2f %s", m.Request.Least, result.Value, m.Rows[own].Unit)
		result.X, result.Status, result.Why = nil, Limit, "no ration was found within the limit, and none was proven impossible"
	}
	return found
}

// StartUnderLimits is a good point of a program that limits sums of packs: from
// one that keeps the limits, a quick search under its own objective. It is nil
// where nothing is limited or nothing was found; then nearMiss is as of UnderLimits.
func StartUnderLimits(ctx context.Context, m *model.Model) (start []float64, nearMiss string) {
	start, nearMiss = UnderLimits(ctx, m, true)
	if start == nil {
		return nil, nearMiss
	}
	found := RestrictedSearch(ctx, m, m.Problem, Options{
		Gap: m.Request.Within, MinDenom: ration.SmallestStep(m.Request.Least), Work: underLimitsWork, Start: start,
	})
	if found.X != nil {
		return found.X, ""
	}
	return start, ""
}

// UnderLimits is a point of the program where it limits sums of packs, found by
// making the first as small as the rest allows: a search under a tight limit
// seldom finds one by itself. long lets it search for longer. It is nil where there
// is no such limit, or none was found; then nearMiss tells the user the least that was.
func UnderLimits(ctx context.Context, m *model.Model, long bool) (x []float64, nearMiss string) {
	limits := m.PackLimits(m.Problem)
	if len(limits) == 0 {
		return nil, ""
	}
	row := m.Problem.Rows[limits[0]]
	p := m.Problem.Clone()
	model.AimAtRow(p, limits[0])
	p.Rows[limits[0]].Upper = model.Inf
	q, err := NewMaster(m, p, allFoods(m))
	if err != nil {
		return nil, ""
	}
	if least := q.Solve(ctx); least.HasBound && least.Bound > row.Upper*(1+LimitTolerance) {
		return nil, "" // nothing keeps the limit
	}
	found := q.Search(ctx, Options{
		MinDenom: 1, Work: underLimitsWork,
		Until: func(now Progress) bool { return now.HasValue && now.Value <= row.Upper },
	})
	if long && (found.X == nil || found.Value > row.Upper) {
		found = longer(ctx, m, p, row.Upper, found)
	}
	if found.X == nil {
		return nil, ""
	}
	if missed, err := m.Problem.Check(found.X, LimitTolerance); err != nil || len(missed) > 0 {
		info := m.Rows[limits[0]]
		what := info.Text
		if info.Total != "" {
			what = string(info.Total)
		}
		return nil, fmt.Sprintf("; the least %s found is %.2f %s", what, found.Value, info.Unit)
	}
	return found.X, ""
}

// longer goes on looking for a point whose objective is no more than most, with a
// half of the work of the request.
func longer(ctx context.Context, m *model.Model, p *linear.Problem, most float64, found Result) Result {
	more := Run(ctx, p, Options{
		MinDenom: 1, Work: Work(m) / 2, Start: found.X, Until: WithinOrBeyond(most, most*(1+LimitTolerance)),
	})
	if more.X != nil {
		return more
	}
	return found
}

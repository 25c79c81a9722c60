package elastic

import (
	"context"
	"math"
	"slices"

	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// margins are the parts of a limit on packs that are left for rounding them up:
// the first that is enough is taken.
var margins = []float64{0.01, 0.03, 0.06, 0.12, 0.24, 0.48, 0.7}

// betterTimes is how much more the shortfalls of a stage count than those of the next
// where whole packs are bettered for all stages at once.
const betterTimes = 30

// least is a point with whole packs at which the shortfalls that the first costs
// count are least, then those of the next, and so on; nil where none was found.
// Where no sum of packs is limited the packs of the relaxation are rounded up.
// Else the relaxation is given a little less than the limits, its shortfalls are
// kept while packs are made whole at the least of the first limit, and what is
// found is bettered.
func (e *Elastic) least(ctx context.Context, costs [][]float64) []float64 {
	limits := e.Model.PackLimits(e.Problem)
	if len(limits) == 0 {
		if point, _ := e.RelaxedLeast(ctx, costs, nil, 0); point != nil {
			return e.Model.PacksUp(point)
		}
		return nil
	}
	failed := 0.0
	for _, margin := range margins {
		whole, possible := e.wholeAt(ctx, costs, limits, margin)
		if !possible || ctx.Err() != nil {
			break
		}
		if whole == nil {
			failed = margin
			continue
		}
		if nearer, _ := e.wholeAt(ctx, costs, limits, (failed+margin)/2); nearer != nil {
			whole = nearer
		}
		return e.better(ctx, costs, whole)
	}
	if whole := e.roundedDown(ctx, costs, limits); whole != nil {
		return e.better(ctx, costs, whole)
	}
	return nil
}

// wholeAt looks for whole packs with the shortfalls of a relaxation that is given a
// margin less than the limits; possible is false where even that has no point.
func (e *Elastic) wholeAt(ctx context.Context, costs [][]float64, limits []int, margin float64) (whole []float64, possible bool) {
	point, values := e.RelaxedLeast(ctx, costs, limits, margin)
	if point == nil {
		return nil, false
	}
	return e.wholeWithin(ctx, costs, values, limits), true
}

// wholeWithin looks for whole packs that keep the limits with no more shortfall
// than values: by the least of the first limit, as soon as that is kept.
func (e *Elastic) wholeWithin(ctx context.Context, costs [][]float64, values []float64, limits []int) []float64 {
	aim := e.Problem.Clone()
	for k, stage := range costs {
		e.holdIn(aim, stage, values[k])
	}
	most := aim.Rows[limits[0]].Upper
	model.AimAtRow(aim, limits[0])
	aim.Rows[limits[0]].Upper = model.Inf
	found := search.RestrictedSearch(ctx, e.Model, aim, search.Options{
		MinDenom: 1, Work: search.MarginWork * max(1, e.thorough), Until: search.WithinOrBeyond(most, most*(1+search.LimitTolerance)),
	})
	if found.X == nil {
		return nil
	}
	if missed, err := e.Problem.Check(found.X, search.LimitTolerance); err != nil || len(missed) > 0 {
		return nil
	}
	return found.X
}

// better looks for other packs with less shortfall, the stages weighed against
// each other, and shares out what it found stage by stage. It returns the better
// of that and of what it was given.
func (e *Elastic) better(ctx context.Context, costs [][]float64, whole []float64) []float64 {
	p := e.Problem.Clone()
	weight := 1.0
	for _, stage := range slices.Backward(costs) {
		for n, col := range e.Cols {
			p.Cols[col].Cost += weight * stage[n]
		}
		weight *= betterTimes
	}
	best := e.sharedOut(ctx, costs, whole)
	found := search.RestrictedSearch(ctx, e.Model, p, search.Options{Gap: search.ClosestGap, MinDenom: search.ShortTolerance, Work: search.BetterWork, Start: whole})
	if found.X != nil {
		if other := e.sharedOut(ctx, costs, found.X); other != nil && (best == nil || e.shorter(costs, other, best)) {
			best = other
		}
	}
	return best
}

// shorter reports whether a falls less short than b, stage by stage.
func (e *Elastic) shorter(costs [][]float64, a, b []float64) bool {
	for _, stage := range costs {
		short := 0.0
		for k, col := range e.Cols {
			short += stage[k] * (a[col] - b[col])
		}
		if math.Abs(short) > search.HeldTolerance {
			return short < 0
		}
	}
	return false
}

// roundedDown takes the packs of the relaxation rounded down.
func (e *Elastic) roundedDown(ctx context.Context, costs [][]float64, limits []int) []float64 {
	point, _ := e.RelaxedLeast(ctx, costs, limits, 0)
	if point == nil {
		return nil
	}
	down := slices.Clone(point)
	for j, c := range e.Problem.Cols {
		if c.Integer {
			down[j] = math.Max(c.Lower, math.Floor(point[j]+search.WholeTolerance))
		}
	}
	return e.sharedOut(ctx, costs, down)
}

// sharedOut makes the best of the packs of a point: the least shortfalls that
// they allow, stage by stage.
func (e *Elastic) sharedOut(ctx context.Context, costs [][]float64, whole []float64) []float64 {
	fixed := *e
	fixed.Problem, fixed.relaxation = e.Problem.Clone(), nil
	for j, c := range fixed.Problem.Cols {
		if c.Integer {
			n := math.Round(whole[j])
			fixed.Problem.Cols[j].Lower, fixed.Problem.Cols[j].Upper = n, n
		}
	}
	point, _ := fixed.RelaxedLeast(ctx, costs, fixed.Model.PackLimits(fixed.Problem), 0)
	if point == nil {
		return nil
	}
	for j, c := range fixed.Problem.Cols {
		if c.Integer {
			point[j] = c.Lower
		}
	}
	return point
}

// RelaxedLeast goes through the stages with a part of the limits left free, and
// returns the shortfalls of each. The relaxation is kept for the next time.
func (e *Elastic) RelaxedLeast(ctx context.Context, costs [][]float64, limits []int, margin float64) (point, values []float64) {
	if e.relaxation == nil {
		var err error
		if e.relaxation, err = search.NewMaster(e.Model, e.Problem.Clone(), make([]bool, len(e.Model.Larder))); err != nil {
			return nil, nil
		}
	}
	q := e.relaxation
	q.LP.Release()
	for _, i := range limits {
		row := e.Problem.Rows[i]
		if row.Upper > 0 {
			row.Upper *= 1 - margin
		}
		q.LP.SetRowBounds(i, row.Lower, row.Upper)
	}
	for _, stage := range costs {
		for k, col := range e.Cols {
			q.LP.SetCost(col, stage[k])
		}
		result := q.Solve(ctx)
		if result.Status != simplex.Optimal {
			return nil, nil
		}
		point = result.X
		values = append(values, math.Max(0, result.Value))
		q.LP.AddRow(math.Inf(-1), values[len(values)-1]+search.HeldTolerance, e.Cols, stage)
		if len(limits) == 0 {
			e.holdIn(e.Problem, stage, values[len(values)-1])
		}
	}
	return point, values
}

// holdIn keeps the shortfalls that costs count from growing over value in p.
func (e *Elastic) holdIn(p *linear.Problem, costs []float64, value float64) {
	row := p.AddRow("held", math.Inf(-1), value+search.HeldTolerance)
	for k, col := range e.Cols {
		p.Set(row, col, costs[k])
	}
}

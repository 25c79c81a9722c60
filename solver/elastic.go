package solver

import (
	"context"
	"math"
	"slices"

	"rationwright/nutrients"
	"rationwright/solver/branch"
	"rationwright/solver/linear"
	"rationwright/solver/simplex"
)

// shortTolerance is the relative shortfall under which a need counts as met:
// the tolerance of the independent check.
const shortTolerance = checkTolerance

// heldTolerance is the room that an earlier stage's shortfalls keep in later
// ones: well under shortTolerance, well over the arithmetic.
const heldTolerance = 1e-7

// stage is one step of the closest ration: the needs whose shortfall is made
// least before the next step's.
type stage func(rowInfo) bool

// stages is the order of the needs when not all can be met: water, energy,
// protein, the rest.
var stages = []stage{
	func(i rowInfo) bool { return i.kind == rowWater },
	func(i rowInfo) bool { return i.kind == rowNutrient && i.nutrient == nutrients.Energy },
	func(i rowInfo) bool { return i.kind == rowNutrient && i.nutrient == nutrients.Protein },
	func(rowInfo) bool { return true },
}

// elastic is the program with a shortfall column in every soft row, and one for
// the worst off of each kind of row:
//
//	a_i x + u_i ≥ floor_i,   u_i ≤ floor_i t_g,   0 ≤ u_i ≤ floor_i
//
//	minimise Σ_g t_g + ε Σ_i u_i / floor_i
//
// so that what there is of a nutrient is shared: nobody falls further short of
// it, in parts of the floor, than must be. Every other row stays as it is. A
// household's own limit may be soft as well, upwards: a_i x − u_i ≤ limit_i.
type elastic struct {
	ration  *Ration
	problem *linear.Problem
	rows    []int     // soft rows
	cols    []int     // the shortfall columns of rows, then those of the worst off
	weights []float64 // what one unit of each counts
	kinds   []rowInfo // what each column is about
}

// everyoneWeight is ε: what one person's shortfall counts against that of the
// worst off.
const everyoneWeight = 0.01

// isNeed picks the rows that the closest ration may miss: needs, never safety
// rows, the user's limits or the arithmetic.
func isNeed(info rowInfo) bool { return info.class == requirement }

// soften makes the elastic program over the rows that soft picks.
func (r *Ration) soften(soft func(rowInfo) bool) *elastic {
	e := &elastic{ration: r, problem: r.copyProblem()}
	for j := range e.problem.Cols {
		e.problem.Cols[j].Cost = 0
	}
	whole := []float64{}
	for i, info := range r.rows {
		row := r.Problem.Rows[i]
		switch {
		case !soft(info):
		case row.Lower > 0:
			whole = append(whole, row.Lower)
			e.addShort(i, row.Lower, row.Lower, 1)
		case info.kind == rowLimit && row.Upper < inf:
			whole = append(whole, math.Max(row.Upper, 1))
			e.addShort(i, math.Max(row.Upper, 1), inf, -1)
		}
	}
	e.addWorst(whole)
	return e
}

// addShort makes the shortfall column of row i: up to most, in parts of whole.
func (e *elastic) addShort(i int, whole, most, sign float64) {
	col := e.problem.AddCol("short["+e.problem.Rows[i].Name+"]", 0, 0, most, false)
	e.problem.Set(i, col, sign)
	e.rows = append(e.rows, i)
	e.cols = append(e.cols, col)
	e.weights = append(e.weights, everyoneWeight/whole)
	e.kinds = append(e.kinds, e.ration.rows[i])
}

// addWorst makes the columns and rows of the worst off of each kind.
func (e *elastic) addWorst(whole []float64) {
	at := map[string]int{}
	for k, i := range e.rows {
		info := e.ration.rows[i]
		kind := info.unit + " " + info.name() // protein is a nutrient and a group
		col, ok := at[kind]
		if !ok {
			col = e.problem.AddCol("worst["+kind+"]", 0, 0, inf, false)
			at[kind] = col
			e.cols = append(e.cols, col)
			e.weights = append(e.weights, 1)
			e.kinds = append(e.kinds, info)
		}
		row := e.problem.AddRow("share["+e.problem.Rows[i].Name+"]", math.Inf(-1), 0)
		e.problem.Set(row, e.cols[k], 1)
		e.problem.Set(row, col, -whole[k])
	}
}

// costs returns the objective that counts the shortfalls of some kinds of row,
// one figure per shortfall column.
func (e *elastic) costs(counts func(rowInfo) bool) []float64 {
	list := make([]float64, len(e.cols))
	for k, info := range e.kinds {
		if counts(info) {
			list[k] = e.weights[k]
		}
	}
	return list
}

// stageCosts are the costs of stage s: what it counts and no stage before does.
func (e *elastic) stageCosts(s int) []float64 {
	return e.costs(func(i rowInfo) bool {
		return stages[s](i) && !slices.ContainsFunc(stages[:s], func(f stage) bool { return f(i) })
	})
}

// hold keeps the shortfalls that costs count from growing over value.
func (e *elastic) hold(costs []float64, value float64) {
	row := e.problem.AddRow("held", math.Inf(-1), value+heldTolerance)
	for k, col := range e.cols {
		e.problem.Set(row, col, costs[k])
	}
}

// closest finds the ration that comes closest to the needs that soft picks, in
// the order of [stages]: one value per column of the model, packs whole; nil where
// nothing was found.
func (r *Ration) closest(ctx context.Context, soft func(rowInfo) bool) []float64 {
	e := r.soften(soft)
	var costs [][]float64
	for s := range stages {
		costs = append(costs, e.stageCosts(s))
	}
	point := e.least(ctx, costs)
	if point == nil {
		return nil
	}
	if !r.hasTotals() {
		if result := e.cheapest(ctx, point); result.X != nil {
			point = result.X
		}
	}
	return point[:len(r.cols)]
}

// impossible proves, where it returns true, that no ration meets every need but
// those that a plan gives up by itself: by a verified ray, or by the proven lower
// bound on all shortfalls together.
func (r *Ration) impossible(ctx context.Context) bool {
	e := r.soften(isNeed)
	x, err := relax(e.problem)
	if err != nil {
		return false
	}
	for k, cost := range e.costs(func(i rowInfo) bool { return !i.stored() }) {
		x.setCost(e.cols[k], cost)
	}
	result := x.solve(ctx)
	return result.Status == simplex.Infeasible ||
		result.Status == simplex.Optimal && result.HasBound && result.Bound > shortTolerance
}

// margins are the parts of a limit on packs that are left for rounding them up:
// the first that is enough is taken.
var margins = []float64{0.02, 0.04, 0.08, 0.16, 0.32, 0.5, 0.7}

// least is a point with whole packs at which the shortfalls that the first costs
// count are least, then those of the next, and so on; nil where none was found.
// Where no sum of packs is limited the packs of the relaxation are rounded up.
// Else the relaxation is given a little less than the limits, and its shortfalls
// are then kept while packs are made whole at the least of the first limit.
func (e *elastic) least(ctx context.Context, costs [][]float64) []float64 {
	limits := e.ration.packLimits(e.problem)
	if len(limits) == 0 {
		if _, point := e.relaxedLeast(ctx, costs, nil, 0); point != nil {
			return e.ration.packsUp(point)
		}
		return nil
	}
	for _, margin := range margins {
		x, point := e.relaxedLeast(ctx, costs, limits, margin)
		if point == nil || ctx.Err() != nil {
			break
		}
		aim := e.problem.Clone()
		aimAtRow(aim, limits[0])
		for j := range aim.Cols {
			x.setCost(j, aim.Cols[j].Cost)
		}
		for _, i := range limits {
			if x.at[i] >= 0 {
				x.solver.SetRowBounds(x.at[i], e.problem.Rows[i].Lower, e.problem.Rows[i].Upper)
			}
		}
		if x.at[limits[0]] >= 0 {
			x.solver.SetRowBounds(x.at[limits[0]], math.Inf(-1), inf)
		}
		whole := x.diveUp(ctx)
		if whole == nil {
			continue
		}
		if missed, err := e.problem.Check(whole, checkTolerance); err == nil && len(missed) == 0 {
			return whole
		}
	}
	return e.roundedDown(ctx, costs)
}

// roundedDown takes the packs of the relaxation rounded down, and makes the best
// of them.
func (e *elastic) roundedDown(ctx context.Context, costs [][]float64) []float64 {
	_, point := e.relaxedLeast(ctx, costs, e.ration.packLimits(e.problem), 0)
	if point == nil {
		return nil
	}
	fixed := *e
	fixed.problem = e.problem.Clone()
	for j, c := range fixed.problem.Cols {
		if c.Integer {
			n := math.Max(c.Lower, math.Floor(point[j]+diveRounded))
			fixed.problem.Cols[j].Lower, fixed.problem.Cols[j].Upper = n, n
		}
	}
	_, best := fixed.relaxedLeast(ctx, costs, fixed.ration.packLimits(fixed.problem), 0)
	if best == nil {
		return nil
	}
	for j, c := range fixed.problem.Cols {
		if c.Integer {
			best[j] = c.Lower
		}
	}
	return best
}

// relaxedLeast goes through the stages with a part of the limits left free.
func (e *elastic) relaxedLeast(ctx context.Context, costs [][]float64, limits []int, margin float64) (*relaxed, []float64) {
	p := e.problem.Clone()
	for _, i := range limits {
		if p.Rows[i].Upper > 0 {
			p.Rows[i].Upper *= 1 - margin
		}
	}
	x, err := relax(p)
	if err != nil {
		return nil, nil
	}
	var point []float64
	for _, stage := range costs {
		for k, col := range e.cols {
			x.setCost(col, stage[k])
		}
		result := x.solve(ctx)
		if result.Status != simplex.Optimal {
			return nil, nil
		}
		point = result.X
		value := math.Max(0, result.Value)
		x.addRow("held", math.Inf(-1), value+heldTolerance, e.cols, stage)
		if len(limits) == 0 {
			e.hold(stage, value)
		}
	}
	return x, point
}

// hasTotals reports whether a sum of packs is limited: only then do whole packs
// make a difference to what can be reached.
func (r *Ration) hasTotals() bool { return len(r.packLimits(r.Problem)) > 0 }

// Limits of the last stage, which makes the ration no better, only cheaper.
const (
	closestGap  = 0.05
	closestWork = 4000 // simplex iterations
)

// cheapest makes the plan's own objective least at the shortfalls held.
func (e *elastic) cheapest(ctx context.Context, start []float64) branch.Result {
	r := e.ration
	for j := range r.cols {
		e.problem.Cols[j].Cost = r.Problem.Cols[j].Cost
	}
	for _, col := range e.cols {
		e.problem.Cols[col].Cost = 0
	}
	return branch.Solve(ctx, e.problem, branch.Options{
		Gap: closestGap, MinDenom: smallest(r.Request.Least), Work: closestWork, Time: r.Request.Time, Start: start,
	})
}

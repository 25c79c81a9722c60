package solver

import (
	"context"
	"math"
	"slices"

	"rationwright/nutrients"
	"rationwright/solver/branch"
	"rationwright/solver/linear"
	"rationwright/solver/ration"
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
// protein, the rest; and last the water and heat on hand, which more can be had of.
var stages = []stage{
	func(i rowInfo) bool { return i.kind == rowWater },
	func(i rowInfo) bool { return i.isOf(nutrients.Energy) },
	func(i rowInfo) bool { return i.isOf(nutrients.Protein) },
	func(i rowInfo) bool { return i.kind != rowLimit },
	func(rowInfo) bool { return true },
}

// isOf reports whether the row is about n, over all days or those after a date.
func (info rowInfo) isOf(n nutrients.Nutrient) bool {
	return (info.kind == rowNutrient || info.kind == rowAfter) && info.nutrient == n
}

// shareScale is the part of the energy requirement against which energy outside
// its shares is counted: between the largest share of added sugars, a tenth, and
// that of carbohydrate, 65 per cent.
const shareScale = 0.3

// elastic is the program with a shortfall column in every soft row, and one for
// the worst off of each kind of row:
//
//	a_i x + u_i ≥ floor_i,   u_i ≤ floor_i t_g,   0 ≤ u_i ≤ floor_i
//
//	minimise Σ_g t_g + ε Σ_i u_i / floor_i
//
// so that what there is of a nutrient is shared: nobody falls further short of
// it, in parts of the floor, than must be. Every other row stays as it is. A
// household's own limit may be soft as well, upwards: a_i x − u_i ≤ limit_i; and
// the stored water, as far as it is for washing. Shares of the energy and ceilings
// that guard against long-term illness only may be passed too, last of all: hunger
// is worse.
type elastic struct {
	ration  *Ration
	problem *linear.Problem
	rows    []int     // soft rows
	cols    []int     // the shortfall columns of rows, then those of the worst off
	weights []float64 // what one unit of each counts
	kinds   []rowInfo // what each column is about
	signs   []float64 // per row: 1 where it is missed, -1 where it is passed

	relaxation *priced // as it was solved last
	thorough   int64   // how many times the usual work is worth it
}

// everyoneWeight is ε: what one person's shortfall counts against that of the
// worst off.
const everyoneWeight = 0.01

// isNeed picks the rows that the closest ration may miss: needs and water for
// washing, never safety rows, the user's limits or the arithmetic.
func isNeed(info rowInfo) bool { return info.class == requirement || info.kind == rowAllWater }

// soften makes the elastic program over the rows that soft picks; hungry lets
// ceilings be passed that are better passed than going hungry.
func (r *Ration) soften(soft func(rowInfo) bool, hungry bool) *elastic {
	e := &elastic{ration: r, problem: r.copyProblem()}
	for j := range e.problem.Cols {
		e.problem.Cols[j].Cost = 0
	}
	whole := []float64{}
	for i, info := range r.rows {
		row := r.Problem.Rows[i]
		switch {
		case !soft(info):
		case info.kind == rowAllWater:
			whole = append(whole, r.washingL())
			e.addShort(i, info, r.washingL(), r.washingL(), 1)
		case info.kind == rowShare:
			if !hungry {
				continue
			}
			scale := shareScale * r.eaters[info.eater].needs.EER.Amount * r.days()
			sign := 1.0
			if row.Upper < inf {
				sign = -1
			}
			whole = append(whole, scale)
			e.addShort(i, info, scale, inf, sign)
		case row.Lower > 0 || info.mayPass && hungry:
			if row.Lower > 0 {
				whole = append(whole, row.Lower)
				e.addShort(i, info, row.Lower, row.Lower, 1)
			}
			if info.mayPass && hungry {
				over := info
				over.text += " at most"
				whole = append(whole, row.Upper)
				e.addShort(i, over, row.Upper, inf, -1)
			}
		case info.kind == rowLimit && row.Upper < inf:
			whole = append(whole, math.Max(row.Upper, 1))
			e.addShort(i, info, math.Max(row.Upper, 1), inf, -1)
		}
	}
	for ei, p := range r.eaters {
		if info := drinkInfo(r, ei); p.drink >= 0 && soft(info) && r.Problem.Cols[p.drink].Lower > 0 {
			least := r.Problem.Cols[p.drink].Lower
			e.problem.Cols[p.drink].Lower = 0
			row := e.problem.AddRow("drink["+p.person.Name+"]", least, inf)
			e.problem.Set(row, p.drink, 1)
			whole = append(whole, least)
			e.addShort(row, info, least, least, 1)
		}
	}
	e.addWorst(whole)
	return e
}

// drinkInfo is what the least that one drinks is about: a bound of the model, a
// row where it may be missed.
func drinkInfo(r *Ration, ei int) rowInfo {
	return rowInfo{kind: rowWater, class: requirement, eater: ei, nutrient: nutrients.Water, text: shortDrink, unit: "L", perDay: r.days()}
}

// Names of water among shortfalls: for washing, and the least to drink.
const (
	shortWashing = "washing_water"
	shortDrink   = "drinking_water"
)

// addShort makes the shortfall column of row i of the program, which is about what
// info says: up to most, in parts of whole.
func (e *elastic) addShort(i int, info rowInfo, whole, most, sign float64) {
	col := e.problem.AddCol("short["+e.problem.Rows[i].Name+" "+info.text+"]", 0, 0, most, false)
	e.problem.Set(i, col, sign)
	e.rows = append(e.rows, i)
	e.cols = append(e.cols, col)
	e.weights = append(e.weights, everyoneWeight/whole)
	e.signs = append(e.signs, sign)
	e.kinds = append(e.kinds, info)
}

// addWorst makes the columns and rows of the worst off of each kind.
func (e *elastic) addWorst(whole []float64) {
	at := map[string]int{}
	for k, i := range e.rows {
		info := e.kinds[k]
		kind := info.unit + " " + info.text
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

// closest finds the ration that comes closest to the needs that soft picks, in
// the order of [stages]: one value per column of the model, packs whole; nil where
// nothing was found.
func (r *Ration) closest(ctx context.Context, soft func(rowInfo) bool) []float64 {
	e := r.soften(soft, true)
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
	e := r.soften(isNeed, false)
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
		Gap: closestGap, MinDenom: ration.SmallestStep(r.Request.Least), Work: closestWork, Time: r.Request.Time, Start: start,
	})
}

package solver

import (
	"context"
	"math"
	"slices"

	"rationwright/nutrients"
	"rationwright/solver/branch"
	"rationwright/solver/linear"
)

// shortTolerance is the relative shortfall under which a need counts as met:
// the tolerance of the independent check.
const shortTolerance = checkTolerance

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

// elastic is the program with a shortfall column in every soft row:
//
//	minimise Σ_i u_i / floor_i   subject to   a_i x + u_i ≥ floor_i,  0 ≤ u_i ≤ floor_i
//
// Safety rows, the user's limits and the arithmetic stay as they are.
type elastic struct {
	problem *linear.Problem
	rows    []int // soft rows
	cols    []int // their shortfall columns
}

// soften makes the elastic program over the requirement rows that soft picks.
func (r *Ration) soften(soft func(rowInfo) bool) elastic {
	e := elastic{problem: r.copyProblem()}
	for j := range e.problem.Cols {
		e.problem.Cols[j].Cost = 0
	}
	for i, info := range r.rows {
		floor := r.Problem.Rows[i].Lower
		if info.class != requirement || !soft(info) || math.IsInf(floor, -1) || floor <= 0 {
			continue
		}
		col := e.problem.AddCol("short["+r.Problem.Rows[i].Name+"]", 1/floor, 0, floor, false)
		e.problem.Set(i, col, 1)
		e.rows = append(e.rows, i)
		e.cols = append(e.cols, col)
	}
	return e
}

// aim makes only the shortfalls of the picked rows count.
func (e *elastic) aim(r *Ration, counts func(rowInfo) bool) {
	for k, i := range e.rows {
		cost := 0.0
		if counts(r.rows[i]) {
			cost = 1 / r.Problem.Rows[i].Lower
		}
		e.problem.Cols[e.cols[k]].Cost = cost
	}
}

// hold keeps the sum of the shortfalls that count now from growing later.
func (e *elastic) hold(value float64) {
	row := e.problem.AddRow("held", math.Inf(-1), value+shortTolerance)
	for _, col := range e.cols {
		e.problem.Set(row, col, e.problem.Cols[col].Cost)
	}
}

// Limits of one solve of the elastic program.
const (
	elasticGap  = 1e-3
	elasticWork = 20000 // simplex iterations
)

func (r *Ration) solveElastic(ctx context.Context, e *elastic, start []float64) branch.Result {
	return branch.Solve(ctx, e.problem, branch.Options{
		Gap: elasticGap, MinDenom: shortTolerance / elasticGap, Work: elasticWork, Time: r.Request.Time, Start: start,
	})
}

// closest finds the ration that comes closest to the needs, in the order of
// [stages]. claim is true when its proven lower bound on all shortfalls
// together is above the tolerance: only then is "nothing fits" a proof. x is
// nil when even with every need soft nothing was found.
func (r *Ration) closest(ctx context.Context) (x []float64, claim bool) {
	e := r.soften(func(rowInfo) bool { return true })
	all := r.solveElastic(ctx, &e, nil)
	if all.Status == branch.Infeasible {
		return nil, true
	}
	claim = !math.IsInf(all.Bound, 0) && all.Bound > shortTolerance
	x = all.X
	for s, counts := range stages {
		earlier := stages[:s]
		e.aim(r, func(i rowInfo) bool {
			return counts(i) && !slices.ContainsFunc(earlier, func(f stage) bool { return f(i) })
		})
		result := r.solveElastic(ctx, &e, x)
		if result.X == nil {
			break
		}
		x = result.X
		e.hold(result.Value)
	}
	return x, claim
}

// storedVitamins are those that the body stores for longer than a fortnight
// (vitamins A, D and B12; requirements' notes, compiler's note).
var storedVitamins = []nutrients.Nutrient{nutrients.VitaminA, nutrients.VitaminD, nutrients.VitaminB12}

// relaxStoredVitamins tries to make the program fit by giving up as little as
// possible of vitamins A, D and B12 alone. If that is enough, it lowers the
// floors to what can be reached, and says whose and how much.
func (r *Ration) relaxStoredVitamins(ctx context.Context) ([]Shortfall, bool) {
	e := r.soften(func(i rowInfo) bool {
		return i.kind == rowNutrient && slices.Contains(storedVitamins, i.nutrient)
	})
	if len(e.rows) == 0 {
		return nil, false
	}
	result := r.solveElastic(ctx, &e, nil)
	if result.X == nil {
		return nil, false
	}
	var shortfalls []Shortfall
	for k, i := range e.rows {
		short := result.X[e.cols[k]]
		if short <= shortTolerance*r.Problem.Rows[i].Lower {
			continue
		}
		info := r.rows[i]
		target := r.Problem.Rows[i].Lower / info.perDay
		r.Problem.Rows[i].Lower -= short * (1 + shortTolerance)
		shortfalls = append(shortfalls, Shortfall{
			Person:   r.eaters[info.eater].person.Name,
			Nutrient: info.nutrient.Name(),
			Unit:     info.unit,
			Amount:   math.Max(0, r.Problem.Rows[i].Lower/info.perDay),
			Target:   target,
		})
	}
	return shortfalls, len(shortfalls) > 0
}

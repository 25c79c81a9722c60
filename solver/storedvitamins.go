package solver

import (
	"context"
	"math"

	"rationwright/nutrients"
	"rationwright/solver/branch"
	"rationwright/solver/simplex"
)

// storedVitamins are those that the body stores for longer than a fortnight
// (vitamins A, D and B12; requirements' notes, compiler's note).
var storedVitamins = []nutrients.Nutrient{nutrients.VitaminA, nutrients.VitaminD, nutrients.VitaminB12}

// relaxStoredVitamins tries to make the program fit by giving up as little as
// possible of vitamins A, D and B12 alone. If that is enough, it lowers the
// floors to what can be reached, and says whose and how much.
func (r *Ration) relaxStoredVitamins(ctx context.Context) ([]Shortfall, bool) {
	e := r.soften(rowInfo.stored)
	if len(e.rows) == 0 {
		return nil, false
	}
	point := e.leastShort(ctx)
	if point == nil {
		return nil, false
	}
	var shortfalls []Shortfall
	for k, i := range e.rows {
		short := point[e.cols[k]]
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

// leastShort is a point with the least shortfalls together, nil when there is
// none or none was found. Without a limit on a total the relaxation decides:
// its packs can be rounded up.
func (e *elastic) leastShort(ctx context.Context) []float64 {
	for k, cost := range e.costs(func(rowInfo) bool { return true }) {
		e.problem.Cols[e.cols[k]].Cost = cost
	}
	x, err := relax(e.problem)
	if err != nil {
		return nil
	}
	result := x.solve(ctx)
	if result.Status != simplex.Optimal {
		return nil
	}
	if !e.ration.hasTotals() {
		return result.X
	}
	return branch.Solve(ctx, e.problem, branch.Options{
		Gap: elasticGap, MinDenom: shortTolerance / elasticGap, Work: elasticWork, Time: e.ration.Request.Time,
	}).X
}

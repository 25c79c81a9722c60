package solver

import (
	"context"
	"math"

	"rationwright/nutrients"
)

// storedVitamins are those that the body stores for longer than a fortnight
// (vitamins A, D and B12; requirements' notes, compiler's note).
var storedVitamins = []nutrients.Nutrient{nutrients.VitaminA, nutrients.VitaminD, nutrients.VitaminB12}

// relaxStoredVitamins tries to make the program fit by giving up as little as
// possible of vitamins A, D and B12 alone. If that is enough, it lowers the
// floors to what can be reached, and says whose and how much; start is a point
// of the program then.
func (r *Ration) relaxStoredVitamins(ctx context.Context) (shortfalls []Shortfall, start []float64, ok bool) {
	e := r.soften(rowInfo.stored, false)
	if len(e.rows) == 0 {
		return nil, nil, false
	}
	point := e.least(ctx, [][]float64{e.costs(func(rowInfo) bool { return true })})
	if point == nil {
		return nil, nil, false
	}
	for k, i := range e.rows {
		short := point[e.cols[k]]
		if short <= shortTolerance*r.Problem.Rows[i].Lower {
			continue
		}
		info := r.rows[i]
		target := r.Problem.Rows[i].Lower / info.perDay
		r.Problem.Rows[i].Lower = math.Max(0, r.Problem.Rows[i].Lower-short*(1+shortTolerance))
		shortfalls = append(shortfalls, Shortfall{
			Person:   r.eaters[info.eater].person.Name,
			Nutrient: info.nutrient.Name(),
			Unit:     info.unit,
			Amount:   r.Problem.Rows[i].Lower / info.perDay,
			Target:   target,
		})
	}
	return shortfalls, point[:len(r.cols)], len(shortfalls) > 0
}

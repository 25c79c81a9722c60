package solver

import (
	"context"
	"math"

	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// storedVitamins are those that the body stores for longer than a fortnight
// (vitamins A, D and B12; requirements' notes, compiler's note).
var storedVitamins = []nutrients.Nutrient{nutrients.VitaminA, nutrients.VitaminD, nutrients.VitaminB12}

// storedThorough is how much longer whole packs are sought for the least shortfall
// of a plan than for a ration that only shows what comes closest.
const storedThorough = 4

// relaxStoredVitamins tries to make the program fit by giving up as little as
// possible of vitamins A, D and B12 alone. If that is enough, it lowers the
// floors to what can be reached, and says whose and how much; start is a point
// of the program then.
func (r *Ration) relaxStoredVitamins(ctx context.Context) (shortfalls []ration.Shortfall, start []float64, ok bool) {
	e := r.soften(rowInfo.stored, false)
	if len(e.rows) == 0 {
		return nil, nil, false
	}
	e.thorough = storedThorough
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
		shortfalls = append(shortfalls, ration.Shortfall{
			Person:   r.eaters[info.eater].person.Name,
			Nutrient: info.nutrient.Name(),
			Unit:     info.unit,
			Amount:   r.Problem.Rows[i].Lower / info.perDay,
			Target:   target,
		})
	}
	return shortfalls, point[:len(r.cols)], len(shortfalls) > 0
}

// gets replaces the amounts of shortfalls, which are what the plan must reach, by
// what the people of p get, and leaves out what is reached after all.
func gets(p *ration.Plan, shortfalls []ration.Shortfall) []ration.Shortfall {
	var list []ration.Shortfall
	for _, s := range shortfalls {
		for i := range p.People {
			if n := p.People[i].Need(s.Nutrient); p.People[i].Name == s.Person && n != nil {
				s.Amount = n.Amount
			}
		}
		if s.Amount < s.Target*(1-shortTolerance) {
			list = append(list, s)
		}
	}
	return list
}

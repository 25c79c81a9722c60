package solver

import (
	"strings"

	"rationwright/solver/ration"
)

// pointOf is the point of the model that a plan describes.
func (r *Ration) pointOf(plan *ration.Plan) []float64 {
	x := make([]float64, len(r.cols))
	for _, line := range plan.Packs {
		r.placePacks(x, line)
	}
	for i, e := range r.eaters {
		if e.drink >= 0 {
			x[e.drink] = plan.People[i].DrinkLPerDay * r.days()
		}
		for _, y := range e.eats {
			for _, f := range plan.People[i].Foods {
				if f.Food == r.larder[y.food].food.Name {
					x[y.col] = f.Grams
				}
			}
		}
	}
	x[r.water], x[r.heat] = plan.Totals.WaterL, plan.Totals.HeatMJ
	for j, info := range r.cols {
		switch info.kind {
		case colOwnWater:
			x[j] = plan.Totals.OwnWaterL
		case colOwnHeat:
			x[j] = plan.Totals.OwnHeatMJ
		}
	}
	return x
}

// placePacks puts one line of a plan into the columns of a point.
func (r *Ration) placePacks(x []float64, line ration.PlanPack) {
	stock, bought := line.FromStock, line.Count-line.FromStock
	for _, lf := range r.larder {
		if !strings.EqualFold(lf.food.Name, line.Food) {
			continue
		}
		cols := lf.supply()
		if line.Reserve {
			cols = lf.reserve
		}
		for _, k := range cols {
			switch {
			case k.pack.Key != line.Pack:
			case k.line < 0:
				x[k.col], bought = float64(bought), 0
			default:
				n := min(float64(stock), r.Problem.Cols[k.col].Upper)
				x[k.col] = n
				stock -= int(n)
			}
		}
	}
}

package solver

import (
	"context"
	"fmt"
	"math"

	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// longest is the longest horizon of up to 365 days for which the stock alone
// fits what loosen leaves in force.
//
// Bisection is valid because a ration for D days, scaled by D'/D, is one for
// D' < D days. Needs, caps, the pattern, the water and heat used and the amounts
// eaten by a date all scale with the horizon. What one pack counts for,
// min(net, window, cap), shrinks by no more than D'/D, since each of the three
// is concave in D and not below zero at 0; where the number of packs in use is
// bounded, they hold the whole cap of D' days, each eater's by itself. The water and heat on
// hand and the dates stay, so a shorter horizon only has more room.
//
// Whole packs change nothing: stock costs nothing and no total is limited, so
// that all of it may be in use, and the relaxation decides.
func longest(ctx context.Context, req *ration.Request, loosen func(*Ration)) (int, error) {
	low, high := 0, ration.MostDays+1 // fits at low, not at high
	for high-low > 1 {
		mid := nextProbe(low, high, req.Days)
		ok, err := stockFits(ctx, req, mid, loosen)
		if err != nil {
			return 0, err
		}
		if ok {
			low = mid
		} else {
			high = mid
		}
	}
	return low, nil
}

// nextProbe is the middle, after the days asked and twice as many have been
// tried: most stocks end near there.
func nextProbe(low, high, asked int) int {
	switch {
	case low == 0 && asked < high:
		return min(asked, (low+high)/2)
	case high > ration.MostDays && 2*low < high && 2*low > 0:
		return 2 * low
	default:
		return (low + high) / 2
	}
}

// stockFits reports whether the stock alone lasts that many days.
func stockFits(ctx context.Context, req *ration.Request, days int, loosen func(*Ration)) (bool, error) {
	r, err := buildFor(req, days)
	if err != nil {
		return false, err
	}
	loosen(r)
	return r.feasible(ctx, r.Problem)
}

// buildFor builds the model of another horizon.
func buildFor(req *ration.Request, days int) (*Ration, error) {
	trial := *req
	trial.Days = days
	return Build(&trial)
}

// forNeeds leaves everything in force but the sugar set aside, which does not
// grow with the days and is judged by itself.
func forNeeds(r *Ration) {
	for _, lf := range r.larder {
		for _, k := range lf.reserve {
			r.Problem.Cols[k.col].Upper = 0
		}
	}
	for i, info := range r.rows {
		if info.kind == rowReserve {
			r.Problem.Rows[i].Lower = math.Inf(-1)
		}
	}
}

// forEnergy leaves the energy floors in force, who may eat how much of what,
// and the milk of infants.
func forEnergy(r *Ration) {
	forNeeds(r)
	for i, info := range r.rows {
		row := &r.Problem.Rows[i]
		switch info.kind {
		case rowNutrient:
			row.Upper = math.Inf(1)
			if info.nutrient != nutrients.Energy {
				row.Lower = math.Inf(-1)
			}
		case rowAfter:
			if info.nutrient != nutrients.Energy && info.class == requirement {
				row.Lower = math.Inf(-1)
			}
		case rowShare, rowPattern, rowGlycaemic, rowCompanion, rowWater, rowLimit, rowUser:
			row.Lower, row.Upper = math.Inf(-1), math.Inf(1)
		}
	}
}

// firstShort names what runs out on a horizon that the stock cannot fill: the
// water or the heat on hand where more of it alone would do, else the need that
// falls furthest short in relation to its floor.
func firstShort(ctx context.Context, req *ration.Request, days int) (string, error) {
	r, err := buildFor(req, days)
	if err != nil {
		return "", err
	}
	forNeeds(r)
	for i, info := range r.rows {
		if info.kind != rowLimit {
			continue
		}
		p := r.copyProblem()
		p.Rows[i].Upper = math.Inf(1)
		if ok, err := r.feasible(ctx, p); err != nil || ok {
			return info.text, err
		}
	}
	e := r.soften(inStockCheck, true)
	point, _ := e.relaxedLeast(ctx, [][]float64{e.costs(func(rowInfo) bool { return true })}, nil, 0)
	if point == nil {
		return "", nil
	}
	worst, first, name := shortTolerance, math.MaxInt, ""
	for k := range e.rows {
		share := point[e.cols[k]] * e.weights[k] / everyoneWeight
		if share <= shortTolerance || e.signs[k] < 0 {
			continue
		}
		matters := rank(e.kinds[k].name())
		if share > worst+heldTolerance || share > worst-heldTolerance && matters < first {
			worst, first = share, matters
			name = e.kinds[k].text
			if who := e.kinds[k].eater; who >= 0 {
				name = fmt.Sprintf("%s (%s)", name, r.eaters[who].person.Name)
			}
		}
	}
	return name, nil
}

// caloriesLast is the energy of the stock that is of some use here over that which
// everyone requires a day, in days.
func (r *Ration) caloriesLast() float64 {
	energy, need := 0.0, 0.0
	for _, line := range r.Request.Stock {
		if r.uselessBecause(line) == "" {
			kcal, _ := intake([]portion{{line.Pack.Food, line.Count * line.Pack.NetG}}, nutrients.Energy, 1)
			energy += kcal
		}
	}
	for _, e := range r.eaters {
		need += e.count * e.needs.EER.Amount
	}
	if need <= 0 {
		return 0
	}
	return energy / need
}

package check

import (
	"context"
	"fmt"
	"math"

	"rationwright/nutrients"
	"rationwright/solver/elastic"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
	"rationwright/solver/search"
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
//
// Where the time ends first the span says how far it came.
func longest(ctx context.Context, req *ration.Request, loosen func(*model.Model) *model.Model) (span, error) {
	s := span{fits: 0, fails: ration.MostDays + 1}
	for !s.settled() {
		mid := nextProbe(s.fits, s.fails, req.Days)
		ok, err := stockFits(ctx, req, mid, loosen)
		switch {
		case search.OutOfTime(ctx):
			return s, nil
		case err != nil:
			return s, err
		case ok:
			s.fits = mid
		default:
			s.fails = mid
		}
	}
	return s, nil
}

// span is what is known of a horizon, in days: one that fits and a longer one that
// does not.
type span struct{ fits, fails int }

func (s span) settled() bool { return s.fails-s.fits <= 1 }

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
func stockFits(ctx context.Context, req *ration.Request, days int, loosen func(*model.Model) *model.Model) (bool, error) {
	m, err := buildFor(req, days)
	if err != nil {
		return false, err
	}
	m = loosen(m)
	return search.Feasible(ctx, m, m.Problem)
}

// buildFor builds the model of another horizon.
func buildFor(req *ration.Request, days int) (*model.Model, error) {
	trial := *req
	trial.Days = days
	return model.Build(&trial)
}

// forNeeds leaves everything in force but the sugar set aside, which does not
// grow with the days and is judged by itself.
func forNeeds(m *model.Model) *model.Model {
	return m.With(func(p *linear.Problem) {
		for _, lf := range m.Larder {
			for _, k := range lf.Reserve {
				p.Cols[k.Col].Upper = 0
			}
		}
		for i, info := range m.Rows {
			if info.Kind == model.RowReserve {
				p.Rows[i].Lower = math.Inf(-1)
			}
		}
	})
}

// forEnergy leaves the energy floors in force, who may eat how much of what,
// and the milk of infants.
func forEnergy(m *model.Model) *model.Model {
	return forNeeds(m).With(func(p *linear.Problem) {
		for i, info := range m.Rows {
			row := &p.Rows[i]
			switch info.Kind {
			case model.RowNutrient:
				row.Upper = math.Inf(1)
				if info.Nutrient != nutrients.Energy {
					row.Lower = math.Inf(-1)
				}
			case model.RowAfter:
				if info.Nutrient != nutrients.Energy && info.Class == model.Requirement {
					row.Lower = math.Inf(-1)
				}
			case model.RowShare, model.RowPattern, model.RowGlycaemic, model.RowCompanion, model.RowWater, model.RowLimit,
				model.RowUser:
				row.Lower, row.Upper = math.Inf(-1), math.Inf(1)
			}
		}
	})
}

// firstShort names what runs out on a horizon that the stock cannot fill: the
// water or the heat on hand where more of it alone would do, else the need that
// falls furthest short in relation to its floor.
func firstShort(ctx context.Context, req *ration.Request, days int) (string, error) {
	m, err := buildFor(req, days)
	if err != nil {
		return "", err
	}
	return runsOut(ctx, forNeeds(m))
}

// runsOut is [firstShort] of a model.
func runsOut(ctx context.Context, m *model.Model) (string, error) {
	for i, info := range m.Rows {
		if info.Kind != model.RowLimit {
			continue
		}
		p := m.Problem.Clone()
		p.Rows[i].Upper = math.Inf(1)
		if ok, err := search.Feasible(ctx, m, p); err != nil || ok {
			return info.Text, err
		}
	}
	e := elastic.New(m, inStockCheck, true)
	point, _ := e.RelaxedLeast(ctx, [][]float64{e.Costs(func(model.RowInfo) bool { return true })}, nil, 0)
	if point == nil {
		return "", nil
	}
	worst, first, name := search.ShortTolerance, math.MaxInt, ""
	for k := range e.Rows {
		share := point[e.Cols[k]] * e.Weights[k] / elastic.EveryoneWeight
		if share <= search.ShortTolerance || e.Signs[k] < 0 {
			continue
		}
		matters := elastic.Rank(e.Kinds[k].Name())
		if share > worst+search.HeldTolerance || share > worst-search.HeldTolerance && matters < first {
			worst, first = share, matters
			name = e.Kinds[k].Text
			if who := e.Kinds[k].Eater; who >= 0 {
				name = fmt.Sprintf("%s (%s)", name, m.Eaters[who].Person.Name)
			}
		}
	}
	return name, nil
}

// caloriesLast is the energy of the stock that is of some use here over that which
// everyone requires a day, in days.
func caloriesLast(m *model.Model) float64 {
	energy, need := 0.0, 0.0
	for _, line := range m.Request.Stock {
		if uselessBecause(m, line) == "" {
			kcal, _ := rules.Intake([]rules.Portion{{Food: line.Pack.Food, Grams: line.Count * line.Pack.NetG}}, nutrients.Energy, 1)
			energy += kcal
		}
	}
	for _, e := range m.Eaters {
		need += e.Count * e.Needs.EER.Amount
	}
	if need <= 0 {
		return 0
	}
	return energy / need
}

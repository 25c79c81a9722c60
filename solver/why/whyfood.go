package why

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// FoodPrice says at what prices a food enters or leaves the relaxation.
type FoodPrice struct {
	Food   string `json:"food"`
	NDB    string `json:"ndb,omitempty"`
	Chosen bool   `json:"chosen"`  // by the relaxation
	InPlan int    `json:"in_plan"` // packs of it in the plan, in whole packs

	// Factor is what all prices of the food would have to be multiplied with for it
	// to enter, or to leave: under 1 for a food that is not chosen, over 1 for one
	// that is. Absent for a food that nothing replaces, or that stays out at any
	// price.
	Factor *float64    `json:"factor,omitempty"`
	Packs  []PackPrice `json:"packs"`
}

// PackPrice says at what price a pack enters or leaves the relaxation, the
// prices of all others as they are.
type PackPrice struct {
	Pack   string   `json:"pack"`
	Price  float64  `json:"price"`            // now, in the unit of the objective
	Chosen float64  `json:"chosen,omitempty"` // packs in the relaxation, may be a fraction
	Enters *float64 `json:"enters,omitempty"` // not chosen: enters below about this price; 0 or under, at no price
	Leaves *float64 `json:"leaves,omitempty"` // chosen: leaves above about this price; absent: nothing replaces it
}

// tasteOf is the part of a pack that is put into the relaxation to see what it
// is worth there: as little as the arithmetic allows, so that it is worth what
// the first gram is.
const tasteOf = 1e-3

// nearestFoods is how many foods that are not chosen are explained unasked.
const nearestFoods = 20

// foods explains the named foods, or those in the plan and the nearest others.
func (w *explainer) foods(ctx context.Context, named []*foods.Food) ([]FoodPrice, error) {
	list := []FoodPrice{}
	for _, li := range w.chooseFoods(named) {
		p, err := w.food(ctx, li)
		if search.OutOfTime(ctx) {
			break // what there is so far
		}
		if err != nil {
			return nil, err
		}
		list = append(list, p)
	}
	slices.SortStableFunc(list, func(a, b FoodPrice) int {
		return cmp.Or(search.CompareBool(b.Chosen, a.Chosen), cmp.Compare(a.distance(), b.distance()))
	})
	return list, nil
}

// distance is how far the prices of a food are from where it enters or leaves,
// as a factor from 1 up.
func (p *FoodPrice) distance() float64 {
	if p.Factor == nil || *p.Factor <= 0 {
		return math.Inf(1)
	}
	return math.Max(*p.Factor, 1 / *p.Factor)
}

// chooseFoods picks the foods to explain, by larder index.
func (w *explainer) chooseFoods(named []*foods.Food) []int {
	var chosen, others []int
	near := make([]float64, len(w.model.Larder))
	for li, lf := range w.model.Larder {
		if len(lf.Buy) == 0 || len(named) > 0 && !slices.Contains(named, lf.Food) {
			continue
		}
		if len(named) > 0 || w.chosen(lf) || w.inPlan(lf.Food) > 0 {
			chosen = append(chosen, li)
			continue
		}
		near[li] = math.Inf(1)
		for _, k := range lf.Buy {
			near[li] = math.Min(near[li], w.root.Reduced[k.Col]/w.model.Problem.Cols[k.Col].Cost)
		}
		others = append(others, li)
	}
	slices.SortStableFunc(others, func(a, b int) int { return cmp.Compare(near[a], near[b]) })
	return append(chosen, others[:min(len(others), nearestFoods)]...)
}

// chosen reports whether the relaxation has any of the food.
func (w *explainer) chosen(lf *model.LarderFood) bool {
	return slices.ContainsFunc(lf.Buy, func(k model.PackCol) bool { return w.root.X[k.Col] > search.ChosenTolerance })
}

// food explains one food. A pack is in an optimum exactly when its price is at
// most what its contents are worth in the relaxation without it; that worth is
// the price of a taste of it there, price − reduced cost, since a taste, unlike
// nothing, fixes the prices of the food's own rows.
func (w *explainer) food(ctx context.Context, li int) (FoodPrice, error) {
	lf := w.model.Larder[li]
	out := FoodPrice{Food: lf.Food.Name, NDB: ration.NDBOf(lf.Food), Chosen: w.chosen(lf), InPlan: w.inPlan(lf.Food)}
	for _, k := range lf.Buy {
		p := PackPrice{Pack: k.Pack.Key, Price: w.model.Problem.Cols[k.Col].Cost}
		if x := w.root.X[k.Col]; x > search.ChosenTolerance {
			p.Chosen = x
		}
		worth, ok, err := w.worth(ctx, k, []model.PackCol{k})
		if err != nil {
			return out, err
		}
		switch {
		case !ok:
		case p.Chosen > 0:
			p.Leaves = &worth
		default:
			p.Enters = &worth
		}
		out.Packs = append(out.Packs, p)
	}
	best := 0.0
	for _, k := range lf.Buy {
		worth, ok, err := w.worth(ctx, k, lf.Buy)
		if err != nil {
			return out, err
		}
		if !ok {
			return out, nil // nothing fits without the food
		}
		best = math.Max(best, worth/w.model.Problem.Cols[k.Col].Cost)
	}
	if best > 0 {
		out.Factor = &best
	}
	return out, nil
}

// worth is what a taste of pack k is worth in the relaxation without the packs
// of without; ok is false where nothing fits without them.
func (w *explainer) worth(ctx context.Context, k model.PackCol, without []model.PackCol) (worth float64, ok bool, err error) {
	cols := w.model.Problem.Cols
	for _, out := range without {
		w.lp.SetBounds(out.Col, 0, 0)
		defer w.lp.SetBounds(out.Col, cols[out.Col].Lower, cols[out.Col].Upper)
	}
	w.lp.SetBounds(k.Col, tasteOf, tasteOf)
	switch result := w.lp.Solve(ctx); result.Status {
	case simplex.Optimal:
		return ration.NoResidue(cols[k.Col].Cost - result.Reduced[k.Col]), true, nil
	case simplex.Infeasible:
		return 0, false, nil
	default:
		return 0, false, fmt.Errorf("%w: %s", ration.ErrNumerical, result.Why)
	}
}

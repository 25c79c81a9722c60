package solver

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/solver/ration"
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

// chosenTolerance is the part of a pack under which the relaxation does not
// choose it: the simplex method's feasibility tolerance, with room.
const chosenTolerance = 1e-6

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
		if err != nil {
			return nil, err
		}
		list = append(list, p)
	}
	slices.SortStableFunc(list, func(a, b FoodPrice) int {
		return cmp.Or(compareBool(b.Chosen, a.Chosen), cmp.Compare(a.distance(), b.distance()))
	})
	return list, nil
}

func compareBool(a, b bool) int {
	switch {
	case a == b:
		return 0
	case b:
		return -1
	default:
		return 1
	}
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
	near := make([]float64, len(w.ration.larder))
	for li, lf := range w.ration.larder {
		if len(lf.buy) == 0 || len(named) > 0 && !isNamed(named, lf.food) {
			continue
		}
		if len(named) > 0 || w.chosen(lf) || w.inPlan(lf.food) > 0 {
			chosen = append(chosen, li)
			continue
		}
		near[li] = math.Inf(1)
		for _, k := range lf.buy {
			near[li] = math.Min(near[li], w.root.Reduced[k.col]/w.ration.Problem.Cols[k.col].Cost)
		}
		others = append(others, li)
	}
	slices.SortStableFunc(others, func(a, b int) int { return cmp.Compare(near[a], near[b]) })
	return append(chosen, others[:min(len(others), nearestFoods)]...)
}

// chosen reports whether the relaxation has any of the food.
func (w *explainer) chosen(lf *larderFood) bool {
	return slices.ContainsFunc(lf.buy, func(k packCol) bool { return w.root.X[k.col] > chosenTolerance })
}

// food explains one food. A pack is in an optimum exactly when its price is at
// most what its contents are worth in the relaxation without it; that worth is
// the price of a taste of it there, price − reduced cost, since a taste, unlike
// nothing, fixes the prices of the food's own rows.
func (w *explainer) food(ctx context.Context, li int) (FoodPrice, error) {
	lf := w.ration.larder[li]
	out := FoodPrice{Food: lf.food.Name, NDB: ration.NDBOf(lf.food), Chosen: w.chosen(lf), InPlan: w.inPlan(lf.food)}
	for _, k := range lf.buy {
		p := PackPrice{Pack: k.pack.Key, Price: w.ration.Problem.Cols[k.col].Cost}
		if x := w.root.X[k.col]; x > chosenTolerance {
			p.Chosen = x
		}
		worth, ok, err := w.worth(ctx, k, []packCol{k})
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
	for _, k := range lf.buy {
		worth, ok, err := w.worth(ctx, k, lf.buy)
		if err != nil {
			return out, err
		}
		if !ok {
			return out, nil // nothing fits without the food
		}
		best = math.Max(best, worth/w.ration.Problem.Cols[k.col].Cost)
	}
	if best > 0 {
		out.Factor = &best
	}
	return out, nil
}

// worth is what a taste of pack k is worth in the relaxation without the packs
// of without; ok is false where nothing fits without them.
func (w *explainer) worth(ctx context.Context, k packCol, without []packCol) (worth float64, ok bool, err error) {
	cols := w.ration.Problem.Cols
	for _, out := range without {
		w.lp.setBounds(out.col, 0, 0)
		defer w.lp.setBounds(out.col, cols[out.col].Lower, cols[out.col].Upper)
	}
	w.lp.setBounds(k.col, tasteOf, tasteOf)
	switch result := w.lp.solve(ctx); result.Status {
	case simplex.Optimal:
		return ration.NoResidue(cols[k.col].Cost - result.Reduced[k.col]), true, nil
	case simplex.Infeasible:
		return 0, false, nil
	default:
		return 0, false, fmt.Errorf("%w: %s", ration.ErrNumerical, result.Why)
	}
}

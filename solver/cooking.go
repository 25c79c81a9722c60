package solver

import (
	"fmt"
	"slices"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/solver/ration"
)

// withCooking returns req with cooking up to cook, on the usual stove where its
// own does not serve that.
func withCooking(req *ration.Request, cook ration.Cook) *ration.Request {
	out := *req
	out.Cook = cook
	if ration.OnStove(cook, req.Stove) != cook {
		out.Stove = stores.UsualStove
	}
	return &out
}

// checkBoiling refuses to plan for boiled water without the means to boil.
func checkBoiling(req *ration.Request) error {
	if !req.BoilWater || ration.CookRank[string(req.Cook)] >= ration.CookRank[string(ration.CookBoil)] {
		return nil
	}
	return fmt.Errorf("%w: cooking goes no further than %s; allow boiling, name a stove that boils, or disinfect the water by other means", ration.ErrNoBoiling, req.Cook)
}

// canCook reports whether a household that cooks up to cook can make f ready,
// heated or cold.
func canCook(cook ration.Cook, f *foods.Food) bool {
	if f.Preparation == nil {
		return true
	}
	return f.Preparation.ColdOK || ration.CookRank[f.Preparation.Class] <= ration.CookRank[string(cook)]
}

// eatenCold reports whether f is eaten without its usual heating: because the
// household does not cook that far, or because its heat is limited and f can be
// eaten cold.
func eatenCold(req *ration.Request, f *foods.Food) bool {
	return f.Preparation.ColdOK && (ration.CookRank[f.Preparation.Class] > ration.CookRank[string(req.Cook)] || req.Limits.HeatMJ != nil)
}

// noteCold says how food is counted that can be eaten hot or cold.
func (r *Ration) noteCold() {
	either := slices.ContainsFunc(r.larder, func(lf *larderFood) bool {
		p := lf.food.Preparation
		return lf.capG > 0 && p != nil && p.ColdOK && p.HeatMJ > 0 && ration.CookRank[p.Class] <= ration.CookRank[string(r.Request.Cook)]
	})
	switch {
	case !either:
	case r.Request.Limits.HeatMJ != nil:
		r.notes = append(r.notes, "Heat is limited: what can be eaten cold is counted as eaten cold.")
	default:
		r.notes = append(r.notes, "What can be eaten hot or cold is counted as eaten hot; --max-heat or --cook none plans it cold.")
	}
}

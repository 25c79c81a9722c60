package solver

import (
	"errors"
	"fmt"
	"slices"

	"rationwright/foods"
	"rationwright/foods/stores"
)

// ErrNoBoiling is returned when drinking water must be boiled and nothing can
// boil it.
var ErrNoBoiling = errors.New("drinking water cannot be boiled")

// cookRank orders the classes of preparation.
var cookRank = map[string]int{"none": 0, "warm": 1, "boil": 2, "simmer": 3}

// onStove returns the most demanding cooking of cook that the stove serves; a
// stove that is not in the table limits nothing, as [suppliesOf] refuses it.
func onStove(cook Cook, stove string) Cook {
	s, err := stores.StoveByName(stove)
	if err != nil || cookRank[s.MostCooking()] >= cookRank[string(cook)] {
		return cook
	}
	return Cook(s.MostCooking())
}

// withCooking returns req with cooking up to cook, on the usual stove where its
// own does not serve that.
func withCooking(req *Request, cook Cook) *Request {
	out := *req
	out.Cook = cook
	if onStove(cook, req.Stove) != cook {
		out.Stove = stores.UsualStove
	}
	return &out
}

// checkBoiling refuses to plan for boiled water without the means to boil.
func checkBoiling(req *Request) error {
	if !req.BoilWater || cookRank[string(req.Cook)] >= cookRank[string(CookBoil)] {
		return nil
	}
	return fmt.Errorf("%w: cooking goes no further than %s; allow boiling, name a stove that boils, or disinfect the water by other means", ErrNoBoiling, req.Cook)
}

// canCook reports whether a household that cooks up to cook can make f ready,
// heated or cold.
func canCook(cook Cook, f *foods.Food) bool {
	if f.Preparation == nil {
		return true
	}
	return f.Preparation.ColdOK || cookRank[f.Preparation.Class] <= cookRank[string(cook)]
}

// eatenCold reports whether f is eaten without its usual heating: because the
// household does not cook that far, or because its heat is limited and f can be
// eaten cold.
func eatenCold(req *Request, f *foods.Food) bool {
	return f.Preparation.ColdOK && (cookRank[f.Preparation.Class] > cookRank[string(req.Cook)] || req.Limits.HeatMJ != nil)
}

// noteCold says how food is counted that can be eaten hot or cold.
func (r *Ration) noteCold() {
	either := slices.ContainsFunc(r.larder, func(lf *larderFood) bool {
		p := lf.food.Preparation
		return lf.capG > 0 && p != nil && p.ColdOK && p.HeatMJ > 0 && cookRank[p.Class] <= cookRank[string(r.Request.Cook)]
	})
	switch {
	case !either:
	case r.Request.Limits.HeatMJ != nil:
		r.notes = append(r.notes, "Heat is limited: what can be eaten cold is counted as eaten cold.")
	default:
		r.notes = append(r.notes, "What can be eaten hot or cold is counted as eaten hot; --max-heat or --cook none plans it cold.")
	}
}

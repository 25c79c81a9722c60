package rules

import (
	"fmt"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/solver/ration"
)

// WithCooking returns req with cooking up to cook, on the usual stove where its
// own does not serve that.
func WithCooking(req *ration.Request, cook ration.Cook) *ration.Request {
	out := *req
	out.Cook = cook
	if ration.OnStove(cook, req.Stove) != cook {
		out.Stove = stores.UsualStove
	}
	return &out
}

// CheckBoiling refuses to plan for boiled water without the means to boil.
func CheckBoiling(req *ration.Request) error {
	if !req.BoilWater || ration.CookRank[string(req.Cook)] >= ration.CookRank[string(ration.CookBoil)] {
		return nil
	}
	return fmt.Errorf("%w: cooking goes no further than %s; allow boiling, name a stove that boils, or disinfect the water by other means", ration.ErrNoBoiling, req.Cook)
}

// CanCook reports whether a household that cooks up to cook can make f ready,
// heated or cold.
func CanCook(cook ration.Cook, f *foods.Food) bool {
	if f.Preparation == nil {
		return true
	}
	return f.Preparation.ColdOK || ration.CookRank[f.Preparation.Class] <= ration.CookRank[string(cook)]
}

// EatenCold reports whether f is eaten without its usual heating: because the
// household does not cook that far, or because its heat is limited and f can be
// eaten cold.
func EatenCold(req *ration.Request, f *foods.Food) bool {
	return f.Preparation.ColdOK && (ration.CookRank[f.Preparation.Class] > ration.CookRank[string(req.Cook)] || req.Limits.HeatMJ != nil)
}

// CookingLimits says what each class of cooking leaves out.
var CookingLimits = map[ration.Cook]string{
	ration.CookNone: "no cooking",
	ration.CookWarm: "no cooking beyond heating food through",
	ration.CookBoil: "no cooking beyond boiling, under 20 minutes' simmering",
}

// CookingWords says what each class of cooking takes, beyond the class before.
var CookingWords = map[ration.Cook]string{
	ration.CookWarm:   "allow heating food through",
	ration.CookBoil:   "allow boiling, under 20 minutes' simmering",
	ration.CookSimmer: "allow long simmering and baking",
}

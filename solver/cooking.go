package solver

import "rationwright/foods"

// cookRank orders the classes of preparation.
var cookRank = map[string]int{"none": 0, "warm": 1, "boil": 2, "simmer": 3}

// canCook reports whether a household that cooks up to cook can make f ready,
// heated or cold.
func canCook(cook Cook, f *foods.Food) bool {
	if f.Preparation == nil {
		return true
	}
	return f.Preparation.ColdOK || cookRank[f.Preparation.Class] <= cookRank[string(cook)]
}

// eatenCold reports whether f is eaten without its usual heating.
func eatenCold(cook Cook, f *foods.Food) bool {
	return f.Preparation.ColdOK && cookRank[f.Preparation.Class] > cookRank[string(cook)]
}

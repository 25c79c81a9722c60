package rules

import (
	"cmp"

	"rationwright/foods"
)

// Sittings splits the ratios of an ingredient into its own amount at one
// sitting, in g, and the sittings that a gram of each companion is.
func Sittings(f *foods.Food, companions []foods.Companion) (sitting float64, shares map[*foods.Food]float64) {
	sitting = cmp.Or(f.OccasionG, 1)
	shares = map[*foods.Food]float64{}
	for _, c := range companions {
		shares[c.Food] = c.Ratio / sitting
	}
	return sitting, shares
}

package dishes

import (
	"rationwright/foods"
)

// Water returns the mL of water that grams of f take in the part, and what of it is
// thrown away (soaking water, water that is drained off). Where the dish takes other
// water than the food is prepared with, that is said of the food it is reckoned with:
// another takes as much more or less as it does by itself.
func (p *Part) Water(f *foods.Food, grams float64) (addedML, discardedML float64) {
	own, with := f.Preparation, p.ReckonedAs.Preparation
	switch {
	case p.WaterML != nil && f.Form == p.ReckonedAs.Form:
		return grams * *p.WaterML / 100, 0
	case own == nil:
		return 0, 0
	case p.WaterML != nil && with != nil && with.WaterML > 0:
		return grams * *p.WaterML / 100 * own.WaterML / with.WaterML, 0
	}
	return grams * own.WaterML / 100, grams * own.DiscardedML / 100
}

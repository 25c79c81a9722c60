package rules

import (
	"math"

	"rationwright/foods"
	"rationwright/nutrients"
)

// evenPart is the part of a day's need of what a medicine asks to keep alike that one
// opening of a food which does not keep holds at most: a day with it is then that much
// over a day without. Own planning rule; the medicines' texts name no figure.
const evenPart = 0.4

// evenG is the most of f in g that a person eats of one opening whose medicine asks to keep
// a nutrient alike from day to day; it is +Inf where that sets nothing.
func evenG(needs *nutrients.Needs, f *foods.Food) float64 {
	most := math.Inf(1)
	for _, n := range needs.Steady {
		each := f.Per100g.Known(n) / 100
		for _, need := range needs.List {
			if need.Nutrient == n && need.Floor != nil && each > 0 {
				most = math.Min(most, evenPart*need.Floor.Amount*float64(f.Keeping.OpenDays())/each)
			}
		}
	}
	return most
}

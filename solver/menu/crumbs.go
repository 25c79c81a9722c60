package menu

import (
	"slices"

	"rationwright/foods"
)

const (
	crumbShare      = 0.12 // of the usual grams of a part, under which a serving is a crumb
	crumbBesideKcal = 15
	evenCrumb       = 0.02 // of a day's mean of what a medicine asks to keep alike
	leastLeftG      = 1e-4 // g more that nobody eats: so little is the arithmetic's
	leastServedG    = 0.5  // under which a serving goes to another of the same food
)

// left is the grams of the plan that nobody eats at a point.
func (p *program) left(x []float64) float64 {
	sum := 0.0
	for _, j := range p.uneaten {
		sum += x[j]
	}
	return sum
}

// keepsAlike reports whether so much of a serving is felt in what a medicine asks to keep
// alike from day to day.
func (v *serving) keepsAlike(grams float64) bool {
	return slices.ContainsFunc(v.eater.steady, func(a evened) bool {
		return grams*v.food.food.Per100g.Known(a.of)/100 > evenCrumb*a.mean
	})
}

// isCrumb reports whether a serving is too little to be served. Small servings of what a
// medicine asks to keep alike are what keeps it alike, and those of what is published as
// the most of a day what keeps within it.
func (v *serving) isCrumb(grams float64, days int) bool {
	if v.keepsAlike(grams) || v.eater.isTight(v.food.food, days) {
		return false
	}
	if v.part == nil {
		least, kcal := crumbBesideKcal*v.eater.size, kcalPerG(v.food.food)
		if occasion, _, _ := foods.Cap(v.eater.person, v.food.food); occasion > 0 && occasion*kcal < least {
			return false // a whole sitting of it gives less: all of it at one meal were no better
		}
		return grams*kcal < least && kcal > 0.5
	}
	factor, _ := v.part.part.Makes(v.food.food)
	return grams < crumbShare*v.part.part.UsualG*factor*v.eater.scale(v.of.dish)
}

// gathered returns the servings without those of less than leastServedG: what the arithmetic
// leaves of a food that keeps is eaten with the smallest other serving that the person has of
// it, of one that does not with another at the same meal; not beyond what is published for a
// day.
func gathered(servings []serving, days int) []serving {
	type eaten struct {
		eater *eater
		food  *stocked
		t     int // of what does not keep
	}
	at := func(v *serving) eaten {
		if v.food.openings == nil {
			return eaten{v.eater, v.food, 0}
		}
		return eaten{v.eater, v.food, v.t}
	}
	small := func(v *serving) bool {
		return v.grams < leastServedG && !v.keepsAlike(v.grams) && !v.eater.isTight(v.food.food, days)
	}
	with := map[eaten]*serving{}
	for i := range servings {
		v := &servings[i]
		if k := at(v); !small(v) && (with[k] == nil || v.grams < with[k].grams) {
			with[k] = v
		}
	}
	for i := range servings {
		v := &servings[i]
		if to := with[at(v)]; small(v) && to != nil && to.grams+v.grams <= v.eater.dayMost(v.food.food) {
			to.grams += v.grams
			v.grams = 0
		}
	}
	return slices.DeleteFunc(servings, func(v serving) bool { return v.grams <= 0 })
}

package verify

import (
	"rationwright/foods"
	"rationwright/solver/ration"
)

// A food is worth having in a store where somebody has so many portions of it in all
// the days; one portion is such a part of the most at one sitting. Planning rules of
// this program, no source.
const (
	portionsInAll    = 2
	portionOfSitting = 0.5
)

// eatable holds what the plan says of its own products, sizes and amounts under a
// portion to its packs and to what people eat.
func (c *checker) eatable() {
	said := c.plan.Eatable
	if said == nil || c.closest {
		return
	}
	sizes := map[string]map[string]bool{}
	for _, line := range c.plan.Packs {
		if line.Reserve {
			continue
		}
		if sizes[line.Food] == nil {
			sizes[line.Food] = map[string]bool{}
		}
		sizes[line.Food][line.Pack] = true
	}
	most := 0
	for _, of := range sizes {
		most = max(most, len(of))
	}
	c.same("", "different foods", float64(said.Products), float64(len(sizes)))
	c.same("", "most sizes of a food", float64(said.MostSizes), float64(most))
	small, eaters := 0, 0
	portions := map[*foods.Food]int{}
	for _, d := range c.diners {
		if d.needs.Feed != nil {
			continue
		}
		eaters++
		for _, h := range d.eaten {
			sitting, _ := c.sittingAndDay(d, h.food)
			if h.grams < portionsInAll*portionOfSitting*sitting*(1-Tolerance) {
				small++
			} else {
				portions[h.food]++
			}
		}
	}
	c.same("", "amounts under a portion", float64(said.Crumbs), float64(small))
	there := map[string]bool{} // kinds of which half of those who eat have portions
	for f, n := range portions {
		for _, kind := range f.Kinds {
			there[kind] = there[kind] || 2*n >= eaters
		}
	}
	c.same("", "different mains", float64(said.Mains), float64(ration.DifferentMains(c.req.Cook, func(kind string) bool { return there[kind] })))
}

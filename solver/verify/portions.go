package verify

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
	small := 0
	for _, d := range c.diners {
		if d.needs.Feed != nil {
			continue
		}
		for _, h := range d.eaten {
			sitting, _ := c.sittingAndDay(d, h.food)
			if h.grams < portionsInAll*portionOfSitting*sitting*(1-Tolerance) {
				small++
			}
		}
	}
	c.same("", "amounts under a portion", float64(said.Crumbs), float64(small))
}

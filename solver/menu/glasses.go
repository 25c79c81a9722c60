package menu

import "slices"

// drawIn gives those who have nothing of it a snack or drink of their own of what is opened
// where somebody has more of it than is gladly eaten at a sitting: a litre carton is for
// all, not for the smallest child. It reports whether it could.
func drawIn(h *household, l layout, servings []serving) bool {
	type plate struct {
		e *eater
		t int
		s *stocked
	}
	had := map[plate]float64{}
	for _, v := range servings {
		if v.food.meal && v.food.openings != nil {
			had[plate{v.eater, v.t, v.food}] += v.grams
		}
	}
	drawn := false
	for _, s := range h.foods {
		for _, o := range s.openings {
			tooMuch := func(e *eater) bool { return had[plate{e, o.from, s}] > (1+largeRoom)*e.glass(s) }
			if !s.meal || !s.food.IsFluid() || !slices.ContainsFunc(h.eaters, tooMuch) {
				continue
			}
			for _, e := range h.eaters {
				if e.infant || !e.eats(s.food) || had[plate{e, o.from, s}] > leastServedG {
					continue
				}
				if c, _ := ownOf(e, s, h.ownDishes(e)); c != nil && c.cold && l.fits(h, o.from, e, c) {
					l[o.from].own = append(l[o.from].own, ownDish{e, c})
					drawn = true
				}
			}
		}
	}
	return drawn
}

// glass is what e gladly eats of s at a sitting, in g.
func (e *eater) glass(s *stocked) float64 {
	most := inf
	for _, l := range e.glasses {
		if each := l.Counts(s.food); each > 0 {
			most = min(most, l.Most/each)
		}
	}
	return most
}

package menu

import (
	"slices"

	"rationwright/foods/dishes"
	"rationwright/solver/ration"
)

// ownDishes are the dishes that one person may be served by themselves: what the
// household has for a dish, cooked as far, with every part it cannot do without.
func (h *household) ownDishes(book *dishes.Book, cook ration.Cook, e *eater) []*choice {
	var list []*choice
	for _, d := range book.Dishes {
		if !h.cooks(d, cook) || !d.ServedTo(e.person.AgeMonths) || isFeed(d) {
			continue
		}
		if c := h.partsFor(d, e); c != nil {
			list = append(list, &choice{candidate: c})
		}
	}
	return list
}

// isFeed reports whether d is a milk feed of an infant.
func isFeed(d *dishes.Dish) bool {
	return d.UnderMonths > 0 && d.UnderMonths <= infantMonths && slices.Equal(d.Slots, []dishes.Slot{dishes.Drink})
}

// partsFor returns d with the foods that e has for it, nil where a part is lacking.
func (h *household) partsFor(d *dishes.Dish, e *eater) *candidate {
	c := &candidate{dish: d, cold: d.Cooking == "none"} // warm ones too need the pot
	for _, p := range d.Parts {
		part := candidatePart{part: p}
		for _, o := range p.Options {
			if e.eats(o.Food) && p.Cooks(d, o.Food) {
				part.options = append(part.options, o)
			}
		}
		if len(part.options) > 0 {
			c.parts = append(c.parts, part)
		} else if !p.Optional {
			return nil
		}
	}
	return c
}

// lacks reports whether e goes without a part that makes c the dish it is.
func (c *choice) lacks(e *eater) bool {
	if !e.atTable(c.dish) {
		return true
	}
	return slices.ContainsFunc(c.parts, func(p candidatePart) bool {
		return makesDish(p.part) && !p.openTo(e)
	})
}

// makesDish reports whether a dish is not what it is called without p.
func makesDish(p *dishes.Part) bool {
	return !p.Optional && (p.Role == "base" || p.Role == "protein")
}

// swap gives who lacks the main part of a dish a dish of their own at that meal, as
// an infant at every main meal, and everyone where the household has none.
func (h *household) swap(l layout, book *dishes.Book, cook ration.Cook) {
	for _, e := range h.eaters {
		var list []*choice
		left := map[*stocked]float64{}
		for _, s := range h.foods {
			left[s] = e.grams[s.food]
		}
		for t := range l {
			if isSnack(mealOf(t)) || l[t].instead[e] != nil || l[t].main != nil && !e.infant && !l[t].main.lacks(e) {
				continue
			}
			if list == nil {
				list = h.ownDishes(book, cook, e)
			}
			h.instead(l, t, e, list, left, 0)
		}
	}
}

// bareShare is the part of the least of a base or a protein under which a dish is not
// what it is called.
const bareShare = 0.5

// bareAim is the share that the programs aim at: over bareShare, as the size of a serving is
// that of the plan, from which the days may take a little.
const bareAim = 0.55

// repair gives a dish of their own to who got a main dish without what makes it, from
// what they had there or beside the dishes. It reports whether it could.
func (h *household) repair(l layout, servings []serving, book *dishes.Book, cook ration.Cook) bool {
	type plate struct {
		e    *eater
		t    int
		part *dishes.Part
	}
	got := map[plate]float64{}
	for _, v := range servings {
		if v.part != nil && v.of == l[v.t].mainOf(v.eater) {
			factor, _ := v.part.part.Makes(v.food.food)
			got[plate{v.eater, v.t, v.part.part}] += v.grams / factor
		}
	}
	repaired := false
	for _, e := range h.eaters {
		bare := map[int]bool{}
		for t := range l {
			c := l[t].mainOf(e)
			if c == nil || isSnack(mealOf(t)) || e.infant {
				continue
			}
			for _, p := range c.dish.Required() {
				if makesDish(p) && got[plate{e, t, p}] < bareShare*p.MinG*e.scale(c.dish) {
					bare[t] = true
				}
			}
		}
		if len(bare) == 0 {
			continue
		}
		left := map[*stocked]float64{}
		for _, v := range servings {
			if v.eater == e && (v.of == nil || bare[v.t] || e.may != nil) {
				left[v.food] += v.grams
			}
		}
		list := h.ownDishes(book, cook, e)
		for t := range l {
			if bare[t] && h.instead(l, t, e, list, left, bareShare) {
				repaired = true
			}
		}
	}
	return repaired
}

// instead gives e the dish of the list at t of which most is left, not one of the day
// before, and reports whether there was one of which at least a share of the usual is.
func (h *household) instead(l layout, t int, e *eater, list []*choice, left map[*stocked]float64, least float64) bool {
	var best *choice
	most := 0.0
	for _, c := range list {
		if !c.dish.Has(clock[mealOf(t)].slot) || h.cold[dayOf(t)] && !c.cold || l.ownNear(t, e, c.dish) ||
			l.mains(e, c.dish) >= mostServed(c.dish, h.days) {
			continue
		}
		fill := c.fill(h, e, left)
		if fill < least {
			continue
		}
		fill /= float64(1 + l.mains(e, c.dish))
		switch {
		case !l.hasTimeFor(t, c.dish):
			fill *= anyDishAtAll
		case e.instead[c.dish.Key]:
			fill += chosenFirst
		default:
			fill += anyDishAtAll
		}
		if fill > most {
			best, most = c, fill
		}
	}
	if best == nil {
		return false
	}
	best.take(h, e, left)
	l[t].instead = put(l[t].instead, e, best)
	return true
}

// chosenFirst puts a dish that was chosen with the plan before any other.
const chosenFirst = 10

// anyDishAtAll is for a dish of which nothing keeps: better than none.
const anyDishAtAll = 1e-3

// fortnights is how often the counts of a dish stand in a number of days.
func fortnights(days int) int { return (days + dishes.Fortnight - 1) / dishes.Fortnight }

// mains counts how often d is the main dish of e.
func (l layout) mains(e *eater, d *dishes.Dish) int {
	n := 0
	for t := range l {
		if c := l[t].mainOf(e); c != nil && c.dish == d && !isSnack(mealOf(t)) {
			n++
		}
	}
	return n
}

// ownNear reports whether e is served d on the day of t or the day before.
func (l layout) ownNear(t int, e *eater, d *dishes.Dish) bool {
	for at := max(0, (dayOf(t)-1)*meals); at < min(len(l), (dayOf(t)+2)*meals); at++ {
		if m := l[at].mainOf(e); m != nil && m.dish == d && !isSnack(mealOf(at)) {
			return true
		}
	}
	return false
}

// fill is how much of a usual serving of c is left of what keeps, of the part of
// which least is; what is opened for a meal is at other meals.
func (c *choice) fill(h *household, e *eater, left map[*stocked]float64) float64 {
	least := inf
	for _, p := range c.parts {
		if p.part.Optional {
			continue
		}
		have := 0.0
		for _, o := range p.options {
			if s := h.of[o.Food]; s.days > 0 {
				have += left[s] / o.Factor
			}
		}
		least = min(least, have/(p.part.UsualG*e.scale(c.dish)))
	}
	return min(least, 3)
}

// take takes a usual serving of c off what is left.
func (c *choice) take(h *household, e *eater, left map[*stocked]float64) {
	for _, p := range c.parts {
		need := p.part.UsualG * e.scale(c.dish)
		for _, o := range p.options {
			s := h.of[o.Food]
			grams := min(left[s], need*o.Factor)
			left[s] -= grams
			need -= grams / o.Factor
		}
	}
}

func put(m map[*eater]*choice, e *eater, c *choice) map[*eater]*choice {
	if m == nil {
		m = map[*eater]*choice{}
	}
	m[e] = c
	return m
}

package menu

import (
	"slices"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/solver/model"
)

// ownDishes are the dishes that one person may be served by themselves: what the
// household has for a dish, cooked as far, with every part it cannot do without.
func (h *household) ownDishes(e *eater) []*choice {
	var list []*choice
	for _, d := range h.book.Dishes {
		if !h.cooks(d) || !d.ServedTo(e.person.AgeMonths) || isFeed(d) {
			continue
		}
		if c := e.partsFor(d); c != nil {
			list = append(list, &choice{candidate: c})
		}
	}
	return list
}

// isFeed reports whether d is a milk feed of an infant.
func isFeed(d *dishes.Dish) bool {
	return d.UnderMonths > 0 && d.UnderMonths <= model.TableMonths && slices.Equal(d.Slots, []dishes.Slot{dishes.Drink})
}

// partsFor returns d with the foods that e has for it, nil where a part is lacking.
func (e *eater) partsFor(d *dishes.Dish) *candidate {
	c := &candidate{dish: d, cold: d.Cooking == "none"} // warm ones too need the pot
	for _, p := range d.Parts {
		part := partOf(d, p, e.eats)
		if len(part.options) > 0 {
			c.parts = append(c.parts, part)
		} else if !p.Optional {
			return nil
		}
	}
	return c
}

// lacks reports whether e goes without a part that makes c the dish it is.
func (c *candidate) lacks(e *eater) bool {
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
// an infant at every main meal, and everyone where the household has none: of what their
// other meals leave, a dish that would not lack what makes it.
func (h *household) swap(l layout) {
	for _, e := range h.eaters {
		var lacking []int
		left := map[*stocked]float64{}
		for _, s := range h.foods {
			left[s] = e.grams[s.food]
		}
		for t := range l {
			switch {
			case isSnack(mealOf(t)):
			case l[t].instead[e] != nil:
				l[t].instead[e].take(h, e, left, bareAim)
			case l[t].main != nil && !e.infant && !l[t].main.lacks(e):
				l[t].main.take(h, e, left, bareAim)
			default:
				lacking = append(lacking, t)
			}
		}
		if len(lacking) == 0 {
			continue
		}
		list := h.ownDishes(e)
		if e.infant {
			lacking = inRounds(meatFirst(h, l, e, lacking, list, left))
		}
		for _, t := range lacking {
			h.instead(l, t, e, list, left, bareShare)
		}
	}
}

// bareShare is the part of the least of a base or a protein under which a dish is not
// what it is called.
const bareShare = 0.5

// bareAim is the share that the programs aim at: over bareShare, as the size of a serving is
// that of the plan, from which the days may take a little.
const bareAim = 0.55

// repair gives a dish of their own to who got a main dish without what makes it, or none,
// from what they had there, beside the dishes, in snacks and drinks, and over the least in
// other dishes. It reports whether it could.
func (h *household) repair(l layout, servings []serving) bool {
	repaired := false
	for _, e := range h.eaters {
		bare := l.bareMeals(servings, e)
		if len(bare) == 0 {
			continue
		}
		left := map[*stocked]float64{}
		type plate struct {
			t    int
			part *candidatePart
		}
		got := map[plate]float64{}
		for _, v := range servings {
			if v.eater != e {
				continue
			}
			left[v.food] += v.grams
			if v.part == nil || bare[v.t] || v.of != l[v.t].mainOf(e) || e.may != nil {
				continue
			}
			at := plate{v.t, v.part} // what makes another dish stays there
			factor, _ := v.part.part.Makes(v.food.food)
			keeps := min(v.grams/factor, max(0, bareAim*v.part.part.MinG*e.scale(v.of.dish)-got[at]))
			if v.food.days == 0 {
				keeps = v.grams / factor
			}
			got[at] += keeps
			left[v.food] -= keeps * factor
		}
		list := h.ownDishes(e)
		for t := range l {
			switch {
			case !bare[t]:
			case h.instead(l, t, e, list, left, bareShare):
				repaired = true
			case e.infant: // who needs no dish has rather none
				delete(l[t].instead, e)
				repaired = true
			}
		}
	}
	return repaired
}

// bareMeals are the main meals at which e has no dish or one without what makes it.
func (l layout) bareMeals(servings []serving, e *eater) map[int]bool {
	type plate struct {
		t    int
		part *dishes.Part
	}
	got := map[plate]float64{}
	for _, v := range servings {
		if v.eater == e && v.part != nil && v.of == l[v.t].mainOf(e) {
			factor, _ := v.part.part.Makes(v.food.food)
			got[plate{v.t, v.part.part}] += v.grams / factor
		}
	}
	bare := map[int]bool{}
	for t := range l {
		if isSnack(mealOf(t)) {
			continue
		}
		c := l[t].mainOf(e)
		if c == nil {
			bare[t] = !e.infant
			continue
		}
		for _, p := range c.dish.Required() {
			if makesDish(p) && got[plate{t, p}] < bareShare*p.MinG*e.scale(c.dish) {
				bare[t] = true
			}
		}
	}
	return bare
}

// instead gives e the dish of the list at t of which most is left, not one of the day
// before, and reports whether there was one of which at least a share of the usual is.
func (h *household) instead(l layout, t int, e *eater, list []*choice, left map[*stocked]float64, least float64) bool {
	var best *choice
	most := 0.0
	for _, c := range list {
		if !c.dish.Has(clock[mealOf(t)].slot) || h.cold[dayOf(t)] && !c.cold || l.ownNear(t, e, c.dish) ||
			len(l.mealsOf(e, c.dish)) >= mostServed(c.dish, h.days) {
			continue
		}
		fill := c.fill(h, e, left, t)
		if fill < least && !e.instead[c.dish.Key] {
			continue
		}
		fill /= float64(1 + len(l.mealsOf(e, c.dish)))
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
	best.take(h, e, left, 1)
	l[t].instead = put(l[t].instead, e, best)
	return true
}

// chosenFirst puts a dish that was chosen with the plan before any other.
const chosenFirst = 10

// anyDishAtAll is for a dish of which nothing keeps: better than none.
const anyDishAtAll = 1e-3

// fortnights is how often the counts of a dish stand in a number of days.
func fortnights(days int) int { return (days + dishes.Fortnight - 1) / dishes.Fortnight }

// mealsOf lists the main meals at which d is the dish of e, or where that is nil of the
// household.
func (l layout) mealsOf(e *eater, d *dishes.Dish) []int {
	var list []int
	for t := range l {
		if c := l[t].mainOf(e); c != nil && c.dish == d && !isSnack(mealOf(t)) {
			list = append(list, t)
		}
	}
	return list
}

// ownNear reports whether d is the main dish of e on the day of t, the day before or after.
func (l layout) ownNear(t int, e *eater, d *dishes.Dish) bool {
	return slices.ContainsFunc(l.mealsOf(e, d), func(at int) bool { return max(dayOf(at)-dayOf(t), dayOf(t)-dayOf(at)) <= 1 })
}

// fill is how much of a usual serving of c is left, of the part of which least is. Of what
// is opened for a meal only that counts which is open at t, or may be yet.
func (c *choice) fill(h *household, e *eater, left map[*stocked]float64, t int) float64 {
	least := inf
	for _, p := range c.parts {
		if p.part.Optional {
			continue
		}
		have := 0.0
		for _, o := range p.options {
			if s := h.of[o.Food]; s.days > 0 || s.unplaced() || s.within(t) != nil {
				have += left[s] / o.Factor
			}
		}
		least = min(least, have/(p.part.UsualG*e.scale(c.dish)))
	}
	return min(least, 3)
}

// unplaced reports whether it is not decided yet when the packs of s are opened.
func (s *stocked) unplaced() bool { return len(s.openings) > 0 && s.openings[0].from < 0 }

// take takes a part of a usual serving of c off what is left.
func (c *choice) take(h *household, e *eater, left map[*stocked]float64, part float64) {
	for _, p := range c.parts {
		need := part * p.part.UsualG * e.scale(c.dish)
		if p.part.Optional && part < 1 {
			continue
		}
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

// openFor reports whether e may have at t some food for every part that c cannot do without.
func (c *choice) openFor(h *household, e *eater, t int) bool {
	for i := range c.parts {
		p := &c.parts[i]
		if !p.part.Optional && !slices.ContainsFunc(p.options, func(o dishes.Option) bool {
			s := h.of[o.Food]
			return e.eats(o.Food) && (s.openings == nil || s.within(t) != nil)
		}) {
			return false
		}
	}
	return true
}

// companionMeals are the main meals at which e has a dish of what a food is eaten with, the
// last of each day, for the foods that are eaten with others only and keep all days: baking
// powder where there is flour, garlic where there are beans.
func (l layout) companionMeals(h *household, e *eater) map[*stocked]map[int]bool {
	at := map[*stocked]map[int]bool{}
	if e.infant || e.band != nil { // who has it spread over the day
		return at
	}
	for _, s := range h.foods {
		if len(s.food.Companions) == 0 || s.openings != nil || !e.eats(s.food) {
			continue
		}
		at[s] = map[int]bool{}
		for d := range h.days {
			for _, m := range []int{atEvening, atMidday, atBreakfast} {
				t := d*meals + m
				if (!h.cold[d] || eatenCold(s.food)) && slices.ContainsFunc(l.table(t, e), func(c *choice) bool { return c.goesWith(e, s.food) }) {
					at[s][t] = true
					break
				}
			}
		}
	}
	return at
}

// goesWith reports whether e may have in c what f is eaten with.
func (c *choice) goesWith(e *eater, f *foods.Food) bool {
	return slices.ContainsFunc(c.parts, func(p candidatePart) bool {
		return slices.ContainsFunc(p.options, func(o dishes.Option) bool {
			return e.eats(o.Food) && (slices.Contains(f.Companions, o.Food.Group) || slices.Contains(f.Companions, o.Food.Name))
		})
	})
}

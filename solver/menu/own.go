package menu

import (
	"cmp"
	"context"
	"math"
	"slices"

	"rationwright/foods/dishes"
	"rationwright/solver/ration"
)

// ownDishes are the dishes that one person may be served by themselves: what the
// household has for a dish, cooked as far, with every part it cannot do without.
func (h *household) ownDishes(book *dishes.Book, cook ration.Cook, e *eater) []*choice {
	var list []*choice
	for _, d := range book.Dishes {
		if cookRank[d.Cooking] > cookRank[string(cook)] || !d.ServedTo(e.person.AgeMonths) || isFeed(d) {
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
		return !p.part.Optional && (p.part.Role == "base" || p.part.Role == "protein") && !p.openTo(e)
	})
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
			if isSnack(mealOf(t)) || l[t].main != nil && !e.infant && !l[t].main.lacks(e) {
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
				if (p.Role == "base" || p.Role == "protein") && got[plate{e, t, p}] < bareShare*p.MinG*e.scale(c.dish) {
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
			l.mains(e, c.dish) >= c.dish.TimesMax*fortnights(h.days) {
			continue
		}
		fill := c.fill(h, e, left)
		if fill < least {
			continue
		}
		fill /= float64(1 + l.mains(e, c.dish))
		switch {
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

// leastOwnKcal is the energy a day of a food beside the dishes, for a serving of an
// adult's size, from which it is made a snack or drink of one's own.
const leastOwnKcal = 6

// snacks gives each person dishes of their own for what the dishes of the household
// leave over: a first share says what that is.
func (h *household) snacks(ctx context.Context, l layout, book *dishes.Book, cook ration.Cook) error {
	for _, e := range h.eaters {
		servings, _, err := h.shareOf(ctx, l, []*eater{e}, nil, nil)
		if err != nil {
			return err
		}
		h.addOwn(l, servings, book, cook)
	}
	return nil
}

// addOwn adds a dish of their own for what is eaten beside the dishes, and reports
// whether there was any.
func (h *household) addOwn(l layout, servings []serving, book *dishes.Book, cook ration.Cook) bool {
	beside := map[*eater]map[*stocked]float64{}
	for _, v := range servings {
		if v.part == nil {
			if beside[v.eater] == nil {
				beside[v.eater] = map[*stocked]float64{}
			}
			beside[v.eater][v.food] += v.grams
		}
	}
	for _, e := range h.eaters {
		if beside[e] == nil {
			continue
		}
		of := beside[e]
		order := slices.Clone(h.foods)
		slices.SortStableFunc(order, func(a, b *stocked) int {
			return cmp.Compare(of[b]*kcalPerG(b.food), of[a]*kcalPerG(a.food))
		})
		own := h.ownDishes(book, cook, e)
		for _, s := range order {
			if of[s]*math.Max(kcalPerG(s.food), 10*costGram) >= leastOwnKcal*e.size*float64(h.days) {
				h.snack(l, e, s, own, of[s])
			}
		}
	}
	return len(beside) > 0
}

// starchG is the carbohydrate of a serving from which a dish beside a meal makes up for
// what that lacks.
const starchG = 8

// addStarch gives who counts carbohydrate a dish beside each main meal that has less than
// it should: the one with most, of what keeps, in turn. It reports whether there was any.
func (h *household) addStarch(l layout, servings []serving, book *dishes.Book, cook ration.Cook) bool {
	added := false
	for _, e := range h.eaters {
		if e.band == nil {
			continue
		}
		of := make([]float64, len(l))
		mean := 0.0
		for _, v := range servings {
			if v.eater == e && !isSnack(mealOf(v.t)) {
				of[v.t] += v.grams * carbohydratePerG(v.food.food)
				mean += v.grams * carbohydratePerG(v.food.food) / float64(len(mainMeals)*h.days)
			}
		}
		low := mean - margin*CarbohydrateRoomG
		if e.band.Enforced {
			low = e.band.LowG
		}
		var list []*choice
		carbohydrate := map[*choice]float64{}
		for _, c := range h.ownDishes(book, cook, e) {
			if isMain(c.dish) || !c.dish.Has(dishes.Snack) || c.dish.Has(dishes.Drink) {
				continue
			}
			g, keeps := 0.0, true
			for _, p := range c.dish.Required() {
				g += p.UsualG * carbohydratePerG(p.ReckonedAs) * e.size
			}
			for _, p := range c.parts {
				keeps = keeps && (p.part.Optional || slices.ContainsFunc(p.options, func(o dishes.Option) bool { return h.of[o.Food].days > 0 }))
			}
			if keeps && g >= starchG {
				carbohydrate[c] = g
				list = append(list, c)
			}
		}
		slices.SortStableFunc(list, func(a, b *choice) int { return cmp.Compare(carbohydrate[b], carbohydrate[a]) })
		for t := range l {
			if isSnack(mealOf(t)) || of[t] >= low-0.5 {
				continue
			}
			for _, c := range list {
				if !l.ownAt(t, e, c.dish) && l.owns(t, e) < mostOwn && (c.cold || !h.cold[dayOf(t)]) {
					l[t].own = append(l[t].own, ownDish{e, c})
					added = true
					break
				}
			}
		}
	}
	return added
}

// snack places servings of a dish in which e eats grams of s: for what is open at one
// meal only, at those meals; for what keeps, between meals and then beside them.
func (h *household) snack(l layout, e *eater, s *stocked, own []*choice, grams float64) {
	var best *choice
	var usual float64
	for _, c := range own {
		if !c.dish.Has(dishes.Snack) && !c.dish.Has(dishes.Drink) {
			continue
		}
		needs, takes := 0, 0.0
		for _, p := range c.dish.Required() {
			if factor, ok := p.Makes(s.food); ok {
				takes = max(takes, p.UsualG*factor*e.scale(c.dish))
			} else {
				needs++
			}
		}
		if takes == 0 || needs > 0 && s.meal {
			continue
		}
		takes /= float64(1 + needs)
		if !c.cold {
			takes /= 4 // a pot for one alone is the last way
		}
		if takes > usual {
			best, usual = c, takes
		}
	}
	if best == nil {
		return
	}
	place := func(t int) bool {
		if !isSnack(mealOf(t)) && isMain(best.dish) || l.ownAt(t, e, best.dish) || l.drinks(t, e, best.dish) || h.cold[dayOf(t)] && !best.cold || l.owns(t, e) >= mostOwn {
			return false
		}
		l[t].own = append(l[t].own, ownDish{e, best})
		return true
	}
	if s.openings != nil {
		for t := range l {
			if o := s.within(t); o != nil && (s.meal || o.from == t || !l.ownAt(o.from, e, best.dish)) {
				place(t)
			}
		}
		return
	}
	need := int(math.Ceil(grams / usual))
	order := []int{atAfternoon, atMorning, atEvening, atBreakfast, atMidday}
	if !best.cold { // while the stove is lit
		order = []int{atEvening, atMidday, atBreakfast}
	}
	for _, m := range order {
		n := min(need, h.days)
		for i := range n {
			if place(i*h.days/n*meals + m) {
				need--
			}
		}
		if need <= 0 {
			return
		}
	}
}

// drinks reports whether d is a drink and e has one at t already.
func (l layout) drinks(t int, e *eater, d *dishes.Dish) bool {
	return d.Has(dishes.Drink) && slices.ContainsFunc(l.table(t, e), func(c *choice) bool { return c.dish.Has(dishes.Drink) })
}

// isMain reports whether d is a dish for a main meal: beside another it is a snack at
// its own time only.
func isMain(d *dishes.Dish) bool {
	return d.Has(dishes.Breakfast) || d.Has(dishes.Midday) || d.Has(dishes.Evening)
}

// mostOwn is the most dishes of one's own at a meal.
const mostOwn = 2

// owns counts the dishes that e has for themselves at t.
func (l layout) owns(t int, e *eater) int {
	n := 0
	for _, o := range l[t].own {
		if o.eater == e {
			n++
		}
	}
	return n
}

// ownAt reports whether e is served d at t.
func (l layout) ownAt(t int, e *eater, d *dishes.Dish) bool {
	return slices.ContainsFunc(l.table(t, e), func(c *choice) bool { return c.dish == d })
}

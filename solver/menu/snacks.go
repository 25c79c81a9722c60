package menu

import (
	"cmp"
	"context"
	"math"
	"slices"

	"rationwright/foods/dishes"
)

// leastOwnKcal is the energy a day of a food beside the dishes, for a serving of an
// adult's size, from which it is made a snack or drink of one's own.
const leastOwnKcal = 6

// snacks gives each person dishes of their own for what the dishes of the household
// leave over: a first share says what that is.
func (h *household) snacks(ctx context.Context, l layout) error {
	for _, e := range h.eaters {
		servings, _, err := h.shareOf(ctx, l, []*eater{e}, nil, nil)
		if err != nil {
			return err
		}
		h.addOwn(l, servings)
	}
	return nil
}

// addOwn adds a dish of their own for what is eaten beside the dishes.
func (h *household) addOwn(l layout, servings []serving) {
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
		of := beside[e]
		if of == nil {
			continue
		}
		order := slices.Clone(h.foods)
		slices.SortStableFunc(order, func(a, b *stocked) int {
			return cmp.Compare(of[b]*kcalPerG(b.food), of[a]*kcalPerG(a.food))
		})
		own := h.ownDishes(e)
		for _, s := range order {
			if of[s]*math.Max(kcalPerG(s.food), 10*costGram) >= leastOwnKcal*e.size*float64(h.days) {
				h.snack(l, e, s, own, of[s])
			}
		}
	}
}

// starchG is the carbohydrate of a serving from which a dish beside a meal makes up for
// what that lacks.
const starchG = 8

// addStarch gives who counts carbohydrate a dish beside each main meal that has less than
// it should: the one with most, of what keeps, in turn. It reports whether there was any.
func (h *household) addStarch(l layout, servings []serving) bool {
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
		for _, c := range h.ownDishes(e) {
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
		slices.SortStableFunc(list, func(a, b *choice) int { // bread rather than a pot of pasta beside the porridge
			if a.cold != b.cold && a.cold {
				return -1
			} else if a.cold != b.cold {
				return 1
			}
			return cmp.Compare(carbohydrate[b], carbohydrate[a])
		})
		for t := range l {
			if isSnack(mealOf(t)) || of[t] >= low-0.5 {
				continue
			}
			for _, c := range list {
				if l.fits(h, t, e, c) {
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
	best, usual := ownOf(e, s, own)
	if best == nil {
		return
	}
	place := func(t int) bool {
		if !l.fits(h, t, e, best) {
			return false
		}
		l[t].own = append(l[t].own, ownDish{e, best})
		return true
	}
	if s.openings != nil {
		need := int(math.Ceil(grams / (usual * float64(len(s.openings)))))
		for _, o := range s.openings {
			left := need
			for _, m := range []int{atAfternoon, atMorning, atEvening, atBreakfast, atMidday} {
				for t := o.from; t >= 0 && t <= o.last; t++ {
					if left > 0 && mealOf(t) == m && place(t) {
						left--
					}
				}
			}
		}
		return
	}
	need := int(math.Ceil(grams / usual))
	order := []int{atAfternoon, atMorning, atEvening, atBreakfast, atMidday}
	if !best.cold { // while the stove is lit
		order = []int{atEvening, atMidday, atBreakfast}
		if savoury(best.dish) {
			order = order[:2]
		}
	}
	l.spread(order, need, place)
}

// coldSnackKcal is the energy of a gram from which what keeps is a snack of a cold day.
const coldSnackKcal = 3

// coldSnacks gives everyone on the days on which nothing is heated what keeps and is eaten
// cold, such as a spoon of nut butter: of a plan of flour and pasta little else is left for
// them. Nobody has to eat it.
func coldSnacks(h *household, l layout) {
	for _, e := range h.eaters {
		if e.infant || len(h.cold) == 0 {
			continue
		}
		own := h.ownDishes(e)
		for _, s := range h.foods {
			if s.openings != nil || !e.eats(s.food) || !eatenCold(s.food) || kcalPerG(s.food) < coldSnackKcal {
				continue
			}
			c, _ := ownOf(e, s, own)
			if c == nil || !c.cold {
				continue
			}
			for d := range h.days {
				for _, m := range []int{atAfternoon, atMorning, atEvening} {
					if t := d*meals + m; h.cold[d] && l.fits(h, t, e, c) {
						l[t].own = append(l[t].own, ownDish{e, c})
					}
				}
			}
		}
	}
}

// fits reports whether e may have c as a dish of their own at t.
func (l layout) fits(h *household, t int, e *eater, c *choice) bool {
	return l.hasTimeFor(t, c.dish) && (isSnack(mealOf(t)) || !isMain(c.dish)) && !l.ownAt(t, e, c.dish) && !l.drinks(t, e, c.dish) &&
		!l.repeats(t, e, c.dish) && (!h.cold[dayOf(t)] || c.cold) && l.owns(t, e) < mostOwn
}

// ownOf is the snack or drink of the list that takes most of s, with the grams of a usual
// serving; nil where none does.
func ownOf(e *eater, s *stocked, own []*choice) (best *choice, usual float64) {
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
	return best, usual
}

// savoury reports whether a dish beside the meals is of beans, fish, meat, vegetables or
// soya mince: none for breakfast.
func savoury(d *dishes.Dish) bool {
	return slices.ContainsFunc(d.Required(), func(p *dishes.Part) bool {
		f := p.ReckonedAs
		return slices.Contains(savouryGroups, f.Group) || f.Group == "eggs and soy" && slices.Contains(f.Allergens, "soy")
	})
}

var savouryGroups = []string{"canned beans", "canned fish", "canned meat and poultry", "canned vegetables", "dried beans and lentils", "soups"}

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

// addBeside adds what e may get beside the dishes at t: what does not keep wherever
// it is open, what is eaten with another at a meal with that, everything else once a day.
func (h *household) addBeside(e *eater, t int, with map[*stocked]map[int]bool, eat func(serving, float64, float64) int) {
	for _, s := range h.foods {
		if !e.eats(s.food) || s.openings != nil && s.within(t) == nil || h.cold[dayOf(t)] && !eatenCold(s.food) {
			continue
		}
		if at := with[s]; len(at) > 0 && !at[t] || len(at) == 0 && !s.meal && mealOf(t) != besideAt(s.food) && !s.besideFor(e, t) {
			continue
		}
		weigh := math.Max(kcalPerG(s.food), costGram)
		cost := costBeside * weigh
		if e.may != nil {
			cost *= freeBeside
		}
		most := e.mostOf(s)
		eat(serving{eater: e, t: t, food: s}, cost, most)
		eat(serving{eater: e, t: t, food: s}, cost+costOverSitting*math.Max(weigh, sittingKcal/math.Max(most, 1)), inf)
	}
}

// besideFor reports whether e may eat s beside the dishes at t though it is not the meal
// for it: what is opened then, and whatever an infant or who counts carbohydrate is to
// have spread over the day.
func (s *stocked) besideFor(e *eater, t int) bool {
	in := s.within(t)
	switch {
	case in != nil && in.from == t:
		return true
	case !e.infant && e.band == nil:
		return false
	}
	return !isSnack(mealOf(t)) || in != nil && e.band != nil
}

package menu

import (
	"slices"

	"rationwright/foods/dishes"
)

// stoveMin is how many minutes at one stove all that is heated for a meal takes at most,
// one pot after the other. Own planning rule, no source.
const stoveMin = 90

// stove is the minutes at the stove for all that is on the table at t.
func (l layout) stove(t int) float64 {
	minutes := 0.0
	for _, d := range l.heated(t) {
		minutes += d.Minutes
	}
	return minutes
}

// heated lists what is heated for t, each once.
func (l layout) heated(t int) []*dishes.Dish {
	var list []*dishes.Dish
	add := func(c *choice) {
		if c != nil && c.dish.Cooking != "none" && !slices.Contains(list, c.dish) {
			list = append(list, c.dish)
		}
	}
	add(l[t].main)
	for _, c := range l[t].drinks {
		add(c)
	}
	for _, c := range l[t].instead {
		add(c)
	}
	for _, o := range l[t].own {
		add(o.choice)
	}
	return list
}

// hasTimeFor reports whether d can be made for t beside what is made there.
func (l layout) hasTimeFor(t int, d *dishes.Dish) bool {
	return d.Cooking == "none" || slices.Contains(l.heated(t), d) || l.stove(t)+d.Minutes <= stoveMin
}

// chill puts another dish where a heated one is left on a cold day, and where one stands
// on the day before or after or twice on a day: one of the list that does neither. Where
// there is none, the household has no dish.
func (h *household) chill(l layout, list []*candidate) {
	spare := map[*candidate]*choice{}
	for t := range l {
		c := l[t].main
		if c == nil {
			continue
		}
		l[t].main = nil
		if (c.cold || !h.cold[dayOf(t)]) && (isSnack(mealOf(t)) || l.near(t, c.dish) < nearRuns) {
			l[t].main = c
		}
		if l[t].main != nil || isSnack(mealOf(t)) {
			continue
		}
		var best *candidate
		least := float64(nearRuns)
		for _, c := range list {
			if h.cold[dayOf(t)] && !c.cold || !c.dish.Has(clock[mealOf(t)].slot) ||
				len(l.mealsOf(nil, c.dish)) >= mostServed(c.dish, h.days) {
				continue
			}
			if near := l.near(t, c.dish); near < least {
				best, least = c, near
			}
		}
		if best == nil {
			continue
		}
		if spare[best] == nil {
			spare[best] = &choice{candidate: best}
		}
		l[t].main = spare[best]
	}
}

// nearRuns is how near a dish is that stands on the day before or after.
const nearRuns = 100

// mostServed is how often at most d is a main dish over so many days.
func mostServed(d *dishes.Dish, days int) int { return d.TimesMax * fortnights(days) }

// near is how much a dish is on the table about t: on the same day counts most, then
// on the day before and after, then how often at all, which is less than either.
func (l layout) near(t int, d *dishes.Dish) float64 {
	n := 0.0
	for _, at := range l.mealsOf(nil, d) {
		switch days := dayOf(at) - dayOf(t); {
		case days == 0:
			n += 10 * nearRuns
		case days == 1 || days == -1:
			n += nearRuns
		default:
			n++
		}
	}
	return n
}

// mostCold is on how many of the cold days one dish stands at most, never on two running.
func mostCold(cold map[int]bool, days int) float64 {
	n, before := 0, false
	for d := range days {
		before = cold[d] && !before
		if before {
			n++
		}
	}
	return float64(n)
}

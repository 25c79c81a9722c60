package menu

import (
	"maps"
	"math"
	"math/rand/v2"
	"slices"

	"rationwright/foods/dishes"
)

// place is a place in the menu: what stands on the table there.
type place struct {
	main    *choice            // nil: no dish
	drinks  []*choice          // beside it
	instead map[*eater]*choice // of the main dish, for one person
	own     []ownDish          // a snack or drink of one's own
}

// ownDish is a dish for one person.
type ownDish struct {
	eater *eater
	*choice
}

// mainOf is the main dish of e, or where that is nil of the household; nil for none.
func (p *place) mainOf(e *eater) *choice {
	if e == nil {
		return p.main
	}
	if c := p.instead[e]; c != nil || e.infant {
		return c
	}
	return p.main
}

// isOwn reports whether c is a snack or drink of e's own at t: they may leave it.
func (l layout) isOwn(t int, e *eater, c *choice) bool {
	return slices.Contains(l[t].own, ownDish{e, c})
}

// table returns what e is served at t, the main dish first.
func (l layout) table(t int, e *eater) []*choice {
	var list []*choice
	if c := l[t].mainOf(e); c != nil {
		list = append(list, c)
	}
	for _, c := range l[t].drinks {
		if e.atTable(c.dish) {
			list = append(list, c)
		}
	}
	for _, o := range l[t].own {
		if o.eater == e {
			list = append(list, o.choice)
		}
	}
	return list
}

// layout is the whole menu as places, day × meals + meal.
type layout []place

// withOwnInstead is a layout of the same, in which who has which dish instead of the
// household's can be changed apart.
func (l layout) withOwnInstead() layout {
	other := slices.Clone(l)
	for t := range other {
		other[t].instead = maps.Clone(l[t].instead)
	}
	return other
}

// day and meal of a position.
func dayOf(t int) int  { return t / meals }
func mealOf(t int) int { return t % meals }

// Costs of a layout, beside the square of what a day differs from the mean, in
// hundredths of the mean.
const (
	costRunning = 3000 // one dish on two days running
	costTwice   = 3000 // one dish twice on a day
	costHot     = 5000 // heated on a cold day
	costSlot    = 4000 // at a meal it is not for
	costAlike   = 60   // the same base twice a day
)

// lay puts the chosen dishes on days: in turn, then better by exchanges.
func (h *household) lay(chosen []*choice) layout {
	l := make(layout, h.days*meals)
	fill := func(k kind, at []int, all bool) {
		var list []*choice
		for _, c := range chosen {
			for range c.times[k] {
				list = append(list, c)
			}
		}
		free := l.places(at)
		if !all { // fewer than places: spread over all of them
			spread := make([]int, 0, len(list))
			for i := range min(len(list), len(free)) {
				spread = append(spread, free[i*len(free)/len(list)])
			}
			free = spread
		}
		for i, c := range inTurn(list)[:min(len(list), len(free))] {
			l[free[i]].main = c
		}
	}
	fill(atBreakfasts, []int{atBreakfast}, true)
	fill(atMains, []int{atMidday, atEvening}, true)
	fill(atSnacks, []int{atMorning, atAfternoon}, false)
	h.improve(l)
	h.pour(l, chosen)
	return l
}

// places are the positions of some meals of the day.
func (l layout) places(at []int) []int {
	var list []int
	for t := range l {
		if slices.Contains(at, mealOf(t)) {
			list = append(list, t)
		}
	}
	return list
}

// spread puts n servings at the meals of a list, at one after the other, each over all days,
// and returns how many find no place.
func (l layout) spread(at []int, n int, place func(t int) bool) int {
	days := len(l) / meals
	for _, m := range at {
		want := min(n, days)
		for i := range want {
			if place(i*days/want*meals + m) {
				n--
			}
		}
	}
	return n
}

// inTurn orders a list of repeated dishes so that each is spread over it.
func inTurn(list []*choice) []*choice {
	type due struct {
		c    *choice
		next float64
		step float64
	}
	count := map[*choice]int{}
	var dues []*due
	for _, c := range list {
		if count[c]++; count[c] == 1 {
			dues = append(dues, &due{c: c})
		}
	}
	for _, d := range dues {
		d.step = float64(len(list)) / float64(count[d.c])
		d.next = d.step / 2
	}
	out := make([]*choice, 0, len(list))
	for range list {
		var first *due
		for _, d := range dues {
			if count[d.c] > 0 && (first == nil || d.next < first.next) {
				first = d
			}
		}
		out = append(out, first.c)
		count[first.c]--
		first.next += first.step
	}
	return out
}

// warmest is the loss that is taken at first on average: a day some fifteen percent
// off the mean.
const warmest = 250

// improve exchanges places of one kind, by simulated annealing (Kirkpatrick, Gelatt
// and Vecchi, Science 220:671, 1983): a loss is taken with a chance that falls to
// none. Places are drawn from a fixed seed.
func (h *household) improve(l layout) {
	var places [3][]int
	for i, at := range [3][]int{{atBreakfast}, {atMidday, atEvening}, {atMorning, atAfternoon}} {
		places[i] = l.places(at)
	}
	var mean, protein float64
	for _, p := range l {
		if p.main != nil {
			mean += p.main.kcal / float64(h.days)
			protein += p.main.protein / float64(h.days)
		}
	}
	draw := rand.New(rand.NewPCG(1, 2))
	around := func(a, b int) float64 {
		seen := map[int]bool{}
		cost := 0.0
		for _, t := range []int{a, b} {
			for d := dayOf(t) - 1; d <= dayOf(t)+1; d++ {
				if d >= 0 && d < h.days && !seen[d] {
					seen[d] = true
					cost += l.dayCost(d, mean, protein, h.cold)
				}
			}
		}
		return cost
	}
	for try := range exchanges {
		at := places[draw.IntN(len(places))]
		if len(at) < 2 {
			continue
		}
		a, b := at[draw.IntN(len(at))], at[draw.IntN(len(at))]
		if l[a].main == l[b].main {
			continue
		}
		before := around(a, b)
		l[a], l[b] = l[b], l[a]
		warmth := warmest * (1 - 1.2*float64(try)/exchanges) // the last sixth takes no loss
		if worse := around(a, b) - before; worse > 0 && worse > warmth*draw.ExpFloat64() {
			l[a], l[b] = l[b], l[a]
		}
	}
}

// dayCost is what is wrong with a day, and with it beside the day before.
func (l layout) dayCost(day int, mean, meanProtein float64, cold map[int]bool) float64 {
	cost, kcal, protein := 0.0, 0.0, 0.0
	at := day * meals
	for m := range meals {
		c := l[at+m].main
		if c == nil {
			continue
		}
		kcal += c.kcal
		protein += c.protein
		if cold[day] && !c.cold {
			cost += costHot
		}
		if c.dish.ColdOnly && len(cold) > 0 && !cold[day] {
			cost += costSlot
		}
		if slot := clock[m].slot; !c.dish.Has(slot) {
			cost += costSlot
		}
		if isSnack(m) {
			continue
		}
		for other := range meals {
			if isSnack(other) {
				continue
			}
			if other < m && l[at+other].main != nil {
				if l[at+other].main == c {
					cost += costTwice
				} else if sameBase(l[at+other].main.dish, c.dish) {
					cost += costAlike
				}
			}
			if day > 0 && l[at-meals+other].main == c {
				cost += costRunning
			}
		}
	}
	off := 100 * (kcal - mean) / math.Max(mean, 1)
	offProtein := 100 * (protein - meanProtein) / math.Max(meanProtein, 1) * EnergyRoom / ProteinRoom
	return cost + off*off + offProtein*offProtein
}

// sameBase reports whether two dishes rest on the same kind of food.
func sameBase(a, b *dishes.Dish) bool {
	for _, p := range a.Parts {
		for _, q := range b.Parts {
			if p.Role == "base" && q.Role == "base" && p.ReckonedAs == q.ReckonedAs {
				return true
			}
		}
	}
	return false
}

// repeats reports whether e has at t what makes d the dish that it is: nobody wants a small
// bowl of mashed potato beside mashed potato.
func (l layout) repeats(t int, e *eater, d *dishes.Dish) bool {
	if d.Has(dishes.Drink) {
		return false
	}
	return slices.ContainsFunc(l.table(t, e), func(c *choice) bool { return sameMain(d, c.dish) })
}

// sameMain reports whether the base of a also makes b.
func sameMain(a, b *dishes.Dish) bool {
	for _, p := range a.Required() {
		if p.Role != "base" || b.Has(dishes.Drink) {
			continue
		}
		for _, q := range b.Parts {
			if _, same := q.Makes(p.ReckonedAs); same && makesDish(q) {
				return true
			}
		}
	}
	return false
}

// pour puts drinks beside the meals, on the days with least energy first, each drink
// once at a meal.
func (h *household) pour(l layout, chosen []*choice) {
	kcal := make([]float64, h.days)
	for t, p := range l {
		if p.main != nil {
			kcal[dayOf(t)] += p.main.kcal
		}
	}
	order := []int{atBreakfast, atEvening, atAfternoon, atMidday, atMorning}
	for _, c := range chosen {
		for range c.times[atDrinks] {
			best := -1
			for _, m := range order {
				for d := range h.days {
					t := d*meals + m
					if l.drinksOf(d, c) > c.times[atDrinks]/h.days || slices.Contains(l[t].drinks, c) || len(l[t].drinks) > 1 ||
						!l.hasTimeFor(t, c.dish) || l[t].main == c || h.cold[d] && !c.cold {
						continue
					}
					if best < 0 || kcal[d] < kcal[dayOf(best)]-1e-9 {
						best = t
					}
				}
			}
			if best < 0 {
				break
			}
			l[best].drinks = append(l[best].drinks, c)
			kcal[dayOf(best)] += c.kcal
		}
	}
}

// drinksOf counts how often c is poured on a day.
func (l layout) drinksOf(day int, c *choice) int {
	n := 0
	for m := range meals {
		if slices.Contains(l[day*meals+m].drinks, c) {
			n++
		}
	}
	return n
}

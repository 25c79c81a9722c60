package menu

import (
	"context"
	"math"
	"slices"

	"rationwright/foods/dishes"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/search"
)

// diner is a person in a program of how often which dish is eaten.
type diner struct {
	*program
	h     *household
	eater *eater

	sittings [2]int               // rows of the main meals: breakfasts, midday and evening
	food     map[*stocked]int     // rows of what they have
	often    map[*dishes.Dish]int // rows of how often a dish is the main one of a meal

	water  int          // row of the water beyond what the plan stores for food, −1: not counted
	shares [][kinds]int // by household dish: column of the servings that they share, −1: not theirs
	plates [][]plate    // likewise: what they eat in it
	own    []*choice
	times  [][2]int // by dish of their own: columns of the servings at breakfast, at midday and in the evening
}

// plate is the column of what is eaten of a food in a part of a dish.
type plate struct {
	food *stocked
	part *dishes.Part
	col  int
}

// newDiner adds the rows of one person, in a program whose household's dishes are so many.
func newDiner(h *household, e *eater, p *program, water, list int) *diner {
	g := &diner{program: p, h: h, eater: e, water: water, food: map[*stocked]int{}, often: map[*dishes.Dish]int{}}
	for k, n := range []float64{float64(h.days), 2 * float64(h.days)} {
		g.sittings[k] = g.row(n, n)
		g.Set(g.sittings[k], g.col(costNone*e.count*e.size, inf), 1)
	}
	for _, s := range h.foods {
		if grams := e.grams[s.food]; grams > 0 {
			g.food[s] = g.row(grams, grams)
			cost := costBeside
			if len(s.food.Companions) > 0 {
				cost = costSeason
			}
			g.Set(g.food[s], g.col(e.count*cost*math.Max(kcalPerG(s.food), costGram), inf), 1)
		}
	}
	g.shares, g.plates = slices.Repeat([][kinds]int{noColumns}, list), make([][]plate, list)
	return g
}

// noColumns are the columns of a dish that has none at any kind of place.
var noColumns = [kinds]int{-1, -1, -1, -1}

// servings adds the column of servings of a dish as the main one of a meal.
func (g *diner) servings(d *dishes.Dish, k kind, cost, upper float64, whole bool) int {
	j := g.col(cost, upper)
	g.Cols[j].Integer = whole
	g.Set(g.sittings[k], j, 1)
	if _, ok := g.often[d]; !ok {
		g.often[d] = g.row(0, math.Min(float64(mostServed(d, g.h.days)), model.EveryOther(float64(g.h.days))))
	}
	g.Set(g.often[d], j, 1)
	return j
}

// share adds the columns of the household's dish i where it makes them a meal. Where whole
// is set, meals are whole.
func (g *diner) share(i int, c *candidate, whole bool) {
	var servings []int
	for k := range kinds {
		if !g.takes(c, k) {
			continue
		}
		if int(k) < len(g.sittings) {
			g.shares[i][k] = g.servings(c.dish, k, 0, 2*float64(g.h.days), whole)
		} else {
			g.shares[i][k] = g.col(0, inf)
		}
		servings = append(servings, g.shares[i][k])
	}
	if len(servings) > 0 {
		g.plates[i] = g.serve(c, servings)
	}
}

// takes reports whether the person may share c at a kind of place.
func (g *diner) takes(c *candidate, k kind) bool {
	return servedAt(c.dish, k) && !c.lacks(g.eater)
}

// addOwn adds the columns of a dish of their own for main meals.
func (g *diner) addOwn(c *choice, whole bool) {
	at := [2]int{-1, -1}
	var servings []int
	for k := range g.sittings {
		if servedAt(c.dish, kind(k)) {
			at[k] = g.servings(c.dish, kind(k), g.costOwn(c), float64(g.h.days), whole)
			servings = append(servings, at[k])
		}
	}
	g.own, g.times = append(g.own, c), append(g.times, at)
	g.serve(c.candidate, servings)
}

// costOwn is the cost of a serving of a dish of their own.
func (g *diner) costOwn(c *choice) float64 {
	cost := costOwn
	if c.dish.Cooking != "none" {
		cost = costOwnPot
	}
	return float64(cost) * g.eater.count * g.eater.size
}

// serve adds what is eaten of each food in each part over all servings of c.
func (g *diner) serve(c *candidate, servings []int) []plate {
	e := g.eater
	var plates []plate
	for i := range c.parts {
		part := &c.parts[i]
		if !part.openTo(e) {
			continue
		}
		p, size := part.part, e.scale(c.dish)
		weigh := e.count * math.Max(kcalPerG(p.ReckonedAs), 10*costGram)
		least, most, bare, open := -1, g.row(-inf, 0), -1, -1
		g.Set(most, g.col(costLarge*weigh, inf), -1)
		if !p.Optional {
			least = g.row(0, inf)
			g.Set(least, g.col(costThin*weigh, inf), 1)
		}
		if makesDish(p) {
			bare = g.row(0, inf)
			if slices.ContainsFunc(part.options, func(o dishes.Option) bool { return g.h.of[o.Food].sittings(g.h.days) > 0 }) {
				open = g.row(0, inf) // else it says what bare says
			}
		}
		ends := []linear.Entry{
			{Row: most, Value: p.MaxG * size}, {Row: least, Value: p.MinG * size},
			{Row: bare, Value: bareShare * p.MinG * size}, {Row: open, Value: 1},
		}
		for _, j := range servings {
			for _, end := range ends {
				if end.Row >= 0 {
					g.Set(end.Row, j, -end.Value)
				}
			}
		}
		for _, o := range part.options {
			s := g.h.of[o.Food]
			if _, ok := g.food[s]; !ok {
				continue
			}
			y := g.col(0, inf)
			g.Set(g.food[s], y, 1)
			if g.water >= 0 {
				g.Set(g.water, y, e.count*model.BeyondL(p, o.Food))
			}
			for _, row := range []int{most, least, bare} {
				if row >= 0 {
					g.Set(row, y, 1/o.Factor)
				}
			}
			if open >= 0 {
				each := 1 / (o.Factor * bareShare * p.MinG * size)
				if n := s.sittings(g.h.days); n > 0 {
					each = float64(n) / e.grams[s.food]
				}
				g.Set(open, y, each)
			}
			plates = append(plates, plate{s, p, y})
		}
	}
	return plates
}

// sittings is at how many main meals s can be eaten, one pack opened at a time, 0 for what
// keeps all days.
func (s *stocked) sittings(days int) int {
	if s.openings == nil {
		return 0
	}
	n := 0
	for _, m := range mainMeals {
		if s.food.Keeping != nil && clock[m].hour <= clock[atBreakfast].hour+s.food.Keeping.AfterOpenHours {
			n++
		}
	}
	if s.days > 0 {
		n *= s.days
	}
	return min(max(n, 1)*len(s.packs), len(mainMeals)*days)
}

// eaten is the energy in kcal and the protein in g of what is eaten of a household dish
// by all of the person's row at a point.
func (g *diner) eaten(dish int, x []float64) (kcal, protein float64) {
	for _, y := range g.plates[dish] {
		kcal += g.eater.count * x[y.col] * kcalPerG(y.food.food)
		protein += g.eater.count * x[y.col] * proteinPerG(y.food.food)
	}
	return kcal, protein
}

// seat gives one person dishes of their own in place of those of the household that would
// leave them nothing: the choice for them alone, in whole meals, the household's being
// given; then the meals.
func (h *household) seat(ctx context.Context, l layout, e *eater, chosen []*choice) error {
	list := make([]*candidate, len(chosen))
	for i, c := range chosen {
		list[i] = c.candidate
	}
	g := newDiner(h, e, &program{}, -1, len(list))
	for i, c := range list {
		g.share(i, c, true)
	}
	for _, c := range h.ownDishes(e) {
		if isMain(c.dish) {
			g.addOwn(c, true)
		}
	}
	for i, c := range chosen {
		for k, u := range g.shares[i] {
			if u >= 0 {
				g.Cols[u].Upper = float64(c.times[k])
			}
		}
	}
	r := search.Run(ctx, g.problem(), search.Options{Gap: chooseGap, MinDenom: 1, Work: dinerWork})
	if r.X == nil {
		return ctx.Err() // as at table, then
	}
	type serving struct {
		c *choice
		k int
	}
	spare := map[serving]int{} // of the household's: those that they do without
	for i, c := range chosen {
		for k := range g.sittings {
			spare[serving{c, k}] = c.times[k]
			if u := g.shares[i][k]; u >= 0 {
				spare[serving{c, k}] -= int(math.Round(r.X[u]))
			}
		}
	}
	var order []serving
	for i, c := range g.own {
		for k, j := range g.times[i] {
			if j >= 0 {
				for range int(math.Round(r.X[j])) {
					order = append(order, serving{c, k})
				}
			}
		}
	}
	slices.SortStableFunc(order, func(a, b serving) int { return len(a.c.dish.Slots) - len(b.c.dish.Slots) })
	for _, v := range order {
		best, least := -1, inf
		for t := range l {
			if isSnack(mealOf(t)) || (mealOf(t) == atBreakfast) != (v.k == int(atBreakfasts)) || l[t].instead[e] != nil ||
				!v.c.dish.Has(clock[mealOf(t)].slot) || h.cold[dayOf(t)] && !v.c.cold || l.ownNear(t, e, v.c.dish) ||
				len(l.mealsOf(e, v.c.dish)) >= mostServed(v.c.dish, h.days) {
				continue
			}
			if main := l[t].main; main != nil && spare[serving{main, v.k}] == 0 {
				continue
			}
			cost := l.crowd(t, e, v.c.dish)
			if !l.hasTimeFor(t, v.c.dish) {
				cost += noTime
			}
			if cost < least {
				best, least = t, cost
			}
		}
		if best < 0 {
			continue
		}
		if main := l[best].main; main != nil {
			spare[serving{main, v.k}]--
		}
		l[best].instead = put(l[best].instead, e, v.c)
	}
	return nil
}

// noTime puts a meal at which the stove is taken behind every other.
const noTime = 1000

// crowd is how near other servings of d to e are to t.
func (l layout) crowd(t int, e *eater, d *dishes.Dish) float64 {
	sum := 0.0
	for _, at := range l.mealsOf(e, d) {
		sum += 1 / (1 + math.Abs(float64(dayOf(at)-dayOf(t))))
	}
	return sum
}

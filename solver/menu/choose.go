package menu

import (
	"context"
	"fmt"
	"math"
	"slices"

	"rationwright/foods/dishes"
	"rationwright/solver/model"
	"rationwright/solver/search"
)

// choose decides how often each dish is served. Let n be the servings of a dish, u those
// that a person shares and v those that they have of a dish of their own instead, y grams
// of a food that they eat in a part, S the size of their servings:
//
//	Σ n ≤ days at breakfast, 2·days at midday and evening, 0 ≤ u ≤ n
//	Σ u + Σ v + meals without a dish = days, 2·days         each person
//	min·S·(u + v) ≤ Σ y/factor ≤ max·S·(u + v)              goal; half of min is hard for what makes the dish
//	Σ y + beside = what they have of the food
//	n ≤ times_max, and less than every other day at a main meal
//
// Dishes come in by their price, see [choosing.priceIn]. Of more people than a party it is
// the choice of those who stand for them.
func (h *household) choose(ctx context.Context, list []*candidate) ([]*choice, error) {
	c := newChoosing(h, list)
	basis, err := c.priceIn(ctx)
	if err != nil {
		return nil, err
	}
	r := search.Run(ctx, c.problem(), search.Options{Gap: chooseGap, MinDenom: 1, Work: chooseWork, Basis: basis})
	if r.X == nil {
		return nil, fmt.Errorf("menu: no choice of dishes: %s", r.Why)
	}
	return c.chosen(r.X), nil
}

// choosing is the program of the choice in the making.
type choosing struct {
	*program
	h      *household
	list   []*candidate
	diners []*diner

	rows, cold [kinds]int   // all servings at a kind of place, and those on cold days
	halves     [2]int       // dishes for midday only, for evening only
	n          [][kinds]int // by dish: column of its servings, −1: none
	in         []bool       // by dish: it has its columns
	ownIn      [][]bool     // likewise, by person and dish of their own
	own        [][]*choice  // what they may have of their own
	scale      float64      // times that counts of a fortnight stand in the days
}

func newChoosing(h *household, list []*candidate) *choosing {
	p := &program{}
	days := float64(h.days)
	c := &choosing{
		program: p, h: h, list: list, n: slices.Repeat([][kinds]int{noColumns}, len(list)),
		in: make([]bool, len(list)), scale: float64(fortnights(h.days)),
	}
	c.rows = [kinds]int{
		atBreakfasts: p.row(0, days), atMains: p.row(0, 2*days),
		atSnacks: p.row(0, snacksPerDay*days), atDrinks: p.row(0, drinksPerDay*days),
	}
	for i := range c.halves {
		c.halves[i] = p.row(0, days)
	}
	c.cold = [kinds]int{atBreakfasts: p.goal(float64(len(h.cold)), inf, costNotCold*h.heads), atMains: p.goal(2*float64(len(h.cold)), inf, costNotCold*h.heads)}
	water := p.goal(-inf, 0, costWetter)
	for _, e := range h.standing() {
		c.diners = append(c.diners, newDiner(h, e, p, water, len(list)))
		own := slices.DeleteFunc(h.ownDishes(e), func(o *choice) bool { return !isMain(o.dish) })
		c.own, c.ownIn = append(c.own, own), append(c.ownIn, make([]bool, len(own)))
	}
	return c
}

// add gives dish i its columns and rows.
func (c *choosing) add(i int) {
	p, h, d := c.program, c.h, c.list[i].dish
	c.in[i] = true
	most, mostCold := c.scale*float64(d.TimesMax), mostCold(h.cold, h.days)
	all := p.row(0, most)
	often := p.row(-inf, c.scale*float64(d.TimesUsual))
	p.Set(often, p.col(costOften*h.heads, inf), -1)
	apart := model.EveryOther(float64(h.days))
	table, onCold := p.row(0, apart), p.row(-inf, mostCold)
	for k := range kinds {
		if !servedAt(d, k) {
			continue
		}
		j := -1
		if k == atBreakfasts || k == atMains {
			j = p.whole(c.serving(i, k), math.Min(most, apart))
			p.Set(table, j, 1)
			if c.list[i].cold && mostCold > 0 { // no more than stand on cold days that do not follow one another
				served, on := p.row(-inf, 0), p.col(0, inf)
				p.Set(served, on, 1)
				p.Set(served, j, -1)
				p.Set(onCold, on, 1)
				p.Set(c.cold[k], on, 1)
			}
			if half := halfOf(d, k); half >= 0 {
				p.Set(c.halves[half], j, 1)
			}
		} else {
			j = p.col(c.serving(i, k), most)
		}
		c.n[i][k] = j
		p.Set(c.rows[k], j, 1)
		p.Set(all, j, 1)
		p.Set(often, j, 1)
	}
	for _, g := range c.diners {
		g.share(i, c.list[i], false)
		for k, u := range g.shares[i] {
			if u >= 0 { // u ≤ n
				within := p.row(-inf, 0)
				p.Set(within, u, 1)
				p.Set(within, c.n[i][k], -1)
			}
		}
	}
	c.openOften(i)
}

// serving is the cost of a serving of dish i on the table.
func (c *choosing) serving(i int, k kind) float64 {
	switch {
	case k == atBreakfasts || k == atMains:
		return costVariety * c.h.heads
	case c.list[i].cold:
		return costServing * c.h.heads
	}
	return costServing * costPot * c.h.heads
}

// halfOf is the half of the main meals that d is for alone, −1 for both.
func halfOf(d *dishes.Dish, k kind) int {
	switch {
	case k != atMains:
		return -1
	case !d.Has(dishes.Evening):
		return 0
	case !d.Has(dishes.Midday):
		return 1
	}
	return -1
}

// chosen are the dishes of a point that are served.
func (c *choosing) chosen(x []float64) []*choice {
	var chosen []*choice
	for i, d := range c.list {
		ch := &choice{candidate: d}
		all := 0.0
		for k := range kinds {
			if j := c.n[i][k]; j >= 0 {
				ch.times[k] = int(math.Round(x[j]))
				all += x[j]
			}
		}
		if all < 0.5 {
			continue
		}
		for _, g := range c.diners {
			kcal, protein := g.eaten(i, x)
			ch.kcal += kcal / all
			ch.protein += protein / all
		}
		chosen = append(chosen, ch)
	}
	return chosen
}

// openOften holds that a food which is finished at the meal is opened at each serving of a
// part of dish i that nothing else makes.
func (c *choosing) openOften(i int) {
	onlyMeals := func(part candidatePart) bool { // whatever makes it is finished at the meal at which it is opened
		return !slices.ContainsFunc(part.options, func(o dishes.Option) bool { return !c.h.of[o.Food].meal })
	}
	for _, part := range c.list[i].parts {
		if part.part.Optional || !onlyMeals(part) {
			continue
		}
		row := c.row(0, inf) // Σ openings ≥ servings
		for _, j := range c.n[i] {
			if j >= 0 {
				c.Set(row, j, -1)
			}
		}
		for _, g := range c.diners {
			for _, y := range g.plates[i] {
				if y.part == part.part {
					c.Set(row, y.col, g.eater.count*float64(len(y.food.packs))/y.food.grams)
				}
			}
		}
	}
}

package menu

import (
	"context"
	"fmt"
	"math"

	"rationwright/foods/dishes"
	"rationwright/solver/branch"
)

// kind is a sort of place in the menu.
type kind int

const (
	atBreakfasts kind = iota
	atMains           // midday and evening
	atSnacks
	atDrinks // beside a meal
	kinds
)

// choice is how often a dish is served at each kind of place, and what the whole
// household eats of it at one serving.
type choice struct {
	*candidate
	times   [kinds]int
	kcal    float64
	protein float64
}

// Costs of the choice, in kcal of the household's food per kcal, serving or head.
const (
	costBeside   = 1.0  // a kcal that no dish takes
	costSeason   = 0.5  // of fat, sugar and other seasoning that no dish takes
	costGram     = 0.05 // a gram of it without energy
	costThin     = 1.5  // a kcal that a serving lacks to its least
	costLarge    = 1.0  // a kcal of a serving over its most
	costLacking  = 250  // a head that goes without a part it cannot do without
	costNone     = 500  // a head at a meal without a dish
	costOften    = 25   // a head at a serving over the usual count
	costServing  = 4    // a head at a drink or snack
	costPot      = 12   // times that, where it is cooked
	costVariety  = 8    // a head at a main dish: fewer, larger ones are no aim
	costNotCold  = 800  // a head at a meal that is hot on a cold day
	snacksPerDay = 2
	drinksPerDay = 4 // beside three meals and a snack
)

// apart is the share of days on which one dish is the main one of a meal at most: under
// every other day, so that the days can be ordered.
const apart = 0.45

// chooseGap and chooseWork end the search: counts within a few percent of the best
// are as good, the days decide.
const (
	chooseGap  = 0.03
	chooseWork = 12_000
)

// choose decides how often each dish is served. Let n be the servings of a dish, S
// the household in heads of a usual serving, Y grams of a food in a part:
//
//	Σ n = days at breakfast, 2·days at midday and evening, less meals without a dish
//	min·S·n ≤ Σ Y/factor ≤ max·S·n   for a part it cannot do without, 0 ≤ … for others
//	Σ Y + beside = what the plan has of the food
//	n ≤ times_max, and less than every other day at a main meal
func (h *household) choose(ctx context.Context, list []*candidate) ([]*choice, error) {
	p := &program{}
	days := float64(h.days)
	rows := [kinds]int{
		atBreakfasts: p.row(days, days), atMains: p.row(2*days, 2*days),
		atSnacks: p.row(0, snacksPerDay*days), atDrinks: p.row(0, drinksPerDay*days),
	}
	for _, k := range []kind{atBreakfasts, atMains} {
		p.Set(rows[k], p.col(costNone*h.heads, inf), 1)
	}
	var halves [2]int // dishes for midday only, for evening only
	for i := range halves {
		halves[i] = p.row(0, days)
	}
	cold := [kinds]int{atBreakfasts: p.goal(float64(len(h.cold)), inf, costNotCold*h.heads), atMains: p.goal(2*float64(len(h.cold)), inf, costNotCold*h.heads)}
	food := map[*stocked]int{}
	for _, s := range h.foods {
		food[s] = p.row(s.grams, s.grams)
		cost := costBeside
		if len(s.food.Companions) > 0 {
			cost = costSeason
		}
		p.Set(food[s], p.col(cost*math.Max(kcalPerG(s.food), costGram), inf), 1)
	}
	scale := float64(fortnights(h.days))
	everyOther := math.Max(1, math.Floor(apart*days))
	n := make([][kinds]int, len(list))
	eaten := make([]map[*stocked][]int, len(list))
	for i, c := range list {
		d := c.dish
		lacking := 0.0
		for _, part := range c.parts {
			if !part.part.Optional {
				lacking += costLacking * (h.heads - part.heads)
			}
		}
		most := scale * float64(d.TimesMax)
		all := p.row(0, most)
		often := p.row(-inf, scale*float64(d.TimesUsual))
		p.Set(often, p.col(costOften*h.heads, inf), -1)
		table := p.row(0, everyOther)
		for k := range kinds {
			n[i][k] = -1
			if !servedAt(d, k) {
				continue
			}
			var j int
			switch k {
			case atBreakfasts, atMains:
				j = p.whole(lacking+costVariety*h.heads, math.Min(most, everyOther))
				p.Set(table, j, 1)
				if c.cold {
					p.Set(cold[k], j, 1)
				}
				if k == atMains {
					if !d.Has(dishes.Evening) {
						p.Set(halves[0], j, 1)
					} else if !d.Has(dishes.Midday) {
						p.Set(halves[1], j, 1)
					}
				}
			default:
				serving := costServing * h.heads
				if !c.cold {
					serving *= costPot
				}
				j = p.col(lacking+serving, most)
			}
			n[i][k] = j
			p.Set(rows[k], j, 1)
			p.Set(all, j, 1)
			p.Set(often, j, 1)
		}
		eaten[i] = h.addParts(p, c, n[i], food)
	}
	r := branch.Solve(ctx, p.problem(), branch.Options{Gap: chooseGap, MinDenom: 1, Work: chooseWork})
	if r.X == nil {
		return nil, fmt.Errorf("menu: no choice of dishes: %s", r.Why)
	}
	var chosen []*choice
	for i, c := range list {
		ch := &choice{candidate: c}
		all := 0.0
		for k := range kinds {
			if j := n[i][k]; j >= 0 {
				ch.times[k] = int(math.Round(r.X[j]))
				all += r.X[j]
			}
		}
		if all < 0.5 {
			continue
		}
		for _, s := range h.foods {
			for _, j := range eaten[i][s] {
				ch.kcal += r.X[j] * kcalPerG(s.food) / all
				ch.protein += r.X[j] * proteinPerG(s.food) / all
			}
		}
		chosen = append(chosen, ch)
	}
	return chosen, nil
}

// servedAt reports whether the dish is served at a kind of place.
func servedAt(d *dishes.Dish, k kind) bool {
	switch k {
	case atBreakfasts:
		return d.Has(dishes.Breakfast)
	case atMains:
		return d.Has(dishes.Midday) || d.Has(dishes.Evening)
	case atSnacks:
		return d.Has(dishes.Snack)
	}
	return d.Has(dishes.Drink)
}

// addParts adds what is eaten of each food in each part of c over all its servings.
// A food that is finished at the meal needs an opening at each serving of a part
// that nothing else makes.
func (h *household) addParts(p *program, c *candidate, n [kinds]int, food map[*stocked]int) map[*stocked][]int {
	cols := map[*stocked][]int{}
	for _, part := range c.parts {
		heads := math.Min(part.heads, h.heads)
		kcal := kcalPerG(part.part.ReckonedAs)
		weigh := math.Max(kcal, 10*costGram)
		least, most := p.row(0, inf), p.row(-inf, 0)
		if !part.part.Optional {
			p.Set(least, p.col(costThin*weigh, inf), 1)
		}
		p.Set(most, p.col(costLarge*weigh, inf), -1)
		openings := -1
		if !part.part.Optional && onlyMeals(h, part) {
			openings = p.row(0, inf) // Σ openings ≥ servings
		}
		for _, j := range n {
			if j < 0 {
				continue
			}
			if !part.part.Optional {
				p.Set(least, j, -part.part.MinG*heads)
			}
			p.Set(most, j, -part.part.MaxG*heads)
			if openings >= 0 {
				p.Set(openings, j, -1)
			}
		}
		for _, o := range part.options {
			s := h.of[o.Food]
			y := p.col(0, s.grams)
			p.Set(food[s], y, 1)
			p.Set(least, y, 1/o.Factor)
			p.Set(most, y, 1/o.Factor)
			if openings >= 0 {
				p.Set(openings, y, float64(len(s.openings))/s.grams)
			}
			cols[s] = append(cols[s], y)
		}
	}
	return cols
}

// onlyMeals reports whether every food that makes the part is finished at the meal
// at which it is opened.
func onlyMeals(h *household, part candidatePart) bool {
	for _, o := range part.options {
		if !h.of[o.Food].meal {
			return false
		}
	}
	return true
}

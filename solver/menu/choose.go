package menu

import (
	"context"
	"fmt"
	"math"

	"rationwright/foods/dishes"
	"rationwright/solver/ration"
	"rationwright/solver/search"
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
	costThin     = 1.5  // a kcal that a serving lacks to its least
	costLarge    = 1.0  // a kcal of a serving over its most
	costNone     = 500  // a head at a meal without a dish
	costOwn      = 60   // a head at a meal with a dish of one's own
	costOwnPot   = 160  // where that is cooked
	costOften    = 25   // a head at a serving over the usual count
	costServing  = 4    // a head at a drink or snack
	costPot      = 12   // times that, where it is cooked
	costVariety  = 8    // a head at a main dish: fewer, larger ones are no aim
	costNotCold  = 800  // a head at a meal that is hot on a cold day
	costWetter   = 1500 // a litre that dishes take beyond what the plan stores for food
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
// Of more people than a party it is the choice of those who stand for them.
func (h *household) choose(ctx context.Context, list []*candidate, book *dishes.Book, cook ration.Cook) ([]*choice, error) {
	p := &program{}
	days := float64(h.days)
	rows := [kinds]int{
		atBreakfasts: p.row(0, days), atMains: p.row(0, 2*days),
		atSnacks: p.row(0, snacksPerDay*days), atDrinks: p.row(0, drinksPerDay*days),
	}
	var halves [2]int // dishes for midday only, for evening only
	for i := range halves {
		halves[i] = p.row(0, days)
	}
	cold := [kinds]int{atBreakfasts: p.goal(float64(len(h.cold)), inf, costNotCold*h.heads), atMains: p.goal(2*float64(len(h.cold)), inf, costNotCold*h.heads)}
	scale, mostCold := float64(fortnights(h.days)), mostCold(h.cold, h.days)
	everyOther := math.Max(1, math.Floor(apart*days))
	n := make([][kinds]int, len(list))
	for i, c := range list {
		d := c.dish
		most := scale * float64(d.TimesMax)
		all := p.row(0, most)
		often := p.row(-inf, scale*float64(d.TimesUsual))
		p.Set(often, p.col(costOften*h.heads, inf), -1)
		table, onCold := p.row(0, everyOther), p.row(-inf, mostCold)
		for k := range kinds {
			n[i][k] = -1
			if !servedAt(d, k) {
				continue
			}
			var j int
			switch k {
			case atBreakfasts, atMains:
				j = p.whole(costVariety*h.heads, math.Min(most, everyOther))
				p.Set(table, j, 1)
				if c.cold && mostCold > 0 { // no more than stand on cold days that do not follow one another
					served, on := p.row(-inf, 0), p.col(0, inf)
					p.Set(served, on, 1)
					p.Set(served, j, -1)
					p.Set(onCold, on, 1)
					p.Set(cold[k], on, 1)
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
				j = p.col(serving, most)
			}
			n[i][k] = j
			p.Set(rows[k], j, 1)
			p.Set(all, j, 1)
			p.Set(often, j, 1)
		}
	}
	water := p.goal(-inf, 0, costWetter)
	var diners []*diner
	for _, e := range h.standing() {
		g := &diner{h: h, eater: e, program: p, water: water}
		g.sit(list, h.ownDishes(book, cook, e), false)
		for i := range list {
			for k, u := range g.shares[i] {
				if u >= 0 { // u ≤ n
					within := p.row(-inf, 0)
					p.Set(within, u, 1)
					p.Set(within, n[i][k], -1)
				}
			}
		}
		diners = append(diners, g)
	}
	openOften(p, list, n, diners)
	r := search.Run(ctx, p.problem(), search.Options{Gap: chooseGap, MinDenom: 1, Work: chooseWork})
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
		for _, g := range diners {
			kcal, protein := g.eaten(i, r.X)
			ch.kcal += kcal / all
			ch.protein += protein / all
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

// openOften holds that a food which is finished at the meal is opened at each serving of a
// part that nothing else makes.
func openOften(p *program, list []*candidate, n [][kinds]int, diners []*diner) {
	if len(diners) == 0 {
		return
	}
	for i, c := range list {
		for _, part := range c.parts {
			if part.part.Optional || !onlyMeals(part, diners) {
				continue
			}
			row := p.row(0, inf) // Σ openings ≥ servings
			for _, j := range n[i] {
				if j >= 0 {
					p.Set(row, j, -1)
				}
			}
			for _, g := range diners {
				for _, y := range g.plates[i] {
					if y.part == part.part {
						p.Set(row, y.col, g.eater.count*float64(len(y.food.packs))/y.food.grams)
					}
				}
			}
		}
	}
}

// onlyMeals reports whether every food that makes the part is finished at the meal
// at which it is opened.
func onlyMeals(part candidatePart, diners []*diner) bool {
	for _, o := range part.options {
		if !diners[0].h.of[o.Food].meal {
			return false
		}
	}
	return true
}

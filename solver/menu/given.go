package menu

import (
	"context"
	"errors"
	"math"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/solver/model"
	"rationwright/solver/rules"
)

// Given is what is decided with the plan: how often which dish is eaten.
type Given struct {
	Model   *model.Model                  // of the plan; what each person eats is free within it
	Counts  map[string][2]int             // at breakfast, and at midday and in the evening
	Between map[string]map[string]float64 // servings beside these: of a dish, by person
	Instead map[string]map[string]bool    // dishes that a person has in place of the household's
	Most    float64                       // that the plan may come to
}

// MakeGiven spreads a plan whose dishes are given. What each person eats of its packs
// is decided anew, within the plan's model, so that the days are even; the point of the
// model is returned with the menu, which is nil where the packs cannot be
// eaten so, and with the litres stored for what dishes take of water beyond what their
// foods take by themselves.
func MakeGiven(ctx context.Context, req *Request, given *Given, point []float64) (m *Menu, x []float64, beyondL float64, err error) {
	h := newHousehold(req)
	free := &freeGrams{model: given.Model, point: point, foods: h.of, most: given.Most}
	free.stored = given.Model.RowOf(model.RowAllWater)
	for _, e := range h.eaters {
		e.instead = given.Instead[e.name]
		e.may = map[*foods.Food]bool{}
		for _, s := range h.foods {
			e.may[s.food] = !rules.IsMilkFeed(s.food) && free.column(e, s.food) >= 0
		}
	}
	var chosen []*choice
	for _, d := range req.Book.Dishes {
		n, ok := given.Counts[d.Key]
		if !ok {
			continue
		}
		c := h.candidate(d)
		if c == nil {
			continue
		}
		ch := &choice{candidate: c}
		ch.times[atBreakfasts], ch.times[atMains] = n[0], n[1]
		for _, p := range d.Required() {
			ch.kcal += p.UsualG * kcalPerG(p.ReckonedAs) * h.heads
			ch.protein += p.UsualG * proteinPerG(p.ReckonedAs) * h.heads
		}
		chosen = append(chosen, ch)
	}
	l := h.lay(chosen)
	h.swap(l)
	for _, e := range h.eaters {
		for _, d := range req.Book.Dishes {
			if n := given.Between[e.name][d.Key]; n > 0 {
				h.between(l, e, d, n)
			}
		}
	}
	if err := h.host(ctx, l); err != nil {
		return nil, nil, 0, err
	}
	h.rough = true // what is lacking shows before crumbs are left out
	servings, _, err := h.shareOf(ctx, l, h.eaters, h.openings(), free)
	h.rough = false
	if errors.Is(err, errNoShare) {
		return nil, nil, 0, nil
	}
	if err != nil {
		return nil, nil, 0, err
	}
	h.addOwn(l, servings) // for what no dish takes yet
	h.repair(l, servings)
	h.addStarch(l, servings)
	drawIn(h, l, servings)
	if servings, x, err = h.shareOf(ctx, l, h.eaters, h.openings(), free); err != nil {
		return nil, nil, 0, err
	}
	l, servings, x = repaired(ctx, h, l, servings, x, free)
	h.recount(servings)
	for _, v := range servings {
		if v.part != nil {
			beyondL += v.eater.count * v.grams * model.StoredBeyondL(v.part.part, v.food.food)
		}
	}
	return written(h, req, l, servings), x[:len(given.Model.Cols)], beyondL, nil
}

// repaired gives who lacks what makes a dish, after the days were bettered, a dish of their
// own, and those who have nothing of a carton a drink of it where a child has too much, and
// shares out again; where that leaves more lacking, or no time to do it, all stays.
func repaired(ctx context.Context, h *household, l layout, servings []serving, x []float64, free *freeGrams) (layout, []serving, []float64) {
	other := l.withOwnInstead()
	repaired := h.repair(other, servings)
	drawn := drawIn(h, other, servings)
	if !repaired && !drawn {
		return l, servings, x
	}
	anew, y, err := h.shareOf(ctx, other, h.eaters, h.openings(), free)
	if err != nil {
		return l, servings, x
	}
	if more := other.bare(anew, h.eaters) - l.bare(servings, h.eaters); more > 0 || more == 0 && !drawn {
		return l, servings, x
	}
	return other, anew, y
}

// bare is how many main meals are without a dish, or with one that lacks what makes it.
func (l layout) bare(servings []serving, eaters []*eater) int {
	n := 0
	for _, e := range eaters {
		n += len(l.bareMeals(servings, e))
	}
	return n
}

// recount takes the grams of the plan from the servings.
func (h *household) recount(servings []serving) {
	for _, e := range h.eaters {
		clear(e.grams)
		e.kcal, e.protein = e.fed(h.days, kcalPerG), e.fed(h.days, proteinPerG)
	}
	for _, s := range h.foods {
		if !s.feed {
			s.grams = 0
		}
	}
	for _, v := range servings {
		e := v.eater
		e.grams[v.food.food] += v.grams
		e.kcal += v.grams * kcalPerG(v.food.food) / float64(h.days)
		e.protein += v.grams * proteinPerG(v.food.food) / float64(h.days)
		v.food.grams += e.count * v.grams
	}
}

// between places n servings of d for e: between the meals, or as a drink beside them, on no
// day beside one on which it is the dish of a meal;
// what is open at one meal only, then.
func (h *household) between(l layout, e *eater, d *dishes.Dish, n float64) {
	c := e.partsFor(d)
	if c == nil {
		return
	}
	own := &choice{candidate: c}
	left := int(math.Ceil(n - 0.05))
	place := func(t int) bool {
		if !l.hasTimeFor(t, d) || !isSnack(mealOf(t)) && isMain(d) && (!d.Has(dishes.Drink) || l.ownNear(t, e, d)) || l.ownAt(t, e, d) || l.drinks(t, e, d) || l.repeats(t, e, d) || l.owns(t, e) >= mostOwn {
			return false
		}
		l[t].own = append(l[t].own, ownDish{e, own})
		return true
	}
	order := []int{atAfternoon, atMorning, atEvening, atBreakfast, atMidday}
	if !own.cold {
		order = []int{atEvening, atMidday, atBreakfast, atAfternoon, atMorning}
	}
	for range 2 {
		left = l.spread(order, left, place)
		for t := range l { // wherever there is room
			if left > 0 && place(t) {
				left--
			}
		}
	}
}

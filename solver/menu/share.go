package menu

import (
	"context"
	"errors"
	"fmt"
	"math"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// serving is what one eater gets of one food at a position, in a part of a dish or
// beside the dishes.
type serving struct {
	eater *eater
	t     int
	of    *choice        // nil: beside the dishes
	part  *candidatePart // likewise
	food  *stocked
	grams float64

	col int
}

// scale is the size of e's serving of d: a child's dish has the child's own amounts.
func (e *eater) scale(d *dishes.Dish) float64 {
	if d.UnderMonths > 0 {
		return 1
	}
	return e.size
}

// Rules of a day, as shares of a person's mean; and of a meal. The program keeps a
// margin to them.
const (
	EnergyRoom        = 0.10 // either way
	ProteinRoom       = 0.20
	CarbohydrateRoomG = 10
	costEnergy        = 6    // a kcal beyond the room
	costProtein       = 60   // a g
	proteinFar        = 0.35 // beyond which protein costs costFar times that: rather several days a little off than one by far
	costFar           = 4
	costCarbohydrate  = 90 // a g, for those who count it
	costUnpreferred   = 0.02
	costBare          = 6     // a kcal under half the least of what makes a dish
	costUneaten       = 500   // a kcal of the plan that cannot be eaten in time
	uneatenKcal       = 9     // that a gram of anything counts as there, as of oil: salt and yeast are needed too
	costWater         = 10000 // a litre that dishes take beyond what the plan stores for food
	costDated         = 50    // a kcal not eaten by its date
	freeBeside        = 4     // times costBeside, where the grams are free
	freeThin          = 4     // likewise costThin
	freeDays          = 3     // likewise what a day's or a meal's goals cost
)

// leaving is what it costs not to eat a gram of f.
func leaving(f *foods.Food) float64 { return costUneaten * math.Max(kcalPerG(f), uneatenKcal) }

// share decides what each person gets at each meal. Let y be grams of a food that an
// eater gets in a part of a dish, z beside the dishes:
//
//	Σ_t (y + z) = grams of the plan                          each eater and food
//	Σ_p n_p (y + z) ≤ content of an opening                  over its meals
//	min·size ≤ Σ y/factor ≤ max·size                         goal, each part
//	energy and protein of a day near the eater's mean        goal
//	what a medicine asks to keep alike near their mean       goal
//	what publications let them have in a day or a week       goal
//	carbohydrate of each main meal near their mean           goal, for those who count it
//
// A second pass leaves out what the first gave in crumbs.
func (h *household) share(ctx context.Context, l layout) ([]serving, error) {
	var all []serving
	for _, party := range h.parties() {
		servings, _, err := h.shareOf(ctx, l, party, portion(h.foods, party), nil)
		if err != nil {
			return nil, err
		}
		all = append(all, servings...)
	}
	return all, nil
}

// errNoShare: the packs as they are opened cannot be shared out.
var errNoShare = errors.New("menu: the servings cannot be shared out")

// shareOf shares out to some of the eaters. What is in an opening is theirs where
// content is nil.
//
// Where free is given, the grams of the plan are columns of its model, its packs as they
// are, within looseWork of what they are at its point; in a first share they stay what they
// are. The point of the model is returned too.
func (h *household) shareOf(ctx context.Context, l layout, eaters []*eater, content map[*opening]float64, free *freeGrams) ([]serving, []float64, error) {
	servings, p := h.shareProgram(l, eaters, content, free)
	s, err := search.Relax(p.problem())
	if err != nil {
		return nil, nil, err
	}
	var r simplex.Result
	if free == nil {
		r = solveAgain(ctx, h, p, s)
	} else {
		r = free.solve(ctx, s, p, h.rough)
	}
	if r.Status == simplex.Infeasible {
		return nil, nil, errNoShare
	}
	if r.Status != simplex.Optimal {
		return nil, nil, fmt.Errorf("menu: the servings cannot be shared out: %s %s", r.Status, r.Why)
	}
	passes := crumbPasses
	if h.rough {
		passes = 0
	}
	for range passes {
		crumbs := false
		for i := range servings {
			v := &servings[i]
			if g := r.X[v.col]; g > 0 && v.food.openings == nil && v.isCrumb(g, h.days) {
				s.SetBounds(v.col, 0, 0)
				crumbs = true
			}
		}
		if !crumbs {
			break
		}
		next := s.SolveWithin(ctx, int(crumbPart*float64(len(p.Rows))))
		if next.Status != simplex.Optimal || p.left(next.X) > p.left(r.X)+leastLeftG { // the crumbs are needed
			break
		}
		r = next
	}
	out := servings[:0]
	for _, v := range servings {
		if v.grams = r.X[v.col]; v.grams > leastG {
			out = append(out, v)
		}
	}
	if free != nil {
		free.takeLess(r.X)
		if !h.rough {
			free.seen = places{}
			free.seen.keep(&p.marks, s)
		}
	} else if h.shared != nil {
		h.shared.keep(&p.marks, s)
	}
	return gathered(out, h.days), r.X, nil
}

// openings returns the content of every opening.
func (h *household) openings() map[*opening]float64 {
	content := map[*opening]float64{}
	for _, s := range h.foods {
		for _, o := range s.openings {
			content[o] = o.grams
		}
	}
	return content
}

func (h *household) shareProgram(l layout, eaters []*eater, content map[*opening]float64, free *freeGrams) ([]serving, *program) {
	p := &program{}
	if free != nil {
		p.Problem = *free.problem()
		p.markAll(modelMark{})
	}
	var servings []serving
	rows := map[*opening]int{}
	for _, s := range h.foods {
		for _, o := range s.openings {
			if grams, ok := content[o]; ok {
				rows[o] = p.row(-inf, grams)
			}
		}
	}
	add := func(v serving, cost, upper float64) int {
		v.col = p.col(cost, upper)
		servings = append(servings, v)
		if row, ok := rows[v.food.within(v.t)]; ok {
			p.Set(row, v.col, v.eater.count)
		}
		return v.col
	}
	water := p.goal(-inf, 0, costWater)
	for _, e := range eaters {
		p.mark(plateMark{e, allDays, nil})
		all := map[*stocked]int{}
		for _, s := range h.foods {
			switch {
			case !e.eats(s.food):
			case free != nil:
				all[s] = p.row(0, 0)
				j := free.column(e, s.food)
				p.Set(all[s], j, -1)
				if less, ok := free.less[j]; ok {
					p.Set(all[s], less, 1)
				}
			default:
				all[s] = p.row(e.grams[s.food], e.grams[s.food])
				p.uneaten = append(p.uneaten, p.col(leaving(s.food), inf))
				p.Set(all[s], p.uneaten[len(p.uneaten)-1], 1)
			}
		}
		dated := map[*stocked][][2]int{} // day and row of what must be eaten by it
		for _, d := range e.byDate {
			s := h.byName[d.Food]
			if _, eaten := all[s]; eaten {
				dated[s] = append(dated[s], [2]int{d.Day, p.goal(d.Grams, inf, costDated*math.Max(kcalPerG(s.food), costGram))})
			}
		}
		counts, ofMeals := p.meanColumn(e, h.days)
		energies := p.dayMean(h.days, e.kcal, e.fed(h.days, kcalPerG), free != nil)
		proteins := p.dayMean(h.days, e.protein, e.fed(h.days, proteinPerG), free != nil)
		alike := p.alike(h.days, e.steady, free != nil)
		limits := p.limit(e, h.days, e.dayWeight(), leaving)
		most := newSittings()
		with := l.companionMeals(h, e)
		for d := range h.days {
			p.mark(plateMark{e, -1 - d, nil})
			energy := p.energyGoal(energies, e)
			protein := proteins.goal(p, ProteinRoom, costProtein*e.dayWeight())
			far := proteins.goal(p, proteinFar, costFar*costProtein*e.dayWeight())
			steady := alike.goals(p, e.dayWeight())
			for m := range meals {
				t := d*meals + m
				carbohydrate := [2]int{-1, -1}
				if counts >= 0 && !isSnack(m) {
					carbohydrate = p.carbohydrateRows(e, counts)
				}
				eat := func(v serving, cost, upper float64) int {
					j := add(v, cost, upper)
					f := v.food.food
					if !math.IsInf(upper, 1) {
						most.add(e, v.food, v.t, j)
					}
					p.Set(all[v.food], j, 1)
					switch {
					case v.part == nil:
					case free == nil:
						p.Set(water, j, e.count*model.BeyondL(v.part.part, f))
					default:
						p.Set(free.stored, j, -e.count*model.StoredBeyondL(v.part.part, f))
					}
					for _, by := range dated[v.food] {
						if d < by[0] {
							p.Set(by[1], j, 1)
						}
					}
					energies.add(p, energy, j, kcalPerG(f))
					proteins.add(p, protein, j, proteinPerG(f))
					p.Set(far[0], j, proteinPerG(f))
					p.Set(far[1], j, proteinPerG(f))
					alike.add(p, steady, j, f)
					limits.add(p, d, j, f)
					for _, r := range carbohydrate {
						if r >= 0 {
							p.Set(r, j, carbohydratePerG(f))
						}
					}
					if ofMeals >= 0 && !isSnack(m) {
						p.Set(ofMeals, j, carbohydratePerG(f))
					}
					return j
				}
				h.addDishes(p, l, e, t, eat)
				p.mark(plateMark{e, t, nil})
				h.addBeside(e, t, with, eat)
			}
		}
		most.hold(p, e)
	}
	return servings, p
}

// addDishes adds what e may get of the dishes at t: each part from its least to its
// most, as a goal. A dish of one's own may be left, and then nothing of it is eaten:
// with u its first part and v another,
//
//	v/most_v ≤ u/least_u
//	v/least_v ≥ u/most_u   goal, of what it cannot do without
func (h *household) addDishes(p *program, l layout, e *eater, t int, eat func(serving, float64, float64) int) {
	for _, c := range l.table(t, e) {
		p.mark(plateMark{e, t, c})
		size := e.scale(c.dish)
		own := l.isOwn(t, e, c)
		if own && !c.openFor(h, e, t) {
			continue
		}
		var first []linear.Entry // columns of the first part, each with grams of the part a gram
		var firstLeast, firstMost float64
		var making []linear.Entry // likewise of the first part that it cannot do without
		var makingLeast float64
		var free []linear.Entry // of those that it can, each as a part of its most
		for i := range c.parts {
			part := &c.parts[i]
			least, most := part.part.MinG*size, part.part.MaxG*size
			var cols []linear.Entry
			for _, o := range part.options {
				s := h.of[o.Food]
				if !e.eats(o.Food) || s.openings != nil && s.within(t) == nil {
					continue
				}
				cost := 0.0
				if o.Substitute {
					cost = costUnpreferred
				}
				j := eat(serving{eater: e, t: t, of: c, part: part, food: s}, cost, e.mostOf(s))
				cols = append(cols, linear.Entry{Row: j, Value: 1 / o.Factor})
			}
			if len(cols) == 0 {
				continue
			}
			weigh := math.Max(kcalPerG(part.part.ReckonedAs), 10*costGram)
			row := p.row(-inf, most)
			p.overMost(row, most, weigh)
			if !part.part.Optional && !own {
				p.Rows[row].Lower = least
				thin := costThin * weigh
				if e.may != nil {
					thin *= freeThin
				}
				p.Set(row, p.col(thin, inf), 1)
			}
			p.setPer(row, cols, 1)
			if makesDish(part.part) && !own {
				bare := p.row(bareAim*least, inf)
				p.Set(bare, p.col(costBare*weigh, inf), 1)
				p.setPer(bare, cols, 1)
			}
			if !own {
				switch {
				case part.part.Optional:
					for _, y := range cols {
						free = append(free, linear.Entry{Row: y.Row, Value: y.Value / most})
					}
				case making == nil:
					making, makingLeast = cols, least
				}
				continue
			}
			if first == nil {
				first, firstLeast, firstMost = cols, least, most
				continue
			}
			with := p.row(-inf, 0)
			p.setPer(with, cols, most)
			p.setPer(with, first, -firstLeast)
			if part.part.Optional {
				continue
			}
			whole := p.row(0, inf) // no cocoa without its milk
			p.Set(whole, p.col(costThin*weigh*least, inf), 1)
			p.setPer(whole, cols, least)
			p.setPer(whole, first, -firstMost)
		}
		for _, y := range free { // no spoon of oil for a dish of which nothing is eaten
			with := p.row(-inf, 0)
			p.Set(with, y.Row, y.Value)
			p.setPer(with, making, -makingLeast)
		}
	}
}

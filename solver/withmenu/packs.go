package withmenu

import (
	"context"
	"math"

	"rationwright/foods/dishes"
	"rationwright/solver/model"
	"rationwright/solver/search"
)

// dearDishes is the price of the dishes, as a part of the plan without them, from which
// they are also chosen anew with the packs. Own planning rule, no source.
const dearDishes = 0.05

// wholePacks finds whole packs for the dishes that are chosen, with the model and the
// seating that its point is of. Where the dishes add much, as to the packs of one person,
// or where there are none, it also seeks packs for the same dishes however often: c then
// has the new counts.
func (d *dining) wholePacks(ctx context.Context, l *larder, c *chosen, progress func(search.Progress)) (*model.Model, *model.Seating, search.Result, error) {
	serve := func(counts map[string][2]int, all bool) (*model.Model, *model.Seating, error) {
		m, err := d.model()
		if err != nil {
			return nil, nil, err
		}
		return m, m.AddDishes(model.Menu{
			Book: d.book, Foods: l.in, Counts: counts, Jars: c.jars, Between: between, Beside: c.beside,
			Table: func(x *dishes.Dish) bool { _, ok := c.counts[x.Key]; return ok },
			Own:   func(x *dishes.Dish) bool { return all || c.own[x] },
		}), nil
	}
	for _, all := range []bool{false, true} {
		served, seating, err := serve(c.counts, all)
		if err != nil {
			return nil, nil, search.Result{}, err
		}
		result := d.packs(ctx, served, l, progress, nil)
		if result.X == nil {
			continue
		}
		if free := *d.free.Value; result.Value > free+dearDishes*math.Abs(free) && ctx.Err() == nil {
			m, anew, err := serve(nil, all)
			if err != nil {
				return nil, nil, search.Result{}, err
			}
			if better := d.packs(ctx, m, l, progress, result.X); better.X != nil && better.Value < result.Value {
				c.counts = countsOf(anew, better.X)
				return m, anew, better, nil
			}
		}
		return served, seating, result, nil
	}
	m, anew, err := serve(nil, true) // the same dishes, however often
	if err != nil || ctx.Err() != nil {
		return nil, nil, search.Result{}, err
	}
	result := d.packs(ctx, m, l, progress, nil)
	if result.X != nil {
		c.counts = countsOf(anew, result.X)
	}
	return m, anew, result, nil
}

// countsOf is how often the household eats each dish at a point, at breakfast and at
// midday and in the evening.
func countsOf(seating *model.Seating, x []float64) map[string][2]int {
	counts := map[string][2]int{}
	for _, s := range seating.Seats {
		var n [2]int
		for k, j := range []int{s.Breakfast, s.Main} {
			if j >= 0 {
				n[k] = int(math.Round(x[j]))
			}
		}
		if n[0]+n[1] > 0 {
			counts[s.Dish.Key] = n
		}
	}
	return counts
}

// packs finds whole packs for the dishes of m, from start where it is not nil. The bound is that of the plan
// without dishes.
func (d *dining) packs(ctx context.Context, m *model.Model, l *larder, progress func(search.Progress), start []float64) search.Result {
	q, err := search.NewMaster(m, m.Problem, l.in)
	if err != nil {
		return search.Result{}
	}
	opt := search.OptionsOf(m, progress, start)
	opt.Work = int64(packEffort * float64(opt.Work))
	timed, stop := search.Part(ctx, packPart)
	defer stop()
	result := q.Search(timed, opt)
	if result.X == nil && search.OutOfTime(timed) {
		result.Why = outOfTime
	}
	result.Bound = math.Inf(-1)
	if d.free.Bound != nil {
		result.Bound = *d.free.Bound
	}
	return result
}

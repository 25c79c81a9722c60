package withmenu

import (
	"context"
	"math"

	"rationwright/foods/dishes"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// widths are the foods that dishes are chosen from, one after the other until there are
// dishes for all days: those of the plan without dishes, those of its relaxation and
// those next in price, so many in all. A ration is made of some forty. Among all foods,
// the dishes are those of the smaller set in which every food has one, and those for
// children. Where there are none yet, as where a need can just be met at all, a part of the
// energy may be eaten beside the dishes; the menu says what.
var widths = []width{{60, false, 0}, {110, false, 0}, {110, false, 0.05}, {1000, true, 0.1}, {1000, true, 0.4}}

type width struct {
	foods  int
	core   bool
	beside float64
}

// between is how many usual servings a head and day are eaten between and beside the
// meals at most: two snacks and two drinks.
const between = 4

// chosenTolerance is the servings over which the relaxation chooses a dish, and how near
// to a whole number counts as whole: the simplex method's tolerance, with room.
const chosenTolerance = 1e-6

// chosen is what the choice of dishes comes to.
type chosen struct {
	counts map[string][2]int
	own    map[*dishes.Dish]bool // served beside the household's
	beside float64               // part of the energy beside the dishes
}

// foodsOf picks the foods from which dishes are made: those of the plan, and those
// nearest to it at the reduced costs of the relaxation.
func foodsOf(ctx context.Context, m *model.Model, free *ration.Plan, about int) []bool {
	in := m.FoodsOf(free)
	for li, lf := range m.Larder {
		in[li] = in[li] || lf.Balance < 0 || len(lf.Stock) > 0 || len(lf.Reserve) > 0
	}
	q, err := search.NewMaster(m, m.Problem, in)
	if err != nil {
		return in
	}
	r := q.Solve(ctx)
	if r.Status != simplex.Optimal {
		return in
	}
	for j, info := range m.Cols {
		if info.Larder >= 0 && r.X[j] > model.Dust {
			in[info.Larder] = true
		}
	}
	search.TakeNearest(m, in, r.Reduced, about)
	return in
}

// choose decides how often the household eats which dish: the relaxation of packs and
// dishes together, then a dive that makes the counts whole, the packs still in parts.
// It returns nil where the foods leave no dishes for all days.
func choose(ctx context.Context, m *model.Model, book *dishes.Book, in []bool, w width) (*chosen, error) {
	all := func(d *dishes.Dish) bool { return d.Core || d.Own || d.UnderMonths > 0 || !w.core }
	seating := m.AddDishes(model.Menu{Book: book, Foods: in, Table: all, Own: all, Between: between, Beside: w.beside})
	q, err := search.NewMaster(m, m.Problem, in)
	if err != nil {
		return nil, err
	}
	r := q.Solve(ctx)
	if r.Status != simplex.Optimal {
		return nil, nil
	}
	c := &chosen{counts: map[string][2]int{}, own: map[*dishes.Dish]bool{}, beside: w.beside}
	var cols []int
	for _, s := range seating.Seats {
		for _, j := range []int{s.Breakfast, s.Main} {
			if j >= 0 {
				cols = append(cols, j)
			}
		}
	}
	if r, err = dive(ctx, q, cols, r); err != nil || r.X == nil {
		return nil, err
	}
	for _, s := range seating.Seats {
		var n [2]int
		for k, j := range []int{s.Breakfast, s.Main} {
			if j >= 0 {
				n[k] = int(math.Round(r.X[j]))
			}
		}
		if n[0]+n[1] > 0 {
			c.counts[s.Dish.Key] = n
		}
	}
	for _, g := range seating.Parties {
		for _, o := range g.Own {
			for _, j := range []int{o.Breakfast, o.Main, o.Between} {
				if j >= 0 && r.X[j] > chosenTolerance {
					c.own[o.Dish] = true
				}
			}
		}
	}
	return c, nil
}

// dive makes the columns whole: each step holds what is whole already as the least,
// takes the largest fraction up, and where that leaves nothing, down.
func dive(ctx context.Context, q *search.Master, cols []int, r simplex.Result) (simplex.Result, error) {
	p := q.Model.Problem
	for range 2 * len(cols) {
		most, at := chosenTolerance, -1
		for _, j := range cols {
			v := r.X[j]
			floor := math.Floor(v + chosenTolerance)
			if low, up := q.LP.Bounds(j); floor > low {
				q.LP.SetBounds(j, floor, up)
			}
			if f := v - floor; f > most {
				most, at = f, j
			}
		}
		if at < 0 {
			return r, nil
		}
		low, up := q.LP.Bounds(at)
		q.LP.SetBounds(at, math.Ceil(r.X[at]-chosenTolerance), math.Min(up, p.Cols[at].Upper))
		next := q.LP.Solve(ctx)
		if next.Status != simplex.Optimal {
			q.LP.SetBounds(at, low, math.Floor(r.X[at]))
			if next = q.LP.Solve(ctx); next.Status != simplex.Optimal {
				return simplex.Result{}, ctx.Err()
			}
		}
		r = next
	}
	return simplex.Result{}, nil
}

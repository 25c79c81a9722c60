package withmenu

import (
	"cmp"
	"context"
	"math"
	"slices"

	"rationwright/foods/dishes"
	"rationwright/solver/model"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// besides are the parts of the energy that may be eaten beside the dishes, one after the
// other until there are dishes for all days: some where there are none yet, as where a
// need can just be met at all. The menu says what.
var besides = []float64{0, 0.05, 0.1, 0.4}

// between is how many usual servings a head and day are eaten between and beside the
// meals at most: two snacks and two drinks.
const between = 4

// chosen is what the choice of dishes comes to.
type chosen struct {
	counts map[string][2]int
	own    map[*dishes.Dish]bool // served beside the household's
	beside float64               // part of the energy beside the dishes
	jars   map[string]bool       // infants who have a jar of meat a day
}

// larder is the foods from which dishes are made, by larder index, and what a plan without
// dishes, in parts of packs, comes to at least.
type larder struct {
	in      []bool
	free    float64
	reduced []float64 // costs of its columns there
	nobodys int       // foods that nobody may eat, which are in
}

// larder picks the foods of the plan without dishes, and those nearest to it at the
// reduced costs of its relaxation.
func (d *dining) larder(ctx context.Context) (*larder, error) {
	m, err := d.model()
	if err != nil {
		return nil, err
	}
	l := &larder{in: m.FoodsOf(d.free), free: math.Inf(1)}
	for li, lf := range m.Larder {
		if lf.Balance < 0 {
			l.nobodys++
		}
		l.in[li] = l.in[li] || lf.Balance < 0 || len(lf.Stock) > 0 || len(lf.Reserve) > 0
	}
	q, err := search.NewMaster(m, m.Problem, l.in)
	if err != nil {
		return nil, err
	}
	r := q.Solve(ctx)
	if r.Status != simplex.Optimal {
		return l, nil
	}
	l.free, l.reduced = r.Value, r.Reduced
	for j, info := range m.Cols {
		if info.Larder >= 0 && r.X[j] > model.Dust {
			l.in[info.Larder] = true
		}
	}
	search.TakeNearest(m, l.in, l.reduced, l.nobodys+nearestFoods)
	return l, nil
}

// foods is how many foods are in that somebody may eat.
func (l *larder) foods() int {
	n := -l.nobodys
	for _, in := range l.in {
		if in {
			n++
		}
	}
	return n
}

// dishes picks the dishes of the book that are chosen from.
func (l *larder) dishes(beside float64) func(d *dishes.Dish) bool {
	core := l.foods() > manyFoods && beside < besides[len(besides)-1]
	return func(d *dishes.Dish) bool { return d.Core || d.Own || d.UnderMonths > 0 || !core }
}

// priceIn takes in the foods that are worth most at the prices of a relaxation with dishes,
// or of the proof that it has no point, and reports whether there are any.
func (l *larder) priceIn(m *model.Model, r simplex.Result) (bool, error) {
	if r.Status != simplex.Optimal && r.Ray == nil {
		return false, nil
	}
	q, err := search.NewMaster(m, m.Problem, l.in)
	if err != nil {
		return false, err
	}
	reduced := q.ReducedAt(r)
	worth := map[int]float64{}
	var list []int
	for li, lf := range m.Larder {
		if l.in[li] {
			continue
		}
		over := func(j int) float64 { return reduced[j] / math.Max(m.Problem.Cols[j].Cost, chosenTolerance) }
		for _, k := range lf.Buy {
			worth[li] = math.Min(worth[li], over(k.Col))
		}
		if worth[li] < -chosenTolerance {
			list = append(list, li)
		}
	}
	slices.SortStableFunc(list, func(a, b int) int { return cmp.Compare(worth[a], worth[b]) })
	for _, li := range list[:min(len(list), mostPriced)] {
		l.in[li] = true
	}
	if n := l.foods(); len(list) == 0 && r.Status != simplex.Optimal && l.reduced != nil {
		search.TakeNearest(m, l.in, l.reduced, l.nobodys+n+nearestFoods)
		return l.foods() > n, nil
	}
	return len(list) > 0, nil
}

// relaxed is the relaxation of packs and dishes over the foods of the larder, of which it
// takes in more while they are worth it.
func (d *dining) relaxed(ctx context.Context, l *larder, beside float64) (*model.Seating, *search.Master, simplex.Result, error) {
	for round := 0; ; round++ {
		m, err := d.model()
		if err != nil {
			return nil, nil, simplex.Result{}, err
		}
		all := l.dishes(beside)
		seating := m.AddDishes(model.Menu{Book: d.book, Foods: l.in, Table: all, Own: all, Between: between, Beside: beside})
		q, err := search.NewMaster(m, m.Problem, l.in)
		if err != nil {
			return nil, nil, simplex.Result{}, err
		}
		r := q.Solve(ctx)
		if round == priceRounds || r.Status == simplex.Optimal && r.Value <= l.free+nearFree*math.Abs(l.free) {
			return seating, q, r, nil
		}
		base, err := d.model()
		if err != nil {
			return nil, nil, simplex.Result{}, err
		}
		if more, err := l.priceIn(base, r); err != nil || !more {
			return seating, q, r, err
		}
	}
}

// choose decides how often the household eats which dish: the relaxation of packs and
// dishes together, then a dive that makes the counts whole, the packs still in parts.
// It returns nil where the foods leave no dishes for all days.
func (d *dining) choose(ctx context.Context, l *larder, beside float64) (*chosen, error) {
	seating, q, r, err := d.relaxed(ctx, l, beside)
	if err != nil || r.Status != simplex.Optimal {
		return nil, err
	}
	c := &chosen{own: map[*dishes.Dish]bool{}, beside: beside, jars: map[string]bool{}}
	var cols []int
	for _, s := range seating.Seats {
		cols = append(cols, s.Columns()...)
	}
	if r = c.decideJars(ctx, seating, q, r); r.Status != simplex.Optimal {
		return nil, nil
	}
	if r, err = dive(ctx, q, cols, r); err != nil || r.X == nil {
		return nil, err
	}
	c.counts = countsOf(seating, r.X)
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

// decideJars gives each infant a jar of meat a day or none, whichever the relaxation is
// nearer to, and where that cannot be the other.
func (c *chosen) decideJars(ctx context.Context, seating *model.Seating, q *search.Master, r simplex.Result) simplex.Result {
	for _, g := range seating.Parties {
		if g.Jars < 0 {
			continue
		}
		near := math.Round(r.X[g.Jars])
		for _, at := range []float64{near, 1 - near} {
			q.LP.SetBounds(g.Jars, at, at)
			if r = q.LP.Solve(ctx); r.Status == simplex.Optimal {
				c.jars[g.Eaters[0].Person.Name] = at > 0
				break
			}
		}
		if r.Status != simplex.Optimal {
			break
		}
	}
	return r
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

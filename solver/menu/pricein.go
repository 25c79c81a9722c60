package menu

import (
	"cmp"
	"context"
	"math"
	"slices"

	"rationwright/solver/model"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// priceIn gives those dishes their columns that are worth it, from none on: by the duals π
// of the relaxation whatever has a reduced cost below zero (column generation: P. C.
// Gilmore, R. E. Gomory, "A linear programming approach to the cutting-stock problem",
// Operations Research 9 (1961)). A serving of the household's costs
//
//	cost − π(places) + Σ_p min(0, plate_p − π_p(meals))
//
// and one of a person's own cost − π_p(meals) + plate_p, where a plate is the sum over its
// parts of the least, over grams a of the part, of
//
//	a · min_f factor_f·(−π_p(f) − water_f·π(water)) + what a is under the least and over the most
//
// It returns the last basis, from which the search goes on; the relaxation of all dishes has
// the same value but where a food is finished at the meal at which it is opened, which the
// price of a plate leaves out.
func (c *choosing) priceIn(ctx context.Context) (*search.Basis, error) {
	var last simplex.Basis
	rows, cols := 0, 0 // of the last basis
	for round := range priceRounds {
		s, err := simplex.New(c.problem())
		if err != nil {
			return nil, err
		}
		if round > 0 {
			if err := s.SetBasis(grown(last, cols, rows, len(c.Cols), len(c.Rows))); err != nil {
				return nil, err
			}
		}
		r := s.Solve(ctx, simplex.Limits{Iterations: shareWork})
		last, rows, cols = s.Basis(), len(c.Rows), len(c.Cols)
		if r.Status != simplex.Optimal || !c.takeIn(r.Dual, pricedFrom*math.Max(1, math.Abs(r.Value))) {
			break // the search says what is wrong
		}
	}
	b := grown(last, cols, rows, len(c.Cols), len(c.Rows))
	return &search.Basis{Cols: b[:len(c.Cols)], Rows: b[len(c.Cols):]}, nil
}

// grown is a basis of a program that has grown by columns, at zero, and rows.
func grown(b simplex.Basis, cols, rows, newCols, newRows int) simplex.Basis {
	out := make(simplex.Basis, 0, newCols+newRows)
	out = append(out, b[:cols]...)
	for range newCols - cols {
		out = append(out, simplex.AtLower)
	}
	out = append(out, b[cols:cols+rows]...)
	for range newRows - rows {
		out = append(out, simplex.Basic)
	}
	return out
}

// takeIn gives those dishes their columns that are worth most at the duals, more than least,
// and reports whether there were any.
func (c *choosing) takeIn(dual []float64, least float64) bool {
	type priced struct {
		i     int
		worth float64
	}
	best := func(in []bool, worth func(int) float64, most int) []int {
		var list []priced
		for i := range in {
			if in[i] {
				continue
			}
			if w := worth(i); w > least {
				list = append(list, priced{i, w})
			}
		}
		slices.SortStableFunc(list, func(a, b priced) int { return cmp.Compare(b.worth, a.worth) })
		var out []int
		for _, v := range list[:min(len(list), most)] {
			out = append(out, v.i)
		}
		return out
	}
	shared := best(c.in, func(i int) float64 { return c.worth(i, dual) }, pricedShared)
	own := make([][]int, len(c.diners))
	for k, g := range c.diners {
		own[k] = best(c.ownIn[k], func(i int) float64 { return g.worth(c.own[k][i], dual) }, pricedOwn)
	}
	for _, i := range shared {
		c.add(i)
	}
	taken := len(shared) > 0
	for k, g := range c.diners {
		for _, i := range own[k] {
			c.ownIn[k][i] = true
			g.addOwn(c.own[k][i], false)
			taken = true
		}
	}
	return taken
}

// worth is what a serving of dish i is worth at the duals, at the kind of place where it is
// worth most.
func (c *choosing) worth(i int, dual []float64) float64 {
	most := 0.0
	for k := range kinds {
		if !servedAt(c.list[i].dish, k) {
			continue
		}
		cost := c.serving(i, k) - dual[c.rows[k]]
		if half := halfOf(c.list[i].dish, k); half >= 0 {
			cost -= dual[c.halves[half]]
		}
		if (k == atBreakfasts || k == atMains) && c.list[i].cold {
			cost -= math.Max(0, dual[c.cold[k]])
		}
		for _, g := range c.diners {
			if g.takes(c.list[i], k) {
				cost += math.Min(0, g.plate(c.list[i], dual)-g.meal(c.list[i], k, dual))
			}
		}
		most = math.Max(most, -cost)
	}
	return most
}

// worth likewise of a dish of one's own.
func (g *diner) worth(c *choice, dual []float64) float64 {
	most := 0.0
	for k := range g.sittings {
		if servedAt(c.dish, kind(k)) {
			most = math.Max(most, g.meal(c.candidate, kind(k), dual)-g.costOwn(c)-g.plate(c.candidate, dual))
		}
	}
	return most
}

// meal is what a meal with c is worth at a kind of place by itself.
func (g *diner) meal(c *candidate, k kind, dual []float64) float64 {
	if int(k) >= len(g.sittings) {
		return 0
	}
	worth := dual[g.sittings[k]]
	if row, ok := g.often[c.dish]; ok {
		worth += dual[row]
	}
	return worth
}

// plate is the least that what is eaten of c at a serving costs at the duals.
func (g *diner) plate(c *candidate, dual []float64) float64 {
	e, cost := g.eater, 0.0
	for i := range c.parts {
		part := &c.parts[i]
		p, size := part.part, g.eater.scale(c.dish)
		gram := inf
		for _, o := range part.options {
			row, ok := g.food[g.h.of[o.Food]]
			if !ok {
				continue
			}
			each := -dual[row]
			if g.water >= 0 {
				each -= e.count * model.BeyondL(p, o.Food) * dual[g.water]
			}
			gram = math.Min(gram, each*o.Factor)
		}
		if math.IsInf(gram, 1) {
			continue
		}
		weigh := e.count * math.Max(kcalPerG(p.ReckonedAs), 10*costGram)
		at := func(grams float64) float64 {
			if p.Optional {
				return gram * grams
			}
			return gram*grams + costThin*weigh*math.Max(0, p.MinG*size-grams)
		}
		bare := 0.0
		if makesDish(p) {
			bare = bareShare * p.MinG * size
		}
		cost += min(at(bare), at(p.MinG*size), at(p.MaxG*size))
	}
	return cost
}

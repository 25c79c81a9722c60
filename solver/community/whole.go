package community

import (
	"context"
	"math"
	"slices"

	"rationwright/solver/linear"
	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// whole searches the best point of a household in whole packs at prices, with at least
// a level and no more of each line of the stock than is left, from a point that does;
// from may be nil. It is nil where none is found. bound is proven, with all of the stock
// at hand only where left is nil.
func (p *program) whole(ctx context.Context, at price, level float64, left []float64, from *use) (best *use, bound float64) {
	if ctx.Err() != nil {
		return nil, math.Inf(-1)
	}
	q := p.problem.Clone()
	for j, c := range p.costs(at) {
		q.Cols[j].Cost = c
		if line := p.lines[j]; line >= 0 && left != nil {
			q.Cols[j].Upper = math.Min(q.Cols[j].Upper, left[line])
		}
	}
	q.Cols[p.level].Lower = level
	p.model.CloseEmpty(q)
	opt := search.Options{Gap: wholeGap, MinDenom: ration.SmallestStep(ration.LeastCost), Work: p.work, Basis: p.lastBasis()}
	if from != nil {
		opt.Start = from.x
	}
	found := search.Run(ctx, q, opt)
	if found.X == nil && found.Status != search.Infeasible {
		found.X = search.RestrictedSearch(ctx, p.model, q, opt).X
	}
	if found.Status == search.Infeasible {
		return nil, math.Inf(1)
	}
	if found.X != nil {
		best = p.pointOf(found.X)
	}
	return best, found.Bound
}

// cheapestOf is the cheapest by prices of the points of a household that reach a level
// and keep to what is left of the stock, nil being all of it; nil where there is none.
func cheapestOf(list []use, at price, level float64, left []float64) *use {
	var best *use
	for i := range list {
		u := &list[i]
		if u.level >= level-search.ShortTolerance && u.within(left) && (best == nil || at.of(*u) < at.of(*best)) {
			best = u
		}
	}
	return best
}

// within reports whether a point keeps to what is left of the stock, nil being all of it.
func (u *use) within(left []float64) bool {
	for k, have := range left {
		if math.Round(u.packs[k]) > have {
			return false
		}
	}
	return true
}

// deal serves the households one after the other out of what is left of the stock, at
// the prices of all, so that nobody takes what is worth more to others: with a point
// that is there already where one keeps to what is left, else with another one. What
// each takes comes to its points in dealt; the places there are returned, nil where
// somebody finds nothing.
func deal(ctx context.Context, programs []*program, prices []price, level float64, stock []float64, dealt [][]use) []int {
	left := slices.Clone(stock)
	picked := make([]int, len(programs))
	for h, p := range programs {
		at := prices[h].forDealing()
		u := cheapestOf(dealt[h], at, level, left)
		if u == nil {
			if u, _ = p.whole(ctx, at, level, left, nil); u == nil {
				return nil
			}
		}
		u.takeFrom(left, 1)
		picked[h] = len(dealt[h])
		dealt[h] = append(dealt[h], *u)
	}
	return picked
}

// forDealing are the prices for a household whose level is given.
func (at price) forDealing() price {
	at.level, at.money = 0, math.Max(at.money, leastMoney)
	return at
}

// choose takes for every household one of the points that are there, so that all of
// them together keep to the stock and the budget and cost the least; nil where no
// choice does. start is a choice that does, may be nil.
func choose(ctx context.Context, found [][]use, stock []float64, budget float64, start []int) []int {
	p := &linear.Problem{Name: "choice"}
	lines := make([]int, len(stock))
	var from []float64
	for k, have := range stock {
		lines[k] = p.AddRow("stock", math.Inf(-1), have)
	}
	money := p.AddRow("budget", math.Inf(-1), budget)
	for h, list := range found {
		one := p.AddRow("one", 1, 1)
		for c, u := range list {
			col := p.AddCol("use", u.money, 0, 1, true)
			for k, n := range u.packs {
				p.Set(lines[k], col, math.Round(n))
			}
			p.Set(money, col, u.money)
			p.Set(one, col, 1)
			if start != nil {
				from = append(from, map[bool]float64{true: 1}[start[h] == c])
			}
		}
	}
	r := search.Run(ctx, p, search.Options{Gap: choiceGap, MinDenom: ration.SmallestStep(ration.LeastCost), Work: choiceWork, Start: from})
	if r.X == nil {
		return start
	}
	picked := make([]int, len(found))
	col := 0
	for h, list := range found {
		for c := range list {
			if r.X[col] > 0.5 {
				picked[h] = c
			}
			col++
		}
	}
	return picked
}

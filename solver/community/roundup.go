package community

import (
	"context"
	"math"

	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// apportioned is how much of each line of the stock every household has by the weights
// of the master's points, in whole packs: up to household h all have together what the
// points up to h take, rounded down, and never more than there is. It is nil where the
// master has no point.
func (m *master) apportioned(ctx context.Context) [][]float64 {
	r := m.solver.Solve(context.WithoutCancel(ctx), simplex.Limits{})
	if r.Status != simplex.Optimal {
		return nil
	}
	own := make([][]float64, len(m.programs))
	taken, given := make([]float64, len(m.stock)), make([]float64, len(m.stock))
	for h, list := range m.found {
		own[h] = make([]float64, len(m.stock))
		for c, u := range list {
			for k, n := range u.packs {
				taken[k] += r.X[m.cols[h][c]] * n
			}
		}
		for k, have := range m.stock {
			upTo := math.Min(have, math.Floor(taken[k]+search.WholeTolerance))
			own[h][k], given[k] = upTo-given[k], upTo
		}
	}
	return own
}

// rounded is a point in whole packs near the best of the relaxation at a level, with no
// more of each line of the stock than is the household's own, which is free: fractions of
// packs are rounded up until all are whole, and then packs that can be done without are
// taken away. It is nil where that comes to none.
func (p *program) rounded(ctx context.Context, level float64, own []float64) *use {
	q, err := p.wake(ctx, stockFree(len(own)), level)
	if err != nil {
		return nil
	}
	within := func(most func(j, line int) float64) {
		for j, line := range p.lines {
			if line >= 0 {
				q.LP.SetBounds(j, p.problem.Cols[j].Lower, most(j, line))
			}
		}
	}
	within(func(j, line int) float64 { return math.Min(own[line], p.problem.Cols[j].Upper) })
	var x []float64
	if q.Solve(ctx).Status == simplex.Optimal {
		if x = q.LP.DiveUp(ctx); x != nil {
			x = q.LP.Descend(ctx, x)
		}
	}
	within(func(j, _ int) float64 { return p.problem.Cols[j].Upper })
	p.lay(q)
	if x == nil {
		return nil
	}
	if u := p.pointOf(x); u.within(own) {
		return u
	}
	return nil
}

// roundUp rounds every household up in its own part of the stock. What they find comes
// to the points in whole packs; g.up are the places there where everybody has one, else
// nil. money is that of all together, +Inf where somebody has none.
func (g *group) roundUp(ctx context.Context, own [][]float64, level float64) (money float64) {
	points := make([]*use, len(g.programs))
	search.Parallel(len(points), func(h int) { points[h] = g.programs[h].rounded(ctx, level, own[h]) })
	for h, p := range g.programs {
		if points[h] == nil { // rounding up ran into what is limited
			points[h], _ = p.whole(ctx, stockFree(len(g.stock)), level, own[h], nil)
		}
	}
	g.up, g.upLevel = make([]int, len(points)), level
	for h, u := range points {
		if u == nil {
			money = math.Inf(1)
			continue
		}
		money += u.money
		g.up[h] = len(g.whole[h])
		g.whole[h] = append(g.whole[h], *u)
	}
	if math.IsInf(money, 1) {
		g.up = nil
	}
	return money
}

// fallBack makes the first answer, from which all others go on: everybody rounded up in
// their own part of the stock at a level, and at lower ones until the budget reaches.
func (g *group) fallBack(ctx context.Context, own [][]float64, level float64, s *Share) {
	for range mostTries {
		money := g.roundUp(ctx, own, level)
		if ctx.Err() != nil && g.up == nil {
			return
		}
		if money <= g.budget*(1+search.LimitTolerance) {
			s.Level, s.Cost, s.CostBound = level, money, g.boundAt(ctx, level)
			g.dealt, g.picked = make([][]use, len(g.up)), make([]int, len(g.up))
			for h, c := range g.up {
				g.dealt[h] = []use{g.whole[h][c]}
			}
			return
		}
		level *= math.Min(1-levelStep, 1-1.1*(1-g.reach(money)))
	}
}

// boundAt is proven of the money at a level: the least with the stock at the prices of the
// shop, or where there is no time for that, what is never given up with the stock free.
func (g *group) boundAt(ctx context.Context, level float64) float64 {
	bounds := make([]float64, len(g.programs))
	shop, fixed := shopPrice(g.programs[0].model.Request), 0.0
	search.Parallel(len(bounds), func(h int) {
		var err error
		if _, bounds[h], err = g.programs[h].least(ctx, shop, level); err != nil {
			bounds[h] = math.Inf(-1)
		}
	})
	for _, p := range g.programs {
		fixed += p.fixed
	}
	return math.Max(fixed, lessStock(shop, g.stock, bounds))
}

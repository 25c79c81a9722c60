package community

import (
	"context"
	"math"
	"slices"

	"rationwright/solver/search"
)

// dealAt deals the stock in whole packs at a level. From the prices of the relaxation
// on, every household is asked what it would take in whole packs with all the stock at
// hand, a master of those points sets the next prices, and a choice among all points is
// made that keeps to what is common; so a pack that is no use to anybody whole loses
// its price. dealt are the points to pick from; picked is nil where nothing keeps to
// the stock. bound is proven of the money.
func (g *group) dealAt(ctx context.Context, relaxed *master, prices []price, level float64) (dealt [][]use, picked []int, bound float64) {
	bound = math.Inf(-1)
	rounds := wholeRounds
	if g.prices != nil {
		prices, rounds = g.prices, furtherRounds
	}
	rounds = roundsOf(rounds, 1, len(g.programs))
	if own := relaxed.apportioned(ctx); own != nil && g.upLevel != level {
		g.roundUp(ctx, own, level)
	}
	asking, stop := search.Part(ctx, wholePart)
	defer stop()
	for range rounds {
		proven := g.ask(asking, relaxed, prices, level)
		if search.Interrupted(ctx) {
			return nil, nil, bound
		}
		if proven > bound {
			bound, g.proving = proven, prices
		}
		next := g.pricesOf(ctx, level)
		if next == nil || asking.Err() != nil {
			break
		}
		moved := make([]price, len(prices))
		for h := range prices {
			moved[h] = prices[h].towards(next[h])
		}
		prices = moved
	}
	g.prices, g.relaxed = prices, relaxed
	dealt = make([][]use, len(g.whole))
	var start []int
	if g.up != nil && g.upLevel == level {
		start = make([]int, len(g.whole))
	}
	for h, list := range g.whole {
		for c, u := range list {
			if start != nil && c == g.up[h] {
				start[h] = len(dealt[h])
			}
			if u.level >= level-search.ShortTolerance {
				dealt[h] = append(dealt[h], u)
			}
		}
	}
	if picked = choose(ctx, dealt, g.stock, math.Inf(1), start); picked == nil {
		picked = deal(ctx, g.programs, prices, level, g.stock, dealt)
	}
	return dealt, picked, bound
}

// ask asks every household what it would take in whole packs at prices and a level, with
// all the stock at hand; what they find comes to the points in whole packs. It returns
// the bound of the money, -Inf where nothing is proven.
func (g *group) ask(ctx context.Context, relaxed *master, prices []price, level float64) float64 {
	bounds := make([]float64, len(g.programs))
	points := make([]*use, len(g.programs))
	cut := make([]bool, len(g.programs))
	search.Parallel(len(g.programs), func(h int) {
		own, stop := fairPart(ctx, h, len(g.programs))
		defer stop()
		at := prices[h].forDealing()
		points[h], bounds[h] = g.programs[h].whole(own, at, level, nil, cheapestOf(g.whole[h], at, level, nil))
		cut[h] = search.OutOfTime(own)
	})
	g.stopped = g.stopped || slices.Contains(cut, true)
	for h, u := range points {
		if u != nil {
			g.whole[h] = append(g.whole[h], *u)
		}
	}
	if prices[0].money < leastMoney {
		return math.Inf(-1)
	}
	return relaxed.lagrangian(prices, bounds)
}

// bar lowers the bound of the level: a level at which the households, asked once more
// at the prices of the best bound, need more than the budget in whole packs is out of
// reach.
func (g *group) bar(ctx context.Context, s *Share) {
	level := s.Level * g.reach(s.CostBound) * (1 + beyond)
	if g.proving == nil || level >= s.LevelBound || level < s.Level {
		return
	}
	if proven := g.ask(ctx, g.relaxed, g.proving, level); proven > g.budget*(1+search.LimitTolerance) {
		s.LevelBound = level
	}
}

// pricesOf are the prices of what is common where all that there is are the points in
// whole packs of a level, which may be taken in parts, and the shop, which sells what the
// stock is short of; nil where a household has no point.
func (g *group) pricesOf(ctx context.Context, level float64) []price {
	m, err := newMaster(leastCost, level, g.stock, math.Inf(1), g.programs, g.whole)
	if err != nil {
		return nil
	}
	for k, line := range g.programs[0].model.Request.Stock {
		if line.Pack.HasPrice {
			m.solver.SetCost(m.short[k], line.Pack.Price)
		}
	}
	return m.dualPrices(ctx)
}

// towards moves prices a part of the way.
func (at price) towards(next price) price {
	moved := price{money: at.money + pull*(next.money-at.money), packs: make([]float64, len(at.packs))}
	for k, v := range at.packs {
		moved.packs[k] = v + pull*(next.packs[k]-v)
	}
	return moved
}

// better looks for what costs less at the level, a household after the other: what it
// would take if what nobody has taken were there for nothing.
func (g *group) better(ctx context.Context, level float64) {
	left := slices.Clone(g.stock)
	for h, c := range g.picked {
		g.dealt[h][c].takeFrom(left, 1)
	}
	free := stockFree(len(g.stock))
	for h, p := range g.programs {
		if ctx.Err() != nil {
			return
		}
		u := &g.dealt[h][g.picked[h]]
		u.takeFrom(left, -1)
		if found, _ := p.whole(ctx, free, level, left, u); found != nil && found.money < u.money {
			g.dealt[h] = append(g.dealt[h], *found)
			g.picked[h] = len(g.dealt[h]) - 1
			u = found
		}
		u.takeFrom(left, 1)
	}
}

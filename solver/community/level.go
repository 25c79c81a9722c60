package community

import (
	"context"
	"math"

	"rationwright/solver/search"
)

// levelOf finds the level that all can reach in parts of packs, and bounds it. It
// returns what each household has of the stock there.
func (g *group) levelOf(ctx context.Context, s *Share) (own [][]float64, err error) {
	if len(g.programs) > fewHouseholds && !g.planned {
		if own, err := g.bracket(ctx, s); own != nil || err != nil {
			return own, err
		}
	}
	first, err := newMaster(mostLevel, 0, g.stock, g.budget, g.programs, g.found)
	if err != nil {
		return nil, err
	}
	first.allOrLess = g.planned
	best, err := first.solve(ctx)
	if err != nil {
		return nil, err
	}
	if best.bound < -search.ShortTolerance {
		return nil, ErrNothingToShare
	}
	s.LevelBound, g.found, g.stopped = math.Min(s.LevelBound, best.bound), first.found, best.cut
	if !best.short {
		g.level = math.Min(best.value, best.bound)
	}
	return first.apportioned(ctx), nil
}

// bracket finds the level where households are many: at a given level prices are found in
// a few rounds that change little, while with the level free every round moves it for
// all. The money is convex in the level, so that the chord between a level within the
// budget and one beyond meets the budget within reach, and the line through two levels
// within meets it beyond; between the two the next level is tried (the method of false
// position: M. Dowell, P. Jarratt, "A modified regula falsi method for computing the root
// of an equation", BIT 11 (1971), here between both lines). It returns nil where it
// comes to no level within the budget.
func (g *group) bracket(ctx context.Context, s *Share) (own [][]float64, err error) {
	low, under, high := 0.0, 0.0, 1.0
	for _, p := range g.programs {
		under += p.fixed
	}
	over := leastForAll(g.programs, shopPrice(g.programs[0].model.Request), g.stock)
	if under >= g.budget || over <= g.budget {
		return nil, nil
	}
	bar := func(r solved, level float64) {
		if r.bound > g.budget*(1+search.LimitTolerance) {
			s.LevelBound = math.Min(s.LevelBound, level)
		}
	}
	slope := 0.0 // of the money, under low; 0 not known
	for range mostLevels {
		level := low + (g.budget-under)/(over-under)*(high-low)
		if slope > 0 {
			beyond := math.Min(high, low+(g.budget-under)/slope)
			level = (level + math.Max(level, beyond)) / 2
		}
		m, r, err := g.cheapest(ctx, level)
		if err != nil || math.IsInf(r.bound, -1) { // cut off before anything was proven
			return own, err
		}
		money := (r.value + math.Max(r.bound, 0)) / 2 // the rounds end before they meet
		if r.short || money > g.budget {
			bar(r, level)
			high, over = level, math.Min(money, 2*g.budget)
		} else {
			slope = (money - under) / (level - low)
			low, under = level, money
		}
		if !r.short {
			g.level = math.Min(high, low+(g.budget-under)/(over-under)*(high-low))
			own = m.apportioned(ctx)
		}
		if high-low <= levelNear*low || !r.short && math.Abs(money-g.budget) <= levelNear*g.budget {
			break
		}
	}
	if level := g.level * (1 + levelOver); own != nil && level < s.LevelBound {
		if _, r, err := g.cheapest(ctx, level); err == nil {
			bar(r, level)
		}
	}
	return own, nil
}

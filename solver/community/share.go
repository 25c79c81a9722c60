package community

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// Request is what is common and who shares it.
type Request struct {
	// Households ask for the same days, from the same table and with the same lines
	// of stock, the common one. Their own limits hold for each of them. Their time or
	// work is that of one search of one household.
	Households []*ration.Request
	Budget     *float64 // common, in the currency of the prices; nil none

	byParts bool // however small
}

// Share is how a store is shared.
type Share struct {
	Stopped    string         // "time limit reached; another run may differ"; "" where nothing was cut off by the time
	Level      float64        // of the worst served: the part of every need that may be missed, 0 to 1
	LevelBound float64        // proven: no way of sharing does better for the worst served
	LevelGap   float64        // fraction
	Cost       float64        // of what is bought, water and fuel counted in
	CostBound  float64        // proven, at this level
	CostGap    float64        // fraction
	Plans      []*ration.Plan // by household; nil for who is left out
	Left       []int          // packs left of each line of the stock
	Apart      map[int]error  // households that no share can serve, and why
}

// ErrNothingToShare is returned where not even what is never given up can be had: milk
// for infants, water to drink, what is set aside.
var ErrNothingToShare = errors.New("stock and budget do not reach for what nobody may go without: infants' milk, water, orders")

// errScarce ends a share by this program's own planning rules of what people like to
// eat, where the budget does not reach for all needs.
var errScarce = errors.New("the budget does not reach for all needs")

// Make shares the store. Where the budget does not reach for all needs this program's
// own planning rules of what people like to eat do not hold: hunger is worse.
func Make(ctx context.Context, req *Request) (*Share, error) {
	planned := !slices.ContainsFunc(req.Households, func(r *ration.Request) bool { return r.IgnoreEatable })
	s, err := shareBy(ctx, req, planned)
	if !errors.Is(err, errScarce) {
		return s, inTime(err)
	}
	scarce := *req
	scarce.Households = nil
	for _, h := range req.Households {
		plain := *h
		plain.IgnoreEatable = true
		scarce.Households = append(scarce.Households, &plain)
	}
	s, err = shareBy(ctx, &scarce, false)
	return s, inTime(err)
}

func shareBy(ctx context.Context, req *Request, planned bool) (*Share, error) {
	s := &Share{Apart: map[int]error{}}
	budget := math.Inf(1)
	if req.Budget != nil {
		budget = *req.Budget
	}
	var stock []float64
	for _, line := range req.Households[0].Stock {
		stock = append(stock, math.Floor(line.Count))
	}
	programs := make([]*program, len(req.Households))
	starts := make([][]use, len(req.Households))
	errs := make([]error, len(req.Households))
	g := &group{stock: stock, budget: budget, byParts: req.byParts, planned: planned}
	rests := len(programs) > fewHouseholds
	search.Parallel(len(programs), func(h int) {
		programs[h], starts[h], errs[h] = begin(ctx, req.Households[h], rests)
	})
	if planned && ctx.Err() == nil && leastForAll(programs, shopPrice(req.Households[0]), stock) > budget*(1+search.LimitTolerance) {
		return nil, errScarce
	}
	search.Parallel(len(programs), func(h int) {
		if errs[h] == nil {
			starts[h], errs[h] = programs[h].ends(ctx, starts[h])
		}
	})
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	for h, err := range errs {
		if err != nil {
			s.Apart[h] = err
			continue
		}
		g.of = append(g.of, h)
		g.programs = append(g.programs, programs[h])
		g.found = append(g.found, starts[h])
	}
	for _, p := range g.programs {
		p.work = max(1, p.work*fullWork/int64(max(fullWork, len(g.programs))))
	}
	g.whole = make([][]use, len(g.programs))
	s.Plans = make([]*ration.Plan, len(req.Households))
	if len(g.programs) == 0 {
		return s, nil
	}
	timed, stop := search.Part(ctx, sharePart)
	defer stop()
	if err := g.share(timed, s); err != nil {
		return nil, err
	}
	return s, g.write(s)
}

// group is the households that share.
type group struct {
	of       []int // their places in the request
	programs []*program
	found    [][]use // points of relaxations
	stock    []float64
	budget   float64
	byParts  bool    // never in one program
	planned  bool    // this program's own planning rules hold
	plenty   bool    // the budget reaches for all needs, and more
	stopped  bool    // by the time, somewhere
	level    float64 // that all can reach in parts, as far as is known

	near    []price // of the last level in parts
	prices  []price // at the end of the level before
	proving []price // of the best bound of the last level dealt at
	relaxed *master // of that level
	whole   [][]use // points in whole packs, of all levels
	dealt   [][]use // of those, what can be picked from at the level that was settled on
	picked  []int   // of dealt

	up      []int   // of whole: everybody rounded up in their own part of the stock, nil where not all have such a point
	upLevel float64 // at which
}

// share finds the level and then the least money.
func (g *group) share(ctx context.Context, s *Share) error {
	s.LevelBound, g.level = 1, 1
	var own [][]float64 // of the stock in parts, by household
	if !math.IsInf(g.budget, 1) {
		timed, stop := search.Part(ctx, levelPart)
		var err error
		if own, err = g.levelOf(timed, s); err != nil {
			return err
		}
		stop()
	}
	g.plenty = math.IsInf(g.budget, 1)
	if !g.plenty && s.LevelBound >= 1 {
		_, r, err := g.cheapest(ctx, 1)
		if err != nil {
			return err
		}
		g.plenty = !r.short && r.value*(1+wholeCosts(len(g.programs))) <= g.budget
	}
	if !g.plenty && g.planned {
		return errScarce
	}
	if own != nil {
		g.fallBack(ctx, own, g.level*g.reach(g.budget*(1+roundingCosts)), s)
	}
	if err := g.settle(ctx, s); err != nil {
		return err
	}
	if g.picked != nil {
		g.better(ctx, s.Level)
		if !g.plenty {
			g.bar(ctx, s)
		}
	}
	if search.Interrupted(ctx) {
		return ctx.Err()
	}
	if !g.byParts && g.columns() <= exactColumns {
		if err := g.exactly(ctx, s); err != nil {
			return err
		}
	}
	if g.picked == nil && ctx.Err() != nil {
		return ctx.Err()
	}
	if g.picked == nil {
		return fmt.Errorf("%w: packs being whole, no level was found that the budget reaches for", ration.ErrNoPlan)
	}
	if g.stopped || search.OutOfTime(ctx) {
		s.Stopped = "time limit reached; another run may differ"
	}
	s.LevelGap = ration.GapOf(s.LevelBound, s.Level, 1e-6)
	return nil
}

// settle deals the stock at a level somewhat under the bound where the budget binds,
// since packs, being whole, come to more than their parts; then at others, between the
// lowest that it did not reach for and the highest that it did.
func (g *group) settle(ctx context.Context, s *Share) error {
	level, over := g.level, math.Inf(1)
	if !g.plenty {
		level *= 1 - wholeCosts(len(g.programs))
	}
	deals := roundsOf(mostTries, leastRounds, len(g.programs))
	settled := false
	for range 2 * mostTries {
		m, r, err := g.cheapest(ctx, level)
		if err != nil {
			return err
		}
		if own := m.apportioned(ctx); own != nil && g.picked == nil {
			g.fallBack(ctx, own, level*math.Min(1, g.reach(r.value*(1+roundingCosts))), s)
		}
		cost, bound := math.Inf(1), r.bound
		var dealt [][]use
		var picked []int
		switch {
		case r.value > g.budget*(1+search.LimitTolerance):
			if r.bound > g.budget*(1+search.LimitTolerance) {
				s.LevelBound = math.Min(s.LevelBound, level) // not even in parts
			}
			cost = r.value * (1 + wholeCosts(len(g.programs)))
		case r.short:
		case deals == 0:
			return nil
		default:
			deals--
			var proven float64
			dealt, picked, proven = g.dealAt(ctx, m, r.prices, level)
			bound = math.Max(bound, proven)
			if bound > g.budget*(1+search.LimitTolerance) {
				s.LevelBound = math.Min(s.LevelBound, level) // not in whole packs
			}
		}
		if search.Interrupted(ctx) {
			return ctx.Err()
		}
		if picked != nil {
			cost = sum(dealt, picked)
		}
		if cost <= g.budget*(1+search.LimitTolerance) {
			if settled = true; level < s.Level {
				break
			}
			s.Level, s.Cost, s.CostBound = level, cost, bound
			g.dealt, g.picked = dealt, picked
			if math.IsInf(g.budget, 1) {
				break
			}
			higher := math.Min(s.LevelBound, level*(1+0.8*(g.reach(cost)-1)))
			if !math.IsInf(over, 1) {
				higher = (level + over) / 2
			}
			if higher-level < levelStep*level {
				break
			}
			level = higher
			continue
		}
		if search.OutOfTime(ctx) {
			return nil // with what was found before
		}
		over = level
		if !settled {
			level *= math.Min(1-levelStep, 1-1.1*(1-g.reach(cost)))
			continue
		}
		if level = (s.Level + over) / 2; level-s.Level < levelStep*level {
			break
		}
	}
	return nil
}

// reach is how much of what hangs on the level the budget reaches for, where all
// together cost so much: what nobody may go without comes first.
func (g *group) reach(cost float64) float64 {
	fixed := 0.0
	for _, list := range g.found {
		fixed += list[0].money
	}
	return math.Max(0, g.budget-fixed) / math.Max(math.Min(cost, 2*g.budget)-fixed, 1e-6)
}

// cheapest makes the money least at a level, packs cut in parts.
func (g *group) cheapest(ctx context.Context, level float64) (*master, solved, error) {
	timed, stop := search.Part(ctx, pricesPart)
	defer stop()
	errs := make([]error, len(g.programs))
	starts := make([][]float64, len(g.programs))
	bought := make([][]float64, len(g.programs))
	search.Parallel(len(g.programs), func(h int) {
		p := g.programs[h]
		if bought[h], _, errs[h] = p.least(timed, shopPrice(p.model.Request), level); errs[h] == nil {
			starts[h], _, errs[h] = p.least(timed, stockFree(len(g.stock)), level)
		}
	})
	for h, err := range errs {
		if err != nil && !search.OutOfTime(timed) { // else with the points that there are
			return nil, solved{}, err
		}
		g.found[h] = append(g.found[h], g.programs[h].usesOf(starts[h], bought[h])...)
	}
	m, err := newMaster(leastCost, level, g.stock, math.Inf(1), g.programs, g.found)
	if err != nil {
		return nil, solved{}, err
	}
	m.from = g.near
	best, err := m.solve(timed)
	if g.stopped = g.stopped || best.cut; !best.cut {
		g.near = best.prices
	}
	return m, best, err
}

// sum is the money of a choice.
func sum(found [][]use, picked []int) float64 {
	total := 0.0
	for h, c := range picked {
		total += found[h][c].money
	}
	return total
}

package community

import (
	"context"
	"fmt"
	"math"

	"rationwright/solver/linear"
	"rationwright/solver/ration"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// aim is what the master makes best.
type aim int

const (
	mostLevel aim = iota // the level of the worst served
	leastCost            // money, everyone at a given level at least
)

// master puts together what households have found:
//
//	mostLevel   maximise  τ      Σ_j level_hj λ_hj ≥ τ for every household h
//	leastCost   minimise  Σ_hj money_hj λ_hj
//	both        Σ_j λ_hj = 1,   Σ_hj packs_hj,k λ_hj ≤ stock_k,   Σ_hj money_hj λ_hj ≤ budget
type master struct {
	aim      aim
	level    float64 // of leastCost
	stock    []float64
	budget   float64 // +Inf none
	programs []*program
	found    [][]use // by household

	solver *simplex.Solver
	one    []int   // row of each household's sum of λ
	worst  []int   // row of each household's level, with mostLevel
	line   []int   // row of each line of the stock
	money  int     // row of the budget, -1 none
	short  []int   // columns of what there is too little of
	cols   [][]int // of the points found, by household

	from []price // that the households are asked at first, by household; nil: those of the points that are there

	allOrLess bool // rounds end as soon as a level of 1 is proven to be out of reach
}

// What a pack or a unit of money more than there is costs in the master, so that it has
// a point from the start: far above what anybody would pay, in parts of a level or in
// money.
const (
	shortLevel = 1e3
	shortMoney = 1e4
)

// newMaster makes the master of points that are there already.
func newMaster(what aim, level float64, stock []float64, budget float64, programs []*program, found [][]use) (*master, error) {
	m := &master{aim: what, level: level, stock: stock, budget: budget, programs: programs, found: make([][]use, len(programs)), cols: make([][]int, len(programs)), money: -1}
	p := &linear.Problem{Name: "master"}
	cost := map[aim]float64{mostLevel: shortLevel, leastCost: shortMoney}[what]
	short := func(row int) {
		col := p.AddCol(fmt.Sprintf("short[%d]", row), cost, 0, math.Inf(1), false)
		p.Set(row, col, -1)
		m.short = append(m.short, col)
	}
	tau := -1
	if what == mostLevel {
		tau = p.AddCol("worst", -1, 0, 1, false)
	}
	for h := range programs {
		m.one = append(m.one, p.AddRow(fmt.Sprintf("one[%d]", h), 1, 1))
		if what == mostLevel {
			m.worst = append(m.worst, p.AddRow(fmt.Sprintf("level[%d]", h), 0, math.Inf(1)))
			p.Set(m.worst[h], tau, -1)
		}
	}
	for k, have := range stock {
		m.line = append(m.line, p.AddRow(fmt.Sprintf("stock[%d]", k), math.Inf(-1), have))
		short(m.line[k])
	}
	if !math.IsInf(budget, 1) {
		m.money = p.AddRow("budget", math.Inf(-1), budget)
		short(m.money)
	}
	var err error
	if m.solver, err = simplex.New(p); err != nil {
		return nil, err
	}
	for h, list := range found {
		for _, u := range list {
			if what == leastCost && u.level < level-search.ShortTolerance {
				continue
			}
			if err := m.add(h, u); err != nil {
				return nil, err
			}
		}
	}
	return m, nil
}

// add takes in a point of household h.
func (m *master) add(h int, u use) error {
	m.found[h] = append(m.found[h], u)
	c := linear.Col{Name: "use", Lower: 0, Upper: math.Inf(1)}
	if m.aim == leastCost {
		c.Cost = u.money
	}
	entry := func(row int, v float64) {
		if v != 0 {
			c.Entries = append(c.Entries, linear.Entry{Row: row, Value: v})
		}
	}
	entry(m.one[h], 1)
	if m.aim == mostLevel {
		entry(m.worst[h], u.level)
	}
	for k, v := range u.packs {
		entry(m.line[k], v)
	}
	if m.money >= 0 {
		entry(m.money, u.money)
	}
	col, err := m.solver.AddCol(c)
	m.cols[h] = append(m.cols[h], col)
	return err
}

// prices are those of the master's duals, and what each household is worth.
func (m *master) prices(dual []float64, h int) price {
	at := price{packs: make([]float64, len(m.stock))}
	for k, row := range m.line {
		at.packs[k] = math.Max(0, -dual[row])
	}
	if m.money >= 0 {
		at.money = math.Max(0, -dual[m.money])
	}
	if m.aim == leastCost {
		at.money++
	} else {
		at.level = math.Max(0, dual[m.worst[h]])
	}
	return at
}

// dualPrices are the prices of the points that are there, by household; nil where there
// are none that are enough. A master is small, and solved however short the time.
func (m *master) dualPrices(ctx context.Context) []price {
	r := m.solver.Solve(context.WithoutCancel(ctx), simplex.Limits{})
	if r.Status != simplex.Optimal {
		return nil
	}
	return m.pricesAt(r.Dual)
}

// pricesAt are the prices of duals, by household.
func (m *master) pricesAt(dual []float64) []price {
	prices := make([]price, len(m.programs))
	for h := range prices {
		prices[h] = m.prices(dual, h)
	}
	return prices
}

// solved is what the rounds of a master come to.
type solved struct {
	value  float64 // of the master's relaxation: the level, or money
	bound  float64 // proven: the level is at most, the money at least
	prices []price // of the best bound, by household
	cut    bool    // by the time
	short  bool    // the stock or the budget do not reach for what is never given up
}

// solve goes round until the bound is near the value. Where the time is up before,
// there are the value and the prices of the points that are there, and what was proven.
func (m *master) solve(ctx context.Context) (solved, error) {
	best := solved{bound: math.Inf(-1)}
	least := math.Inf(-1) // of minimise, proven
	for round := range roundsOf(mostRounds, leastRounds, len(m.programs)) {
		r := m.solver.Solve(context.WithoutCancel(ctx), simplex.Limits{})
		if r.Status != simplex.Optimal {
			return best, fmt.Errorf("%w: the master of all households: %s", ration.ErrNumerical, r.Why)
		}
		best.value, best.short = r.Value, false
		for _, col := range m.short {
			best.short = best.short || r.X[col] > search.ShortTolerance
		}
		prices, given := m.pricesAt(r.Dual), round == 0 && m.from != nil
		if given {
			prices = m.from
		}
		if best.prices == nil {
			best.prices = prices
		}
		points, bounds, err := m.ask(ctx, prices)
		if best.cut = search.OutOfTime(ctx); best.cut {
			break
		}
		if err != nil {
			return best, err
		}
		bound := m.lagrangian(prices, bounds)
		if bound > least {
			least, best.prices = bound, prices
		}
		better := false
		for h, x := range points {
			if x == nil {
				continue
			}
			if given || bounds[h] < r.Dual[m.one[h]]-1e-9*math.Max(1, math.Abs(r.Dual[m.one[h]])) {
				better = true
				if err := m.add(h, m.programs[h].useOf(x)); err != nil {
					return best, err
				}
			}
		}
		if gap := r.Value - least; !better || gap <= roundGap*math.Max(math.Abs(r.Value), 1e-3) || m.allOrLess && least > -1+search.ShortTolerance {
			break
		}
	}
	best.bound = least
	if m.aim == mostLevel {
		best.value, best.bound = -best.value, math.Min(1, -least)
	}
	return best, nil
}

// ask asks every household what it would do at prices.
func (m *master) ask(ctx context.Context, prices []price) (points [][]float64, bounds []float64, err error) {
	points, bounds = make([][]float64, len(m.programs)), make([]float64, len(m.programs))
	errs := make([]error, len(m.programs))
	search.Parallel(len(m.programs), func(h int) {
		points[h], bounds[h], errs[h] = m.programs[h].least(ctx, prices[h], m.level)
	})
	for h, err := range errs {
		if err != nil {
			return nil, nil, fmt.Errorf("household %d: %w", h+1, err)
		}
	}
	return points, bounds, nil
}

// lagrangian is the bound of prices at which households can do no better than bounds,
// of what the master minimises.
func (m *master) lagrangian(prices []price, bounds []float64) float64 {
	sum := 0.0
	for _, b := range bounds {
		sum += b
	}
	at := prices[0]
	for k, have := range m.stock {
		sum -= at.packs[k] * have
	}
	if m.money >= 0 {
		spend := at.money
		if m.aim == leastCost {
			spend--
		}
		sum -= spend * m.budget
	}
	if m.aim == mostLevel { // the worst level itself: (Σ_h price − 1) τ over 0 ≤ τ ≤ 1
		levels := -1.0
		for _, at := range prices {
			levels += at.level
		}
		sum += math.Min(0, levels)
	}
	return sum
}

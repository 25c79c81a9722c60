package community

import (
	"context"
	"math"

	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// program is what one household asks for:
//
//	activity_i ≥ floor_i · level   for every need i that may be missed
//
// with the model's other rows as they are.
type program struct {
	model   *model.Model
	problem *linear.Problem // the model's columns first, then the level
	level   int             // column
	byLevel []int           // for each row of the model, that of the need by the level; -1 where it may not be missed
	cost    []float64       // of each column, money
	lines   []int           // of each column, the line of the common stock that it takes a pack of; -1 none

	work    int64              // of each search in whole packs, simplex iterations
	eased   []ration.Shortfall // what is given up at every level, since the household cannot have it by itself
	awake   *search.Master     // the relaxation over the foods that were worth it so far; nil where it rests
	resting *search.Rest       // the same put aside
	rests   bool               // put aside after every solve, since there are many households
	dearest float64            // proven: least money for all needs, the stock at the prices of the shop
	fixed   float64            // proven: least money for what is never given up, the stock free
}

// newProgram makes the program of a household with all of the common stock at hand.
func newProgram(m *model.Model) *program {
	p := &program{model: m, problem: m.Problem.Clone(), work: search.Work(m)}
	p.level = p.problem.AddCol("level", 0, 0, 1, false)
	p.cost = make([]float64, len(p.problem.Cols))
	p.lines = make([]int, len(p.problem.Cols))
	for j := range p.problem.Cols {
		p.lines[j] = -1
		if j < len(m.Cols) {
			p.cost[j] = m.Coefficient(j, ration.LeastCost)
		}
	}
	for _, lf := range m.Larder {
		for _, list := range [][]model.PackCol{lf.Stock, lf.Reserve} {
			for _, k := range list {
				if k.Line >= 0 {
					p.lines[k.Col] = k.Line
				}
			}
		}
	}
	p.loosen()
	return p
}

// loosen hangs every need that may be missed on the level.
func (p *program) loosen() {
	byRow := p.model.Problem.ByRow()
	p.byLevel = make([]int, len(p.model.Rows))
	for i, info := range p.model.Rows {
		p.byLevel[i] = -1
		row := &p.problem.Rows[i]
		floor := row.Lower
		if !mayBeMissed(info) || floor <= 0 || math.IsInf(floor, 0) {
			continue
		}
		row.Lower = math.Inf(-1)
		at := p.problem.AddRow(row.Name+" by level", 0, model.Inf)
		p.byLevel[i] = at
		cols, values := byRow.Row(i)
		for k, j := range cols {
			p.problem.Set(at, j, values[k])
		}
		p.problem.Set(at, p.level, -floor)
	}
}

// mayBeMissed reports whether the floor of a row hangs on the level.
func mayBeMissed(info model.RowInfo) bool {
	return info.Class == model.Requirement && !info.Ordered && info.Kind != model.RowWater && info.Kind != model.RowFluid
}

// price are the prices of what is common.
type price struct {
	money float64   // of a unit of money spent
	level float64   // gained by a level of 1
	packs []float64 // of a pack of each line of the stock
}

// costs are the objective of a household at prices.
func (p *program) costs(at price) []float64 {
	costs := make([]float64, len(p.problem.Cols))
	for j := range costs {
		costs[j] = at.money * p.cost[j]
		if line := p.lines[j]; line >= 0 {
			costs[j] += at.packs[line]
		}
	}
	costs[p.level] = -at.level
	return costs
}

// crash puts the relaxation aside at a basis that is close to optimal where all needs are
// met, so that the first solve need not come from nothing (search.Crash).
func (p *program) crash(ctx context.Context) {
	basis, _ := search.Crash(ctx, p.model, p.model.Problem)
	if basis == nil {
		return
	}
	rows := make([]simplex.Place, len(p.problem.Rows))
	for i := range rows {
		rows[i] = simplex.Basic
	}
	for i, place := range basis.Rows {
		if at := p.byLevel[i]; at >= 0 && place == simplex.AtLower {
			i = at
		}
		rows[i] = place
	}
	p.resting = search.RestAt(p.model, &search.Basis{Cols: append(basis.Cols, simplex.AtLower), Rows: rows})
}

// least is the relaxation's best point at prices with at least a level; it is nil where
// none was found. bound is proven: +Inf where there is no point, -Inf where nothing is.
func (p *program) least(ctx context.Context, at price, level float64) (x []float64, bound float64, err error) {
	for range 2 {
		q, err := p.wake(ctx, at, level)
		if err != nil {
			return nil, 0, err
		}
		r := q.Solve(ctx)
		p.lay(q)
		switch {
		case r.Status == simplex.Optimal && r.HasBound:
			return r.X, r.Bound, nil
		case r.Status == simplex.Optimal:
			return r.X, math.Inf(-1), nil
		case r.Status == simplex.Infeasible:
			return nil, math.Inf(1), nil
		case ctx.Err() != nil:
			return nil, 0, ctx.Err()
		}
		p.awake, p.resting = nil, nil // once more from the start, without the basis of the last prices
	}
	return nil, math.Inf(-1), nil
}

// wake is the relaxation at prices with at least a level.
func (p *program) wake(ctx context.Context, at price, level float64) (*search.Master, error) {
	if ctx.Err() != nil { // before the relaxation is made, which takes its time too
		return nil, ctx.Err()
	}
	q := p.awake
	if q == nil {
		var err error
		if q, err = p.resting.Wake(p.model, p.problem); err != nil {
			return nil, err
		}
	}
	for j, c := range p.costs(at) {
		q.LP.SetCost(j, c)
	}
	q.LP.SetBounds(p.level, level, 1)
	return q, nil
}

// lay puts the relaxation aside after it was solved, where relaxations rest.
func (p *program) lay(q *search.Master) {
	if p.awake = q; p.rests {
		p.awake, p.resting = nil, q.Rest()
	}
}

// lastBasis is the basis of the relaxation's last solve; nil where there is none.
func (p *program) lastBasis() *search.Basis {
	if p.awake != nil {
		return p.awake.Rest().Basis()
	}
	return p.resting.Basis()
}

// use is what a point of a household takes of what is common.
type use struct {
	x     []float64 // in whole packs; nil for a point of the relaxation, of which nobody makes a plan
	level float64
	money float64
	packs []float64 // by line of the stock
}

// useOf is what a point takes, level being what it reaches.
func (p *program) useOf(x []float64) use {
	u := use{level: x[p.level], packs: make([]float64, len(p.model.Request.Stock))}
	for j, v := range x {
		u.money += p.cost[j] * v
		if line := p.lines[j]; line >= 0 {
			u.packs[line] += v
		}
	}
	return u
}

// pointOf is [program.useOf] of a point in whole packs.
func (p *program) pointOf(x []float64) *use {
	u := p.useOf(x)
	u.x = x
	return &u
}

// takeFrom takes the packs of u as often from what is left of each line of the stock.
func (u *use) takeFrom(left []float64, times float64) {
	for k, n := range u.packs {
		left[k] -= times * math.Round(n)
	}
}

// of is what a household spends by prices that takes u.
func (at price) of(u use) float64 {
	total := at.money * u.money
	for k, n := range u.packs {
		total += at.packs[k] * n
	}
	return total
}

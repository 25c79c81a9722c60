package community

import (
	"context"
	"fmt"
	"math"

	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// joint is the program of all households together at a level, which each must reach:
// their own programs side by side, and the rows of what is common. With level nil the
// level of the worst served is a column of its own, made as large as can be; else the
// money is made least.
func joint(programs []*program, stock []float64, budget float64, level *float64) *linear.Problem {
	all := &linear.Problem{Name: "community"}
	tau := -1
	if level == nil {
		tau = all.AddCol("worst", -1, 0, 1, false)
	}
	type entry struct {
		col   int
		value float64
	}
	lines := make([][]entry, len(stock))
	var money []entry
	for h, p := range programs {
		of := func(name string) string { return fmt.Sprintf("%d:%s", h+1, name) }
		rows, cols := len(all.Rows), len(all.Cols)
		for _, row := range p.problem.Rows {
			row.Name = of(row.Name)
			all.Rows = append(all.Rows, row)
		}
		for j, c := range p.problem.Cols {
			col := all.AddCol(of(c.Name), 0, c.Lower, c.Upper, c.Integer)
			if level != nil {
				all.Cols[col].Cost = p.cost[j]
			}
			for _, e := range model.Merged(c.Entries) {
				all.Set(rows+e.Row, col, e.Value)
			}
			if line := p.lines[j]; line >= 0 {
				lines[line] = append(lines[line], entry{col, 1})
			}
			money = append(money, entry{col, p.cost[j]})
		}
		if level != nil {
			all.Cols[cols+p.level].Lower = *level
			continue
		}
		row := all.AddRow(of("worst served"), 0, math.Inf(1))
		all.Set(row, tau, -1)
		all.Set(row, cols+p.level, 1)
	}
	for k, list := range lines {
		row := all.AddRow(fmt.Sprintf("common stock %d", k+1), math.Inf(-1), stock[k])
		for _, e := range list {
			all.Set(row, e.col, e.value)
		}
	}
	if !math.IsInf(budget, 1) {
		row := all.AddRow("common budget", math.Inf(-1), budget)
		for _, e := range money {
			all.Set(row, e.col, e.value)
		}
	}
	return all
}

// columns is how many the joint program has.
func (g *group) columns() int {
	n := 0
	for _, p := range g.programs {
		n += len(p.problem.Cols)
	}
	return n
}

// exactly solves the joint program whole, first for the level, then for the money.
func (g *group) exactly(ctx context.Context, s *Share) error {
	if !math.IsInf(g.budget, 1) && s.Level < s.LevelBound {
		r := g.searchJoint(ctx, nil, 1e-6)
		if r.X != nil && -r.Value > s.Level {
			s.Level = -r.Value
			g.pick(r.X[1:])
		}
		s.LevelBound = math.Min(s.LevelBound, -r.Bound)
		_, cheapest, err := g.cheapest(ctx, s.Level)
		if err != nil {
			return err
		}
		s.CostBound = cheapest.bound
	}
	r := g.searchJoint(ctx, &s.Level, ration.SmallestStep(ration.LeastCost))
	if r.X != nil && (g.picked == nil || r.Value < sum(g.dealt, g.picked)) {
		g.pick(r.X)
	}
	s.CostBound = math.Max(s.CostBound, r.Bound)
	return ctx.Err()
}

// searchJoint searches the joint program from what is picked.
func (g *group) searchJoint(ctx context.Context, level *float64, denominator float64) search.Result {
	var start []float64 // none where nothing is picked
	if level == nil && g.picked != nil {
		start = []float64{1}
	}
	for h, c := range g.picked {
		u := g.dealt[h][c]
		start = append(start, u.x...)
		if level == nil {
			start[0] = math.Min(start[0], u.level)
		}
	}
	return search.Run(ctx, joint(g.programs, g.stock, g.budget, level), search.Options{
		Gap: exactGap, MinDenom: denominator, Work: exactWork, Start: start,
	})
}

// pick takes the points of the households out of one of all together.
func (g *group) pick(x []float64) {
	if g.picked == nil {
		g.dealt, g.picked = make([][]use, len(g.programs)), make([]int, len(g.programs))
	}
	for h, p := range g.programs {
		g.dealt[h] = append(g.dealt[h], *p.pointOf(x[:len(p.problem.Cols)]))
		g.picked[h] = len(g.dealt[h]) - 1
		x = x[len(p.problem.Cols):]
	}
}

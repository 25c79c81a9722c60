package search

import (
	"context"
	"math"

	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/simplex"
)

// Crash is a basis of p, a program of m with its columns first, that is close to
// optimal: people share packs, water and heat and little else, so that each one's
// own program is solved alone, at the prices that a gram, a litre and a MJ have
// where packs may be bought in part, and the bases are put side by side (a crash
// basis; the prices are those of the block-angular program without its other common
// rows: G. B. Dantzig, P. Wolfe, "Decomposition principle for linear programs",
// Operations Research 8 (1960)). It is nil where that comes to nothing. alone is somebody
// whose needs and limits no food of the table meets, however much of it there were, -1
// nobody: then p has no point.
func Crash(ctx context.Context, m *model.Model, p *linear.Problem) (basis *Basis, alone int) {
	if len(m.Eaters) < 2 || len(p.Cols) < len(m.Cols) {
		return nil, -1
	}
	c := &crash{model: m, problem: p, prices: make([]float64, len(p.Rows)), last: map[placeKey]simplex.Place{}}
	c.basis = &Basis{Cols: make([]simplex.Place, len(p.Cols)), Rows: make([]simplex.Place, len(p.Rows))}
	for i := range c.basis.Rows {
		c.basis.Rows[i] = simplex.Basic
	}
	for j, col := range p.Cols {
		if math.IsInf(col.Lower, -1) {
			c.basis.Cols[j] = simplex.AtZero
		}
	}
	c.price()
	for ei := range m.Eaters {
		switch c.eater(ctx, ei, false) {
		case simplex.Optimal:
		case simplex.Infeasible:
			if c.eater(ctx, ei, true) == simplex.Infeasible {
				return nil, ei
			}
			return nil, -1
		default:
			return nil, -1
		}
	}
	return c.basis, -1
}

type crash struct {
	model   *model.Model
	problem *linear.Problem
	prices  []float64 // of the common rows
	basis   *Basis
	last    map[placeKey]simplex.Place // of the person before
}

// placeKey is what a column or a row of one person has in common with another's.
type placeKey struct {
	row      bool
	kind     int
	larder   int
	nutrient nutrients.Nutrient
	text     string
}

// price makes the cheapest column that supplies each common row basic in it: a pack
// of each food, water, heat.
func (c *crash) price() {
	m, p := c.model, c.problem
	supply := func(row, col int) {
		for _, e := range p.Cols[col].Entries {
			if e.Row == row && e.Value != 0 {
				c.prices[row] = p.Cols[col].Cost / e.Value
				c.basis.Cols[col] = simplex.Basic
				c.basis.Rows[row] = simplex.AtLower
				if e.Value < 0 {
					c.basis.Rows[row] = simplex.AtUpper
				}
			}
		}
	}
	for _, lf := range m.Larder {
		_, best := lf.GramCost(func(col int) float64 {
			if p.Cols[col].Upper <= p.Cols[col].Lower {
				return model.Inf
			}
			return p.Cols[col].Cost
		})
		if best >= 0 && lf.Balance >= 0 {
			supply(lf.Balance, best)
		}
	}
	for i, info := range m.Rows {
		switch info.Kind {
		case model.RowAllWater:
			supply(i, m.Water)
		case model.RowHeat:
			supply(i, m.Heat)
		}
	}
}

// eater solves the program of one person, from the basis of the one before. apart
// leaves the rows out in which anything but the person's own columns stands, so that
// what has no point then has none among others either.
func (c *crash) eater(ctx context.Context, ei int, apart bool) simplex.Status {
	m, p := c.model, c.problem
	var mixed map[int]bool
	if apart {
		mixed = c.mixedRows(ei)
	}
	own := &linear.Problem{}
	var cols []int
	var rows []int
	at := make(map[int]int)
	for j, info := range m.Cols {
		if info.Eater != ei {
			continue
		}
		col := p.Cols[j]
		k := own.AddCol("", col.Cost, col.Lower, col.Upper, false)
		cols = append(cols, j)
		for _, e := range col.Entries {
			if e.Row >= len(m.Rows) {
				continue
			}
			if m.Rows[e.Row].Eater != ei {
				own.Cols[k].Cost -= c.prices[e.Row] * e.Value
				continue
			}
			if m.Rows[e.Row].Kind == model.RowOpened || p.Rows[e.Row].Lazy || mixed[e.Row] {
				continue
			}
			i, ok := at[e.Row]
			if !ok {
				row := p.Rows[e.Row]
				i = own.AddRow("", row.Lower, row.Upper)
				at[e.Row] = i
				rows = append(rows, e.Row)
			}
			own.Set(i, k, e.Value)
		}
	}
	for k := range own.Cols {
		own.Cols[k].Entries = model.Merged(own.Cols[k].Entries)
	}
	solver, err := simplex.New(own)
	if err != nil {
		return simplex.Numerical
	}
	if len(c.last) > 0 {
		b := make(simplex.Basis, 0, len(cols)+len(rows))
		for _, j := range cols {
			b = append(b, c.last[c.colKey(j)])
		}
		for _, i := range rows {
			place, ok := c.last[c.rowKey(i)]
			if !ok {
				place = simplex.Basic
			}
			b = append(b, place)
		}
		if solver.SetBasis(b) != nil {
			solver.SetSlackBasis()
		}
	}
	result := solver.Solve(ctx, simplex.Limits{})
	if result.Status != simplex.Optimal {
		return result.Status
	}
	b := solver.Basis()
	clear(c.last)
	for k, j := range cols {
		c.basis.Cols[j] = b[k]
		c.last[c.colKey(j)] = b[k]
	}
	for k, i := range rows {
		c.basis.Rows[i] = b[len(cols)+k]
		c.last[c.rowKey(i)] = b[len(cols)+k]
	}
	return simplex.Optimal
}

// mixedRows are the rows of a person in which columns stand that are not theirs.
func (c *crash) mixedRows(ei int) map[int]bool {
	mixed := map[int]bool{}
	for j, info := range c.model.Cols {
		if info.Eater == ei {
			continue
		}
		for _, e := range c.problem.Cols[j].Entries {
			if e.Row < len(c.model.Rows) && c.model.Rows[e.Row].Eater == ei {
				mixed[e.Row] = true
			}
		}
	}
	return mixed
}

func (c *crash) colKey(j int) placeKey {
	info := c.model.Cols[j]
	return placeKey{kind: int(info.Kind), larder: info.Larder}
}

func (c *crash) rowKey(i int) placeKey {
	info := c.model.Rows[i]
	return placeKey{row: true, kind: int(info.Kind), nutrient: info.Nutrient, text: info.Group + info.Text}
}

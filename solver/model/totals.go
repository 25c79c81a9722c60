package model

import (
	"math"
	"slices"

	"rationwright/solver/linear"
)

// PackLimits lists the rows in force of p that whole packs can break: those that
// bound a sum of packs or containers from above. Totals of the household's own
// come first.
func (m *Model) PackLimits(p *linear.Problem) []int {
	bounded := make([]bool, len(m.Rows))
	most := make([]float64, len(m.Rows)) // of the row, by the bounds of its columns
	for j := range p.Cols {
		c := &p.Cols[j]
		for _, e := range c.Entries {
			if e.Row >= len(m.Rows) {
				continue
			}
			most[e.Row] += math.Max(e.Value*c.Lower, e.Value*c.Upper)
			if c.Integer && e.Value > 0 && c.Upper > c.Lower && p.Rows[e.Row].Upper < Inf && m.Rows[e.Row].Kind != RowKeep {
				bounded[e.Row] = true
			}
		}
	}
	var totals, others []int
	for i, is := range bounded {
		switch {
		case !is || most[i] <= p.Rows[i].Upper:
		case m.Rows[i].Total != "":
			totals = append(totals, i)
		default:
			others = append(others, i)
		}
	}
	return append(totals, others...)
}

// AimAtRow makes the objective of p the activity of one of its rows.
func AimAtRow(p *linear.Problem, row int) {
	for j := range p.Cols {
		p.Cols[j].Cost = 0
		for _, e := range p.Cols[j].Entries {
			if e.Row == row {
				p.Cols[j].Cost = e.Value
			}
		}
	}
}

// PacksUp rounds the packs of a point up.
func (m *Model) PacksUp(x []float64) []float64 {
	up := slices.Clone(x)
	for j := range m.Cols {
		if m.Problem.Cols[j].Integer {
			up[j] = math.Ceil(x[j] - packDust)
		}
	}
	return up
}

// HasTotals reports whether a sum of packs is limited: only then do whole packs
// make a difference to what can be reached.
func (m *Model) HasTotals() bool { return len(m.PackLimits(m.Problem)) > 0 }

// OwnLimit is the row that limits what the objective makes least, where no other
// sum of packs is limited; -1 where there is none.
func (m *Model) OwnLimit() int {
	limits := m.PackLimits(m.Problem)
	if len(limits) == 1 && m.Rows[limits[0]].Total == m.Request.Least {
		return limits[0]
	}
	return -1
}

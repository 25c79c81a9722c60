package solver

import (
	"math"

	"rationwright/solver/linear"
)

// slim is a program without the columns that its bounds fix and the rows that
// then bind nothing: the same choice, made quickly.
type slim struct {
	problem *linear.Problem
	cols    []int // column of the whole program for each column left
	whole   []float64
}

// newSlim makes the slim form of p. A row whose left side is fixed stays, so
// that what it forbids is still forbidden.
func newSlim(p *linear.Problem) *slim {
	s := &slim{problem: &linear.Problem{Name: p.Name}, whole: make([]float64, len(p.Cols))}
	fixed := make([]float64, len(p.Rows))
	for j, c := range p.Cols {
		if c.Lower != c.Upper {
			s.cols = append(s.cols, j)
			continue
		}
		s.whole[j] = c.Lower
		s.problem.Offset += c.Cost * c.Lower
		for _, e := range c.Entries {
			fixed[e.Row] += e.Value * c.Lower
		}
	}
	at := make([]int, len(p.Rows))
	for i, row := range p.Rows {
		at[i] = -1
		if free(row) {
			continue
		}
		at[i] = s.problem.AddRow(row.Name, row.Lower-fixed[i], row.Upper-fixed[i])
		s.problem.Rows[at[i]].Lazy = row.Lazy
	}
	for _, j := range s.cols {
		c := p.Cols[j]
		col := s.problem.AddCol(c.Name, c.Cost, c.Lower, c.Upper, c.Integer)
		for _, e := range c.Entries {
			if at[e.Row] >= 0 {
				s.problem.Set(at[e.Row], col, e.Value)
			}
		}
	}
	s.problem.Offset += p.Offset
	return s
}

// wide is the point of the whole program for a point of the slim one.
func (s *slim) wide(x []float64) []float64 {
	out := append([]float64(nil), s.whole...)
	for k, j := range s.cols {
		out[j] = x[k]
	}
	return out
}

// narrow is the point of the slim program for one of the whole, nil when it
// differs in a column that is fixed.
func (s *slim) narrow(x []float64) []float64 {
	out := make([]float64, len(s.cols))
	left := make([]bool, len(s.whole))
	for k, j := range s.cols {
		out[k], left[j] = x[j], true
	}
	for j, v := range s.whole {
		if !left[j] && math.Abs(v-x[j]) > dust {
			return nil
		}
	}
	return out
}

// closeEmpty fixes at zero what is eaten of foods that have no pack left in p,
// the bounds of the packs' columns being the judge.
func (r *Ration) closeEmpty(p *linear.Problem) {
	open := make([]bool, len(r.larder))
	for li, lf := range r.larder {
		open[li] = lf.balance < 0
		for _, k := range lf.supply() {
			open[li] = open[li] || p.Cols[k.col].Upper > 0
		}
	}
	for _, e := range r.eaters {
		for _, y := range e.eats {
			if !open[y.food] {
				p.Cols[y.col].Upper = 0
			}
		}
	}
	for _, v := range r.byDate {
		if !open[v.larder] {
			p.Cols[v.col].Upper = 0
		}
	}
}

// fixPacks fixes the packs of p at those of a point.
func (r *Ration) fixPacks(p *linear.Problem, x []float64) {
	for j := range r.cols {
		if p.Cols[j].Integer {
			n := math.Round(x[j])
			p.Cols[j].Lower, p.Cols[j].Upper = n, n
		}
	}
}

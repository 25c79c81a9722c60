package search

import (
	"math"

	"rationwright/solver/linear"
	"rationwright/solver/model"
)

// Smaller is a program without the columns that its bounds fix and the rows that
// then bind nothing: the same choice, made quickly.
type Smaller struct {
	Problem *linear.Problem
	cols    []int // column of the whole program for each column left
	point   []float64
}

// WithoutFixed makes the slim form of p. A row whose left side is fixed stays, so
// that what it forbids is still forbidden.
func WithoutFixed(p *linear.Problem) *Smaller {
	s := &Smaller{Problem: &linear.Problem{Name: p.Name}, point: make([]float64, len(p.Cols))}
	fixed := make([]float64, len(p.Rows))
	for j, c := range p.Cols {
		if c.Lower != c.Upper {
			s.cols = append(s.cols, j)
			continue
		}
		s.point[j] = c.Lower
		s.Problem.Offset += c.Cost * c.Lower
		for _, e := range c.Entries {
			fixed[e.Row] += e.Value * c.Lower
		}
	}
	at := copyRows(s.Problem, p, func(_ int, row linear.Row) bool { return !free(row) })
	for i, k := range at {
		if k >= 0 {
			s.Problem.Rows[k].Lower -= fixed[i]
			s.Problem.Rows[k].Upper -= fixed[i]
		}
	}
	for _, j := range s.cols {
		copyCol(s.Problem, p.Cols[j], at)
	}
	s.Problem.Offset += p.Offset
	return s
}

// copyRows adds the rows of p that are kept to q, and returns their places there, -1 of
// the others.
func copyRows(q, p *linear.Problem, kept func(i int, row linear.Row) bool) []int {
	at := make([]int, len(p.Rows))
	for i, row := range p.Rows {
		at[i] = -1
		if kept(i, row) {
			at[i] = len(q.Rows)
			q.Rows = append(q.Rows, row)
		}
	}
	return at
}

// copyCol adds a column to q with its entries in rows that have a place there, and returns
// its own.
func copyCol(q *linear.Problem, c linear.Col, at []int) int {
	col := q.AddCol(c.Name, c.Cost, c.Lower, c.Upper, c.Integer)
	for _, e := range c.Entries {
		if at[e.Row] >= 0 {
			q.Set(at[e.Row], col, e.Value)
		}
	}
	return col
}

// Expand is the point of the whole program for a point of the slim one.
func (s *Smaller) Expand(x []float64) []float64 {
	out := append([]float64(nil), s.point...)
	for k, j := range s.cols {
		out[j] = x[k]
	}
	return out
}

// Restrict is the point of the slim program for one of the whole, nil when it
// differs in a column that is fixed.
func (s *Smaller) Restrict(x []float64) []float64 {
	out := make([]float64, len(s.cols))
	left := make([]bool, len(s.point))
	for k, j := range s.cols {
		out[k], left[j] = x[j], true
	}
	for j, v := range s.point {
		if !left[j] && math.Abs(v-x[j]) > model.Dust {
			return nil
		}
	}
	return out
}

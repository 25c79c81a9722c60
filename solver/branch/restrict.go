package branch

import (
	"math"
	"slices"

	"rationwright/solver/linear"
	"rationwright/solver/simplex"
)

// decideForced fixes, inside the box, the columns of rows that have no room
// left (the grams of a food of which no pack is left). It returns false if a
// row cannot hold in the box. needed marks the rows that the box does not
// satisfy by itself.
func (s *space) decideForced(lower, upper []float64, needed []bool) bool {
	for i := range needed {
		terms, lo, up := s.rowTerms(i)
		if math.IsInf(lo, -1) && math.IsInf(up, 1) {
			continue
		}
		a := activityOf(terms, lower, upper)
		if a.misses(lo, up) {
			return false
		}
		low, high := a.low(), a.high()
		if low >= lo && high <= up {
			continue
		}
		needed[i] = true
		if low > up-forced*(1+math.Abs(up)) {
			force(terms, lower, upper, true)
		}
		if high < lo+forced*(1+math.Abs(lo)) {
			force(terms, lower, upper, false)
		}
	}
	return true
}

// force fixes every column of a row that is at the end of its range: at the
// bounds that make the least (or greatest) sum.
func force(terms []term, lower, upper []float64, least bool) {
	for _, t := range terms {
		if (t.value > 0) == least {
			upper[t.col] = lower[t.col]
		} else {
			lower[t.col] = upper[t.col]
		}
	}
}

// part is a smaller program: the space over a smaller box, without the columns
// that the box decides and the rows that it satisfies.
type part struct {
	*space
	cols []int     // column of the whole for each column of the part
	rows []int     // row of the whole for each row of the part
	base []float64 // the whole's columns where they are decided
}

// restrict builds the part of the space inside the box, nil if a row cannot
// hold there. Columns that the rows decide get equal bounds in lower and upper.
func (s *space) restrict(lower, upper []float64) *part {
	needed := make([]bool, s.m+len(s.cuts))
	if !s.decideForced(lower, upper, needed) {
		return nil
	}
	q := &part{base: make([]float64, s.n)}
	p := &linear.Problem{}
	to := slices.Repeat([]int{-1}, s.n)
	for j := range to {
		if upper[j] <= lower[j] {
			q.base[j] = lower[j]
			p.Offset += s.cost[j] * lower[j]
			continue
		}
		to[j] = p.AddCol("", s.cost[j], lower[j], upper[j], s.integer[j])
		q.cols = append(q.cols, j)
	}
	for i, need := range needed {
		if !need {
			continue
		}
		terms, lo, up := s.rowTerms(i)
		shift, k := 0.0, -1
		for _, t := range terms {
			c := to[t.col]
			if c < 0 {
				shift += t.value * q.base[t.col]
				continue
			}
			if k < 0 {
				k = p.AddRow("", lo, up)
				q.rows = append(q.rows, i)
			}
			p.Set(k, c, t.value)
		}
		if k >= 0 {
			p.Rows[k].Lower -= shift
			p.Rows[k].Upper -= shift
		}
	}
	q.space = &space{program: newProgram(p)}
	q.findLocks()
	return q
}

// whole puts a point of the part back into the space.
func (q *part) whole(x []float64) []float64 {
	full := append([]float64(nil), q.base...)
	for k, j := range q.cols {
		full[j] = x[k]
	}
	return full
}

// part returns the basis for a part of the space. It may have too many or too
// few basic variables; the simplex method mends that.
func (b *Basis) part(q *part) *Basis {
	c := &Basis{Cols: make([]simplex.Place, len(q.cols)), Rows: make([]simplex.Place, len(q.rows))}
	for k, j := range q.cols {
		c.Cols[k] = b.Cols[j]
	}
	for k, i := range q.rows {
		c.Rows[k] = simplex.Basic
		if i < len(b.Rows) {
			c.Rows[k] = b.Rows[i]
		}
	}
	return c
}

// part returns the pseudo-costs of some columns, in their order, as a copy.
func (p *pseudocosts) part(cols []int) *pseudocosts {
	q := newPseudocosts(len(cols))
	q.total, q.seen = p.total, p.seen
	for d := range 2 {
		for k, j := range cols {
			q.sum[d][k], q.count[d][k] = p.sum[d][j], p.count[d][j]
		}
	}
	return q
}

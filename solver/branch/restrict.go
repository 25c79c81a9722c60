package branch

import (
	"math"

	"rationwright/solver/linear"
)

// part is a smaller program: the space over a smaller box, without the columns
// that the box decides and the rows that it satisfies.
type part struct {
	problem *linear.Problem
	cols    []int // column of the space for each column of problem
	rows    []int // row of the space for each row of problem
	base    []float64
}

// forced is how much room a column may have left and still count as decided,
// relative to its bound.
const forced = 1e-9

// restrict builds the part of the space inside the box, in the search's sense.
// It returns nil if a row cannot hold there. lower and upper are changed:
// columns that the rows decide get equal bounds.
func (s *space) restrict(lower, upper []float64) *part {
	total := s.m + len(s.cuts)
	need := make([]bool, total)
	for i := range total {
		terms, lo, up := s.rowTerms(i)
		if math.IsInf(lo, -1) && math.IsInf(up, 1) {
			continue
		}
		var a activity
		for _, t := range terms {
			a.add(t.value, lower[t.col], upper[t.col])
		}
		low, high := a.low(), a.high()
		if low > up+feasTol*(1+math.Abs(up)) || high < lo-feasTol*(1+math.Abs(lo)) {
			return nil
		}
		if low >= lo && high <= up {
			continue
		}
		need[i] = true
		if low > up-forced*(1+math.Abs(up)) {
			force(terms, lower, upper, true)
		}
		if high < lo+forced*(1+math.Abs(lo)) {
			force(terms, lower, upper, false)
		}
	}
	q := &part{problem: &linear.Problem{}, base: make([]float64, s.n)}
	to := make([]int, s.n)
	for j := range to {
		to[j] = -1
		if upper[j] <= lower[j] {
			q.base[j] = lower[j]
			q.problem.Offset += s.cost[j] * lower[j]
			continue
		}
		to[j] = q.problem.AddCol("", s.cost[j], lower[j], upper[j], s.integer[j])
		q.cols = append(q.cols, j)
	}
	for i := range total {
		if !need[i] {
			continue
		}
		terms, lo, up := s.rowTerms(i)
		shift, free := 0.0, 0
		for _, t := range terms {
			if to[t.col] < 0 {
				shift += t.value * q.base[t.col]
			} else {
				free++
			}
		}
		if free == 0 {
			continue // its range was checked above, within tolerance
		}
		k := q.problem.AddRow("", lo-shift, up-shift)
		q.rows = append(q.rows, i)
		for _, t := range terms {
			if c := to[t.col]; c >= 0 {
				q.problem.Set(k, c, t.value)
			}
		}
	}
	return q
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

// whole puts a point of the part back into the space.
func (q *part) whole(x []float64) []float64 {
	full := append([]float64(nil), q.base...)
	for k, j := range q.cols {
		full[j] = x[k]
	}
	return full
}

package branch

import "math"

// certificate is one multiplier per row, kept sparse: with the objective it
// proves a lower bound over any box of the columns, without it (ray) it may
// prove that the box holds no point. Rows count as in [space].
type certificate struct {
	rows  []int32
	duals []float64
	ray   bool
}

// newCertificate keeps the non-zeros of duals; row k of duals is rows[k].
func newCertificate(rows []int, duals []float64, ray bool) *certificate {
	c := &certificate{ray: ray}
	for k, y := range duals {
		if y != 0 {
			c.rows = append(c.rows, int32(rows[k]))
			c.duals = append(c.duals, y)
		}
	}
	return c
}

// space is everything that holds for every point searched for: the rows of
// the program, then the cuts. Row i of a space is row i of the program for
// i < m and cut i−m otherwise. Cuts are only ever appended, and only between
// rounds.
type space struct {
	*program
	cuts []*cut
}

// rowTerms returns the terms and the sides of a row of the space.
func (s *space) rowTerms(i int) (terms []term, lower, upper float64) {
	if i < s.m {
		return s.rows[i], s.rowLower[i], s.rowUpper[i]
	}
	c := s.cuts[i-s.m]
	return c.terms, math.Inf(-1), c.upper
}

// boundMargin is subtracted from a dual bound, times the sum of the sizes of
// its terms, against rounding. A dot product of a thousand terms in double
// precision is off by less than 1000·2⁻⁵³ ≈ 1e-13 of that sum; the rest covers
// cancellation inside the reduced costs. The audit does it with outward
// rounding instead.
const boundMargin = 1e-11

// bound returns a lower bound on the objective (or, for a ray, on zero: above
// zero means that no point exists) over the box, valid whatever the
// multipliers are:
//
//	Σ_i min(y_i·r_i) + Σ_j min((c_j − Σ_i y_i a_ij)·x_j)
//
// reduced receives c_j − Σ y_i a_ij for every column; len n. Multipliers whose
// row has no side of that sign are taken as zero. The bound is −Inf where a
// column without a bound has a reduced cost of the wrong sign.
func (s *space) bound(rows []int, duals []float64, ray bool, lower, upper, reduced []float64) float64 {
	s.price(rows, duals, ray, reduced)
	return s.sumUp(rows, duals, lower, upper, reduced)
}

// price fills in the reduced costs.
func (s *space) price(rows []int, duals []float64, ray bool, reduced []float64) {
	if ray {
		clear(reduced)
	} else {
		copy(reduced, s.cost)
	}
	for k, y := range duals {
		if y == 0 {
			continue
		}
		terms, lo, up := s.rowTerms(rows[k])
		if y > 0 && math.IsInf(lo, -1) || y < 0 && math.IsInf(up, 1) {
			continue
		}
		for _, t := range terms {
			reduced[t.col] -= y * t.value
		}
	}
}

// sumUp returns the bound that multipliers and the reduced costs they make
// prove.
func (s *space) sumUp(rows []int, duals []float64, lower, upper, reduced []float64) float64 {
	sum, size := 0.0, 0.0
	for k, y := range duals {
		if y == 0 {
			continue
		}
		_, lo, up := s.rowTerms(rows[k])
		side := lo
		if y < 0 {
			side = up
		}
		if !math.IsInf(side, 0) {
			sum += y * side
			size += math.Abs(y * side)
		}
	}
	for j, d := range reduced {
		if d == 0 {
			continue
		}
		lo, up := s.box(j, lower, upper)
		at := lo
		if d < 0 {
			at = up
		}
		if math.IsInf(at, 0) {
			if math.Abs(d) <= freeTol*(1+math.Abs(s.cost[j])) {
				sum -= freeSize * math.Abs(d)
				continue
			}
			return math.Inf(-1)
		}
		sum += d * at
		size += math.Abs(d * at)
	}
	return sum - boundMargin*size
}

// freeTol is the reduced cost, relative to the cost, that a column without any
// bound may have and still count as zero: rounding leaves about 1e-13. Such a
// bound holds for points that have the column within freeSize only, and an audit
// says so.
const freeTol, freeSize = 1e-9, 1000

// box returns column j's bounds for a dual bound: those of the node, and where
// it has none, what the rows imply.
func (s *space) box(j int, lower, upper []float64) (lo, up float64) {
	lo, up = lower[j], upper[j]
	if math.IsInf(lo, -1) {
		lo = s.impliedLower[j]
	}
	if math.IsInf(up, 1) {
		up = s.impliedUpper[j]
	}
	return lo, up
}

package branch

import "math"

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

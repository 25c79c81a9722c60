package branch

import "math"

// forced is how much room a row may have left and still decide all of its
// columns, relative to its side.
const forced = 1e-9

// decideForced fixes, inside the box, the columns of rows that have no room
// left (the grams of a food of which no pack is left). It returns false if a
// row cannot hold in the box.
func (s *space) decideForced(lower, upper []float64) bool {
	for i := range s.m {
		terms, lo, up := s.rowTerms(i)
		if math.IsInf(lo, -1) && math.IsInf(up, 1) || !s.eager(i) {
			continue
		}
		var a activity
		for _, t := range terms {
			a.add(t.value, lower[t.col], upper[t.col])
		}
		low, high := a.low(), a.high()
		if low > up+feasTol*(1+math.Abs(up)) || high < lo-feasTol*(1+math.Abs(lo)) {
			return false
		}
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

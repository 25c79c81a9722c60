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

// A safe bound (A. Neumaier and O. Shcherbina, Safe bounds in linear and mixed-integer
// linear programming, Math. Programming 99 (2004)) is a lower bound on the objective (or, for a ray, on zero: above
// zero means that no point exists) over the box, valid whatever the
// multipliers are:
//
//	Σ_i min(y_i·r_i) + Σ_j min((c_j − Σ_i y_i a_ij)·x_j)

// price fills reduced with c_j − Σ y_i a_ij for every column; len n. Multipliers whose
// row has no side of that sign are taken as zero.
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

// sumUp returns the safe bound that multipliers and the reduced costs they make
// prove. It is −Inf where a column without a bound has a reduced cost of the wrong sign.
func (s *space) sumUp(rows []int, duals []float64, lower, upper, reduced []float64) float64 {
	sum, size := 0.0, 0.0
	for k, y := range duals {
		if y == 0 {
			continue
		}
		_, lo, up := s.rowTerms(rows[k])
		side := boundAt(y, lo, up)
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
		at := boundAt(d, lo, up)
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

// boundAt returns the bound at which a variable of positive or negative price is cheapest.
func boundAt(price, lower, upper float64) float64 {
	if price < 0 {
		return upper
	}
	return lower
}

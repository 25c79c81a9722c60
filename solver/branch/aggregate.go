package branch

import (
	"cmp"
	"math"
	"slices"
)

// aggregate looks for rounding cuts of single rows and of chains of rows: as
// long as nothing is cut off, the continuous column farthest from its bounds is
// cancelled with another row that holds it (Marchand and Wolsey 2001, §4).
// Each row starts once on either side; rows are taken by their duals' size, at
// most limit.
func (r *relaxation) aggregate(w *workspace, x, duals []float64, limit int) []*cut {
	order := make([]int, len(r.rowGlobal))
	for k := range order {
		order[k] = k
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(math.Abs(duals[b]), math.Abs(duals[a])) })
	sums := r.sums(x)
	var found []*cut
	for _, k := range order[:min(limit, len(order))] {
		row := r.rowGlobal[k]
		for _, atUpper := range []bool{true, false} {
			side, _, equation := r.sideOf(row, atUpper)
			if math.IsInf(side, 0) || math.Abs(sums[row]-side) > 0.1*(1+math.Abs(side)) {
				continue
			}
			times := []float64{1}
			if !atUpper {
				times = []float64{-1}
			}
			if equation {
				times = append(times, -times[0])
			}
			for _, m := range times {
				c := &combination{}
				c.add(row, m, atUpper)
				if cut := r.chain(w, c, x, sums); cut != nil {
					found = append(found, cut)
				}
			}
			if equation {
				break
			}
		}
	}
	return found
}

// sums returns the activity of every row of the space at x.
func (s *space) sums(x []float64) []float64 {
	v := make([]float64, s.m+len(s.cuts))
	for i := range v {
		terms, _, _ := s.rowTerms(i)
		for _, t := range terms {
			v[i] += t.value * x[t.col]
		}
	}
	return v
}

// chain rounds the combination and, while that gives no cut, joins rows to it.
func (r *relaxation) chain(w *workspace, c *combination, x, sums []float64) *cut {
	used := map[int]bool{c.rows[0]: true}
	for len(c.rows) <= aggregateRows {
		best := r.bestRounding(w, c, x)
		if v := r.substituteVariableBounds(w, c, x, sums); v != nil {
			if cut := r.bestRounding(w, v, x); cut != nil && (best == nil || cut.score > best.score) {
				best = cut
			}
		}
		if best != nil {
			return best
		}
		r.sum(w, c)
		// The continuous column farthest from its bounds.
		col, far := -1, 1e-6
		for _, j := range w.touched {
			if r.integer[j] || math.Abs(w.coef[j]) < 1e-9 {
				continue
			}
			if d := math.Min(x[j]-r.lower[j], r.upper[j]-x[j]); d > far || d == far && j < col {
				col, far = j, d
			}
		}
		if col < 0 {
			return nil
		}
		row, value, atUpper, slack := -1, 0.0, false, math.Inf(1)
		for _, e := range r.cols[col] {
			if used[e.Row] || r.rowLocal[e.Row] < 0 || math.Abs(e.Value) < 1e-9 {
				continue
			}
			for _, up := range []bool{true, false} {
				side, _, _ := r.sideOf(e.Row, up)
				if math.IsInf(side, 0) {
					continue
				}
				if d := math.Abs(sums[e.Row]-side) / (1 + math.Abs(side)); d < slack {
					row, value, atUpper, slack = e.Row, e.Value, up, d
				}
			}
		}
		if row < 0 || slack > 0.1 {
			return nil
		}
		used[row] = true
		c.add(row, -w.coef[col]/value, atUpper)
	}
	return nil
}

// sum leaves the combination's coefficients in w.
func (s *space) sum(w *workspace, c *combination) {
	w.clear()
	for k, row := range c.rows {
		_, terms, _ := s.sideOf(row, c.atUpper[k])
		w.add(c.mult[k], terms)
	}
}

// bestRounding tries the coefficients of fractional integer columns as divisors
// and returns the deepest cut.
func (s *space) bestRounding(w *workspace, c *combination, x []float64) *cut {
	s.sum(w, c)
	var divisors []float64
	for _, j := range w.touched {
		a := math.Abs(w.coef[j])
		if !s.integer[j] || a < 1e-9 || x[j] <= s.lower[j]+intTol || x[j] >= s.upper[j]-intTol {
			continue
		}
		if !slices.ContainsFunc(divisors, func(d float64) bool { return math.Abs(d-a) < 1e-9*a }) {
			divisors = append(divisors, a)
		}
	}
	slices.Sort(divisors)
	divisors = divisors[max(0, len(divisors)-roundingDivisors):]
	var best *cut
	try := func(d float64) {
		atLeast := 0.0
		if best != nil {
			atLeast = best.score
		}
		if cut := s.round(w, c, d, x, atLeast); cut != nil {
			best = cut
		}
	}
	for _, d := range divisors {
		try(d)
	}
	if best == nil {
		return nil
	}
	for _, d := range divisors {
		for _, k := range []float64{2, 4, 8} {
			try(d / k)
		}
	}
	return best
}

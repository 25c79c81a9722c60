package branch

import "math"

// findVariableBounds lists, for each continuous column, the rows that join it
// with one integer column and nothing else: variable bounds such as y ≤ M·x.
func (s *space) findVariableBounds() {
	s.held = make([][]int, s.n)
	for i, terms := range s.rows {
		if len(terms) != 2 || math.IsInf(s.rowLower[i], -1) && math.IsInf(s.rowUpper[i], 1) {
			continue
		}
		a, b := terms[0].col, terms[1].col
		if s.integer[a] {
			a, b = b, a
		}
		if !s.integer[a] && s.integer[b] {
			s.held[a] = append(s.held[a], i)
		}
	}
}

// substituteVariableBounds replaces, in a copy of the combination, each continuous column
// that is nearer to a variable bound than to its own bounds by that bound: the
// row is added with the multiplier that cancels the column, and its slack takes
// the column's place. It returns nil if there is nothing to replace. Rounding
// after this gives flow covers (Marchand and Wolsey 2001, §3).
func (s *space) substituteVariableBounds(w *workspace, c *combination, x, sums []float64) *combination {
	s.sum(w, c)
	var v *combination
	for _, j := range w.touched {
		if s.integer[j] || len(s.held[j]) == 0 || math.Abs(w.coef[j]) < 1e-9 {
			continue
		}
		near := math.Min(x[j]-s.lower[j], s.upper[j]-x[j])
		row, atUpper := -1, false
		for _, i := range s.held[j] {
			for _, up := range []bool{true, false} {
				side, _, _ := s.sideOf(i, up)
				if math.IsInf(side, 0) {
					continue
				}
				d := math.Abs(sums[i]-side) / math.Abs(coefficientOf(s.rows[i], j))
				if d <= near {
					row, atUpper, near = i, up, d
				}
			}
		}
		if row < 0 {
			continue
		}
		if v == nil {
			v = &combination{
				rows:    append([]int(nil), c.rows...),
				mult:    append([]float64(nil), c.mult...),
				atUpper: append([]bool(nil), c.atUpper...),
			}
		}
		v.add(row, -w.coef[j]/coefficientOf(s.rows[row], j), atUpper)
	}
	return v
}

package simplex

// TableauRow returns, for the variable basic in position row (see BasicIn), the
// row of B⁻¹·[A, −I] in the program's own terms: coef has one coefficient per
// column, then one per row for its slack, the row's activity r_i; it is 1 for
// the basic variable itself and 0 for every other basic variable. mult has the
// multiplier of every original row that makes it:
//
//	Σ_i mult[i]·(Σ_j a_ij·x_j − r_i) = Σ_k coef[k]·variable k = 0
//
// Both are computed afresh from the original rows; coef and mult are used for
// the result if they are long enough.
func (s *Solver) TableauRow(row int, coef, mult []float64) ([]float64, []float64) {
	s.build()
	c := s.core
	c.needFactor()
	n, m := s.a.cols, s.a.rows
	coef, mult = sized(coef, n+m), sized(mult, m)
	clear(coef)
	clear(mult)
	mult[row] = 1
	c.factor.btran(mult, false)
	basic := s.scale.of(int(c.head[row]))
	for i, v := range mult {
		if v == 0 {
			continue
		}
		v *= s.scale.row[i] * basic
		mult[i] = v
		coef[n+i] = -v
		index, value := s.a.row(i)
		for t, j := range index {
			coef[j] += v * value[t]
		}
	}
	for p, k := range c.head {
		coef[k] = 0
		if p == row {
			coef[k] = 1
		}
	}
	return coef, mult
}

// sized returns v with length n, made anew if it is too short.
func sized(v []float64, n int) []float64 {
	if cap(v) < n {
		return make([]float64, n)
	}
	return v[:n]
}

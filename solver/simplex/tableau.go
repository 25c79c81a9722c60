package simplex

// TableauRow returns the multipliers of the original rows that make, of the variable basic
// in position row (see BasicIn), its row of B⁻¹·[A, −I] in the program's own terms:
//
//	Σ_i mult[i]·(Σ_j a_ij·x_j − r_i) = Σ_k coef[k]·variable k = 0
//
// where r_i is the activity of row i, the variable of its slack; coef is 1 for the basic
// variable itself and 0 for every other basic variable. mult is used for the result if it
// is long enough.
func (s *Solver) TableauRow(row int, mult []float64) []float64 {
	s.build()
	c := s.core
	c.needFactor()
	mult = zeroed(mult, s.a.rows)
	mult[row] = 1
	c.factor.btran(mult, false)
	basic := s.scale.of(int(c.head[row]))
	for i, v := range mult {
		mult[i] = v * (s.scale.row[i] * basic)
	}
	return mult
}

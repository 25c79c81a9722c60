package branch

import "math"

// links returns cuts that hold single continuous columns by the integers of a
// row. In a row
//
//	a·y + rest ≤ b + Σ_k c_k·x_k,  a, c_k > 0, x_k ≥ 0 integer, rest ≥ b
//
// y can be above zero only if some x_k is, so that with y ≤ u
//
//	y ≤ Σ_k min(u, c_k/a)·x_k
//
// (M. Padberg, T. Van Roy and L. Wolsey, Valid linear inequalities for fixed charge
// problems, Operations Research 33 (1985); grams of a food for one person, held by packs that all share).
func (r *relaxation) links(w *workspace, x []float64) []*cut {
	var found []*cut
	for i := range r.rows {
		for _, atUpper := range []bool{true, false} {
			found = r.linksOf(w, i, atUpper, x, found)
		}
	}
	return found
}

// linksOf appends the violated links of one row.
func (r *relaxation) linksOf(w *workspace, i int, atUpper bool, x []float64, found []*cut) []*cut {
	sign, side := r.upperSide(i, atUpper)
	if math.IsInf(side, 1) || !r.isLinking(i, sign, side) {
		return found
	}
	for _, t := range r.rows[i] {
		a := sign * t.value
		if r.integer[t.col] || a <= 0 || r.lower[t.col] != 0 || math.IsInf(r.upper[t.col], 1) || x[t.col] < intTol {
			continue
		}
		u := r.upper[t.col]
		hold := 0.0
		for _, k := range r.rows[i] {
			if c := -sign * k.value; r.integer[k.col] && c > 0 {
				hold += math.Min(u, c/a) * x[k.col]
			}
		}
		if hold >= x[t.col] {
			continue
		}
		w.clear()
		w.add(1, []term{{t.col, 1}})
		for _, k := range r.rows[i] {
			if c := -sign * k.value; r.integer[k.col] && c > 0 {
				w.add(-math.Min(u, c/a), []term{{k.col, 1}})
			}
		}
		origin := derivation{kind: link, rows: []int32{int32(i)}, atUpper: []bool{atUpper}, col: int32(t.col)}
		if c := w.take(r.space, 0, x, origin); c != nil {
			found = append(found, c)
		}
	}
	return found
}

// isLinking says whether row i has the form that links need: integers only
// with negative coefficients and lower bound zero, the rest never below the
// side.
func (s *space) isLinking(i int, sign, side float64) bool {
	rest, ints := 0.0, 0
	for _, t := range s.rows[i] {
		a := sign * t.value
		if s.integer[t.col] && a < 0 {
			if s.lower[t.col] < 0 {
				return false
			}
			ints++
			continue
		}
		lo := boundAt(a, s.lower[t.col], s.upper[t.col])
		if math.IsInf(lo, 0) {
			return false
		}
		rest += a * lo
	}
	return ints > 0 && rest >= side
}

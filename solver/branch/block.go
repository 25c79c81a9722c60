package branch

import (
	"math"
	"slices"

	"rationwright/solver/simplex"
)

// Blocks. A row can be left out of a relaxation together with all of its
// columns, which rest at zero (the packs and the grams of a food that nobody
// near the optimum eats). The columns need not be priced one by one: the row's
// own multiplier is free, and if some value of it leaves no column of the block
// with a reduced cost of the wrong sign, nothing is lost by its absence.

// multipliers returns the range of multipliers of row i, of the signs that its
// sides allow, for which no column of it has a negative reduced cost. reduced
// has the reduced costs without the row. Columns that the box fixes do not
// count. An empty range has lo > hi.
func (s *space) multipliers(i int, reduced, lower, upper []float64) (lo, hi float64) {
	lo, hi = math.Inf(-1), math.Inf(1)
	if math.IsInf(s.rowLower[i], -1) {
		hi = 0
	}
	if math.IsInf(s.rowUpper[i], 1) {
		lo = 0
	}
	for _, t := range s.rows[i] {
		if upper[t.col] <= lower[t.col] {
			continue
		}
		// reduced − y·a ≥ 0
		if v := reduced[t.col] / t.value; t.value > 0 {
			hi = math.Min(hi, v)
		} else {
			lo = math.Max(lo, v)
		}
	}
	return lo, hi
}

// idleBlocks lists the rows that can be left out as blocks at an optimal
// outcome of the root: all columns at zero there and dear, no column in two
// blocks.
func (s *space) idleBlocks(out outcome, b *Basis) []int {
	dual := make([]float64, s.m)
	for k, i := range out.rows {
		if i < s.m {
			dual[i] = out.duals[k]
		}
	}
	taken := make([]bool, s.n)
	without := append([]float64(nil), out.reduced...)
	var rows []int
	for i := range s.m {
		terms := s.rows[i]
		if len(terms) == 0 || !s.eager(i) || s.rowLower[i] > 0 || s.rowUpper[i] < 0 ||
			math.IsInf(s.rowLower[i], -1) && math.IsInf(s.rowUpper[i], 1) {
			continue
		}
		if slices.ContainsFunc(terms, func(t term) bool {
			return taken[t.col] || s.lower[t.col] != 0 || out.x[t.col] > intTol || b.Cols[t.col] == simplex.AtUpper
		}) {
			continue
		}
		for _, t := range terms {
			without[t.col] = out.reduced[t.col] + dual[i]*t.value
		}
		lo, hi := s.multipliers(i, without, s.lower, s.upper)
		if hi-lo > masterShare*math.Max(math.Abs(lo), math.Abs(hi)) {
			rows = append(rows, i)
			for _, t := range terms {
				taken[t.col] = true
			}
		}
	}
	return rows
}

// leaveOut makes the rows blocks of a relaxation that does not hold them yet.
func (r *relaxation) leaveOut(rows []int) {
	r.blockOf = slices.Repeat([]int{-1}, r.n)
	for _, i := range rows {
		r.blocks = append(r.blocks, i)
		for _, t := range r.rows[i] {
			r.blockOf[t.col] = i
		}
	}
}

// bringBlock brings a block into the relaxation, row and columns.
func (r *relaxation) bringBlock(i int) {
	r.blocks = slices.DeleteFunc(r.blocks, func(b int) bool { return b == i })
	for _, t := range r.rows[i] {
		r.blockOf[t.col] = -1
	}
	if r.rowLocal[i] < 0 {
		r.appendRow(i)
	}
	for _, t := range r.rows[i] {
		if r.colLocal[t.col] < 0 && !r.space.fixed(t.col) {
			r.appendColumn(t.col)
		}
	}
}

// chooseMultipliers finds, for each block, the multiplier that serves the bound
// best, takes it into the reduced costs, and appends it to the outcome.
func (r *relaxation) chooseMultipliers(out *outcome) {
	if len(r.blocks) == 0 {
		return
	}
	rows := make([]int, len(out.rows), len(out.rows)+len(r.blocks))
	copy(rows, out.rows)
	duals := make([]float64, len(out.duals), cap(rows))
	copy(duals, out.duals)
	for _, i := range r.blocks {
		lo, hi := r.multipliers(i, r.reduced, r.lower, r.upper)
		y := math.Min(math.Max(0, lo), hi) // of the range, the nearest to zero
		if lo > hi {
			y = math.Min(lo, 0) // some column will have to come in
			if lo > 0 {
				y = math.Max(hi, 0)
			}
		}
		if y == 0 || math.IsInf(y, 0) {
			continue
		}
		for _, t := range r.rows[i] {
			r.reduced[t.col] -= y * t.value
		}
		rows = append(rows, i)
		duals = append(duals, y)
	}
	out.rows, out.duals = rows, duals
}

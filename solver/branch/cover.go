package branch

import (
	"cmp"
	"math"
	"slices"
)

// covers returns extended cover cuts of rows that are knapsacks in zero-one
// columns: members C whose weights exceed the side together cannot all be one,
//
//	Σ_C x_j ≤ |C| − 1
//
// nor can as many of C and of any column at least as heavy as the heaviest
// member. Columns with negative weight are taken as 1 − x. (Crowder, Johnson
// and Padberg, Solving large-scale zero-one linear programming problems,
// Operations Research 31 (1983).)
func (r *relaxation) covers(w *workspace, x []float64) []*cut {
	var found []*cut
	for i := range r.rows {
		for _, atUpper := range []bool{true, false} {
			if c := r.cover(w, i, atUpper, x); c != nil {
				found = append(found, c)
			}
		}
	}
	return found
}

// weighted is one column of a knapsack.
type weighted struct {
	col     int
	weight  float64
	value   float64 // x, or 1 − x where flipped
	flipped bool
}

// knapsack returns row i, on the side given, as Σ weight·z ≤ side with zero-one
// z; ok is false if it is none.
func (s *space) knapsack(i int, atUpper bool, x []float64) (items []weighted, side float64, ok bool) {
	sign, side := s.upperSide(i, atUpper)
	if math.IsInf(side, 1) {
		return nil, 0, false
	}
	for _, t := range s.rows[i] {
		j, a := t.col, sign*t.value
		switch {
		case s.fixed(j):
			side -= a * s.lower[j]
		case !s.integer[j] || s.lower[j] != 0 || s.upper[j] != 1:
			return nil, 0, false
		case a > 0:
			items = append(items, weighted{j, a, x[j], false})
		case a < 0:
			items = append(items, weighted{j, -a, 1 - x[j], true})
			side -= a
		}
	}
	return items, side, side > 0 && len(items) > 1
}

// cover returns the extended cover cut of one row.
func (r *relaxation) cover(w *workspace, i int, atUpper bool, x []float64) *cut {
	items, side, ok := r.knapsack(i, atUpper, x)
	if !ok {
		return nil
	}
	// Greedy: the least 1 − z per weight first.
	slices.SortStableFunc(items, func(a, b weighted) int {
		return cmp.Compare((1-a.value)*b.weight, (1-b.value)*a.weight)
	})
	total := 0.0
	k := 0
	for ; k < len(items) && total <= side+feasTol*(1+side); k++ {
		total += items[k].weight
	}
	if total <= side+feasTol*(1+side) {
		return nil
	}
	members := slices.Clone(items[:k])
	// Minimal: leave out what is not needed, the least value first.
	slices.SortStableFunc(members, func(a, b weighted) int { return cmp.Compare(a.value, b.value) })
	kept := members[:0:0]
	for m, it := range members {
		if total-it.weight > side+feasTol*(1+side) && len(kept)+len(members)-m > 2 {
			total -= it.weight
			continue
		}
		kept = append(kept, it)
	}
	heaviest := 0.0
	for _, it := range kept {
		heaviest = math.Max(heaviest, it.weight)
	}
	origin := derivation{kind: cover, rows: []int32{int32(i)}, atUpper: []bool{atUpper}}
	in := map[int]bool{}
	for _, it := range kept {
		in[it.col] = true
		origin.coverCols = append(origin.coverCols, int32(it.col))
	}
	w.clear()
	upper := float64(len(kept) - 1)
	for _, it := range items {
		if !in[it.col] && it.weight < heaviest {
			continue
		}
		if it.flipped {
			w.add(-1, []term{{it.col, 1}})
			upper--
		} else {
			w.add(1, []term{{it.col, 1}})
		}
	}
	return w.take(r.space, upper, x, origin)
}

package branch

import (
	"cmp"
	"math"
	"slices"
)

// blamed sets groups free: of those that x uses a share, drawn by what they are
// to blame for, and of the others those that the root nearly uses.
func (h *lns) blamed(x []float64) []bool {
	blame, inUse := h.blame(x), h.inUse(x)
	total, count := 0.0, 0.0
	for g, used := range inUse {
		if used {
			total += blame[g]
			count++
		}
	}
	// Without replacement, with chances by weight: the largest of log(u)/weight
	// (Efraimidis and Spirakis, Weighted random sampling with a reservoir,
	// Information Processing Letters 97 (2006) 181–185).
	type draw struct {
		group int
		key   float64
	}
	var draws []draw
	for g, used := range inUse {
		if !used {
			continue
		}
		weight := 1.0
		if total > 0 {
			weight = blame[g] + blameFloor*total/count
		}
		draws = append(draws, draw{g, math.Log(1-h.rng.Float64()) / weight})
	}
	slices.SortStableFunc(draws, func(a, b draw) int { return cmp.Compare(b.key, a.key) })
	free := make([]bool, h.groups)
	for _, d := range draws[:int(math.Ceil(h.share*count))] {
		free[d.group] = true
	}
	idle := 0
	for _, g := range h.order {
		if inUse[g] {
			continue
		}
		if h.rng.Float64() < lnsIdle/float64(lnsIdle+idle) {
			free[g] = true
		}
		idle++
	}
	return free
}

// blame divides the distance of a feasible x from the root's bound over the
// groups. With the multipliers y and the reduced costs d of the root,
//
//	c·x − bound = Σ_j |d_j| (way of x_j from the bound that d_j holds it at)
//	            + Σ_i |y_i| (slack of x in row i)
//
// A column's part is its group's, and so is the slack of a row that makes the
// group; the slack of any other row is divided over the groups by the size of
// their terms.
func (h *lns) blame(x []float64) []float64 {
	s, g := h.s, &h.guide
	blame := make([]float64, h.groups)
	for j, d := range g.reduced {
		if k := h.group[j]; k >= 0 {
			blame[k] += priced(d, x[j]-g.lower[j], g.upper[j]-x[j])
		}
	}
	for k, i := range g.rows {
		y := g.duals[k]
		if y == 0 {
			continue
		}
		terms, lo, up := s.rowTerms(i)
		sum, size := 0.0, 0.0
		for _, t := range terms {
			sum += t.value * x[t.col]
			size += math.Abs(t.value * x[t.col])
		}
		cost := priced(y, sum-lo, up-sum)
		switch {
		case cost == 0:
		case i < s.m && h.ofRow[i] >= 0:
			blame[h.ofRow[i]] += cost
		case size > 0:
			for _, t := range terms {
				if k := h.group[t.col]; k >= 0 {
					blame[k] += cost * math.Abs(t.value*x[t.col]) / size
				}
			}
		}
	}
	return blame
}

// priced is what the way from a bound costs at a price: from the lower one where
// the price is positive, from the upper one where it is negative. A bound that
// there is not costs nothing.
func priced(price, fromLower, toUpper float64) float64 {
	way := fromLower
	if price < 0 {
		way = toUpper
	}
	if !(way > 0) || math.IsInf(way, 1) {
		return 0
	}
	return math.Abs(price) * way
}

package branch

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// boxOf returns the box in which only the integer columns that free wants keep
// their bounds; the others stay at the values of x.
func (h *lns) boxOf(x []float64, free func(j int) bool) (lower, upper []float64) {
	lower = append([]float64(nil), h.s.lower...)
	upper = append([]float64(nil), h.s.upper...)
	for _, j := range h.s.integers {
		if free(j) {
			continue
		}
		v := math.Round(x[j])
		v = math.Min(math.Max(v, lower[j]), upper[j])
		lower[j], upper[j] = v, v
	}
	return lower, upper
}

// first begins to look for a first point: only the columns that the relaxation
// uses, or nearly, are free.
func (h *lns) first(ctx context.Context, cutoff float64) bool {
	order := h.byReducedCost()
	keep := make([]bool, h.s.n)
	for _, j := range order[:min(len(order), firstFree)] {
		keep[j] = true
	}
	lower, upper := h.boxOf(h.guide.x, func(j int) bool { return keep[j] || h.guide.x[j] > h.s.lower[j]+intTol })
	return h.begin(ctx, lower, upper, cutoff, firstNodes)
}

// byReducedCost lists the integer columns, least reduced cost first.
func (h *lns) byReducedCost() []int {
	order := append([]int(nil), h.s.integers...)
	slices.SortStableFunc(order, func(a, b int) int { // the integer columns ascend
		return cmp.Compare(math.Abs(h.guide.reduced[a]), math.Abs(h.guide.reduced[b]))
	})
	return order
}

// next begins with a neighbourhood of the best point: where it differs from a
// node of the tree or from an earlier best point, or what is to blame for its distance
// from the bound. On rations of one to eight people at least cost, nodes and blame gain
// as much for their effort, twice what parts chosen at random did; earlier points add a
// little later on.
func (h *lns) next(ctx context.Context, best *point, bound float64) bool {
	room := best.value - bound
	var free []bool
	h.byPoint = true
	switch {
	case len(h.nodes) > 0 && h.rng.Float64() < nodeShare:
		k := h.rng.IntN(len(h.nodes))
		free = h.awayFrom(best.x, h.nodes[k])
		h.nodes = slices.Delete(h.nodes, k, k+1)
	case len(h.earlier) > 0 && h.rng.Float64() < earlierShare:
		free = h.awayFrom(best.x, h.earlier[h.rng.IntN(len(h.earlier))].x)
	default:
		h.byPoint = false
		free = h.blamed(best.x)
	}
	lower, upper := h.boxOf(best.x, func(j int) bool {
		return free[h.group[j]] && (math.Abs(h.guide.reduced[j]) < room || best.x[j] > h.s.lower[j])
	})
	nodes := lnsNodes << min(h.failures/deepenAfter, deepenMost)
	if !h.begin(ctx, lower, upper, best.value-room*lnsGain, nodes) {
		h.share = math.Min(shareMost, h.share*1.02)
		return false
	}
	return true
}

// inUse marks the groups with an integer member above its lower bound.
func (h *lns) inUse(x []float64) []bool {
	used := make([]bool, h.groups)
	for _, j := range h.s.integers {
		if x[j] > h.s.lower[j] {
			used[h.group[j]] = true
		}
	}
	return used
}

// awayFrom sets free the groups in which x and the other point differ.
func (h *lns) awayFrom(x, other []float64) []bool {
	free := make([]bool, h.groups)
	for _, j := range h.s.integers {
		if math.Abs(x[j]-other[j]) > nodeAway {
			free[h.group[j]] = true
		}
	}
	return free
}

package branch

import (
	"context"
	"math"
	"sort"
)

const (
	// firstFree is the number of integer columns of least reduced cost that are
	// free in the first part, firstNodes the nodes it is given.
	firstFree, firstNodes = 60, 60
	// nearNodes is the number of nodes that a part is given at first: a dive and
	// a little more. It doubles with every deepenAfter failures in a row, at most
	// deepenMost times.
	nearNodes, deepenAfter, deepenMost = 30, 20, 4
	// nearGain is the share of the gap that a new point must gain to be looked
	// for.
	nearGain = 0.02
	// nearIdle steers how many groups that the best point does not use are set
	// free: half of the first so many by reduced cost, fewer further down.
	nearIdle = 10
	// shareLeast and shareMost bound the share of the groups in use that is set
	// free.
	shareLeast, shareMost = 0.08, 0.9
	// nodeShare is the share of the parts that are chosen by a node of the tree,
	// nodeAway the difference from its point that sets a group free.
	nodeShare, nodeAway = 0.25, 0.1
	// nearOverhead is the effort of choosing a part, per row and column.
	nearOverhead = 60
)

// boxOf returns the box in which only the integer columns that free wants keep
// their bounds; the others stay at the values of x.
func (h *neighbourhood) boxOf(x []float64, free func(j int) bool) (lower, upper []float64) {
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
func (h *neighbourhood) first(ctx context.Context, cutoff float64) bool {
	order := h.byReducedCost()
	keep := make([]bool, h.s.n)
	for _, j := range order[:min(len(order), firstFree)] {
		keep[j] = true
	}
	lower, upper := h.boxOf(h.guide.x, func(j int) bool { return keep[j] || h.guide.x[j] > h.s.lower[j]+intTol })
	return h.begin(ctx, lower, upper, cutoff, firstNodes)
}

// byReducedCost lists the integer columns, least reduced cost first.
func (h *neighbourhood) byReducedCost() []int {
	order := append([]int(nil), h.s.integers...)
	sort.SliceStable(order, func(a, b int) bool {
		da, db := math.Abs(h.guide.reduced[order[a]]), math.Abs(h.guide.reduced[order[b]])
		if da != db {
			return da < db
		}
		return order[a] < order[b]
	})
	return order
}

// next begins with a neighbourhood of the best point.
func (h *neighbourhood) next(ctx context.Context, best *point, bound float64) bool {
	h.tries++
	room := best.value - bound
	var free map[int]bool
	if h.node != nil && h.rng.Float64() < nodeShare {
		free = h.awayFromNode(best.x)
	} else {
		free = h.someGroups(best.x)
	}
	lower, upper := h.boxOf(best.x, func(j int) bool {
		return free[h.group[j]] && (math.Abs(h.guide.reduced[j]) < room || best.x[j] > h.s.lower[j])
	})
	nodes := nearNodes << min(h.failures/deepenAfter, deepenMost)
	if !h.begin(ctx, lower, upper, best.value-room*nearGain, nodes) {
		h.share = math.Min(shareMost, h.share*1.02)
		return false
	}
	return true
}

// someGroups sets groups free at random: a share of those that x uses, and of
// the others those that the root nearly uses.
func (h *neighbourhood) someGroups(x []float64) map[int]bool {
	free := map[int]bool{}
	inUse := h.inUse(x)
	for _, g := range h.groups {
		if inUse[g] && h.rng.Float64() < h.share {
			free[g] = true
		}
	}
	idle := 0
	for _, g := range h.order {
		if inUse[g] {
			continue
		}
		if h.rng.Float64() < nearIdle/float64(nearIdle+idle) {
			free[g] = true
		}
		idle++
	}
	return free
}

// inUse marks the groups with a member above its lower bound.
func (h *neighbourhood) inUse(x []float64) map[int]bool {
	used := map[int]bool{}
	for _, j := range h.s.integers {
		if x[j] > h.s.lower[j] {
			used[h.group[j]] = true
		}
	}
	return used
}

// awayFromNode sets free the groups in which x and the node's point differ.
func (h *neighbourhood) awayFromNode(x []float64) map[int]bool {
	free := map[int]bool{}
	for _, j := range h.s.integers {
		if math.Abs(x[j]-h.node[j]) > nodeAway {
			free[h.group[j]] = true
		}
	}
	return free
}

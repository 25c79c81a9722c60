package branch

import "math"

// fixByCost tightens integer columns of the node in hand by their reduced
// costs (G. Dantzig, R. Fulkerson and S. Johnson, Solution of a large-scale
// traveling-salesman problem, J. Operations Research Society of America 2 (1954)):
// with bound B over the box, reduced cost d > 0 and the column at its
// lower bound l, any point with x ≥ l + t costs at least B + d·t, so t must
// stay below (cutoff − B)/d. It only takes what halves a range. In the tree the
// cutoff is the best value itself: what the asked gap rules out has to stay in
// some leaf, where its bound is counted. Large programs go without: on ration
// models it saved no nodes and took most of the memory.
func (w *worker) fixByCost(n *node, out outcome) *boundChange {
	box := n.box
	cutoff := w.cutoff
	if w.best != nil && !w.heuristic {
		cutoff = w.gap.exact(w.r.program, w.best.value)
	}
	if math.IsInf(cutoff, 1) || out.reduced == nil || w.r.n >= masterColumns {
		return box
	}
	room := cutoff - out.bound
	var proof *certificate
	r := w.r
	for _, j := range r.integers {
		lo, up, d := r.lower[j], r.upper[j], out.reduced[j]
		if lo >= up || d == 0 {
			continue
		}
		newLo, newUp, ok := costRange(lo, up, d, room)
		if !ok || newUp-newLo > (up-lo)/2 {
			continue
		}
		if proof == nil {
			proof = w.keep(out)
		}
		box = &boundChange{col: j, lower: newLo, upper: newUp, up: box, why: whyCost, proof: proof, cutoff: cutoff}
		r.set(j, newLo, newUp)
	}
	return box
}

// costRange returns the part of [lo, up] that a column of reduced cost d can
// use when room is left between the bound and the cutoff; ok is false where
// that is all of it.
func costRange(lo, up, d, room float64) (newLo, newUp float64, ok bool) {
	if math.IsInf(boundAt(d, lo, up), 0) { // the bound that the reduced cost was counted at
		return lo, up, false
	}
	steps := math.Floor(room/math.Abs(d) + 1e-9)
	switch {
	case d > 0 && lo+steps < up:
		return lo, lo + steps, true
	case d < 0 && up-steps > lo:
		return up - steps, up, true
	}
	return lo, up, false
}

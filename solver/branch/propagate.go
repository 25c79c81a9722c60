package branch

import "math"

// propagate (Savelsbergh 1994, as presolve) tightens integer columns of the box in hand by the rows of the
// columns that changed last, starting with those of col, and adds what it finds
// to the list of changes. It returns false if a row cannot hold in the box.
func (r *relaxation) propagate(box *boundChange, col int) (*boundChange, bool) {
	var queue []int
	queued := map[int]bool{}
	add := func(j int) {
		for _, e := range r.cols[j] {
			lo, up := r.rowLower[e.Row], r.rowUpper[e.Row]
			if !queued[e.Row] && !(math.IsInf(lo, -1) && math.IsInf(up, 1)) {
				queued[e.Row] = true
				queue = append(queue, e.Row)
			}
		}
	}
	add(col)
	for seen := 0; len(queue) > 0 && seen < propagateRows; seen++ {
		i := queue[0]
		queue = queue[1:]
		delete(queued, i)
		var a activity
		for _, t := range r.rows[i] {
			lo, up := r.box(t.col, r.lower, r.upper)
			a.add(t.value, lo, up)
		}
		lo, up := r.rowLower[i], r.rowUpper[i]
		if a.misses(lo, up) {
			return &boundChange{col: col, lower: 1, upper: 0, up: box, why: whyRow, row: i}, false
		}
		if a.low() >= lo && a.high() <= up {
			continue
		}
		for _, t := range r.rows[i] {
			j := t.col
			if !r.integer[j] || r.lower[j] >= r.upper[j] {
				continue
			}
			newLo, newUp := a.implied(t.value, lo, up, r.lower[j], r.upper[j])
			newLo, newUp = math.Ceil(newLo-intTol), math.Floor(newUp+intTol)
			if newLo <= r.lower[j] && newUp >= r.upper[j] {
				continue
			}
			newLo, newUp = math.Max(newLo, r.lower[j]), math.Min(newUp, r.upper[j])
			box = &boundChange{col: j, lower: newLo, upper: newUp, up: box, why: whyRow, row: i}
			if newLo > newUp {
				return box, false
			}
			a.remove(t.value, r.lower[j], r.upper[j])
			a.add(t.value, newLo, newUp)
			r.set(j, newLo, newUp)
			add(j)
		}
	}
	return box, true
}

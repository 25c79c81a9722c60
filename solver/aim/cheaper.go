package aim

import (
	"context"
	"math"

	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// cheaper seeks the least of the first aim among plans that are no worse in what
// they are made of: no other food, no other size, the same variety, no more sodium
// for who is to have little; with portions, what is a portion or nothing to somebody
// stays so. Moves are made whole pack by whole pack, dearer each time than they need
// be; what is saved here pays for further moves. It takes at most so many iterations of what
// work is left, and returns x where it finds nothing.
func (d *descent) cheaper(ctx context.Context, x []float64, work int64, portions bool) []float64 {
	m := d.model
	if work = min(work, d.work-d.lp.Spent); work <= 0 {
		return x
	}
	q := m.Problem.Clone()
	for li, lf := range m.Larder {
		for _, k := range lf.Buy {
			if math.Round(x[k.Col]) == 0 && d.bought[li] >= 0 {
				q.Cols[k.Col].Lower, q.Cols[k.Col].Upper = 0, 0
			}
		}
	}
	if portions {
		keep := d.decided(x)
		for k, j := range keep.cols {
			q.Cols[j].Lower, q.Cols[j].Upper = keep.lower[k], keep.upper[k]
		}
	} else {
		for j, most := range d.mostOf(x) {
			q.Cols[j].Upper = math.Min(q.Cols[j].Upper, most)
		}
		m.CloseEmpty(q)
		keep := d.varied(x)
		for k, j := range keep.cols {
			q.Cols[j].Lower = math.Min(keep.lower[k], x[j]) // x is a point
		}
	}
	for _, r := range d.addLeftRows(q) {
		q.Rows[r.row].Upper = r.most(x)
	}
	for _, r := range d.sodium {
		q.Rows[r.row].Upper = math.Max(math.Min(q.Rows[r.row].Upper, r.most), r.at(x))
	}
	found := search.SolveSmaller(ctx, q, search.Options{Work: work, Gap: cheaperGap, Start: x, MinDenom: ration.SmallestStep(m.Request.Least)})
	d.work -= found.Work + cheaperSetUp
	if found.X == nil || m.ValueOf(found.X) >= m.ValueOf(x) {
		return x
	}
	return wholePacks(m, found.X)
}

// decided is what is a portion or nothing at a point, as bounds.
func (p *program) decided(x []float64) move {
	var list move
	for _, one := range p.sharesAt(x) {
		if !list.decide(one, x[one.col]) {
			list.set(one.col, 0, one.cap)
		}
	}
	return list
}

// save goes over to the same for less, and reports whether that leaves room for moves.
func (d *descent) save(ctx context.Context) bool {
	before := d.model.ValueOf(d.x)
	x := d.cheaper(ctx, d.x, saveWork, d.firm)
	score := d.scoreOf(x)
	if score >= d.score {
		return false
	}
	d.x, d.score = x, score
	d.hold()
	return before-d.model.ValueOf(x) > saveStep*math.Abs(before)
}

package aim

import (
	"context"
	"math"
	"slices"

	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// cheaper seeks the least of the first aim among plans that are no worse in what
// they are made of: no other food, no other size, the same variety, no more sodium
// for who is to have little; with portions, what is a portion or nothing to somebody
// stays so. Moves are made whole pack by whole pack, dearer each time than they need
// be; what is saved here pays for further moves. It returns x where it finds nothing,
// and the iterations that it took.
func (p *program) cheaper(ctx context.Context, x []float64, work int64, portions bool) ([]float64, int64) {
	m := p.model
	if work <= 0 {
		return x, 0
	}
	q := m.CopyProblem()
	for li, lf := range m.Larder {
		for _, k := range lf.Buy {
			if math.Round(x[k.Col]) == 0 && p.bought[li] >= 0 {
				q.Cols[k.Col].Lower, q.Cols[k.Col].Upper = 0, 0
			}
		}
	}
	if portions {
		keep := p.decided(x)
		for k, j := range keep.cols {
			q.Cols[j].Lower, q.Cols[j].Upper = keep.lower[k], keep.upper[k]
		}
	} else {
		for j, most := range p.mostOf(x) {
			q.Cols[j].Upper = math.Min(q.Cols[j].Upper, most)
		}
		m.CloseEmpty(q)
		keep := p.varied(x)
		for k, j := range keep.cols {
			q.Cols[j].Lower = math.Min(keep.lower[k], x[j]) // x is a point
		}
	}
	for _, r := range p.addLeftRows(q) {
		q.Rows[r.row].Upper = r.most(x)
	}
	for _, r := range p.sodium {
		q.Rows[r.row].Upper = math.Max(math.Min(q.Rows[r.row].Upper, r.most), r.at(x))
	}
	found := search.SolveSmaller(ctx, q, search.Options{Work: work, Gap: cheaperGap, Start: x, MinDenom: ration.SmallestStep(m.Request.Least)})
	spent := found.Work + cheaperSetUp
	if found.X == nil || m.ValueOf(found.X) >= m.ValueOf(x) {
		return x, spent
	}
	y := slices.Clone(found.X[:len(m.Cols)])
	for j := range y {
		if m.Problem.Cols[j].Integer {
			y[j] = math.Round(y[j])
		}
	}
	return y, spent
}

// decided is what is a portion or nothing at a point, as bounds.
func (p *program) decided(x []float64) move {
	var list move
	most := p.mostOf(x)
	for ei, e := range p.model.Eaters {
		for _, y := range e.Eats {
			if _, ok := p.eats[ei][y.Food]; !ok {
				continue
			}
			if g := atMost(most, y.Col, y.CapG); !list.decide(y.Col, x[y.Col], p.leastOf(ei, y.Food), g) {
				list.set(y.Col, 0, g)
			}
		}
	}
	return list
}

// save goes over to the same for less, and reports whether that leaves room for moves.
func (d *descent) save(ctx context.Context) bool {
	before := d.model.ValueOf(d.x)
	x, spent := d.cheaper(ctx, d.x, min(saveWork, d.work-d.lp.Spent), d.firm)
	d.work -= spent
	score := d.scoreOf(x)
	if score >= d.score {
		return false
	}
	d.x, d.score = x, score
	d.hold()
	return before-d.model.ValueOf(x) > saveStep*math.Abs(before)
}

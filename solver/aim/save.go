package aim

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// Limits of a search for the same for less: its simplex iterations, and the part of
// the first aim under which nothing is saved.
const (
	saveWork = 3000
	saveStep = 1e-3
)

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

// Limits of moves that go beyond the slack until the same is found for less: how far
// they may, in parts of it; how many are tried; the simplex iterations of each.
const (
	stretchPart  = 1.0
	stretchTries = 5
	stretchWork  = 1500
)

// stretch makes a move that is too dear as it is and not when the same is sought for
// less, and reports whether there was one.
func (d *descent) stretch(ctx context.Context) bool {
	over := d.most + stretchPart*(d.most-d.best)
	var list []*move
	for _, v := range d.moves() {
		if !d.over(ctx) && d.price(ctx, v, over) {
			list = append(list, v)
		}
	}
	slices.SortStableFunc(list, func(a, b *move) int { return cmp.Compare(a.cost, b.cost) })
	for _, v := range list[:min(len(list), stretchTries)] {
		if d.over(ctx) {
			return false
		}
		x := d.dive(ctx, v, over)
		if x == nil {
			continue
		}
		x, spent := d.cheaper(ctx, x, min(stretchWork, d.work-d.lp.Spent), d.firm)
		d.work -= spent
		if d.model.ValueOf(x) > d.most {
			continue
		}
		if score := d.scoreOf(x); score < d.score-scoreStep {
			d.take(v, x, score)
			return true
		}
	}
	return false
}

package aim

import (
	"cmp"
	"context"
	"math"
	"slices"

	"rationwright/solver/model"
	"rationwright/solver/search"
)

// portions shares the packs of the descent's point out so that few amounts are
// crumbs, and where some are left lets the packs change for one after the other: none
// of it, or a portion. It returns the best by the weights.
func (d *descent) portions(ctx context.Context) []float64 {
	d.firm = false
	best := d.portioned(ctx, d.x, d.most)
	value := d.weigh(best)
	over := d.most + stretchPart*(d.most-d.best)
round:
	for !d.over(ctx) && d.crumbs(best) {
		d.x = best
		d.hold()
		var list []*move
		for _, v := range d.crumbMoves(best) {
			if !d.over(ctx) && d.price(ctx, v, over) {
				list = append(list, v)
			}
		}
		slices.SortStableFunc(list, func(a, b *move) int { return cmp.Compare(a.cost, b.cost) })
		stretched := 0
		for _, v := range list {
			if d.over(ctx) {
				break
			}
			x := d.dive(ctx, v, over)
			if x == nil {
				continue
			}
			x = d.portioned(ctx, x, over)
			if d.weigh(x) >= value+d.perPrice()*(d.most-d.best) { // not even for less
				continue
			}
			if d.model.ValueOf(x) > d.most {
				if stretched++; stretched > stretchTries {
					continue
				}
				x = d.cheaper(ctx, x, stretchWork, true)
			}
			if now := d.weigh(x); now < value-scoreStep && d.model.ValueOf(x) <= d.most {
				best, value = slices.Clone(x[:len(d.model.Cols)]), now
				continue round
			}
		}
		x := d.cheaper(ctx, best, saveWork, true)
		now := d.weigh(x)
		if now >= value || d.model.ValueOf(best)-d.model.ValueOf(x) < saveStep*math.Abs(d.model.ValueOf(best)) {
			break
		}
		best, value = x, now
	}
	return best
}

// crumbs reports whether somebody has one.
func (d *descent) crumbs(x []float64) bool {
	full := d.point(x)
	for c := range d.crumb {
		if full[c] > 0 {
			return true
		}
	}
	return false
}

// decide keeps what somebody has of a food, in grams, a portion or nothing; it reports
// false, and sets nothing, where it is neither.
func (v *move) decide(one share, has float64) bool {
	switch {
	case has <= model.Dust:
		v.set(one.col, 0, 0)
	case has >= one.least*(1-search.PortionTolerance):
		v.set(one.col, math.Min(has, one.least), one.cap)
	default:
		return false
	}
	return true
}

// crumbMoves lists what makes an end of each crumb: none, or a portion. What is a
// portion or nothing for others stays so.
func (d *descent) crumbMoves(x []float64) []*move {
	var decided move
	var crumbs []*move
	weight := 0.0
	for c := range d.crumb {
		weight = math.Max(weight, d.Cols[c].Cost)
	}
	for _, one := range d.sharesAt(x) {
		if !d.in[one.food] || decided.decide(one, x[one.col]) {
			continue
		}
		for _, ends := range [][2]float64{{0, 0}, {one.least, one.cap}} {
			end := &move{rare: -1, food: -1, gain: weight * one.count}
			end.set(one.col, ends[0], ends[1])
			crumbs = append(crumbs, end)
		}
	}
	var list []*move
	for _, c := range crumbs {
		held := &move{rare: -1, food: -1, gain: c.gain}
		held.cols = slices.Concat(decided.cols, c.cols)
		held.lower = slices.Concat(decided.lower, c.lower)
		held.upper = slices.Concat(decided.upper, c.upper)
		list = append(list, held, c)
	}
	return list
}

// scoreOf is what moves better: without crumbs, which portions end, unless these are
// kept.
func (d *descent) scoreOf(x []float64) float64 { return d.value(x, d.firm) }

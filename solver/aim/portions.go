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
		better := false
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
				var spent int64
				x, spent = d.cheaper(ctx, x, min(stretchWork, d.work-d.lp.Spent), true)
				d.work -= spent
			}
			if now := d.weigh(x); now < value-scoreStep && d.model.ValueOf(x) <= d.most {
				best, value, better = slices.Clone(x[:len(d.model.Cols)]), now, true
				break
			}
		}
		if better {
			continue
		}
		x, spent := d.cheaper(ctx, best, min(saveWork, d.work-d.lp.Spent), true)
		d.work -= spent
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

// decide keeps what somebody has of a food, in grams, a portion or nothing, up to most;
// it reports false, and sets nothing, where it is neither.
func (v *move) decide(col int, has, portion, most float64) bool {
	switch {
	case has <= model.Dust:
		v.set(col, 0, 0)
	case has >= portion*(1-search.PortionTolerance):
		v.set(col, math.Min(has, portion), most)
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
	most := d.mostOf(x)
	for c := range d.crumb {
		weight = math.Max(weight, d.Cols[c].Cost)
	}
	for ei, e := range d.model.Eaters {
		for _, y := range e.Eats {
			if _, ok := d.eats[ei][y.Food]; !ok || !d.in[y.Food] {
				continue
			}
			least, g := d.leastOf(ei, y.Food), atMost(most, y.Col, y.CapG)
			if decided.decide(y.Col, x[y.Col], least, g) {
				continue
			}
			for _, ends := range [][2]float64{{0, 0}, {least, g}} {
				one := &move{rare: -1, food: -1, gain: weight * e.Count}
				one.set(y.Col, ends[0], ends[1])
				crumbs = append(crumbs, one)
			}
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
func (d *descent) scoreOf(x []float64) float64 {
	if d.firm {
		return d.weigh(x)
	}
	return d.structure(x)
}

package aim

import (
	"cmp"
	"context"
	"math"
	"slices"

	"rationwright/solver/model"
)

// portions shares the packs of the descent's point out so that few amounts are
// crumbs, and where some are left lets the packs change for one after the other: none
// of it, or a portion. It returns the best by the weights.
func (d *descent) portions(ctx context.Context) []float64 {
	best := d.portioned(ctx, d.x, d.most)
	value := d.weigh(best)
	d.work += d.lp.Spent
	for tries := d.tries + crumbTries; tries > 0 && !d.over(ctx); {
		d.x = best
		d.hold()
		var list []*move
		for _, v := range d.crumbMoves(best) {
			if !d.over(ctx) && d.price(ctx, v) {
				list = append(list, v)
			}
		}
		slices.SortStableFunc(list, func(a, b *move) int { return cmp.Compare(a.cost, b.cost) })
		better := false
		for _, v := range list {
			if tries--; tries < 0 || d.over(ctx) {
				break
			}
			x := d.dive(ctx, v)
			if x == nil || d.model.ValueOf(x) > d.most {
				continue
			}
			x = d.portioned(ctx, x, d.most)
			if now := d.weigh(x); now < value-scoreStep {
				best, value, better = slices.Clone(x[:len(d.model.Cols)]), now, true
				break
			}
		}
		if !better {
			break
		}
	}
	return best
}

// crumbTries is how many dives are tried for crumbs whatever the descent has left.
const crumbTries = 20

// crumbMoves lists what makes an end of each crumb: none, or a portion. What is a
// portion or nothing for others stays so.
func (d *descent) crumbMoves(x []float64) []*move {
	var decided move
	var crumbs []*move
	weight := 0.0
	for c := range d.crumb {
		weight = math.Max(weight, d.Cols[c].Cost)
	}
	for ei, e := range d.model.Eaters {
		for _, y := range e.Eats {
			if _, ok := d.eats[ei][y.Food]; !ok || !d.in[y.Food] {
				continue
			}
			least := d.leastOf(ei, y.Food)
			switch a := x[y.Col]; {
			case a <= model.Dust:
				decided.set(y.Col, 0, 0)
			case a >= least*(1-1e-7):
				decided.set(y.Col, math.Min(a, least), y.CapG)
			default:
				for _, ends := range [][2]float64{{0, 0}, {least, y.CapG}} {
					one := &move{food: -1, gain: weight * e.Count}
					one.set(y.Col, ends[0], ends[1])
					crumbs = append(crumbs, one)
				}
			}
		}
	}
	var list []*move
	for _, c := range crumbs {
		held := &move{food: -1, gain: c.gain}
		held.cols = slices.Concat(decided.cols, c.cols)
		held.lower = slices.Concat(decided.lower, c.lower)
		held.upper = slices.Concat(decided.upper, c.upper)
		list = append(list, held, c)
	}
	return list
}

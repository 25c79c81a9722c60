package aim

import (
	"context"
	"math"
)

// rounds lets moves and portions follow one another, each round from the best found,
// for less where that can be, until one betters nothing. Every point on the way is
// given to try, which says whether it is the best.
func (d *descent) rounds(ctx context.Context, try func(x []float64) bool) {
	most := d.most
	for round := range mostRounds {
		if round == 0 {
			d.most = math.Max(d.best+firstSlack*(most-d.best), d.model.ValueOf(d.x))
		}
		all := d.work
		d.work = d.lp.Spent + int64(float64(all-d.lp.Spent)*runPart)
		kept := all - d.work
		d.run(ctx)
		d.work += kept
		d.most = most
		best, better := d.x, try(d.x)
		if y := d.portions(ctx); try(y) {
			best, better = y, true
		}
		if better && !d.over(ctx) { // what is left of the slack, with the portions as they are
			d.begin(best, true)
			if d.run(ctx); try(d.x) {
				best = d.x
			}
		}
		if !better || d.over(ctx) {
			return
		}
		d.begin(d.cheaper(ctx, best, saveWork, false), false)
	}
}

package solver

import (
	"cmp"
	"context"
	"math"
	"slices"

	"rationwright/solver/simplex"
)

// Figures of the last tidying of a plan.
const (
	// morsel is the part of a day's most of a food up to which what a person eats of
	// it over all days is no dish: common practice, no source.
	morsel = 0.25
	// morselSlack is how much the value may rise for it, in parts of it: a hundred
	// thousandth, for the water and heat of what is eaten instead.
	morselSlack  = 1e-5
	morselRounds = 6
)

// withoutMorsels lets nobody eat a thousandth of a fish: with the packs as they are,
// it gives up what one person eats of a food where that is a morsel and the needs
// are met without it. x stays as it is where nothing can be given up.
func (r *Ration) withoutMorsels(ctx context.Context, x []float64) []float64 {
	if len(r.morsels(x)) == 0 {
		return x
	}
	p := r.copyProblem()
	r.fixPacks(p, x)
	in := make([]bool, len(r.larder))
	for j, info := range r.cols {
		if info.larder >= 0 && x[j] > dust {
			in[info.larder] = true
		}
	}
	q, err := r.newPriced(p, in)
	if err != nil {
		return x
	}
	most := r.valueOf(x)
	most += morselSlack * math.Abs(most)
	best := x
	without := func(cols ...int) bool {
		for _, j := range cols {
			q.relaxed.setBounds(j, 0, 0)
		}
		result := q.relaxed.solve(ctx)
		if result.Status == simplex.Optimal && r.valueOf(result.X) <= most {
			best = result.X
			return true
		}
		for _, j := range cols {
			q.relaxed.setBounds(j, p.Cols[j].Lower, p.Cols[j].Upper)
		}
		return false
	}
	needed := map[int]bool{} // cannot be given up
	for range morselRounds { // what is eaten instead may be a morsel too
		cols := slices.DeleteFunc(r.morsels(best), func(j int) bool { return needed[j] })
		if len(cols) == 0 || ctx.Err() != nil {
			break
		}
		if without(cols...) {
			continue
		}
		for _, j := range cols {
			needed[j] = !without(j)
		}
	}
	return r.packsOf(best, x)
}

// morsels lists the columns of what is eaten in morsels at x, the least first.
func (r *Ration) morsels(x []float64) []int {
	share := map[int]float64{} // of the most that is a morsel
	var cols []int
	for _, e := range r.eaters {
		for _, y := range e.eats {
			most := morsel * y.capG / r.days()
			if x[y.col] > dust && x[y.col] < most && !isFeed(&e.needs, r.larder[y.food].food) {
				share[y.col] = x[y.col] / most
				cols = append(cols, y.col)
			}
		}
	}
	slices.SortStableFunc(cols, func(a, b int) int { return cmp.Compare(share[a], share[b]) })
	return cols
}

// packsOf is point with the packs of x, to the last digit.
func (r *Ration) packsOf(point, x []float64) []float64 {
	out := slices.Clone(point[:len(r.cols)])
	for j := range out {
		if r.Problem.Cols[j].Integer {
			out[j] = math.Round(x[j])
		}
	}
	return out
}

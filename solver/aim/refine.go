package aim

import (
	"context"
	"math"

	"rationwright/solver/linear"
	"rationwright/solver/search"
)

// refine searches the program of the second aim by branch and cut among the foods that may
// be used, from the best found, nil for the point that the descent is at.
func (d *descent) refine(ctx context.Context, best []float64, work int64, try func(x []float64) bool) {
	if work = min(refineWork, int64(refinePart*float64(work))); work < refineLeast || ctx.Err() != nil {
		return
	}
	if best == nil {
		best = d.x
	}
	s := search.WithoutFixed(d.among(best))
	start := s.Restrict(d.point(best))
	if start == nil {
		return
	}
	found := search.Run(ctx, s.Problem, search.Options{Gap: refineGap, MinDenom: refineDenom, Work: work, Start: start})
	if found.X == nil {
		return
	}
	if y := wholePacks(d.model, s.Expand(found.X)); d.model.ValueOf(y) <= d.most {
		try(y)
	}
}

// among is the program without the foods that may not be used: they have no packs, and
// nobody eats them. Who is to have little sodium has no more than is kept.
func (d *descent) among(x []float64) *linear.Problem {
	q := d.Problem.Clone()
	none := func(j int) { q.Cols[j].Lower, q.Cols[j].Upper = 0, 0 }
	for li := range d.model.Larder {
		if d.in[li] {
			continue
		}
		for _, j := range d.model.ColumnsOf(li) {
			none(j)
		}
		if u := d.bought[li]; u >= 0 {
			none(u)
			for _, k := range d.model.Larder[li].Buy {
				none(d.sizes[li][k.Col])
			}
		}
		if e, ok := d.counts[li]; ok {
			none(e)
		}
		for ei := range d.eats {
			if z, ok := d.eats[ei][li]; ok {
				none(z)
				none(z + 1)
			}
		}
	}
	for _, r := range d.sodium {
		q.Rows[r.row].Upper = math.Max(math.Min(q.Rows[r.row].Upper, r.most), r.at(x))
	}
	return q
}

package search

import (
	"context"
	"math"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/simplex"
)

// FromPacks is a point of the model close to packs bought for another request: for
// the same people before a change, or for people like them. As many of each pack as
// feed these people, less some, are the least, and what is still missing is bought as
// cheaply as a dive finds it. It is nil where there is no such point, or where limits on
// sums of packs want another search.
func FromPacks(ctx context.Context, m *model.Model, basis *Basis, packs map[string]int) []float64 {
	if len(m.PackLimits(m.Problem)) > 0 {
		return nil
	}
	p := m.Problem.Clone()
	in := make([]bool, len(m.Larder))
	counts := make(map[int]float64)
	kcal := 0.0
	for li, lf := range m.Larder {
		for _, k := range lf.Buy {
			if n := packs[k.Pack.Key]; n > 0 {
				in[li] = true
				counts[k.Col] = float64(n)
				kcal += float64(n) * k.Usable * lf.Food.Per100g.Known(nutrients.Energy) / 100
			}
		}
	}
	scales := []float64{1}
	if kcal > 0 {
		if s := m.NeededKcal() / kcal; math.Abs(s-1) > likeSize {
			scales = append(scales, s)
		}
	}
	q, err := NewMaster(m, p, in)
	if err != nil {
		return nil
	}
	q.LP.startFrom(basis)
	best := q.exactly(ctx, counts)
	for _, scale := range scales {
		for _, less := range []float64{0, 1} {
			for j, n := range counts {
				upper := p.Cols[j].Upper
				q.LP.SetBounds(j, math.Min(upper, math.Max(0, math.Floor(n*scale)-less)), upper)
			}
			r := q.Solve(ctx)
			if r.Status != simplex.Optimal {
				return best
			}
			if best != nil && r.Value >= m.ValueOf(best) {
				continue
			}
			if x := q.LP.DiveUp(ctx); x != nil && (best == nil || m.ValueOf(x) < m.ValueOf(best)) {
				best = x
			}
		}
	}
	return best
}

// exactly is a point with the packs as they are, by column, and no others; nil where
// there is none.
func (q *Master) exactly(ctx context.Context, counts map[int]float64) []float64 {
	p := q.problem
	for j := range p.Cols {
		if n := counts[j]; p.Cols[j].Integer && q.Model.Cols[j].Kind == model.ColBuy && q.LP.colAt[j] >= 0 {
			n = math.Min(n, p.Cols[j].Upper)
			q.LP.SetBounds(j, n, n)
			defer q.LP.SetBounds(j, p.Cols[j].Lower, p.Cols[j].Upper)
		}
	}
	if q.LP.Solve(ctx).Status != simplex.Optimal {
		return nil
	}
	return q.LP.DiveUp(ctx)
}

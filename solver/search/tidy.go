package search

import (
	"context"
	"math"

	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/simplex"
)

// hardlyTouched is the part of a pack's usable content up to which the pack is hardly
// touched: what is eaten of it can come from elsewhere.
const hardlyTouched = 0.1

// atPacks is the relaxation of the program with the packs of x, from there.
func atPacks(m *model.Model, x []float64) (*Master, error) {
	p := m.Problem.Clone()
	m.FixPacks(p, x)
	in := make([]bool, len(m.Larder))
	for j, info := range m.Cols {
		if info.Larder >= 0 && x[j] > model.Dust {
			in[info.Larder] = true
		}
	}
	q, err := NewMaster(m, p, in)
	if err == nil {
		q.LP.StartAt(x)
	}
	return q, err
}

// Tidied takes away one pack of every food of which the last pack bought is hardly
// touched, where the needs are met without it at no higher value.
func Tidied(ctx context.Context, m *model.Model, x []float64) []float64 {
	q, err := atPacks(m, x)
	if err != nil {
		return x
	}
	best, value, basis := x, m.ValueOf(x), q.LP.Basis()
	for li, lf := range m.Larder {
		left := 0.0 // of the packs when all have eaten
		for _, k := range lf.Supply() {
			left += k.Usable * math.Round(best[k.Col])
		}
		for _, e := range m.Eaters {
			if y, ok := e.Eating(li); ok {
				left -= e.Count * y.SpareFactor * best[y.Col]
			}
		}
		for _, k := range lf.Buy {
			n := math.Round(best[k.Col])
			if n < 1 || left < (1-hardlyTouched)*k.Usable || ctx.Err() != nil {
				continue
			}
			q.LP.SetBounds(k.Col, n-1, n-1)
			if r := q.LP.SolveUpTo(ctx, value); r.Status == simplex.Optimal && m.ValueOf(r.X) <= value {
				best, value, basis = r.X, m.ValueOf(r.X), q.LP.Basis()
				break
			}
			q.LP.SetBounds(k.Col, n, n)
			q.LP.SetBasis(basis)
		}
	}
	return packsOf(m, best, best)
}

// Fill finds the best point of p, whose bought packs are fixed; nil when there
// is none.
func Fill(ctx context.Context, m *model.Model, p *linear.Problem) []float64 {
	s := WithoutFixed(p)
	result := Run(ctx, s.Problem, Options{Gap: fillGap, MinDenom: ration.SmallestStep(m.Request.Least), Work: fillWork})
	if result.X == nil {
		return nil
	}
	return s.Expand(result.X)
}

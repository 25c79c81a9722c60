package elastic

import (
	"context"
	"math"
	"slices"

	"rationwright/solver/model"
	"rationwright/solver/search"
)

// Loosen finds how little this program's own planning rules must give for a ration
// to fit, and returns the model with those of them loosened by that:
//
//	a_i x − u_i ≤ limit_i,   minimise Σ_i u_i / limit_i
//
// from is a point that keeps all but these rules, to begin with; it may be nil. ok is false
// where nothing fits even without them.
func Loosen(ctx context.Context, m *model.Model, from []float64) (loosened *model.Model, start []float64, ok bool) {
	p, from := m.Problem.Clone(), slices.Clone(from)
	p.ClearCosts()
	var reached []float64
	if from != nil {
		reached = m.Activities(from)
	}
	for i, info := range m.Rows {
		if info.Class != model.Planning {
			continue
		}
		row := p.Rows[i]
		if from != nil {
			from = append(from, math.Max(0, reached[i]-row.Upper))
		}
		whole := math.Max(row.Upper, info.PerDay)
		if info.Kind == model.RowKindShare {
			whole = info.Limit / 100 * m.Eaters[info.Eater].Needs.EER.Amount * info.PerDay
		}
		col := p.AddCol("over["+row.Name+"]", 1/whole, 0, model.Inf, false)
		p.Set(i, col, -1)
	}
	result := search.Run(ctx, p, search.Options{
		Gap: search.LoosenGap, MinDenom: search.ShortTolerance, Work: search.LoosenWork, Start: from,
	})
	if result.X == nil {
		return nil, nil, false
	}
	start = result.X[:len(m.Cols)]
	return m.Raised(m.Loosened(start)), start, true
}

package elastic

import (
	"context"
	"math"

	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// storedThorough is how much longer whole packs are sought for the least shortfall
// of a plan than for a ration that only shows what comes closest.
const storedThorough = 4

// RelaxStoredVitamins tries to make the program fit by giving up as little as
// possible of vitamins A, D and B12 alone. If that is enough, it lowers the
// floors to what can be reached, and says whose and how much; start is a point
// of the program then.
func RelaxStoredVitamins(ctx context.Context, m *model.Model) (shortfalls []ration.Shortfall, start []float64, ok bool) {
	e := New(m, model.RowInfo.Stored, false)
	if len(e.Rows) == 0 {
		return nil, nil, false
	}
	e.thorough = storedThorough
	point := e.least(ctx, [][]float64{e.Costs(func(model.RowInfo) bool { return true })})
	if point == nil {
		return nil, nil, false
	}
	for k, i := range e.Rows {
		short := point[e.Cols[k]]
		if short <= search.ShortTolerance*m.Problem.Rows[i].Lower {
			continue
		}
		info := m.Rows[i]
		target := m.Problem.Rows[i].Lower / info.PerDay
		m.Problem.Rows[i].Lower = math.Max(0, m.Problem.Rows[i].Lower-short*(1+search.ShortTolerance))
		shortfalls = append(shortfalls, ration.Shortfall{
			Person:   m.Eaters[info.Eater].Person.Name,
			Nutrient: info.Nutrient.Name(),
			Unit:     info.Unit,
			Amount:   m.Problem.Rows[i].Lower / info.PerDay,
			Target:   target,
		})
	}
	return shortfalls, point[:len(m.Cols)], len(shortfalls) > 0
}

package elastic

import (
	"context"
	"math"

	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// storedThorough is how much longer whole packs are sought for the least shortfall
// of a plan than for a ration that only shows what comes closest.
const storedThorough = 4

// EaseStoredVitamins tries to make the program fit by giving up as little as
// possible of vitamins A, D and B12 alone. If that is enough, eased has the floors
// lowered to what can be reached, shortfalls says whose and how much, and start is a
// point of eased; else eased is nil.
func EaseStoredVitamins(ctx context.Context, m *model.Model) (eased *model.Model, shortfalls []ration.Shortfall, start []float64) {
	e := New(m, model.RowInfo.Stored, false)
	if len(e.Rows) == 0 {
		return nil, nil, nil
	}
	e.thorough = storedThorough
	point := e.least(ctx, [][]float64{e.Costs(func(model.RowInfo) bool { return true })})
	if point == nil {
		return nil, nil, nil
	}
	eased = m.With(func(*linear.Problem) {})
	rows := eased.Problem.Rows
	for k, i := range e.Rows {
		short := point[e.Cols[k]]
		if short <= search.ShortTolerance*m.Problem.Rows[i].Lower {
			continue
		}
		info := m.Rows[i]
		target := m.Problem.Rows[i].Lower / info.PerDay
		rows[i].Lower = math.Max(0, rows[i].Lower-short*(1+search.ShortTolerance))
		shortfalls = append(shortfalls, ration.Shortfall{
			Person:   m.Eaters[info.Eater].Person.Name,
			Nutrient: info.Nutrient.Name(),
			Unit:     info.Unit,
			Amount:   rows[i].Lower / info.PerDay,
			Target:   target,
		})
	}
	if len(shortfalls) == 0 {
		return nil, nil, nil
	}
	return eased, shortfalls, point[:len(m.Cols)]
}

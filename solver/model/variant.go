package model

import (
	"math"

	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/ration"
)

// With is a variant of the model: the same rows and columns of the same request, with a
// program of its own in which change has set bounds and costs. A model that was built
// does not change.
func (m *Model) With(change func(p *linear.Problem)) *Model {
	variant := *m
	variant.Problem = m.Problem.Clone()
	change(variant.Problem)
	return &variant
}

// withRows is a variant in which change has set bounds of rows.
func (m *Model) withRows(change func(info RowInfo, row *linear.Row)) *Model {
	return m.With(func(p *linear.Problem) {
		for i, info := range m.Rows {
			change(info, &p.Rows[i])
		}
	})
}

// WithoutStoredVitamins frees the floors that a plan gives up by itself.
func WithoutStoredVitamins(m *Model) *Model {
	return m.withRows(func(info RowInfo, row *linear.Row) {
		if info.Stored() {
			row.Lower = math.Inf(-1)
		}
	})
}

// WithShortfalls lowers the floors of stored vitamins to what a plan with shortfalls
// gives.
func WithShortfalls(m *Model, short []ration.Shortfall) *Model {
	return m.withRows(func(info RowInfo, row *linear.Row) {
		for _, s := range short {
			if info.Stored() && info.Nutrient.Name() == s.Nutrient && m.Eaters[info.Eater].Person.Name == s.Person {
				row.Lower = math.Min(row.Lower, s.Amount*info.PerDay*(1-ration.CheckTolerance))
			}
		}
	})
}

// WithSodium has people, by their names, eat at most so many mg of sodium a day.
func WithSodium(m *Model, most map[string]float64) *Model {
	if len(most) == 0 {
		return m
	}
	return m.withRows(func(info RowInfo, row *linear.Row) {
		if info.Kind != RowNutrient || info.Nutrient != nutrients.Sodium {
			return
		}
		if mg, ok := most[m.Eaters[info.Eater].Person.Name]; ok {
			row.Upper = math.Min(row.Upper, mg*info.PerDay)
		}
	})
}

// WithoutPlanningLimits leaves the planning rules of this program open; what they bar stays
// barred.
func WithoutPlanningLimits(m *Model) *Model {
	return m.withRows(func(info RowInfo, row *linear.Row) {
		if info.Class == Planning {
			row.Lower, row.Upper = math.Inf(-1), Inf
		}
	})
}

// WithStoredOf takes the floors of stored vitamins over from a model of the same
// people.
func WithStoredOf(m, from *Model) *Model {
	return m.withRows(func(info RowInfo, row *linear.Row) {
		for k, other := range from.Rows {
			if info.Stored() && other.Stored() && info.Nutrient == other.Nutrient && info.Eater == other.Eater {
				row.Lower = from.Problem.Rows[k].Lower
			}
		}
	})
}

// WithMoreWater has so many litres of water stored beyond what the foods take, for
// dishes.
func WithMoreWater(m *Model, litres float64) *Model {
	return m.withRows(func(info RowInfo, row *linear.Row) {
		if info.Kind == RowAllWater {
			row.Lower += litres
		}
	})
}

// WithShelves has the shelves hold boxL litres of boxes and kg.
func WithShelves(m *Model, boxL, kg float64) *Model {
	return m.withRows(func(info RowInfo, row *linear.Row) {
		switch info.On {
		case OnShelfRoom:
			row.Upper = boxL
		case OnShelfLoad:
			row.Upper = kg
		}
	})
}

// WithoutLimit leaves the upper end of a row open.
func WithoutLimit(m *Model, row int) *Model {
	return m.With(func(p *linear.Problem) { p.Rows[row].Upper = Inf })
}

// AimedAtLimit makes least what a limit limits.
func AimedAtLimit(m *Model, info RowInfo) *Model {
	col := m.Water
	if info.On == OnHeat {
		col = m.Heat
	}
	return m.With(func(p *linear.Problem) {
		for j := range p.Cols {
			switch c := &p.Cols[j]; {
			case info.Total != "" && j < len(m.Cols):
				c.Cost = m.Coefficient(j, info.Total)
			case info.Total == "" && j == col:
				c.Cost = 1
			default:
				c.Cost = 0
			}
		}
	})
}

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
	variant.Problem = m.CopyProblem()
	change(variant.Problem)
	return &variant
}

// WithoutStoredVitamins frees the floors that a plan gives up by itself.
func WithoutStoredVitamins(m *Model) *Model {
	return m.With(func(p *linear.Problem) {
		for i, info := range m.Rows {
			if info.Stored() {
				p.Rows[i].Lower = math.Inf(-1)
			}
		}
	})
}

// WithShortfalls lowers the floors of stored vitamins to what a plan with shortfalls
// gives.
func WithShortfalls(m *Model, short []ration.Shortfall) *Model {
	return m.With(func(p *linear.Problem) {
		for i, info := range m.Rows {
			for _, s := range short {
				if info.Stored() && info.Nutrient.Name() == s.Nutrient && m.Eaters[info.Eater].Person.Name == s.Person {
					p.Rows[i].Lower = math.Min(p.Rows[i].Lower, s.Amount*info.PerDay*(1-ration.CheckTolerance))
				}
			}
		}
	})
}

// WithSodium has people, by their names, eat at most so many mg of sodium a day.
func WithSodium(m *Model, most map[string]float64) *Model {
	if len(most) == 0 {
		return m
	}
	return m.With(func(p *linear.Problem) {
		for i, info := range m.Rows {
			if info.Kind != RowNutrient || !info.IsOf(nutrients.Sodium) {
				continue
			}
			if mg, ok := most[m.Eaters[info.Eater].Person.Name]; ok {
				p.Rows[i].Upper = math.Min(p.Rows[i].Upper, mg*info.PerDay)
			}
		}
	})
}

// WithoutPlanningLimits leaves the planning rules of this program open; what they bar stays
// barred.
func WithoutPlanningLimits(m *Model) *Model {
	return m.With(func(p *linear.Problem) {
		for i, info := range m.Rows {
			if info.Class == Planning {
				p.Rows[i].Lower, p.Rows[i].Upper = math.Inf(-1), Inf
			}
		}
	})
}

// WithStoredOf takes the floors of stored vitamins over from a model of the same
// people.
func WithStoredOf(m, from *Model) *Model {
	return m.With(func(p *linear.Problem) {
		for i, info := range m.Rows {
			for k, other := range from.Rows {
				if info.Stored() && other.Stored() && info.Nutrient == other.Nutrient && info.Eater == other.Eater {
					p.Rows[i].Lower = from.Problem.Rows[k].Lower
				}
			}
		}
	})
}

// WithMoreWater has so many litres of water stored beyond what the foods take, for
// dishes.
func WithMoreWater(m *Model, litres float64) *Model {
	return m.With(func(p *linear.Problem) {
		for i, info := range m.Rows {
			if info.Kind == RowAllWater {
				p.Rows[i].Lower += litres
			}
		}
	})
}

// WithShelves has the shelves hold boxL litres of boxes and kg.
func WithShelves(m *Model, boxL, kg float64) *Model {
	return m.With(func(p *linear.Problem) {
		for i, info := range m.Rows {
			switch info.On {
			case OnShelfRoom:
				p.Rows[i].Upper = boxL
			case OnShelfLoad:
				p.Rows[i].Upper = kg
			}
		}
	})
}

// WithoutLimit leaves the upper end of a row open.
func WithoutLimit(m *Model, row int) *Model {
	return m.With(func(p *linear.Problem) { p.Rows[row].Upper = Inf })
}

// AimedAtLimit makes least what a limit limits.
func AimedAtLimit(m *Model, info RowInfo) *Model {
	if info.Total != "" {
		return m.With(func(p *linear.Problem) {
			for j := range p.Cols {
				p.Cols[j].Cost = 0
				if j < len(m.Cols) {
					p.Cols[j].Cost = m.Coefficient(j, info.Total)
				}
			}
		})
	}
	col := m.Water
	if info.On == OnHeat {
		col = m.Heat
	}
	return m.With(func(p *linear.Problem) {
		for j := range p.Cols {
			p.Cols[j].Cost = 0
		}
		p.Cols[col].Cost = 1
	})
}

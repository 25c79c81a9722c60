package model

import (
	"fmt"
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// AllowanceText names the usual allowance of drinking water a head.
const AllowanceText = "the usual water allowance"

// addLimitRows adds the user's own limits on the whole store.
func addLimitRows(m *Model) {
	limits := m.Request.Limits
	addTotalRow(m, "budget", "budget", m.Currency(), limits.Budget, ration.LeastCost)
	addTotalRow(m, "max-weight", "weight", "kg", limits.WeightKg, ration.LeastWeight)
	addTotalRow(m, "max-litres", "shelf space", "L", limits.VolumeL, ration.LeastVolume)
	addColumnLimit(m, "max-water", "stored water", "L", limits.WaterL, m.Water)
	addColumnLimit(m, "max-heat", "heat for cooking", "MJ", limits.HeatMJ, m.Heat)
	addShelfRows(m)
	if m.Request.Allowance {
		row := m.addRow("water-allowance", rules.AllowanceL(m.Request), Inf, RowInfo{
			Kind: RowLimit, Class: UserLimit, Eater: -1, Text: AllowanceText, Unit: "L", PerDay: 1,
			source: "common practice, no source",
		})
		m.Problem.Set(row, m.Water, 1)
	}
}

func addTotalRow(m *Model, name, text, unit string, most *float64, total ration.Least) {
	if most == nil {
		return
	}
	row := m.addRow(name, math.Inf(-1), *most, RowInfo{
		Kind: RowLimit, Class: UserLimit, Eater: -1, Text: text, Unit: unit, Total: total, PerDay: 1,
	})
	for j := range m.Cols {
		m.Problem.Set(row, j, m.Coefficient(j, total))
	}
}

func addColumnLimit(m *Model, name, text, unit string, most *float64, col int) {
	if most == nil {
		return
	}
	row := m.addRow(name, math.Inf(-1), *most, RowInfo{
		Kind: RowLimit, Class: UserLimit, Eater: -1, Text: text, Unit: unit, PerDay: 1,
	})
	m.Problem.Set(row, col, 1)
}

// Currency is that of the table's prices.
func (m *Model) Currency() string {
	for _, k := range m.Request.Table.Packs {
		if k.Currency != "" {
			return k.Currency
		}
	}
	return ""
}

// addWishRows adds the household file's own amounts of foods: most FOOD, least
// FOOD. They are the user's locks.
func addWishRows(m *Model) {
	for ei, e := range m.Eaters {
		for _, w := range e.Wishes.Most {
			addWishRow(m, ei, e, w, math.Inf(-1), w.GramsPerDay*m.Days())
		}
		for _, w := range e.Wishes.Least {
			addWishRow(m, ei, e, w, w.GramsPerDay*m.Days(), Inf)
		}
	}
}

func addWishRow(m *Model, ei int, e *Eater, w foods.Portion, lower, upper float64) {
	row := m.addRow(fmt.Sprintf("rule-%s[%s]", w.Text, e.Person.Name), lower, upper, RowInfo{
		Kind: RowUser, Class: UserLimit, Eater: ei, Text: "rule: " + w.Text, Unit: "g", PerDay: m.Days(),
		source: "household file",
	})
	for _, y := range e.Eats {
		if slices.Contains(w.Foods, m.Larder[y.Food].Food) {
			m.Problem.Set(row, y.Col, 1)
		}
	}
}

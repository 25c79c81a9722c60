package model

import (
	"fmt"
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// LimitOn is what a limit on the whole store limits.
type LimitOn int

// What limits are on.
const (
	OnNothing LimitOn = iota // no limit on the store
	OnBudget
	OnWeight
	OnVolume
	OnWater
	OnHeat
	OnAllowance // least water
	OnShelfRoom
	OnShelfLoad
	OnShelfSize // packs that stand on none
)

// IsShelf reports whether shelves bring the limit.
func (on LimitOn) IsShelf() bool { return on == OnShelfRoom || on == OnShelfLoad || on == OnShelfSize }

// addLimitRows adds the user's own limits on the whole store.
func addLimitRows(m *Model) {
	limits := m.Request.Limits
	addTotalRow(m, OnBudget, "budget", "budget", m.Currency(), limits.Budget, ration.LeastCost)
	addTotalRow(m, OnWeight, "max-weight", "weight", "kg", limits.WeightKg, ration.LeastWeight)
	addTotalRow(m, OnVolume, "max-litres", "shelf space", "L", limits.VolumeL, ration.LeastVolume)
	addColumnLimit(m, OnWater, "max-water", "stored water", "L", limits.WaterL, m.Water)
	addColumnLimit(m, OnHeat, "max-heat", "heat for cooking", "MJ", limits.HeatMJ, m.Heat)
	addShelfRows(m)
	if m.Request.Allowance {
		row := m.addRow("water-allowance", rules.AllowanceL(m.Request), Inf, RowInfo{
			Kind: RowLimit, Class: UserLimit, Eater: -1, On: OnAllowance, Text: "the usual water allowance", Unit: "L", PerDay: 1,
			source: "common practice, no source",
		})
		m.Problem.Set(row, m.Water, 1)
	}
}

func addTotalRow(m *Model, on LimitOn, name, text, unit string, most *float64, total ration.Least) {
	if most == nil {
		return
	}
	row := m.addRow(name, math.Inf(-1), *most, RowInfo{
		Kind: RowLimit, Class: UserLimit, Eater: -1, On: on, Text: text, Unit: unit, Total: total, PerDay: 1,
	})
	for j := range m.Cols {
		m.Problem.Set(row, j, m.Coefficient(j, total))
	}
}

func addColumnLimit(m *Model, on LimitOn, name, text, unit string, most *float64, col int) {
	if most == nil {
		return
	}
	row := m.addRow(name, math.Inf(-1), *most, RowInfo{
		Kind: RowLimit, Class: UserLimit, Eater: -1, On: on, Text: text, Unit: unit, PerDay: 1,
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
		Kind: RowUser, Class: UserLimit, Eater: ei, Of: w.Text, Text: "rule: " + w.Text, Unit: "g", PerDay: m.Days(),
		source: "household file",
	})
	for _, y := range e.Eats {
		if slices.Contains(w.Foods, m.Larder[y.Food].Food) {
			m.Problem.Set(row, y.Col, 1)
		}
	}
}

package model

import (
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
	addLimitRow(m, OnBudget, "budget", "budget", m.Currency(), limits.Budget, ration.LeastCost, -1)
	addLimitRow(m, OnWeight, "max-weight", "weight", "kg", limits.WeightKg, ration.LeastWeight, -1)
	addLimitRow(m, OnVolume, "max-litres", "shelf space", "L", limits.VolumeL, ration.LeastVolume, -1)
	addLimitRow(m, OnWater, "max-water", "stored water", "L", limits.WaterL, "", m.Water)
	addLimitRow(m, OnHeat, "max-heat", "heat for cooking", "MJ", limits.HeatMJ, "", m.Heat)
	addShelfRows(m)
	if m.Request.Allowance { // common practice, no source
		row := m.addRow("water-allowance", rules.AllowanceL(m.Request), Inf, RowInfo{
			Kind: RowLimit, Class: UserLimit, Eater: -1, On: OnAllowance, Text: "the usual water allowance", Unit: "L", PerDay: 1,
		})
		m.Problem.Set(row, m.Water, 1)
	}
}

// addLimitRow limits a total of packs, or where that is "" a column.
func addLimitRow(m *Model, on LimitOn, name, text, unit string, most *float64, total ration.Least, col int) {
	if most == nil {
		return
	}
	row := m.addRow(name, math.Inf(-1), *most, RowInfo{
		Kind: RowLimit, Class: UserLimit, Eater: -1, On: on, Text: text, Unit: unit, Total: total, PerDay: 1,
	})
	if total == "" {
		m.Problem.Set(row, col, 1)
		return
	}
	for j := range m.Cols {
		m.Problem.Set(row, j, m.Coefficient(j, total))
	}
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
			addWishRow(m, ei, w, math.Inf(-1), w.GramsPerDay*m.Days())
		}
		for _, w := range e.Wishes.Least {
			addWishRow(m, ei, w, w.GramsPerDay*m.Days(), Inf)
		}
	}
}

func addWishRow(m *Model, ei int, w foods.Portion, lower, upper float64) {
	m.addEatenRow(ei, "rule-"+w.Text, lower, upper, RowInfo{
		Kind: RowUser, Class: UserLimit, Of: w.Text, Text: "rule: " + w.Text, Unit: "g",
	}, only(func(f *foods.Food) bool { return slices.Contains(w.Foods, f) }, gram))
}

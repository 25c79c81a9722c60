package model

import (
	"fmt"
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// addSupplyRows makes the columns of stored water and heat, and their rows:
//
//	d_p + Σ_f (moisture_f + water eaten_f) y_pf ≥ D·AI_p
//	k_p ≥ d_p, k_p ≥ D·published least                  water kept for p to drink
//	w − 1.1 (Σ_p n_p k_p + Σ n_p preparation_f y_pf) ≥ D·hygiene·heads + pets + refused
//	h − Σ n_p heat_f y_pf (− boiling of drinking water) ≥ 0
//
// k_p is d_p itself where nothing is published for p.
func addSupplyRows(m *Model) {
	m.Water = m.addCol("water", 0, Inf, false, colInfo{Kind: colWater, Eater: -1, Larder: -1})
	m.Heat = m.addCol("heat", 0, Inf, false, colInfo{Kind: colHeat, Eater: -1, Larder: -1})
	for ei, e := range m.Eaters {
		if e.Drink < 0 {
			continue
		}
		row := m.addEatenRow(ei, "water", m.Days()*rules.TotalWaterL(m.Request, &e.Needs.Water), Inf, RowInfo{
			Kind: RowWater, Class: Requirement, Nutrient: nutrients.Water,
			Text: "water in food and drink", Unit: "L",
		}, rules.WaterEatenLPerG)
		m.Problem.Set(row, e.Drink, 1)
	}
	addOwnSupply(m, "own-water", m.Request.StockWaterL, m.Water, colOwnWater)
	addOwnSupply(m, "own-heat", m.Request.StockHeatMJ, m.Heat, colOwnHeat)
	stored := m.addRow("water-stored", fixedWaterL(m), Inf, RowInfo{
		Kind: RowAllWater, Class: Structural, Eater: -1, Text: "stored water", Unit: "L", PerDay: 1,
	})
	heat := m.addRow("heat-used", 0, Inf, RowInfo{
		Kind: RowHeat, Class: Structural, Eater: -1, Text: "useful heat", Unit: "MJ", PerDay: 1,
	})
	m.Problem.Set(stored, m.Water, 1)
	m.Problem.Set(heat, m.Heat, 1)
	spare := rules.WaterFigure().SpillFactor
	for ei, e := range m.Eaters {
		if e.Drink >= 0 {
			m.Problem.Set(stored, keptColumn(m, ei, e), -spare*e.Count)
			if m.Request.BoilWater {
				m.Problem.Set(heat, e.Drink, -e.Count*rules.WaterFigure().BoilMJ)
			}
		}
		for _, y := range e.Eats {
			f := m.Larder[y.Food].Food
			m.Problem.Set(stored, y.Col, -spare*e.Count*y.SpareFactor*rules.WaterTakenLPerG(f))
			m.Problem.Set(heat, y.Col, -e.Count*y.SpareFactor*m.heatMJPerG(f))
		}
	}
}

// keptColumn returns the column of the water kept for e to drink: what e drinks,
// or a column of its own where a least amount is published.
func keptColumn(m *Model, ei int, e *Eater) int {
	least := rules.KeptDrinkL(m.Request, &e.Person, 0, false)
	if least <= 0 {
		return e.Drink
	}
	kept := m.addCol(fmt.Sprintf("kept[%s]", e.Person.Name), least*m.Days(), Inf, false,
		colInfo{Kind: colKept, Eater: ei, Larder: -1})
	row := m.addRow(fmt.Sprintf("kept[%s]", e.Person.Name), 0, Inf, RowInfo{
		Kind: rowStored, Class: Structural, Eater: ei, Text: "water kept to drink", Unit: "L", PerDay: m.Days(),
	})
	m.Problem.Set(row, kept, 1)
	m.Problem.Set(row, e.Drink, -1)
	return kept
}

// addOwnSupply makes the column of how much of a supply is on hand already, at
// no cost:
//
//	o ≤ on hand,  o − total ≤ 0
func addOwnSupply(m *Model, name string, onHand *float64, total int, kind colKind) {
	if onHand == nil || *onHand <= 0 {
		return
	}
	own := m.addCol(name, 0, *onHand, false, colInfo{Kind: kind, Eater: -1, Larder: -1})
	row := m.addRow(name+"-used", math.Inf(-1), 0, RowInfo{
		Kind: rowStored, Class: Structural, Eater: -1, Text: ration.Spaced(name), PerDay: 1,
	})
	m.Problem.Set(row, own, 1)
	m.Problem.Set(row, total, -1)
}

// fixedWaterL is the stored water that no food changes: hygiene for every head,
// pets, what is kept for infants who are ill, and the drinking of those whose
// food a clinician plans.
func fixedWaterL(m *Model) float64 {
	w := rules.WaterFigure()
	litres := float64(m.Request.Pets) * w.PetL * m.Days()
	for _, e := range m.Eaters {
		perDay := rules.WashingL(m.Request)
		if e.Drink < 0 {
			perDay += w.SpillFactor * rules.KeptDrinkL(m.Request, &e.Person, 0, false)
		}
		litres += e.Count * perDay * m.Days()
	}
	for _, e := range m.Refused {
		kept := rules.KeptDrinkL(m.Request, &e.Person, rules.RefusedDrinkL(m.Request, &e.Needs), true)
		litres += e.Count * (rules.WashingL(m.Request) + w.SpillFactor*kept) * m.Days()
	}
	return litres
}

// WashingL is the part of the stored water that is for washing hands and dishes.
func (m *Model) WashingL() float64 {
	heads := 0.0
	for _, e := range slices.Concat(m.Eaters, m.Refused) {
		heads += e.Count
	}
	return heads * rules.WashingL(m.Request) * m.Days()
}

// heatMJPerG is the useful heat that preparing a gram of f takes; a food that
// is safe cold takes none where the household does not cook.
func (m *Model) heatMJPerG(f *foods.Food) float64 {
	if f.Preparation == nil || rules.EatenCold(m.Request, f) {
		return 0
	}
	return f.Preparation.HeatMJ / 100
}

package model

import (
	"math"

	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// addFluidRows holds the fluid of those for whom a clinician orders it: what is
// drunk together with the water of food that is liquid.
//
//	D·ordered ≤ d_p + Σ_f fluid_f y_pf ≤ D·ordered
//
// The least that the program itself asks for is a row of its own: it may fall
// short in the closest ration.
func addFluidRows(m *Model) {
	for ei, e := range m.Eaters {
		if w := &e.Needs.Water; e.Drink >= 0 && w.ByFluid() {
			if w.Most != nil {
				addFluidRow(m, ei, e, w.Most, math.Inf(-1), w.Most.Amount)
			}
			if w.Drinks != nil {
				addFluidRow(m, ei, e, w.Drinks, rules.LeastDrinksL(m.Request, w), Inf)
			}
		}
	}
}

func addFluidRow(m *Model, ei int, e *Eater, by *nutrients.Limit, lower, upper float64) {
	name, info := "fluid", RowInfo{
		Kind: RowFluid, Class: Requirement, Nutrient: nutrients.Water,
		Text: "drinks, with milk, juice and soup", Unit: "L",
	}
	if by.Ordered() {
		name, info = "ordered-fluid", info.ordered(&e.Person, upper < Inf)
	}
	if upper < Inf {
		name += "-at-most"
	}
	row := m.addEatenRow(ei, name, lower*m.Days(), upper*m.Days(), info, rules.FluidLPerG)
	m.Problem.Set(row, e.Drink, 1)
}

// ordered makes info that of a clinician's order. A ceiling is a safety row. A
// floor is never given up in a plan either; only the ration that comes closest,
// where nothing fits, says by how much it is missed.
func (info RowInfo) ordered(p *nutrients.Person, ceiling bool) RowInfo {
	info.Ordered = true
	info.MayPass = false
	info.Text = ration.OrderText(p.Orders.By, p.Orders.On, info.Text)
	if ceiling {
		info.Class = Safety
	}
	return info
}

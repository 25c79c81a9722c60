package model

import "rationwright/solver/rules"

// addGlycaemicRows prefers staples of low glycaemic index for people with
// diabetes, where they may eat any. Planning default (common practice, no source):
//
//	Σ_{low} serves_f y_pf ≥ share Σ_f serves_f y_pf   over grains
func addGlycaemicRows(m *Model) {
	for ei, e := range m.Eaters {
		if !rules.HasDiabetes(&e.Person) {
			continue
		}
		if !rules.AnyLowGI(m.OpenTo(e)) {
			m.Notes = append(m.Notes, e.Person.Name+": no grain of low glycaemic index can be had")
			continue
		}
		m.addEatenRow(ei, "low-gi", 0, Inf, RowInfo{
			Kind: RowGlycaemic, Class: Requirement, Text: "half of the grains of low glycaemic index", Unit: "oz-eq",
		}, rules.LowGIWeight)
	}
}

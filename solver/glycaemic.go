package solver

import (
	"fmt"

	"rationwright/foods"
	"rationwright/nutrients"
)

// lowGIShare is the least part of a person's grain servings that come from
// foods of low glycaemic index, for people with diabetes: planning default,
// common practice, no source. The class is low at an index of 55 or less
// (Atkinson et al. 2008, Diabetes Care 31:2281; international tables).
const lowGIShare = 0.5

// hasDiabetes reports whether the rules for diabetes apply.
func hasDiabetes(p *nutrients.Person) bool {
	return p.Has(nutrients.Diabetes1) || p.Has(nutrients.Diabetes2) ||
		p.Has(nutrients.Diabetes2Diet) || p.Has(nutrients.DiabetesPregnancy)
}

// lowGIWeight is what a gram of f counts in the row of [Ration.addGlycaemicRows]:
// its grain servings, less the share that must be of low glycaemic index. A
// food whose index is not known counts as not low.
func lowGIWeight(f *foods.Food) float64 {
	servings := f.PerGram("grains")
	if f.GIClass == "low" {
		return servings * (1 - lowGIShare)
	}
	return -servings * lowGIShare
}

// addGlycaemicRows prefers staples of low glycaemic index for people with
// diabetes, where they may eat any:
//
//	Σ_{low} serves_f y_pf ≥ share Σ_f serves_f y_pf   over grains
func (r *Ration) addGlycaemicRows() {
	for ei, e := range r.eaters {
		if !hasDiabetes(&e.person) {
			continue
		}
		if !anyLowGI(r.open(e)) {
			r.notes = append(r.notes, e.person.Name+": no grain of low glycaemic index can be had")
			continue
		}
		row := r.addRow(fmt.Sprintf("low-gi[%s]", e.person.Name), 0, inf, rowInfo{
			kind: rowGlycaemic, class: requirement, eater: ei,
			text: "half of the grains of low glycaemic index", unit: "oz-eq", perDay: r.days(),
			source: "planning default (common practice, no source)",
		})
		for _, y := range e.eats {
			r.Problem.Set(row, y.col, lowGIWeight(r.larder[y.food].food))
		}
	}
}

// anyLowGI reports whether one of the foods is a grain of low glycaemic index.
func anyLowGI(list []*foods.Food) bool {
	for _, f := range list {
		if lowGIWeight(f) > 0 {
			return true
		}
	}
	return false
}

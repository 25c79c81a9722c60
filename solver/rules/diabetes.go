package rules

import (
	"slices"

	"rationwright/foods"
	"rationwright/nutrients"
)

// lowGIShare is the least part of a person's grain servings that come from
// foods of low glycaemic index, for people with diabetes: planning default,
// common practice, no source. The class is low at an index of 55 or less
// (Atkinson et al. 2008, Diabetes Care 31:2281; international tables).
const lowGIShare = 0.5

// HasDiabetes reports whether the rules for diabetes apply.
func HasDiabetes(p *nutrients.Person) bool {
	return p.Has(nutrients.Diabetes1) || p.Has(nutrients.Diabetes2) ||
		p.Has(nutrients.Diabetes2Diet) || p.Has(nutrients.DiabetesPregnancy)
}

// LowGIWeight is what a gram of f counts in the row of [Ration.addGlycaemicRows]:
// its grain servings, less the share that must be of low glycaemic index. A
// food whose index is not known counts as not low.
func LowGIWeight(f *foods.Food) float64 {
	servings := f.PerGram("grains")
	if f.GIClass == "low" {
		return servings * (1 - lowGIShare)
	}
	return -servings * lowGIShare
}

// AnyLowGI reports whether one of the foods is a grain of low glycaemic index.
func AnyLowGI(list []*foods.Food) bool {
	return slices.ContainsFunc(list, func(f *foods.Food) bool { return LowGIWeight(f) > 0 })
}

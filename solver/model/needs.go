package model

import (
	"fmt"
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// addNeedRows holds each enforced nutrient between its floor and its ceiling:
//
//	D·min_pn ≤ Σ_f a_nf y_pf ≤ D·max_pn
//
// An unknown content counts nothing here; against a ceiling the plan's output
// says that it is unknown.
func addNeedRows(m *Model) {
	for ei, e := range m.Eaters {
		if e.Needs.Feed != nil && e.Needs.Feed.Only {
			continue
		}
		for _, need := range e.Needs.List {
			if need.Shown || (need.Floor == nil && need.Ceiling == nil) {
				continue
			}
			addNeedRow(m, ei, e, need)
		}
	}
}

// addNeedRow adds the row of a need. Each end that a clinician ordered is a row
// of its own: nothing relaxes it.
func addNeedRow(m *Model, ei int, e *Eater, need nutrients.Need) {
	info := RowInfo{
		Kind: RowNutrient, Class: Requirement, Nutrient: need.Nutrient,
		Text: ration.PlainName(need.Nutrient), Unit: need.Nutrient.Unit(),
	}
	if need.Nutrient == nutrients.Retinol {
		info.Class = Safety
	}
	add := func(name string, lower, upper float64, info RowInfo) {
		m.addEatenRow(ei, name, lower*m.Days(), upper*m.Days(), info, perGram(need.Nutrient))
	}
	lower, upper := math.Inf(-1), math.Inf(1)
	if top := need.Ceiling; top != nil {
		if top.Ordered() {
			add("ordered-"+need.Nutrient.Name()+"-at-most", lower, top.Amount, info.ordered(&e.Person, true))
		} else {
			upper = top.Amount
			info.MayPass = top.Kind == "CDRR" && !slices.Contains(e.Person.Conditions, nutrients.LowSodium)
		}
	}
	if low := need.Floor; low != nil {
		if low.Ordered() {
			add("ordered-"+need.Nutrient.Name(), low.Amount, math.Inf(1), info.ordered(&e.Person, false))
		} else {
			lower = low.Amount
		}
	}
	if !math.IsInf(lower, -1) || !math.IsInf(upper, 1) {
		add(need.Nutrient.Name(), lower, upper, info)
	}
}

// perGram is the known content of n in one gram of a food.
func perGram(n nutrients.Nutrient) func(f *foods.Food) float64 {
	return func(f *foods.Food) float64 { return f.Per100g.Known(n) / 100 }
}

// addShareRows holds the energy from a nutrient within a share of the energy
// eaten:
//
//	Σ_f (F a_nf − s·kcal_f) y_pf ≤ 0   and   ≥ 0 for the lower end
//
// with F the general Atwater factor, 4 or 9 kcal/g.
func addShareRows(m *Model) {
	for ei, e := range m.Eaters {
		if e.Needs.Feed != nil && e.Needs.Feed.Only {
			continue
		}
		for _, share := range e.Needs.Shares {
			addShareRow(m, ei, share, share.Min, true)
			addShareRow(m, ei, share, share.Max, false)
		}
	}
}

func addShareRow(m *Model, ei int, share nutrients.Share, end *nutrients.Limit, atLeast bool) {
	if end == nil {
		return
	}
	lower, upper, word := math.Inf(-1), 0.0, "at-most"
	if atLeast {
		lower, upper, word = 0, math.Inf(1), "at-least"
	}
	of, kcal := perGram(share.Nutrient), perGram(nutrients.Energy)
	m.addEatenRow(ei, fmt.Sprintf("%s-share-%s", share.Nutrient, word), lower, upper, RowInfo{
		Kind: RowShare, Class: Requirement, Nutrient: share.Nutrient,
		Text: fmt.Sprintf("%s %s %g %% of energy", ration.PlainName(share.Nutrient), ration.Spaced(word), end.Amount),
		Unit: "kcal",
	}, func(f *foods.Food) float64 { return share.KcalPerG*of(f) - end.Amount/100*kcal(f) })
}

// NeededKcal is the least energy that all eat over the horizon.
func (m *Model) NeededKcal() float64 {
	total := 0.0
	for i, info := range m.Rows {
		if info.Kind == RowNutrient && info.Nutrient == nutrients.Energy && m.Problem.Rows[i].Lower > 0 {
			total += m.Eaters[info.Eater].Count * m.Problem.Rows[i].Lower
		}
	}
	return total
}

// storedVitamins are those that the body stores for longer than a fortnight
// (vitamins A, D and B12; requirements' notes, compiler's note).
var storedVitamins = []nutrients.Nutrient{nutrients.VitaminA, nutrients.VitaminD, nutrients.VitaminB12}

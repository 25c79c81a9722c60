package solver

import (
	"fmt"
	"math"
	"slices"

	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// addNeedRows holds each enforced nutrient between its floor and its ceiling:
//
//	D·min_pn ≤ Σ_f a_nf y_pf ≤ D·max_pn
//
// An unknown content counts nothing here; against a ceiling the plan's output
// says that it is unknown.
func (r *Ration) addNeedRows() {
	for ei, e := range r.eaters {
		if e.needs.Feed != nil && e.needs.Feed.Only {
			continue
		}
		for _, need := range e.needs.List {
			if need.Shown || (need.Floor == nil && need.Ceiling == nil) {
				continue
			}
			lower, upper := math.Inf(-1), math.Inf(1)
			source := ""
			if need.Ceiling != nil {
				upper = need.Ceiling.Amount * r.days()
				source = need.Ceiling.Source
			}
			if need.Floor != nil {
				lower = need.Floor.Amount * r.days()
				source = need.Floor.Source
			}
			kind := requirement
			if need.Nutrient == nutrients.Retinol {
				kind = safety
			}
			row := r.addRow(fmt.Sprintf("%s[%s]", need.Nutrient, e.person.Name), lower, upper, rowInfo{
				kind: rowNutrient, class: kind, eater: ei, nutrient: need.Nutrient,
				text: ration.PlainName(need.Nutrient), unit: need.Nutrient.Unit(), perDay: r.days(), source: source,
				mayPass: need.Ceiling != nil && need.Ceiling.Kind == "CDRR" && !slices.Contains(e.person.Conditions, nutrients.LowSodium),
			})
			for _, y := range e.eats {
				r.Problem.Set(row, y.col, r.perGram(y, need.Nutrient))
			}
		}
	}
}

// perGram returns the known content of n in one gram of the food of y.
func (r *Ration) perGram(y eatCol, n nutrients.Nutrient) float64 {
	return r.larder[y.food].food.Per100g.Known(n) / 100
}

// addShareRows holds the energy from a nutrient within a share of the energy
// eaten:
//
//	Σ_f (F a_nf − s·kcal_f) y_pf ≤ 0   and   ≥ 0 for the lower end
//
// with F the general Atwater factor, 4 or 9 kcal/g.
func (r *Ration) addShareRows() {
	for ei, e := range r.eaters {
		if e.needs.Feed != nil && e.needs.Feed.Only {
			continue
		}
		for _, share := range e.needs.Shares {
			r.addShareRow(ei, e, share, share.Min, true)
			r.addShareRow(ei, e, share, share.Max, false)
		}
	}
}

func (r *Ration) addShareRow(ei int, e *eater, share nutrients.Share, end *nutrients.Limit, atLeast bool) {
	if end == nil {
		return
	}
	lower, upper, word := math.Inf(-1), 0.0, "at-most"
	if atLeast {
		lower, upper, word = 0, math.Inf(1), "at-least"
	}
	row := r.addRow(fmt.Sprintf("%s-share-%s[%s]", share.Nutrient, word, e.person.Name), lower, upper, rowInfo{
		kind: rowShare, class: requirement, eater: ei, nutrient: share.Nutrient,
		text:   fmt.Sprintf("%s %s %g %% of energy", ration.PlainName(share.Nutrient), ration.Spaced(word), end.Amount),
		unit:   "kcal",
		perDay: r.days(), source: end.Source,
	})
	for _, y := range e.eats {
		r.Problem.Set(row, y.col,
			share.KcalPerG*r.perGram(y, share.Nutrient)-end.Amount/100*r.perGram(y, nutrients.Energy))
	}
}

package solver

import (
	"fmt"

	"rationwright/foods"
	"rationwright/nutrients"
)

// formulaKcalPerML is the energy of ready infant formula: 67 kcal/100 mL, the
// label standard (20 kcal per US fl oz; Codex STAN 72-1981 allows 60–70).
const formulaKcalPerML = 0.67

// humanMilkGPerML is the density of human milk: 30.8 g per US fluid ounce of
// 29.5735 mL (USDA SR26 measures, NDB 01107).
const humanMilkGPerML = 30.8 / 29.5735295625

// isMilkFeed reports whether f is infant formula or human milk, which only
// infants get, and only as their feed.
func isMilkFeed(f *foods.Food) bool {
	return f.HasTag(foods.TagInfantFormula) || f.HasTag(foods.TagHumanMilk)
}

// feedLimit is the volume of f in the feed of needs, nil when f is no part of
// it.
func feedLimit(needs *nutrients.Needs, f *foods.Food) *nutrients.Limit {
	switch {
	case needs.Feed == nil:
		return nil
	case f.HasTag(foods.TagInfantFormula):
		return needs.Feed.FormulaML
	case f.HasTag(foods.TagHumanMilk):
		return needs.Feed.HumanMilkML
	default:
		return nil
	}
}

// isFeed reports whether f is the milk that this person is fed by.
func isFeed(needs *nutrients.Needs, f *foods.Food) bool { return feedLimit(needs, f) != nil }

// readyMLPerGram returns how much ready feed one gram of f gives, by energy.
func readyMLPerGram(f *foods.Food) float64 {
	if f.HasTag(foods.TagHumanMilk) {
		return 1 / humanMilkGPerML
	}
	return f.Per100g.Known(nutrients.Energy) / 100 / formulaKcalPerML
}

// feedG is all of f that the person drinks as feed over the horizon, in g.
func feedG(needs *nutrients.Needs, f *foods.Food, days float64) float64 {
	return feedLimit(needs, f).Amount * days / readyMLPerGram(f)
}

// spareFactor is how much of f is bought and made ready for each gram drunk:
// more than one for infant formula, since a feed that is not finished is
// thrown away.
func spareFactor(needs *nutrients.Needs, f *foods.Food) float64 {
	if needs.Feed != nil && f.HasTag(foods.TagInfantFormula) {
		return needs.Feed.SpareFactor
	}
	return 1
}

// addFeedRows fixes the milk of infants:
//
//	Σ_f (mL per g)_f y_pf = D·feed_p
//
// No objective, limit, swap or closest ration may lower it.
func (r *Ration) addFeedRows() {
	for ei, e := range r.eaters {
		if e.needs.Feed == nil {
			continue
		}
		r.addFeedRow(ei, e, foods.TagInfantFormula, e.needs.Feed.FormulaML)
		r.addFeedRow(ei, e, foods.TagHumanMilk, e.needs.Feed.HumanMilkML)
	}
}

func (r *Ration) addFeedRow(ei int, e *eater, tag string, ml *nutrients.Limit) {
	if ml == nil {
		return
	}
	amount := ml.Amount * r.days()
	row := r.addRow(fmt.Sprintf("%s[%s]", tag, e.person.Name), amount, amount, rowInfo{
		kind: rowFeed, class: safety, eater: ei,
		text: spaced(tag) + " feed", unit: "mL", perDay: r.days(), source: ml.Source,
	})
	for _, y := range e.eats {
		if f := r.larder[y.food].food; f.HasTag(tag) {
			r.Problem.Set(row, y.col, readyMLPerGram(f))
		}
	}
}

package rules

import (
	"slices"

	"rationwright/foods"
	"rationwright/nutrients"
)

// formulaKcalPerML is the energy of ready infant formula: 67 kcal/100 mL, the
// label standard (20 kcal per US fl oz; Codex STAN 72-1981 allows 60–70).
const formulaKcalPerML = 0.67

// humanMilkGPerML is the density of human milk: 30.8 g per US fluid ounce of
// 29.5735 mL (USDA SR26 measures, NDB 01107).
const humanMilkGPerML = 30.8 / 29.5735295625

// IsMilkFeed reports whether f is infant formula or human milk, which only
// infants get, and only as their feed.
func IsMilkFeed(f *foods.Food) bool {
	return f.HasTag(foods.TagInfantFormula) || f.HasTag(foods.TagHumanMilk)
}

// feedLimit is the volume of f in the feed of needs, nil when f is no part of
// it.
func feedLimit(needs *nutrients.Needs, f *foods.Food) *nutrients.Limit {
	switch {
	case needs.Feed == nil:
	case f.HasTag(foods.TagInfantFormula):
		return needs.Feed.FormulaML
	case f.HasTag(foods.TagHumanMilk):
		return needs.Feed.HumanMilkML
	}
	return nil
}

// IsFeed reports whether f is the milk that this person is fed by.
func IsFeed(needs *nutrients.Needs, f *foods.Food) bool { return feedLimit(needs, f) != nil }

// ReadyMLPerGram returns how much ready feed one gram of f gives, by energy.
func ReadyMLPerGram(f *foods.Food) float64 {
	if f.HasTag(foods.TagHumanMilk) {
		return 1 / humanMilkGPerML
	}
	return f.Per100g.Known(nutrients.Energy) / 100 / formulaKcalPerML
}

// feedG is all of f that the person drinks as feed over the horizon, in g.
func feedG(needs *nutrients.Needs, f *foods.Food, days float64) float64 {
	return feedLimit(needs, f).Amount * days / ReadyMLPerGram(f)
}

// SpareFactor is how much of f is bought and made ready for each gram drunk:
// more than one for infant formula, since a feed that is not finished is
// thrown away.
func SpareFactor(needs *nutrients.Needs, f *foods.Food) float64 {
	if needs.Feed != nil && f.HasTag(foods.TagInfantFormula) {
		return needs.Feed.SpareFactor
	}
	return 1
}

// keepMilk settles which milks of an infant's feed are left out. Formula of one
// kind is planned, based on milk unless the child's diet asks for soy, and the
// other kind only where the first cannot be had. An exclusion of the household
// holds for a milk only while another one of the same feed is left: an infant's
// milk is nobody's to leave out. So does an allergy of somebody else, which keeps
// an allergen out of the house; then milk that may hold it comes before milk that
// does.
func keepMilk(needs *nutrients.Needs, household []nutrients.Person, list []Appetite) {
	if needs.Feed == nil {
		return
	}
	planned := func(a Appetite) bool { return isFormula(a.Food) && soyBased(a.Food) == needs.Feed.Soy && a.Lock == "" }
	if slices.ContainsFunc(list, planned) {
		for i := range list {
			if a := &list[i]; isFormula(a.Food) && !planned(*a) && a.Lock == "" {
				a.Lock = "formula of another kind is planned"
			}
		}
	}
	for _, tag := range []string{foods.TagInfantFormula, foods.TagHumanMilk} {
		if slices.ContainsFunc(list, func(a Appetite) bool { return a.Food.HasTag(tag) && a.Lock == "" }) {
			continue
		}
		clean := slices.ContainsFunc(list, func(a Appetite) bool { return a.Food.HasTag(tag) && !keptOut(household, a.Food) })
		for i := range list {
			if a := &list[i]; a.Food.HasTag(tag) && (!clean || !keptOut(household, a.Food)) {
				a.Lock, a.Kept = "", a.Lock
			}
		}
	}
}

// keptOut reports whether f holds an allergen that somebody keeps out of the
// house.
func keptOut(household []nutrients.Person, f *foods.Food) bool {
	return slices.ContainsFunc(household, func(p nutrients.Person) bool {
		return slices.ContainsFunc(p.Allergies, func(a nutrients.Allergy) bool {
			return a.Level == nutrients.AllergyHousehold && slices.Contains(f.Allergens, a.Allergen)
		})
	})
}

// soyBased reports whether infant formula is made of soy without milk. Milk
// formula may hold soy oil or lecithin.
func soyBased(f *foods.Food) bool {
	return slices.Contains(f.Allergens, "soy") && !slices.Contains(f.Allergens, "milk")
}

// isFormula reports whether f is infant formula.
func isFormula(f *foods.Food) bool { return f.HasTag(foods.TagInfantFormula) }

// IsPowder reports whether formula f is mixed with water.
func IsPowder(f *foods.Food) bool { return isFormula(f) && WaterTakenLPerG(f) > 0 }

// AnyIronFood reports whether one of the foods is iron-rich infant food.
func AnyIronFood(p *nutrients.Person, list []*foods.Food) bool {
	return slices.ContainsFunc(list, func(f *foods.Food) bool { return foods.IronServings(p, f) > 0 })
}

package solver

import (
	"fmt"
	"slices"
	"strings"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
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

// keepMilk settles which milks of an infant's feed are left out. Formula of one
// kind is planned, based on milk unless the child's diet asks for soy, and the
// other kind only where the first cannot be had. An exclusion of the household
// holds for a milk only while another one of the same feed is left: an infant's
// milk is nobody's to leave out.
func keepMilk(needs *nutrients.Needs, list []appetite) {
	if needs.Feed == nil {
		return
	}
	planned := func(a appetite) bool { return isFormula(a.food) && soyBased(a.food) == needs.Feed.Soy && a.lock == "" }
	if slices.ContainsFunc(list, planned) {
		for i := range list {
			if a := &list[i]; isFormula(a.food) && !planned(*a) && a.lock == "" {
				a.lock = "formula of another kind is planned"
			}
		}
	}
	for _, tag := range []string{foods.TagInfantFormula, foods.TagHumanMilk} {
		open := slices.ContainsFunc(list, func(a appetite) bool { return a.food.HasTag(tag) && a.lock == "" })
		for i := range list {
			if a := &list[i]; a.food.HasTag(tag) && !open {
				a.lock, a.kept = "", a.lock
			}
		}
	}
}

// soyBased reports whether infant formula is made of soy without milk. Milk
// formula may hold soy oil or lecithin.
func soyBased(f *foods.Food) bool {
	return slices.Contains(f.Allergens, "soy") && !slices.Contains(f.Allergens, "milk")
}

// noteKept says that an infant is fed by a milk that the household excludes.
func (r *Ration) noteKept(e *eater, list []appetite) {
	var why []string
	for _, a := range list {
		if a.kept != "" && !slices.Contains(why, a.kept) {
			why = append(why, a.kept)
		}
	}
	if len(why) > 0 {
		r.notes = append(r.notes, fmt.Sprintf("every milk that %s can be fed by is excluded (%s); it is planned all the same",
			e.person.Name, strings.Join(why, "; ")))
	}
}

// isFormula reports whether f is infant formula.
func isFormula(f *foods.Food) bool { return f.HasTag(foods.TagInfantFormula) }

// addIronFoodRows gives infants from six months on iron-rich food beside their
// milk, every day:
//
//	Σ_f (servings per g)_f y_pf ≥ D·servings
//
// A child who may eat none of it has no such row, and the plan says so.
func (r *Ration) addIronFoodRows() {
	for ei, e := range r.eaters {
		if e.needs.Feed == nil || e.needs.Feed.IronFoods == nil {
			continue
		}
		if !anyIronFood(&e.person, r.open(e)) {
			r.notes = append(r.notes, e.person.Name+": no iron-rich infant food can be had. Ask a clinician about iron")
			continue
		}
		need := e.needs.Feed.IronFoods
		row := r.addRow(fmt.Sprintf("iron-rich-food[%s]", e.person.Name), need.Amount*r.days(), inf, rowInfo{
			kind: rowPattern, class: requirement, eater: ei, group: ironFoods,
			text: "servings of iron-rich infant food", unit: "servings", perDay: r.days(), source: need.Source,
		})
		for _, y := range e.eats {
			r.Problem.Set(row, y.col, foods.IronServings(&e.person, r.larder[y.food].food))
		}
	}
}

// ironFoods is what the closest ration calls the row of iron-rich infant food.
const ironFoods = "iron-rich infant food"

// anyIronFood reports whether one of the foods is iron-rich infant food.
func anyIronFood(p *nutrients.Person, list []*foods.Food) bool {
	return slices.ContainsFunc(list, func(f *foods.Food) bool { return foods.IronServings(p, f) > 0 })
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
		text: ration.Spaced(tag) + " feed", unit: "mL", perDay: r.days(), source: ml.Source,
	})
	for _, y := range e.eats {
		if f := r.larder[y.food].food; f.HasTag(tag) {
			r.Problem.Set(row, y.col, readyMLPerGram(f))
		}
	}
}

package model

import (
	"fmt"
	"slices"
	"strings"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// noteKept says that an infant is fed by a milk that the household excludes.
func noteKept(m *Model, e *Eater, list []rules.Appetite) {
	var why []string
	for _, a := range list {
		if a.Kept != "" && !slices.Contains(why, a.Kept) {
			why = append(why, a.Kept)
		}
	}
	if len(why) > 0 {
		m.Notes = append(m.Notes, fmt.Sprintf("every milk that %s can be fed by is excluded (%s); it is planned all the same",
			e.Person.Name, strings.Join(why, "; ")))
	}
}

// addIronFoodRows gives infants from six months on iron-rich food beside their
// milk, every day:
//
//	Σ_f (servings per g)_f y_pf ≥ D·servings
//
// A child who may eat none of it has no such row, and the plan says so.
func addIronFoodRows(m *Model) {
	for ei, e := range m.Eaters {
		if e.Needs.Feed == nil || e.Needs.Feed.IronFoods == nil {
			continue
		}
		if !rules.AnyIronFood(&e.Person, m.OpenTo(e)) {
			m.Notes = append(m.Notes, e.Person.Name+": no iron-rich infant food can be had. Ask a clinician about iron")
			continue
		}
		need := e.Needs.Feed.IronFoods
		row := m.addRow(fmt.Sprintf("iron-rich-food[%s]", e.Person.Name), need.Amount*m.Days(), Inf, RowInfo{
			Kind: RowPattern, Class: Requirement, Eater: ei, Group: ironFoods,
			Text: "servings of iron-rich infant food", Unit: "servings", PerDay: m.Days(), source: need.Source,
		})
		for _, y := range e.Eats {
			m.Problem.Set(row, y.Col, foods.IronServings(&e.Person, m.Larder[y.Food].Food))
		}
	}
}

// ironFoods is what the closest ration calls the row of iron-rich infant food.
const ironFoods = "iron-rich infant food"

// addFeedRows fixes the milk of infants:
//
//	Σ_f (mL per g)_f y_pf = D·feed_p
//
// No objective, limit, swap or closest ration may lower it.
func addFeedRows(m *Model) {
	for ei, e := range m.Eaters {
		if e.Needs.Feed == nil {
			continue
		}
		addFeedRow(m, ei, e, foods.TagInfantFormula, e.Needs.Feed.FormulaML)
		addFeedRow(m, ei, e, foods.TagHumanMilk, e.Needs.Feed.HumanMilkML)
	}
}

func addFeedRow(m *Model, ei int, e *Eater, tag string, ml *nutrients.Limit) {
	if ml == nil {
		return
	}
	amount := ml.Amount * m.Days()
	row := m.addRow(fmt.Sprintf("%s[%s]", tag, e.Person.Name), amount, amount, RowInfo{
		Kind: RowFeed, Class: Safety, Eater: ei,
		Text: ration.Spaced(tag) + " feed", Unit: "mL", PerDay: m.Days(), source: ml.Source,
	})
	for _, y := range e.Eats {
		if f := m.Larder[y.Food].Food; f.HasTag(tag) {
			m.Problem.Set(row, y.Col, rules.ReadyMLPerGram(f))
		}
	}
}

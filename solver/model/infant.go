package model

import (
	"fmt"
	"math"
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

// addPureeRows gives infants from six months on fruit and vegetables from the spoon:
//
//	Σ_{f fruit or vegetable infant food} y_pf ≥ D·grams
//
// A child who may eat none of it has no such row.
func addPureeRows(m *Model) {
	for ei, e := range m.Eaters {
		if e.Needs.Feed == nil || e.Needs.Feed.PureeG == nil {
			continue
		}
		if !slices.ContainsFunc(m.OpenTo(e), (*foods.Food).IsPuree) {
			continue
		}
		need := e.Needs.Feed.PureeG
		row := m.addRow(fmt.Sprintf("puree[%s]", e.Person.Name), need.Amount*m.Days(), Inf, RowInfo{
			Kind: RowPattern, Class: Requirement, Eater: ei, Group: purees,
			Text: "fruit or vegetable infant food", Unit: "g", PerDay: m.Days(), source: need.Source,
		})
		for _, y := range e.Eats {
			if m.Larder[y.Food].Food.IsPuree() {
				m.Problem.Set(row, y.Col, 1)
			}
		}
	}
}

// purees is what the closest ration calls the row of fruit and vegetables of an infant.
const purees = "fruit or vegetable infant food"

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
		addOneFormRows(m, ei, e)
	}
}

// addOneFormRows makes the formula of an infant powder or ready to feed, never
// both: two ways of making a feed beside each other invite a mistake, such as
// water added to what is ready. With F the feed of the horizon:
//
//	Σ_powder (mL per g)_f y_pf − F z ≤ 0,   Σ_ready (mL per g)_f y_pf + F z ≤ F,   z in {0, 1}
//
// Own planning rule. A stock is judged as it is: it may hold both.
func addOneFormRows(m *Model, ei int, e *Eater) {
	ml := e.Needs.Feed.FormulaML
	if ml == nil || m.Request.StockOnly {
		return
	}
	var forms [2][]eatCol
	for _, y := range e.Eats {
		if f := m.Larder[y.Food].Food; f.HasTag(foods.TagInfantFormula) {
			form := 0
			if rules.IsPowder(f) {
				form = 1
			}
			forms[form] = append(forms[form], y)
		}
	}
	if len(forms[0]) == 0 || len(forms[1]) == 0 {
		return
	}
	feed := ml.Amount * m.Days()
	name := "powder[" + e.Person.Name + "]"
	powder := m.addCol(name, 0, 1, true, colInfo{Kind: colForm, Eater: ei, Larder: -1})
	info := RowInfo{Kind: rowStored, Class: Structural, Eater: ei, Text: "formula of one form", Unit: "mL", PerDay: m.Days()}
	ready := m.addRow("ready-or-"+name, -feed, Inf, info)
	made := m.addRow(name, math.Inf(-1), 0, info)
	m.Problem.Set(ready, powder, -feed)
	m.Problem.Set(made, powder, -feed)
	for _, y := range forms[0] {
		m.Problem.Set(ready, y.Col, -rules.ReadyMLPerGram(m.Larder[y.Food].Food))
	}
	for _, y := range forms[1] {
		m.Problem.Set(made, y.Col, rules.ReadyMLPerGram(m.Larder[y.Food].Food))
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

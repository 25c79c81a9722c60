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
		m.addEatenRow(ei, "iron-rich-food", need.Amount*m.Days(), Inf, RowInfo{
			Kind: RowPattern, Class: Requirement, Group: ironFoods,
			Text: "servings of iron-rich infant food", Unit: "servings",
		}, func(f *foods.Food) float64 { return foods.IronServings(&e.Person, f) })
	}
}

// addInfantFoodRows gives infants from six months on fruit and vegetables, and meat, from
// the spoon:
//
//	Σ_{f fruit or vegetable infant food} y_pf ≥ D·grams
//	Σ_{f plain infant meat} y_pf ≥ D·grams
//
// A child who may eat none of one has no such row.
func addInfantFoodRows(m *Model) {
	for ei, e := range m.Eaters {
		if e.Needs.Feed == nil {
			continue
		}
		addInfantFoodRow(m, ei, e, "puree", purees, e.Needs.Feed.PureeG, (*foods.Food).IsPuree)
		if m.Request.StockOnly { // a stock is judged as it is
			continue
		}
		addInfantFoodRow(m, ei, e, "infant-meat", infantMeat, e.Needs.Feed.MeatG, (*foods.Food).IsInfantMeat)
		addTurns(m, ei, e)
	}
}

func addInfantFoodRow(m *Model, ei int, e *Eater, name, group string, need *nutrients.Limit, in func(*foods.Food) bool) {
	if need == nil || !slices.ContainsFunc(m.OpenTo(e), in) {
		return
	}
	m.addEatenRow(ei, name, need.Amount*m.Days(), Inf, RowInfo{
		Kind: RowPattern, Class: Requirement, Group: group, Text: group, Unit: "g",
	}, only(in, gram))
}

// The most that one fruit or vegetable has of all that an infant gets from the spoon, so
// that it gets to know at least three, and that rice has of its cereal: rice takes up more
// arsenic than other grains. Own planning rules, no source.
const (
	pureeTurns = 0.4
	riceTurns  = 0.5
)

// addTurns lets fruits and vegetables take turns, where there are three or more to
// choose from, and rice with another cereal:
//
//	y_pf − part Σ_{g of the same sort} y_pg ≤ 0
func addTurns(m *Model, ei int, e *Eater) {
	if e.Needs.Feed.PureeG == nil {
		return
	}
	addTurnsOf(m, ei, e, "purees", pureeTurns, (*foods.Food).IsPuree, (*foods.Food).IsPuree)
	addTurnsOf(m, ei, e, "infant cereal", riceTurns, func(f *foods.Food) bool { return slices.Contains(f.Kinds, "infant cereal") },
		func(f *foods.Food) bool { return slices.Contains(f.Kinds, "infant rice cereal") })
}

// addTurnsOf holds each food that held is true of under a part of all that in is true of.
func addTurnsOf(m *Model, ei int, e *Eater, what string, part float64, in, held func(*foods.Food) bool) {
	list := slices.DeleteFunc(slices.Clone(e.Eats), func(y eatCol) bool { return !in(m.Larder[y.Food].Food) })
	if float64(len(list))*part < 1 {
		return
	}
	for _, y := range list {
		f := m.Larder[y.Food].Food
		if !held(f) {
			continue
		}
		row := m.addRow(fmt.Sprintf("turns-%s[%s]", f.Name, e.Person.Name), math.Inf(-1), 0, RowInfo{
			Kind: rowStored, Class: Structural, Eater: ei,
			Text: "share of " + f.Name + " in the " + what, Unit: "g", PerDay: m.Days(),
		})
		for _, of := range list {
			value := -part
			if of.Col == y.Col {
				value++
			}
			m.Problem.Set(row, of.Col, value)
		}
	}
}

// purees and infantMeat are what the closest ration calls the rows of fruit and
// vegetables, and of meat, of an infant.
const (
	purees     = "fruit or vegetable infant food"
	infantMeat = "plain infant meat"
)

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
		addFeedRow(m, ei, foods.TagInfantFormula, e.Needs.Feed.FormulaML)
		addFeedRow(m, ei, foods.TagHumanMilk, e.Needs.Feed.HumanMilkML)
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
	isPowder := func(f *foods.Food) bool { return f.HasTag(foods.TagInfantFormula) && rules.IsPowder(f) }
	isReady := func(f *foods.Food) bool { return f.HasTag(foods.TagInfantFormula) && !rules.IsPowder(f) }
	if open := m.OpenTo(e); !slices.ContainsFunc(open, isPowder) || !slices.ContainsFunc(open, isReady) {
		return
	}
	feed := ml.Amount * m.Days()
	powder := m.addCol("powder["+e.Person.Name+"]", 0, 1, true, colInfo{Kind: colForm, Eater: ei, Larder: -1})
	info := RowInfo{Kind: rowStored, Class: Structural, Text: "formula of one form", Unit: "mL"}
	less := func(f *foods.Food) float64 { return -rules.ReadyMLPerGram(f) }
	ready := m.addEatenRow(ei, "ready-or-powder", -feed, Inf, info, only(isReady, less))
	made := m.addEatenRow(ei, "powder", math.Inf(-1), 0, info, only(isPowder, rules.ReadyMLPerGram))
	m.Problem.Set(ready, powder, -feed)
	m.Problem.Set(made, powder, -feed)
}

func addFeedRow(m *Model, ei int, tag string, ml *nutrients.Limit) {
	if ml == nil {
		return
	}
	amount := ml.Amount * m.Days()
	m.addEatenRow(ei, tag, amount, amount, RowInfo{
		Kind: RowFeed, Class: Safety, Of: tag, Text: ration.Spaced(tag) + " feed", Unit: "mL",
	}, only(func(f *foods.Food) bool { return f.HasTag(tag) }, rules.ReadyMLPerGram))
}

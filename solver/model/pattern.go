package model

import (
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// addPatternRows asks for servings of each food group, scaled for a store
// without fresh food; standard basic asks for none:
//
//	Σ_f serves_fg y_pf ≥ D·floor_pg
//
// A group of which a person may eat nothing loses its floor, and the plan says
// so.
func addPatternRows(m *Model) {
	if m.Request.Standard == nutrients.StandardBasic {
		return
	}
	for ei, e := range m.Eaters {
		if e.Needs.Feed != nil {
			continue
		}
		for _, floor := range m.Request.Table.Pattern(&e.Needs, m.OpenTo(e)) {
			if floor.Dropped {
				m.Notes = append(m.Notes, e.Person.Name+": "+floor.Note)
				continue
			}
			m.addEatenRow(ei, "group-"+string(floor.Group), floor.PerDay*m.Days(), Inf, RowInfo{
				Kind: RowPattern, Class: Requirement, Group: floor.Group,
				Text: "servings of " + ration.Spaced(ration.GroupName(floor.Group)), Unit: floor.Unit,
			}, func(f *foods.Food) float64 { return f.PerGram(floor.Group) })
		}
	}
}

// OpenTo lists the foods that e may and will eat.
func (m *Model) OpenTo(e *Eater) []*foods.Food {
	var list []*foods.Food
	for _, y := range e.Eats {
		list = append(list, m.Larder[y.Food].Food)
	}
	return list
}

// addGroupCapRows holds what a person eats of several foods together under a
// daily amount: fats, sugars, fish by mercury class, juice …
//
//	Σ_{f in group} y_pf ≤ D·cap_pg
func addGroupCapRows(m *Model) {
	for ei, e := range m.Eaters {
		if e.Needs.Feed != nil && e.Needs.Feed.Only {
			continue
		}
		for _, group := range foods.GroupCaps(&e.Person) {
			kind := Requirement
			if group.Safety {
				kind = Safety
			}
			counts := only(func(f *foods.Food) bool { return !rules.IsFeed(&e.Needs, f) }, group.Coefficient)
			if !slices.ContainsFunc(m.OpenTo(e), func(f *foods.Food) bool { return counts(f) != 0 }) {
				continue
			}
			m.addEatenRow(ei, "most-"+group.Name, math.Inf(-1), group.PerDay*m.Days(), RowInfo{
				Kind: RowGroupCap, Class: kind, Group: group.Name, Text: group.Name, Unit: group.Unit,
			}, counts)
		}
	}
}

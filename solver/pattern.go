package solver

import (
	"fmt"
	"math"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// addPatternRows asks for servings of each food group, scaled for a store
// without fresh food; standard basic asks for none:
//
//	Σ_f serves_fg y_pf ≥ D·floor_pg
//
// A group of which a person may eat nothing loses its floor, and the plan says
// so.
func (r *Ration) addPatternRows() {
	if r.Request.Standard == nutrients.StandardBasic {
		return
	}
	for ei, e := range r.eaters {
		if e.needs.Feed != nil {
			continue
		}
		for _, floor := range r.Request.Table.Pattern(&e.needs, r.open(e)) {
			if floor.Dropped {
				r.notes = append(r.notes, e.person.Name+": "+floor.Note)
				continue
			}
			row := r.addRow(fmt.Sprintf("group-%s[%s]", floor.Group, e.person.Name),
				floor.PerDay*r.days(), math.Inf(1), rowInfo{
					kind: rowPattern, class: requirement, eater: ei, group: floor.Group,
					text: "servings of " + ration.Spaced(ration.GroupName(floor.Group)), unit: floor.Unit, perDay: r.days(), source: floor.Source,
				})
			for _, y := range e.eats {
				r.Problem.Set(row, y.col, r.larder[y.food].food.PerGram(floor.Group))
			}
		}
	}
}

// open lists the foods that e may and will eat.
func (r *Ration) open(e *eater) []*foods.Food {
	var list []*foods.Food
	for _, y := range e.eats {
		list = append(list, r.larder[y.food].food)
	}
	return list
}

// addGroupCapRows holds what a person eats of several foods together under a
// daily amount: fats, sugars, fish by mercury class, juice …
//
//	Σ_{f in group} y_pf ≤ D·cap_pg
func (r *Ration) addGroupCapRows() {
	for ei, e := range r.eaters {
		if e.needs.Feed != nil && e.needs.Feed.Only {
			continue
		}
		for _, group := range foods.GroupCaps(&e.person) {
			kind := requirement
			if group.Safety {
				kind = safety
			}
			row := -1
			for _, y := range e.eats {
				f := r.larder[y.food].food
				if isFeed(&e.needs, f) || group.Coefficient(f) == 0 {
					continue
				}
				if row < 0 {
					row = r.addRow(fmt.Sprintf("most-%s[%s]", group.Name, e.person.Name),
						math.Inf(-1), group.PerDay*r.days(), rowInfo{
							kind: rowGroupCap, class: kind, eater: ei, group: group.Name,
							text: group.Name, unit: group.Unit, perDay: r.days(), source: group.Source,
						})
				}
				r.Problem.Set(row, y.col, group.Coefficient(f))
			}
		}
	}
}

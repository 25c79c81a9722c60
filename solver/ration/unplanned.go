package ration

import (
	"fmt"

	"rationwright/nutrients"
)

// unplannedOf lists whom a plan leaves out because their orders cannot all be kept.
func unplannedOf(people []nutrients.Person) []Refused {
	var list []Refused
	for _, p := range people {
		if p.Unplanned != nil {
			list = append(list, Refused{Name: p.Name, Reason: p.Unplanned.Reason, Source: p.Unplanned.Source})
		}
	}
	return list
}

// setUnplanned sets apart the people of a record that are listed, who must have
// orders.
func setUnplanned(people []nutrients.Person, list []Refused) error {
	next := 0
	for i := range people {
		p := &people[i]
		if next < len(list) && list[next].Name == p.Name && len(p.Orders.List) > 0 {
			p.Unplanned = &nutrients.Refusal{Reason: list[next].Reason, Source: list[next].Source, Verified: "set by the clinician"}
			next++
		}
	}
	if next < len(list) {
		return fmt.Errorf("%w: request.unplanned: %q is nobody with orders of the household, in its order", ErrPlan, list[next].Name)
	}
	return nil
}

package rules

import (
	"fmt"
	"strings"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// NoMilk says who of the household of req, at 12 to 23 months, may have no milk. Names that
// the table lacks leave nothing out: they are refused where the ration is made.
func NoMilk(req *ration.Request) func(*nutrients.Person) bool {
	var without []*foods.Food
	for _, name := range req.Without {
		if found, err := req.Table.Named(name); err == nil {
			without = append(without, found...)
		}
	}
	return func(p *nutrients.Person) bool {
		none, err := foods.NoMilk(req.Table, *p, req.People, without)
		return err == nil && none
	}
}

// MilkCautions lists what is to be asked of a clinician for each child who may have no
// milk, in a sentence with its source that begins with the child's name.
func MilkCautions(req *ration.Request) []string {
	var list []string
	milkless := NoMilk(req)
	for i := range req.People {
		if !milkless(&req.People[i]) {
			continue
		}
		for _, c := range stores.CautionsAbout(stores.NoMilk) {
			list = append(list, fmt.Sprintf("%s: %s %s (%s).", req.People[i].Name, c.Text, strings.TrimSuffix(c.Action, "."), ration.SourceOf(c.Source, c.Verified)))
		}
	}
	return list
}

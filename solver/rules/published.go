package rules

import (
	"slices"

	"rationwright/foods"
	"rationwright/foods/kinds"
	"rationwright/nutrients"
)

// Limit is the most that somebody may have of some foods together in one day or in seven.
type Limit struct {
	Most   float64
	Days   int
	Counts func(*foods.Food) float64 // a gram, in the unit of Most
}

// Published lists the limits of p that publications give: what a plan keeps on average, and
// a menu is to keep day by day.
func Published(table *foods.Table, p *nutrients.Person) []Limit {
	var list []Limit
	for _, c := range foods.GroupCaps(p) {
		switch {
		case !c.Safety:
		case c.Rule == "fish-week":
			list = append(list, Limit{7 * c.PerDay, 7, c.Coefficient})
		default:
			list = append(list, Limit{c.PerDay, 1, c.Coefficient})
		}
	}
	for _, c := range table.KindCaps(p) {
		switch {
		case !c.Safety:
		case c.Measure == kinds.Day:
			list = append(list, Limit{c.Value, 1, countsIn(c)})
		case c.Measure == kinds.Week:
			list = append(list, Limit{c.Value, 7, countsIn(c)})
		}
	}
	return list
}

// glassMonths is the age from which somebody finishes a carton where others leave it. Own
// planning rule, no source.
const glassMonths = 108

// Glasses lists what a child p gladly eats of a kind at a sitting, by own planning rules;
// Days is 0.
func Glasses(table *foods.Table, p *nutrients.Person) []Limit {
	var list []Limit
	if p.AgeMonths >= glassMonths {
		return nil
	}
	for _, c := range table.KindCaps(p) {
		if c.Measure == kinds.Sitting && !c.Safety && c.Value > 0 {
			list = append(list, Limit{c.Value, 0, countsIn(c)})
		}
	}
	return list
}

// countsIn is what a gram of a food counts in c.
func countsIn(c kinds.Cap) func(*foods.Food) float64 {
	return func(f *foods.Food) float64 {
		if !slices.Contains(f.Kinds, c.Kind) {
			return 0
		}
		return f.Counts(c.Unit)
	}
}

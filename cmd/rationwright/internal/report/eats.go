package report

import (
	"slices"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/cmd/rationwright/internal/view"
)

// abreast is how many people stand side by side in one table of what is eaten.
const abreast = 6

// Eats lays out who eats how much of which food a day, a few people at a time
// so that the table stays narrow. Foods stand in the order of the shopping
// list, then in order of first appearance.
func Eats(v *view.Plan, u sheet.Units) []sheet.Section {
	var sections []sheet.Section
	fed := slices.DeleteFunc(slices.Clone(v.People), func(e view.Person) bool { return e.Refused != nil })
	for at := 0; at < len(fed); at += abreast {
		people := fed[at:min(at+abreast, len(fed))]
		g := sheet.NewGrid("~food")
		var order []string
		for _, a := range v.Shopping {
			for _, f := range a.Foods {
				order = append(order, f.Food)
			}
		}
		for _, e := range people {
			g.Column(">" + e.Name)
			for _, f := range e.Eats {
				order = addOnce(order, f.Food)
			}
		}
		for _, food := range order {
			row, eaten := []string{food}, false
			for _, e := range people {
				cell := ""
				if k := slices.IndexFunc(e.Eats, func(f view.Portion) bool { return f.Food == food }); k >= 0 {
					cell, eaten = u.Portion(e.Eats[k].Grams), true
				}
				row = append(row, cell)
			}
			if eaten {
				g.Row("", row...)
			}
		}
		sec := sheet.Section{Table: g}
		if at == 0 {
			sec.Title = "Who eats what, in " + map[sheet.Units]string{sheet.Metric: "grams", sheet.US: "ounces"}[u] + " a day of the food as packed"
		}
		sections = append(sections, sec)
	}
	if n := len(sections); n > 0 {
		sections[n-1].Notes = []string{"These are means over all days; dry food is counted dry, drained food drained."}
	}
	return sections
}

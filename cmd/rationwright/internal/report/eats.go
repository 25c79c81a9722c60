package report

import (
	"rationwright/solver"
)

// abreast is how many people stand side by side in one table of what is eaten.
const abreast = 6

// eats lays out who eats how much of which food a day, a few people at a time
// so that the table stays narrow. Foods stand in the order of the shopping
// list, then in order of first appearance.
func eats(p *solver.Plan, u Units) []Section {
	var sections []Section
	for at := 0; at < len(p.People); at += abreast {
		people := p.People[at:min(at+abreast, len(p.People))]
		g := &Grid{Columns: []Column{{Name: "food", Wrap: true}}}
		for i := range people {
			g.Columns = append(g.Columns, Column{Name: clean(people[i].Name), Right: true, Wrap: true})
		}
		for _, food := range foodOrder(p, people) {
			row := []string{food}
			for i := range people {
				row = append(row, eatsADay(&people[i], food, p.Days, u))
			}
			g.append("", row...)
		}
		sec := Section{Table: g}
		if at == 0 {
			sec.Title = "Who eats what, in " + map[Units]string{Metric: "grams", US: "ounces"}[u] + " a day of the food as packed"
		}
		sections = append(sections, sec)
	}
	if n := len(sections); n > 0 {
		sections[n-1].Notes = []string{"These are means over all days; dry food is counted dry, drained food drained."}
	}
	return sections
}

// foodOrder lists the foods that people eat, in the order of the plan's packs.
func foodOrder(p *solver.Plan, people []solver.PlanPerson) []string {
	eaten := map[string]bool{}
	for i := range people {
		for _, f := range people[i].Foods {
			eaten[f.Food] = true
		}
	}
	var order []string
	add := func(food string) {
		if eaten[food] {
			order = append(order, food)
			eaten[food] = false
		}
	}
	for _, k := range p.Packs {
		add(k.Food)
	}
	for i := range people {
		for _, f := range people[i].Foods {
			add(f.Food)
		}
	}
	return order
}

// eatsADay is what e eats of food in a day; "" when nothing.
func eatsADay(e *solver.PlanPerson, food string, days int, u Units) string {
	for _, f := range e.Foods {
		if f.Food == food {
			return u.Portion(f.Grams / float64(max(days, 1)))
		}
	}
	return ""
}

package report

import (
	"fmt"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/ration"
)

// byDishes says what it costs to live by dishes, where they were chosen with the packs.
func byDishes(p *ration.Plan, u sheet.Units) []string {
	d := p.Dishes
	if d == nil {
		return nil
	}
	if d.None != "" {
		return []string{"No plan was found in which every gram has its dish: " + d.None + ". This is the plan without dishes; menu shows the nearest to one."}
	}
	lines := []string{fmt.Sprintf("Packs and dishes are chosen together: that adds %s (%s) to the best found without dishes, %s.",
		Total(p, p.Least, d.Price*d.Value, u), sheet.GapPercent(d.Price), Total(p, p.Least, d.Value, u))}
	if d.Bound != nil && d.Gap != nil {
		lines[0] += fmt.Sprintf(" Nothing under %s can be done with or without dishes; that without is within %s of it.", Total(p, p.Least, *d.Bound, u), sheet.GapPercent(*d.Gap))
	}
	if d.Room > 0 {
		lines = append(lines, fmt.Sprintf("So that there are dishes for all days, this program's own rules of what people gladly eat give up to %s more for %s than without dishes.",
			sheet.GapPercent(d.Room), sheet.Names(gaveFor(p))))
	}
	if p.Menu != nil {
		lines = append(lines, p.Menu.Notice)
	}
	return lines
}

// gaveFor are those for whom planning rules gave.
func gaveFor(p *ration.Plan) []string {
	var names []string
	if p.Eatable != nil {
		for _, l := range p.Eatable.Loosened {
			names = addOnce(names, l.Person)
		}
	}
	return names
}

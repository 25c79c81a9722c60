package report

import (
	"fmt"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/cmd/rationwright/internal/view"
	"rationwright/solver/ration"
)

// Plan lays out p in the order in which it is used: who is not fed, what to
// buy, what it comes to, what each person gets, which limits bind, what to
// take care of, what is assumed.
func Plan(p *ration.Plan, u sheet.Units) *sheet.Sheet {
	v := view.Of(p)
	s := &sheet.Sheet{Alerts: v.Headline}
	s.Add(planHead(p, v, u))
	if p.Infeasible() {
		nothingFits(s, p, currency(p), u)
	} else {
		s.Add(shopping(p, v, u), totals(p, v, u))
		s.Add(ShelfFit(p.Shelves, u)...)
		s.Add(short(p))
		s.Add(Eats(v, u)...)
		for i := range p.People {
			s.Add(Person(&p.People[i], p, u))
		}
		s.Add(binding(p))
		s.Add(audit(p))
	}
	s.Add(cautions(p))
	s.Add(assumed(p))
	return s
}

// planHead says in two lines what this is and how good it is.
func planHead(p *ration.Plan, v *view.Plan, u sheet.Units) sheet.Section {
	if p.Infeasible() {
		return sheet.Section{}
	}
	line := fmt.Sprintf("Ration for %s for %s, least %s", sheet.Count(v.Heads, "person", "people"), sheet.Count(p.Days, "day", "days"), p.Least)
	if p.Value != nil {
		line += ": " + Total(p, p.Least, *p.Value, u)
	}
	sec := sheet.Section{Lead: []string{line + ".", proof(p, u)}}
	sec.Lead.If(v.Demo != "", "%s", v.Demo)
	return sec
}

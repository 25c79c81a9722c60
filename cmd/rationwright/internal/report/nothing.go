package report

import (
	"fmt"
	"strconv"

	"rationwright/solver"
)

// nothingFits lays out an infeasible answer: what conflicts, what would have to
// give, and what the ration that comes closest lacks. What each person gets in
// that ration is in the csv and json forms.
func nothingFits(s *Sheet, p *solver.Plan, u Units) {
	s.Add(conflict(p))
	s.Add(waysOut(p))
	if p.Closest == nil {
		return
	}
	if len(p.Closest.Shortfalls) > 0 {
		s.Add(Section{Title: "The ration that comes closest lacks", Table: shortGrid(p.Closest.Shortfalls, len(p.Closest.People))})
	}
	s.Add(overSection(p.Closest.Over))
	if len(p.Closest.Packs) > 0 {
		g := &Grid{Columns: []Column{{Name: "packs", Right: true}, {Name: "food", Wrap: true}, {Name: "pack", Wrap: true}, {Name: "each holds", Right: true}}}
		for _, k := range p.Closest.Packs {
			g.append("", strconv.Itoa(k.Count), k.Food, k.Pack, u.Net(k.NetG))
		}
		s.Add(Section{Title: "The packs of the ration that comes closest", Table: g,
			Lead: []string{"This is not a balanced ration: it shows how near the limits allow."}})
	}
}

// conflict lists the limits that cannot all hold.
func conflict(p *solver.Plan) Section {
	sec := Section{Title: "What cannot be met together"}
	if len(p.Conflict) == 0 {
		return Section{}
	}
	for _, c := range p.Conflict {
		line := "- " + sentence(NutrientName(c.Limit))
		if c.Person != "" {
			line = fmt.Sprintf("- %s: %s", clean(c.Person), NutrientName(c.Limit))
		}
		sec.Lead = append(sec.Lead, line)
	}
	switch proven := p.Proven != nil && *p.Proven; {
	case proven && len(p.Conflict) == 1:
		sec.Notes = []string{"Proven: this cannot be met whatever needs are given up."}
		if p.Conflict[0].Person == "" {
			sec.Notes = []string{"Proven: this cannot be met whatever needs are given up. The water that is stored in any case, for drinking and washing, counts in it."}
		}
	case proven:
		sec.Notes = []string{"Proven: any one of these less, and the others can be met."}
	default:
		sec.Notes = []string{"Not proven in the time: fewer of these may already conflict."}
	}
	return sec
}

// waysOut lists the single changes that were tried.
func waysOut(p *solver.Plan) Section {
	sec := Section{Title: "Ways out"}
	for _, w := range p.WaysOut {
		line := "- " + sentence(NutrientName(w.Change))
		if w.Cost != nil {
			line += " The plan then costs " + costOf(p, *w.Cost) + "."
		}
		if w.Tested {
			line += " Tested: a ration exists then."
		} else {
			line += " Not tested."
		}
		sec.Lead = append(sec.Lead, line)
	}
	return sec
}

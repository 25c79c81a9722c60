package model

import (
	"slices"

	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// advise notes what the household file leaves open and the plan cannot settle
// unasked.
func advise(m *Model) {
	if !m.Request.EasyOpen && rules.OlderOnly(m.Request.People) {
		m.Notes = append(m.Notes, "everyone here who opens packs is 65 or over: "+
			"with --easy-open the plan holds only packs that weak hands can open and lift")
	}
	if m.Request.EasyOpen {
		m.Notes = append(m.Notes, "the containers of stored water are too heavy for weak hands: "+
			"have them set where water can be drawn off, or use smaller ones")
	}
	for _, e := range m.Eaters {
		if slices.Contains(e.Needs.NotChecked, "iodine") && (e.Person.Pregnant() || e.Person.Lactating() || e.Person.Has(nutrients.Vegan)) {
			m.Notes = append(m.Notes, "Iodine is not in the food table, so that no plan counts it. Salt labelled iodised is the usual source, with milk, egg and sea fish; "+
				"the label says how much it holds. In pregnancy, when breast-feeding and for vegans, ask about a supplement.")
			break
		}
	}
	nursing := slices.ContainsFunc(m.Request.People, func(p nutrients.Person) bool { return p.Lactating() })
	for _, e := range m.Eaters {
		if feed := e.Needs.Feed; feed != nil && feed.HumanMilkML != nil && !nursing {
			m.Notes = append(m.Notes, e.Person.Name+" is breast-fed, but nobody here is entered as breast-feeding: write "+
				string(nutrients.Lactating1)+" or "+string(nutrients.Lactating2)+" as the state of the mother, "+
				"so that she gets the food and water that the milk takes")
		}
	}
}

// noteCold says how food is counted that can be eaten hot or cold.
func noteCold(m *Model) {
	either := slices.ContainsFunc(m.Larder, func(lf *LarderFood) bool {
		p := lf.Food.Preparation
		return lf.CapG > 0 && p != nil && p.ColdOK && p.HeatMJ > 0 && ration.CookRank[p.Class] <= ration.CookRank[string(m.Request.Cook)]
	})
	switch {
	case !either:
	case m.Request.Limits.HeatMJ != nil:
		m.Notes = append(m.Notes, "Heat is limited: what can be eaten cold is counted as eaten cold.")
	default:
		m.Notes = append(m.Notes, "What can be eaten hot or cold is counted as eaten hot; --max-heat or --cook none plans it cold.")
	}
}

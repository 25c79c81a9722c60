package report

import (
	"fmt"
	"slices"
	"strings"

	"rationwright/solver"
)

// shortGrid lists needs that are not reached, a line each: who is short, and what
// the one who is worst off gets. Its order is that of list. everyone is the
// number of people there are.
func shortGrid(list []solver.Shortfall, everyone int) *Grid {
	g := &Grid{Columns: []Column{{Name: "need", Wrap: true}, {Name: "who is short", Wrap: true}, {Name: "worst off", Wrap: true},
		{Name: "gets a day", Right: true}, {Name: "should get", Right: true}, {Name: "unit"}, {Name: "% of it", Right: true}}}
	for _, need := range byNeed(list) {
		worst := need[0]
		for _, s := range need {
			if share(s) < share(worst) {
				worst = s
			}
		}
		of := ""
		if worst.Target > 0 {
			of = percent(share(worst))
		}
		g.append("", NutrientName(worst.Nutrient), whoIsShort(need, everyone), clean(worst.Person), amount(worst.Amount), amount(worst.Target),
			unitOf(worst.Unit, worst.Nutrient), of)
	}
	return g
}

// share is the part of its target that an amount reaches, as a fraction.
func share(s solver.Shortfall) float64 {
	if s.Target <= 0 {
		return 1
	}
	return s.Amount / s.Target
}

// byNeed gathers shortfalls of the same need, in the order of the first of each.
func byNeed(list []solver.Shortfall) [][]solver.Shortfall {
	var needs [][]solver.Shortfall
	for _, s := range list {
		k := slices.IndexFunc(needs, func(n []solver.Shortfall) bool { return n[0].Nutrient == s.Nutrient && n[0].Unit == s.Unit })
		if k < 0 {
			needs = append(needs, nil)
			k = len(needs) - 1
		}
		needs[k] = append(needs[k], s)
	}
	return needs
}

// whoIsShort names the people of one need.
func whoIsShort(need []solver.Shortfall, everyone int) string {
	var names []string
	for _, s := range need {
		if s.Person == "" {
			return "the household"
		}
		names = append(names, clean(s.Person))
	}
	if len(names) == everyone && everyone > 1 {
		return fmt.Sprintf("all %d", everyone)
	}
	return strings.Join(names, ", ")
}

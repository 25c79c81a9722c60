package solver

import (
	"fmt"
	"slices"
	"strings"

	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// alike are the nutrients whose limits carry the same remark for everybody: it
// is said with the requirements, not with each person.
var alike = []nutrients.Nutrient{nutrients.Energy, nutrients.Niacin, nutrients.Retinol, nutrients.AddedSugars}

// adjusted says which limits of a person are not the published figure as it
// stands, and why: iron of a diet without meat, protein by weight.
func adjusted(needs *nutrients.Needs) []ration.RuleNote {
	var list []ration.RuleNote
	add := func(n nutrients.Nutrient, side string, l *nutrients.Limit) {
		if l == nil || l.Note == "" || l.Kind == "rule" {
			return
		}
		list = append(list, ration.RuleNote{
			Text:   fmt.Sprintf("%s %s %.4g %s: %s.", ration.PlainName(n), side, l.Amount, n.Unit(), strings.TrimSuffix(l.Note, ".")),
			Source: ration.SourceOf(l.Source, l.Verified),
		})
	}
	for _, need := range needs.List {
		if need.Shown || slices.Contains(alike, need.Nutrient) {
			continue
		}
		add(need.Nutrient, "at least", need.Floor)
		add(need.Nutrient, "at most", need.Ceiling)
	}
	return list
}

// wished lists what a person does not want or asks for, as the household file
// has it. Limits on nutrients stand among the needs already.
func wished(p *nutrients.Person) []ration.RuleNote {
	var list []ration.RuleNote
	for _, name := range p.Dislikes {
		list = append(list, ration.RuleNote{Text: "Gets no " + name + ": a dislike.", Source: "household file, dislikes"})
	}
	for _, r := range p.Rules {
		switch r.Kind {
		case nutrients.RuleNo, nutrients.RuleMost, nutrients.RuleLeast:
			list = append(list, ration.RuleNote{Text: "Own rule: " + r.String() + ".", Source: "household file, rules"})
		}
	}
	return list
}

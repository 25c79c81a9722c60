package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/ration"
)

// shortGrid lists needs that are not reached, a line each: who is short, and what
// the one who is worst off gets. Its order is that of list. everyone is the
// number of people there are.
func shortGrid(list []ration.Shortfall, everyone int) *sheet.Grid {
	g := sheet.NewGrid("~need", "~who is short", "~worst off", ">gets a day", ">should get", "unit", ">% of it")
	for _, need := range byNeed(list) {
		worst := slices.MinFunc(need, byShare)
		of := ""
		if worst.Target > 0 {
			of = sheet.Percent(share(worst))
		}
		g.Row("", sheet.Nutrient(worst.Nutrient), whoIsShort(need, everyone), facts.Printable(worst.Person), sheet.Amount(worst.Amount), sheet.Amount(worst.Target),
			unitOf(worst.Unit, worst.Nutrient), of)
	}
	return g
}

// share is the part of its target that an amount reaches, as a fraction.
func share(s ration.Shortfall) float64 {
	if s.Target <= 0 {
		return 1
	}
	return s.Amount / s.Target
}

// byShare puts who is worst off first.
func byShare(a, b ration.Shortfall) int { return cmp.Compare(share(a), share(b)) }

// byNeed gathers shortfalls of the same need, in the order of the first of each.
// Of the days after one date or another each person's worst is taken.
func byNeed(list []ration.Shortfall) [][]ration.Shortfall {
	var needs [][]ration.Shortfall
	for _, s := range list {
		about, dated := beforeDay(s.Nutrient)
		k := slices.IndexFunc(needs, func(n []ration.Shortfall) bool {
			other, too := beforeDay(n[0].Nutrient)
			return other == about && dated == too && n[0].Unit == s.Unit
		})
		if k < 0 {
			needs, k = append(needs, nil), len(needs)
		}
		if at := slices.IndexFunc(needs[k], func(n ration.Shortfall) bool { return n.Person == s.Person }); at >= 0 {
			if share(s) < share(needs[k][at]) {
				needs[k][at] = s
			}
			continue
		}
		needs[k] = append(needs[k], s)
	}
	return needs
}

// beforeDay is what a need is about, without the day after which it is counted.
func beforeDay(need string) (about string, dated bool) {
	about, _, dated = strings.Cut(need, " after day ")
	return about, dated
}

// whoIsShort names the people of one need.
func whoIsShort(need []ration.Shortfall, everyone int) string {
	var names []string
	for _, s := range need {
		if s.Person == "" {
			return "the household"
		}
		names = append(names, facts.Printable(s.Person))
	}
	if len(names) == everyone && everyone > 1 {
		return fmt.Sprintf("all %d", everyone)
	}
	return strings.Join(names, ", ")
}

// overSection lists the ceilings that a division passes.
func overSection(list []ration.Over) sheet.Section {
	g := sheet.NewGrid("~who", "~nutrient", ">gets a day", ">at most", "unit")
	for _, o := range list {
		g.Row("", facts.Printable(o.Person), sheet.Nutrient(o.Nutrient), sheet.Amount(o.Amount), sheet.Amount(o.Ceiling), unitOf(o.Unit, o.Nutrient))
	}
	return sheet.Section{Title: "What it gives too much of", Table: g}
}

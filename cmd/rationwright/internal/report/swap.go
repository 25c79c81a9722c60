package report

import (
	"fmt"
	"math"
	"strconv"

	"rationwright/solver"
)

// Swap lays out a changed plan: what goes and comes, what that changes, and
// the new plan's list.
func Swap(s *solver.Swap, u Units) *Sheet {
	sheet := &Sheet{Alerts: alerts(s.Plan)}
	if s.Plan.Status == "infeasible" {
		sheet.Add(Section{Title: "The swap", Lead: []string{sentence(s.Warning)}})
		nothingFits(sheet, s.Plan, u)
		return sheet
	}
	sheet.Add(swapHead(s, u))
	sheet.Add(packChanges("Out", s.Out))
	sheet.Add(packChanges("In", s.In))
	sheet.Add(needChanges(s))
	sheet.Add(shopping(s.Plan, u))
	sheet.Add(totals(s.Plan, u))
	sheet.Add(short(s.Plan))
	sheet.Add(cautions(s.Plan))
	return sheet
}

func swapHead(s *solver.Swap, u Units) Section {
	proof := "proven to be the fewest"
	if !s.Proven {
		proof = fmt.Sprintf("the fewest found; no plan within the spread changes fewer than %d", s.ChangesBound)
	}
	packs := "packs of other foods change"
	if s.Changes == 1 {
		packs = "pack of another food changes"
	}
	lines := []string{
		fmt.Sprintf("%d %s: %s.", s.Changes, packs, proof),
		fmt.Sprintf("Cost %s %s, weight %s, shelf space %s.", signed(money(s.CostChange), s.CostChange), currency(s.Plan),
			signed(u.Weight(s.WeightChange), s.WeightChange), signed(u.Space(s.VolumeChange), s.VolumeChange)),
	}
	if s.Warning != "" {
		lines = append(lines, "NOTE: "+sentence(s.Warning))
	}
	return Section{Title: "The swap", Lead: lines}
}

func packChanges(title string, list []solver.PackChange) Section {
	g := &Grid{Columns: []Column{{Name: "packs", Right: true}, {Name: "food", Wrap: true}, {Name: "pack", Wrap: true}}}
	for _, c := range list {
		g.append("", strconv.Itoa(c.Count), c.Food, c.Pack)
	}
	return Section{Title: title, Table: g}
}

// Changes of what people get are shown from five per cent, the largest first.
const (
	shownChange  = 0.05
	shownChanges = 12
)

func needChanges(s *solver.Swap) Section {
	g := &Grid{Columns: []Column{{Name: "who", Wrap: true}, {Name: "nutrient"}, {Name: "before", Right: true},
		{Name: "after", Right: true}, {Name: "unit"}}}
	for _, n := range s.Needs {
		if math.Abs(n.After-n.Before) < shownChange*math.Abs(n.Before) || len(g.rows()) == shownChanges {
			continue
		}
		g.append("", clean(n.Person), NutrientName(n.Nutrient), amount(n.Before), amount(n.After), unitOf(n.Unit, n.Nutrient))
	}
	return Section{Title: "What changes most for whom, a day", Table: g,
		Notes: notesIf(len(g.rows()) > 0, "Everyone still gets every need; --format json lists all changes.")}
}

package report

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"rationwright/solver"
)

// Swap lays out a changed plan: what goes and comes, what that changes, and
// the new plan's list.
func Swap(s *solver.Swap, u Units) *Sheet {
	sheet := &Sheet{Alerts: alerts(s.Plan)}
	if s.Plan.Status == "infeasible" {
		sheet.Add(Section{Title: "The swap", Lead: []string{sentence(s.Warning)}})
		nothingFits(sheet, s.Plan, currency(s.Plan), u)
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
	if s.Best != nil {
		lines = append(lines, fmt.Sprintf("The best plan found after the change comes to %s, this one to %s; up to %s was allowed.",
			objective(s.Plan, *s.Best, u), objective(s.Plan, *s.Plan.Value, u), objective(s.Plan, s.Most, u)))
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

// Changes of what people get are shown from five per cent; what is short is shown
// always. The order is that of the swap: losses first.
const (
	shownChange  = 0.05
	shownChanges = 12
)

func needChanges(s *solver.Swap) Section {
	g := &Grid{Columns: []Column{{Name: "who", Wrap: true}, {Name: "nutrient"}, {Name: "before", Right: true},
		{Name: "after", Right: true}, {Name: "at least", Right: true}, {Name: "unit"}, {Name: "mark"}}}
	for _, n := range s.Needs {
		if !n.Short() && (math.Abs(n.After-n.Before) < shownChange*math.Abs(n.Before) || len(g.rows()) >= shownChanges) {
			continue
		}
		floor, mark := "", ""
		if n.Floor != nil {
			floor = amount(*n.Floor)
		}
		if n.Short() {
			mark = "SHORT"
		}
		g.append("", clean(n.Person), NutrientName(n.Nutrient), amount(n.Before), amount(n.After), floor, unitOf(n.Unit, n.Nutrient), mark)
	}
	sec := Section{Title: "What changes most for whom, a day", Table: g}
	if !g.empty() || len(s.Plan.Shortfalls) > 0 {
		sec.Notes = []string{keptNeeds(s.Plan), "What falls short stands first, then what falls nearest to its least, then other changes; --format json lists all."}
	}
	return sec
}

// keptNeeds says whether everyone gets every need, or names what is short and for
// whom.
func keptNeeds(p *solver.Plan) string {
	if len(p.Shortfalls) == 0 {
		return "Everyone still gets every need."
	}
	var parts []string
	for _, need := range byNeed(p.Shortfalls) {
		worst := need[0]
		for _, s := range need {
			if share(s) < share(worst) {
				worst = s
			}
		}
		who := "at worst " + clean(worst.Person) + ", with"
		if len(need) == 1 {
			who = "gets"
		}
		parts = append(parts, fmt.Sprintf("%s for %s (%s %s %% of it)", NutrientName(worst.Nutrient), whoIsShort(need, len(p.People)), who, percent(share(worst))))
	}
	return "NOT EVERY NEED IS MET. Short: " + strings.Join(parts, "; ") + "."
}

// Replacing lays out what could stand in for a food of p.
func Replacing(x *solver.Replacing, p *solver.Plan, u Units) *Sheet {
	s := &Sheet{Alerts: alerts(p)}
	who := ""
	if x.For != "" {
		who = " for " + clean(x.For)
	}
	head := Section{Title: fmt.Sprintf("Instead of %s%s", clean(x.InsteadOf), who)}
	switch {
	case x.Needless:
		head.Lead = []string{"Nothing need replace it: the rest of the plan meets every need without it."}
	case len(x.Replacements) == 0:
		head.Lead = []string{"No single food comes nearer to what it gives. \"swap --drop\" looks for several together."}
	default:
		head.Lead = []string{"Each of these would stand in by itself, with every other pack of the plan as it is; nothing is changed yet. The changes count the food as not bought."}
	}
	s.Add(head)
	g := &Grid{Columns: []Column{{Name: "food", Wrap: true}, {Name: "packs", Right: true}, {Name: "pack", Wrap: true}, {Name: strings.TrimSuffix("cost, "+currency(p), ", "), Right: true},
		{Name: "weight", Right: true}, {Name: "space", Right: true}, {Name: "balance", Wrap: true}}}
	for _, r := range x.Replacements {
		balance := "kept"
		if !r.Balanced {
			balance = "short: " + shortNames(r.Short)
		}
		for k, c := range r.Packs {
			row := []string{"", strconv.Itoa(c.Count), c.Pack, "", "", "", ""}
			if k == 0 {
				row[0], row[3], row[4] = r.Food, signed(money(r.CostChange), r.CostChange), signed(u.Weight(r.WeightChange), r.WeightChange)
				row[5], row[6] = signed(u.Space(r.VolumeChange), r.VolumeChange), balance
			}
			g.append("", row...)
		}
	}
	s.Add(Section{Title: "What could replace it, the best first", Table: g})
	if len(x.Short) > 0 {
		s.Add(Section{Title: "What is missing without it", Table: shortGrid(x.Short, len(p.People))})
	}
	return s
}

// shortNames lists nutrients that are short, each once.
func shortNames(list []solver.Shortfall) string {
	var names []string
	for _, s := range list {
		if name := NutrientName(s.Nutrient); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return strings.Join(names, ", ")
}

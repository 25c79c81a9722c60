package report

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/headline"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/cmd/rationwright/internal/view"
	"rationwright/solver/ration"
	"rationwright/solver/swap"
)

// Swap lays out a changed plan: what goes and comes, what that changes, and
// the new plan's list.
func Swap(s *swap.Swap, u sheet.Units) *sheet.Sheet {
	out := &sheet.Sheet{Alerts: headline.Plan(s.Plan).Lines()}
	if s.Plan.Infeasible() {
		out.Add(sheet.Section{Title: "The swap", Lead: []string{sheet.Sentence(s.Warning)}})
		nothingFits(out, s.Plan, currency(s.Plan), u)
		return out
	}
	v := view.Of(s.Plan)
	out.Add(swapHead(s, u), packChanges("Out", s.Out), packChanges("In", s.In), needChanges(s),
		shopping(s.Plan, v, u), totals(s.Plan, v, u), short(s.Plan), cautions(s.Plan))
	return out
}

// Swapped lays out what a swap changes in short, without the new plan.
func Swapped(s *swap.Swap, u sheet.Units) *sheet.Sheet {
	out := &sheet.Sheet{}
	out.Add(swapHead(s, u), packChanges("Out", s.Out), packChanges("In", s.In), sheet.Section{Lead: needChanges(s).Lead})
	return out
}

func swapHead(s *swap.Swap, u sheet.Units) sheet.Section {
	proof := "proven to be the fewest"
	if !s.Proven {
		proof = fmt.Sprintf("the fewest found; no plan within the spread changes fewer than %d", s.ChangesBound)
	}
	lines := sheet.Lines{
		fmt.Sprintf("%s: %s.", sheet.Count(s.Changes, "pack of another food changes", "packs of other foods change"), proof),
		fmt.Sprintf("Cost %s %s, weight %s, shelf space %s.", sheet.Signed(sheet.Money(s.CostChange), s.CostChange), currency(s.Plan),
			sheet.Signed(u.Weight(s.WeightChange), s.WeightChange), sheet.Signed(u.Space(s.VolumeChange), s.VolumeChange)),
	}
	if s.Best != nil {
		lines = append(lines, fmt.Sprintf("The best plan found after the change comes to %s, this one to %s; up to %s was allowed.",
			Total(s.Plan, s.Plan.Least, *s.Best, u), Total(s.Plan, s.Plan.Least, *s.Plan.Value, u), Total(s.Plan, s.Plan.Least, s.Most, u)))
	}
	lines.If(s.Warning != "", "NOTE: %s", sheet.Sentence(s.Warning))
	return sheet.Section{Title: "The swap", Lead: lines}
}

func packChanges(title string, list []swap.PackChange) sheet.Section {
	g := sheet.NewGrid(">packs", "~food", "=pack")
	for _, c := range list {
		g.Row("", strconv.Itoa(c.Count), c.Food, c.Pack)
	}
	return sheet.Section{Title: title, Table: g}
}

// Changes of what people get are shown from five per cent; what is short is shown
// always. The order is that of the swap: losses first.
const (
	shownChange  = 0.05
	shownChanges = 12
)

func needChanges(s *swap.Swap) sheet.Section {
	g := sheet.NewGrid("~who", "nutrient", ">before", ">after", ">at least", "unit", "mark")
	for _, n := range s.Needs {
		if !n.Short() && (math.Abs(n.After-n.Before) < shownChange*math.Abs(n.Before) || len(g.Rows()) >= shownChanges) {
			continue
		}
		floor, mark := "", ""
		if n.Floor != nil {
			floor = sheet.Amount(*n.Floor)
		}
		if n.Short() {
			mark = "SHORT"
		}
		g.Row("", facts.Printable(n.Person), sheet.Nutrient(n.Nutrient), sheet.Amount(n.Before), sheet.Amount(n.After), floor, unitOf(n.Unit, n.Nutrient), mark)
	}
	sec := sheet.Section{Title: "What changes most for whom, a day", Table: g}
	if len(g.Rows()) > 0 || len(s.Plan.Shortfalls) > 0 {
		sec.Lead = []string{keptNeeds(s.Plan)}
		sec.Notes = []string{"What falls short stands first, then what falls nearest to its least, then other changes; --format json lists all."}
	}
	return sec
}

// keptNeeds says whether everyone gets every need, or names what is short and for
// whom.
func keptNeeds(p *ration.Plan) string {
	if len(p.Shortfalls) == 0 {
		return "Everyone still gets every need."
	}
	var parts []string
	for _, need := range byNeed(p.Shortfalls) {
		worst := slices.MinFunc(need, byShare)
		who := "at worst " + facts.Printable(worst.Person) + ", with"
		if len(need) == 1 {
			who = "gets"
		}
		parts = append(parts, fmt.Sprintf("%s for %s (%s %s %% of it)", sheet.Nutrient(worst.Nutrient), whoIsShort(need, len(p.People)), who, sheet.Percent(share(worst))))
	}
	return "NOT EVERY NEED IS MET. Short: " + strings.Join(parts, "; ") + "."
}

// Replacing lays out what could stand in for a food of p.
func Replacing(x *swap.Replacing, p *ration.Plan, u sheet.Units) *sheet.Sheet {
	s := &sheet.Sheet{Alerts: headline.Plan(p).Lines()}
	head := sheet.Section{Title: "Instead of " + facts.Printable(x.InsteadOf) + sheet.Around(" for ", facts.Printable(x.For), "")}
	switch {
	case x.Needless:
		head.Lead = []string{"Nothing need replace it: the rest of the plan meets every need without it."}
	case len(x.Replacements) == 0:
		head.Lead = []string{"No single food comes nearer to what it gives. \"swap --drop\" looks for several together."}
	default:
		head.Lead = []string{"Each of these would stand in by itself, with every other pack of the plan as it is; nothing is changed yet. The changes count the food as not bought."}
	}
	s.Add(head)
	cost := strings.TrimSuffix(">cost, "+currency(p), ", ")
	g := sheet.NewGrid("~food", ">packs", "=pack", cost, ">weight", ">space", "~balance")
	for _, r := range x.Replacements {
		balance := "kept"
		if !r.Balanced {
			balance = "short: " + shortNames(r.Short)
		}
		for k, c := range r.Packs {
			if k > 0 { // what holds for all of them is said once
				g.Row("", "", strconv.Itoa(c.Count), c.Pack, "", "", "", "")
				continue
			}
			g.Row("", r.Food, strconv.Itoa(c.Count), c.Pack, sheet.Signed(sheet.Money(r.CostChange), r.CostChange),
				sheet.Signed(u.Weight(r.WeightChange), r.WeightChange), sheet.Signed(u.Space(r.VolumeChange), r.VolumeChange), balance)
		}
	}
	s.Add(sheet.Section{Title: "What could replace it, the best first", Table: g})
	s.Add(sheet.Section{Title: "What is missing without it", Table: shortGrid(x.Short, len(p.People))})
	return s
}

// shortNames lists nutrients that are short, each once.
func shortNames(list []ration.Shortfall) string {
	var names []string
	for _, s := range list {
		names = addOnce(names, sheet.Nutrient(s.Nutrient))
	}
	return strings.Join(names, ", ")
}

package report

import (
	"fmt"
	"slices"
	"strings"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/ration"
)

// touching is how near to a limit, as a fraction of it, an amount is said to
// stand at it: the tolerance of the plan's own check, rounded to what a table
// can show.
const touching = 1e-4

// short lists who gets less than their target of a vitamin that the body
// stores.
func short(p *ration.Plan) sheet.Section {
	return sheet.Section{Title: "Who is short, and of what", Table: shortGrid(p.Shortfalls, len(p.People)),
		Notes: []string{"Ask a pharmacist or a clinician about a supplement."}}
}

// Person is what one person gets each day against their needs, the rules they
// are fed by, and the cautions that touch them.
func Person(e *ration.PlanPerson, p *ration.Plan, u sheet.Units) sheet.Section {
	title := fmt.Sprintf("What %s gets a day", facts.Printable(e.Name))
	if e.Count > 1 {
		title = fmt.Sprintf("What each of the %d people of row %s gets a day", e.Count, facts.Printable(e.Name))
	}
	g := sheet.NewGrid("nutrient", ">gets", ">at least", ">at most", "unit", ">% of need", "~mark")
	isShort := func(nutrient string) bool {
		return slices.ContainsFunc(p.Shortfalls, func(s ration.Shortfall) bool { return s.Person == e.Name && s.Nutrient == nutrient })
	}
	for i := range e.Needs {
		n := &e.Needs[i]
		g.Row("", sheet.Nutrient(n.Nutrient), sheet.Amount(n.Amount), atLeast(n), optional(n.Ceiling), n.Unit, ofNeed(n), mark(n, isShort(n.Nutrient)))
	}
	sec := sheet.Section{Title: title, Table: g}
	sec.Notes.If(e.DrinkLPerDay > 0, "Drinks %s of water a day.", u.Drink(e.DrinkLPerDay))
	var rules []string
	for _, r := range e.Rules {
		rules = append(rules, "- "+sheet.Sourced(r.Text, r.Source))
	}
	sec.List("Rules:", rules)
	sec.List("Take care:", warnings(p, func(c *ration.Caution) []string {
		if !slices.Contains(c.People, e.Name) {
			return nil
		}
		return []string{""}
	}))
	return sec
}

// atLeast is the floor, or in brackets the published figure that is shown
// without being enforced.
func atLeast(n *ration.PersonNeed) string {
	if n.Floor == nil && n.Target != nil {
		return "(" + sheet.Figure(*n.Target) + ")"
	}
	return optional(n.Floor)
}

// ofNeed is the amount as a percentage of the floor, or of the target where no
// floor is enforced.
func ofNeed(n *ration.PersonNeed) string {
	switch {
	case n.Floor != nil && *n.Floor > 0:
		return sheet.Percent(n.Amount / *n.Floor)
	case n.Target != nil && *n.Target > 0:
		return sheet.Percent(n.Amount / *n.Target)
	}
	return ""
}

// mark says where an amount stands between its limits.
func mark(n *ration.PersonNeed, isShort bool) string {
	var words sheet.Lines
	switch {
	case isShort, n.Floor != nil && n.Amount < *n.Floor*(1-touching):
		words = append(words, "SHORT")
	case n.Floor != nil && n.Amount <= *n.Floor*(1+touching):
		words = append(words, "at the floor")
	}
	switch {
	case n.Ceiling != nil && n.Amount > *n.Ceiling*(1+touching):
		words = append(words, "OVER")
	case n.Ceiling != nil && *n.Ceiling > 0 && n.Amount >= *n.Ceiling*(1-touching):
		words = append(words, "at the ceiling")
	}
	words.If(n.Floor == nil && n.Ceiling == nil, "for information")
	words.If(n.Unknown, "some foods unknown")
	return strings.Join(words, ", ")
}

// optional writes an amount that may be absent.
func optional(v *float64) string {
	if v == nil {
		return ""
	}
	return sheet.Figure(*v)
}

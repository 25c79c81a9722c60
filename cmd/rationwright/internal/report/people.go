package report

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"rationwright/nutrients"
	"rationwright/solver"
)

// touching is how near to a limit, as a fraction of it, an amount is said to
// stand at it: the tolerance of the plan's own check, rounded to what a table
// can show.
const touching = 1e-4

// short lists who gets less than their target of a vitamin that the body
// stores.
func short(p *solver.Plan) Section {
	if len(p.Shortfalls) == 0 {
		return Section{}
	}
	return Section{Title: "Who is short, and of what", Table: shortGrid(p.Shortfalls, len(p.People)),
		Notes: []string{"Ask a pharmacist or a clinician about a supplement."}}
}

// person is what one person gets each day against their needs, the rules they
// are fed by, and the cautions that touch them.
func person(e *solver.PlanPerson, p *solver.Plan, u Units) Section {
	title := fmt.Sprintf("What %s gets a day", clean(e.Name))
	if e.Count > 1 {
		title = fmt.Sprintf("What each of the %d people of row %s gets a day", e.Count, clean(e.Name))
	}
	g := &Grid{Columns: []Column{{Name: "nutrient"}, {Name: "gets", Right: true}, {Name: "at least", Right: true},
		{Name: "at most", Right: true}, {Name: "unit"}, {Name: "% of need", Right: true}, {Name: "mark", Wrap: true}}}
	isShort := map[string]bool{}
	for _, s := range p.Shortfalls {
		if s.Person == e.Name {
			isShort[s.Nutrient] = true
		}
	}
	for i := range e.Needs {
		n := &e.Needs[i]
		g.append("", NutrientName(n.Nutrient), amount(n.Amount), atLeast(n), optional(n.Ceiling), n.Unit, ofNeed(n), mark(n, isShort[n.Nutrient]))
	}
	sec := Section{Title: title, Table: g}
	if e.DrinkLPerDay > 0 {
		sec.Notes = append(sec.Notes, fmt.Sprintf("Drinks %s of water a day.", u.Drink(e.DrinkLPerDay)))
	}
	sec.add("Rules:", rules(e))
	sec.add("Take care:", warnings(p, func(c *solver.Caution) []string {
		if !slices.Contains(c.People, e.Name) {
			return nil
		}
		return []string{""}
	}))
	return sec
}

// add writes lines under a heading after the table, or nothing.
func (sec *Section) add(heading string, lines []string) {
	if len(lines) > 0 {
		sec.Notes = append(append(sec.Notes, heading), lines...)
	}
}

// rules lists the rule set of a person, each line with its source.
func rules(e *solver.PlanPerson) []string {
	var lines []string
	for _, r := range e.Rules {
		lines = append(lines, "- "+sourced(r.Text, r.Source))
	}
	return lines
}

// atLeast is the floor, or in brackets the published figure that is shown
// without being enforced.
func atLeast(n *solver.PersonNeed) string {
	if n.Floor == nil && n.Target != nil {
		return "(" + figure(*n.Target) + ")"
	}
	return optional(n.Floor)
}

// ofNeed is the amount as a percentage of the floor, or of the target where no
// floor is enforced.
func ofNeed(n *solver.PersonNeed) string {
	switch {
	case n.Floor != nil && *n.Floor > 0:
		return percent(n.Amount / *n.Floor)
	case n.Target != nil && *n.Target > 0:
		return percent(n.Amount / *n.Target)
	}
	return ""
}

// mark says where an amount stands between its limits.
func mark(n *solver.PersonNeed, isShort bool) string {
	var words []string
	switch {
	case isShort:
		words = append(words, "SHORT")
	case n.Floor != nil && n.Amount < *n.Floor*(1-touching):
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
	if n.Floor == nil && n.Ceiling == nil {
		words = append(words, "not enforced")
	}
	if n.Unknown {
		words = append(words, "some foods unknown")
	}
	return strings.Join(words, ", ")
}

// optional writes an amount that may be absent.
func optional(v *float64) string {
	if v == nil {
		return ""
	}
	return figure(*v)
}

// vitamin finds the letter of a vitamin that a key or a limit names.
var vitamin = regexp.MustCompile(`\bvitamin ([a-z])(\d*)( iu)?\b`)

// NutrientName writes the key of a nutrient, or a limit that holds one, in
// plain words: "vitamin_b6" becomes "vitamin B6".
func NutrientName(key string) string {
	if !strings.Contains(key, " ") {
		key = strings.ReplaceAll(key, "-", " ") // the key of a food group
	}
	return vitamin.ReplaceAllStringFunc(strings.ReplaceAll(clean(key), "_", " "), func(found string) string {
		return "vitamin " + strings.ToUpper(strings.TrimPrefix(found, "vitamin "))
	})
}

// unitOf returns unit, or the unit of the nutrient's own column where none is
// given.
func unitOf(unit, key string) string {
	if unit != "" {
		return unit
	}
	if n, ok := nutrients.ByName(key); ok {
		return n.Unit()
	}
	return ""
}

// sourced writes a statement with its source in brackets, unless it has none.
func sourced(text, source string) string {
	text = sentence(text)
	if source = strings.TrimSpace(source); source == "" {
		return text
	}
	return strings.TrimSuffix(text, ".") + " (" + strings.TrimSuffix(source, ".") + ")."
}

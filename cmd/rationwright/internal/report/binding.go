package report

import (
	"math"
	"slices"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/ration"
)

// mostPrices is how many limits the table form shows; csv and json hold all.
const mostPrices = 12

// binding says which limits the plan pays for, dearest first as the plan lists
// them.
func binding(p *ration.Plan) sheet.Section {
	g := sheet.NewGrid("~limit", "~for", ">one unit more changes the total by about", "unit")
	unit := unitOfLeast(p.Least, currency(p))
	for _, price := range p.Prices[:min(len(p.Prices), mostPrices)] {
		g.Row("", sheet.Nutrient(price.Limit), price.Person, sheet.Signed(marginal(price.Marginal), price.Marginal),
			unit+sheet.Around(" per ", price.Unit, ""))
	}
	sec := sheet.Section{Title: "What drives the " + string(p.Least), Table: g,
		Notes: []string{"These prices hold if packs could be split, so they are about right for small changes only."}}
	several := slices.ContainsFunc(p.People, func(e ration.PlanPerson) bool { return e.Count > 1 })
	sec.Notes.If(several, "Where a row of the household stands for several alike people, the price is that of one of them.")
	left := len(p.Prices) - mostPrices
	sec.Notes.If(left > 0, "%s more: --format csv or json lists them all.", sheet.Count(left, "limit binds", "limits bind"))
	return sec
}

// marginal writes a price to two significant digits: it is about right, no
// more.
func marginal(v float64) string {
	a := math.Abs(v)
	if a == 0 {
		return "0"
	}
	places := 1 - int(math.Floor(math.Log10(a)))
	if places < 0 {
		step := math.Pow(10, float64(-places))
		return sheet.Decimals(math.Round(v/step)*step, 0)
	}
	return sheet.Decimals(v, min(places, 8))
}

// cautions lists the warnings that concern everybody, and those of people who
// have no section of their own: refused, or of a ration that does not fit.
func cautions(p *ration.Plan) sheet.Section {
	own := map[string]bool{}
	if !p.Infeasible() {
		for _, e := range p.People {
			own[e.Name] = true
		}
	}
	return sheet.Section{Title: "Take care", Lead: warnings(p, func(c *ration.Caution) []string {
		if len(c.People) == 0 {
			return []string{""}
		}
		return slices.DeleteFunc(slices.Clone(c.People), func(name string) bool { return own[name] })
	})}
}

// warnings lists, the gravest first as the plan has them, the cautions for
// which who names somebody; the name "" is not written.
func warnings(p *ration.Plan, who func(*ration.Caution) []string) []string {
	var lines []string
	for i := range p.Cautions {
		c := &p.Cautions[i]
		people := who(c)
		if len(people) == 0 {
			continue
		}
		text := sheet.Sentence(c.Text)
		if people[0] != "" {
			text = sheet.Names(people) + ": " + text
		}
		if c.Severity == "stop" {
			text = "STOP. " + text
		}
		lines = append(lines, "- "+sheet.Sourced(text, c.Source))
	}
	return lines
}

package report

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/ration"
)

// nothingFits lays out an infeasible answer: what conflicts, what would have to
// give, and what the ration that comes closest lacks. What each person gets in
// that ration is in the csv and json forms.
func nothingFits(s *sheet.Sheet, p *ration.Plan, currency string, u sheet.Units) {
	s.Add(conflict(p))
	s.Add(waysOut(p, currency))
	if p.WaterShort != nil {
		s.Add(waterShort(p.WaterShort, u))
	}
	if p.Closest == nil {
		return
	}
	s.Add(sheet.Section{Title: "The ration that comes closest lacks", Table: shortGrid(p.Closest.Shortfalls, len(p.Closest.People))})
	s.Add(overSection(p.Closest.Over))
	if len(p.Closest.Packs) > 0 {
		g := sheet.NewGrid(">packs", "~food", "=pack", ">each holds")
		for _, k := range p.Closest.Packs {
			g.Row("", strconv.Itoa(k.Count), k.Food, k.Pack, u.Net(k.NetG))
		}
		s.Add(sheet.Section{Title: "The packs of the ration that comes closest", Table: g,
			Lead: []string{"This is not a balanced ration: it shows how near the limits allow."}})
	}
}

// conflict lists the limits that cannot all hold.
func conflict(p *ration.Plan) sheet.Section {
	sec := sheet.Section{Title: "What cannot be met together"}
	if len(p.Conflict) == 0 {
		return sheet.Section{}
	}
	for _, c := range p.Conflict {
		text := sheet.Around("", facts.Printable(c.Person), ": ") + grouped(sheet.Nutrient(c.Limit))
		sec.Lead = append(sec.Lead, "- "+sheet.Sentence(text))
	}
	if p.Proven == nil { // nothing was searched, as where everyone is refused
		return sec
	}
	switch proven := *p.Proven; {
	case proven && len(p.Conflict) == 1:
		sec.Notes = []string{"Proven: this cannot be met whatever needs are given up."}
		if p.Conflict[0].Person == "" {
			sec.Notes = []string{"Proven: this cannot be met with the water to be stored for drinking and washing, whatever else is given up."}
		}
	case proven:
		sec.Notes = []string{"Proven: any one of these less, and the others can be met."}
	default:
		sec.Notes = []string{"Not proven in the time: fewer of these may already conflict."}
	}
	return sec
}

// waysOut lists the single changes that were tried, what they cost in currency,
// which may be "".
func waysOut(p *ration.Plan, currency string) sheet.Section {
	sec := sheet.Section{Title: "Ways out"}
	for _, w := range p.WaysOut {
		line := "- " + sheet.Sentence(grouped(sheet.Nutrient(w.Change)))
		if w.Cost != nil { // of the plan that a quick search found, rounded up
			line += " A plan then costs at most " + strings.TrimSpace(sheet.Money(math.Ceil(100**w.Cost-1e-6)/100)+" "+facts.Printable(currency)) + "."
		}
		if w.Tested {
			line += " Tested: a ration exists then."
		} else {
			line += " Not tested."
		}
		sec.Lead = append(sec.Lead, line)
	}
	return sec
}

// stated finds the amounts that a sentence of the model states: those of a limit,
// and those with which a way out begins. Years and dates are no amounts.
var stated = regexp.MustCompile(`(^|\b(?:at least|at most|to) )([0-9]+(?:\.[0-9]+)?(?:e\+[0-9]+)?)( )`)

// grouped writes the amounts in text as all other figures are written, with a
// comma between thousands; their decimals stay.
func grouped(text string) string {
	return stated.ReplaceAllStringFunc(text, func(found string) string {
		part := stated.FindStringSubmatch(found)
		v, err := strconv.ParseFloat(part[2], 64)
		if err != nil {
			return found
		}
		places := 0
		if _, rest, ok := strings.Cut(part[2], "."); ok && !strings.Contains(rest, "e") {
			places = len(rest)
		}
		return part[1] + sheet.Decimals(v, places) + part[3]
	})
}

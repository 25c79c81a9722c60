package report

import (
	"fmt"
	"strings"

	"rationwright/solver"
)

// Plan lays out p in the order in which it is used: who is not fed, what to
// buy, what it comes to, what each person gets, which limits bind, what to
// take care of, what is assumed.
func Plan(p *solver.Plan, u Units) *Sheet {
	s := &Sheet{Alerts: alerts(p)}
	s.Add(headline(p, u))
	if p.Status == "infeasible" {
		nothingFits(s, p, currency(p), u)
	} else {
		s.Add(shopping(p, u))
		s.Add(totals(p, u))
		for _, sec := range shelfFit(p.Shelves, u) {
			s.Add(sec)
		}
		s.Add(short(p))
		for _, sec := range eats(p, u) {
			s.Add(sec)
		}
		for i := range p.People {
			s.Add(person(&p.People[i], p, u))
		}
		s.Add(binding(p))
		s.Add(audit(p))
	}
	s.Add(cautions(p))
	s.Add(assumed(p))
	return s
}

// alerts returns the lines that stand before everything else.
func alerts(p *solver.Plan) []string { return notFed(p.Refused) }

// notFed says first whom an answer does not feed, and then why.
func notFed(refused []solver.Refused) []string {
	var lines []string
	for _, r := range refused {
		lines = append(lines, "THIS PLAN DOES NOT FEED "+strings.ToUpper(clean(r.Name)))
	}
	for _, r := range refused {
		lines = append(lines, fmt.Sprintf("- %s: %s Their drinking water is stored all the same. Source: %s.", r.Name, sentence(r.Reason), strings.TrimSuffix(r.Source, ".")))
	}
	return lines
}

// headline says in two lines what this is and how good it is.
func headline(p *solver.Plan, u Units) Section {
	heads, rows := 0, 0
	for _, person := range p.People {
		heads, rows = heads+person.Count, rows+1
	}
	if p.Status == "infeasible" {
		return Section{Lead: []string{"No ration meets all of these limits."}}
	}
	line := fmt.Sprintf("Ration for %s for %s, least %s", count(heads, "person", "people"), count(p.Days, "day", "days"), p.Least)
	if p.Value != nil {
		line += ": " + objective(p, *p.Value, u)
	}
	sec := Section{Lead: []string{line + ".", proof(p, u)}}
	if demo := fromDemo(p); demo != "" {
		sec.Lead = append(sec.Lead, demo)
	}
	return sec
}

// objective writes a value of the plan's objective in its unit.
func objective(p *solver.Plan, v float64, u Units) string {
	switch p.Least {
	case solver.LeastWeight:
		return u.Weight(v)
	case solver.LeastVolume:
		return u.Space(v)
	default:
		return costOf(p, v)
	}
}

// costOf writes an amount of the plan's currency; one that is not named is left
// out.
func costOf(p *solver.Plan, v float64) string {
	return strings.TrimSpace(money(v) + " " + currency(p))
}

func currency(p *solver.Plan) string {
	if p.Totals == nil {
		return ""
	}
	return clean(p.Totals.Currency)
}

// provenGap is the gap under which a plan is called the best possible: the
// size to which the program's own arithmetic is checked.
const provenGap = 1e-6

// proof says in words how close to the best possible the plan is known to be.
func proof(p *solver.Plan, u Units) string {
	if p.Gap == nil || p.Bound == nil {
		return "How close this is to the best possible is not known."
	}
	if *p.Gap <= provenGap {
		return "Proven: no plan in whole packs does better."
	}
	line := fmt.Sprintf("Proven within %s of the best possible: no plan in whole packs does better than %s.", gapPercent(*p.Gap), objective(p, *p.Bound, u))
	if p.Status == "limit" {
		line += " The search was stopped before it reached the gap asked for"
		if p.Stopped != "" {
			line += " (" + p.Stopped + ")"
		}
		line += "."
	}
	return line
}

// count writes a number with its noun.
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return decimals(float64(n), 0) + " " + many
}

// sentence ends text with a full stop and starts it with a capital.
func sentence(text string) string {
	text = strings.TrimSpace(clean(text))
	if text == "" {
		return ""
	}
	if !strings.HasSuffix(text, ".") && !strings.HasSuffix(text, "!") && !strings.HasSuffix(text, "?") {
		text += "."
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

package page

import (
	"fmt"
	"time"

	"rationwright/cmd/rationwright/internal/report"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/ration"
)

// got says of each standard what everyone gets, as it is said at a kitchen table.
var got = map[string]string{
	"rda":   "Everyone who is fed gets the whole of the published daily needs (RDA or AI).",
	"ear":   "Everyone who is fed gets the published daily needs of groups (EAR). They are lower than the whole needs: half of all people need more.",
	"basic": "Everyone who is fed gets the energy, protein and water they need. Vitamins and minerals were not looked at.",
}

// lead says in everyday words who, how long, whether it is enough, and how good.
func (r *Report) lead(p *ration.Plan) []string {
	when := fmt.Sprintf("For %s, %s", sheet.Count(r.Heads, "person", "people"), sheet.Count(r.Days, "day", "days"))
	if r.From != "" {
		when += fmt.Sprintf(": %s to %s", weekday(r.From), weekday(r.Until))
	}
	lines := sheet.Lines{when + "."}
	lines.If(r.Demo != "", "%s", r.Demo)
	if len(r.Shortfalls) == 0 && len(p.People) > 0 {
		said, ok := got[p.Standard]
		if !ok {
			said = "Everyone who is fed gets all that the standard " + p.Standard + " asks for."
		}
		lines = append(lines, said)
	}
	lines = append(lines, r.better(p))
	lines = append(lines, report.Loosened(p)...)
	if w := r.Water; w != nil && w.AdviceL > 0 {
		lines = append(lines, fmt.Sprintf("Store %s of water or more. Published advice is %s (%s), which has room for washing and for cooking of any kind.", r.Units.Water(w.PlanL), r.Units.Water(w.AdviceL), w.Advice))
	}
	return lines
}

// better says how much better another plan could be.
func (r *Report) better(p *ration.Plan) string {
	adjective := map[ration.Least]string{ration.LeastCost: "cheaper", ration.LeastWeight: "lighter", ration.LeastVolume: "smaller"}[p.Least]
	amount := func(v float64) string { return report.Total(p, p.Least, v, r.Units) }
	if p.Value == nil || p.Bound == nil || p.Proof() == nil {
		return "Whether there is a " + adjective + " one is not known."
	}
	line, best := "", *p.Value
	if p.First != nil {
		best = p.First.Value
		if more := *p.Value - best; more > 0 {
			line = fmt.Sprintf("It takes %s more than the best plan found, so that people would rather eat it. ", amount(more))
		}
	}
	if *p.Proof() <= report.ProvenGap {
		return line + "There is none " + adjective + " that gives everyone the same."
	}
	return line + fmt.Sprintf("A %s one may exist, but none saves more than %s (%s).", adjective, amount(best-*p.Bound), sheet.GapPercent(*p.Proof()))
}

// weekday, longDate and shortDate write an ISO date as people do; what is no date
// stays as it is.
func weekday(iso string) string   { return dated(iso, "Monday 2 January 2006") }
func longDate(iso string) string  { return dated(iso, "2 January 2006") }
func shortDate(iso string) string { return dated(iso, "2 January") }

func dated(iso, form string) string {
	day, err := time.Parse(time.DateOnly, iso)
	if err != nil {
		return iso
	}
	return day.Format(form)
}

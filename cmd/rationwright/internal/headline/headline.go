package headline

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rationwright/cmd/rationwright/internal/exit"
	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/check"
	"rationwright/solver/ration"
)

// News is what is bad in an answer.
type News struct {
	Refused []ration.Refused   // whom a clinician must plan for
	Stop    []string           // whole sentences: nothing fits, the stock is short
	Short   []ration.Shortfall // needs that are not reached
	Over    []ration.Over      // ceilings that are passed

	Watered bool // the answer counts drinking water for the refused all the same
}

// Of is the news of a plan that an answer about it carries along.
func Of(n ration.NotFed) News {
	return News{Refused: n.Refused, Short: n.Shortfalls, Over: n.Over, Watered: true}
}

// Plan is the news of p.
func Plan(p *ration.Plan) News {
	news := Of(p.NotFed())
	if p.Infeasible() {
		news.Stop = []string{exit.Infeasible.Sentence}
	}
	return news
}

// Plans is the news of plans made side by side for the same people: what is bad
// in any of them.
func Plans(plans []*ration.Plan) News {
	var all News
	for k, p := range plans {
		one := Plan(p)
		if k == 0 {
			all = News{Refused: one.Refused, Stop: one.Stop, Watered: true}
		}
		all.Short, all.Over = append(all.Short, one.Short...), append(all.Over, one.Over...)
	}
	return all
}

// Check is the news of a stock; what it is short of is the answer itself.
func Check(c *check.StockCheck) News {
	news := News{Refused: c.Refused, Over: c.Over, Watered: true}
	if len(c.People) == 0 || c.Balanced {
		return news
	}
	news.Stop = []string{fmt.Sprintf(exit.StockShort.Sentence, sheet.Count(c.Horizon, "day", "days"))}
	if c.TopUp != nil && c.TopUp.Infeasible() {
		news.Stop = append(news.Stop, "NOTHING THAT COMPLETES IT FITS THE LIMITS GIVEN: what conflicts and what it would take is below.")
	}
	return news
}

// NotFed is what stands first wherever a person is not fed.
func NotFed(name string) string {
	return "THIS PLAN DOES NOT FEED " + strings.ToUpper(facts.Printable(name))
}

// Lines are the first lines of a text: [NotFed] of everyone, the rest, and then
// why people are not fed.
func (n News) Lines() []string {
	var lines []string
	for _, r := range n.Refused {
		lines = append(lines, NotFed(r.Name))
	}
	lines = append(lines, n.Rest()...)
	for _, r := range n.Refused {
		line := "- " + sheet.Sourced(r.Name+": "+strings.TrimSuffix(r.Reason, "."), r.Source)
		if n.Watered {
			line += " Drinking water for them is included."
		}
		lines = append(lines, line)
	}
	return lines
}

// Rest is the news besides those who are not fed.
func (n News) Rest() []string {
	lines := slices.Clone(n.Stop)
	var short []lack
	for _, s := range n.Short {
		if s.Target > 0 {
			short = add(short, s.Nutrient, s.Person, s.Amount/s.Target)
		}
	}
	if text := said(short, slices.Min[[]float64], func(v float64) float64 { return math.Floor(v + roundSlack) }); text != "" {
		lines = append(lines, "SHORT OF WHAT IS NEEDED: "+text)
	}
	var over []lack
	for _, o := range n.Over {
		if o.Ceiling > 0 {
			over = add(over, o.Nutrient, o.Person, o.Amount/o.Ceiling)
		}
	}
	if text := said(over, slices.Max[[]float64], func(v float64) float64 { return math.Ceil(v - roundSlack) }); text != "" {
		lines = append(lines, "ABOVE A CEILING: "+text)
	}
	return lines
}

// lack is one need with everyone who misses it, and the part of it that each has.
type lack struct {
	need   string
	people []string
	share  []float64
}

func add(list []lack, need, person string, share float64) []lack {
	need, _, _ = strings.Cut(need, " after day ") // said once, of whatever days
	k := slices.IndexFunc(list, func(l lack) bool { return l.need == need })
	if k < 0 {
		list, k = append(list, lack{need: need}), len(list)
	}
	if !slices.Contains(list[k].people, person) {
		list[k].people = append(list[k].people, person)
	}
	list[k].share = append(list[k].share, share)
	return list
}

// roundSlack, in per cent, keeps the rounding of float64 arithmetic from showing as
// a whole per cent: 3300 of 3000 is 110 %.
const roundSlack = 1e-6

// mostSaid is how many needs, and how many names with each, a first line holds.
const mostSaid = 3

// said puts lacks in one sentence: "Maja and Emil get 12 % of the vitamin D; 2 more
// needs". Per cents are rounded away from what is needed.
func said(list []lack, worst func([]float64) float64, round func(float64) float64) string {
	if len(list) == 0 {
		return ""
	}
	var parts []string
	for _, l := range list[:min(len(list), mostSaid)] {
		who, verb, at := people(l.people), "get", "at worst "
		switch {
		case l.people[0] == "":
			who, verb, at = "the household", "has", ""
		case len(l.people) == 1:
			verb, at = "gets", ""
		}
		parts = append(parts, fmt.Sprintf("%s %s %s%s %% of the %s", who, verb, at, sheet.Decimals(round(100*worst(l.share)), 0), sheet.Nutrient(l.need)))
	}
	if more := len(list) - mostSaid; more > 0 {
		parts = append(parts, "and "+sheet.Count(more, "more", "more"))
	}
	return strings.Join(parts, "; ") + "."
}

// people names a few and counts the others.
func people(names []string) string {
	if more := len(names) - mostSaid; more > 1 {
		return sheet.Names(append(slices.Clone(names[:mostSaid]), fmt.Sprintf("%d more", more)))
	}
	return sheet.Names(names)
}

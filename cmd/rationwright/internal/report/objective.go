package report

import (
	"cmp"
	"fmt"
	"strings"

	"rationwright/cmd/rationwright/internal/exit"
	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/cmd/rationwright/internal/view"
	"rationwright/solver/ration"
)

func currency(p *ration.Plan) string {
	if p.Totals == nil {
		return ""
	}
	return facts.Printable(p.Totals.Currency)
}

// costOf writes an amount of the plan's currency; one that is not named is left
// out.
func costOf(p *ration.Plan, v float64) string {
	return strings.TrimSpace(sheet.Money(v) + " " + currency(p))
}

// unitOfLeast is the unit of a total.
func unitOfLeast(l ration.Least, currency string) string {
	return cmp.Or(map[ration.Least]string{ration.LeastWeight: "kg", ration.LeastVolume: "L"}[l], currency)
}

// Total writes an amount of a total of p in its unit.
func Total(p *ration.Plan, l ration.Least, v float64, u sheet.Units) string {
	switch l {
	case ration.LeastWeight:
		return u.Weight(v)
	case ration.LeastVolume:
		return u.Space(v)
	default:
		return costOf(p, v)
	}
}

// demoOf is the sentence that says what of a plan is invented.
func demoOf(p *ration.Plan) string {
	if p.Request == nil {
		return ""
	}
	return view.Demo(p.Request.Demo)
}

// ProvenGap is the gap under which a plan is called the best possible: the
// size to which the program's own arithmetic is checked.
const ProvenGap = 1e-6

// proof says in words how close to the best possible the plan is known to be.
func proof(p *ration.Plan, u sheet.Units) string {
	gap, what := p.Proof(), "P"
	if p.First != nil {
		what = fmt.Sprintf("The best found, %s, is p", Total(p, p.Least, p.First.Value, u))
	}
	if gap == nil || p.Bound == nil {
		return "How close this is to the best possible is not known."
	}
	if *gap <= ProvenGap {
		return what + "roven: no plan in whole packs does better."
	}
	line := fmt.Sprintf("%sroven within %s of the best possible: no plan in whole packs does better than %s.", what, sheet.GapPercent(*gap), Total(p, p.Least, *p.Bound, u))
	if why := exit.OfPlan(p).Sentence; why != "" {
		line += " " + why + sheet.Around(" (", p.Stopped, ")") + "."
	}
	return line
}

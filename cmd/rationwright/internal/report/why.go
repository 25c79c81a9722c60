package report

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/headline"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/why"
)

// mostWhyLimits is how many limits the table form shows; csv and json hold all.
const mostWhyLimits = 20

// Why lays out what limits and foods are worth. foodsOnly leaves the limits out,
// where only some foods were asked about.
func Why(w *why.Why, foodsOnly bool) *sheet.Sheet {
	s := &sheet.Sheet{Alerts: headline.Of(w.NotFed).Lines()}
	head := sheet.Section{Title: fmt.Sprintf("Why this plan, by its prices: least %s", w.Least), Lead: []string{
		"All of these are about right and for small changes: they hold if packs could be split. A plan in whole packs follows them in steps.",
	}}
	head.Lead.If(!foodsOnly, "What a limit of a person is worth is for one person, where several alike stand in one row of the household as well.")
	head.Lead.If(w.Demo.Prices || w.Demo.Household, "People or prices are of the demo and invented.")
	s.Add(head)
	if !foodsOnly {
		s.Add(whyLimits(w))
	}
	s.Add(whyFoods(w, true, foodsOnly))
	s.Add(whyFoods(w, false, foodsOnly))
	s.Add(unsettled(w.Unsettled))
	return s
}

// whyLimits says in a sentence each what one unit more or less changes.
func whyLimits(w *why.Why) sheet.Section {
	sec := sheet.Section{Title: "What the limits are worth, the largest price times amount first"}
	for k, l := range w.Limits {
		if k == mostWhyLimits {
			sec.Notes = []string{fmt.Sprintf("%s more: --format csv or json lists them all.", sheet.Count(len(w.Limits)-k, "limit binds", "limits bind"))}
			break
		}
		sec.Lead = append(sec.Lead, "- "+limitSentence(w, l))
	}
	return sec
}

// limitSentence is what one limit is worth, in plain words.
func limitSentence(w *why.Why, l why.LimitPrice) string {
	per := l.Unit
	if l.Person != "" {
		per += " a day"
	}
	side := ""
	if l.Amount != nil {
		side = fmt.Sprintf(" (%s %s %s)", sideOf(&l), sheet.Figure(*l.Amount), l.Unit)
	}
	head := fmt.Sprintf("%s%s%s: ", sheet.Around("", facts.Printable(l.Person), ", "), sheet.Nutrient(l.Limit), side)
	more, less := *cmp.Or(l.More, &l.Marginal), *cmp.Or(l.Less, &l.Marginal)
	up := fmt.Sprintf("one %s more %s about %s", per, costsOrSaves(more), priceOf(w, more))
	down := fmt.Sprintf("one less %s about %s", costsOrSaves(-less), priceOf(w, less))
	switch {
	case l.NoMore && !l.AtMost:
		return head + "no more is possible; " + down + "."
	case l.NoMore:
		return head + up + "; no less is possible."
	case priceOf(w, more) == priceOf(w, less):
		return head + up + fmt.Sprintf(", one less %s as much.", costsOrSaves(-less))
	}
	return head + up + ", " + down + "."
}

// sideOf is on which side of a limit amounts are.
func sideOf(l *why.LimitPrice) string {
	return map[bool]string{false: "at least", true: "at most"}[l.AtMost]
}

func costsOrSaves(v float64) string {
	switch {
	case math.Abs(v) < 1e-12:
		return "changes it by"
	case v > 0:
		return "costs"
	default:
		return "saves"
	}
}

// priceOf writes the size of a price in the unit of the objective.
func priceOf(w *why.Why, v float64) string {
	return strings.TrimSpace(marginal(math.Abs(v)) + " " + facts.Printable(w.Unit))
}

package report

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"rationwright/solver"
)

// mostWhyLimits is how many limits the table form shows; csv and json hold all.
const mostWhyLimits = 20

// Why lays out what limits and foods are worth. foodsOnly leaves the limits out,
// where only some foods were asked about.
func Why(w *solver.Why, foodsOnly bool) *Sheet {
	s := &Sheet{}
	head := Section{Title: fmt.Sprintf("Why this plan, by its prices: least %s", w.Least), Lead: []string{
		"All of these are about right and for small changes: they are of the plan in parts of packs. A plan in whole packs follows them in steps.",
	}}
	if w.Demo.Prices || w.Demo.Household {
		head.Lead = append(head.Lead, "People or prices are of the demo and invented.")
	}
	s.Add(head)
	if !foodsOnly {
		s.Add(whyLimits(w))
	}
	s.Add(whyFoods(w, true, foodsOnly))
	s.Add(whyFoods(w, false, foodsOnly))
	return s
}

// whyLimits says in a sentence each what one unit more or less changes.
func whyLimits(w *solver.Why) Section {
	sec := Section{Title: "What the limits are worth, the largest first"}
	for k, l := range w.Limits {
		if k == mostWhyLimits {
			sec.Notes = []string{fmt.Sprintf("%s more: --format csv or json lists them all.", count(len(w.Limits)-k, "limit binds", "limits bind"))}
			break
		}
		sec.Lead = append(sec.Lead, "- "+limitSentence(w, l))
	}
	return sec
}

// limitSentence is what one limit is worth, in plain words.
func limitSentence(w *solver.Why, l solver.LimitPrice) string {
	who := ""
	if l.Person != "" {
		who = clean(l.Person) + ", "
	}
	per := l.Unit
	if l.Person != "" {
		per += " a day"
	}
	side := ""
	if l.Amount != 0 {
		side = "at least "
		if l.AtMost {
			side = "at most "
		}
		side = fmt.Sprintf(" (%s%s %s)", side, figure(l.Amount), l.Unit)
	}
	head := fmt.Sprintf("%s%s%s: ", who, NutrientName(l.Limit), side)
	more, less := l.Marginal, l.Marginal
	if l.More != nil {
		more = *l.More
	}
	if l.Less != nil {
		less = *l.Less
	}
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
func priceOf(w *solver.Why, v float64) string {
	return strings.TrimSpace(marginal(math.Abs(v)) + " " + clean(w.Unit))
}

// whyFoods tells at what prices foods leave, or come in: by the pack that decides,
// or by every pack.
func whyFoods(w *solver.Why, chosen, every bool) Section {
	title, price := "What is chosen, and how far its price may rise", "goes above"
	if !chosen {
		title, price = "What is not chosen, and the price at which it comes in", "comes in below"
	}
	if w.Least != solver.LeastCost {
		title = strings.ReplaceAll(title, "price", string(w.Least))
	}
	g := &Grid{Columns: []Column{{Name: "food", Wrap: true}, {Name: "in plan", Right: true}, {Name: "as a whole", Right: true},
		{Name: "pack", Wrap: true}, {Name: "now", Right: true}, {Name: price, Right: true}}}
	for _, f := range w.Foods {
		if f.Chosen != chosen {
			continue
		}
		shown := f.Packs
		if k := decisive(&f); !every && k >= 0 {
			shown = f.Packs[k : k+1]
		}
		for k, p := range shown {
			name, inPlan, whole := "", "", ""
			if k == 0 {
				name, inPlan, whole = f.Food, strconv.Itoa(f.InPlan), change(f.Factor)
			}
			text := "no price"
			switch {
			case p.Leaves != nil:
				text = money(*p.Leaves)
			case p.Enters != nil && !chosen:
				text = money(*p.Enters)
			case p.Enters != nil:
				text = "in below " + money(*p.Enters)
			}
			g.append("", name, inPlan, whole, p.Pack, money(p.Price), text)
		}
	}
	return Section{Title: title, Table: g, Notes: notesIf(len(g.rows()) > 0,
		"\"as a whole\": all its prices together. \"in plan\": packs of it in the plan in whole packs. Every pack of a food: --food, csv or json.")}
}

// decisive is the pack that is chosen, or of those that are not the one nearest
// to it; -1 where there is none.
func decisive(f *solver.FoodPrice) int {
	best, near := -1, 0.0
	for k, p := range f.Packs {
		switch {
		case p.Chosen > 0:
			return k
		case p.Enters != nil && p.Price > 0 && *p.Enters/p.Price > near:
			best, near = k, *p.Enters/p.Price
		}
	}
	return best
}

// change writes a factor on a price as a change in per cent.
func change(factor *float64) string {
	if factor == nil {
		return "no price"
	}
	v := 100 * (*factor - 1)
	return signed(decimals(v, 0), v) + " %"
}

// WhyCSV writes prices as one flat table, one limit or pack a row.
func WhyCSV(w io.Writer, y *solver.Why) error {
	rows := [][]string{{"section", "person", "limit", "unit", "amount", "side", "marginal", "more", "less", "no_more", "food", "ndb", "chosen", "in_plan", "factor", "pack", "price", "packs", "enters", "leaves", "price_unit"}}
	for _, l := range y.Limits {
		side := "at least"
		if l.AtMost {
			side = "at most"
		}
		rows = append(rows, []string{"limit", l.Person, l.Limit, l.Unit, num(l.Amount), side, num(l.Marginal), maybe(l.More), maybe(l.Less), strconv.FormatBool(l.NoMore),
			"", "", "", "", "", "", "", "", "", "", y.Unit})
	}
	for _, f := range y.Foods {
		for _, p := range f.Packs {
			rows = append(rows, []string{"pack", "", "", "", "", "", "", "", "", "", f.Food, f.NDB, strconv.FormatBool(f.Chosen), strconv.Itoa(f.InPlan),
				maybe(f.Factor), p.Pack, num(p.Price), num(p.Chosen), maybe(p.Enters), maybe(p.Leaves), y.Unit})
		}
	}
	return writeRows(w, rows)
}

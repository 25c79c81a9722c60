package report

import (
	"cmp"
	"fmt"
	"strings"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/cmd/rationwright/internal/view"
	"rationwright/solver/ration"
)

// mostLines is how many foods of a shopping list have a line each on the first
// screen; longer lists have a line an aisle.
const mostLines = 26

// Brief lays out what fits a screen: the worst news, who, how long, totals, and
// the list to take to the shop. [Plan] has the rest.
func Brief(p *ration.Plan, u sheet.Units) *sheet.Sheet {
	v := view.Of(p)
	s := &sheet.Sheet{Alerts: v.Headline}
	if !v.Fits {
		nothingFits(s, p, currency(p), u)
		s.Add(sheet.Section{Lead: []string{"--full adds the packs of the closest ration, what to take care of and what is assumed."}})
		return s
	}
	list := briefList(v)
	list.Notes = append(list.Notes, v.Apart...)
	s.Add(Head(v, p, u), list)
	stops := 0
	for _, c := range v.Cautions {
		if c.Severity == "stop" {
			stops++
		}
	}
	more := "--full adds packs, costs and weights, who eats and gets what, and what is assumed."
	if len(v.Cautions) > 0 {
		more += fmt.Sprintf(" Before use read there %s, %d of them marked STOP.", sheet.Count(len(v.Cautions), "warning", "warnings"), stops)
	}
	s.Add(sheet.Section{Lead: []string{more}})
	return s
}

// Head is who, how long and what it comes to.
func Head(v *view.Plan, p *ration.Plan, u sheet.Units) sheet.Section {
	var who sheet.Lines
	for _, e := range v.People {
		who.If(e.Refused == nil, "%s", e.Name)
	}
	line := fmt.Sprintf("Ration for %s for %s", sheet.Count(v.Heads, "person", "people"), sheet.Count(v.Days, "day", "days"))
	if v.From != "" {
		line += fmt.Sprintf(", %s to %s", v.From, v.Until)
	}
	sec := sheet.Section{Lead: []string{line + ": " + sheet.Names(who) + "."}}
	sec.Lead.If(v.Demo != "", "%s", v.Demo)
	if t := v.Totals; t != nil {
		sec.Lead = append(sec.Lead, fmt.Sprintf("It comes to %s, %s and %s of shelf, stored water and fuel included. Least %s: %s",
			costOf(p, t.Cost), u.Weight(t.WeightKg), u.Space(t.VolumeL), v.Least, lowerFirst(proof(p, u))))
		sec.Lead = append(sec.Lead, byDishes(p, u)...)
		sec.Lead = append(sec.Lead, eatable(p, u)...)
		sec.Lead = append(sec.Lead, strings.Join(append([]string{fmt.Sprintf("Store %s of water. Cooking takes %s of heat.", u.Water(t.WaterL), u.Heat(t.HeatMJ))}, moreWater(v, u)...), " "))
	}
	sec.Lead.If(len(v.Shortfalls) == 0 && len(v.People) > 0, "Everyone fed gets all that the standard %s asks for.", p.Standard)
	return sec
}

func lowerFirst(text string) string { return strings.ToLower(text[:1]) + text[1:] }

// moreWater says where published advice would keep more water than the plan counts.
func moreWater(v *view.Plan, u sheet.Units) []string {
	if v.Water == nil || v.Water.AdviceL == 0 {
		return nil
	}
	return []string{fmt.Sprintf("More is advised, %s (%s), for washing and cooking of any kind.", u.Water(v.Water.AdviceL), v.Water.Advice)}
}

// briefList is the shopping list by aisle in everyday words.
func briefList(v *view.Plan) sheet.Section {
	foods := 0
	for _, a := range v.Shopping {
		foods += len(a.Foods)
	}
	g := sheet.NewGrid("aisle", "~buy")
	for _, a := range v.Shopping {
		var lines []string
		for _, f := range a.Foods {
			lines = append(lines, f.Name+": "+packsInWords(f.Packs))
		}
		if foods > mostLines {
			lines = []string{strings.Join(lines, "; ")}
		}
		name := a.Name
		if a.Foods[0].Reserve {
			name = "set aside"
		}
		for _, line := range lines {
			g.Row("", name, line)
			name = "" // an aisle is named once
		}
	}
	sec := sheet.Section{Title: "What to buy", Table: g}
	if foods == 0 {
		sec.Lead = []string{"Nothing."}
	}
	return sec
}

// packsInWords lists packs as a shop does: "2 × 907 g bag, 1 × 454 g bag (own)".
func packsInWords(packs []view.Packs) string {
	var parts sheet.Lines
	for _, k := range packs {
		size := cmp.Or(k.Size, k.Key)
		parts.If(k.Buy > 0, "%d × %s", k.Buy, size)
		parts.If(k.Own > 0, "%d × %s from your stock", k.Own, size)
	}
	return strings.Join(parts, ", ")
}

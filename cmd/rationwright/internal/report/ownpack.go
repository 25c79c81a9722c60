package report

import (
	"fmt"
	"strings"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods"
	"rationwright/nutrients"
)

// OwnPack lays out what was understood of a pack of the user's own and, where it is
// new too, of the food in it. Warnings stand first.
func OwnPack(p *foods.Pack, notes, warnings []string) *sheet.Sheet {
	f := p.Food
	s := &sheet.Sheet{}
	s.Add(sheet.Section{Lead: warnings})
	price := "no price: it is used from stock, never bought"
	if p.HasPrice {
		price = "price " + sheet.Money(p.Price)
	}
	lead := sheet.Lines{fmt.Sprintf("Pack %s: %s g on the label, %s g of it eaten (%s); with its container %s g and %s L; %s.",
		p.Key, sheet.Decimals(p.LabelG, 0), sheet.Decimals(p.NetG, 0), f.Basis, sheet.Decimals(p.GrossG, 0), sheet.Decimals(p.VolumeL, 2), price)}
	lead.If(p.Note != "", "%s", sheet.Sentence(sheet.Capital(p.Note)))
	if !f.Own {
		s.Add(sheet.Section{Title: "A pack of " + f.Name, Lead: lead})
		return s
	}
	s.Add(sheet.Section{Title: f.Name, Lead: append(lead, describe(f)[1:]...), Notes: notes})
	g := sheet.NewGrid("nutrient", ">in 100 g", "unit")
	var unknown []string
	for n := range nutrients.Count {
		if v, known := f.Per100g.Get(n); known {
			g.Row("", sheet.Nutrient(n.Name()), sheet.Amount(v), n.Unit())
		} else {
			unknown = append(unknown, sheet.Nutrient(n.Name()))
		}
	}
	sec := sheet.Section{Title: "Composition", Table: g}
	sec.Notes.If(len(unknown) > 0, "Unknown, which is not zero: %s.", strings.Join(unknown, ", "))
	s.Add(sec)
	s.Add(keepingOf(f), preparationOf(f))
	return s
}

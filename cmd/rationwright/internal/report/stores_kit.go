package report

import (
	"fmt"
	"strings"

	"rationwright/foods/stores"
	"rationwright/solver"
)

// kit is the supplies besides food, water and fuel, with the rule that gave
// each quantity.
func kit(lines []stores.KitLine) Section {
	g := &Grid{Columns: []Column{{Name: "quantity", Right: true}, {Name: "unit", Wrap: true}, {Name: "item", Wrap: true}, {Name: "rule", Wrap: true}, {Name: "source", Wrap: true}}}
	for _, l := range lines {
		quantity := ""
		if l.Quantity > 0 {
			quantity = decimals(float64(l.Quantity), 0)
		}
		item := l.Item
		if l.If != "" {
			item += " (if: " + l.If + ")"
		}
		if l.Note != "" {
			item += "; " + l.Note
		}
		g.append(strings.ReplaceAll(l.Category, "_", " "), quantity, l.Unit, item, l.Rule, quantitySource(&l))
	}
	return Section{Title: "Supplies", Table: g,
		Notes: []string{"A quantity is rounded up. \"source\" is that of the quantity."}}
}

// quantitySource is where the quantity of a supply comes from.
func quantitySource(l *stores.KitLine) string {
	if l.QtySource == "as source" {
		return ref(l.Ref)
	}
	return l.QtySource
}

// medicines is a list to discuss; it never names an amount.
func medicines(lines []stores.KitLine) Section {
	sec := Section{Title: "To discuss with a clinician or pharmacist"}
	for _, l := range lines {
		line := l.Item
		if l.If != "" {
			line += ", if " + strings.TrimPrefix(l.If, "if ")
		}
		if l.Note != "" {
			line += " (" + l.Note + ")"
		}
		sec.Lead = append(sec.Lead, "- "+sentence(line))
	}
	if len(sec.Lead) > 0 {
		sec.Notes = []string{"What, how much and for whom is the clinician's to say: no amount is given here."}
	}
	return sec
}

// pets is what the pets take.
func pets(s *solver.Stockpile, u Units) Section {
	p := s.PetNeeds
	if p == nil {
		return Section{}
	}
	var sources []string
	for _, r := range p.Water.Refs {
		sources = append(sources, ref(r))
	}
	return Section{Title: "Pets", Lead: []string{
		fmt.Sprintf("- Water: %s for %s over %s, in the water above: %s (%s).", u.Water(p.WaterL), count(s.Pets, "pet", "pets"), count(s.Days, "day", "days"), p.Water.Rule, strings.Join(sources, "; ")),
		fmt.Sprintf("- Food: %s of each animal's usual food; the amount is that of its own feeding (common practice, no source).", count(p.FoodDays, "day", "days")),
	}}
}

package report

import (
	"fmt"
	"strings"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods/stores"
	"rationwright/solver/stockpile"
)

// kit is the supplies besides food, water and fuel, with the rule that gave
// each quantity.
func kit(lines []stores.KitLine) sheet.Section {
	g := sheet.NewGrid(">quantity", "~unit", "~item", "~rule", "~source")
	for _, l := range lines {
		quantity := ""
		if l.Quantity > 0 {
			quantity = sheet.Decimals(float64(l.Quantity), 0)
		}
		item := l.Item + sheet.Around(" (if: ", l.If, ")") + sheet.Around("; ", l.Note, "")
		g.Row(strings.ReplaceAll(l.Category, "_", " "), quantity, l.Unit, item, l.Rule, quantitySource(&l))
	}
	return sheet.Section{Title: "Supplies", Table: g,
		Notes: []string{"A quantity is rounded up. \"source\" is that of the quantity."}}
}

// medicines is a list to discuss; it never names an amount.
func medicines(lines []stores.KitLine) sheet.Section {
	sec := sheet.Section{Title: "To discuss with a clinician or pharmacist"}
	for _, l := range lines {
		line := l.Item + sheet.Around(", if ", strings.TrimPrefix(l.If, "if "), "") + sheet.Around(" (", l.Note, ")")
		sec.Lead = append(sec.Lead, "- "+sheet.Sentence(line))
	}
	sec.Notes.If(len(sec.Lead) > 0, "What, how much and for whom is the clinician's to say: no amount is given here.")
	return sec
}

// pets is what the pets take.
func pets(s *stockpile.Stockpile, u sheet.Units) sheet.Section {
	p := s.PetNeeds
	if p == nil {
		return sheet.Section{}
	}
	var sources []string
	for _, r := range p.Water.Refs {
		sources = append(sources, ref(r))
	}
	return sheet.Section{Title: "Pets", Lead: []string{
		fmt.Sprintf("- Water: %s for %s over %s, in the water above: %s (%s).", u.Water(p.WaterL), sheet.Count(s.Pets, "pet", "pets"), sheet.Count(s.Days, "day", "days"), p.Water.Rule, strings.Join(sources, "; ")),
		fmt.Sprintf("- Food: %s of each animal's usual food; the amount is that of its own feeding (common practice, no source).", sheet.Count(p.FoodDays, "day", "days")),
	}}
}

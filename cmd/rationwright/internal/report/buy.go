package report

import (
	"fmt"
	"strconv"
	"strings"

	"rationwright/solver"
)

// shopping is the list to take to the shop, aisle by aisle, and what is taken
// from the household's own stock.
func shopping(p *solver.Plan, u Units) Section {
	stocked := false
	for _, k := range p.Packs {
		stocked = stocked || k.FromStock > 0
	}
	g := &Grid{Columns: []Column{{Name: "buy", Right: true}}}
	if stocked {
		g.Columns = append(g.Columns, Column{Name: "own", Right: true})
	}
	g.Columns = append(g.Columns,
		Column{Name: "food", Wrap: true}, Column{Name: "pack"}, Column{Name: "each holds", Right: true},
		Column{Name: "cost", Right: true}, Column{Name: "weight", Right: true})
	hard := false
	for _, group := range aisles(p.Packs) {
		said := "" // a food with several packs is named once
		for _, k := range p.Packs {
			if aisle(k) != group {
				continue
			}
			row := []string{strconv.Itoa(k.Count - k.FromStock)}
			if stocked {
				row = append(row, strconv.Itoa(k.FromStock))
			}
			pack := k.Pack
			if p.WeakHands && !k.EasyOpen {
				pack += hardToOpen
				hard = true
			}
			food := k.Food
			if food == said {
				food = ""
			}
			said = k.Food
			g.append(group, append(row, food, pack, u.Net(k.NetG), money(k.Cost), u.Weight(k.WeightKg))...)
		}
	}
	sec := Section{Title: "What to buy", Table: g}
	if g.empty() {
		sec = Section{Title: "What to buy", Lead: []string{"Nothing."}}
	}
	sec.Notes = append(sec.Notes, "\"each holds\" is what is eaten of one pack: drained where the liquid is poured off.")
	if hard {
		sec.Notes = append(sec.Notes, "\"*\" is a pack that weak hands cannot open or lift: somebody must help with it, or ask for --easy-open.")
	}
	if stocked {
		sec.Notes = append(sec.Notes, "\"own\" packs come from the stock list and cost nothing.")
	}
	return sec
}

// hardToOpen marks a pack where only older adults open packs.
const hardToOpen = " *"

// aisle is the shop group under which a pack is listed.
func aisle(k solver.PlanPack) string {
	switch {
	case k.Reserve:
		return "set aside, not part of the ration: fast sugar for low blood sugar"
	case k.Group == "":
		return "other"
	}
	return k.Group
}

// aisles returns the groups of packs in order of first appearance, what is set
// aside last.
func aisles(packs []solver.PlanPack) []string {
	var open, aside []string
	seen := map[string]bool{}
	for _, k := range packs {
		group := aisle(k)
		if seen[group] {
			continue
		}
		seen[group] = true
		if k.Reserve {
			aside = append(aside, group)
		} else {
			open = append(open, group)
		}
	}
	return append(open, aside...)
}

// totals is what the store comes to, the food alone beside it.
func totals(p *solver.Plan, u Units) Section {
	t := p.Totals
	if t == nil {
		return Section{}
	}
	g := &Grid{Columns: []Column{{Name: ""}, {Name: "all", Right: true}, {Name: "food alone", Right: true}, {Name: "counted in all", Wrap: true}}}
	g.append("", strings.TrimSuffix("cost, "+currency(p), ", "), money(t.Cost), money(t.Food.Cost), "food, stored water, fuel")
	g.append("", "weight", u.Weight(t.WeightKg), u.Weight(t.Food.WeightKg), "packs and containers as carried")
	g.append("", "shelf space", u.Space(t.VolumeL), u.Space(t.Food.VolumeL), "upright boxes; a shelf takes 1/0.85 of it")
	g.append("", "water to store", u.Water(t.WaterL), "", "drinking, cooking, hygiene, a tenth spare")
	g.append("", "heat for cooking", u.Heat(t.HeatMJ), "", "useful heat, before stove losses")
	sec := Section{Title: "Totals", Table: g}
	if t.OwnWaterL > 0 {
		sec.Notes = append(sec.Notes, fmt.Sprintf("Of the water, %s is on hand already.", u.Water(t.OwnWaterL)))
	}
	if t.OwnHeatMJ > 0 {
		sec.Notes = append(sec.Notes, fmt.Sprintf("Of the heat, the fuel on hand gives %s.", u.Heat(t.OwnHeatMJ)))
	}
	return sec
}

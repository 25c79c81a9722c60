package report

import (
	"slices"
	"strconv"
	"strings"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/cmd/rationwright/internal/view"
	"rationwright/solver/ration"
)

// shopping is the list to take to the shop, aisle by aisle, and what is taken
// from the household's own stock.
func shopping(p *ration.Plan, v *view.Plan, u sheet.Units) sheet.Section {
	stocked := slices.ContainsFunc(p.Packs, func(k ration.PlanPack) bool { return k.FromStock > 0 })
	g := sheet.NewGrid(">buy")
	if stocked {
		g.Column(">own")
	}
	g.Column("~food", "=pack", ">each holds", ">cost", ">weight")
	hard := false
	for _, a := range v.Shopping {
		for _, f := range a.Foods {
			food := f.Food // a food with several packs is named once
			for _, k := range f.Packs {
				row := []string{strconv.Itoa(k.Buy)}
				if stocked {
					row = append(row, strconv.Itoa(k.Own))
				}
				pack := k.Key
				if k.Hands {
					pack += hardToOpen
					hard = true
				}
				g.Row(a.Name, append(row, food, pack, u.Net(k.NetG), sheet.Money(k.Cost), u.Weight(k.Kg))...)
				food = ""
			}
		}
	}
	sec := sheet.Section{Title: "What to buy", Table: g}
	if len(g.Rows()) == 0 {
		sec.Table, sec.Lead = nil, []string{"Nothing."}
	}
	sec.Notes = append(sec.Notes, "\"each holds\" is what is eaten of one pack: drained where the liquid is poured off.")
	sec.Notes = append(sec.Notes, v.Apart...)
	sec.Notes.If(hard, "\"*\" is a pack that weak hands cannot open or lift: somebody must help with it, or ask for --easy-open.")
	sec.Notes.If(stocked, "\"own\" packs come from the stock list and cost nothing.")
	return sec
}

// hardToOpen marks a pack where only older adults open packs.
const hardToOpen = " *"

// totals is what the store comes to, the food alone beside it.
func totals(p *ration.Plan, v *view.Plan, u sheet.Units) sheet.Section {
	t := p.Totals
	if t == nil {
		return sheet.Section{}
	}
	g := sheet.NewGrid("", ">all", ">food alone", "~counted in all")
	g.Row("", strings.TrimSuffix("cost, "+currency(p), ", "), sheet.Money(t.Cost), sheet.Money(t.Food.Cost), "food, stored water, fuel")
	g.Row("", "weight", u.Weight(t.WeightKg), u.Weight(t.Food.WeightKg), "packs and containers as carried")
	g.Row("", "shelf space", u.Space(t.VolumeL), u.Space(t.Food.VolumeL), "upright boxes; a shelf takes 1/0.85 of it")
	g.Row("", "water to store", u.Water(t.WaterL), "", "drinking, cooking, hygiene, a tenth spare")
	g.Row("", "heat for cooking", u.Heat(t.HeatMJ), "", "useful heat, before stove losses")
	sec := sheet.Section{Title: "Totals", Table: g}
	sec.Notes = append(sec.Notes, moreWater(v, u)...)
	sec.Notes.If(t.OwnWaterL > 0, "Of the water, %s is on hand already.", u.Water(t.OwnWaterL))
	sec.Notes.If(t.OwnHeatMJ > 0, "Of the heat, the fuel on hand gives %s.", u.Heat(t.OwnHeatMJ))
	return sec
}

package report

import (
	"strconv"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods/stores"
)

// waterShort says what to give up where the water at hand is all there is, in the order
// that harms least, and how long it lasts.
func waterShort(w *stores.Shortage, u sheet.Units) sheet.Section {
	g := sheet.NewGrid(">order", "~give up", ">saves", "~how")
	for i, x := range w.GiveUp {
		g.Row("", strconv.Itoa(i+1), x.What, u.Water(x.Litres), x.How)
	}
	sec := sheet.Section{Title: "If no more water can be had", Table: g}
	sec.Lead.Say("%s are missing. As planned the water lasts %s days.", u.Water(w.MissingL), sheet.Decimals(w.DaysAsUsed, 1))
	sec.Notes.If(w.Enough, "With all of that given up it lasts to the last day.")
	sec.Notes.If(!w.Enough, "With all of that given up it lasts %s days; find more water before then.", sheet.Decimals(w.Days, 1))
	sec.Notes.If(w.ProtectedL > 0, "First of all keep %s: the drinks of infants, the ill, the pregnant and nursing, and the feeds. Nothing is taken from these.", u.Water(w.ProtectedL))
	sec.Notes = append(sec.Notes, sheet.Sourced("Drinks are not rationed: "+w.Rule, ref(w.Ref)), "The order is a planning rule of this program.")
	return sec
}

package report

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods/stores"
	"rationwright/solver/ration"
	"rationwright/solver/stockpile"
)

// space is what the store takes and weighs.
func space(lines []stockpile.SpaceLine, u sheet.Units) sheet.Section {
	g := sheet.NewGrid("part", ">pieces", ">boxes", ">of shelf", ">weight")
	for _, l := range lines {
		g.Row("", l.What, sheet.Decimals(float64(l.Packs), 0), u.Space(l.BoxL), u.Space(l.ShelfL), u.Weight(l.Kg))
	}
	use := stores.UsableShare()
	return sheet.Section{Title: "Space and weight", Table: g, Notes: []string{
		fmt.Sprintf("\"boxes\" are upright boxes around the pieces, sides rounded up to a mm. \"of shelf\" is that over %s, the share of a shelf that can be filled (%s). Fuel is kept apart, as its rule says.", sheet.Figure(use.Value), ref(use.Ref)),
		"Water and fuel are in whole containers and packs here; totals of a plan count them by the litre and the MJ.",
	}}
}

// ShelfFit is which pack stands on which shelf, what found no place, and what
// is too much.
func ShelfFit(fit *ration.ShelfFit, u sheet.Units) []sheet.Section {
	if fit == nil {
		return nil
	}
	var secs []sheet.Section
	use := sheet.NewGrid("~shelf", ">weight", ">bears", ">boxes", ">room")
	for _, s := range fit.Use {
		use.Row("", s.Shelf, u.Weight(s.Kg), u.Weight(s.LoadKg), u.Space(s.BoxL), u.Space(s.VolumeL))
	}
	head := sheet.Section{Title: "On the shelves", Table: use}
	head.Lead.If(fit.Stands, "Everything but the fuel stands on the shelves.")
	head.Lead.If(!fit.Stands, "NOT EVERYTHING STANDS ON THE SHELVES.")
	head.Lead.If(fit.Replanned > 0, "The first plan did not stand on them; this one was made with less room.")
	secs = append(secs, head)
	place := sheet.NewGrid(">count", "~what", "=pack", ">weight")
	for _, p := range fit.Places {
		place.Row(p.Shelf, strconv.Itoa(p.Count), p.Name, p.Pack, u.Weight(p.Kg))
	}
	secs = append(secs, sheet.Section{Title: "What stands where", Table: place,
		Notes: []string{"Liquids stand lowest, then glass, then heavy packs; glass no higher than 1.2 m. The oldest pack stands in front."}})
	if len(fit.Left) > 0 {
		g := sheet.NewGrid(">count", "~what", "=pack", "~why")
		for _, l := range fit.Left {
			g.Row("", strconv.Itoa(l.Count), l.Name, l.Pack, l.Reason)
		}
		left := sheet.Section{Title: "What found no place", Table: g}
		left.Notes.If(!floorListed(fit), "Containers of water may stand on the floor: list it as the first shelf, named floor, with the load that it bears.")
		secs = append(secs, left)
	}
	if len(fit.Much) > 0 {
		much := sheet.Section{Title: "What is too much"}
		for _, m := range fit.Much {
			need, have := shelfFigure(m.Need, m.Unit, u), shelfFigure(m.Have, m.Unit, u)
			line := fmt.Sprintf("- %s: %s where there is room for %s", sheet.Capital(m.Text), need, have)
			switch {
			case m.Unit == "kg":
				line = fmt.Sprintf("- %s: %s where they bear %s", sheet.Capital(m.Text), need, have)
			case m.Unit == "packs":
				line = fmt.Sprintf("- %s: %s", sheet.Capital(m.Text), sheet.Decimals(m.Need, 0))
			case !m.Proven:
				line = fmt.Sprintf("- No arrangement was found for these %s of boxes on shelves that hold about %s in practice. This is not proven: another arrangement may exist", need, have)
			}
			much.Lead = append(much.Lead, line+".")
		}
		secs = append(secs, much)
	}
	return secs
}

// floorListed reports whether one of the shelves is called the floor. Its height
// does not tell: a lowest board without one counts as lying on the floor.
func floorListed(fit *ration.ShelfFit) bool {
	return slices.ContainsFunc(fit.Use, func(s stores.ShelfUse) bool { return strings.Contains(strings.ToLower(s.Shelf), "floor") })
}

// shelfFigure writes a figure of the shelves in its unit.
func shelfFigure(v float64, unit string, u sheet.Units) string {
	switch unit {
	case "L":
		return u.Space(v)
	case "kg":
		return u.Weight(v)
	}
	return sheet.Amount(v) + " " + unit
}

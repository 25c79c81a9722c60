package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"rationwright/cmd/rationwright/internal/headline"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/cmd/rationwright/internal/view"
	"rationwright/foods/stores"
	"rationwright/solver/ration"
	"rationwright/solver/stockpile"
)

// Stores lays out the rest of a store in the order in which it is got
// together: water, what makes doubtful water safe, heat, space, supplies,
// medicines to discuss, pets, what to take care of.
func Stores(s *stockpile.Stockpile, u sheet.Units) *sheet.Sheet {
	out := &sheet.Sheet{Alerts: headline.Of(s.NotFed).Lines()}
	out.Add(storesHead(s, u), waterNeed(s, u))
	if s.Water.Short != nil {
		out.Add(waterShort(s.Water.Short, u))
	}
	out.Add(waterKept(s, u), doubtfulWater(s, u), neverDrink(s.Never), heat(s, u), space(s.Space, u))
	out.Add(ShelfFit(s.Shelves, u)...)
	out.Add(kit(s.Kit), medicines(s.Medicines), pets(s, u), cautions(&ration.Plan{Cautions: s.Cautions}))
	return out
}

func storesHead(s *stockpile.Stockpile, u sheet.Units) sheet.Section {
	line := fmt.Sprintf("Water, fuel, space and supplies for %s for %s", sheet.Count(s.Heads, "person", "people"), sheet.Count(s.Days, "day", "days"))
	if s.Pets > 0 {
		line += " and " + sheet.Count(s.Pets, "pet", "pets")
	}
	line += sheet.Around(", kept from ", s.Start, "")
	plan := &ration.Plan{Least: s.Least, Totals: &ration.Totals{Currency: s.Currency}}
	food := "The food is in the plan that this belongs to, of least " + string(s.Least)
	if s.Value != nil {
		food += ": " + Total(plan, s.Least, *s.Value, u)
	}
	sec := sheet.Section{Lead: []string{line + ".", food + "."}}
	sec.Lead.If(view.Demo(s.Demo) != "", "%s", view.Demo(s.Demo))
	return sec
}

// waterNeed is the computed water line by line, and the allowances beside it.
func waterNeed(s *stockpile.Stockpile, u sheet.Units) sheet.Section {
	w := &s.Water
	g := sheet.NewGrid("~water", ">amount", "~rule", "~source")
	for _, l := range w.Computed.Lines {
		g.Row("", l.What, u.Water(l.Litres), l.Rule, ref(l.Ref))
	}
	g.Row("", "COMPUTED NEED", u.Water(w.Computed.Litres), "1.1 × (drinking + cooking + formula) + washing + pets", "")
	for i, a := range w.Allowances {
		rule := a.SourceAmount
		if s.Pets > 0 {
			rule += ", and the pets"
		}
		if a.Key == "published" && len(w.Computed.OnTop) > 0 {
			rule += ", and more for " + sheet.Names(onTop(w.Computed.OnTop))
		}
		g.Row("", strings.ToUpper(a.Name), u.Water(w.AllowanceL[i]), rule, ref(a.Ref))
	}
	sec := sheet.Section{Title: "Water to store", Table: g}
	sec.Notes = append(sec.Notes, fmt.Sprintf("Recommended: %s, %s.", u.Water(w.Recommended), w.Because))
	sec.Notes = append(sec.Notes, planWater(w, u))
	return sec
}

func onTop(lines []stores.WaterLine) []string {
	var words []string
	for _, l := range lines {
		words = append(words, l.What)
	}
	return words
}

// planWater says what water the plan counts with.
func planWater(w *stockpile.StoredWater, u sheet.Units) string {
	line := fmt.Sprintf("The plan counts with %s", u.Water(w.PlanL))
	if math.Abs(w.PlanL-w.Computed.Litres) <= 1e-6*math.Max(1, w.PlanL) {
		line += ", the computed need"
	} else {
		line += ", the older allowance asked for"
	}
	if w.OnHand > 0 {
		line += fmt.Sprintf("; of it %s is on hand", u.Water(w.OnHand))
	}
	return line + "."
}

// waterKept is what holds the recommended water, and when it is renewed.
func waterKept(s *stockpile.Stockpile, u sheet.Units) sheet.Section {
	g := sheet.NewGrid(">count", "~container", ">each holds", ">each full", ">all full", ">boxes", "~remark")
	for _, c := range s.Water.Containers {
		var remarks sheet.Lines
		remarks.If(c.Planned, "counted in the plan")
		remarks.If(c.Heavy, "fill it where it stands: over %s", u.Weight(stores.LiftKg))
		remarks.If(c.Container.Sealed(), "bought full")
		g.Row("", sheet.Decimals(float64(c.Count), 0), c.Container.Name, u.Water(c.EachL), u.Weight(c.EachKg), u.Weight(c.WeightKg), u.Space(c.ShelfL), strings.Join(remarks, "; "))
	}
	sec := sheet.Section{Title: fmt.Sprintf("Containers for %s, one kind or another", u.Water(s.Water.Recommended)), Table: g}
	sec.Notes = append(sec.Notes, "\"boxes\" are the upright boxes around the containers. Sizes and empty weights (from memory): measure yours.")
	for _, r := range s.Water.Renew {
		line := fmt.Sprintf("- %s: %s", strings.TrimSuffix(sheet.Sentence(r.What), "."), r.Action)
		if len(r.Dates) > 0 {
			line += ": on " + sheet.Names(r.Dates)
		}
		sec.Notes = append(sec.Notes, line+sheet.Around("; ", r.Note, "")+" ("+ref(r.Ref)+").")
	}
	c, w := s.Water.Sanitise, s.Water.Unchlorinated
	sec.Notes = append(sec.Notes,
		fmt.Sprintf("- Before filling, clean the container inside with %s of bleach (%s) in %s of water: %s (%s).", millilitres(c.ML), c.Bleach, u.Water(c.VolumeL), c.How, ref(c.Ref)),
		fmt.Sprintf("- Water that is clean but not chlorinated takes %s of bleach (%s) in %s before it is stored: %s (%s).", sheet.Count(w.Drops, "drop", "drops"), w.Bleach, u.Water(w.VolumeL), w.How, ref(w.Ref)))
	return sec
}

func millilitres(ml float64) string { return sheet.Decimals(ml, 1) + " mL" }

// doubtfulWater is how to make doubtful water safe: boiling first, then doses.
func doubtfulWater(s *stockpile.Stockpile, u sheet.Units) sheet.Section {
	sec := sheet.Section{Title: "Doubtful water"}
	sec.Lead = append(sec.Lead, boiling(&s.Boil, u)...)
	volumes := stockpile.SheetVolumesL
	g := sheet.NewGrid("~agent", "~strength")
	for _, v := range volumes {
		g.Column(">clear, "+u.Water(v), ">cloudy, "+u.Water(v))
	}
	g.Column(">wait")
	for _, sheet := range s.Treat {
		row := []string{sheet.Agent, sheet.Strength}
		wait := 0
		for _, v := range volumes {
			for _, water := range []stores.Water{stores.ClearWater, stores.CloudyWater} {
				cell := "-"
				for _, d := range sheet.Doses {
					if d.Water == water && math.Abs(d.VolumeL-v) < 1e-9 {
						cell = shortDose(&d)
						wait = max(wait, d.WaitMin, d.WaitParasites)
					}
				}
				row = append(row, cell)
			}
		}
		g.Row("", append(row, minutes(wait))...)
	}
	sec.Table = g
	sec.Notes = append(sec.Notes,
		"Cloudy or very cold water: let it settle and filter it through cloth first. \"-\": no dose is published; boil it.",
		"\"rationwright stores treat VOLUME\" gives the dose for any volume, with its rules and sources.")
	return sec
}

// boiling says how long to boil.
func boiling(b *stores.Boiling, u sheet.Units) []string {
	lines := []string{fmt.Sprintf("Best is boiling: a rolling boil of %s%s; useful heat %s a litre.", minutes(b.Minutes), altitude(b, u), u.Heat2(b.HeatMJ/b.VolumeL))}
	for _, r := range b.Rules {
		lines = append(lines, fmt.Sprintf("- %s: %s up to %s, %s above (%s).", r.Agency, minutes(r.Minutes), u.Height(r.UpToM), minutes(r.MinutesAbove), ref(r.Ref)))
	}
	return lines
}

func altitude(b *stores.Boiling, u sheet.Units) string {
	if b.Known {
		return " at " + u.Height(b.Altitude)
	}
	return ", the longest time as the altitude is not known (--altitude)"
}

// mostDrops is how many drops a table asks anyone to count; more are given in
// mL.
const mostDrops = 30

// shortDose writes a dose for a narrow column.
func shortDose(d *stores.Dose) string {
	switch {
	case d.Tablets > 0:
		return strconv.Itoa(d.Tablets) + " tab."
	case d.StockML > 0:
		return sheet.Decimals(d.StockML, 0) + " mL stock"
	case d.Bottles > 0:
		return sheet.Count(d.Bottles, "bottle", "bottles")
	case d.Drops > 0 && d.Drops <= mostDrops:
		return sheet.Count(d.Drops, "drop", "drops")
	}
	return millilitres(d.ML)
}

// neverDrink is what no household treatment makes safe.
func neverDrink(rules []stockpile.NeverRule) sheet.Section {
	sec := sheet.Section{Title: "Never"}
	for _, n := range rules {
		sec.Lead = append(sec.Lead, "- "+sheet.Sourced(n.What+": "+n.Why, ref(n.Ref)))
	}
	return sec
}

package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"rationwright/foods/stores"
	"rationwright/solver"
)

// Stores lays out the rest of a store in the order in which it is got
// together: water, what makes doubtful water safe, heat, space, supplies,
// medicines to discuss, pets, what to take care of.
func Stores(s *solver.Stockpile, u Units) *Sheet {
	sheet := &Sheet{Alerts: notFed(s.Refused)}
	sheet.Add(storesHead(s, u))
	sheet.Add(waterNeed(s, u))
	sheet.Add(waterKept(s, u))
	sheet.Add(doubtfulWater(s, u))
	sheet.Add(neverDrink(s.Never))
	sheet.Add(heat(s, u))
	sheet.Add(space(s.Space, u))
	for _, sec := range shelfFit(s.Shelves, u) {
		sheet.Add(sec)
	}
	sheet.Add(kit(s.Kit))
	sheet.Add(medicines(s.Medicines))
	sheet.Add(pets(s, u))
	sheet.Add(cautions(&solver.Plan{Cautions: s.Cautions}))
	return sheet
}

func storesHead(s *solver.Stockpile, u Units) Section {
	line := fmt.Sprintf("Water, fuel, space and supplies for %s for %s", count(s.Heads, "person", "people"), count(s.Days, "day", "days"))
	if s.Pets > 0 {
		line += " and " + count(s.Pets, "pet", "pets")
	}
	if s.Start != "" {
		line += ", kept from " + s.Start
	}
	plan := &solver.Plan{Least: s.Least, Totals: &solver.Totals{Currency: s.Currency}}
	food := "The food is in the plan that this belongs to, of least " + string(s.Least)
	if s.Value != nil {
		food += ": " + objective(plan, *s.Value, u)
	}
	sec := Section{Lead: []string{line + ".", food + "."}}
	if demo := fromDemo(&solver.Plan{Request: &solver.RequestRecord{Demo: s.Demo}}); demo != "" {
		sec.Lead = append(sec.Lead, demo)
	}
	return sec
}

// ref writes where a figure comes from, with its mark where it has no source
// or is from memory.
func ref(r stores.Ref) string {
	switch {
	case r.NoSource() && (r.Source == "" || strings.Contains(r.Source, "planning value") || r.Source == "trade practice"):
		return "common practice, no source"
	case r.NoSource():
		return r.Source + " (common practice, no source)"
	case r.FromMemory():
		return r.Source + " (from memory)"
	}
	return r.Source
}

// waterNeed is the computed water line by line, and the allowances beside it.
func waterNeed(s *solver.Stockpile, u Units) Section {
	w := &s.Water
	g := &Grid{Columns: []Column{{Name: "water", Wrap: true}, {Name: "amount", Right: true}, {Name: "rule", Wrap: true}, {Name: "source", Wrap: true}}}
	for _, l := range w.Computed.Lines {
		g.append("", l.What, u.Water(l.Litres), l.Rule, ref(l.Ref))
	}
	g.append("", "COMPUTED NEED", u.Water(w.Computed.Litres), "1.1 × (drinking + cooking + formula) + washing + pets", "")
	for i, a := range w.Allowances {
		rule := a.SourceAmount
		if s.Pets > 0 {
			rule += ", and the pets"
		}
		if a.Key == "published" && len(w.Computed.OnTop) > 0 {
			rule += ", and more for " + names(onTop(w.Computed.OnTop))
		}
		g.append("", strings.ToUpper(a.Name), u.Water(w.AllowanceL[i]), rule, ref(a.Ref))
	}
	sec := Section{Title: "Water to store", Table: g}
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
func planWater(w *solver.StoredWater, u Units) string {
	line := fmt.Sprintf("The plan counts with %s", u.Water(w.PlanL))
	if math.Abs(w.PlanL-w.Computed.Litres) <= 1e-6*math.Max(1, w.PlanL) {
		line += ", the computed need"
	} else {
		line += ", the usual allowance asked for"
	}
	if w.OnHand > 0 {
		line += fmt.Sprintf("; of it %s is on hand", u.Water(w.OnHand))
	}
	return line + "."
}

// waterKept is what holds the recommended water, and when it is renewed.
func waterKept(s *solver.Stockpile, u Units) Section {
	g := &Grid{Columns: []Column{{Name: "count", Right: true}, {Name: "container", Wrap: true}, {Name: "each holds", Right: true},
		{Name: "each full", Right: true}, {Name: "all full", Right: true}, {Name: "boxes", Right: true}, {Name: "remark", Wrap: true}}}
	for _, c := range s.Water.Containers {
		var remarks []string
		if c.Planned {
			remarks = append(remarks, "counted in the plan")
		}
		if c.Heavy {
			remarks = append(remarks, fmt.Sprintf("fill it where it stands: over %s", u.Weight(stores.LiftKg)))
		}
		if c.Container.Sealed() {
			remarks = append(remarks, "bought full")
		}
		g.append("", decimals(float64(c.Count), 0), c.Container.Name, u.Water(c.EachL), u.Weight(c.EachKg), u.Weight(c.WeightKg), u.Space(c.ShelfL), strings.Join(remarks, "; "))
	}
	sec := Section{Title: fmt.Sprintf("Containers for %s, one kind or another", u.Water(s.Water.Recommended)), Table: g}
	sec.Notes = append(sec.Notes, "\"boxes\" are the upright boxes around the containers. Sizes and empty weights are from memory: measure yours.")
	for _, r := range s.Water.Renew {
		line := fmt.Sprintf("- %s: %s", sentence(r.What), r.Action)
		line = strings.Replace(line, ".: ", ": ", 1)
		if len(r.Dates) > 0 {
			line += ": on " + names(r.Dates)
		}
		if r.Note != "" {
			line += "; " + r.Note
		}
		sec.Notes = append(sec.Notes, line+" ("+ref(r.Ref)+").")
	}
	c, w := s.Water.Sanitise, s.Water.Unchlorinated
	sec.Notes = append(sec.Notes,
		fmt.Sprintf("- Before filling, clean the container inside with %s of bleach (%s) in %s of water: %s (%s).", millilitres(c.ML), c.Bleach, u.Water(c.VolumeL), c.How, ref(c.Ref)),
		fmt.Sprintf("- Water that is clean but not chlorinated takes %s of bleach (%s) in %s before it is stored: %s (%s).", count(w.Drops, "drop", "drops"), w.Bleach, u.Water(w.VolumeL), w.How, ref(w.Ref)))
	return sec
}

func millilitres(ml float64) string { return decimals(ml, 1) + " mL" }

// doubtfulWater is how to make doubtful water safe: boiling first, then doses.
func doubtfulWater(s *solver.Stockpile, u Units) Section {
	sec := Section{Title: "Doubtful water"}
	sec.Lead = append(sec.Lead, boiling(&s.Boil, u)...)
	volumes := solver.SheetVolumesL
	g := &Grid{Columns: []Column{{Name: "agent", Wrap: true}, {Name: "strength", Wrap: true}}}
	for _, v := range volumes {
		g.Columns = append(g.Columns, Column{Name: "clear, " + u.Water(v), Right: true}, Column{Name: "cloudy, " + u.Water(v), Right: true})
	}
	g.Columns = append(g.Columns, Column{Name: "wait", Right: true})
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
		g.append("", append(row, minutes(wait))...)
	}
	sec.Table = g
	sec.Notes = append(sec.Notes,
		"Cloudy or very cold water: let it settle and filter it through cloth first. \"-\": no dose is published; boil it.",
		"\"rationwright stores treat VOLUME\" gives the dose for any volume, with its rules and sources.")
	return sec
}

// boiling says how long to boil.
func boiling(b *stores.Boiling, u Units) []string {
	lines := []string{fmt.Sprintf("Best is boiling: a rolling boil of %s%s; useful heat %s a litre.", minutes(b.Minutes), altitude(b, u), u.Heat2(b.HeatMJ/b.VolumeL))}
	for _, r := range b.Rules {
		lines = append(lines, fmt.Sprintf("- %s: %s up to %s, %s above (%s).", r.Agency, minutes(r.Minutes), u.Height(r.UpToM), minutes(r.MinutesAbove), ref(r.Ref)))
	}
	return lines
}

func altitude(b *stores.Boiling, u Units) string {
	if b.Known {
		return " at " + u.Height(b.Altitude)
	}
	return ", the longest time as the altitude is not known (--altitude)"
}

// minutes writes a time in minutes or hours.
func minutes(n int) string {
	if n >= 120 && n%60 == 0 {
		return fmt.Sprintf("%d h", n/60)
	}
	return fmt.Sprintf("%d min", n)
}

// mostDrops is how many drops a table asks anyone to count; more are given in
// mL.
const mostDrops = 30

// shortDose writes a dose for a narrow column.
func shortDose(d *stores.Dose) string {
	short := ""
	switch {
	case d.Tablets > 0:
		short = strconv.Itoa(d.Tablets) + " tab."
	case d.StockML > 0:
		short = decimals(d.StockML, 0) + " mL stock"
	case d.Bottles > 0:
		short = count(d.Bottles, "bottle", "bottles")
	case d.Drops > 0 && d.Drops <= mostDrops:
		short = count(d.Drops, "drop", "drops")
	default:
		short = millilitres(d.ML)
	}
	return short
}

// neverDrink is what no household treatment makes safe.
func neverDrink(rules []solver.NeverRule) Section {
	sec := Section{Title: "Never"}
	for _, n := range rules {
		line := sentence(n.What + ": " + n.Why)
		sec.Lead = append(sec.Lead, "- "+strings.TrimSuffix(line, ".")+" ("+ref(n.Ref)+").")
	}
	return sec
}

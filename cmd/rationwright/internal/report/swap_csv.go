package report

import (
	"encoding/csv"
	"io"
	"strconv"

	"rationwright/solver"
)

// SwapCSV writes a changed plan as one flat table, one fact a row:
//
//	refused  who is not fed
//	swap     how many packs of other foods change, and what that changes
//	out in   packs that go and come, by number
//	shortfall  a need that the changed plan does not reach: amount a day, floor what is asked
//	need     what a person gets of a nutrient a day, before and after, and the floor
//	pack     the changed plan's list; cost and weight of the whole line
//	conflict way_out   only where the balance cannot be kept
func SwapCSV(w io.Writer, s *solver.Swap) error {
	columns := []string{"section", "person", "key", "name", "count", "amount", "unit", "before", "after", "cost", "currency", "weight_kg", "text", "floor"}
	rows := [][]string{columns}
	row := func(section string, cells map[string]string) { rows = append(rows, cellsOf(columns, section, cells)) }
	for _, r := range s.Refused {
		row("refused", map[string]string{"person": r.Name, "text": doesNotFeed(r)})
	}
	if s.Warning != "" {
		row("swap", map[string]string{"key": "warning", "text": s.Warning})
	}
	if s.Plan.Status == solver.StatusInfeasible {
		for _, c := range s.Plan.Conflict {
			row("conflict", map[string]string{"person": c.Person, "text": c.Limit})
		}
		for _, o := range s.Plan.WaysOut {
			row("way_out", map[string]string{"text": o.Change, "cost": maybe(o.Cost)})
		}
		if s.Plan.Closest != nil {
			swapShortRows(row, s.Plan.Closest.Shortfalls)
		}
		return writeRows(w, rows)
	}
	currency := currency(s.Plan)
	row("swap", map[string]string{"key": "changes", "count": strconv.Itoa(s.Changes)})
	row("swap", map[string]string{"key": "changes_bound", "count": strconv.Itoa(s.ChangesBound)})
	row("swap", map[string]string{"key": "proven", "text": strconv.FormatBool(s.Proven)})
	row("swap", map[string]string{"key": "cost_change", "cost": num(s.CostChange), "currency": currency})
	row("swap", map[string]string{"key": "weight_change", "weight_kg": num(s.WeightChange)})
	row("swap", map[string]string{"key": "volume_change", "amount": num(s.VolumeChange), "unit": "L"})
	packChangeRows(row, "out", s.Out)
	packChangeRows(row, "in", s.In)
	swapShortRows(row, s.Plan.Shortfalls)
	for _, n := range s.Needs {
		row("need", map[string]string{"person": n.Person, "key": n.Nutrient, "name": NutrientName(n.Nutrient), "unit": unitOf(n.Unit, n.Nutrient), "before": num(n.Before), "after": num(n.After), "floor": maybe(n.Floor)})
	}
	for _, k := range s.Plan.Packs {
		row("pack", map[string]string{"key": k.Pack, "name": k.Food, "count": strconv.Itoa(k.Count), "cost": num(k.Cost), "currency": currency, "weight_kg": num(k.WeightKg)})
	}
	return writeRows(w, rows)
}

// swapShortRows lists the needs that a changed plan does not reach.
func swapShortRows(row func(string, map[string]string), list []solver.Shortfall) {
	for _, x := range list {
		row("shortfall", map[string]string{"person": x.Person, "key": x.Nutrient, "name": NutrientName(x.Nutrient), "amount": num(x.Amount), "unit": unitOf(x.Unit, x.Nutrient), "floor": num(x.Target)})
	}
}

func packChangeRows(row func(string, map[string]string), section string, list []solver.PackChange) {
	for _, c := range list {
		row(section, map[string]string{"key": c.Pack, "name": c.Food, "count": strconv.Itoa(c.Count)})
	}
}

// ReplacingCSV writes what could stand in for a food of p as one flat table: a row
// a pack of each replacement, the best first, then what is missing without the
// food. Who is not fed stands first.
func ReplacingCSV(w io.Writer, x *solver.Replacing, p *solver.Plan) error {
	columns := []string{"section", "rank", "food", "ndb", "pack", "count", "balanced", "cost_change", "currency", "weight_change_kg", "volume_change_l", "person", "need", "amount", "target", "unit", "text"}
	rows := [][]string{columns}
	row := func(section string, cells map[string]string) { rows = append(rows, cellsOf(columns, section, cells)) }
	for _, r := range x.Refused {
		row("refused", map[string]string{"person": r.Name, "text": doesNotFeed(r)})
	}
	for k, r := range x.Replacements {
		for _, c := range r.Packs {
			row("instead", map[string]string{"rank": strconv.Itoa(k + 1), "food": r.Food, "ndb": r.NDB, "pack": c.Pack, "count": strconv.Itoa(c.Count),
				"balanced": strconv.FormatBool(r.Balanced), "cost_change": num(r.CostChange), "currency": currency(p),
				"weight_change_kg": num(r.WeightChange), "volume_change_l": num(r.VolumeChange)})
		}
	}
	for _, s := range x.Short {
		row("missing", map[string]string{"food": x.InsteadOf, "person": s.Person, "need": s.Nutrient, "amount": num(s.Amount), "target": num(s.Target), "unit": unitOf(s.Unit, s.Nutrient)})
	}
	return writeRows(w, rows)
}

// writeRows writes a table as CSV.
func writeRows(w io.Writer, rows [][]string) error {
	out := csv.NewWriter(w)
	if err := out.WriteAll(rows); err != nil {
		return err
	}
	return out.Error()
}

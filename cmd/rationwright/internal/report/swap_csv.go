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
//	need     what a person gets of a nutrient a day, before and after
//	pack     the changed plan's list; cost and weight of the whole line
//	conflict way_out shortfall   only where the balance cannot be kept
func SwapCSV(w io.Writer, s *solver.Swap) error {
	rows := [][]string{{"section", "person", "key", "name", "count", "amount", "unit", "before", "after", "cost", "currency", "weight_kg", "text"}}
	row := func(section string, cells map[string]string) {
		line := make([]string, len(rows[0]))
		line[0] = section
		for k, name := range rows[0] {
			if v, ok := cells[name]; ok {
				line[k] = v
			}
		}
		rows = append(rows, line)
	}
	for _, r := range s.Plan.Refused {
		row("refused", map[string]string{"person": r.Name, "text": r.Reason})
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
			for _, x := range s.Plan.Closest.Shortfalls {
				row("shortfall", map[string]string{"person": x.Person, "key": x.Nutrient, "name": NutrientName(x.Nutrient), "amount": num(x.Amount), "unit": unitOf(x.Unit, x.Nutrient), "before": num(x.Target)})
			}
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
	for _, n := range s.Needs {
		row("need", map[string]string{"person": n.Person, "key": n.Nutrient, "name": NutrientName(n.Nutrient), "unit": unitOf(n.Unit, n.Nutrient), "before": num(n.Before), "after": num(n.After)})
	}
	for _, k := range s.Plan.Packs {
		row("pack", map[string]string{"key": k.Pack, "name": k.Food, "count": strconv.Itoa(k.Count), "cost": num(k.Cost), "currency": currency, "weight_kg": num(k.WeightKg)})
	}
	return writeRows(w, rows)
}

func packChangeRows(row func(string, map[string]string), section string, list []solver.PackChange) {
	for _, c := range list {
		row(section, map[string]string{"key": c.Pack, "name": c.Food, "count": strconv.Itoa(c.Count)})
	}
}

// ReplacingCSV writes what could stand in for a food of p as one flat table: a row
// a pack of each replacement, the best first, then what is missing without the
// food.
func ReplacingCSV(w io.Writer, x *solver.Replacing, p *solver.Plan) error {
	rows := [][]string{{"section", "rank", "food", "ndb", "pack", "count", "balanced", "cost_change", "currency", "weight_change_kg", "volume_change_l", "person", "need", "amount", "target", "unit"}}
	for k, r := range x.Replacements {
		for _, c := range r.Packs {
			rows = append(rows, []string{"instead", strconv.Itoa(k + 1), r.Food, r.NDB, c.Pack, strconv.Itoa(c.Count), strconv.FormatBool(r.Balanced),
				num(r.CostChange), currency(p), num(r.WeightChange), num(r.VolumeChange), "", "", "", "", ""})
		}
	}
	for _, s := range x.Short {
		rows = append(rows, []string{"missing", "", x.InsteadOf, "", "", "", "", "", "", "", "", s.Person, s.Nutrient, num(s.Amount), num(s.Target), unitOf(s.Unit, s.Nutrient)})
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

package report

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"

	"rationwright/solver"
)

// storesColumns are the columns of the CSV form of [Stores], in order. One row
// is one fact; section says which kind. Figures are metric. An empty cell is an
// absent value, never 0.
var storesColumns = []string{
	"section", "key", "what", "count", "amount", "unit", "low", "high", "weight_kg", "box_l", "shelf_l", "date", "text", "rule", "source", "verified",
}

// StoresCSV writes s as one flat table:
//
//	water container renew treat boil never heat fuel space shelf place left
//	too_much kit medicine pet caution refused
func StoresCSV(w io.Writer, s *solver.Stockpile) error {
	out := csv.NewWriter(w)
	if err := out.Write(storesColumns); err != nil {
		return err
	}
	rows := waterRows(s)
	rows = append(rows, treatRows(s)...)
	rows = append(rows, heatRows(s)...)
	rows = append(rows, spaceRows(s)...)
	rows = append(rows, supplyRows(s)...)
	for _, row := range rows {
		cells := make([]string, len(storesColumns))
		for c, name := range storesColumns {
			cells[c] = row[name]
		}
		if err := out.Write(cells); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

func waterRows(s *solver.Stockpile) []planRow {
	var rows []planRow
	for _, x := range s.Refused {
		rows = append(rows, planRow{"section": "refused", "what": x.Name, "text": doesNotFeed(x), "source": x.Source})
	}
	w := &s.Water
	for _, l := range w.Computed.Lines {
		rows = append(rows, planRow{"section": "water", "key": "part", "what": l.What, "amount": num(l.Litres), "unit": "L", "rule": l.Rule, "source": l.Source, "verified": l.Verified})
	}
	rows = append(rows, planRow{"section": "water", "key": "computed", "amount": num(w.Computed.Litres), "unit": "L"})
	for i, a := range w.Allowances {
		rows = append(rows, planRow{"section": "water", "key": a.Key, "what": a.Name, "amount": num(w.AllowanceL[i]), "unit": "L", "rule": a.SourceAmount, "source": a.Source, "verified": a.Verified})
	}
	rows = append(rows,
		planRow{"section": "water", "key": "recommended", "what": w.Because, "amount": num(w.Recommended), "unit": "L"},
		planRow{"section": "water", "key": "plan", "count": strconv.Itoa(w.PlanCount), "amount": num(w.PlanL), "unit": "L"})
	if w.OnHand > 0 {
		rows = append(rows, planRow{"section": "water", "key": "on_hand", "amount": num(w.OnHand), "unit": "L"})
	}
	for _, c := range w.Containers {
		rows = append(rows, planRow{"section": "container", "key": c.Container.Key, "what": c.Container.Name, "count": strconv.Itoa(c.Count), "amount": num(c.Litres), "unit": "L",
			"weight_kg": num(c.WeightKg), "box_l": num(c.ShelfL), "rule": c.Renewal, "source": c.Container.Source, "verified": c.Container.Verified})
	}
	for _, r := range w.Renew {
		for _, day := range r.Dates {
			rows = append(rows, planRow{"section": "renew", "key": r.Key, "what": r.What, "date": day, "rule": r.Action, "source": r.Source, "verified": r.Verified})
		}
		if len(r.Dates) == 0 {
			rows = append(rows, planRow{"section": "renew", "key": r.Key, "what": r.What, "rule": r.Action, "source": r.Source, "verified": r.Verified})
		}
	}
	return rows
}

func treatRows(s *solver.Stockpile) []planRow {
	var rows []planRow
	for _, r := range s.Boil.Rules {
		rows = append(rows, planRow{"section": "boil", "key": r.Agency, "low": strconv.Itoa(r.Minutes), "high": strconv.Itoa(r.MinutesAbove), "unit": "min",
			"text": "low up to " + num(r.UpToM) + " m above the sea, high above it", "source": r.Source, "verified": r.Verified})
	}
	for _, sheet := range s.Treat {
		for _, d := range sheet.Doses {
			rows = append(rows, planRow{"section": "treat", "key": d.Agent, "what": d.Strength, "amount": num(d.VolumeL), "unit": "L", "text": string(d.Water) + ": " + d.Text,
				"rule": "wait " + strconv.Itoa(max(d.WaitMin, d.WaitParasites)) + " min", "source": d.Rows[0].Source, "verified": d.Rows[0].Verified})
		}
	}
	for _, n := range s.Never {
		rows = append(rows, planRow{"section": "never", "what": n.What, "text": n.Why, "source": n.Source, "verified": n.Verified})
	}
	return rows
}

func heatRows(s *solver.Stockpile) []planRow {
	h := &s.Heat
	rows := []planRow{
		{"section": "heat", "key": "useful", "amount": num(h.UsefulMJ), "unit": "MJ"},
		{"section": "heat", "key": "per_day", "amount": num(h.PerDayMJ), "unit": "MJ"},
	}
	if h.OnHandMJ > 0 {
		rows = append(rows, planRow{"section": "heat", "key": "on_hand", "amount": num(h.OnHandMJ), "unit": "MJ"})
	}
	if h.DaysWithout != nil {
		rows = append(rows, planRow{"section": "heat", "key": "days_without", "amount": strconv.Itoa(*h.DaysWithout), "unit": "days"})
	}
	for _, f := range h.Fuels {
		rows = append(rows, planRow{"section": "fuel", "key": f.Stove.Name, "what": f.Stove.Fuel, "count": strconv.Itoa(f.Packs), "amount": strconv.Itoa(f.PacksTypical), "unit": "packs",
			"low": strconv.Itoa(f.PacksGood), "high": strconv.Itoa(f.PacksPoor), "weight_kg": num(f.WeightKg), "box_l": num(f.BoxL), "text": f.TooWeak, "rule": f.Stove.Where,
			"source": f.Stove.Source, "verified": f.Stove.Verified})
	}
	return rows
}

func spaceRows(s *solver.Stockpile) []planRow {
	var rows []planRow
	for _, l := range s.Space {
		rows = append(rows, planRow{"section": "space", "key": l.What, "count": strconv.Itoa(l.Packs), "weight_kg": num(l.Kg), "box_l": num(l.BoxL), "shelf_l": num(l.ShelfL)})
	}
	fit := s.Shelves
	if fit == nil {
		return rows
	}
	for _, x := range fit.Use {
		rows = append(rows, planRow{"section": "shelf", "key": x.Shelf, "weight_kg": num(x.Kg), "high": num(x.LoadKg), "box_l": num(x.BoxL), "shelf_l": num(x.VolumeL)})
	}
	for _, x := range fit.Places {
		rows = append(rows, planRow{"section": "place", "key": x.Shelf, "what": x.Pack, "count": strconv.Itoa(x.Count), "weight_kg": num(x.Kg), "text": x.Name})
	}
	for _, x := range fit.Left {
		rows = append(rows, planRow{"section": "left", "key": x.Pack, "what": x.Name, "count": strconv.Itoa(x.Count), "text": x.Reason})
	}
	for _, x := range fit.Much {
		proven := "not proven"
		if x.Proven {
			proven = "proven"
		}
		rows = append(rows, planRow{"section": "too_much", "key": x.What, "what": proven, "amount": num(x.Need), "high": num(x.Have), "unit": x.Unit, "text": x.Text})
	}
	return rows
}

func supplyRows(s *solver.Stockpile) []planRow {
	var rows []planRow
	for _, l := range s.Kit {
		rows = append(rows, planRow{"section": "kit", "key": l.ID, "what": l.Item, "count": whole(l.Quantity), "unit": l.Unit, "text": strings.Trim(l.If+"; "+l.Note, "; "), "rule": l.Rule, "source": quantitySource(&l), "verified": l.Verified})
	}
	for _, l := range s.Medicines {
		rows = append(rows, planRow{"section": "medicine", "key": l.ID, "what": l.Item, "text": strings.Trim(l.If+"; "+l.Note, "; "), "rule": l.Rule, "source": l.Source, "verified": l.Verified})
	}
	if p := s.PetNeeds; p != nil {
		rows = append(rows,
			planRow{"section": "pet", "key": "water", "amount": num(p.WaterL), "unit": "L", "rule": p.Water.Rule, "source": p.Water.Refs[0].Source, "verified": p.Water.Refs[0].Verified},
			planRow{"section": "pet", "key": "food", "count": strconv.Itoa(p.FoodDays), "unit": "days of usual food"})
	}
	for _, c := range s.Cautions {
		rows = append(rows, planRow{"section": "caution", "key": c.ID, "what": c.Severity, "text": c.Text, "source": c.Source})
	}
	return rows
}

package report

import (
	"encoding/csv"
	"io"
	"math"
	"strconv"

	"rationwright/solver"
)

// planColumns are the columns of a plan's CSV form, in order. One row is one
// fact; section says which kind, and a spreadsheet sorts or filters by it.
// Weights, volumes and costs are metric and in the plan's currency. An empty
// cell is an absent value, never 0.
var planColumns = []string{
	"section", "person", "key", "name", "ndb", "group", "count", "from_stock", "amount", "unit",
	"floor", "ceiling", "target", "cost", "currency", "weight_kg", "volume_l", "text", "source",
}

// planRow is one row of the CSV form by column name.
type planRow map[string]string

// PlanCSV writes p as one flat table with the columns of [planColumns]:
//
//	plan       status, value, bound, gap and what was asked, one key a row
//	total      key all or food, and water, heat
//	pack       one line of the shopping list; amount is net g of one pack
//	food       grams one person eats over the horizon
//	need       one nutrient of one person, per day
//	drink      litres of water one person drinks a day
//	place left packs of one kind on one shelf, and without a place
//	rule shortfall refused price caution not_checked note
//	conflict closest_pack closest_food closest_need closest_shortfall way_out
func PlanCSV(w io.Writer, p *solver.Plan) error {
	out := csv.NewWriter(w)
	if err := out.Write(planColumns); err != nil {
		return err
	}
	for _, row := range planRows(p) {
		cells := make([]string, len(planColumns))
		for c, name := range planColumns {
			cells[c] = row[name]
		}
		if err := out.Write(cells); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

func planRows(p *solver.Plan) []planRow {
	rows := headRows(p)
	rows = append(rows, totalRows(p)...)
	rows = append(rows, packRows("pack", p.Packs, currency(p))...)
	rows = append(rows, personRows("", p.People)...)
	rows = append(rows, shortRows("shortfall", p.Shortfalls)...)
	rows = append(rows, placeRows(p.Shelves)...)
	for _, x := range p.Prices {
		rows = append(rows, planRow{"section": "price", "person": x.Person, "key": x.Limit, "amount": num(x.Marginal), "unit": x.Unit})
	}
	for _, x := range p.Conflict {
		rows = append(rows, planRow{"section": "conflict", "person": x.Person, "text": x.Limit})
	}
	for _, x := range p.WaysOut {
		row := planRow{"section": "way_out", "key": strconv.FormatBool(x.Tested), "name": "tested", "text": x.Change}
		if x.Cost != nil {
			row["cost"], row["currency"] = num(*x.Cost), currency(p)
		}
		rows = append(rows, row)
	}
	if p.Closest != nil {
		rows = append(rows, packRows("closest_pack", p.Closest.Packs, currency(p))...)
		rows = append(rows, personRows("closest_", p.Closest.People)...)
		rows = append(rows, shortRows("closest_shortfall", p.Closest.Shortfalls)...)
	}
	for _, x := range p.Cautions {
		rows = append(rows, planRow{"section": "caution", "person": names(x.People), "key": x.ID, "name": x.Severity, "text": x.Text, "source": x.Source})
	}
	for _, x := range p.NotChecked {
		rows = append(rows, planRow{"section": "not_checked", "key": x})
	}
	for _, x := range p.Notes {
		rows = append(rows, planRow{"section": "note", "text": x})
	}
	return rows
}

// doesNotFeed is what a row about a refused person says.
func doesNotFeed(x solver.Refused) string {
	return "THIS PLAN DOES NOT FEED " + x.Name + ": " + x.Reason
}

func headRows(p *solver.Plan) []planRow {
	var rows []planRow
	for _, x := range p.Refused {
		rows = append(rows, planRow{"section": "refused", "person": x.Name, "text": doesNotFeed(x), "source": x.Source})
	}
	text := func(key, value string) {
		if value != "" {
			rows = append(rows, planRow{"section": "plan", "key": key, "text": value})
		}
	}
	text("status", p.Status)
	text("stopped", p.Stopped)
	text("least", string(p.Least))
	text("standard", p.Standard)
	text("version", p.Version)
	rows = append(rows, planRow{"section": "plan", "key": "days", "count": strconv.Itoa(p.Days)})
	unit := currency(p)
	switch p.Least {
	case solver.LeastWeight:
		unit = "kg"
	case solver.LeastVolume:
		unit = "L"
	}
	for _, x := range []struct {
		key, unit string
		v         *float64
	}{{"value", unit, p.Value}, {"bound", unit, p.Bound}, {"gap", "", p.Gap}} {
		if x.v != nil {
			rows = append(rows, planRow{"section": "plan", "key": x.key, "amount": num(*x.v), "unit": x.unit})
		}
	}
	if p.Proven != nil {
		text("proven", strconv.FormatBool(*p.Proven))
	}
	return rows
}

func totalRows(p *solver.Plan) []planRow {
	t := p.Totals
	if t == nil {
		return nil
	}
	return []planRow{
		{"section": "total", "key": "all", "cost": num(t.Cost), "currency": t.Currency, "weight_kg": num(t.WeightKg), "volume_l": num(t.VolumeL)},
		{"section": "total", "key": "food", "cost": num(t.Food.Cost), "currency": t.Currency, "weight_kg": num(t.Food.WeightKg), "volume_l": num(t.Food.VolumeL)},
		{"section": "total", "key": "water", "amount": num(t.WaterL), "unit": "L"},
		{"section": "total", "key": "heat", "amount": num(t.HeatMJ), "unit": "MJ"},
	}
}

func packRows(section string, packs []solver.PlanPack, currency string) []planRow {
	var rows []planRow
	for _, k := range packs {
		row := planRow{"section": section, "key": k.Pack, "name": k.Food, "ndb": k.NDB, "group": k.Group, "count": strconv.Itoa(k.Count),
			"from_stock": strconv.Itoa(k.FromStock), "amount": num(k.NetG), "unit": "g", "cost": num(k.Cost), "currency": currency,
			"weight_kg": num(k.WeightKg), "volume_l": num(k.VolumeL)}
		switch {
		case k.Reserve:
			row["text"] = "reserve: set aside, never ration"
		case k.EasyOpen:
			row["text"] = "easy to open"
		}
		rows = append(rows, row)
	}
	return rows
}

func personRows(prefix string, people []solver.PlanPerson) []planRow {
	var rows []planRow
	for i := range people {
		e := &people[i]
		heads := strconv.Itoa(e.Count)
		for _, f := range e.Foods {
			rows = append(rows, planRow{"section": prefix + "food", "person": e.Name, "count": heads, "key": f.Food, "name": f.Food, "ndb": f.NDB, "amount": num(f.Grams), "unit": "g"})
		}
		for j := range e.Needs {
			n := &e.Needs[j]
			row := planRow{"section": prefix + "need", "person": e.Name, "count": heads, "key": n.Nutrient, "name": NutrientName(n.Nutrient), "amount": num(n.Amount),
				"unit": n.Unit, "floor": maybe(n.Floor), "ceiling": maybe(n.Ceiling), "target": maybe(n.Target), "source": n.Source}
			if n.Unknown {
				row["text"] = "some foods eaten have no figure"
			}
			rows = append(rows, row)
		}
		if e.DrinkLPerDay > 0 {
			rows = append(rows, planRow{"section": prefix + "drink", "person": e.Name, "count": heads, "amount": num(e.DrinkLPerDay), "unit": "L"})
		}
		for _, r := range e.Rules {
			rows = append(rows, planRow{"section": prefix + "rule", "person": e.Name, "count": heads, "text": r.Text, "source": r.Source})
		}
	}
	return rows
}

func shortRows(section string, list []solver.Shortfall) []planRow {
	var rows []planRow
	for _, x := range list {
		rows = append(rows, planRow{"section": section, "person": x.Person, "key": x.Nutrient, "name": NutrientName(x.Nutrient),
			"amount": num(x.Amount), "unit": unitOf(x.Unit, x.Nutrient), "target": num(x.Target)})
	}
	return rows
}

// csvDigits is how many significant digits a number has in csv: far finer than
// any figure behind it, and free of the last digits of the arithmetic. JSON has
// them all.
const csvDigits = 10

// csvResidue is the size under which a number in csv is what arithmetic leaves of
// nothing: under any price, amount or gap that an answer holds.
const csvResidue = 1e-9

// num writes v in plain decimals: a spreadsheet rounds for itself.
func num(v float64) string {
	if math.Abs(v) < csvResidue {
		return "0"
	}
	short, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', csvDigits-1, 64), 64)
	if err != nil { // out of range: as it is
		short = v
	}
	return strconv.FormatFloat(short, 'f', -1, 64)
}

func maybe(v *float64) string {
	if v == nil {
		return ""
	}
	return num(*v)
}

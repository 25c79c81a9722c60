package report

import (
	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/headline"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/ration"
)

// How the parts that several answers share become rows.
const (
	packCells = "key=pack name=food ndb group count from_stock amount=net_g cost weight_kg volume_l"
	needCells = "key=nutrient amount unit floor ceiling target source"
)

// PlanCSV writes p as one flat table, one fact a row. Weights, volumes and costs
// are metric and in the plan's currency:
//
//	refused headline  the worst news
//	plan       status, value, bound, gap and what was asked, one key a row
//	total      key all or food, and water, heat
//	pack       one line of the shopping list; amount is net g of one pack
//	food       grams one person eats over the horizon
//	need       one nutrient of one person, per day
//	drink      litres of water one person drinks a day
//	place left packs of one kind on one shelf, and without a place
//	rule shortfall price caution not_checked note
//	conflict closest_pack closest_food closest_need closest_shortfall way_out
func PlanCSV(p *ration.Plan) *facts.Table {
	t := facts.New("section person key name ndb group count from_stock amount unit floor ceiling target cost currency weight_kg volume_l text source")
	worst(t, "person", headline.Plan(p))
	headFacts(t, p)
	totalFacts(t, p)
	packFacts(t, "pack", p.Packs, currency(p))
	personFacts(t, "", p.People)
	shortFacts(t, "shortfall", "target", p.Shortfalls)
	if p.Shelves != nil {
		t.Each("place", p.Shelves.Places, "key=pack name count weight_kg=kg text=shelf", nil)
		t.Each("left", p.Shelves.Left, "key=pack name count text=reason", nil)
	}
	t.Each("price", p.Prices, "person key=limit amount=marginal unit", nil)
	conflictFacts(t, p, currency(p))
	if p.Closest != nil {
		packFacts(t, "closest_pack", p.Closest.Packs, currency(p))
		personFacts(t, "closest_", p.Closest.People)
		shortFacts(t, "closest_shortfall", "target", p.Closest.Shortfalls)
	}
	for _, x := range p.Cautions {
		t.Add("caution", facts.Row{"person": sheet.Names(x.People), "key": x.ID, "name": x.Severity, "text": x.Text, "source": x.Source})
	}
	for _, x := range p.NotChecked {
		t.Add("not_checked", facts.Row{"key": x})
	}
	for _, x := range p.Notes {
		t.Add("note", facts.Row{"text": x})
	}
	return t
}

func headFacts(t *facts.Table, p *ration.Plan) {
	for _, x := range []struct{ key, text string }{{"status", p.Status}, {"stopped", p.Stopped}, {"least", string(p.Least)}, {"standard", p.Standard}, {"version", p.Version}} {
		t.AddIf(x.text != "", "plan", facts.Row{"key": x.key, "text": x.text})
	}
	t.Add("plan", facts.Row{"key": "days", "count": p.Days})
	for _, x := range []struct {
		key, unit string
		v         *float64
	}{{"value", unitOfLeast(p.Least, currency(p)), p.Value}, {"bound", unitOfLeast(p.Least, currency(p)), p.Bound}, {"gap", "", p.Gap}} {
		t.AddIf(x.v != nil, "plan", facts.Row{"key": x.key, "amount": x.v, "unit": x.unit})
	}
	t.AddIf(p.Proven != nil, "plan", facts.Row{"key": "proven", "text": p.Proven})
}

func totalFacts(t *facts.Table, p *ration.Plan) {
	if x := p.Totals; x != nil {
		t.Add("total", facts.Row{"key": "all", "cost": x.Cost, "currency": x.Currency, "weight_kg": x.WeightKg, "volume_l": x.VolumeL})
		t.Add("total", facts.Row{"key": "food", "cost": x.Food.Cost, "currency": x.Currency, "weight_kg": x.Food.WeightKg, "volume_l": x.Food.VolumeL})
		t.Add("total", facts.Row{"key": "water", "amount": x.WaterL, "unit": "L"})
		t.Add("total", facts.Row{"key": "heat", "amount": x.HeatMJ, "unit": "MJ"})
	}
}

func packFacts(t *facts.Table, section string, packs []ration.PlanPack, currency string) {
	for i, k := range packs {
		row := facts.Row{"unit": "g", "currency": currency}
		switch {
		case k.Reserve:
			row["text"] = "reserve: set aside, never ration"
		case k.EasyOpen:
			row["text"] = "easy to open"
		}
		t.Each(section, packs[i:i+1], packCells, row)
	}
}

func personFacts(t *facts.Table, prefix string, people []ration.PlanPerson) {
	for i := range people {
		e := &people[i]
		who := facts.Row{"person": e.Name, "count": e.Count, "unit": "g"}
		t.Each(prefix+"food", e.Foods, "key=food name=food ndb amount=grams", who)
		for j, n := range e.Needs {
			row := facts.Row{"person": e.Name, "count": e.Count, "name": sheet.Nutrient(n.Nutrient)}
			if n.Unknown {
				row["text"] = "some foods eaten have no figure"
			}
			t.Each(prefix+"need", e.Needs[j:j+1], needCells, row)
		}
		t.AddIf(e.DrinkLPerDay > 0, prefix+"drink", facts.Row{"person": e.Name, "count": e.Count, "amount": e.DrinkLPerDay, "unit": "L"})
		delete(who, "unit")
		t.Each(prefix+"rule", e.Rules, "text source", who)
	}
}

// conflictFacts are what conflicts and the ways out, at costs in currency.
func conflictFacts(t *facts.Table, p *ration.Plan, currency string) {
	t.Each("conflict", p.Conflict, "person text=limit", nil)
	for _, x := range p.WaysOut {
		row := facts.Row{"key": x.Tested, "name": "tested", "text": x.Change, "cost": x.Cost}
		if x.Cost != nil {
			row["currency"] = currency
		}
		t.Add("way_out", row)
	}
}

// shortFacts are needs that are not reached; what is asked stands in the column target.
func shortFacts(t *facts.Table, section, target string, list []ration.Shortfall) {
	for i, x := range list {
		t.Each(section, list[i:i+1], "person key=nutrient amount "+target+"=target",
			facts.Row{"name": sheet.Nutrient(x.Nutrient), "unit": unitOf(x.Unit, x.Nutrient)})
	}
}

package report

import (
	"strings"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/headline"
	"rationwright/solver/stockpile"
)

// StoresCSV writes s as one flat table of metric figures, one fact a row:
//
//	refused headline  the worst news of the plan
//	water container renew treat boil never heat fuel space shelf place left
//	too_much kit medicine pet caution
func StoresCSV(s *stockpile.Stockpile) *facts.Table {
	t := facts.New("section key what count amount unit low high weight_kg box_l shelf_l date text rule source verified")
	worst(t, "what", headline.Of(s.NotFed))
	waterFacts(t, s)
	treatFacts(t, s)
	heatFacts(t, &s.Heat)
	spaceFacts(t, s)
	supplyFacts(t, s)
	return t
}

func waterFacts(t *facts.Table, s *stockpile.Stockpile) {
	w, litres := &s.Water, facts.Row{"unit": "L"}
	t.Each("water", w.Computed.Lines, "what amount=litres rule source verified", facts.Row{"key": "part", "unit": "L"})
	t.Add("water", facts.Row{"key": "computed", "amount": w.Computed.Litres, "unit": "L"})
	for i := range w.Allowances {
		t.Each("water", w.Allowances[i:i+1], "key what=name rule=source_amount source verified", facts.Row{"amount": w.AllowanceL[i], "unit": "L"})
	}
	t.Add("water", facts.Row{"key": "recommended", "what": w.Because, "amount": w.Recommended, "unit": "L"})
	t.Add("water", facts.Row{"key": "plan", "count": w.PlanCount, "amount": w.PlanL, "unit": "L"})
	t.AddIf(w.OnHand > 0, "water", facts.Row{"key": "on_hand", "amount": w.OnHand, "unit": "L"})
	for i, c := range w.Containers {
		litres["key"], litres["what"], litres["source"], litres["verified"] = c.Container.Key, c.Container.Name, c.Container.Source, c.Container.Verified
		t.Each("container", w.Containers[i:i+1], "count amount=litres weight_kg box_l=shelf_l rule=renewal", litres)
	}
	for i, r := range w.Renew {
		days := r.Dates
		if len(days) == 0 {
			days = []string{""}
		}
		for _, day := range days {
			t.Each("renew", w.Renew[i:i+1], "key what rule=action source verified", facts.Row{"date": day})
		}
	}
}

func treatFacts(t *facts.Table, s *stockpile.Stockpile) {
	for _, r := range s.Boil.Rules {
		t.Add("boil", facts.Row{"key": r.Agency, "low": r.Minutes, "high": r.MinutesAbove, "unit": "min",
			"text": "low up to " + facts.Number(r.UpToM) + " m above the sea, high above it", "source": r.Source, "verified": r.Verified})
	}
	for _, agent := range s.Treat {
		for _, d := range agent.Doses {
			t.Add("treat", facts.Row{"key": d.Agent, "what": d.Strength, "amount": d.VolumeL, "unit": "L", "text": string(d.Water) + ": " + d.Text,
				"rule": "wait " + minutes(max(d.WaitMin, d.WaitParasites)), "source": d.Rows[0].Source, "verified": d.Rows[0].Verified})
		}
	}
	t.Each("never", s.Never, "what text=why source verified", nil)
}

func heatFacts(t *facts.Table, h *stockpile.StoredHeat) {
	t.Add("heat", facts.Row{"key": "useful", "amount": h.UsefulMJ, "unit": "MJ"})
	t.Add("heat", facts.Row{"key": "per_day", "amount": h.PerDayMJ, "unit": "MJ"})
	t.AddIf(h.OnHandMJ > 0, "heat", facts.Row{"key": "on_hand", "amount": h.OnHandMJ, "unit": "MJ"})
	t.AddIf(h.DaysWithout != nil, "heat", facts.Row{"key": "days_without", "amount": h.DaysWithout, "unit": "days"})
	for i, f := range h.Fuels {
		t.Each("fuel", h.Fuels[i:i+1], "count=packs amount=packs_typical low=packs_good high=packs_poor weight_kg box_l text=too_weak",
			facts.Row{"key": f.Stove.Name, "what": f.Stove.Fuel, "unit": "packs", "rule": f.Stove.Where, "source": f.Stove.Source, "verified": f.Stove.Verified})
	}
}

func spaceFacts(t *facts.Table, s *stockpile.Stockpile) {
	t.Each("space", s.Space, "key=what count=packs weight_kg=kg box_l shelf_l", nil)
	fit := s.Shelves
	if fit == nil {
		return
	}
	t.Each("shelf", fit.Use, "key=shelf weight_kg=kg high=load_kg box_l shelf_l=volume_l", nil)
	t.Each("place", fit.Places, "key=shelf what=pack count weight_kg=kg text=name", nil)
	t.Each("left", fit.Left, "key=pack what=name count text=reason", nil)
	for i, x := range fit.Much {
		proven := map[bool]string{false: "not proven", true: "proven"}[x.Proven]
		t.Each("too_much", fit.Much[i:i+1], "key=what amount=need high=have unit text", facts.Row{"what": proven})
	}
}

func supplyFacts(t *facts.Table, s *stockpile.Stockpile) {
	for i, l := range s.Kit {
		row := facts.Row{"text": strings.Trim(l.If+"; "+l.Note, "; "), "source": quantitySource(&l)}
		if l.Quantity > 0 {
			row["count"] = l.Quantity
		}
		t.Each("kit", s.Kit[i:i+1], "key=id what=item unit rule verified", row)
	}
	for i, l := range s.Medicines {
		t.Each("medicine", s.Medicines[i:i+1], "key=id what=item rule source verified", facts.Row{"text": strings.Trim(l.If+"; "+l.Note, "; ")})
	}
	if p := s.PetNeeds; p != nil {
		t.Each("pet", p.Water.Refs[:1], "source verified", facts.Row{"key": "water", "amount": p.WaterL, "unit": "L", "rule": p.Water.Rule})
		t.Add("pet", facts.Row{"key": "food", "count": p.FoodDays, "unit": "days of usual food"})
	}
	t.Each("caution", s.Cautions, "key=id what=severity text source", nil)
}

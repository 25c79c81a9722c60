package report

import (
	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/headline"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/ration"
	"rationwright/solver/swap"
)

// SwapCSV writes a changed plan as one flat table, one fact a row:
//
//	refused headline  the worst news
//	swap     how many packs of other foods change, and what that changes
//	out in   packs that go and come, by number
//	shortfall  a need that the changed plan does not reach: amount a day, floor what is asked
//	need     what a person gets of a nutrient a day, before and after, and the floor
//	pack     the changed plan's list; cost and weight of the whole line
//	conflict way_out   only where the balance cannot be kept
func SwapCSV(s *swap.Swap) *facts.Table {
	t := facts.New("section person key name count amount unit before after cost currency weight_kg text floor")
	worst(t, "person", headline.Plan(s.Plan))
	t.AddIf(s.Warning != "", "swap", facts.Row{"key": "warning", "text": s.Warning})
	short := s.Plan.Shortfalls
	if s.Plan.Closest != nil {
		short = s.Plan.Closest.Shortfalls
	}
	money := currency(s.Plan)
	if s.Plan.Infeasible() {
		t.Each("conflict", s.Plan.Conflict, "person text=limit", nil)
		t.Each("way_out", s.Plan.WaysOut, "text=change cost", nil)
	} else {
		t.Add("swap", facts.Row{"key": "changes", "count": s.Changes})
		t.Add("swap", facts.Row{"key": "changes_bound", "count": s.ChangesBound})
		t.Add("swap", facts.Row{"key": "proven", "text": s.Proven})
		t.Add("swap", facts.Row{"key": "cost_change", "cost": s.CostChange, "currency": money})
		t.Add("swap", facts.Row{"key": "weight_change", "weight_kg": s.WeightChange})
		t.Add("swap", facts.Row{"key": "volume_change", "amount": s.VolumeChange, "unit": "L"})
	}
	t.Each("out", s.Out, "key=pack name=food count", nil)
	t.Each("in", s.In, "key=pack name=food count", nil)
	shortFacts(t, "shortfall", "floor", short)
	for i, n := range s.Needs {
		t.Each("need", s.Needs[i:i+1], "person key=nutrient before after floor", facts.Row{"name": sheet.Nutrient(n.Nutrient), "unit": unitOf(n.Unit, n.Nutrient)})
	}
	t.Each("pack", s.Plan.Packs, "key=pack name=food count cost weight_kg", facts.Row{"currency": money})
	return t
}

// ReplacingCSV writes what could stand in for a food of p as one flat table: a row
// a pack of each replacement, the best first, then what is missing without the
// food. The worst news of the plan stands first.
func ReplacingCSV(x *swap.Replacing, p *ration.Plan) *facts.Table {
	t := facts.New("section rank food ndb pack count balanced cost_change currency weight_change_kg volume_change_l person need amount target unit text")
	worst(t, "person", headline.Plan(p))
	for k, r := range x.Replacements {
		t.Each("instead", r.Packs, "pack count", facts.Row{"rank": k + 1, "food": r.Food, "ndb": r.NDB, "balanced": r.Balanced, "cost_change": r.CostChange,
			"currency": currency(p), "weight_change_kg": r.WeightChange, "volume_change_l": r.VolumeChange})
	}
	for i, s := range x.Short {
		t.Each("missing", x.Short[i:i+1], "person need=nutrient amount target", facts.Row{"food": x.InsteadOf, "unit": unitOf(s.Unit, s.Nutrient)})
	}
	return t
}

package report

import (
	"slices"
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/cmd/rationwright/internal/view"
	"rationwright/solver/ration"
)

// TestShoppingByHand: what is bought and what is taken from the stock; a pack too hard for
// weak hands is marked, and only then explained; who must not have what is on the list.
func TestShoppingByHand(t *testing.T) {
	p := &ration.Plan{Packs: []ration.PlanPack{{Pack: "tuna-142g-can", Food: "tuna", Group: "fish", Count: 5, FromStock: 1, NetG: 113, Cost: 6, WeightKg: 0.91}, {Pack: "tuna-1kg-can", Food: "tuna", Group: "fish", Count: 1, NetG: 1000, Cost: 4.5, WeightKg: 1.2, EasyOpen: true}},
		Totals: &ration.Totals{Cost: 10.5, Currency: "TSD", WeightKg: 31.26, VolumeL: 45.6, WaterL: 84.7, HeatMJ: 21.3, OwnWaterL: 0.5, OwnHeatMJ: 0.4, Food: ration.FoodTotals{Cost: 9, WeightKg: 2.1, VolumeL: 3.4}}}
	v := view.Of(p)
	v.Apart = []string{"Not for Odd."}
	sec := shopping(p, v, sheet.Metric)
	if h := headings(sec.Table); h != "buy|own|food|pack|each holds|cost|weight" {
		t.Errorf("the columns are %q", h)
	}
	lines(t, "the list", barred(sec.Table), "fish: 4|1|tuna|tuna-142g-can|113 g|6.00|0.9 kg", "fish: 1|0||tuna-1kg-can|1.00 kg|4.50|1.2 kg")
	if len(sec.Notes) != 3 || sec.Notes[1] != "Not for Odd." || !strings.HasPrefix(sec.Notes[2], "\"own\" packs") {
		t.Errorf("%q", sec.Notes)
	}
	tot := totals(p, v, sheet.Metric)
	lines(t, "the totals", barred(tot.Table), "cost, TSD|10.50|9.00|food, stored water, fuel", "weight|31.3 kg|2.1 kg|packs and containers as carried", "shelf space|46 L|3 L|upright boxes; a shelf takes 1/0.85 of it",
		"water to store|84.7 L||drinking, cooking, hygiene, a tenth spare", "heat for cooking|21.3 MJ||useful heat, before stove losses")
	lines(t, "what is on hand", tot.Notes, "Of the water, 0.5 L is on hand already.", "Of the heat, the fuel on hand gives 0.4 MJ.")
	p.Totals.OwnWaterL, p.Totals.OwnHeatMJ, p.WeakHands = 0, 0, true
	if notes := totals(p, v, sheet.Metric).Notes; len(notes) != 0 {
		t.Errorf("nothing is on hand: %q", notes)
	}
	v = view.Of(p)
	sec = shopping(p, v, sheet.Metric)
	has(t, "weak hands", strings.Join(barred(sec.Table), "\n")+strings.Join(sec.Notes, "\n"), []string{"|tuna-142g-can *|", "|tuna-1kg-can|", "\"*\" is a pack that weak hands cannot open"})
	p.Packs, p.Totals = nil, nil
	sec = shopping(p, view.Of(p), sheet.Metric)
	if sec.Table != nil || !slices.Equal(sec.Lead, []string{"Nothing."}) {
		t.Errorf("%+v", sec)
	}
	if sec := totals(p, v, sheet.Metric); sec.Table != nil {
		t.Errorf("no totals: %+v", sec)
	}
}

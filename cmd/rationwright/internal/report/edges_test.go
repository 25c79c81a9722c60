package report

import (
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods/stores"
	"rationwright/solver/check"
	"rationwright/solver/ration"
	"rationwright/solver/stockpile"
	"rationwright/solver/swap"
	"rationwright/solver/why"
)

// TestSignsOfASwap: cost, weight and space each bear their own sign.
func TestSignsOfASwap(t *testing.T) {
	plan := &ration.Plan{Totals: &ration.Totals{Currency: "TSD"}}
	for _, c := range []struct {
		cost, kg, litres float64
		want             string
	}{
		{1.5, -2, -3, "Cost +1.50 TSD, weight -2.0 kg, shelf space -3 L."}, {-1.5, 2, -3, "Cost -1.50 TSD, weight +2.0 kg, shelf space -3 L."}, {-1.5, -2, 3, "Cost -1.50 TSD, weight -2.0 kg, shelf space +3 L."},
	} {
		s := &swap.Swap{Plan: plan, CostChange: c.cost, WeightChange: c.kg, VolumeChange: c.litres}
		if got := swapHead(s, sheet.Metric).Lead; len(got) != 2 || got[1] != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// TestNothingIsHeated: the section says so in its first line, and no more.
func TestNothingIsHeated(t *testing.T) {
	for _, mj := range []float64{0, -1} {
		sec := heat(&stockpile.Stockpile{Heat: stockpile.StoredHeat{UsefulMJ: mj}}, sheet.Metric)
		lines(t, "nothing is heated", sec.Lead, "Nothing in the plan is heated: no fuel is needed.")
		if sec.Title != "Heat and fuel" || sec.Table != nil || len(sec.Notes) != 0 {
			t.Errorf("%+v", sec)
		}
	}
}

// TestLinesOfAProgramme: how long each keeps and costs a year stands only where it is known, a
// day being long enough; what cannot be held without waste is named with its reason.
func TestLinesOfAProgramme(t *testing.T) {
	r := &stockpile.Rotation{Currency: "TSD", Programme: stores.Programme{Lines: []stores.ProgrammeLine{
		{Pack: "milk-1l", Name: "milk", Target: 2, KeepDays: 1, Rhythm: "1 a day", HasCost: true, YearCost: 365.5, NoWaste: true},
		{Pack: "salt-1kg", Name: "salt", Target: 3, Rhythm: "none", Why: "nobody eats it"},
	}}}
	sec := programme(r)
	if h := headings(sec.Table); h != "hold|what|pack|keeps, days|eat and buy back|a year, TSD" {
		t.Errorf("%q", h)
	}
	lines(t, "the programme", barred(sec.Table), "2|milk|milk-1l|1|1 a day|365.50", "3|salt|salt-1kg||none|")
}

// TestPackThatDecides: the pack that is shown of a food may be its first; one that may come in at
// no price, being in already, says so.
func TestPackThatDecides(t *testing.T) {
	w := &why.Why{Least: ration.LeastCost, Unit: "TSD", Foods: []why.FoodPrice{
		{Food: "rice", Chosen: true, InPlan: 2, Packs: []why.PackPrice{{Pack: "rice-1kg", Price: 2, Chosen: 1.5, Leaves: ptr(2.5)}, {Pack: "rice-2kg", Price: 4, Enters: ptr(3)}}},
		{Food: "oats", Packs: []why.PackPrice{{Pack: "oats-1kg", Price: 1, Enters: ptr(0.9)}, {Pack: "oats-500g", Price: 1, Enters: ptr(0.1)}}},
	}}
	got := Why(w, false).Sections
	in, out := got[len(got)-2], got[len(got)-1]
	lines(t, "what is in", barred(in.Table), "rice|2|rice-1kg|1.50|2.00|2.50|at no price") // no factor for all its packs is known
	lines(t, "what is out", barred(out.Table), "oats|0|oats-1kg|none|1.00|0.90|at no price")
	for _, c := range []struct {
		p      why.PackPrice
		chosen bool
		want   string
	}{
		{why.PackPrice{Leaves: ptr(2), Chosen: 1, Enters: ptr(3)}, true, "2.00"}, {why.PackPrice{Chosen: 1, Enters: ptr(3)}, true, "at no price"}, {why.PackPrice{Enters: ptr(3)}, false, "3.00"},
		{why.PackPrice{Enters: ptr(3)}, true, "in below 3.00"}, {why.PackPrice{Enters: ptr(0)}, true, "in at no price"}, {why.PackPrice{Enters: ptr(0)}, false, "at no price"}, {why.PackPrice{}, true, "in at no price"}, {why.PackPrice{}, false, "at no price"},
	} {
		if got := turns(w, &c.p, c.chosen); got != c.want {
			t.Errorf("%+v, chosen %v: %q, want %q", c.p, c.chosen, got, c.want)
		}
	}
}

// TestSecondAimWithoutAPlan: without a value there is nothing that could be dearer.
func TestSecondAimWithoutAPlan(t *testing.T) {
	p := &ration.Plan{First: &ration.First{Products: 31}, Eatable: &ration.Eatable{Products: 30, Price: ptr(0.01), Mains: 99}, Days: 14}
	lines(t, "no value", eatable(p, sheet.Metric), "Nothing that people would rather eat was found within the slack.")
}

// TestOnHandAloneAsFacts: water or heat on hand alone is told as that, and the other not at all.
func TestOnHandAloneAsFacts(t *testing.T) {
	for key, c := range map[string]*check.StockCheck{"water_l_on_hand amount=40 unit=L": {WaterOnHandL: ptr(40)}, "heat_mj_on_hand amount=9.5 unit=MJ": {HeatOnHandMJ: ptr(9.5)}} {
		var got []string
		for _, line := range filled(t, CheckCSV(c)) {
			if strings.Contains(line, "_on_hand") {
				got = append(got, line)
			}
		}
		lines(t, "on hand", got, "check key="+key)
	}
}

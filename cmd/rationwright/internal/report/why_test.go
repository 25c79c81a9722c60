package report

import (
	"strings"
	"testing"

	"rationwright/solver/ration"
	"rationwright/solver/why"
)

// A food that stays out at any price says so in every cell, and what costs next to
// nothing is not written as nothing.
func TestWhyNeverContradictsItself(t *testing.T) {
	v := func(x float64) *float64 { return &x }
	w := &why.Why{Least: ration.LeastCost, Unit: "TSD", Foods: []why.FoodPrice{
		{Food: "bouillon", Packs: []why.PackPrice{{Pack: "bouillon-100g-box", Price: 1.1, Enters: v(-0.2)}}},
		{Food: "yeast", Packs: []why.PackPrice{{Pack: "yeast-21g-pouch", Price: 0.7, Enters: v(0)}}},
		{Food: "jerky", Factor: v(0.0004), Packs: []why.PackPrice{{Pack: "jerky-227g-pouch", Price: 8.9, Enters: v(0.0036)}}},
		{Food: "formula", Chosen: true, InPlan: 3, Packs: []why.PackPrice{{Pack: "formula-800g-can", Price: 20, Chosen: 2.5}}},
	}}
	var text strings.Builder
	if err := Why(w, true).Text(&text); err != nil {
		t.Fatal(err)
	}
	want := map[string][]string{
		"bouillon": {"at no price", "at no price"}, "yeast": {"at no price", "at no price"},
		"jerky": {"0.0036", "-100 %"}, "formula": {"2.50", "at no price", "at no price"},
	}
	seen := 0
	for line := range strings.Lines(text.String()) {
		for food, cells := range want {
			rest, ok := strings.CutPrefix(line, food)
			if !ok {
				continue
			}
			seen++
			for _, cell := range cells {
				var found bool
				if _, rest, found = strings.Cut(rest, cell); !found {
					t.Errorf("no %q in order in %q", cell, line)
				}
			}
		}
	}
	if seen != len(want) || strings.Contains(text.String(), " 0.00 ") {
		t.Errorf("%d of %d foods in\n%s", seen, len(want), text.String())
	}
}

// TestWhatALimitIsWorth: in a sentence, on which side the limit stands, what one unit more
// and one less cost or save, and that no more of it can be had.
func TestWhatALimitIsWorth(t *testing.T) {
	w := &why.Why{Unit: "TSD"}
	for _, c := range []struct {
		l    why.LimitPrice
		want string
	}{
		{why.LimitPrice{Person: "Odd", Limit: "vitamin_d", Unit: "µg", Amount: ptr(15), Marginal: 0.25}, "Odd, vitamin D (at least 15 µg): one µg a day more costs about 0.25 TSD, one less saves as much."},
		{why.LimitPrice{Limit: "weight", Unit: "kg", Amount: ptr(40), AtMost: true, Marginal: -2}, "weight (at most 40 kg): one kg more saves about 2.0 TSD, one less costs as much."},
		{why.LimitPrice{Limit: "fat", Unit: "%", Marginal: 1, More: ptr(3), Less: ptr(2)}, "fat: one % more costs about 3.0 TSD, one less saves about 2.0 TSD."},
		{why.LimitPrice{Limit: "fat", Unit: "g", NoMore: true, Marginal: 1.5}, "fat: no more is possible; one less saves about 1.5 TSD."},
		{why.LimitPrice{Limit: "fat", Unit: "g", NoMore: true, AtMost: true, Marginal: -1.5}, "fat: one g more saves about 1.5 TSD; no less is possible."},
		{why.LimitPrice{Limit: "fat", Unit: "g", More: ptr(0), Less: ptr(2)}, "fat: one g more changes it by about 0 TSD, one less saves about 2.0 TSD."},
	} {
		if got := limitSentence(w, c.l); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	for range 20 {
		w.Limits = append(w.Limits, why.LimitPrice{Limit: "fat", Unit: "g"})
	}
	if sec := whyLimits(w); len(sec.Lead) != 20 || len(sec.Notes) != 0 {
		t.Errorf("%d lines, %q", len(sec.Lead), sec.Notes)
	}
	w.Limits = append(w.Limits, why.LimitPrice{Limit: "fat", Unit: "g"})
	if sec := whyLimits(w); len(sec.Lead) != 20 || len(sec.Notes) != 1 || !strings.HasPrefix(sec.Notes[0], "1 limit binds more:") {
		t.Errorf("%d lines, %q", len(sec.Lead), sec.Notes)
	}
}

// TestWhyByHand: limits and foods, what is invented said; of foods alone no limits, and every
// pack of them.
func TestWhyByHand(t *testing.T) {
	w := &why.Why{Least: ration.LeastWeight, Unit: "kg", Limits: []why.LimitPrice{{Person: "Odd", Limit: "iron", Unit: "mg", Amount: ptr(8), Marginal: 0.5, More: ptr(0.6), Less: ptr(0.4), NoMore: true}}, Foods: []why.FoodPrice{
		{Food: "rice", NDB: "20044", Chosen: true, InPlan: 3, Factor: ptr(1.2), Packs: []why.PackPrice{
			{Pack: "rice-1kg", Price: 1.02, Enters: ptr(0.9)}, {Pack: "rice-2kg", Price: 2.04, Chosen: 1.5, Leaves: ptr(2.5)}, {Pack: "rice-5kg", Price: 5.1, Enters: ptr(0)}}},
		{Food: "oats", InPlan: 1, Factor: ptr(0.995), Packs: []why.PackPrice{{Pack: "oats-500g", Price: 0.1, Enters: ptr(0.08)}, {Pack: "oats-1kg", Price: 1, Enters: ptr(0.99)}, {Pack: "oats-free", Enters: ptr(0.5)}}},
	}}
	got := Why(w, false).Sections
	if len(got) != 4 || !strings.Contains(got[0].Title, "least weight") || len(got[0].Lead) != 2 {
		t.Fatalf("%+v", got)
	}
	lines(t, "the limits", got[1].Lead, "- Odd, iron (at least 8 mg): no more is possible; one less saves about 0.40 kg.")
	if h := headings(got[2].Table); got[2].Title != "What the plan would hold if packs could be split, and up to what weight" || h != "food|packs in plan|pack|if packs split|now, kg|drops out above|all its packs" {
		t.Errorf("%q, %q", got[2].Title, h)
	}
	lines(t, "what is in, by the pack that is chosen", barred(got[2].Table), "rice|3|rice-2kg|1.50|2.040|2.500|+20 %")
	if h := headings(got[3].Table); got[3].Title != "What it leaves out, and the weight at which that comes in" || !strings.HasSuffix(h, "|comes in below|all its packs") {
		t.Errorf("%q, %q", got[3].Title, h)
	}
	lines(t, "what is out, by the pack nearest to it", barred(got[3].Table), "oats|1|oats-1kg|none|1.000|0.990|-0.5 %")
	if len(got[2].Notes) != 3 || len(got[3].Notes) != 3 {
		t.Errorf("%q, %q", got[2].Notes, got[3].Notes)
	}
	w.Demo.Household = true
	got = Why(w, true).Sections
	if len(got) != 3 || len(got[0].Lead) != 2 || !strings.Contains(got[0].Lead[1], "invented") || len(got[2].Table.Rows()) != 3 || len(got[2].Notes) != 2 {
		t.Errorf("of foods alone: %+v", got)
	}
	lines(t, "every pack", barred(got[1].Table), "rice|3|rice-1kg|none|1.020|in below 0.900|+20 %", "||rice-2kg|1.50|2.040|2.500|", "||rice-5kg|none|5.100|in at no price|")
	w.Demo = ration.Demo{Prices: true}
	if lead := Why(w, true).Sections[0].Lead; len(lead) != 2 {
		t.Errorf("%q", lead)
	}
	lines(t, "the facts", filled(t, WhyCSV(w)),
		"limit person=Odd limit=iron unit=mg amount=8 side=at least marginal=0.5 more=0.6 less=0.4 no_more=true price_unit=kg",
		"pack food=rice ndb=20044 chosen=true in_plan=3 factor=1.2 pack=rice-1kg price=1.02 packs=0 enters=0.9 price_unit=kg", "pack food=rice ndb=20044 chosen=true in_plan=3 factor=1.2 pack=rice-2kg price=2.04 packs=1.5 leaves=2.5 price_unit=kg",
		"pack food=rice ndb=20044 chosen=true in_plan=3 factor=1.2 pack=rice-5kg price=5.1 packs=0 enters=0 price_unit=kg",
		"pack food=oats chosen=false in_plan=1 factor=0.995 pack=oats-500g price=0.1 packs=0 enters=0.08 price_unit=kg", "pack food=oats chosen=false in_plan=1 factor=0.995 pack=oats-1kg price=1 packs=0 enters=0.99 price_unit=kg",
		"pack food=oats chosen=false in_plan=1 factor=0.995 pack=oats-free price=0 packs=0 enters=0.5 price_unit=kg")
}

// TestPricesToTheirDigits: a price to the cent, a weight to the gram, what is under a tenth
// to two digits; a change under one per cent with a decimal.
func TestPricesToTheirDigits(t *testing.T) {
	cost, weight := &why.Why{Least: ration.LeastCost}, &why.Why{Least: ration.LeastWeight}
	for _, c := range []struct {
		w    *why.Why
		v    float64
		want string
	}{{cost, 0.1, "0.10"}, {cost, 0.0994, "0.099"}, {cost, 0, "0.00"}, {weight, 0.1, "0.100"}, {weight, 1.23456, "1.235"}, {weight, 0, "0.000"}} {
		if got := worthOf(c.w, c.v); got != c.want {
			t.Errorf("%g: %q, want %q", c.v, got, c.want)
		}
	}
	for factor, want := range map[float64]string{1.0099: "+1.0 %", 1.02: "+2 %", 1.0105: "+1 %", 0.995: "-0.5 %", 0.5: "-50 %", 2: "+100 %"} {
		if got := change(&why.FoodPrice{Factor: &factor}); got != want {
			t.Errorf("times %g: %q, want %q", factor, got, want)
		}
	}
	none := why.FoodPrice{Packs: []why.PackPrice{{Price: 0, Enters: ptr(3)}, {Price: 2}, {Price: 1, Enters: ptr(-1)}}}
	if k := decisive(&none); k != -1 {
		t.Errorf("pack %d decides, and none can", k)
	}
}

package report

import (
	"bytes"
	"strings"
	"testing"

	"rationwright/foods/stores"
	"rationwright/solver/ration"
)

// TestTreatmentByFacts: each figure of a dose stands in its own column, and what is no dose
// of a kind in none; figures are made up, each another one.
func TestTreatmentByFacts(t *testing.T) {
	rows := []stores.Disinfection{{Ref: stores.Ref{Source: "S"}}}
	treat := &Treatment{
		Boil: stores.Boiling{Minutes: 3, HeatMJ: 1.5, VolumeL: 8, Rules: []stores.BoilRule{{Ref: stores.Ref{Source: "B"}}}},
		Doses: []stores.Dose{
			{Agent: "bleach", Strength: "6", Water: stores.CloudyWater, VolumeL: 10, TreatL: 11, Drops: 12, ML: 13.5, Teaspoons: "1/4", WaitMin: 30, Text: "drop it", Rows: rows},
			{Agent: "tablet", Strength: "x", Water: stores.ClearWater, VolumeL: 10, TreatL: 14, Tablets: 15, WaitMin: 31, WaitParasites: 240, Rows: rows},
			{Agent: "sun", Water: stores.ClearWater, VolumeL: 10, TreatL: 10, Bottles: 16, StockML: 17, WaitMin: 360, Rows: rows},
		},
	}
	var out bytes.Buffer
	if err := TreatCSV(treat).Write(&out); err != nil {
		t.Fatal(err)
	}
	want := []map[string]string{
		{"agent": "boil", "volume_l": "8", "treat_l": "8", "boil_min": "3", "heat_mj": "1.5", "source": "B"},
		{"agent": "bleach", "strength": "6", "water": string(stores.CloudyWater), "volume_l": "10", "treat_l": "11", "drops": "12", "ml": "13.5", "teaspoons": "1/4", "wait_min": "30", "text": "drop it", "source": "S"},
		{"agent": "tablet", "strength": "x", "water": string(stores.ClearWater), "volume_l": "10", "treat_l": "14", "tablets": "15", "wait_min": "31", "wait_parasites_min": "240", "source": "S"},
		{"agent": "sun", "water": string(stores.ClearWater), "volume_l": "10", "treat_l": "10", "bottles": "16", "stock_ml": "17", "wait_min": "360", "source": "S"},
	}
	got := factsOf(t, out.String())
	if len(got) != len(want) {
		t.Fatalf("%d rows, want %d", len(got), len(want))
	}
	for i, row := range got {
		for column, v := range row {
			if v != want[i][column] && (column != "text" || i > 0) {
				t.Errorf("%s: %s is %q, want %q", want[i]["agent"], column, v, want[i][column])
			}
		}
	}
}

// TestProofByHand: each count of an audit stands in its own place, and what was not confirmed
// is said as such.
func TestProofByHand(t *testing.T) {
	p := ration.Proof{
		ValueOK: true, RootOK: true, Covered: true, BoundOK: true, RootBound: 11.5, Bound: 12.25,
		Reductions: 20, ReductionsOK: 19, Cuts: 9, CutsDerived: 7, CutsTrusted: 2, Parts: 40, PartsOK: 38,
	}
	good := strings.Join(proofLines(&p), "\n")
	for _, want := range []string{
		"keeps every row of the model and has the value stated", "comes to 11.500000 again", "19 of 20 tightened bounds",
		"7 of the 9 cuts that the proof uses derived again from their multipliers; 2 are trusted", "38 of the 40 parts", "leave nothing out", "Together they prove 12.250000: the bound stated is confirmed",
	} {
		if !strings.Contains(good, want) {
			t.Errorf("%q is not said:\n%s", want, good)
		}
	}
	if strings.Contains(strings.ToUpper(good), "NOT CONFIRMED") {
		t.Errorf("all is confirmed:\n%s", good)
	}
	for want, spoil := range map[string]func(*ration.Proof){
		"NOT CONFIRMED: the plan found does not keep":                         func(p *ration.Proof) { p.ValueOK = false },
		"NOT CONFIRMED: the bound of the relaxation comes to 11.500000 only.": func(p *ration.Proof) { p.RootOK = false },
		"DO NOT cover everything":                                             func(p *ration.Proof) { p.Covered = false },
		"NOT CONFIRMED: together they prove 12.250000 only.":                  func(p *ration.Proof) { p.BoundOK = false },
		"Not confirmed: cut 3 is trusted.":                                    func(p *ration.Proof) { p.Unconfirmed = []string{"cut 3 is trusted"} },
	} {
		bad := p
		spoil(&bad)
		if text := strings.Join(proofLines(&bad), "\n"); !strings.Contains(text, want) {
			t.Errorf("%q is not said:\n%s", want, text)
		}
	}
}

package page

import (
	"strings"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestFrontierInWords: who cannot see the picture reads of each point its limit and, after
// it, the total that is made least, of figures made up for this test.
func TestFrontierInWords(t *testing.T) {
	p, err := FrontierOf(&plan.Comparison{Plans: []*ration.Plan{{Least: ration.LeastVolume}}, Frontier: &plan.Frontier{Least: ration.LeastVolume, Within: ration.LeastWeight, Points: []plan.FrontierPoint{
		{Limit: 120, Cost: 300, WeightKg: 119, VolumeL: 210, Plan: 1}, {Limit: 100, Cost: 310, WeightKg: 99, VolumeL: 230, Plan: 2},
	}}})
	if err != nil {
		t.Fatal(err)
	}
	if want := "At most 120.0 kg: 210 L; at most 100.0 kg: 230 L."; !strings.Contains(p.Alt, want) {
		t.Errorf("%q, want %q in it", p.Alt, want)
	}
}

// TestFrontierOfCostAndWeight: the picture of a plan's page is of the least cost for each
// limit on weight.
func TestFrontierOfCostAndWeight(t *testing.T) {
	r := &Report{}
	err := r.AddFrontier(t.Context(), &ration.Request{
		People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female)}, Table: rationtest.SmallTable(t, rationtest.SmallShop...), IgnoreEatable: true,
		Standard: nutrients.StandardBasic, Days: 3, Start: "2026-11-25", Work: 1000, Within: 0.05,
	})
	p := r.Frontier
	if err != nil || p == nil {
		t.Fatal(p, err)
	}
	if title := "Least cost for each limit on weight"; !strings.HasPrefix(p.Alt, title+". ") || !strings.Contains(p.Alt, " kg: ") || strings.Contains(p.Alt, " L: ") {
		t.Errorf("%q, want %q and limits in kg", p.Alt, title)
	}
}

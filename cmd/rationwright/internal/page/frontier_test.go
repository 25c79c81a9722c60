package page

import (
	"strings"
	"testing"

	"rationwright/solver/plan"
	"rationwright/solver/ration"
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

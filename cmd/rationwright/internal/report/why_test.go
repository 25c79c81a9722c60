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

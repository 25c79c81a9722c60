package report

import (
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
)

// TestPlansSideBySide, by hand: each pack has a line with how many of it each plan has, of
// whatever lines; none is blank. Packs and foods are counted, bought and owned.
func TestPlansSideBySide(t *testing.T) {
	of := func(least ration.Least, packs ...ration.PlanPack) *ration.Plan {
		value := 10.0
		return &ration.Plan{Status: ration.StatusOptimal, Least: least, Value: &value, Totals: &ration.Totals{Cost: 12.5, WeightKg: 30}, Packs: packs}
	}
	line := func(pack, food string, n int) ration.PlanPack {
		return ration.PlanPack{Pack: pack, Food: food, Count: n}
	}
	c := &plan.Comparison{Plans: []*ration.Plan{
		of(ration.LeastCost, line("rice-1kg", "rice", 7), line("rice-1kg", "rice", 2), line("beans", "beans", 3)),
		of(ration.LeastWeight, line("beans", "beans", 5), line("oil", "oil", 1), line("rice-2kg", "rice", 4)),
		of(ration.LeastVolume),
	}}
	rows := map[string]string{}
	for _, text := range strings.Split(laidOut(t, Compare(c, sheet.Metric)), "\n") {
		if f := strings.Fields(text); len(f) > 1 {
			rows[f[0]] = strings.Join(f[1:], " ")
		}
	}
	for key, want := range map[string]string{"rice-1kg": "9", "beans": "3 5", "oil": "1", "rice-2kg": "4", "packs": "12 10 0", "foods": "2 3 0"} {
		if rows[key] != want {
			t.Errorf("%s: %q, want %q", key, rows[key], want)
		}
	}
}

package report

import (
	"bytes"
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
		return ration.PlanPack{Pack: pack, Food: food, Count: n, FromStock: n / 2}
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

// compared are plans and a frontier made up for these tests, each of their figures another
// one.
func compared() *plan.Comparison {
	totals := &ration.Totals{Cost: 82.5, Currency: "TSD", WeightKg: 31.24, VolumeL: 45.6, WaterL: 84.7, HeatMJ: 21.3, OwnWaterL: 9, OwnHeatMJ: 8}
	p := &ration.Plan{Status: ration.StatusOptimal, Least: ration.LeastCost, Value: ptr(82.5), Bound: ptr(82), Gap: ptr(0.006), Totals: totals, Request: &ration.RequestRecord{Demo: ration.Demo{Prices: true}},
		Packs: []ration.PlanPack{{Pack: "rice-1kg", Food: "rice", Count: 3, Cost: 12, WeightKg: 3.06, VolumeL: 4}}}
	light := *p
	light.Least, light.Value, light.Bound, light.Gap, light.Packs = ration.LeastWeight, ptr(31.24), nil, nil, nil
	return &plan.Comparison{Plans: []*ration.Plan{p, &light}, Frontier: &plan.Frontier{Least: ration.LeastCost, Within: ration.LeastWeight, Points: []plan.FrontierPoint{
		{Limit: 40, Cost: 82.5, WeightKg: 38.5, VolumeL: 45.6, Bound: ptr(82), Gap: ptr(0.006), Plan: 1},
		{Limit: 35, Cost: 90, WeightKg: 34.8, VolumeL: 47, Plan: 2},
		{Limit: 31.5, Cost: 99.25, WeightKg: 31.4, VolumeL: 43, Bound: ptr(97), Gap: ptr(0.0227), Plan: 2},
	}}}
}

// TestComparisonByHand: the totals of the plans beside each other, and the frontier, each
// figure under its head; what is not proven says so.
func TestComparisonByHand(t *testing.T) {
	c := compared()
	got := Compare(c, sheet.Metric).Sections
	if h := headings(got[0].Table); h != "|least cost|least weight" || got[0].Lead[0] != "Prices are invented for the demo." {
		t.Errorf("%q, %q", h, got[0].Lead)
	}
	lines(t, "side by side", barred(got[0].Table), "cost, TSD|82.50|82.50", "weight|31.2 kg|31.2 kg", "shelf space|46 L|46 L", "water to store|84.7 L|84.7 L", "heat for cooking|21.3 MJ|21.3 MJ", "packs|3|0", "foods|1|0", "proven within|0.60 %|not known")
	lines(t, "packs in each", barred(got[1].Table), "rice-1kg|3|")
	if got[2].Title != "Least cost for each limit on weight" {
		t.Errorf("%q", got[2].Title)
	}
	lines(t, "the frontier", barred(got[2].Table), "40.0 kg|1|82.50 TSD|38.5 kg|46 L|0.60 %", "35.0 kg|2|90.00 TSD|34.8 kg|47 L|", "31.5 kg|2|99.25 TSD|31.4 kg|43 L|2.3 %")
	if notes := got[2].Notes; len(notes) != 2 || !strings.Contains(notes[0], "from the weight of the plan of least cost down to the least weight") || !strings.Contains(notes[1], "is the same plan") {
		t.Errorf("%q", notes)
	}
	c.Frontier.Points[2].Plan = 3
	if notes := Compare(c, sheet.Metric).Sections[2].Notes; len(notes) != 1 {
		t.Errorf("each point has a plan of its own: %q", notes)
	}
	c.Frontier.Points[2].Plan = 2
	lines(t, "the facts", filled(t, CompareCSV(c)),
		"plan least=cost cost=82.5 currency=TSD weight_kg=31.24 volume_l=45.6 water_l=84.7 heat_mj=21.3 value=82.5 bound=82 gap=0.006 status=optimal",
		"plan least=weight cost=82.5 currency=TSD weight_kg=31.24 volume_l=45.6 water_l=84.7 heat_mj=21.3 value=31.24 status=optimal",
		"pack least=cost pack=rice-1kg count=3 cost=12 currency=TSD weight_kg=3.06 volume_l=4",
		"frontier least=cost limit=40 cost=82.5 currency=TSD weight_kg=38.5 volume_l=45.6 value=82.5 bound=82 gap=0.006 plan=1",
		"frontier least=cost limit=35 cost=90 currency=TSD weight_kg=34.8 volume_l=47 value=90 plan=2",
		"frontier least=cost limit=31.5 cost=99.25 currency=TSD weight_kg=31.4 volume_l=43 value=99.25 bound=97 gap=0.0227 plan=2")
	c.Frontier, c.Plans[1].Totals = nil, nil
	if rows := filled(t, CompareCSV(c)); len(rows) != 3 || rows[1] != "plan least=weight value=31.24 status=optimal" {
		t.Errorf("%q", rows)
	}
	none := &plan.Comparison{Plans: []*ration.Plan{{Status: ration.StatusInfeasible, Conflict: []ration.ConflictLimit{{Limit: "budget"}}}}}
	if sections := Compare(none, sheet.Metric).Sections; len(sections) == 0 || sections[0].Title != "What cannot be met together" {
		t.Errorf("nothing fits: %+v", sections)
	}
}

// TestFrontierDrawn: the drawing says what it shows, in which units and that prices are
// invented; both lines have their names, what is proven only where anything is, and stand
// where their figures are.
func TestFrontierDrawn(t *testing.T) {
	draw := func(c *plan.Comparison) string {
		t.Helper()
		var out bytes.Buffer
		if err := FrontierPlot(&out, c, "svg"); err != nil {
			t.Fatal(err)
		}
		return out.String()
	}
	c := compared()
	svg := draw(c)
	has(t, "the drawing", svg, []string{">Least cost for each limit on weight</text>", ">Prices are invented for the demo.</text>", ">weight, kg</text>", ">cost, TSD</text>", ">found</text>", ">proven: no plan does better</text>"})
	for i := range c.Frontier.Points {
		c.Frontier.Points[i].Bound = nil
	}
	has(t, "without bounds", draw(c), []string{">found</text>"}, "proven")
	c.Frontier = nil
	if err := FrontierPlot(&bytes.Buffer{}, c, "svg"); err == nil {
		t.Error("there is no frontier, and it is drawn")
	}
}

package batch

import (
	"bytes"
	"encoding/csv"
	"testing"
	"time"

	"rationwright/cmd/rationwright/internal/exit"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestTotalByHand adds up seven lines written by hand: three households with a plan, one of
// them with a refused person and one short of a vitamin, one unread, one without a ration,
// one without a plan, one that broke down.
func TestTotalByHand(t *testing.T) {
	gap := func(v float64) *float64 { return &v }
	plan := func(cost float64, rice int, g *float64) Line {
		totals := &ration.Totals{Currency: "TSD", Cost: cost, WeightKg: 50, VolumeL: 70, WaterL: 40, HeatMJ: 2}
		totals.Food.Cost, totals.Food.WeightKg, totals.Food.VolumeL = cost-10, 12, 20
		return Line{Exit: exit.Done, Gap: g, Totals: totals, Packs: []ration.PlanPack{
			{Pack: "rice", Food: "white rice", NetG: 907, Count: rice, Cost: 2 * float64(rice), WeightKg: float64(rice), VolumeL: 1.5 * float64(rice)},
			{Pack: "sugar", Count: 1, Cost: 1, WeightKg: 0.5, VolumeL: 1}, {Pack: "sugar", Count: 2, Cost: 2, WeightKg: 1, VolumeL: 2, Reserve: true},
		}}
	}
	lines := []Line{plan(100, 3, gap(0.01)), plan(200, 4, gap(0.05)), plan(300, 5, gap(0.03)), {Exit: exit.BadInput}, {Exit: exit.NoRation}, {Exit: exit.Limit}, {Exit: exit.Fault}}
	lines[1].Refused = []ration.Refused{{Name: "Arne"}}
	lines[2].Shortfalls = []ration.Shortfall{{Person: "Signe"}}
	total := &Total{}
	for i := range lines {
		total.add(&lines[i])
	}
	if total.Households != 7 || total.Unread != 1 || total.Unfed != 1 || total.Unplanned != 2 || total.Short != 1 || total.Refusing != 1 {
		t.Errorf("counts %+v", total)
	}
	if total.Gaps != 3 || total.Gap < 0.09-1e-12 || total.Gap > 0.09+1e-12 || total.Widest != 0.05 {
		t.Errorf("%d gaps, %g in all, the widest %g, want 3, 0.09, 0.05", total.Gaps, total.Gap, total.Widest)
	}
	var text bytes.Buffer
	if err := total.List().Write(&text); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&text).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []map[string]string{
		{"row": "pack", "pack": "rice", "net_g": "907", "count": "12", "households": "3", "cost": "24", "weight_kg": "12", "volume_l": "18"},
		{"row": "pack", "pack": "sugar", "count": "9", "households": "3", "cost": "9", "weight_kg": "4.5", "volume_l": "9"},
		{"row": "food", "count": "21", "households": "3", "cost": "570", "weight_kg": "36", "volume_l": "60"},
		{"row": "all", "households": "3", "cost": "600", "weight_kg": "150", "volume_l": "210", "water_l": "120", "heat_mj": "6", "currency": "TSD"},
	} {
		for k, column := range rows[0] {
			if v, ok := want[column]; ok && rows[i+1][k] != v {
				t.Errorf("row %d: %s is %s, want %s", i+1, column, rows[i+1][k], v)
			}
		}
	}
	if len(rows) != 5 {
		t.Errorf("%d rows, want 4 below the header", len(rows))
	}
}

// TestLeft: 30 households in a minute, 10 of them before: 20 in 60 s, so that 70 more take
// 210 s.
func TestLeft(t *testing.T) {
	rate, left := Left(100, 30, 10, time.Minute)
	if rate < 1.0/3-1e-9 || rate > 1.0/3+1e-9 || left.Round(time.Millisecond) != 210*time.Second {
		t.Errorf("%g a second, %v left, want a third and 3m30s", rate, left)
	}
	for _, c := range []struct{ done, before int }{{10, 10}, {0, 0}} {
		if _, left := Left(100, c.done, c.before, time.Minute); left != 0 {
			t.Errorf("%d done of which %d before: %v left", c.done, c.before, left)
		}
	}
}

// TestAlikeCountsHeads: rows that are alike but for their names stand for all their heads.
func TestAlikeCountsHeads(t *testing.T) {
	one, three, other := rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Three", 30, nutrients.Female), rationtest.Adult("Arvid", 30, nutrients.Male)
	three.Count = 3
	heads := map[nutrients.Sex]int{}
	for _, p := range alikeOf([]nutrients.Person{three, other, one}).people {
		heads[p.Sex] += p.Count
	}
	if heads[nutrients.Female] != 4 || heads[nutrients.Male] != 1 {
		t.Errorf("heads %v, want 4 and 1", heads)
	}
}

package report

import (
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/ration"
	"rationwright/solver/swap"
)

// A swap that leaves vitamins short names them, and never says that everyone gets
// every need.
func TestSwapNamesWhatIsShort(t *testing.T) {
	short := func(who string, amount float64) ration.Shortfall {
		return ration.Shortfall{Person: who, Nutrient: "vitamin_d", Unit: "µg", Amount: amount, Target: 15}
	}
	for _, c := range []struct {
		short []ration.Shortfall
		want  string
	}{
		{nil, "Everyone still gets every need."},
		{[]ration.Shortfall{short("Maja", 1.5)}, "NOT EVERY NEED IS MET. Short: vitamin D for Maja (gets 10 % of it)."},
		{[]ration.Shortfall{short("Maja", 1.5), short("Emil", 0.9)}, "NOT EVERY NEED IS MET. Short: vitamin D for all 2 (at worst Emil, with 6 % of it)."},
	} {
		if got := keptNeeds(&ration.Plan{People: make([]ration.PlanPerson, 2), Shortfalls: c.short}); got != c.want {
			t.Errorf("%v: %q, want %q", c.short, got, c.want)
		}
	}
	floor := 15.0
	s := &swap.Swap{Plan: &ration.Plan{Shortfalls: []ration.Shortfall{short("Maja", 14.9)}}, Needs: []swap.NeedChange{
		{Person: "Maja", Nutrient: "vitamin_d", Unit: "µg", Before: 14.9, After: 14.9, Floor: &floor},
	}}
	if g := needChanges(s).Table; len(g.Rows()) == 0 || g.Rows()[0][6] != "SHORT" {
		t.Errorf("a need that is short and changes little is not shown: %v", g.Rows())
	}
}

// swapped is a change made up for these tests, each of its figures another one.
func swapped() *swap.Swap {
	return &swap.Swap{
		Out: []swap.PackChange{{Pack: "rice-1kg", Food: "rice", Count: 3}}, In: []swap.PackChange{{Pack: "oats-500g", Food: "oats", Count: 7}},
		CostChange: -2.5, WeightChange: 0.75, VolumeChange: 1.6, Changes: 4, ChangesBound: 2, Best: ptr(80.25), Most: 84.5, Warning: "not wholly kept",
		Needs: []swap.NeedChange{
			{Person: "Maja", Nutrient: "iron", Unit: "mg", Before: 18, After: 12, Floor: ptr(18)},
			{Person: "Odd", Nutrient: "zinc", Before: 20, After: 19, Floor: ptr(11)},
			{Person: "Odd", Nutrient: "calcium", Unit: "mg", Before: 1000, After: 951, Floor: ptr(900)},
			{Person: "Maja", Nutrient: "fat", Unit: "g", Before: 50, After: 60},
		},
		Plan: &ration.Plan{Status: ration.StatusOptimal, Least: ration.LeastCost, Value: ptr(82), Days: 14, Totals: &ration.Totals{Cost: 82, Currency: "TSD", WeightKg: 31},
			People: []ration.PlanPerson{{Name: "Maja", Count: 1}, {Name: "Odd", Count: 1}}, Shortfalls: []ration.Shortfall{{Person: "Maja", Nutrient: "iron", Amount: 12, Target: 18}},
			Packs: []ration.PlanPack{{Pack: "oats-500g", Food: "oats", Count: 7, Cost: 14, WeightKg: 3.6}}},
	}
}

// TestSwapByHand: how many packs change and how few that is proven to be, what the change
// costs with its sign, what comes and goes, and for whom it changes most: what is short
// always, the rest from five per cent.
func TestSwapByHand(t *testing.T) {
	s := swapped()
	sections := map[string]sheet.Section{}
	for _, sec := range Swap(s, sheet.Metric).Sections {
		sections[sec.Title] = sec
	}
	lines(t, "the head", sections["The swap"].Lead, "4 packs of other foods change: the fewest found; no plan within the spread changes fewer than 2.", "Cost -2.50 TSD, weight +0.8 kg, shelf space +2 L.",
		"The best plan found after the change comes to 80.25 TSD, this one to 82.00 TSD; up to 84.50 TSD was allowed.", "NOTE: Not wholly kept.")
	lines(t, "out", barred(sections["Out"].Table), "3|rice|rice-1kg")
	lines(t, "in", barred(sections["In"].Table), "7|oats|oats-500g")
	// 1000 to 951 is 4.9 % less, 20 to 19 is 5 %.
	lines(t, "what changes", barred(sections["What changes most for whom, a day"].Table), "Maja|iron|18.0|12.0|18.0|mg|SHORT", "Odd|zinc|20.0|19.0|11.0|mg|", "Maja|fat|50.0|60.0||g|")
	if sec := sections["What changes most for whom, a day"]; len(sec.Lead) != 1 || !strings.HasPrefix(sec.Lead[0], "NOT EVERY NEED IS MET.") || len(sec.Notes) != 1 {
		t.Errorf("%q, %q", sec.Lead, sec.Notes)
	}
	if short := Swapped(s, sheet.Metric); len(short.Sections) != 4 || short.Sections[3].Table != nil || len(short.Sections[3].Lead) != 1 || len(short.Alerts) != 0 {
		t.Errorf("in short: %+v", short)
	}

	s.Proven, s.Changes, s.Best, s.Warning = true, 1, nil, ""
	lines(t, "a proven change of one", swapHead(s, sheet.US).Lead, "1 pack of another food changes: proven to be the fewest.", "Cost -2.50 TSD, weight +1.7 lb, shelf space +0.1 cu ft.") // 0.75 kg are 1.65 lb, 1.6 L 0.06 cubic feet
	s.Needs, s.Plan.Shortfalls = nil, nil
	if sec := needChanges(s); len(sec.Lead)+len(sec.Notes)+len(sec.Table.Rows()) != 0 {
		t.Errorf("nothing changes: %+v", sec)
	}
	for range 20 { // a table holds twelve; what is short comes on top
		s.Needs = append(s.Needs, swap.NeedChange{Person: "Odd", Nutrient: "zinc", Before: 20, After: 30})
	}
	s.Needs = append(s.Needs, swap.NeedChange{Person: "Odd", Nutrient: "iron", Before: 8, After: 7, Floor: ptr(8)})
	sec := needChanges(s)
	if rows := sec.Table.Rows(); len(rows) != 13 || rows[12][1] != "iron" || len(sec.Lead) != 1 {
		t.Errorf("%d rows, %q", len(rows), sec.Lead)
	}

	s.Plan.Status, s.Plan.Conflict, s.Warning = ration.StatusInfeasible, []ration.ConflictLimit{{Limit: "budget at most 30 TSD"}}, "nothing keeps the balance"
	got := Swap(s, sheet.Metric).Sections
	if len(got) < 2 || got[0].Lead[0] != "Nothing keeps the balance." || got[1].Title != "What cannot be met together" {
		t.Errorf("nothing fits: %+v", got)
	}
}

// TestSwapAsFacts: a row a fact, each figure in its column.
func TestSwapAsFacts(t *testing.T) {
	s := swapped()
	lines(t, "the facts", filled(t, SwapCSV(s))[1:],
		"swap key=warning text=not wholly kept", "swap key=changes count=4", "swap key=changes_bound count=2", "swap key=proven text=false", "swap key=cost_change cost=-2.5 currency=TSD", "swap key=weight_change weight_kg=0.75",
		"swap key=volume_change amount=1.6 unit=L", "out key=rice-1kg name=rice count=3", "in key=oats-500g name=oats count=7",
		"shortfall person=Maja key=iron name=iron amount=12 unit=mg floor=18",
		"need person=Maja key=iron name=iron unit=mg before=18 after=12 floor=18", "need person=Odd key=zinc name=zinc unit=mg before=20 after=19 floor=11",
		"need person=Odd key=calcium name=calcium unit=mg before=1000 after=951 floor=900", "need person=Maja key=fat name=fat unit=g before=50 after=60",
		"pack key=oats-500g name=oats count=7 cost=14 currency=TSD weight_kg=3.6")
	s.Warning, s.Plan.Status, s.Plan.Shortfalls = "", ration.StatusInfeasible, nil
	s.Plan.Conflict = []ration.ConflictLimit{{Limit: "budget", Person: "Odd"}}
	s.Plan.WaysOut = []ration.WayOut{{Change: "3 TSD more", Cost: ptr(85)}}
	s.Plan.Closest = &ration.Closest{Shortfalls: []ration.Shortfall{{Person: "Odd", Nutrient: "zinc", Amount: 5, Target: 11}}}
	s.Needs, s.Out, s.In, s.Plan.Packs = nil, nil, nil, nil
	lines(t, "where nothing fits", filled(t, SwapCSV(s), "swap", "conflict", "way_out", "shortfall"), "conflict person=Odd text=budget", "way_out cost=85 text=3 TSD more", "shortfall person=Odd key=zinc name=zinc amount=5 unit=mg floor=11")
}

// TestReplacingByHand: what could stand in, the best first, all its packs with what holds
// for them said once; what is missing without the food.
func TestReplacingByHand(t *testing.T) {
	p := swapped().Plan
	x := &swap.Replacing{InsteadOf: "rice", For: "Odd", Short: []ration.Shortfall{{Person: "Odd", Nutrient: "zinc", Amount: 5, Target: 10}}, Replacements: []swap.Replacement{
		{Food: "oats", NDB: "20038", Balanced: true, CostChange: 1.25, WeightChange: -0.5, VolumeChange: 2.4, Packs: []swap.PackChange{{Pack: "oats-500g", Count: 2}, {Pack: "oats-1kg", Count: 3}}},
		{Food: "pasta", NDB: "20120", CostChange: -3, WeightChange: 1.26, VolumeChange: -4, Packs: []swap.PackChange{{Pack: "pasta-1kg", Count: 4}},
			Short: []ration.Shortfall{{Person: "Odd", Nutrient: "vitamin_d"}, {Person: "Maja", Nutrient: "vitamin_d"}, {Person: "Maja", Nutrient: "iron"}}},
	}}
	got := Replacing(x, p, sheet.Metric).Sections
	if len(got) != 3 || got[0].Title != "Instead of rice for Odd" || !strings.HasPrefix(got[0].Lead[0], "Each of these would stand in by itself") {
		t.Fatalf("%+v", got)
	}
	if h := headings(got[1].Table); h != "food|packs|pack|cost, TSD|weight|space|balance" {
		t.Errorf("the columns are %q", h)
	}
	lines(t, "what could", barred(got[1].Table), "oats|2|oats-500g|+1.25|-0.5 kg|+2 L|kept", "|3|oats-1kg||||", "pasta|4|pasta-1kg|-3.00|+1.3 kg|-4 L|short: vitamin D, iron")
	lines(t, "what is missing", barred(got[2].Table), "zinc|Odd|Odd|5.00|10.0|mg|50")
	lines(t, "the facts", filled(t, ReplacingCSV(x, p), "instead", "missing"),
		"instead rank=1 food=oats ndb=20038 pack=oats-500g count=2 balanced=true cost_change=1.25 currency=TSD weight_change_kg=-0.5 volume_change_l=2.4",
		"instead rank=1 food=oats ndb=20038 pack=oats-1kg count=3 balanced=true cost_change=1.25 currency=TSD weight_change_kg=-0.5 volume_change_l=2.4",
		"instead rank=2 food=pasta ndb=20120 pack=pasta-1kg count=4 balanced=false cost_change=-3 currency=TSD weight_change_kg=1.26 volume_change_l=-4",
		"missing food=rice person=Odd need=zinc amount=5 target=10 unit=mg")
	x.Replacements, x.For = nil, ""
	if got := Replacing(x, p, sheet.Metric).Sections[0]; got.Title != "Instead of rice" || !strings.HasPrefix(got.Lead[0], "No single food comes nearer") {
		t.Errorf("%+v", got)
	}
	x.Needless = true
	if got := Replacing(x, p, sheet.Metric).Sections[0]; !strings.HasPrefix(got.Lead[0], "Nothing need replace it") {
		t.Errorf("%+v", got)
	}
}

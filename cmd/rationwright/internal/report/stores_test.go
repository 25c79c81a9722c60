package report

import (
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods/stores"
	"rationwright/solver/ration"
	"rationwright/solver/stockpile"
)

// pile is a store made up for these tests, each of its figures another one.
func pile() *stockpile.Stockpile {
	from := func(source string) stores.Ref { return stores.Ref{Source: source, Verified: "from memory"} }
	days := 5
	jug := &stores.Container{Key: "jug_4", Name: "jug 4 L", NetML: 4000, Ref: from("J")}
	bottle := &stores.Container{Key: "bottle_water_05", Name: "bottle", NetML: 500}
	s := &stockpile.Stockpile{
		Days: 14, Heads: 6, Pets: 2, Start: "2026-11-25", Least: ration.LeastWeight, Value: ptr(151.44), Currency: "TSD", Demo: ration.Demo{Prices: true},
		Treat: []stockpile.DoseSheet{
			{Agent: "bleach", Strength: "6 %", Doses: []stores.Dose{
				{Agent: "bleach", Strength: "6 %", Water: stores.ClearWater, VolumeL: stores.LPerGallon, Drops: 8, ML: 0.5, WaitMin: 30, Text: "eight", Rows: []stores.Disinfection{{Ref: from("D")}}},
				{Agent: "bleach", Strength: "6 %", Water: stores.CloudyWater, VolumeL: 20, Drops: 85, ML: 4.28, WaitMin: 60, Text: "many", Rows: []stores.Disinfection{{Ref: from("D")}}},
			}},
			{Agent: "tablet", Strength: "30 mg", Doses: []stores.Dose{
				{Agent: "tablet", Strength: "30 mg", Water: stores.ClearWater, VolumeL: 20, Tablets: 3, WaitMin: 45, WaitParasites: 240, Text: "three", Rows: []stores.Disinfection{{Ref: from("D")}}},
			}},
		},
		Boil: stores.Boiling{Minutes: 3, HeatMJ: 1.8, VolumeL: 4, Known: true, Altitude: 2200, Rules: []stores.BoilRule{
			{Agency: "CDC", UpToM: 1981, Minutes: 1, MinutesAbove: 3, Ref: from("C")},
		}},
		Never: []stockpile.NeverRule{{What: "fuel in it", Why: "nothing takes it out", Ref: from("N")}},
		Heat: stockpile.StoredHeat{UsefulMJ: 21.5, OnHandMJ: 4.25, PerDayMJ: 1.536, Cook: ration.CookBoil, DaysWithout: &days, Rules: []stores.FuelRule{{Note: "never indoors", Ref: from("F")}}, Fuels: []stockpile.FuelChoice{
			{FuelNeed: stores.FuelNeed{Stove: &stores.Stove{Name: "butane", Fuel: "butane gas", Pack: "cartridge 227 g", Where: "open window", Keep: "cool", Note: "weak in frost", Ref: from("S")},
				Reserve: 1.25, PacksGood: 4, PacksTypical: 5, PacksPoor: 6, Packs: 7, WeightKg: 2.31, BoxL: 5.5}, PackDays: &[3]float64{2.37, 2.9, 12.6}},
			{FuelNeed: stores.FuelNeed{Stove: &stores.Stove{Name: "wick", Fuel: "wick can", Pack: "can 200 g", Where: "outdoors only, in the lee"}, PacksGood: 9, PacksTypical: 9, PacksPoor: 9, Packs: 12, WeightKg: 3, TooWeak: "it boils nothing"}},
		}},
		Space:     []stockpile.SpaceLine{{What: "food", Space: stores.Space{Packs: 1140, BoxL: 130, ShelfL: 153, Kg: 88.75}}},
		Kit:       []stores.KitLine{{KitItem: stores.KitItem{ID: "K1", Category: "light_and_power", Item: "matches", Unit: "box", QtySource: "as source", Ref: stores.Ref{Source: "Q", Verified: "from memory"}}, Quantity: 1, Rule: "1 a household"}, {KitItem: stores.KitItem{ID: "K2", Item: "charcoal", Note: "outdoors", QtySource: "own"}, Rule: "as the grill takes", If: "it is cold"}},
		Medicines: []stores.KitLine{{KitItem: stores.KitItem{ID: "M1", Item: "insulin", Note: "keep it cool", Ref: from("M")}, If: "if somebody takes it", Rule: "ask"}, {KitItem: stores.KitItem{ID: "M2", Item: "plasters"}}},
		PetNeeds:  &stockpile.PetNeeds{Water: stores.PetWater{Rule: "50 mL a kg", Refs: []stores.Ref{from("P1"), {Source: "P2"}}}, WaterL: 11.2, FoodDays: 15},
		Cautions:  []ration.Caution{{ID: "C1", Severity: "stop", Text: "no flame in a tent", Source: "CC"}},
	}
	s.Water.PlanL, s.Water.OnHand, s.Water.PlanCount, s.Water.Recommended, s.Water.Because = 290, 20.4, 73, 320, "the larger"
	s.Water.Computed = stores.WaterNeed{Litres: 290, ProtectedL: 33, Lines: []stores.WaterLine{{What: "drinking", Litres: 200.5, Rule: "as needed", Ref: from("L")}, {What: "washing", Litres: 60, Rule: "1 L", Ref: from("L")}},
		OnTop: []stores.WaterLine{{What: "the ill", Litres: 9}, {What: "Liv", Litres: 3}}}
	s.Water.Allowances = []stores.Allowance{{Key: "usual", Name: "usual allowance", SourceAmount: "7 gal", Ref: from("A1")}, {Key: "published", Name: "published", SourceAmount: "1 gal a day", Ref: from("A2")}}
	s.Water.AllowanceL = []float64{170.1, 320}
	s.Water.Containers = []stockpile.ContainerChoice{
		{FilledContainer: stores.FilledContainer{Container: jug, Count: 80, Litres: 320, WeightKg: 336, ShelfL: 400, Renewal: "every 6 months"}, EachKg: 4.2, EachL: 4, Planned: true},
		{FilledContainer: stores.FilledContainer{Container: bottle, Count: 1640, Litres: 820, WeightKg: 861, ShelfL: 990, Renewal: "by its date"}, EachKg: 26, EachL: 0.5, Heavy: true},
	}
	s.Water.Renew = []stockpile.Renewing{
		{Renewal: stores.Renewal{Key: "water", What: "water filled at home.", Action: "refill", Note: "empty it first", Ref: from("R")}, Dates: []string{"2027-05-25", "2027-11-25"}},
		{Renewal: stores.Renewal{Key: "water-bottled", What: "bottles", Action: "look at the date", Ref: from("R")}},
	}
	s.Water.Sanitise = stores.Bleaching{VolumeL: 1, ML: 4.93, Bleach: "5 %", How: "shake", Ref: from("B1")}
	s.Water.Unchlorinated = stores.Bleaching{VolumeL: 3.8, Drops: 8, Bleach: "6 %", How: "stir", Ref: from("B2")}
	return s
}

// TestStoresByHand: each figure of a store in its place, with its unit, its rule and its
// source.
func TestStoresByHand(t *testing.T) {
	sections := map[string]sheet.Section{}
	var titles []string
	all := Stores(pile(), sheet.Metric).Sections
	for _, sec := range all {
		sections[sec.Title] = sec
		titles = append(titles, sec.Title)
	}
	lines(t, "the order", titles, "", "Water to store", "Containers for 320.0 L, one kind or another", "Doubtful water", "Never", "Heat and fuel", "Space and weight", "Supplies", "To discuss with a clinician or pharmacist", "Pets", "Take care")
	lines(t, "the head", sections[""].Lead, "Water, fuel, space and supplies for 6 people for 14 days and 2 pets, kept from 2026-11-25.", "The food is in the plan that this belongs to, of least weight: 151.4 kg.", "Prices are invented for the demo.")

	water := sections["Water to store"]
	lines(t, "the water", barred(water.Table), "drinking|200.5 L|as needed|L (from memory)", "washing|60.0 L|1 L|L (from memory)", "COMPUTED NEED|290.0 L|1.1 × (drinking + cooking + formula) + washing + pets|",
		"USUAL ALLOWANCE|170.1 L|7 gal, and the pets|A1 (from memory)", "PUBLISHED|320.0 L|1 gal a day, and the pets, and more for the ill and Liv|A2 (from memory)")
	lines(t, "the notes of the water", water.Notes, "Recommended: 320.0 L, the larger.", "The plan counts with 290.0 L, the computed need; of it 20.4 L is on hand.")

	kept := sections["Containers for 320.0 L, one kind or another"]
	lines(t, "the containers", barred(kept.Table), "80|jug 4 L|4.0 L|4.2 kg|336.0 kg|400 L|counted in the plan", "1,640|bottle|0.5 L|26.0 kg|861.0 kg|990 L|fill it where it stands: over 25.0 kg; bought full")
	if len(kept.Notes) != 5 || !strings.HasPrefix(kept.Notes[0], "\"boxes\"") {
		t.Fatalf("%q", kept.Notes)
	}
	lines(t, "when it is renewed", kept.Notes[1:], "- Water filled at home: refill: on 2027-05-25 and 2027-11-25; empty it first (R (from memory)).", "- Bottles: look at the date (R (from memory)).",
		"- Before filling, clean the container inside with 4.9 mL of bleach (5 %) in 1.0 L of water: shake (B1 (from memory)).",
		"- Water that is clean but not chlorinated takes 8 drops of bleach (6 %) in 3.8 L before it is stored: stir (B2 (from memory)).")

	doubtful := sections["Doubtful water"]
	lines(t, "boiling", doubtful.Lead, "Best is boiling: a rolling boil of 3 min at 2,200 m; useful heat 0.45 MJ a litre.", "- CDC: 1 min up to 1,981 m, 3 min above (C (from memory)).")
	if got, want := headings(doubtful.Table), "agent|strength|clear, 3.8 L|cloudy, 3.8 L|clear, 20.0 L|cloudy, 20.0 L|wait"; got != want {
		t.Errorf("the columns are %q, want %q", got, want)
	}
	lines(t, "the doses", barred(doubtful.Table), "bleach|6 %|8 drops|-|-|4.3 mL|60 min", "tablet|30 mg|-|-|3 tab.|-|4 h")
	if len(doubtful.Notes) != 2 || !strings.Contains(doubtful.Notes[0], "no dose is published; boil it") {
		t.Errorf("%q", doubtful.Notes)
	}
	lines(t, "never", sections["Never"].Lead, "- Fuel in it: nothing takes it out (N (from memory)).")

	heat := sections["Heat and fuel"]
	lines(t, "the heat", heat.Lead, "The plan takes 21.50 MJ of useful heat, 1.54 MJ a day, cooking up to boil.", "Fuel on hand gives 4.25 MJ of it; the table is for the rest.", "From the fuel on hand alone, at poor efficiency, 5 days of the 14 cannot be cooked for.")
	lines(t, "the fuels", barred(heat.Table), "7|butane|cartridge 227 g|2.3 kg|4-6|2.3-12 d|room with open window", "12|wick|can 200 g|3.0 kg|9||TOO WEAK for this plan; outdoors only")
	if len(heat.Notes) != 4 || !strings.Contains(heat.Notes[0], "a reserve of 25 %") {
		t.Fatalf("%q", heat.Notes)
	}
	lines(t, "the notes of the heat", heat.Notes[1:], "- Butane gas: open window (heat: S (from memory); sizes and efficiencies: common practice (from memory)). Keep it: cool.", "- Weak in frost.", "- Never indoors (F (from memory)).")

	lines(t, "the space", barred(sections["Space and weight"].Table), "food|1,140|130 L|153 L|88.8 kg")
	// packing.csv: 0.85 of a shelf can be filled, a planning value without a source.
	has(t, "the notes of the space", sections["Space and weight"].Notes[0], []string{"over 0.85,", "(common practice, no source)"})
	lines(t, "the supplies", barred(sections["Supplies"].Table), "light and power: 1|box|matches|1 a household|Q (from memory)", "||charcoal (if: it is cold); outdoors|as the grill takes|own")
	lines(t, "the medicines", sections["To discuss with a clinician or pharmacist"].Lead, "- Insulin, if somebody takes it (keep it cool).", "- Plasters.")
	if notes := sections["To discuss with a clinician or pharmacist"].Notes; len(notes) != 1 || !strings.Contains(notes[0], "no amount is given here") {
		t.Errorf("%q", notes)
	}
	lines(t, "the pets", sections["Pets"].Lead, "- Water: 11.2 L for 2 pets over 14 days, in the water above: 50 mL a kg (P1 (from memory); P2).", "- Food: 15 days of each animal's usual food; the amount is that of its own feeding (common practice, no source).")
	lines(t, "the cautions", sections["Take care"].Lead, "- STOP. No flame in a tent (CC).")
}

// TestStoresWithoutThem: what there is none of is not spoken of.
func TestStoresWithoutThem(t *testing.T) {
	s := pile()
	s.Pets, s.PetNeeds, s.Start, s.Value, s.Demo = 0, nil, "", nil, ration.Demo{}
	lines(t, "the head", storesHead(s, sheet.Metric).Lead, "Water, fuel, space and supplies for 6 people for 14 days.", "The food is in the plan that this belongs to, of least weight.")
	s.Pets = 1
	lines(t, "the allowance with one pet", barred(waterNeed(s, sheet.Metric).Table)[3:4], "USUAL ALLOWANCE|170.1 L|7 gal, and the pets|A1 (from memory)")
	if sec := medicines(s.Medicines[:1]); len(sec.Notes) != 1 {
		t.Errorf("one medicine: %q", sec.Notes)
	}
	has(t, "the head of one pet", storesHead(s, sheet.Metric).Lead[0], []string{"for 14 days and 1 pet."})
	s.Pets, s.Water.Computed.OnTop = 0, nil
	lines(t, "the allowances", barred(waterNeed(s, sheet.Metric).Table)[3:], "USUAL ALLOWANCE|170.1 L|7 gal|A1 (from memory)", "PUBLISHED|320.0 L|1 gal a day|A2 (from memory)")
	s.Water.PlanL, s.Water.OnHand = 170.1, 0
	if got := planWater(&s.Water, sheet.Metric); got != "The plan counts with 170.1 L, the older allowance asked for." {
		t.Errorf("%q", got)
	}
	s.Water.OnHand = 0.4
	has(t, "little on hand", planWater(&s.Water, sheet.Metric), []string{"; of it 0.4 L is on hand."})
	s.Boil.Known = false
	has(t, "no altitude", boiling(&s.Boil, sheet.Metric)[0], []string{"3 min, the longest time as the altitude is not known (--altitude);"})
	if got := altitude(&stores.Boiling{Known: true, Altitude: 304.8}, sheet.US); got != " at 1,000 ft" { // 0.3048 m a foot, by definition
		t.Errorf("%q", got)
	}
	s.Heat.OnHandMJ, s.Heat.DaysWithout, s.Heat.Fuels[0].Stove.Note = 0, nil, ""
	if sec := heat(s, sheet.Metric); len(sec.Lead) != 1 || len(sec.Notes) != 3 {
		t.Errorf("no fuel on hand: %q, %q", sec.Lead, sec.Notes)
	}
	s.Heat.UsefulMJ = 0
	if sec := heat(s, sheet.Metric); sec.Table != nil || len(sec.Lead) != 1 || sec.Lead[0] != "Nothing in the plan is heated: no fuel is needed." {
		t.Errorf("%+v", sec)
	}
	if sec := medicines(nil); len(sec.Lead)+len(sec.Notes) != 0 {
		t.Errorf("no medicines: %+v", sec)
	}
	if sec := pets(s, sheet.Metric); sec.Title != "" {
		t.Errorf("no pets: %+v", sec)
	}
	s.Water.Short = &stores.Shortage{MissingL: 3}
	if all := Stores(s, sheet.Metric).Sections; all[2].Title != "If no more water can be had" {
		t.Errorf("short of water, and the third section is %q", all[2].Title)
	}
}

// TestFewFigures: a dose, a number of days and a wait take as little room as they can.
func TestFewFigures(t *testing.T) {
	for want, d := range map[string]stores.Dose{
		"1 tab.": {Tablets: 1, ML: 5, Drops: 4}, "1 mL stock": {StockML: 1, Bottles: 3, ML: 5}, "1 bottle": {Bottles: 1, Drops: 2}, "1 drop": {Drops: 1, ML: 0.06},
		"30 drops": {Drops: 30, ML: 1.5}, "1.6 mL": {Drops: 31, ML: 1.55}, "2.0 mL": {ML: 2, WaitMin: 9},
	} {
		if got := shortDose(&d); got != want {
			t.Errorf("%+v: %q, want %q", d, got, want)
		}
	}
	for d, want := range map[float64]string{0.96: "0.9", 9.99: "9.9", 10: "10", 10.9: "10", 999: "999", 999.5: ">999"} {
		if got := oneDay(d); got != want {
			t.Errorf("%g days: %q, want %q", d, got, want)
		}
	}
	if got := lasts(&[3]float64{3, 4, 3}); got != "3.0 d" {
		t.Errorf("%q", got)
	}
	for n, want := range map[int]string{60: "60 min", 119: "119 min", 120: "2 h", 150: "150 min", 180: "3 h"} {
		if got := minutes(n); got != want {
			t.Errorf("%d minutes: %q, want %q", n, got, want)
		}
	}
}

// TestStoresAsFacts: a row a fact, each figure in its column with its unit.
func TestStoresAsFacts(t *testing.T) {
	s := pile()
	s.Shelves = &ration.ShelfFit{}
	s.Shelves.Use = []stores.ShelfUse{{Shelf: "board", Kg: 40, LoadKg: 60, BoxL: 90, VolumeL: 120}}
	s.Shelves.Places = []stores.Place{{Shelf: "board", Pack: "rice-1kg", Name: "rice", Count: 9, Kg: 9.2}}
	s.Shelves.Left = []stores.LeftOver{{Pack: "oil-1l", Name: "oil", Count: 2, Reason: "too high"}}
	s.Shelves.Much = []stores.TooMuch{{What: "load", Text: "packs", Need: 80, Have: 60, Unit: "kg", Proven: true}, {What: "arrangement", Text: "boxes", Need: 130, Have: 120, Unit: "L"}}
	memory := " verified=from memory"
	lines(t, "the facts", filled(t, StoresCSV(s)),
		"water key=part what=drinking amount=200.5 unit=L rule=as needed source=L"+memory, "water key=part what=washing amount=60 unit=L rule=1 L source=L"+memory, "water key=computed amount=290 unit=L",
		"water key=usual what=usual allowance amount=170.1 unit=L rule=7 gal source=A1"+memory, "water key=published what=published amount=320 unit=L rule=1 gal a day source=A2"+memory,
		"water key=recommended what=the larger amount=320 unit=L", "water key=plan count=73 amount=290 unit=L", "water key=on_hand amount=20.4 unit=L",
		"container key=jug_4 what=jug 4 L count=80 amount=320 unit=L weight_kg=336 box_l=400 rule=every 6 months source=J"+memory, "container key=bottle_water_05 what=bottle count=1640 amount=820 unit=L weight_kg=861 box_l=990 rule=by its date",
		"renew key=water what=water filled at home. date=2027-05-25 rule=refill source=R"+memory, "renew key=water what=water filled at home. date=2027-11-25 rule=refill source=R"+memory, "renew key=water-bottled what=bottles rule=look at the date source=R"+memory,
		"boil key=CDC unit=min low=1 high=3 text=low up to 1981 m above the sea, high above it source=C"+memory,
		"treat key=bleach what=6 % amount=3.785411784 unit=L text="+string(stores.ClearWater)+": eight rule=wait 30 min source=D"+memory, // a US gallon, by definition
		"treat key=bleach what=6 % amount=20 unit=L text="+string(stores.CloudyWater)+": many rule=wait 60 min source=D"+memory, "treat key=tablet what=30 mg amount=20 unit=L text="+string(stores.ClearWater)+": three rule=wait 4 h source=D"+memory,
		"never what=fuel in it text=nothing takes it out source=N"+memory,
		"heat key=useful amount=21.5 unit=MJ", "heat key=per_day amount=1.536 unit=MJ", "heat key=on_hand amount=4.25 unit=MJ", "heat key=days_without amount=5 unit=days",
		"fuel key=butane what=butane gas count=7 amount=5 unit=packs low=4 high=6 weight_kg=2.31 box_l=5.5 rule=open window source=S"+memory, "fuel key=wick what=wick can count=12 amount=9 unit=packs low=9 high=9 weight_kg=3 box_l=0 text=it boils nothing rule=outdoors only, in the lee",
		"space key=food count=1140 weight_kg=88.75 box_l=130 shelf_l=153",
		"shelf key=board high=60 weight_kg=40 box_l=90 shelf_l=120", "place key=board what=rice-1kg count=9 weight_kg=9.2 text=rice", "left key=oil-1l what=oil count=2 text=too high",
		"too_much key=load what=proven amount=80 unit=kg high=60 text=packs", "too_much key=arrangement what=not proven amount=130 unit=L high=120 text=boxes",
		"kit key=K1 what=matches count=1 unit=box rule=1 a household source=Q (from memory)"+memory, "kit key=K2 what=charcoal text=it is cold; outdoors rule=as the grill takes source=own",
		"medicine key=M1 what=insulin text=if somebody takes it; keep it cool rule=ask source=M"+memory, "medicine key=M2 what=plasters",
		"pet key=water amount=11.2 unit=L rule=50 mL a kg source=P1"+memory, "pet key=food count=15 unit=days of usual food", "caution key=C1 what=stop text=no flame in a tent source=CC")
	s.Water.OnHand, s.Heat.OnHandMJ, s.Heat.DaysWithout, s.PetNeeds = 0, 0, nil, nil
	for _, row := range filled(t, StoresCSV(s)) {
		if strings.Contains(row, "on_hand") || strings.Contains(row, "days_without") || strings.HasPrefix(row, "pet") {
			t.Errorf("nothing is on hand: %s", row)
		}
	}
	s.Water.OnHand, s.Heat.OnHandMJ = 0.5, 0.5
	has(t, "little on hand", strings.Join(filled(t, StoresCSV(s)), "\n"), []string{"water key=on_hand amount=0.5 unit=L", "heat key=on_hand amount=0.5 unit=MJ"})
}

// TestShelvesByHand: what stands where, what found no place and why, and what is too much,
// each in the unit of its limit.
func TestShelvesByHand(t *testing.T) {
	fit := &ration.ShelfFit{Stands: true, Replanned: 1}
	fit.Use = []stores.ShelfUse{{Shelf: "board", Kg: 40, LoadKg: 60, BoxL: 90, VolumeL: 120}}
	fit.Places = []stores.Place{{Shelf: "board", Pack: "rice-1kg", Name: "rice", Count: 9, Kg: 9.2}}
	got := ShelfFit(fit, sheet.Metric)
	if len(got) != 2 {
		t.Fatalf("%+v", got)
	}
	lines(t, "the shelves", barred(got[0].Table), "board|40.0 kg|60.0 kg|90 L|120 L")
	lines(t, "whether it stands", got[0].Lead, "Everything but the fuel stands on the shelves.", "The first plan did not stand on them; this one was made with less room.")
	lines(t, "what stands where", barred(got[1].Table), "board: 9|rice|rice-1kg|9.2 kg")
	fit.Stands, fit.Replanned = false, 0
	fit.Left = []stores.LeftOver{{Pack: "oil-1l", Name: "oil", Count: 2, Reason: "too high"}}
	fit.Much = []stores.TooMuch{{Text: "the packs.", Need: 80, Have: 60, Unit: "kg", Proven: true}, {Text: "packs that are too high", Need: 1200, Unit: "packs", Proven: true},
		{Text: "boxes", Need: 130, Have: 120, Unit: "L"}, {Text: "boxes", Need: 131, Have: 121, Unit: "L", Proven: true}, {Text: "floor", Need: 1.25, Have: 1.1, Unit: "m²", Proven: true}}
	got = ShelfFit(fit, sheet.Metric)
	lines(t, "whether it stands", got[0].Lead, "NOT EVERYTHING STANDS ON THE SHELVES.")
	lines(t, "what found no place", barred(got[2].Table), "2|oil|oil-1l|too high")
	lines(t, "what is too much", got[3].Lead, "- The packs: 80.0 kg where they bear 60.0 kg.", "- Packs that are too high: 1,200.",
		"- No arrangement was found for these 130 L of boxes on shelves that hold about 120 L in practice. This is not proven: another arrangement may exist.",
		"- Boxes: 131 L where there is room for 121 L.", "- Floor: 1.25 m² where there is room for 1.10 m².")
}

// TestWaterShortByHand: what is given up in its order, what it saves, how long the water
// lasts as it is used and afterwards.
func TestWaterShortByHand(t *testing.T) {
	sec := waterShort(&stores.Shortage{MissingL: 20.2, DaysAsUsed: 9.04, Days: 12.5, ProtectedL: 31, Rule: "drink what you need", Ref: stores.Ref{Source: "CDC"},
		GiveUp: []stores.GiveUp{{What: "washing", Litres: 12, How: "wipes"}, {What: "spills", Litres: 4.5, How: "care"}}}, sheet.Metric)
	lines(t, "what to give up", barred(sec.Table), "1|washing|12.0 L|wipes", "2|spills|4.5 L|care")
	lines(t, "how long", sec.Lead, "20.2 L are missing. As planned the water lasts 9.0 days.")
	has(t, "the notes", strings.Join(sec.Notes, "\n"), []string{"lasts 12.5 days; find more", "First of all keep 31.0 L:", "Drinks are not rationed: drink what you need (CDC)."})
}

// TestTreatByHand: boiling first, then each dose with its wait, what it was taken from and
// what else to do, and the cautions with whom they concern.
func TestTreatByHand(t *testing.T) {
	from := func(dose, note string) stores.Disinfection {
		return stores.Disinfection{Dose: dose, Note: note, Volume: "1 gallon", Condition: "clear", Ref: stores.Ref{Source: "EPA", Verified: "from memory"}}
	}
	treat := &Treatment{
		Boil: stores.Boiling{Minutes: 1, HeatMJ: 3.6, VolumeL: 8, Rules: []stores.BoilRule{{Agency: "CDC"}}, Steps: []stores.Disinfection{from("let it cool", "covered")}},
		Doses: []stores.Dose{
			{Name: "bleach", Strength: "6 %", Water: stores.ClearWater, VolumeL: 8, TreatL: 8, Text: "17 drops", WaitMin: 30, Rounding: "up", Rows: []stores.Disinfection{from("8 drops", "")}, Rules: []stores.Disinfection{from("smell it", "faintly")}, DoNot: []stores.Disinfection{from("scented bleach", "")}},
			{Name: "tablet", Strength: "30 mg", Water: stores.ClearWater, VolumeL: 8, TreatL: 10, Text: "2 tablets", WaitMin: 45, WaitParasites: 240, Bottles: 7, StockML: 11, Rounding: "whole"},
		},
		None:     []string{"iodine 9 %"},
		Cautions: []stores.Caution{{Severity: "stop", Who: "infants", Text: "no iodine.", Action: "boil it", Source: "X"}, {Severity: "warn", Who: "everyone", Text: "keep it closed.", Action: "cool", Source: "Y"}},
	}
	sections := map[string]sheet.Section{}
	all := Treat(treat, 8, stores.ClearWater, sheet.Metric).Sections
	for _, sec := range all {
		sections[sec.Title] = sec
	}
	has(t, "the head", all[0].Lead[0], []string{"To make 8.0 L of " + string(stores.ClearWater) + " water safe"})
	boil := sections["Boil it"].Lead
	lines(t, "boiling", boil[2:], "- Useful heat for all of it: 3.60 MJ, before stove losses.", "- Let it cool; covered (EPA (from memory)).")
	lines(t, "bleach", sections["bleach, 6 %"].Lead, "17 drops; then wait 30 min before drinking.", "- Rounding: up.", "- From: 8 drops for 1 gallon, clear water (EPA (from memory)).",
		"- Smell it; faintly (EPA (from memory)).", "- Do not rely on it: Scented bleach (EPA (from memory)).")
	lines(t, "tablets", sections["tablet, 30 mg"].Lead, "2 tablets; then wait 45 min before drinking, 4 h against parasites.", "Treat 10.0 L: a drop or a tablet cannot be split.", "- Rounding: whole.")
	lines(t, "no dose", sections["No published dose"].Lead, "- Iodine 9 %.")
	lines(t, "the cautions", sections["Take care"].Lead, "- STOP. Infants. No iodine. boil it (X).", "- Keep it closed. cool (Y).")
}

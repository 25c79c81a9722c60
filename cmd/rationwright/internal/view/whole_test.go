package view

import (
	"encoding/json"
	"reflect"
	"testing"

	"rationwright/solver/ration"
)

// TestWholeView: everything that a plan says stands in its own place of the view, by figures made
// up for this test; people in the order of the plan, then those whom it does not feed; each
// source once, in the order of needs and rules.
func TestWholeView(t *testing.T) {
	totals := &ration.Totals{WaterL: 61, HeatMJ: 7}
	totals.Cost = 88
	cautions := []ration.Caution{{ID: "C01", Text: "a can that swells"}, {ID: "C02"}}
	needs := []ration.PersonNeed{{Nutrient: "iron", Amount: 17, Floor: ptr(18), Source: "S1"}, {Nutrient: "fibre", Amount: 3}, {Nutrient: "zinc", Amount: 9, Source: "S3"}}
	rules := []ration.RuleNote{{Text: "No egg", Source: "S2"}, {Text: "No milk", Source: "S1", Apart: &ration.Apart{Allergen: "milk", Holds: []string{"milk, dry"}}}, {Text: "own rule"}}
	short := []ration.Shortfall{{Person: "Maja", Nutrient: "iron", Unit: "mg", Amount: 17, Target: 18}}
	p := &ration.Plan{
		Status: ration.StatusOptimal, Days: 4, Least: ration.LeastWeight, Value: ptr(31), Bound: ptr(30), Gap: ptr(0.03), Totals: totals,
		Cautions: cautions, Notes: []string{"n1", "n2"}, NotChecked: []string{"iodine"}, Shortfalls: short,
		Request: &ration.RequestRecord{Version: "none", Start: "2026-02-26", Demo: ration.Demo{Household: true}},
		Packs: []ration.PlanPack{
			{Pack: "oats-1kg-bag", Food: "oats", Group: "grains", Count: 2, NetG: 1000, Cost: 5, WeightKg: 2.1}, {Pack: "milk-400g-can", Food: "milk, dry", Group: "dry milk", Count: 3, FromStock: 1, NetG: 400, Cost: 9, WeightKg: 1.5},
			{Pack: "rice-1kg-bag", Food: "rice", Group: "grains", Count: 1, NetG: 1000, Cost: 3, WeightKg: 1.05},
		},
		People: []ration.PlanPerson{
			{Name: "Maja", Count: 2, DrinkLPerDay: 1.5, Needs: needs, Rules: rules, Foods: []ration.PersonFood{{Food: "own", Grams: 12}, {Food: "milk, dry", Grams: 80}, {Food: "rice", Grams: 400}}},
			{Name: "Odd", Count: 3, Needs: []ration.PersonNeed{{Nutrient: "iron", Source: "S4"}}, Foods: []ration.PersonFood{{Food: "own", Grams: 4}}},
		},
		Refused: []ration.Refused{{Name: "Aud", Reason: "a"}, {Name: "Per", Reason: "b"}},
	}
	got := Of(p)
	want := &Plan{
		Headline: got.Headline,                                                     // held by package headline
		Fits:     true, Heads: 5, Days: 4, From: "2026-02-26", Until: "2026-03-01", // the fourth day, of a February of 28
		Demo:  "This is the demo household of Ternsund: these people are invented.",
		Least: "weight", Value: ptr(31), Bound: ptr(30), Gap: ptr(0.03), Shortfalls: short, Totals: totals, Water: &Water{PlanL: 61},
		Shopping: []Aisle{
			{"grains", []Food{{"oats", "oats", false, []Packs{{Key: "oats-1kg-bag", Size: "1 kg bag", Buy: 2, NetG: 1000, Cost: 5, Kg: 2.1}}}, {"rice", "rice", false, []Packs{{Key: "rice-1kg-bag", Size: "1 kg bag", Buy: 1, NetG: 1000, Cost: 3, Kg: 1.05}}}}},
			{"dry milk", []Food{{"milk, dry", "milk", false, []Packs{{Key: "milk-400g-can", Size: "400 g can", Buy: 2, Own: 1, NetG: 400, Cost: 9, Kg: 1.5}}}}},
		},
		Apart: []string{"Not for Maja (milk). It is in: milk. Keep these apart."}, Cautions: cautions, Notes: []string{"n1", "n2"}, NotChecked: []string{"iodine"}, Sources: []string{"S1", "S3", "S2", "S4"},
		People: []Person{
			{Name: "Maja", Count: 2, DrinkL: 1.5, Needs: needs, Rules: rules, Eats: []Portion{{"rice", 100}, {"milk, dry", 20}, {"own", 3}}}, // of four days, in the order of the list
			{Name: "Odd", Count: 3, Needs: p.People[1].Needs, Eats: []Portion{{"own", 1}}},
			{Name: "Aud", Count: 1, Refused: &p.Refused[0]}, {Name: "Per", Count: 1, Refused: &p.Refused[1]},
		},
	}
	if !reflect.DeepEqual(got, want) {
		has, err := json.MarshalIndent(got, "", " ")
		wants, err2 := json.MarshalIndent(want, "", " ")
		t.Errorf("%s\nwant\n%s\n%v, %v", has, wants, err, err2)
	}
}

// TestEverydayNames: only what is done to a food after it is bought, and what its aisle says
// already, is left out of its name.
func TestEverydayNames(t *testing.T) {
	for _, c := range [][3]string{
		{"crackers, snack", "snacks and sweets", "snack crackers"}, {"whole milk, dried", "dried milk", "whole milk"}, {"whole milk, dried", "milk", "whole milk, dried"},
		{"tuna, canned", "canned fish", "tuna"}, {"beans, dry", "dry beans", "beans"}, {"beans, dry", "beans", "dry beans"}, {"tuna, drained", "fish", "tuna"},
		{"oats, rolled, dry", "grains", "oats, rolled, dry"}, {"white rice, long", "grains", "white rice, long"}, {"rice, long grain", "grains", "rice, long grain"},
	} {
		if got := everyday(c[0], c[1]); got != c[2] {
			t.Errorf("everyday(%q, %q) = %q, want %q", c[0], c[1], got, c[2])
		}
	}
}

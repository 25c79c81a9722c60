package report

import (
	"slices"
	"strings"
	"testing"

	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// TestEachAssumption: what an option takes is said where it is on, and nowhere else.
func TestEachAssumption(t *testing.T) {
	prices := "Prices are those of the price file; packs, water and fuel that it does not name have invented prices"
	water := "Stored water is counted in containers of 20 L with 1.2 kg of their own" // packages.csv: can_water_20 holds 20,000 mL and weighs 1,200 g
	option := func(key, value string) *ration.RequestRecord {
		return &ration.RequestRecord{Options: map[string]string{key: value}}
	}
	for _, c := range []struct {
		name string
		r    *ration.RequestRecord
		said []string // parts of the lines, besides those of prices and water
	}{
		{"nothing", &ration.RequestRecord{}, nil},
		{"energy", option("energy", string(nutrients.Energy2005)), []string{"equations of the Dietary Reference Intakes of 2005"}},
		{"lean", option("lean_energy", "true"), []string{"Energy may be 3 % below the requirement for adults of 19 to 64"}},
		{"not lean", option("lean_energy", "false"), nil},
		{"cook", option("cook", string(ration.CookSimmer)), []string{"long simmering and baking"}},
		{"hot", option("hot", "true"), []string{"The climate is hot: everyone drinks twice as much"}},
		{"weak hands", option("easy_open", "true"), []string{"opened and lifted by weak hands"}},
		{"no pets", option("pets", "0"), nil},
		{"a pet", option("pets", "1"), []string{"Water is stored for 1 pet"}},
		{"pets", option("pets", "2"), []string{"Water is stored for 2 pets"}},
		{"boiled", option("boil_water", "true"), []string{"Drinking water has to be boiled"}},
		{"ill", &ration.RequestRecord{Ill: []string{"Odd"}}, []string{"More water to drink is kept for Odd, ill or likely to be"}},
		{"stove", option("stove", "butane-cartridge"), []string{"Fuel is counted as butane, cartridge 227 g (8 oz), table stove, at poor efficiency"}}, // fuel.csv
		{"stove, cold", &ration.RequestRecord{Options: map[string]string{"stove": "butane-cartridge", "cook": string(ration.CookNone)}}, []string{"Nothing is heated"}},
		{"shelf", &ration.RequestRecord{Shelves: []stores.Shelf{{Name: "board", WidthCm: 100, DepthCm: 60, HeightCm: 60, LoadKg: 200}}}, []string{"Food and water stand on 1 shelf;"}},
		{"allowance", option("water_allowance", "true"), []string{"the older allowance of water, 7 US gallons a head"}},
		{"without", &ration.RequestRecord{Without: []string{"peanuts"}}, []string{"Nobody gets peanuts"}},
		{"start", &ration.RequestRecord{Start: "2026-11-25"}, []string{"Day one is 2026-11-25"}},
	} {
		got := asked(&ration.Plan{Request: c.r})
		if len(got) != len(c.said)+2 || got[0] != prices || !slices.ContainsFunc(got, func(line string) bool { return strings.HasPrefix(line, water) }) {
			t.Errorf("%s: %q, want %d lines besides those of prices and water", c.name, got, len(c.said))
		}
		for _, part := range c.said {
			if !slices.ContainsFunc(got, func(line string) bool { return strings.Contains(line, part) }) {
				t.Errorf("%s: no %q in %q", c.name, part, got)
			}
		}
	}
}

// TestDemoIsSaid: that people or prices are invented is said of what is invented alone.
func TestDemoIsSaid(t *testing.T) {
	for _, d := range []ration.Demo{{}, {Household: true}, {Prices: true}, {Household: true, Prices: true}} {
		got := strings.Join(asked(&ration.Plan{Request: &ration.RequestRecord{Demo: d}}), "\n")
		for part, want := range map[string]bool{"these people are invented": d.Household, "Every price is invented": d.Prices, "Prices are those of the price file": !d.Prices} {
			if strings.Contains(got, part) != want {
				t.Errorf("%+v: says %q %v, want %v", d, part, !want, want)
			}
		}
	}
	lines(t, "without a request", asked(&ration.Plan{Standard: string(nutrients.StandardEAR)}), "Standard ear: every need at its EAR, or its AI where there is no EAR; meant for groups")
	if lead := assumed(&ration.Plan{Version: "1", NotChecked: []string{"vitamin_k"}}).Lead; len(lead) != 2 || lead[0] != "- Not checked, because the food table has no column for it: vitamin K." || !strings.Contains(lead[1], "plan version 1.") {
		t.Errorf("%q", lead)
	}
	if lead := assumed(&ration.Plan{}).Lead; len(lead) != 1 {
		t.Errorf("all is checked: %q", lead)
	}
}

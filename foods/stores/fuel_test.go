package stores

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// Each stove is its row of fuel.csv: energy from mass and heating value,
// useful heat and litres boiled from the typical efficiency, all to the last
// printed digit.
func TestStovesEqualTheirRows(t *testing.T) {
	perLitre := fuelRule("energy_to_boil_1_l_from_15c").Value
	table := rows("fuel")
	if len(table) != len(Stoves()) || len(table) != 18 {
		t.Fatalf("%d stoves of %d rows, want 18", len(Stoves()), len(table))
	}
	seen := map[string]bool{}
	for i, s := range Stoves() {
		r := table[i]
		if seen[s.Name] || strings.ContainsAny(s.Name, " ,;") {
			t.Errorf("%q is no word of its own for --stove", s.Name)
		}
		seen[s.Name] = true
		if energy := r.must("net_g") * r.must("heating_value_mj_per_kg") / 1000; math.Abs(s.EnergyMJ-energy) > 0.005+1e-9 {
			t.Errorf("%s: %g MJ a pack, want %g = mass × heating value (%s)", s.Name, s.EnergyMJ, energy, s.Source)
		}
		low, typical, high := s.UsefulMJ()
		if math.Abs(typical-r.must("useful_mj")) > 0.01 {
			t.Errorf("%s: %g MJ useful, want %g (%s)", s.Name, typical, r.must("useful_mj"), s.Source)
		}
		if !(0 < low && low <= typical && typical <= high && high < s.EnergyMJ) {
			t.Errorf("%s: useful heat %g, %g, %g of %g MJ", s.Name, low, typical, high, s.EnergyMJ)
		}
		hours, _ := r.number("burn_hours")
		watts, _ := r.number("power_w")
		if s.BurnHours != hours || s.PowerW != watts {
			t.Errorf("%s burns %g h at %g W, want %g and %g (%s)", s.Name, s.BurnHours, s.PowerW, hours, watts, s.Source)
		}
		if s.BoilsL > 0 && math.Abs(typical/perLitre-s.BoilsL) > 0.05+0.01*s.BoilsL {
			t.Errorf("%s: boils %g L, want %g (%s)", s.Name, typical/perLitre, s.BoilsL, s.Source)
		}
		if got, err := StoveByName(s.Name); err != nil || got.Name != s.Name {
			t.Errorf("StoveByName(%s) = %v, %v", s.Name, got, err)
		}
		if s.Where == "" || len(s.Tags) == 0 {
			t.Errorf("%s says not where it may burn, or brings no caution", s.Name)
		}
		// fuel_rules.csv, indoor_rule: charcoal and camp stoves never indoors;
		// whatever is for outdoors only brings the carbon monoxide caution.
		warns := false
		for _, c := range (Situation{Stoves: []string{s.Name}}).Cautions() {
			warns = warns || c.Topic == "carbon_monoxide"
		}
		if s.OutdoorsOnly() && !warns {
			t.Errorf("%s is for outdoors only and brings no carbon monoxide caution", s.Name)
		}
	}
	if _, err := StoveByName("campfire"); !errors.Is(err, ErrUnknownStove) || !strings.Contains(err.Error(), "canister-230") {
		t.Errorf("campfire: %v, want ErrUnknownStove with the names", err)
	}
}

func TestFuelFor(t *testing.T) {
	gas, err := StoveByName("canister-230") // 10.51 MJ; efficiency 0.40, 0.50, 0.65
	if err != nil {
		t.Fatal(err)
	}
	charcoal, err := StoveByName("charcoal") // 27.0 MJ; 0.08, 0.15, 0.25
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		stove                     *Stove
		heat                      float64
		good, typical, poor, kept int
	}{
		// 20 ÷ 6.8315 = 2.9; ÷ 5.255 = 3.8; ÷ 4.204 = 4.8; 25 ÷ 5.255 = 4.8
		{gas, 20, 3, 4, 5, 5},
		// 20 ÷ 6.75 = 2.96; ÷ 4.05 = 4.9; ÷ 2.16 = 9.3; 25 ÷ 4.05 = 6.2, so the poor stove's 10
		{charcoal, 20, 3, 5, 10, 10},
		{gas, 5.255, 1, 1, 2, 2}, // exactly one canister, the reserve makes it two
		{gas, 0, 0, 0, 0, 0},
		{gas, -1, 0, 0, 0, 0},
		{gas, math.NaN(), 0, 0, 0, 0},
	}
	for _, tt := range tests {
		n := FuelFor(tt.stove, tt.heat, "boil")
		if n.PacksGood != tt.good || n.PacksTypical != tt.typical || n.PacksPoor != tt.poor || n.Packs != tt.kept {
			t.Errorf("%g MJ by %s = %d, %d, %d, keep %d; want %d, %d, %d, keep %d (fuel.csv; reserve 1.25 of fuel_rules.csv)", tt.heat, tt.stove.Name,
				n.PacksGood, n.PacksTypical, n.PacksPoor, n.Packs, tt.good, tt.typical, tt.poor, tt.kept)
		}
		if n.TooWeak != "" || math.Abs(n.WeightKg-float64(n.Packs)*tt.stove.GrossG/1000) > 1e-12 {
			t.Errorf("%s: %+v", tt.stove.Name, n)
		}
	}
	// A little heat takes a whole canister, and at poor efficiency no more.
	if n := FuelFor(gas, 0.5, "boil"); n.PacksGood != 1 || n.PacksPoor != 1 || n.Packs != 1 {
		t.Errorf("half a MJ takes %d to %d canisters, keep %d, want 1", n.PacksGood, n.PacksPoor, n.Packs)
	}
	// A canister of 230 g is a box of 110 × 110 × 105 mm (fuel_sizes.csv), five are 6.3525 L.
	if got := FuelFor(gas, 20, "").BoxL; math.Abs(got-6.3525) > 1e-9 {
		t.Errorf("five canisters take %g L, want 6.3525", got)
	}
	if n := FuelFor(gas, 20, "boil"); math.Abs(n.WeightKg-5*0.380) > 1e-9 || math.Abs(n.BoilsL-5*14.8) > 1e-9 {
		t.Errorf("five canisters weigh %g kg and boil %g L, want 1.9 and 74 (fuel.csv)", n.WeightKg, n.BoilsL)
	}
	for _, tt := range []struct{ stove, cook, most string }{
		{"wick-can", "boil", "warm"}, {"candle", "boil", "warm"}, {"gel-ethanol", "simmer", "boil"}, {"hexamine", "simmer", "boil"}, {"canister-450", "", "simmer"},
	} {
		s, err := StoveByName(tt.stove)
		if err != nil {
			t.Fatal(err)
		}
		if s.MostCooking() != tt.most {
			t.Errorf("%s serves to %s, want %s (suited_for of fuel.csv)", tt.stove, s.MostCooking(), tt.most)
		}
		if weak := FuelFor(s, 1, tt.most).TooWeak; weak != "" {
			t.Errorf("%s for what it serves to: %s", tt.stove, weak)
		}
		if weak := FuelFor(s, 1, tt.cook).TooWeak != ""; weak != (tt.cook != "") {
			t.Errorf("%s for %q: too weak %v", tt.stove, tt.cook, weak)
		}
	}
}

func TestFuelDays(t *testing.T) {
	gas, _ := StoveByName("canister-230")
	if poor, typical, good := FuelDays(gas, 2, 2); math.Abs(poor-4.204) > 1e-9 || math.Abs(typical-5.255) > 1e-9 || math.Abs(good-6.8315) > 1e-9 {
		t.Errorf("at 2 MJ a day %g, %g, %g days; want half of those at 1 MJ", poor, typical, good)
	}
	poor, typical, good := FuelDays(gas, 2, 1) // 2 × 10.51 × 0.40, 0.50, 0.65
	if math.Abs(poor-8.408) > 1e-9 || math.Abs(typical-10.51) > 1e-9 || math.Abs(good-13.663) > 1e-9 {
		t.Errorf("days %g, %g, %g; want 8.408, 10.51, 13.663", poor, typical, good)
	}
}

// energy_total of fuel_rules.csv before efficiency: m·4.186·ΔT/1000 and the
// simmer power over time.
func TestUsefulHeat(t *testing.T) {
	for _, tt := range []struct {
		kg, rise, minutes float64
		lid               bool
		want              float64
	}{
		{1, 85, 0, true, 0.35581}, // 4.186 × 85 / 1000; the rule's 0.356
		{0, 0, 10, true, 0.12},    // 200 W × 600 s
		{0, 0, 10, false, 0.3},    // 500 W × 600 s
		{2, 50, 20, true, 0.6586}, // 0.4186 + 0.24
	} {
		if got := UsefulHeatMJ(tt.kg, tt.rise, tt.minutes, tt.lid); math.Abs(got-tt.want) > 1e-9 {
			t.Errorf("UsefulHeatMJ(%g, %g, %g, %v) = %g, want %g (fuel_rules.csv)", tt.kg, tt.rise, tt.minutes, tt.lid, got, tt.want)
		}
	}
	for _, r := range FuelRules() {
		if !r.HasValue && r.Note == "" && r.Expression == "" {
			t.Errorf("%s holds neither a value nor a rule", r.Key)
		}
	}
}

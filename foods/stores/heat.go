package stores

import "slices"

// FuelRule is one figure or rule of fuel_rules.csv.
type FuelRule struct {
	Key        string  `json:"key"`
	Value      float64 `json:"value"` // in Unit
	HasValue   bool    `json:"-"`     // false: the rule is its note
	Unit       string  `json:"unit"`
	Expression string  `json:"expression,omitempty"`
	Note       string  `json:"note"`
	Ref
}

var fuelRules = tableOf("fuel_rules", func(r row) FuelRule {
	f := FuelRule{Key: r.Text("key"), Unit: r.Text("unit"), Expression: r.Text("expression"), Note: r.Text("note"), Ref: r.ref()}
	f.Value, f.HasValue = r.number("value")
	return f
})

// FuelRules returns every figure and rule about heat and fuel, in the order of
// the table.
func FuelRules() []FuelRule { return slices.Clone(fuelRules()) }

// fuelRule returns the rule with the key, see [withKey].
func fuelRule(key string) FuelRule {
	return withKey(fuelRules(), "fuel_rules", key, func(r *FuelRule) string { return r.Key })
}

// UsefulHeatMJ returns the heat that must reach the pot to bring massKg of
// food and water (food counted as its weight of water, the safe side) up by
// riseC degrees and to keep it simmering for simmerMin minutes, in MJ:
//
//	E = m·4.186·ΔT/1000 + P·60·t/10⁶
//
// with P the simmer power, 200 W under a lid or 500 W in an open pot. It is
// energy_total of fuel_rules.csv before stove efficiency, which [FuelFor]
// divides by.
func UsefulHeatMJ(massKg, riseC, simmerMin float64, lid bool) float64 {
	power := fuelRule("simmer_power_no_lid")
	if lid {
		power = fuelRule("simmer_power_lid_on")
	}
	return massKg*fuelRule("water_specific_heat").Value*riseC/kJPerMJ +
		power.Value*secondsPerMinute*simmerMin/joulesPerMJ
}

// BoilMJ returns the useful heat in MJ that brings litres of water from fromC
// to the boil at sea level, where it takes most, and holds a rolling boil for
// holdMin minutes in an open pot.
func BoilMJ(litres, fromC, holdMin float64) float64 {
	const boilC = 100
	return UsefulHeatMJ(litres*waterKgPerL().Value, boilC-fromC, holdMin, false)
}

// Exact.
const (
	kJPerMJ          = 1e3
	joulesPerMJ      = 1e6
	secondsPerMinute = 60
)

package stores

import "slices"

// WaterRule is one row of water.csv: a published amount, multiplier or rule
// about water.
type WaterRule struct {
	Standard  string  `json:"standard"`
	Group     string  `json:"group"` // person, child, pregnant, pet, household …
	Use       string  `json:"use"`
	Unit      string  `json:"unit"`
	Value     float64 `json:"value"` // low end of a range
	HasValue  bool    `json:"-"`     // false: the rule is its note
	ValueMax  float64 `json:"value_max,omitempty"`
	Condition string  `json:"condition,omitempty"`
	Note      string  `json:"note"`
	Ref
}

var waterRules = tableOf("water", func(r row) WaterRule {
	w := WaterRule{
		Standard: r.Text("standard"), Group: r.Text("group"), Use: r.Text("use"), Unit: r.Text("unit"),
		Condition: r.Text("condition"), Note: r.Text("note"), Ref: r.ref(),
	}
	// "label date" stands in the value of bottled water: a rule, no number.
	if r.Text("value") != "label date" {
		w.Value, w.HasValue = r.number("value")
	}
	w.ValueMax, _ = r.number("value_max")
	return w
})

// WaterRules returns every row about water, in the order of the table.
func WaterRules() []WaterRule { return slices.Clone(waterRules()) }

// waterRule returns the row; one that the table lacks is a fault of the build
// and panics.
func waterRule(standard, group, use string) WaterRule {
	for _, w := range waterRules() {
		if w.Standard == standard && w.Group == group && w.Use == use {
			return w
		}
	}
	panic("stores: data/water.csv: no row " + standard + ", " + group + ", " + use)
}

// waterKgPerL is the mass of water that stores are planned with, 1 kg per
// litre (0.998 at room temperature, rounded to the safe side of a floor).
func waterKgPerL() WaterRule { return waterRule("Planning", "household", "water_mass") }

package report

import (
	"testing"

	"rationwright/solver/ration"
)

// TestShortByHand: of the days after one date or another a person's worst counts; what the
// household lacks has no name; a target of nothing is reached.
func TestShortByHand(t *testing.T) {
	list := []ration.Shortfall{
		{Person: "Maja", Nutrient: "iron after day 3", Unit: "mg", Amount: 9, Target: 18}, {Person: "Maja", Nutrient: "iron after day 5", Unit: "mg", Amount: 6, Target: 18}, {Person: "Maja", Nutrient: "iron after day 7", Unit: "mg", Amount: 12, Target: 18},
		{Person: "Odd", Nutrient: "iron", Unit: "mg", Amount: 7, Target: 8}, {Nutrient: "water", Unit: "L", Amount: 3, Target: 4}, {Person: "Odd", Nutrient: "zinc", Amount: 1}, {Person: "Odd", Nutrient: "retinol", Amount: 0.5, Target: 0.75},
	}
	lines(t, "what is short", barred(shortGrid(list, 3)), "iron after day 5|Maja|Maja|6.00|18.0|mg|33", "iron|Odd|Odd|7.00|8.00|mg|87", "water|the household||3.00|4.00|L|75", "zinc|Odd|Odd|1.00|0|mg|", "retinol|Odd|Odd|0.50|0.75|µg|66")
	if got := share(ration.Shortfall{Amount: 3}); got != 1 {
		t.Errorf("nothing is asked, and %g of it is reached", got)
	}
	if got := whoIsShort(list[3:4], 1); got != "Odd" {
		t.Errorf("one alone is short: %q", got)
	}
	lines(t, "what is too much", barred(overSection([]ration.Over{{Person: "Odd", Nutrient: "sodium", Amount: 2500, Ceiling: 2300}}).Table), "Odd|sodium|2,500|2,300|mg")
}

package rules

import (
	"fmt"

	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// LittleSodium reports whether somebody is to have as little sodium as may be, not
// only less than a most: by a condition, or by an order that sets a most.
func LittleSodium(p *nutrients.Person) bool {
	o, ordered := p.Orders.Get(nutrients.OrderSodium)
	return p.Has(nutrients.LowSodium) || p.Has(nutrients.KidneyDisease) || p.Has(nutrients.HeartFailure) || ordered && o.High > 0
}

// Sodium says how much of it somebody gets who is to have little, and what was spent
// on less: slack is the part of the best found that the second aim may add.
func Sodium(needs *nutrients.Needs, eaten []Portion, days, slack float64) ration.RuleNote {
	got, _ := Intake(eaten, nutrients.Sodium, days)
	text := fmt.Sprintf("Sodium: %.0f mg a day", got)
	for _, need := range needs.List {
		if need.Nutrient == nutrients.Sodium && need.Ceiling != nil {
			text += fmt.Sprintf(", at most %g", need.Ceiling.Amount)
		}
	}
	if slack > 0 {
		text += fmt.Sprintf("; less was sought within the slack of %g %%. No salt is added", 100*slack)
	} else {
		text += "; with --slack 0 nothing is spent on less, only the most is kept"
	}
	return ration.RuleNote{Text: text + ".", Source: "computed from this plan"}
}

// Steady says how much there is of what a medicine asks to keep alike from day to day.
// It is never a dose, and no advice to change one.
func Steady(needs *nutrients.Needs, eaten []Portion, days float64) []ration.RuleNote {
	var list []ration.RuleNote
	for _, n := range needs.Steady {
		got, unknown := Intake(eaten, n, days)
		text := fmt.Sprintf("%s: about %.0f %s a day on average in this plan", capital(ration.PlainName(n)), got, n.Unit())
		if unknown {
			text += ", beside food without a figure for it"
		}
		list = append(list, ration.RuleNote{
			Text:   text + "; spread the food that holds it evenly over the days, and tell the prescriber if this is far from the usual.",
			Source: "computed from this plan",
		})
	}
	return list
}

package answer

import (
	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// Told is what a plan with some packs says to e of a meal's carbohydrate and of
// the rules kept.
func Told(m *model.Model, e *model.Eater, eaten []rules.Portion, drinkL float64, packs []ration.PlanPack) (*ration.MealRange, []ration.RuleNote) {
	var (
		meals *ration.MealRange
		said  []ration.RuleNote
	)
	for _, n := range e.Needs.Notes {
		said = append(said, ration.RuleNote{Text: n.Text, Source: ration.SourceOf(n.Source, n.Verified)})
	}
	said = append(said, rules.Adjusted(&e.Needs)...)
	said = append(said, rules.Wished(&e.Person)...)
	said = append(said, rules.Handling(e.Person, eaten)...)
	said = append(said, rules.Apart(m.Request, &e.Person, packs)...)
	said = append(said, rules.InfantIron(&e.Needs, eaten, m.Days())...)
	said = append(said, rules.OverUpper(&e.Needs, eaten, m.Days())...)
	if w := &e.Needs.Water; w.ByFluid() {
		said = append(said, rules.Fluid(w, eaten, drinkL, m.Days()))
	}
	said = append(said, rules.Steady(&e.Needs, eaten, m.Days())...)
	if rules.LittleSodium(&e.Person) {
		said = append(said, rules.Sodium(&e.Needs, eaten, m.Days(), m.Request.Slack))
	}
	if e.Needs.Lows != nil {
		said = append(said, rules.Lows(e.Needs.Lows, m.Request.Days))
	}
	if e.Needs.Meals != nil {
		perDay, _ := rules.Intake(eaten, nutrients.Carbohydrate, m.Days())
		meals = rules.MealRange(e.Needs.Meals, perDay)
		said = append(said, ration.RuleNote{Text: meals.Words(perDay), Source: "computed from this plan"})
	}
	return meals, said
}

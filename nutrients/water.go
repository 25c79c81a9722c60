package nutrients

import "fmt"

// drinksShare is the least part of the total water requirement that is
// drunk, the rest coming with food. Planning rule of this program.
const drinksShare = 0.45

// water sets total water and the least to drink, in litres a day.
func (b *builder) water() {
	f, kind, ok := b.d.goal(b.stage, Water.Name())
	if !ok {
		return
	}
	total := f.limit(kind)
	total.Note = f.Note
	drinks := total
	drinks.Amount *= drinksShare
	drinks.Kind, drinks.Source, drinks.Verified = "planning", "planning rule: at least 45 % of the total water requirement as drinks", "common practice, no source"
	drinks.Note = fmt.Sprintf("%g × %g L", drinksShare, total.Amount)
	if b.p.AgeMonths >= olderFrom {
		rule := "drinks, women"
		if b.p.Sex == Male {
			rule = "drinks, men"
		}
		if f := b.d.rule("older_adult_65y_and_over", rule); f.Value > drinks.Amount {
			drinks = f.limit("guideline")
		}
	}
	b.needs.Water = WaterNeed{Total: &total, Drinks: &drinks}
}

package nutrients

import (
	"fmt"
	"slices"
)

// Carbohydrate of a person with diabetes, in per cent of energy: the lower half
// of the AMDR. The lower end is the AMDR's own; the upper end is a planning
// default.
const (
	diabetesShareLow  = 45
	diabetesShareHigh = 55
)

// Meals and snacks of a day over which a band of carbohydrate is spread.
const (
	mealsPerDay  = 3
	snacksPerDay = 2 // planning default of this program; special.csv gives the grams of one
)

// hasDiabetes reports whether p has any kind of diabetes.
func (p *Person) hasDiabetes() bool {
	return slices.ContainsFunc(p.Conditions, func(c Condition) bool { return slices.Contains(diabetes, c) })
}

// leastCarbohydrate returns the carbohydrate that p should not go below without
// a clinician, in g/day: 130, in pregnancy 175.
func leastCarbohydrate(p *Person) Limit {
	d, err := data()
	if err != nil {
		return Limit{}
	}
	if p.Pregnant() {
		return d.rule("pregnancy", "carbohydrate").limit("RDA")
	}
	return d.rule("diabetes", "carbohydrate RDA floor").limit("RDA")
}

// snackG returns the carbohydrate of one snack, in g.
func snackG() float64 {
	d, err := data()
	if err != nil {
		return 0
	}
	return d.rule("diabetes", "carbohydrate per snack").Value
}

// hasBand reports whether the person's own rules set the carbohydrate of a
// meal.
func (p *Person) hasBand() bool {
	return slices.ContainsFunc(p.Rules, func(r Rule) bool { return r.Kind == RuleCarbohydrate })
}

// mealBand spreads a band over the meals and snacks of a day.
func mealBand(low, high *Limit, enforced bool) *MealBand {
	return &MealBand{Low: low, High: high, Enforced: enforced, Meals: mealsPerDay, Snacks: snacksPerDay, SnackG: snackG()}
}

// bandPerDay returns the carbohydrate of a day of three meals in a rule's band
// and two snacks, in g.
func bandPerDay(r Rule) (low, high float64) {
	snacks := snacksPerDay * snackG()
	return mealsPerDay*r.Low + snacks, mealsPerDay*r.High + snacks
}

// diabetes sets the rules of a person with diabetes, in every standard: a
// steady share of carbohydrate, enough fibre, little sodium, added sugars and
// saturated fat, a reserve of fast sugar, and the usual counting range of a
// meal, shown but not enforced.
func (b *builder) diabetes() {
	if !b.p.hasDiabetes() {
		return
	}
	b.note("The plan of the person's own clinician comes first; these rules are planning defaults.",
		b.d.rule("diabetes", "follow the person's own clinician plan first; rules below are planning defaults"))
	_, amdr := b.d.share(Carbohydrate, b.p.AgeMonths)
	share := &Share{Nutrient: Carbohydrate, KcalPerG: kcalPerGCarbohydrate}
	share.Min = &Limit{
		Amount: diabetesShareLow, Kind: "planning", Source: "lower end of the AMDR: " + amdr.Source, Verified: amdr.Verified,
	}
	share.Max = &Limit{
		Amount: diabetesShareHigh, Kind: "planning", Source: "planning default: lower half of the AMDR", Verified: "common practice, no source",
	}
	least := leastCarbohydrate(b.p)
	if goal, kind, ok := b.d.goal(b.stage, Carbohydrate.Name()); ok && goal.Value > least.Amount {
		least = goal.limit(kind) // breast-feeding
	}
	if room := belowCeiling * diabetesShareHigh / 100 * b.needs.EER.Amount / kcalPerGCarbohydrate; least.Amount > room {
		share.Max = amdr
		if !b.p.hasBand() {
			b.needs.Notes = append(b.needs.Notes, Note{
				fmt.Sprintf("At %.0f kcal the least carbohydrate of %g g is above %d %% of energy: the share goes up to %g %%.", b.needs.EER.Amount, least.Amount, diabetesShareHigh, amdr.Amount),
				least.Source, least.Verified,
			})
		}
	}
	b.shares[Carbohydrate] = share
	b.need(Carbohydrate).raise(least)
	if !b.p.hasBand() {
		b.needs.Notes = append(b.needs.Notes, Note{
			fmt.Sprintf("Carbohydrate is %g to %g %% of energy and at least %g g a day, over %d meals and %d snacks.", share.Min.Amount, share.Max.Amount, least.Amount, mealsPerDay, snacksPerDay),
			least.Source + "; planning default", "common practice, no source",
		})
	}
	fibre := b.d.rule("diabetes", "dietary fibre").limit("guideline")
	fibre.Note = fmt.Sprintf("%g g per 1000 kcal", fibre.Amount)
	fibre.Amount *= b.needs.EER.Amount / 1000
	b.need(Fibre).raise(fibre)
	sodium := b.d.rule("diabetes", "sodium").limit("guideline")
	if cdrr, ok := b.d.find(b.stage, Sodium.Name(), "CDRR"); ok && cdrr.Value < sodium.Amount {
		sodium = cdrr.limit("CDRR")
	}
	b.need(Sodium).lower(sodium)
	for _, n := range []Nutrient{SaturatedFat, AddedSugars} {
		if b.shares[n] == nil && (n != AddedSugars || b.list[AddedSugars] == nil) {
			b.setShare(n)
		}
	}
	b.needs.Meals = planningBand(b.d)
	if !b.p.hasBand() {
		b.note(fmt.Sprintf("The usual counting range is %g to %g g of carbohydrate a meal and %g g a snack. It is shown, not planned for: a band that the person or the clinician sets among the rules is.", b.needs.Meals.Low.Amount, b.needs.Meals.High.Amount, snackG()),
			b.d.rule("diabetes", "carbohydrate per meal, low end"))
	}
	reserve := b.d.rule("diabetes", "fast-acting carbohydrate to keep in the kit")
	b.needs.ReserveG = reserve.Value
	b.note(fmt.Sprintf("%g g of fast sugar is set aside against low blood sugar; it is never counted as food. Ask the clinician how much to keep.", reserve.Value), reserve)
}

// planningBand returns the usual counting range of a meal.
func planningBand(d *published) *MealBand {
	low := d.rule("diabetes", "carbohydrate per meal, low end").limit("common practice")
	high := d.rule("diabetes", "carbohydrate per meal, high end").limit("common practice")
	return mealBand(&low, &high, false)
}

// diabetes are the conditions of which a person has one at most.
var diabetes = []Condition{Diabetes1, Diabetes2, Diabetes2Diet, DiabetesPregnancy}

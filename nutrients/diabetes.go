package nutrients

import (
	"fmt"
	"math"
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

// Carbohydrate beyond the usual counting range, in g: of a main meal for men and
// active people, and of a snack (special.csv, notes of the counting range). A
// child's range is the clinic's: see [childBand].
const (
	mealOfMen   = 75
	snackAtMost = 30
)

// mealBand spreads a band over the meals and snacks of a day.
func mealBand(low, high *Limit, enforced bool) *MealBand {
	return &MealBand{Low: low, High: high, Enforced: enforced, Meals: mealsPerDay, Snacks: snacksPerDay, SnackG: snackG(), SnackHighG: snackG()}
}

// perDay returns the carbohydrate of a day within the band, in g.
func (m *MealBand) perDay() (low, high float64) {
	return float64(m.Meals)*m.Low.Amount + float64(m.Snacks)*m.SnackG, float64(m.Meals)*m.High.Amount + float64(m.Snacks)*m.SnackHighG
}

// bandPerDay returns the carbohydrate of a day of three meals in a rule's band
// and two snacks, in g.
func bandPerDay(r Rule) (low, high float64) {
	snacks := snacksPerDay * snackG()
	return mealsPerDay*r.Low + snacks, mealsPerDay*r.High + snacks
}

// diabetes sets the rules of a person with diabetes, in every standard: a
// steady share of carbohydrate, enough fibre, little sodium, added sugars and
// saturated fat, the usual counting range of a meal, and a reserve of quick sugar
// in doses.
func (b *builder) diabetes() {
	if !b.p.hasDiabetes() {
		return
	}
	b.note("The plan of the person's own clinician comes first; these rules are planning defaults.",
		b.d.rule("diabetes", "follow the person's own clinician plan first; rules below are planning defaults"))
	_, amdr := b.d.share(Carbohydrate, b.p.AgeMonths)
	share := &Share{
		Nutrient: Carbohydrate, KcalPerG: kcalPerGCarbohydrate,
		Min: &Limit{Amount: diabetesShareLow, Kind: "planning", Source: "lower end of the AMDR: " + amdr.Source, Verified: amdr.Verified},
		Max: &Limit{
			Amount: diabetesShareHigh, Kind: "planning", Source: "planning default: lower half of the AMDR", Verified: "common practice, no source",
		},
	}
	least := leastCarbohydrate(b.p)
	if goal, kind, ok := b.d.goal(b.stage, Carbohydrate.Name()); ok && goal.Value > least.Amount {
		least = goal.limit(kind) // breast-feeding
	}
	if room := belowCeiling * diabetesShareHigh / 100 * b.needs.EER.Amount / kcalPerGCarbohydrate; least.Amount > room {
		share.Max = amdr
		if !b.p.hasBand() {
			b.needs.say(fmt.Sprintf("At %.0f kcal the least carbohydrate of %g g is above %d %% of energy: the share goes up to %g %%.",
				b.needs.EER.Amount, least.Amount, diabetesShareHigh, amdr.Amount), least.Source, least.Verified)
		}
	}
	b.shares[Carbohydrate] = share
	b.need(Carbohydrate).raise(least)
	if !b.p.hasBand() && b.p.AgeMonths < adultFrom {
		b.needs.say(fmt.Sprintf("Carbohydrate is %g to %g %% of energy and at least %g g a day, over %d meals and %d snacks.",
			share.Min.Amount, share.Max.Amount, least.Amount, mealsPerDay, snacksPerDay),
			least.Source+"; planning default", "common practice, no source")
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
	b.keepToBand()
	b.lows()
	sick := b.d.rule("diabetes", "sick day carbohydrate")
	b.note(fmt.Sprintf("Days of illness: about 50 g of carbohydrate every 3 to 4 hours, %g to 200 g a day, as soup, juice or sweet drinks where food will not stay down; drink often, measure often, and keep to the sick-day rules of the clinic. Insulin is never left out without its word.", sick.Value), sick)
}

// keepToBand holds the day to the usual counting range of its meals, on the mean
// of the days: the least and the most are own planning rules on a published
// range, in force for adults. The share of energy gives way where it asks for
// more.
func (b *builder) keepToBand() {
	band := planningBand(b.d)
	source := b.d.rule("diabetes", "carbohydrate per meal, low end")
	if b.p.Has(DiabetesPregnancy) {
		band = pregnancyBand(b.d)
		source = b.d.rule("gestational_diabetes", "carbohydrate of a main meal, low end")
	} else if b.p.Sex == Male || b.p.Activity == Active || b.p.Activity == VeryActive {
		band.High.Amount = mealOfMen
		band.High.Note = "up to 75 g for men and active people"
	}
	b.needs.Meals = band
	if b.p.hasBand() {
		return
	}
	if b.p.AgeMonths < adultFrom {
		if b.p.Has(DiabetesPregnancy) {
			b.note(fmt.Sprintf("The counting range in pregnancy is %g to %g g of carbohydrate a meal and %g g a snack. It is shown, not planned for: under 19 years the clinic's counts come first, and are written among the orders.", band.Low.Amount, band.High.Amount, band.SnackG), source)
			return
		}
		childBand(b)
		return
	}
	low, high := band.perDay()
	need, share := b.need(Carbohydrate), b.shares[Carbohydrate]
	if low > need.Floor.Amount {
		need.Floor = band.Low.with(low,
			fmt.Sprintf("%d meals of %g g and %d snacks of %g g", band.Meals, band.Low.Amount, band.Snacks, band.SnackG))
	}
	need.Ceiling = band.High.with(max(high, need.Floor.Amount/belowCeiling),
		fmt.Sprintf("%d meals of %g g and %d snacks of %g g", band.Meals, band.High.Amount, band.Snacks, band.SnackHighG))
	most := 100 * kcalPerGCarbohydrate * belowCeiling * need.Ceiling.Amount / b.needs.EER.Amount
	if share.Min != nil && share.Min.Amount > most {
		share.Min = share.Min.with(most, fmt.Sprintf("%g × what the range of meals comes to", belowCeiling))
		if fat := b.shares[Fat]; fat != nil && most < leastBesideFat {
			fat.Max = nil
		}
	}
	b.note(fmt.Sprintf("Carbohydrate keeps to the usual counting range, %g to %g g a meal and %g to %g g a snack, on the mean of the days: %.0f to %.0f g a day. A band of the person or the clinician takes its place.",
		band.Low.Amount, band.High.Amount, band.SnackG, band.SnackHighG, need.Floor.Amount, need.Ceiling.Amount), source)
}

// childBand spreads a child's day, which is a share of its energy and no less than the
// table's least, over meals and snacks, to a whole gram: own planning rule, since the
// published range is that of adults and would be far too much for a small child.
func childBand(b *builder) {
	share, least := b.shares[Carbohydrate], b.need(Carbohydrate).Floor.Amount
	meal := func(percent float64) *Limit {
		day := max(percent/100*b.needs.EER.Amount/kcalPerGCarbohydrate, least)
		return &Limit{
			Amount: math.Round((day - snacksPerDay*snackG()) / mealsPerDay), Kind: "planning",
			Source: "own planning rule: the child's share of energy over meals and snacks", Verified: "own planning rule, no source",
		}
	}
	b.needs.Meals = mealBand(meal(share.Min.Amount), meal(share.Max.Amount), false)
	b.needs.Meals.SnackHighG = snackAtMost
	m := b.needs.Meals
	b.needs.say(fmt.Sprintf("That is about %g to %g g at each of %d meals and %g g at each of %d snacks. A child's counts are the clinic's: they come first, and are written among the orders.",
		m.Low.Amount, m.High.Amount, m.Meals, m.SnackG, m.Snacks), m.Low.Source, m.Low.Verified)
}

// leastBesideFat is the share of energy from carbohydrate, in per cent, under
// which protein and fat within their own ranges hardly fill the rest. Planning
// rule of this program.
const leastBesideFat = 40

// lows sets the doses of quick sugar against a low blood sugar, by how it is
// treated.
func (b *builder) lows() {
	kit := b.d.rule("diabetes", "fast-acting carbohydrate to keep in the kit")
	dose := b.d.rule("diabetes", "fast-acting carbohydrate per low (glucose under 70 mg/dL)")
	b.needs.Lows = &LowReserve{
		Doses: int(kit.Value / dose.Value), Days: kitDays, DoseG: dose.Value, Why: "insulin",
		Source: dose.Source + "; number: planning rule", Verified: kit.Verified,
	}
	for _, c := range []struct {
		of    Condition
		doses int
		why   string
	}{{Diabetes2, 5, "tablets or insulin"}, {DiabetesPregnancy, 5, "insulin, where it is given"}, {Diabetes2Diet, 2, "diet alone: lows are rare"}} {
		if b.p.Has(c.of) {
			b.needs.Lows.Doses, b.needs.Lows.Why = c.doses, c.why
		}
	}
}

// kitDays is for how long the doses of a kit are kept (special.csv: two weeks).
const kitDays = 14

// pregnancyBand returns the counting range in diabetes of pregnancy, the mean of
// breakfast and the two other meals.
func pregnancyBand(d *published) *MealBand {
	m := countingRange(d, "gestational_diabetes", "carbohydrate of a main meal")
	m.Snacks = int(d.rule("gestational_diabetes", "snacks a day").Value)
	return m
}

// planningBand returns the usual counting range of a meal.
func planningBand(d *published) *MealBand {
	return countingRange(d, "diabetes", "carbohydrate per meal")
}

// countingRange is the range of a group of special.csv between the two ends of a rule.
func countingRange(d *published, group, rule string) *MealBand {
	low, high := d.rule(group, rule+", low end").limit("common practice"), d.rule(group, rule+", high end").limit("common practice")
	m := mealBand(&low, &high, false)
	m.SnackHighG = snackAtMost
	return m
}

// diabetes are the conditions of which a person has one at most.
var diabetes = []Condition{Diabetes1, Diabetes2, Diabetes2Diet, DiabetesPregnancy}

package nutrients

import (
	"fmt"
	"math"
)

// Milk of infants.
const (
	onlyMilkBelow = 6 // months: nothing but milk

	// spareFactor is what is bought over the need: prepared feeds that are not
	// finished are thrown away. Common practice, no source.
	spareFactor = 1.1

	// Human milk: energy of USDA SR28 row 01107 per 100 g, and its weight per
	// US fluid ounce (30.8 g, USDA SR26 measures) over 29.5735 mL.
	humanMilkKcalPer100G = 70.0
	humanMilkGPerML      = 30.8 / 29.5735
)

// infant sets the needs of a child under 12 months: the milk feed, and from six
// months energy, protein and iron. Every other figure of the tables is shown
// and never enforced: formula itself exceeds several infant ULs and AIs.
func (b *builder) infant() error {
	b.feed()
	for _, n := range driColumns {
		goal, kind, ok := b.d.goal(b.stage, n.Name())
		if !ok {
			continue
		}
		goal, err := goal.inColumn(n)
		if err != nil {
			return err
		}
		need := b.need(n)
		need.Target, need.Shown = new(goal.limit(kind)), true
		if n != Sodium { // its ceiling is no upper level
			need.Upper = b.d.upperLevel(b.stage, n)
		}
	}
	if ul, ok := b.d.find(b.stage, VitaminA.Name(), "UL"); ok {
		b.need(Retinol).Upper, b.need(Retinol).Shown = ul.limit("UL").with(ul.Value, retinolNote), true
	}
	if err := b.protein(); err != nil {
		return err
	}
	if err := b.byOwnWeight(); err != nil {
		return err
	}
	if b.p.AgeMonths < onlyMilkBelow {
		for _, n := range []Nutrient{Energy, Protein} {
			need := b.need(n)
			need.Floor, need.Ceiling, need.Shown = nil, nil, true
		}
	} else {
		iron := b.need(Iron)
		iron.Floor, iron.Shown = iron.Target, false
		protein := b.need(Protein)
		protein.Floor = protein.Target // the RDA whatever the standard
		b.roomForFood()
	}
	for _, r := range b.p.Rules {
		if r.Kind == RuleFloor || r.Kind == RuleCeiling || r.Kind == RuleCarbohydrate {
			b.refuseRule(&r, "under 12 months the feed is fixed", "leave the rule out")
		}
	}
	return nil
}

// byOwnWeight turns the figures that are shown, which are those of the reference
// body, to the infant's own weight where it is given: the milk goes by that, and
// a light infant would else seem to get too little. Own planning rule; the
// tables are averages of what infants of the reference weight drink.
func (b *builder) byOwnWeight() error {
	if b.p.WeightKg <= 0 {
		return nil
	}
	ref, err := b.d.referenceBody(b.p.Sex, 12*b.state.AgeYears)
	if err != nil {
		return err
	}
	scale := b.p.WeightKg / ref.WeightKg
	for n, need := range b.list {
		if need == nil || need.Target == nil || Nutrient(n) == Energy || Nutrient(n) == Protein {
			continue // by the weight already
		}
		if b.p.AgeMonths >= onlyMilkBelow && Nutrient(n) == Iron {
			continue // enforced
		}
		l := need.Target
		why := fmt.Sprintf("%s of a reference body of %g kg, for %g kg", trim(l.Amount), ref.WeightKg, b.p.WeightKg)
		need.Target = l.with(l.Amount*scale, joinNotes(l.Note, why))
	}
	b.note(fmt.Sprintf("Figures in brackets are those of an infant of %g kg, turned to %g kg: they are shown, the milk goes by volume.", ref.WeightKg, b.p.WeightKg),
		figure{Source: "planning rule; " + ref.Source, Verified: "common practice, no source"})
	return nil
}

// formulaOf returns the ready feed of a day. Where it is all that is eaten, under
// six months, it goes by weight: 163 mL per kg, the upper of the two published
// rules (150 and 163 to 165), because a store that is short of formula is
// dangerous, and at most 946 mL. Without a weight it is the larger of that at
// the median weight of the age and the planning volume by age; from six months
// it is the planning volume, beside food.
func formulaOf(d *published, p *Person, only bool) Limit {
	planned := d.infant("formula_day", "planning volume per day", p.AgeMonths).limit("feed")
	planned.Note = "planning volume for the age"
	if !only {
		return planned
	}
	weight, of := figure{Value: p.WeightKg}, "given"
	if p.WeightKg <= 0 {
		weight, of = d.medianWeight(p.Sex, float64(p.AgeMonths)+0.5), "median of the age"
	}
	perKg := d.rule("infant_0_6mo", "formula volume, AAP rule")
	byWeight := perKg.limit("feed")
	byWeight.Amount *= weight.Value
	byWeight.Note = fmt.Sprintf("%g mL per kg × %g kg (%s)", perKg.Value, weight.Value, of)
	if p.WeightKg <= 0 {
		byWeight.Source += "; weight: " + weight.Source
		byWeight.Verified = weight.Verified
	}
	if most := d.rule("infant_0_6mo", "formula volume ceiling"); byWeight.Amount > most.Value {
		byWeight = most.limit("feed")
		byWeight.Note = "the usual maximum of a day; above it ask a clinician"
	}
	if p.WeightKg <= 0 && planned.Amount > byWeight.Amount {
		return planned
	}
	return byWeight
}

// feed sets the milk of a day. Mixed feeding is planned half and half.
func (b *builder) feed() {
	d, p := b.d, b.p
	feed := &Feed{Only: p.AgeMonths < onlyMilkBelow, SpareFactor: spareFactor}
	formula := formulaOf(d, p, feed.Only)
	human := formula
	if !feed.Only {
		human = d.humanMilkBesideFood(p.AgeMonths)
	}
	feeds := d.infant("formula_feeds", "feeds per day", p.AgeMonths)
	feed.FeedsLow, feed.FeedsHigh = feeds.Value, feeds.High
	strength := d.infant("formula_dilution", "powder per 100 ml of ready feed, milk based", p.AgeMonths)
	feed.Soy = p.Has(Vegan) || p.Has(Lactose)
	if feed.Soy {
		strength = d.infant("formula_dilution", "powder per 100 ml of ready feed, soy based", p.AgeMonths)
	}
	feed.PowderGPer100ML = strength.Value
	switch p.Feeding {
	case BreastFed:
		feed.HumanMilkML = &human
	case FormulaFed:
		feed.FormulaML = &formula
	case MixedFed:
		formula.Amount /= 2
		human.Amount /= 2
		formula.Note = joinNotes(formula.Note, "half of it: mixed feeding is planned half and half")
		human.Note = joinNotes(human.Note, "half of it")
		feed.FormulaML, feed.HumanMilkML = &formula, &human
	}
	b.needs.Feed = feed
	if feed.FormulaML != nil {
		kind := "Formula"
		if feed.Soy {
			kind = "Soy-based formula (ask a clinician)"
		}
		b.note(fmt.Sprintf("%s: %.0f mL of ready feed a day, %g g of powder per 100 mL; the label of the tin comes first.", kind, feed.FormulaML.Amount, feed.PowderGPer100ML), strength.figure)
		b.note(fmt.Sprintf("%g to %g feeds a day, about %.0f to %.0f mL each: water first, then the scoops that the label of the tin gives for it.",
			feed.FeedsLow, feed.FeedsHigh, feed.FormulaML.Amount/feed.FeedsHigh, feed.FormulaML.Amount/feed.FeedsLow), feeds.figure)
		b.note(d.scoops(feed, p.AgeMonths))
		b.needs.say("One tenth more formula is bought than is drunk: feeds that are not finished are thrown away.",
			"planning rule", "common practice, no source")
	}
	if !feed.Only {
		servings := d.infant("iron", "servings of iron-fortified infant cereal", p.AgeMonths)
		feed.IronFoods = servings.limit("guideline").with(servings.Value, "or meat twice a day")
		feed.PureeG = byHalfYear(p.AgeMonths, pureeFirstG, pureeLaterG)
		b.needs.say(fmt.Sprintf("Iron-rich food, %g servings a day: fortified infant cereal, of rice and of other grain in turn, or strained meat.", servings.Value),
			servings.Source, servings.Verified)
		b.needs.say(fmt.Sprintf("Fruit or vegetables from the spoon, at least %g g a day on average, smooth at first, then mashed with a fork; several kinds in turn.", feed.PureeG.Amount),
			feed.PureeG.Source, feed.PureeG.Verified)
		if !p.Has(Vegetarian) && !p.Has(Vegan) {
			feed.MeatG = byHalfYear(p.AgeMonths, meatFirstG, meatLaterG)
			b.needs.say(fmt.Sprintf("Strained meat or poultry takes its turn beside the cereal, at least %g g a day on average: its iron is taken up best.", feed.MeatG.Amount),
				feed.MeatG.Source, feed.MeatG.Verified)
		}
	}
}

// Fruit and vegetables of an infant who begins with food, g a day: a few spoons, then a
// small jar. They fit in the energy that [builder.roomForFood] leaves beside milk and
// cereal.
const (
	pureeFirstG = 40 // 6 to 8 months
	pureeLaterG = 80 // 9 to 11 months
	laterMonths = 9
)

// Plain meat of an infant who begins with food, g a day: a small jar every fourth day,
// then one every other day. PAHO/WHO ask for meat, poultry, fish or eggs daily or as often
// as can be; how much is this program's own rule.
const (
	meatFirstG = 18 // 6 to 8 months
	meatLaterG = 35 // 9 to 11 months
)

// byHalfYear is an own planning rule of g a day that grows with the child.
func byHalfYear(months int, first, later float64) *Limit {
	l := &Limit{Amount: first, Kind: "planning", Source: "own planning rule", Verified: "own planning rule, no source"}
	if months >= laterMonths {
		l.Amount = later
	}
	return l
}

// labelSteps are the usual amounts of water, in mL, that labels give one scoop
// for: 30 mL, and 60 mL in North America (infant_feeding.csv, US scoop). From
// memory, as there.
var labelSteps = []float64{30, 60}

// scoops tells the water and the scoops of one feed by either kind of label: a
// feed of the middle of the range, its water to the next whole scoop. Powder
// takes up the rest of the feed's volume.
func (d *published) scoops(feed *Feed, months int) (text string, origin figure) {
	waterPart := d.infant("formula_dilution", "water per 100 ml of ready feed", months)
	mL := 2 * feed.FormulaML.Amount / (feed.FeedsLow + feed.FeedsHigh) * waterPart.Value / 100
	text = "Water and scoops of a feed, powder, by the label of your own tin: "
	for i, step := range labelSteps {
		if i > 0 {
			text += "; "
		}
		scoops := math.Max(1, math.Round(mL/step))
		text += fmt.Sprintf("1 scoop to %g mL of water: %g mL and %g %s", step, scoops*step, scoops, map[bool]string{true: "scoop", false: "scoops"}[scoops == 1])
	}
	return text + ". Another label: divide the water by what it gives for one scoop. Never a part of a scoop, never the scoop of another tin; ready to feed takes no water.", d.infant("formula_dilution", "US scoop", months).figure
}

// humanMilkBesideFood returns the breast milk of a day from six months on: the
// energy that average breast milk gives, which is the need in total less that
// from food, over the energy of human milk.
func (d *infantTables) humanMilkBesideFood(months int) Limit {
	total := d.infant("complementary_food", "energy in total if not breastfed", months)
	food := d.infant("complementary_food", "energy from food with average breast milk", months)
	kcal := total.Value - food.Value
	return Limit{
		Amount:   kcal / humanMilkKcalPer100G * 100 / humanMilkGPerML,
		Kind:     "feed",
		Source:   total.Source + "; USDA SR28 01107",
		Verified: "computed: " + total.Verified,
		Note:     fmt.Sprintf("average breast milk: %g kcal in total less %g from food", total.Value, food.Value),
	}
}

// roomForFood widens the energy band of a small infant whose milk alone nearly
// fills it, so that there is room for the food that brings iron.
func (b *builder) roomForFood() {
	feed := b.needs.Feed
	kcal := 0.0
	if feed.FormulaML != nil {
		kcal += feed.FormulaML.Amount / 100 * b.d.infant("formula_dilution", "energy of standard formula", b.p.AgeMonths).Value
	}
	if feed.HumanMilkML != nil {
		kcal += feed.HumanMilkML.Amount * humanMilkGPerML / 100 * humanMilkKcalPer100G
	}
	food := b.d.infant("complementary_food", "energy from food with average breast milk", b.p.AgeMonths)
	if need := b.need(Energy); need.Ceiling.Amount < kcal+food.Value {
		why := fmt.Sprintf("raised from %.0f kcal: %.0f kcal of milk and %g kcal of food", need.Ceiling.Amount, kcal, food.Value)
		need.Ceiling = need.Ceiling.with(kcal+food.Value, why)
	}
}

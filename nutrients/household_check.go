package nutrients

import (
	"errors"
	"fmt"
	"slices"

	"rationwright/nutrients/table"
)

// plausible are the bounds of height and weight by age. Common practice, no
// source: wide enough for every living person of the age.
var plausible = []struct {
	below                int // months
	minHeight, maxHeight float64
	minWeight, maxWeight float64
}{
	{3, 35, 70, 1, 9},
	{6, 45, 85, 2, 14},
	{12, 50, 95, 3, 18},
	{36, 60, 120, 5, 35},
	{108, 70, 170, 7, 100},
	{168, 95, 210, 14, 180},
	{228, 100, maxHeightCm, 20, maxWeightKg},
	{12*maxAgeYears + 12, 100, maxHeightCm, 25, maxWeightKg},
}

// Ages of the pregnancy and lactation rows of the DRI tables, in months.
const (
	childbearingFrom  = 14 * 12
	childbearingBelow = 51 * 12
)

// bmiMin and bmiMax bound weight over height squared from two years on, kg/m².
// Common practice, no source.
const (
	bmiMin = 9.0
	bmiMax = 100.0
)

// checkPerson records what does not fit together in a row that was read.
func checkPerson(row *table.Row, p *Person, aged bool) {
	if aged {
		checkBody(row, p)
		checkState(row, p)
		checkFeeding(row, p)
	}
	checkConditions(row, p)
	if aged {
		checkRules(row, p)
		checkOrders(row, p)
	}
}

func checkBody(row *table.Row, p *Person) {
	for _, age := range plausible {
		if p.AgeMonths >= age.below {
			continue
		}
		if h := p.HeightCm; h > 0 && (h < age.minHeight || h > age.maxHeight) {
			row.Fail("height_cm", fmt.Errorf("impossible at the age of %s", ageText(p.AgeMonths)), fmt.Sprintf("write the height in cm, %g to %g at this age, or leave it empty", age.minHeight, age.maxHeight))
		} else if w := p.WeightKg; h > 0 && w > 0 && p.AgeMonths >= 24 {
			if b := bmi(h, w); b < bmiMin || b > bmiMax {
				row.Fail("weight_kg", fmt.Errorf("impossible at a height of %g cm", h), "write the weight in kg and the height in cm, or leave both empty")
			}
		}
		if w := p.WeightKg; w > 0 && (w < age.minWeight || w > age.maxWeight) {
			row.Fail("weight_kg", fmt.Errorf("impossible at the age of %s", ageText(p.AgeMonths)), fmt.Sprintf("write the weight in kg, %g to %g at this age, or leave it empty", age.minWeight, age.maxWeight))
		}
		return
	}
}

func checkState(row *table.Row, p *Person) {
	switch {
	case p.State == NoState:
	case p.Sex == Male:
		row.Fail("state", errors.New("a male person is neither pregnant nor breast-feeding"), "correct sex, or leave state empty")
	case p.AgeMonths < childbearingFrom || p.AgeMonths >= childbearingBelow:
		row.Fail("state", fmt.Errorf("at the age of %s, outside the 14 to 50 years of the requirement tables", ageText(p.AgeMonths)), "correct the age, or leave state empty and ask a clinician")
	}
}

func checkFeeding(row *table.Row, p *Person) {
	switch infant := p.AgeMonths < infantBelow; {
	case infant && !row.Has("feeding"):
		row.Fail("feeding", fmt.Errorf("%w: a child of %s is fed on milk", table.ErrEmpty, ageText(p.AgeMonths)), "write breast, formula or mixed")
	case !infant && row.Has("feeding"):
		row.Fail("feeding", fmt.Errorf("at the age of %s; it is for children under 12 months", ageText(p.AgeMonths)), "leave it empty")
	}
}

func checkConditions(row *table.Row, p *Person) {
	kinds := slices.DeleteFunc(slices.Clone(p.Conditions), func(c Condition) bool { return !slices.Contains(diabetes, c) })
	if len(kinds) > 1 {
		row.Fail("conditions", errors.New("two kinds of diabetes"), "leave one")
	}
	if p.Has(DiabetesPregnancy) && !p.Pregnant() {
		row.Fail("conditions", fmt.Errorf("%s without a pregnancy", DiabetesPregnancy), "write pregnant-1, pregnant-2 or pregnant-3 in state, or another condition")
	}
}

// checkRules refuses floors and ceilings that a published requirement
// overrides, by the default standard, and a carbohydrate band that cannot be
// eaten with the person's least carbohydrate or within the person's energy.
func checkRules(row *table.Row, p *Person) {
	if p.Sex == "" || len(p.Rules) == 0 {
		return
	}
	needs, err := For(*p, Options{})
	for _, one := range unjoin(err) {
		if rule := (*RuleError)(nil); errors.As(one, &rule) {
			row.FailValue("rules", rule.Rule, errors.New(rule.Why), rule.Fix)
		}
	}
	if needs.EER.Amount == 0 || needs.Feed != nil { // somebody whom the tables do not know or a clinician plans for; an infant
		return
	}
	for _, rule := range p.Rules {
		if rule.Kind != RuleCarbohydrate {
			continue
		}
		least := leastCarbohydrate(p)
		low, high := bandPerDay(rule)
		switch most := maxCarbohydrateShare(p) / 100 * needs.EER.Amount / kcalPerGCarbohydrate; {
		case high < least.Amount:
			row.FailValue("rules", rule.Text, fmt.Errorf("at most %g g a day, under the %g g that nobody should go below without a clinician (%s)", high, least.Amount, least.Source), "write a higher band")
		case low > most:
			row.FailValue("rules", rule.Text, fmt.Errorf("at least %g g a day, over the %.0f g that fit in %.0f kcal", low, most, needs.EER.Amount), "write a lower band")
		}
	}
}

// checkOrders refuses orders against a safety limit: the feed of an infant, or
// an upper level of intake. What a rule says beside an order is refused too.
func checkOrders(row *table.Row, p *Person) {
	if len(p.Orders.List) == 0 || p.Sex == "" {
		return
	}
	if p.AgeMonths < infantBelow {
		row.Fail("orders", errors.New("under 12 months the feed is fixed by age and weight"), "leave it empty; a clinician plans the feed of an ill infant, and this program does not")
		return
	}
	d, err := data()
	if err != nil {
		return
	}
	stage, err := d.stageOf(p)
	if err != nil {
		return
	}
	for _, o := range p.Orders.List {
		if o.Of == OrderTexture {
			continue
		}
		n := orderable[o.index()].nutrient
		if ul, ok := d.find(stage, n.Name(), "UL"); ok && totalUL[n] {
			if ul, err := ul.inColumn(n); err == nil && o.Low > ul.Value {
				row.FailValue("orders", o.String(), fmt.Errorf("over the upper level of %g %s a day, a safety limit (%s)", ul.Value, n.Unit(), ul.Source), "write less; a clinician plans for more")
			}
		}
		for _, r := range p.Rules {
			same := (r.Kind == RuleFloor || r.Kind == RuleCeiling) && r.Nutrient == n && o.Of != OrderCarbohydrate || r.Kind == RuleCarbohydrate && o.Of == OrderCarbohydrate
			if same {
				row.FailValue("rules", r.Text, fmt.Errorf("the orders set %s", o.Of), "leave the rule out")
			}
		}
	}
}

// unjoin returns the parts of a joined error.
func unjoin(err error) []error {
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		return joined.Unwrap()
	}
	return nil
}

package nutrients

import (
	"errors"
	"fmt"
	"slices"
)

// For returns what p requires per day by the chosen standard and equations.
// Limits are in the unit of the nutrient's column; what the published tables
// give in another form is converted on the safe side, and every adjustment is
// noted on the limit. Someone whom a clinician must plan for is returned with
// Refused set and water alone.
//
// It returns [ErrStage] for an age, sex and state that the tables do not know,
// [ErrOption] for an unknown standard or set, and the [*RuleError]s of floors
// and ceilings of the household that it cannot obey.
func For(p Person, o Options) (Needs, error) {
	d, err := data()
	if err != nil {
		return Needs{}, err
	}
	if o.Standard == "" {
		o.Standard = StandardRDA
	}
	if o.EnergySet == "" {
		o.EnergySet = Energy2023
	}
	if p.Activity == "" {
		p.Activity = LowActive
	}
	if err := checkOptions(&p, o); err != nil {
		return Needs{}, err
	}
	b := builder{d: d, p: &p, o: o}
	b.needs.Person = p
	if b.stage, err = d.stageOf(&p); err != nil {
		return Needs{}, err
	}
	b.needs.Stage = b.stage.Name
	if err := b.body(); err != nil {
		return Needs{}, err
	}
	if b.refuse() {
		return b.needs, nil
	}
	if err := b.energy(); err != nil {
		return Needs{}, err
	}
	if p.AgeMonths < infantBelow {
		err = b.infant()
	} else {
		err = b.person()
	}
	if err != nil {
		return Needs{}, err
	}
	b.describe()
	b.medicines()
	b.supplements()
	b.finish()
	return b.needs, errors.Join(b.refused...)
}

func checkOptions(p *Person, o Options) error {
	switch {
	case !slices.Contains([]Standard{StandardRDA, StandardEAR, StandardBasic}, o.Standard):
		return fmt.Errorf("%w: standard %q", ErrOption, o.Standard)
	case !slices.Contains([]EnergySet{Energy2023, Energy2005, EnergyGuidelines}, o.EnergySet):
		return fmt.Errorf("%w: energy set %q", ErrOption, o.EnergySet)
	case p.AgeMonths < 0 || p.AgeMonths > 12*maxAgeYears+11:
		return fmt.Errorf("%w: age of %d months", ErrStage, p.AgeMonths)
	case !slices.Contains(activities, string(p.Activity)):
		return fmt.Errorf("%w: activity %q", ErrStage, p.Activity)
	case p.AgeMonths < infantBelow && !slices.Contains(feedings, string(p.Feeding)):
		return fmt.Errorf("%w: feeding %q of a child under 12 months", ErrStage, p.Feeding)
	}
	return nil
}

// body settles the height and weight that the requirements use.
func (b *builder) body() error {
	p, s := b.p, &b.state
	s.AgeMonths, s.AgeYears = p.AgeMonths, float64(p.AgeMonths)/12
	if p.YearsOnly {
		s.AgeYears += 0.5
	}
	ref, err := b.d.referenceBody(p.Sex, 12*s.AgeYears)
	if err != nil {
		return err
	}
	s.HeightCm, s.WeightKg = p.HeightCm, p.WeightKg
	if s.HeightCm <= 0 {
		s.HeightCm = ref.HeightCm
	}
	gained := gainedKg(p.State)
	if s.WeightKg > 0 {
		s.NowKg, s.BeforeKg = s.WeightKg, s.WeightKg-gained
	} else {
		s.WeightKg = ref.WeightKg
		s.NowKg, s.BeforeKg = s.WeightKg+gained, s.WeightKg
	}
	s.Sex, s.Activity, s.State = p.Sex, p.Activity, p.State
	s.GivenBody = p.HeightCm > 0 || p.WeightKg > 0
	b.needs.HeightCm, b.needs.WeightKg = s.HeightCm, s.WeightKg
	if p.HeightCm <= 0 || p.WeightKg <= 0 {
		what := fmt.Sprintf("Height and weight, %g cm and %g kg, are those", s.HeightCm, s.WeightKg)
		switch {
		case p.HeightCm > 0:
			what = fmt.Sprintf("Weight, %g kg, is that", s.WeightKg)
		case p.WeightKg > 0:
			what = fmt.Sprintf("Height, %g cm, is that", s.HeightCm)
		}
		b.needs.say(what+" of the reference body of the age.", ref.Source, ref.Verified)
	}
	return nil
}

// energy sets the requirement and the planning band around it.
func (b *builder) energy() error {
	l, notes, err := b.d.eer(b.o.EnergySet, &b.state)
	if err != nil {
		return err
	}
	b.needs.EER = l
	b.needs.Notes = append(b.needs.Notes, notes...)
	floor := bandFloor
	adult := b.p.AgeMonths >= adultFrom && b.p.AgeMonths < olderFrom && b.p.State == NoState
	if b.o.LeanEnergy && adult {
		floor = bandLeanFloor
	}
	need, band := b.need(Energy), fmt.Sprintf("planning band: %.2f to %.2f × the requirement", floor, bandCeiling)
	need.Floor, need.Ceiling, need.Target = l.with(l.Amount*floor, band), l.with(l.Amount*bandCeiling, band), &l
	if b.o.LeanEnergy && !adult {
		b.needs.say("The lean energy floor is for adults of 19 to 64 years, not pregnant or breast-feeding; here the whole requirement stands.",
			"planning rule", "common practice, no source")
	}
	return nil
}

// person sets the needs of everyone from 12 months on.
func (b *builder) person() error {
	if err := b.protein(); err != nil {
		return err
	}
	if b.o.Standard != StandardBasic {
		if err := b.floors(); err != nil {
			return err
		}
		b.ceilings()
		for _, s := range shareNutrients { // saturated fat from two years on
			b.setShare(s.n)
		}
	}
	if err := b.retinol(); err != nil {
		return err
	}
	b.noAddedSugars()
	b.water()
	b.diets()
	b.diabetes()
	b.override()
	b.orders()
	b.fit()
	return nil
}

package nutrients

import "fmt"

// Assumptions on pregnancy where the household gives a trimester only.
const (
	weeksInTrimester2 = 20 // the weeks at which IOM 2005 takes its increments: 8 kcal × 20 + 180 and 8 kcal × 34 + 180
	weeksInTrimester3 = 34

	// Weight gained by a woman of normal weight: 0.5–2 kg in the first
	// trimester (here 1.25), then 0.42 kg a week. IOM, Weight Gain During
	// Pregnancy (2009); from memory.
	gainFirstTrimesterKg = 1.25
	gainKgPerWeek        = 0.42
	firstTrimesterWeeks  = 13
	gainSource           = "IOM, Weight Gain During Pregnancy (2009)"
	gainVerified         = "from memory"
)

// Classes of the body mass index before pregnancy, kg/m²: those of IOM, Weight
// Gain During Pregnancy (2009); from memory.
const (
	bmiUnderweight = 18.5
	bmiOverweight  = 25
	bmiObese       = 30
)

// gestationWeeks returns the week of pregnancy assumed for a state, 0 outside
// the second and third trimester.
func gestationWeeks(s State) float64 {
	return map[State]float64{Pregnant2: weeksInTrimester2, Pregnant3: weeksInTrimester3}[s]
}

// gainedKg returns the weight assumed to be gained since before pregnancy.
func gainedKg(s State) float64 {
	weeks := gestationWeeks(s)
	if weeks == 0 {
		return 0
	}
	return gainFirstTrimesterKg + gainKgPerWeek*(weeks-firstTrimesterWeeks)
}

// nasem2023 returns the estimated energy requirement by the equations of
// NASEM, Dietary Reference Intakes for Energy (2023), in kcal/day:
//
//	EER = c0 + c1·age + c2·height + c3·weight + deposit
//
// with age in years, height in cm and weight in kg; one set of coefficients
// for each sex and activity class, without activity class under three years.
// From the second trimester the equation of pregnancy adds c4·week of
// gestation and a deposit by the BMI class before pregnancy, and takes the
// present weight; lactation adds a fixed amount.
func (d *energyTables) nasem2023(b *bodyState) (Limit, []Note) {
	activity := map[Activity]string{Inactive: "inactive", LowActive: "low_active", Active: "active", VeryActive: "very_active"}[b.Activity]
	if weeks := gestationWeeks(b.State); weeks > 0 {
		return d.pregnancy2023(b, activity, weeks)
	}
	c, l := d.coefficients(setNASEM2023, b.equation(), activity, b)
	l.Kind = "EER"
	l.Amount = c["constant"] + c["age_y"]*b.AgeYears + c["height_cm"]*b.HeightCm + c["weight_kg"]*b.WeightKg + c["deposit"]
	increments, origin := d.coefficients(setNASEM2023, "lactation", activity, b)
	switch b.State {
	case Lactating1:
		return l.plus(increments["exclusive_0_6_months"], origin)
	case Lactating2:
		return l.plus(increments["partial_7_12_months"], origin)
	}
	return l, nil
}

func (d *energyTables) pregnancy2023(b *bodyState, activity string, weeks float64) (Limit, []Note) {
	c, l := d.coefficients(setNASEM2023, "pregnancy_2nd_3rd_trimester", activity, b)
	class := "normal_weight"
	switch index := bmi(b.HeightCm, b.BeforeKg); {
	case index < bmiUnderweight:
		class = "underweight"
	case index >= bmiObese:
		class = "obese"
	case index >= bmiOverweight:
		class = "overweight"
	}
	l.Kind = "EER"
	l.Amount = c["constant"] + c["age_y"]*b.AgeYears + c["height_cm"]*b.HeightCm + c["weight_kg"]*b.NowKg +
		c["gestation_weeks"]*weeks + c["deposit_"+class]
	l.Verified = "from memory: equation of pregnancy"
	text := fmt.Sprintf("Energy is by the equation of pregnancy for week %g, at a weight of %.0f kg now and %.0f kg (%s) before: the household gives the trimester only.",
		weeks, b.NowKg, b.BeforeKg, classText[class])
	return l, []Note{{text, l.Source + "; weight gain: " + gainSource, gainVerified}}
}

var classText = map[string]string{"underweight": "underweight", "normal_weight": "normal weight", "overweight": "overweight", "obese": "obese"}

// plus adds an increment to an energy requirement and carries its mark.
func (l Limit) plus(kcal float64, origin Limit) (Limit, []Note) {
	l.Amount += kcal
	if fromMemory(origin.Verified) && !fromMemory(l.Verified) {
		l.Verified = "from memory: increment"
	}
	if kcal == 0 {
		return l, nil
	}
	return l, []Note{{fmt.Sprintf("Energy includes %g kcal a day for pregnancy or breast-feeding.", kcal), origin.Source, origin.Verified}}
}

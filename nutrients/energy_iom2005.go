package nutrients

// iom2005 returns the estimated energy requirement by the equations of IOM,
// Dietary Reference Intakes for Energy, Carbohydrate, Fiber, Fat … (2002/2005),
// in kcal/day:
//
//	EER = c0 + c1·age + PA·(c2·weight + c3·height) + deposit
//
// with age in years, weight in kg, height in m and the physical activity
// coefficient PA by sex and class; under three years 89·weight − 100 + deposit.
// Pregnancy and lactation add a fixed amount. The equations for adults are
// those of normal weight; the optional ones for a BMI of 25 and more are not
// used.
func (d *energyTables) iom2005(b *bodyState) (Limit, []Note) {
	activity := map[Activity]string{Inactive: "sedentary", LowActive: "low_active", Active: "active", VeryActive: "very_active"}[b.Activity]
	c, l := d.coefficients(setIOM2005, b.equation(), activity, b)
	l.Kind = "EER"
	pa, ok := c["pa"]
	if !ok {
		pa = 1
	}
	l.Amount = c["constant"] + c["age_y"]*b.AgeYears + pa*(c["weight_kg"]*b.WeightKg+c["height_m"]*b.HeightCm/100) + c["deposit"]
	switch b.State {
	case Pregnant2, Pregnant3:
		term := map[State]string{Pregnant2: "second_trimester", Pregnant3: "third_trimester"}[b.State]
		increments, origin := d.coefficients(setIOM2005, "pregnancy", activity, b)
		return l.plus(increments[term], origin)
	case Lactating1, Lactating2:
		term := map[State]string{Lactating1: "first_6_months", Lactating2: "second_6_months"}[b.State]
		increments, origin := d.coefficients(setIOM2005, "lactation", activity, b)
		return l.plus(increments[term], origin)
	}
	return l, nil
}

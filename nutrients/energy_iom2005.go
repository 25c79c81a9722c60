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
	increment, ok := map[State]struct{ equation, term string }{
		Pregnant2: {"pregnancy", "second_trimester"}, Pregnant3: {"pregnancy", "third_trimester"},
		Lactating1: {"lactation", "first_6_months"}, Lactating2: {"lactation", "second_6_months"},
	}[b.State]
	if !ok {
		return l, nil
	}
	increments, origin := d.coefficients(setIOM2005, increment.equation, activity, b)
	return l.plus(increments[increment.term], origin)
}

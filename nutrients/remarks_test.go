package nutrients

import "testing"

// Whoever has an age, a state, a feed or a condition is told what goes with it, from the first
// month of it to the last and nobody else; the ages, amounts and their publications stand in
// data/special.csv: under six and twelve months WHO, the American Academy of Pediatrics and
// PAHO/WHO (2003), under two years the Dietary Guidelines, choking under four the Academy's
// policy, over 50, 65 and 70 the DRI reports and ESPEN.
func TestRemarksByAge(t *testing.T) {
	const never = 1 << 20
	of := func(c Condition) Person { return Person{Conditions: []Condition{c}} }
	noMilk := Person{Allergies: []Allergy{{Allergen: "milk", Level: AllergyTraces}}}
	noSoy := Person{Allergies: []Allergy{{Allergen: "soy"}}}
	kidney := Person{Conditions: []Condition{KidneyDisease}, Orders: Orders{By: "Dr Ardal", On: "2026-06-01", List: []Order{{Of: OrderSodium, High: 2000}}}}
	ages := []int{0, 1, 2, 3, 4, 5, 6, 7, 8, 11, 12, 13, 23, 24, 25, 35, 36, 47, 48, 49, 167, 168, 227, 228, 229, 360, 611, 612, 613, 779, 780, 781, 851, 852, 853, 1100}
	for _, c := range []struct {
		part        string
		with        Person
		from, below int // months; below 0: no end
	}{
		{"formula and nothing else.", Person{}, 0, 6},
		{"No water, juice or other drink.", Person{}, 0, 6},
		{"boiled water of at least 70 °C", Person{Feeding: FormulaFed}, 0, 12},
		{"boiled water of at least 70 °C", Person{Feeding: MixedFed}, 0, 12},
		{"boiled water of at least 70 °C", Person{Feeding: BreastFed}, never, 0},
		{"Ready-to-feed formula is the safer choice", Person{Feeding: FormulaFed}, 0, 3},
		{"Ready-to-feed formula is the safer choice", Person{Feeding: BreastFed}, never, 0},
		{"stands longer than 2 hours", Person{Feeding: FormulaFed}, 0, 12},
		{"never made weaker or stronger", Person{Feeding: FormulaFed}, 0, 12},
		{"advised 10 µg of vitamin D a day", Person{Feeding: BreastFed}, 0, 12},
		{"advised 10 µg of vitamin D a day", Person{Feeding: MixedFed}, 0, 12},
		{"advised 10 µg of vitamin D a day", Person{Feeding: FormulaFed}, never, 0},
		{"Food is pureed, mashed or soft.", Person{}, 6, 12},
		{"At most 120 mL of plain water", Person{}, 6, 12},
		{"No honey, raw or cooked, under 12 months.", Person{}, 0, 12},
		{"No cow's milk as a drink under 12 months", Person{}, 0, 12},
		{"No fruit juice.", Person{}, 6, 12},
		{"No added sugar or salt in food.", Person{}, 6, 12},
		{"No added sugars under two years.", Person{}, 12, 24},
		{"Whole milk, not reduced-fat: 30 % of energy", Person{}, 12, 24},
		{"At most 710 mL of milk a day", Person{}, 12, 24},
		{"Whole milk, not reduced-fat", noSoy, 12, 24},
		{"Whole milk, not reduced-fat", noMilk, never, 0},
		{"At most 710 mL of milk a day", of(Vegan), never, 0},
		{"30 % of energy from fat at least, and none of it from milk.", noMilk, 12, 24},
		{"30 % of energy from fat at least, and none of it from milk.", of(Vegan), 12, 24},
		{"and none of it from milk.", noSoy, never, 0},
		{"and none of it from milk.", of(Lactose), never, 0},
		{"At most 710 mL a day of a drink in the place of milk", noMilk, 12, 24},
		{"in the place of milk", Person{}, never, 0},
		{"At most 120 mL of juice a day.", Person{}, 12, 48},
		{"Nothing to choke on under four years", Person{}, 6, 48},

		{"No liver or liver pâté", Person{State: Pregnant1}, 0, 0},
		{"Fish low in mercury, up to 340 g a week.", Person{State: Pregnant2}, 0, 0},
		{"No king mackerel", Person{State: Pregnant3}, 0, 0},
		{"tuna at most 113 g a week.", Person{State: Pregnant1}, 0, 0},
		{"At most 200 mg of caffeine a day.", Person{State: Pregnant1}, 0, 0},
		{"No alcohol.", Person{State: Pregnant1}, 0, 0},
		{"27 mg of iron a day usually needs a supplement", Person{State: Pregnant3}, 0, 0},
		{"At most 300 mg of caffeine a day.", Person{State: Lactating2}, 0, 0},
		{"fish rules of pregnancy hold while breast-feeding", Person{State: Lactating1}, 0, 0},
		{"caffeine", Person{}, never, 0},
		{"alcohol", Person{State: Lactating1}, never, 0},

		{"kept alike from meal to meal", of(Diabetes2), 12, 0},
		{"A low is treated with 15 g of fast sugar", of(Diabetes1), 12, 0},
		{"A child needs about 0.3 g of fast sugar for each kg", of(Diabetes1), 12, 228},
		{"glucagon, strips", of(Diabetes2Diet), 12, 0},
		{"The plan of the person's own clinician comes first", of(Diabetes2), 12, 0},
		{"fast sugar", Person{}, never, 0},

		{"Thirst is no guide", Person{}, 780, 0},
		{"Light packs that weak hands can open", Person{}, 780, 0},
		{"Vitamin B12 is best from fortified food", Person{}, 612, 0},
		{"Vitamin D: 20 µg a day is much to ask", Person{}, 852, 0},

		{"No meat, poultry, fish or shellfish.", of(Vegetarian), 6, 0},
		{"No meat, poultry, fish or shellfish.", of(Vegan), 6, 12},
		{"No meat, poultry, fish or shellfish.", Person{}, never, 0},
		{"Nothing from animals", of(Vegan), 12, 0},
		{"Nothing from animals", of(Vegetarian), never, 0},
		{"half as much zinc again", of(Vegan), 12, 0},
		{"half as much zinc again", of(Vegetarian), never, 0},
		{"No salt substitute of potassium chloride", kidney, 0, 0},
		{"No salt substitute", of(HeartFailure), never, 0},
		{"Soft or moist food only", of(SoftFood), 0, 0},
		{"No wheat, barley, rye", of(Coeliac), 0, 0},
		{"Oats only where the label", of(Coeliac), 0, 0},
		{"not shared with gluten", of(Coeliac), 0, 0},
		{"At most 12 g of lactose a day", of(Lactose), 0, 0},
		{"Read every label", Person{Allergies: []Allergy{{Allergen: "egg"}}}, 0, 0},
		{"Read every label", Person{}, never, 0},
	} {
		for _, months := range ages {
			p := c.with
			p.AgeMonths, p.Sex, p.Count = months, Female, 1
			switch {
			case p.State != NoState && (months < 168 || months >= 612): // the tables' 14 to 50 years
				continue
			case months >= infantBelow:
				p.Feeding = ""
			case p.Feeding == "":
				p.Feeding = BreastFed
			}
			needs := mustFor(t, p, Options{})
			if got, want := noted(&needs, c.part), months >= c.from && (c.below == 0 || months < c.below); got != want {
				t.Errorf("%d months, %s %s %v: told %q %v, want %v", months, p.State, p.Feeding, p.Conditions, c.part, got, want)
			}
		}
	}
}

// Of an allergen that the program does not know nothing is said, and of the next one as ever.
func TestRemarkOfAnUnknownAllergen(t *testing.T) {
	needs := mustFor(t, Person{AgeMonths: 360, Sex: Male, Allergies: []Allergy{{Allergen: "mustard"}, {Allergen: "egg"}}}, Options{})
	if noted(&needs, "mustard") || !noted(&needs, "No egg, nor food whose label says that it may contain it") {
		t.Errorf("%+v", needs.Notes)
	}
}

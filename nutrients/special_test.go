package nutrients

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"rationwright/nutrients/table"
)

func noted(n *Needs, part string) bool {
	return slices.ContainsFunc(n.Notes, func(note Note) bool { return strings.Contains(note.Text, part) })
}

// Without a weight the feed is never less than the planning volume of the age
// nor than by weight for a child of median weight, which the file gives from
// memory: so it is compared with what the same child gets with that weight.
func TestInfantFeedWithoutWeight(t *testing.T) {
	planning := []float64{450, 600, 750, 750, 900, 900} // WHO counselling table, from memory
	d := mustData(t)
	for _, sex := range []Sex{Female, Male} {
		for months, least := range planning {
			p := Person{AgeMonths: months, Sex: sex, Feeding: FormulaFed}
			without := mustFor(t, p, Options{}).Feed.FormulaML
			p.WeightKg = d.medianWeight(sex, float64(months)+0.5).Value
			weighed := mustFor(t, p, Options{}).Feed.FormulaML
			if without.Amount < least || without.Amount < weighed.Amount || without.Amount > 946 || without.Source == "" {
				t.Errorf("%d months, %s: %g mL, want at least %g and %g, at most 946", months, sex, without.Amount, least, weighed.Amount)
			}
		}
	}
	// The straight line between two rows of the file: 3.3 and 4.5 kg.
	if got := d.medianWeight(Male, 0.5).Value; got != 3.9 {
		t.Errorf("a boy of half a month: %g kg, want 3.9", got)
	}
	newborn := mustFor(t, Person{AgeMonths: 0, Sex: Male, Feeding: FormulaFed}, Options{}).Feed
	if newborn.FormulaML.Amount < 150*3.9 || newborn.FormulaML.Amount > 165*3.9 || newborn.FeedsLow != 6 || newborn.FeedsHigh != 8 {
		t.Errorf("a newborn: %+v, want 150 to 165 mL/kg in 6 to 8 feeds (AAP)", newborn)
	}
}

// The milk of infants. Volumes by weight lie between the two published rules;
// those by age without a weight are from memory and only held to the maximum.
func TestInfantFeed(t *testing.T) {
	for _, c := range []struct {
		p         Person
		low, high float64 // formula, mL/day
		source    string
	}{
		{Person{AgeMonths: 2, WeightKg: 5}, 150 * 5, 165 * 5, "WHO 150 mL/kg, AAP 75 mL per lb (165 mL/kg)"},
		{Person{AgeMonths: 0, WeightKg: 3}, 150 * 3, 165 * 3, "WHO 150 mL/kg, AAP 75 mL per lb (165 mL/kg)"},
		{Person{AgeMonths: 5, WeightKg: 7.5}, 946, 946, "AAP: 32 US fl oz a day at most"},
		{Person{AgeMonths: 0}, 1, 946, "AAP: 32 US fl oz a day at most"},
		{Person{AgeMonths: 4}, 1, 946, "AAP: 32 US fl oz a day at most"},
		{Person{AgeMonths: 7}, 720, 960, "24-32 US fl oz at 6 to 9 months"},
		{Person{AgeMonths: 7, WeightKg: 9}, 720, 960, "24-32 US fl oz at 6 to 9 months"},
	} {
		c.p.Sex, c.p.Feeding = Female, FormulaFed
		needs := mustFor(t, c.p, Options{})
		got := needs.Feed.FormulaML.Amount
		if got < c.low || got > c.high || needs.Feed.HumanMilkML != nil {
			t.Errorf("%d months, %g kg: %g mL, want %g to %g (%s)", c.p.AgeMonths, c.p.WeightKg, got, c.low, c.high, c.source)
		}
		mixed := c.p
		mixed.Feeding = MixedFed
		if half := mustFor(t, mixed, Options{}).Feed; math.Abs(half.FormulaML.Amount-got/2) > 1e-9 || half.HumanMilkML == nil {
			t.Errorf("%d months: %g mL of formula in mixed feeding, want half of %g", c.p.AgeMonths, half.FormulaML.Amount, got)
		}
	}
}

// Average breast milk beside food gives 400 kcal a day: 600 in total less 200
// from food at 6–8 months, 700 less 300 at 9–11 (WHO/PAHO, PMC6860809 table 5).
func TestHumanMilkBesideFood(t *testing.T) {
	for _, months := range []int{6, 8, 9, 11} {
		needs := mustFor(t, Person{AgeMonths: months, Sex: Male, Feeding: BreastFed}, Options{})
		kcal := needs.Feed.HumanMilkML.Amount * 30.8 / 29.5735 / 100 * 70 // USDA SR28 01107: 70 kcal per 100 g, 30.8 g per fl oz
		if math.Abs(kcal-400) > 1e-6 {
			t.Errorf("%d months: %g kcal of breast milk, want 400", months, kcal)
		}
	}
}

// From six months energy, protein 11 g (or 1.2 g/kg) and iron 11 mg are
// enforced (IOM DRI 2002/2005 and 2001), in every standard, and nothing else.
func TestInfantNeeds(t *testing.T) {
	for _, standard := range allStandards {
		needs := mustFor(t, Person{AgeMonths: 9, Sex: Female, Feeding: FormulaFed, Conditions: []Condition{Vegan, LowSodium}}, Options{Standard: standard})
		if floorOf(&needs, Iron) != 11 || floorOf(&needs, Protein) != 11 || floorOf(&needs, Energy) != needs.EER.Amount {
			t.Errorf("%s: iron %g, protein %g, energy %g of %g", standard, floorOf(&needs, Iron), floorOf(&needs, Protein), floorOf(&needs, Energy), needs.EER.Amount)
		}
		heavy := mustFor(t, Person{AgeMonths: 9, Sex: Female, WeightKg: 12, Feeding: BreastFed}, Options{Standard: standard})
		if got := floorOf(&heavy, Protein); math.Abs(got-14.4) > 1e-9 {
			t.Errorf("%s: protein %g g at 12 kg, want 14.4 (1.2 g/kg)", standard, got)
		}
	}
}

// A small infant's milk nearly fills the energy band; there must be room left
// for food with iron.
func TestSmallInfantHasRoomForFood(t *testing.T) {
	needs := mustFor(t, Person{AgeMonths: 6, Sex: Female, HeightCm: 58, WeightKg: 4.5, Feeding: FormulaFed}, Options{})
	milk := needs.Feed.FormulaML.Amount / 100 * 67 // kcal, at the label standard of 20 kcal per US fl oz
	if got := ceilingOf(&needs, Energy); got < milk+200 {
		t.Errorf("energy ceiling %g kcal at %g kcal of milk, want 200 kcal of room (WHO/PAHO)", got, milk)
	}
}

func TestRefusals(t *testing.T) {
	infant := Person{AgeMonths: 4, Sex: Male, Feeding: FormulaFed}
	for _, c := range []struct {
		name string
		p    Person
		want string // in the reason; "" when planned
	}{
		{"kidney disease", Person{AgeMonths: 600, Sex: Male, Conditions: []Condition{KidneyDisease}}, "kidney"},
		{"heart failure", Person{AgeMonths: 900, Sex: Female, Conditions: []Condition{LowSodium, HeartFailure}}, "heart failure"},
		{"dysphagia", Person{AgeMonths: 900, Sex: Female, Conditions: []Condition{Dysphagia}}, "dysphagia"},
		{"inborn error", Person{AgeMonths: 100, Sex: Female, Conditions: []Condition{InbornError}}, "inborn error"},
		{"tube feeding", Person{AgeMonths: 100, Sex: Female, Conditions: []Condition{TubeFeeding}}, "tube feeding"},
		{"inborn error of an infant", Person{AgeMonths: 1, Sex: Female, Feeding: BreastFed, Conditions: []Condition{InbornError}}, "inborn error"},
		{"milk allergy on formula", with(infant, "milk"), "hydrolysed"},
		{"soy allergy on formula", with(infant, "soy"), "soy"},
		{"egg allergy on formula", with(infant, "egg"), ""},
		{"milk allergy at the breast", with(Person{AgeMonths: 4, Sex: Male, Feeding: BreastFed}, "milk"), ""},
		{"milk allergy of a toddler", with(Person{AgeMonths: 14, Sex: Male}, "milk"), ""},
		{"diabetes of an infant", Person{AgeMonths: 8, Sex: Male, Feeding: BreastFed, Conditions: []Condition{Diabetes1}}, "diabetes"},
		{"diabetes of an adult", Person{AgeMonths: 480, Sex: Male, Conditions: []Condition{Diabetes1}}, ""},
	} {
		needs := mustFor(t, c.p, Options{})
		switch {
		case c.want == "" && needs.Refused != nil:
			t.Errorf("%s: refused: %s", c.name, needs.Refused.Reason)
		case c.want != "" && (needs.Refused == nil || !strings.Contains(needs.Refused.Reason, c.want)):
			t.Errorf("%s: %+v, want a refusal that names %q", c.name, needs.Refused, c.want)
		}
	}
}

func with(p Person, allergen string) Person {
	p.Allergies = []Allergy{{Allergen: allergen}}
	return p
}

func TestDiabetes(t *testing.T) {
	const rda = "carbohydrate RDA 130 g, in pregnancy 175 g, in lactation 210 g (IOM DRI 2002/2005)"
	for _, c := range []struct {
		p     Person
		least float64
	}{
		{Person{AgeMonths: 600, Sex: Male, Conditions: []Condition{Diabetes2}}, 165}, // adults: 3 meals of 45 g and 2 snacks of 15 g, over the RDA
		{Person{AgeMonths: 300, Sex: Female, Conditions: []Condition{Diabetes1}}, 165},
		{Person{AgeMonths: 300, Sex: Female, State: Pregnant3, Conditions: []Condition{DiabetesPregnancy}}, 175},
		{Person{AgeMonths: 300, Sex: Female, State: Lactating1, Conditions: []Condition{Diabetes2Diet}}, 210},
		{Person{AgeMonths: 120, Sex: Male, Conditions: []Condition{Diabetes1}}, 130},
		{Person{AgeMonths: 24, Sex: Male, Conditions: []Condition{Diabetes1}}, 130},
	} {
		for _, standard := range allStandards {
			needs := mustFor(t, c.p, Options{Standard: standard})
			if got := floorOf(&needs, Carbohydrate); got != c.least {
				t.Errorf("%s, %s: at least %g g of carbohydrate, want %g (%s)", needs.Stage, standard, got, c.least, rda)
			}
			low, high := shareOf(&needs, Carbohydrate)
			// The range of meals comes first where it gives less than 45 % of energy.
			most := ceilingOf(&needs, Carbohydrate)
			if want := 55.0; low != 45 && !(most > 0 && 4*most/needs.EER.Amount < 0.51) || (high != want && needs.EER.Amount > 1100) {
				t.Errorf("%s, %s: carbohydrate %g to %g %% of energy, want 45 to %g", needs.Stage, standard, low, high, want)
			}
			if got := ceilingOf(&needs, Sodium); got > 2300 {
				t.Errorf("%s, %s: sodium up to %g mg, want at most 2300", needs.Stage, standard, got)
			}
			checkMealRange(t, &needs)
			if needs.Lows == nil || needs.Lows.DoseG != 15 || needs.Lows.For(14) < 2 {
				t.Errorf("%s: no doses of quick sugar of 15 g (American Diabetes Association, 15-15 rule)", needs.Stage)
			}
			if !noted(&needs, "Days of illness: about 50 g of carbohydrate every 3 to 4 hours, 150 to 200 g a day") {
				t.Errorf("%s: nothing on days of illness (issuhub.com clinical nutrition manual: 150-200 g a day)", needs.Stage)
			}
			plain := c.p
			plain.Conditions = nil
			other := mustFor(t, plain, Options{Standard: standard})
			if floorOf(&needs, Fibre) < floorOf(&other, Fibre) || floorOf(&needs, Fibre) == 0 {
				t.Errorf("%s, %s: fibre %g g, without diabetes %g", needs.Stage, standard, floorOf(&needs, Fibre), floorOf(&other, Fibre))
			}
		}
	}
}

// checkMealRange wants the usual counting range: 45 to 60 g a meal
// (paperzz.com 8572655), up to 75 g for men and active people and snacks of 15
// to 30 g (from memory, as in the table), in force on the day of adults only.
// That of pregnancy is from memory and only compared with itself here.
func checkMealRange(t *testing.T, needs *Needs) {
	t.Helper()
	p, m := &needs.Person, needs.Meals
	if m == nil || m.Enforced {
		t.Fatalf("%s: meal band %+v", needs.Stage, m)
	}
	if p.Has(DiabetesPregnancy) {
		if floorOf(needs, Carbohydrate) < 175 || ceilingOf(needs, Carbohydrate) > 210+1e-9 || m.Snacks != 3 {
			t.Errorf("%s: %g to %g g a day, want 175 (IOM DRI 2002/2005) to 3 × 40 + 3 × 30 g", needs.Stage, floorOf(needs, Carbohydrate), ceilingOf(needs, Carbohydrate))
		}
		return
	}
	most := 60.0
	if p.Sex == Male && p.AgeMonths >= 12*19 {
		most = 75
	}
	if p.AgeMonths >= 12*19 && (m.Low.Amount != 45 || m.High.Amount != most) {
		t.Errorf("%s: %g to %g g a meal, want 45 to %g", needs.Stage, m.Low.Amount, m.High.Amount, most)
	}
	switch day := ceilingOf(needs, Carbohydrate); {
	case p.AgeMonths < 12*19:
		if day == day && day < 1e6 {
			t.Errorf("%s: a child is held to %g g", needs.Stage, day)
		}
	case day > 3*most+2*30+1e-9:
		t.Errorf("%s: up to %g g a day, want 3 × %g + 2 × 30 g", needs.Stage, day, most)
	}
}

// 14 g of fibre per 1000 kcal (IOM DRI 2002/2005, ADA), where that is more than
// the AI of the age, and the AI where it is not.
func TestFibreOfDiabetics(t *testing.T) {
	woman := mustFor(t, Person{AgeMonths: 60 * 12, Sex: Female, Conditions: []Condition{Diabetes2}}, Options{})
	if got, want := floorOf(&woman, Fibre), 14*woman.EER.Amount/1000; math.Abs(got-want) > 1e-9 || got <= 21 {
		t.Errorf("a woman of 60: %g g, want 14 g per 1000 kcal, %g, over the AI of 21", got, want)
	}
	small := mustFor(t, Person{AgeMonths: 300, Sex: Female, HeightCm: 150, WeightKg: 40, Activity: Inactive, Conditions: []Condition{Diabetes1}}, Options{})
	if got := floorOf(&small, Fibre); got != 25 {
		t.Errorf("a small woman of 25 and %.0f kcal: %g g, want the AI of 25", small.EER.Amount, got)
	}
}

// Breast milk beside food: (600 − 200) kcal at 70 kcal per 100 g (USDA 01107)
// and 30.8 g per fluid ounce of 29.5735 mL is 548.7 mL; from nine months
// (700 − 300) the same.
func TestBreastMilkBesideFood(t *testing.T) {
	for _, months := range []int{6, 8, 9, 11} {
		needs := mustFor(t, Person{AgeMonths: months, Sex: Female, Feeding: BreastFed}, Options{})
		if got := needs.Feed.HumanMilkML.Amount; math.Abs(got-548.67) > 0.05 {
			t.Errorf("%d months: %.2f mL, want 548.67", months, got)
		}
	}
	// 548.67 mL × 1.04147 g/mL × 70 kcal / 100 g are the 400 kcal again; with
	// 200 kcal of food the ceiling of a child of 5 kg is raised to 600 kcal.
	small := mustFor(t, Person{AgeMonths: 6, Sex: Female, Feeding: BreastFed, WeightKg: 5}, Options{})
	if got := ceilingOf(&small, Energy); math.Abs(got-600) > 0.01 {
		t.Errorf("at most %g kcal, want 600", got)
	}
}

// A band that the household sets is three meals and two snacks a day and stands
// in place of the shares of carbohydrate and fat; the other shares stay.
func TestMealBand(t *testing.T) {
	p := Person{AgeMonths: 660, Sex: Male, Conditions: []Condition{Diabetes2}, Rules: []Rule{{Kind: RuleCarbohydrate, Low: 50, High: 65, Text: "carbohydrate 50-65 g/meal"}}}
	needs := mustFor(t, p, Options{})
	if low, high := floorOf(&needs, Carbohydrate), ceilingOf(&needs, Carbohydrate); low != 180 || high != 225 {
		t.Errorf("%g to %g g a day, want 180 to 225: 3 × 50 to 65 and 2 × 15", low, high)
	}
	if !needs.Meals.Enforced || needs.Meals.Low.Amount != 50 || needs.Meals.High.Amount != 65 {
		t.Errorf("meal band %+v", needs.Meals)
	}
	var have []string
	for _, s := range needs.Shares {
		have = append(have, s.Nutrient.Name())
	}
	if got := strings.Join(have, " "); got != "protein saturated_fat added_sugars" {
		t.Errorf("shares %s, want those of carbohydrate and fat gone alone", got)
	}
	pregnant := Person{AgeMonths: 360, Sex: Female, State: Pregnant2, Conditions: []Condition{DiabetesPregnancy}, Rules: []Rule{{Kind: RuleCarbohydrate, Low: 45, High: 60}}}
	needs = mustFor(t, pregnant, Options{})
	if low := floorOf(&needs, Carbohydrate); low != 175 {
		t.Errorf("pregnant: at least %g g, want 175 (IOM DRI 2002/2005)", low)
	}
}

func TestVegetarianIron(t *testing.T) {
	for _, c := range []struct {
		p    Person
		want float64
	}{
		{Person{AgeMonths: 360, Sex: Female}, 18 * 1.8},
		{Person{AgeMonths: 600, Sex: Male}, 8 * 1.8},
		{Person{AgeMonths: 360, Sex: Female, State: Pregnant2}, 0.9 * 45}, // 27 × 1.8 is over the UL of 45 mg
		{Person{AgeMonths: 30, Sex: Female}, 7 * 1.8},
	} {
		for _, diet := range []Condition{Vegetarian, Vegan} {
			c.p.Conditions = []Condition{diet}
			needs := mustFor(t, c.p, Options{})
			need := find(&needs, Iron)
			if math.Abs(need.Floor.Amount-c.want) > 1e-9 || need.Floor.Note == "" {
				t.Errorf("%s, %s: iron %g mg (%s), want %g (IOM DRI 2001: × 1.8, UL 45 mg)", needs.Stage, diet, need.Floor.Amount, need.Floor.Note, c.want)
			}
		}
	}
}

func TestLowSodium(t *testing.T) {
	const who = "WHO, sodium intake for adults and children (2012): 2000 mg"
	adult := Person{AgeMonths: 600, Sex: Male, Conditions: []Condition{LowSodium}}
	needs := mustFor(t, adult, Options{})
	if ceilingOf(&needs, Sodium) != 2000 || floorOf(&needs, Sodium) != 0 {
		t.Errorf("sodium %g to %g, want no floor and 2000 (%s)", floorOf(&needs, Sodium), ceilingOf(&needs, Sodium), who)
	}
	child := mustFor(t, Person{AgeMonths: 30, Sex: Male, Conditions: []Condition{LowSodium}}, Options{})
	if got := ceilingOf(&child, Sodium); got != 1200 {
		t.Errorf("sodium of a child of 2: %g, want the CDRR of 1200 (%s)", got, sodium19)
	}
	adult.Rules = []Rule{{Kind: RuleCeiling, Nutrient: Sodium, Low: 1500}}
	if needs := mustFor(t, adult, Options{}); ceilingOf(&needs, Sodium) != 1500 {
		t.Errorf("sodium with a rule: %g, want the rule's 1500", ceilingOf(&needs, Sodium))
	}
}

// Who has diabetes keeps to 2300 mg of sodium and a child to the lower figure of its age, in
// every standard, also in that of the fewest needs, which asks nobody else for it; the
// low-sodium diet to 2000 mg (WHO 2012) or the same figures of children.
func TestSodiumByAge(t *testing.T) {
	for _, c := range []struct {
		years             int
		diabetes, lessens float64 // mg
	}{
		{1, 1200, 1200}, {3, 1200, 1200}, {4, 1500, 1500}, {8, 1500, 1500}, {9, 1800, 1800}, {13, 1800, 1800}, {14, 2300, 2000}, {40, 2300, 2000}, {80, 2300, 2000},
	} {
		for _, sex := range []Sex{Female, Male} {
			for _, standard := range allStandards {
				p := Person{AgeMonths: 12 * c.years, Sex: sex}
				for _, of := range []struct {
					what Condition
					want float64
				}{{Diabetes1, c.diabetes}, {Diabetes2, c.diabetes}, {Diabetes2Diet, c.diabetes}, {LowSodium, c.lessens}} {
					p.Conditions = []Condition{of.what}
					needs := mustFor(t, p, Options{Standard: standard})
					if got := ceilingOf(&needs, Sodium); got != of.want {
						t.Errorf("%s of %d years, %s, %s: sodium up to %g mg, want %g (CDRR: %s)", sex, c.years, of.what, standard, got, of.want, sodium19)
					}
				}
			}
		}
	}
	for _, state := range []State{Pregnant2, Lactating1} {
		needs := mustFor(t, Person{AgeMonths: 300, Sex: Female, State: state, Conditions: []Condition{Diabetes1}}, Options{Standard: StandardBasic})
		if got := ceilingOf(&needs, Sodium); got != 2300 {
			t.Errorf("%s: sodium up to %g mg, want 2300 (%s)", state, got, sodium19)
		}
	}
}

func TestOlderAdultProtein(t *testing.T) {
	const expert = "PROT-AGE (2013), ESPEN (2014): 1.0 g/kg at 65 and over"
	for _, c := range []struct {
		months int
		kg     float64
		want   float64
	}{{780, 70, 70}, {779, 70, 56}, {980, 0, 57}, {980, 40, 46}} {
		p := Person{AgeMonths: c.months, Sex: Female, WeightKg: c.kg}
		needs := mustFor(t, p, Options{})
		if got := floorOf(&needs, Protein); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%d months, %g kg: %g g, want %g (%s; else the larger of 46 g and 0.8 g/kg, IOM DRI 2002/2005)", c.months, c.kg, got, c.want, expert)
		}
	}
}

// Pregnancy: 1.1 g/kg or 71 g of protein, lactation 1.3 g/kg or 71 g; the g/kg
// values are from memory in the tables, the g/day are published.
func TestProteinOfPregnancy(t *testing.T) {
	needs := mustFor(t, Person{AgeMonths: 360, Sex: Female, State: Pregnant1}, Options{})
	if got := floorOf(&needs, Protein); got != 71 {
		t.Errorf("%g g at the reference weight, want 71 (%s)", got, perKg2005)
	}
	heavy := mustFor(t, Person{AgeMonths: 360, Sex: Female, State: Pregnant3, WeightKg: 90}, Options{})
	perKg, ok := mustData(t).find(stage{Name: heavy.Stage}, "protein_per_kg", "RDA")
	if got := find(&heavy, Protein).Floor; !ok || got.Amount <= 71 || math.Abs(got.Amount-90*perKg.Value) > 1e-9 || !fromMemory(got.Verified) {
		t.Errorf("at 90 kg now: %+v, want %g g for each of them, marked from memory", got, perKg.Value)
	}
}

// A small child's RDA of carbohydrate is more than the AMDR leaves room for.
func TestSmallChildCarbohydrateFits(t *testing.T) {
	needs := mustFor(t, Person{AgeMonths: 12, Sex: Female, HeightCm: 72, WeightKg: 8}, Options{})
	floor := find(&needs, Carbohydrate).Floor
	if share := floor.Amount * 4 / needs.EER.Amount; share > 0.65 || !strings.Contains(floor.Note, "lowered from 130 g") {
		t.Errorf("%g g is %.0f %% of %.0f kcal (%s), want under 65 %%", floor.Amount, 100*share, needs.EER.Amount, floor.Note)
	}
}

func TestRulesStandBesideAndLiftNoSafety(t *testing.T) {
	woman := Person{AgeMonths: 360, Sex: Female}
	apply := func(standard Standard, p Person, rules ...string) Needs {
		t.Helper()
		for _, text := range rules {
			rule, fix, err := ParseRule(text)
			if err != nil {
				t.Fatalf("%q: %v; %s", text, err, fix)
			}
			p.Rules = append(p.Rules, rule)
		}
		return mustFor(t, p, Options{Standard: standard})
	}
	for _, c := range []struct {
		name           string
		standard       Standard
		p              Person
		rules          []string
		n              Nutrient
		floor, ceiling float64 // 0: none
		note           string
	}{
		{"a higher floor", "", woman, []string{"floor iron 30 mg"}, Iron, 30, 45, "in place of the floor of 18 mg (RDA)"},
		{"a lower floor", "", woman, []string{"floor iron 10 mg"}, Iron, 10, 45, "in place of the floor of 18 mg (RDA)"},
		{"a ceiling under the floor", "", woman, []string{"ceiling vitamin k 60 µg"}, VitaminK, 54, 60, "lowers the floor of 90 µg (AI)"},
		{"a ceiling in place of the CDRR", "", woman, []string{"ceiling sodium 3000 mg"}, Sodium, 1500, 3000, "in place of the ceiling of 2300 mg (CDRR)"},
		{"floor and ceiling", "", woman, []string{"floor potassium 3000 mg", "ceiling potassium 3100 mg"}, Potassium, 3000, 3100, ""},
		{"sugar for a toddler", "", Person{AgeMonths: 18, Sex: Male}, []string{"ceiling added sugars 30 g"}, AddedSugars, 0, 0, "no added sugars under 24 months"},
	} {
		needs := apply(c.standard, c.p, c.rules...)
		floor, ceiling := floorOf(&needs, c.n), ceilingOf(&needs, c.n)
		if math.IsInf(ceiling, 1) {
			ceiling = 0
		}
		if math.Abs(floor-c.floor) > 1e-9 || math.Abs(ceiling-c.ceiling) > 1e-9 || !noted(&needs, c.note) {
			t.Errorf("%s: %g to %g, want %g to %g and a note %q in %+v", c.name, floor, ceiling, c.floor, c.ceiling, c.note, needs.Notes)
		}
	}
	energy := apply("", woman, "floor energy 3000 kcal")
	if floorOf(&energy, Energy) != 3000 || math.Abs(ceilingOf(&energy, Energy)-3300) > 1e-9 {
		t.Errorf("energy %g to %g, want 3000 to 3300", floorOf(&energy, Energy), ceilingOf(&energy, Energy))
	}
	lowCarb := apply("", woman, "ceiling carbohydrate 140 g")
	if low, high := shareOf(&lowCarb, Fat); low != 0 || high != 100 {
		t.Errorf("fat %g to %g %% with little carbohydrate, want no share", low, high)
	}
	if low, _ := shareOf(&lowCarb, Carbohydrate); low != 0 {
		t.Errorf("carbohydrate at least %g %% against a ceiling of 140 g", low)
	}
}

// A floor or ceiling that a published requirement overrides is refused with the
// reason, in the file and by every standard.
func TestRulesThatCannotBeObeyed(t *testing.T) {
	for _, c := range []struct {
		standard   Standard
		row, rule  string
		part, says string
	}{
		{"", `Aud,30,f,,,,,floor iron 60 mg,,`, "floor iron 60 mg", "40.5 mg", "ceiling of 45 mg (UL"},
		{StandardBasic, `Aud,30,f,,,,,floor zinc 100 mg,,`, "floor zinc 100 mg", "36 mg", "ceiling of 40 mg (UL"},
		{"", `Aud,30,f,,,,,ceiling iron 60 mg,,`, "ceiling iron 60 mg", "upper level of 45 mg", "IOM"},
		{"", `Aud,30,f,,,,,ceiling retinol 9000 µg,,`, "ceiling retinol 9000 µg", "upper level of 3000", "IOM"},
		{"", `Aud,30,f,,,,,floor protein 20 g,,`, "floor protein 20 g", "46 g", "orders"},
		{"", `Aud,30,f,,,,,ceiling protein 30 g,,`, "ceiling protein 30 g", "46 g", "orders"},
		{"", `Aud,30,f,,,,,ceiling energy 1200 kcal,,`, "ceiling energy 1200 kcal", "needs", "orders"},
		{"", `Aud,30,f,,,,,floor protein 900 g,,`, "floor protein 900 g", "the whole energy", "another amount"},
	} {
		_, err := readOne(t, c.row)
		var faults *table.Errors
		if !errors.As(err, &faults) || len(faults.List) != 1 || faults.List[0].Field != "rules" || faults.List[0].Value != c.rule || !strings.Contains(err.Error(), c.part) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want one fault of the rule with %q and %q", c.rule, err, c.part, c.says)
		}
		rule, _, _ := ParseRule(c.rule)
		if _, err := For(Person{AgeMonths: 360, Sex: Female, Rules: []Rule{rule}}, Options{Standard: c.standard}); !errors.Is(err, ErrRule) {
			t.Errorf("%s, %s: %v, want ErrRule", c.rule, c.standard, err)
		}
	}
	infant := Person{AgeMonths: 8, Sex: Male, Feeding: FormulaFed, Rules: []Rule{{Kind: RuleFloor, Nutrient: Iron, Low: 30}}}
	if _, err := For(infant, Options{}); !errors.Is(err, ErrRule) {
		t.Errorf("a rule for an infant: %v", err)
	}
}

// Everyone's rule set says in words what they must not eat.
func TestRemarks(t *testing.T) {
	for _, c := range []struct {
		p    Person
		want []string
		not  []string
	}{
		{Person{AgeMonths: 3, Sex: Male, Feeding: FormulaFed}, []string{"nothing else", "No water", "at least 70 °C", "No honey"}, []string{"pureed", "vitamin D a day"}},
		{Person{AgeMonths: 8, Sex: Male, Feeding: BreastFed}, []string{"No honey", "No cow's milk", "pureed", "choke"}, []string{"nothing else", "70 °C"}},
		{Person{AgeMonths: 20, Sex: Male}, []string{"No added sugars", "Whole milk", "120 mL of juice", "choke"}, []string{"honey"}},
		{Person{AgeMonths: 50, Sex: Male}, nil, []string{"choke", "juice"}},
		{Person{AgeMonths: 360, Sex: Female, State: Pregnant1}, []string{"No liver", "up to 340 g", "113 g"}, []string{"breast-feeding."}},
		{Person{AgeMonths: 360, Sex: Female, State: Lactating1}, []string{"fish rules"}, []string{"No liver"}},
		{Person{AgeMonths: 900, Sex: Female, Conditions: []Condition{SoftFood, Coeliac, Lactose}}, []string{"Soft or moist", "barley", "12 g of lactose", "Thirst", "B12"}, nil},
		{Person{AgeMonths: 360, Sex: Male, Allergies: []Allergy{{"peanut", AllergyHousehold}, {"milk", AllergyStrict}, {"soy", AllergyTraces}}}, []string{"No peanut in the household", "No milk, nor food whose label", "Spoons", "traces of it is allowed, on a clinician's word", "Read every label"}, nil},
		{Person{AgeMonths: 360, Sex: Male, Conditions: []Condition{Vegan}}, []string{"zinc"}, nil},
	} {
		needs := mustFor(t, c.p, Options{})
		for _, part := range c.want {
			if !noted(&needs, part) {
				t.Errorf("%d months, %v: no line with %q in %+v", c.p.AgeMonths, c.p.Conditions, part, needs.Notes)
			}
		}
		for _, part := range c.not {
			if noted(&needs, part) {
				t.Errorf("%d months, %v: a line with %q", c.p.AgeMonths, c.p.Conditions, part)
			}
		}
	}
}

// A child with diabetes is not shown the counting range of adults (45 to 75 g a meal): its
// own is its share of energy, 45 to 55 % (lower half of the AMDR, IOM 2002/2005), and 130 g
// a day at least (RDA), less two snacks of 15 g, over three meals. It is in
// force for nobody: the clinic's counts are orders.
func TestChildsMealsFollowItsEnergy(t *testing.T) {
	for _, c := range []struct {
		years int
		sex   Sex
	}{{3, Female}, {8, Male}, {16, Male}} {
		needs := mustFor(t, Person{Name: "Tor", AgeMonths: 12 * c.years, Sex: c.sex, Activity: LowActive, Conditions: []Condition{Diabetes1}, Count: 1}, Options{})
		kcal := needs.EER.Amount
		low := (math.Max(0.45*kcal/4, 130) - 30) / 3
		high := (math.Max(0.55*kcal/4, 130) - 30) / 3
		if 0.55*kcal/4*0.9 < 130 { // then the share goes up to the AMDR's 65 %
			high = (0.65*kcal/4 - 30) / 3
		}
		m := needs.Meals
		if m == nil || m.Enforced || math.Abs(m.Low.Amount-low) > 0.51 || math.Abs(m.High.Amount-high) > 0.51 {
			t.Errorf("%d years, %.0f kcal: meals %+v, want %.0f to %.0f g, shown", c.years, kcal, m, low, high)
		}
	}
}

// Over 70 years 20 µg of vitamin D are asked (IOM 2011), which the sheet says a tablet may
// give; not of who takes one already, and not of who has kidney disease, where a clinician
// chooses the form.
func TestElderIsAskedAboutVitaminD(t *testing.T) {
	ordered := Orders{By: "Dr Ardal", On: "2026-06-01", List: []Order{{Of: OrderSodium, High: 2000}}}
	for _, c := range []struct {
		p    Person
		want bool
	}{
		{Person{AgeMonths: 82 * 12, Sex: Female}, true},
		{Person{AgeMonths: 82 * 12, Sex: Female, Supplements: []string{"vitamin D 20 ug"}}, false},
		{Person{AgeMonths: 60 * 12, Sex: Female}, false},
		{Person{AgeMonths: 82 * 12, Sex: Female, Conditions: []Condition{KidneyDisease}, Orders: ordered}, false},
	} {
		needs := mustFor(t, c.p, Options{Start: "2026-11-25"})
		if got := noted(&needs, "Vitamin D: 20 µg a day is much to ask of shelf food"); got != c.want {
			t.Errorf("%d months, %v %v: told %v, want %v", c.p.AgeMonths, c.p.Conditions, c.p.Supplements, got, c.want)
		}
	}
}

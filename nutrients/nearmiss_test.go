package nutrients

import (
	"math"
	"strings"
	"testing"
)

// The class of weight before pregnancy changes at a BMI of 18.5, 25 and 30 (IOM,
// Weight Gain During Pregnancy, 2009), each belonging to the class above. The
// deposits are those of the 2023 equation, from memory: 300, 200, 150, −50 kcal.
// At 165 cm the classes change at 50.37, 68.06 and 81.68 kg; the weight now is
// 10.07 kg more in the third trimester (1.25 kg and 0.42 kg for each of the 21
// weeks from 13 to 34), of which each kilogram adds 10.20 kcal.
func TestClassesOfWeightBeforePregnancy(t *testing.T) {
	for _, c := range []struct{ bmi, step float64 }{{18.5, 200 - 300}, {25, 150 - 200}, {30, -50 - 150}} {
		limit := c.bmi*1.65*1.65 + 1.25 + 0.42*21
		at := func(kg float64) float64 {
			p := Person{AgeMonths: 360, Sex: Female, State: Pregnant3, HeightCm: 165, WeightKg: kg, Activity: LowActive}
			return mustFor(t, p, Options{EnergySet: Energy2023}).EER.Amount
		}
		if got := at(limit+0.01) - at(limit-0.01); math.Abs(got-(c.step+0.02*10.20)) > 0.01 {
			t.Errorf("over a BMI of %g the need changes by %.2f kcal, want %.2f", c.bmi, got, c.step+0.02*10.20)
		}
		if got := at(limit-0.01) - at(limit-0.03); math.Abs(got-0.02*10.20) > 0.01 {
			t.Errorf("under a BMI of %g the need changes by %.2f kcal already", c.bmi, got)
		}
	}
}

// What breast-feeding adds by each set, in the first and the second half-year: the
// 2005 increments, 500 − 170 and 400 kcal, are printed (NAP record 10490, chapter 5);
// those of the Guidelines are the same, those of 2023 are from memory.
func TestBreastFeedingByHalfYear(t *testing.T) {
	for set, want := range map[EnergySet][2]float64{Energy2005: {330, 400}, EnergyGuidelines: {330, 400}, Energy2023: {400, 380}} {
		plain := mustFor(t, Person{AgeMonths: 360, Sex: Female}, Options{EnergySet: set}).EER.Amount
		for i, state := range []State{Lactating1, Lactating2} {
			got := mustFor(t, Person{AgeMonths: 360, Sex: Female, State: state}, Options{EnergySet: set}).EER.Amount
			if math.Abs(got-plain-want[i]) > 1e-9 {
				t.Errorf("%s, %s adds %g kcal, want %g", set, state, got-plain, want[i])
			}
		}
	}
}

// Powder of an infant's feed by 100 mL, the extract of the infant feeding table:
// 13.0 g of formula based on milk, 13.2 g of soy, which a vegan household and an
// infant with lactose intolerance take.
func TestStrengthOfFormula(t *testing.T) {
	for _, c := range []struct {
		condition Condition
		soy       bool
		grams     float64
	}{{"", false, 13.0}, {Vegan, true, 13.2}, {Lactose, true, 13.2}, {Vegetarian, false, 13.0}} {
		p := Person{AgeMonths: 7, Sex: Female, Feeding: FormulaFed}
		if c.condition != "" {
			p.Conditions = []Condition{c.condition}
		}
		feed := mustFor(t, p, Options{}).Feed
		if feed.Soy != c.soy || feed.PowderGPer100ML != c.grams {
			t.Errorf("%q: soy %v, %g g per 100 mL, want %v and %g", c.condition, feed.Soy, feed.PowderGPer100ML, c.soy, c.grams)
		}
	}
}

// Doses against lows for a fortnight: with insulin all of the kit, 150 g of quick
// sugar in doses of 15 g (special.csv, diabetes); the other numbers are this
// program's own planning rule: 5 with tablets and in pregnancy, 2 with diet alone.
func TestDosesAgainstLows(t *testing.T) {
	for condition, want := range map[Condition]int{Diabetes1: 10, Diabetes2: 5, DiabetesPregnancy: 5, Diabetes2Diet: 2} {
		p := Person{AgeMonths: 360, Sex: Female, Conditions: []Condition{condition}}
		if condition == DiabetesPregnancy {
			p.State = Pregnant2
		}
		lows := mustFor(t, p, Options{}).Lows
		if lows == nil || lows.For(14) != want || lows.DoseG != 15 {
			t.Errorf("%s: %+v, want %d doses of 15 g for 14 days", condition, lows, want)
		}
		if twice := lows.For(28); twice != 2*want {
			t.Errorf("%s: %d doses for 28 days, want twice %d", condition, twice, want)
		}
		if half := lows.For(7); half != (want+1)/2 {
			t.Errorf("%s: %d doses for 7 days, want half of %d rounded up", condition, half, want)
		}
	}
}

// Carbohydrate that a clinician orders stays as it is ordered where the protein
// and the fat beside it leave less room: 75 g at each of three meals and 15 g at
// each of two snacks are 255 g, 1,020 kcal, 60 % of 1,700 kcal.
func TestOrderedCarbohydrateIsNotLowered(t *testing.T) {
	people, _, err := ReadHousehold("home.csv", strings.NewReader("name,age_years,sex,height_cm,weight_kg,activity,conditions,orders\n"+
		"Aud,80,f,150,45,inactive,diabetes-2,\"carbohydrate 75-80 g a meal; protein 90-95 g; by Dr Ardal, 2026-01-31\"\n"))
	if err != nil {
		t.Fatal(err)
	}
	needs := mustFor(t, people[0], Options{})
	for _, need := range needs.List {
		if need.Nutrient == Carbohydrate && (need.Floor == nil || !need.Floor.Ordered() || need.Floor.Amount < 255) {
			t.Errorf("carbohydrate at least %+v at %.0f kcal, ordered were 255 g", need.Floor, needs.EER.Amount)
		}
	}
}

// An upper level stays where a clinician allows more than it: 4,000 mg of phosphorus
// from 9 to 70 years (IOM, 1997). What is ordered under it holds.
func TestOrderedCeilingBesideTheUpperLevel(t *testing.T) {
	for order, want := range map[string]float64{"phosphorus at most 4500 mg": 4000, "phosphorus at most 3000 mg": 3000} {
		people, _, err := ReadHousehold("home.csv", strings.NewReader("name,age_years,sex,orders\nAud,60,f,\""+order+"; by Dr Ardal, 2026-01-31\"\n"))
		if err != nil {
			t.Fatal(err)
		}
		for _, need := range mustFor(t, people[0], Options{}).List {
			if need.Nutrient == Phosphorus && (need.Ceiling == nil || need.Ceiling.Amount != want || need.Ceiling.Ordered() != (want == 3000)) {
				t.Errorf("%s: at most %+v, want %g mg", order, need.Ceiling, want)
			}
		}
	}
}

// A tenth more feed is bought than is drunk: common practice, no source.
func TestSpareFeed(t *testing.T) {
	for _, feeding := range []Feeding{FormulaFed, MixedFed} {
		feed := mustFor(t, Person{AgeMonths: 4, Sex: Female, Feeding: feeding}, Options{}).Feed
		if feed.SpareFactor != 1.1 {
			t.Errorf("%s: %g times what is drunk is bought, want 1.1", feeding, feed.SpareFactor)
		}
	}
}

// The tables of the DRI have pregnancy from 14 to 50 years.
func TestAgesOfPregnancy(t *testing.T) {
	for age, taken := range map[string]bool{"13": false, "14": true, "50": true, "51": false} {
		if faults := faultsOf("name,age_years,sex,state", "Aud,"+age+",f,pregnant-2"); (faults == nil) != taken {
			t.Errorf("pregnant at %s: %q", age, faults)
		}
	}
}

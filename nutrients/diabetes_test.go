package nutrients

import (
	"math"
	"strings"
	"testing"
)

// The day of an adult with diabetes keeps to the usual counting range, 45 to 60 g a meal, 75 for men
// and active people, and two snacks of 15 to 30 g (data/special.csv): 165 g to 240 or 285 g. What
// nine tenths of that come to in energy is then the most that the share of 45 % asks; under 40 %
// fat is no longer held to its 35 %.
func TestDayOfTheCountingRange(t *testing.T) {
	for _, c := range []struct {
		name string
		p    Person
		meal float64 // most of a meal, g
	}{
		{"a woman", Person{Sex: Female, Activity: LowActive}, 60},
		{"an inactive woman", Person{Sex: Female, Activity: Inactive}, 60},
		{"an active woman", Person{Sex: Female, Activity: Active}, 75},
		{"a very active woman", Person{Sex: Female, Activity: VeryActive}, 75},
		{"a man", Person{Sex: Male, Activity: Inactive}, 75},
		{"a very active man", Person{Sex: Male, Activity: VeryActive}, 75},
		{"a tall very active woman", Person{Sex: Female, Activity: VeryActive, HeightCm: 185, WeightKg: 90}, 75},
	} {
		p := c.p
		p.AgeMonths, p.Conditions = 360, []Condition{Diabetes1}
		needs := mustFor(t, p, Options{})
		kcal, most := needs.EER.Amount, 3*c.meal+2*30
		need, m := find(&needs, Carbohydrate), needs.Meals
		if need.Floor.Amount != 165 || need.Floor.Note != "3 meals of 45 g and 2 snacks of 15 g" || math.Abs(need.Ceiling.Amount-most) > 1e-9 ||
			need.Ceiling.Note != "3 meals of "+measure(c.meal)+" g and 2 snacks of 30 g" {
			t.Errorf("%s: %+v to %+v, want 165 to %g g", c.name, need.Floor, need.Ceiling, most)
		}
		if m.Low.Amount != 45 || m.High.Amount != c.meal || m.SnackG != 15 || m.SnackHighG != 30 || m.Meals != 3 || m.Snacks != 2 || m.Enforced || (m.High.Note != "") != (c.meal == 75) {
			t.Errorf("%s: %+v", c.name, m)
		}
		if !noted(&needs, "the usual counting range, 45 to "+measure(c.meal)+" g a meal and 15 to 30 g a snack, on the mean of the days: 165 to "+measure(most)+" g a day") {
			t.Errorf("%s: nothing is said of the range", c.name)
		}
		low, high := shareOf(&needs, Carbohydrate)
		room := 100 * 4 * 0.9 * most / kcal
		if math.Abs(low-math.Min(45, room)) > 1e-9 || high != 55 {
			t.Errorf("%s: %g to %g %% of %.0f kcal, want %g to 55", c.name, low, high, kcal, math.Min(45, room))
		}
		if _, fat := shareOf(&needs, Fat); (fat == 35) != (room >= 40) {
			t.Errorf("%s: fat to %g %% where carbohydrate comes to %g", c.name, fat, room)
		}
	}
}

// The shares that go with diabetes stand in the standard of the fewest needs too: the Guidelines'
// 10 % of saturated fat and added sugars from two years, none of these under.
func TestSharesOfDiabeticsInEveryStandard(t *testing.T) {
	for _, standard := range allStandards {
		for months, want := range map[int]float64{20: 100, 24: 10, 360: 10} {
			needs := mustFor(t, Person{AgeMonths: months, Sex: Male, Conditions: []Condition{Diabetes1}}, Options{Standard: standard})
			_, fat := shareOf(&needs, SaturatedFat)
			_, sugars := shareOf(&needs, AddedSugars)
			if none := ceilingOf(&needs, AddedSugars) == 0; fat != want || sugars != want || none != (months < 24) {
				t.Errorf("%s, %d months: saturated fat to %g %%, added sugars to %g %%, none %v; want %g %%", standard, months, fat, sugars, none, want)
			}
			if note := find(&needs, Fibre).Floor.Note; months == 360 && standard == StandardBasic && note != "14 g per 1000 kcal" {
				t.Errorf("fibre says %q", note)
			}
		}
	}
}

// Where 130 g, the least of a day (RDA), are more than nine tenths of 55 % of the energy, so under
// 4 × 130 ÷ 0.495 = 1050.5 kcal, the share goes up to the 65 % of the AMDR and says so, but of who
// has a band of their own.
func TestShareOfASmallEater(t *testing.T) {
	raised := 0
	for _, weight := range []float64{10, 12, 14, 16, 18, 20, 22, 24, 26} {
		for _, band := range []bool{false, true} {
			p := Person{AgeMonths: 60, Sex: Female, HeightCm: 105, WeightKg: weight, Activity: Inactive, Conditions: []Condition{Diabetes1}}
			if band {
				p.Rules = []Rule{{Kind: RuleCarbohydrate, Low: 35, High: 45}}
			}
			needs := mustFor(t, p, Options{})
			kcal := needs.EER.Amount
			up := kcal < 4*130/0.495
			if up {
				raised++
			}
			_, high := shareOf(&needs, Carbohydrate)
			if want := map[bool]float64{true: 65, false: 55}[up]; !band && high != want {
				t.Errorf("%.1f kcal: to %g %%, want %g", kcal, high, want)
			}
			if said := noted(&needs, "is above 55 % of energy: the share goes up to 65 %"); said != (up && !band) {
				t.Errorf("%.1f kcal, own band %v: told %v", kcal, band, said)
			}
		}
	}
	if raised == 0 || raised == 18 {
		t.Errorf("%d of 18 children are under the limit", raised)
	}
}

// An old small woman's 165 g of the counting range are held to nine tenths of her 55 % of energy.
func TestCountingRangeFitsIntoTheShare(t *testing.T) {
	needs := mustFor(t, Person{AgeMonths: 85 * 12, Sex: Female, HeightCm: 145, WeightKg: 40, Activity: Inactive, Conditions: []Condition{Diabetes2}}, Options{})
	kcal := needs.EER.Amount
	want := 0.9 * 0.55 * kcal / 4
	if got := find(&needs, Carbohydrate).Floor; math.Abs(got.Amount-want) > 1e-9 || want < 130 || want > 165 || !strings.Contains(got.Note, "2 snacks of 15 g; lowered from 165 g to fit into 55 % of energy") {
		t.Errorf("%.0f kcal: at least %+v, want %g g", kcal, got, want)
	}
}

// Under 19 years nothing is in force; what is shown is a child's share of energy, in pregnancy the
// range of pregnancy: 25 to 40 g at three meals and 15 g at each of three snacks (data/special.csv).
func TestCountingRangeUnderNineteen(t *testing.T) {
	for months, child := range map[int]bool{227: true, 228: false} {
		needs := mustFor(t, Person{AgeMonths: months, Sex: Female, Conditions: []Condition{Diabetes1}}, Options{})
		if got := noted(&needs, "Carbohydrate is 45 to 55 % of energy and at least 130 g a day, over 3 meals and 2 snacks."); got != child {
			t.Errorf("%d months: told of a child's day %v", months, got)
		}
		if got := noted(&needs, "of 3 meals and 15 g at each of 2 snacks. A child's counts are the clinic's"); got != child {
			t.Errorf("%d months: told of a child's meals %v", months, got)
		}
		if child != (find(&needs, Carbohydrate).Ceiling == nil) {
			t.Errorf("%d months: at most %+v", months, find(&needs, Carbohydrate).Ceiling)
		}
	}
	const shown = "in pregnancy is 25 to 40 g of carbohydrate a meal and 15 g a snack. It is shown, not planned for"
	for months, child := range map[int]bool{227: true, 228: false} {
		needs := mustFor(t, Person{AgeMonths: months, Sex: Female, State: Pregnant2, Conditions: []Condition{DiabetesPregnancy}}, Options{})
		m := needs.Meals
		if m.Low.Amount != 25 || m.High.Amount != 40 || m.Snacks != 3 || m.SnackG != 15 || m.SnackHighG != 30 || noted(&needs, shown) != child || noted(&needs, "25 to 40 g a meal and 15 to 30 g a snack, on the mean") == child {
			t.Errorf("pregnant, %d months: %+v, told %v", months, m, noted(&needs, shown))
		}
	}
	// With a band of the household's own neither is said.
	needs := mustFor(t, Person{AgeMonths: 200, Sex: Female, Conditions: []Condition{Diabetes1}, Rules: []Rule{{Kind: RuleCarbohydrate, Low: 50, High: 60}}}, Options{})
	if noted(&needs, "Carbohydrate is 45") || noted(&needs, "A child's counts") || !needs.Meals.Enforced || needs.Meals.SnackHighG != 15 {
		t.Errorf("a child with a band: %+v, %+v", needs.Meals, needs.Notes)
	}
}

// A day's carbohydrate over its meals, by hand: three meals of 45 to 60 g and two snacks of 15 g
// that grow to 30 g only where the meals would pass 60 g.
func TestSplitOfADay(t *testing.T) {
	m := MealBand{Low: &Limit{Amount: 45}, High: &Limit{Amount: 60}, Meals: 3, Snacks: 2, SnackG: 15, SnackHighG: 30}
	for day, want := range map[float64][2]float64{
		165: {45, 15}, 180: {50, 15}, 210: {60, 15}, 220: {60, 20}, 240: {60, 30}, 270: {70, 30}, 120: {30, 15},
	} {
		if meal, snack := m.Split(day); math.Abs(meal-want[0]) > 1e-12 || math.Abs(snack-want[1]) > 1e-12 {
			t.Errorf("%g g a day: %g a meal, %g a snack, want %v", day, meal, snack, want)
		}
	}
	if low, high := m.perDay(); low != 165 || high != 240 {
		t.Errorf("a day of %g to %g g, want 165 to 240", low, high)
	}
	if none := (*LowReserve)(nil); none.For(14) != 0 {
		t.Errorf("%d doses for who needs none", none.For(14))
	}
}

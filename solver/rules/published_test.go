package rules_test

import (
	"math"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/rationtest"
	"rationwright/solver/rules"
)

// TestPublishedLimits: what publications let somebody have of a food in a day and in a week, by
// hand, on both sides of each age; own planning rules are none.
//
// Fish (EPA and FDA, Advice about Eating Fish): 12 oz before cooking a week from 11 years, 6 oz
// from 8, 4 oz from 4 and 2 oz before; an ounce is 28.349523125 g, and 4 oz are about 3 oz canned
// (caps.csv: 1.3333). Albacore is a good choice: one serving
// a week, 85 g canned, and none for children. Of food beside its milk an infant has half a cup,
// 125 mL, 3, 5 and 6 times a day (WHO and UNICEF).
func TestPublishedLimits(t *testing.T) {
	const (
		oz       = 28.349523125 / 1.3333 // g of canned fish, for an ounce before cooking
		pregnant = nutrients.Pregnant2
		nursing  = nutrients.Lactating1
		free     = math.MaxFloat64 // no limit
	)
	const (
		salmon, sardines, tuna, albacore = "15260", "15088", "15121", "15126"
		juice, milk, drinkOfRice         = "09207", "01077", "14639"
		flaxseed, liver, spinach, coffee = "12220", "07053", "11461", "14214"
		rice, salt                       = "20044", "02047"
	)
	for _, c := range []struct {
		food      string
		months    int
		state     nutrients.State
		condition nutrients.Condition
		day, week float64 // g
		source    string
	}{
		{salmon, 5, "", "", free, free, "no food under six months"},
		{salmon, 6, "", "", 3 * 125, 2 * oz, "EPA and FDA; WHO"},
		{salmon, 8, "", "", 5 * 125, 2 * oz, "EPA and FDA; WHO"},
		{salmon, 11, "", "", 6 * 125, 2 * oz, "EPA and FDA; WHO"},
		{salmon, 12, "", "", free, 2 * oz, "EPA and FDA"},
		{salmon, 47, "", "", free, 2 * oz, "EPA and FDA"},
		{salmon, 48, "", "", free, 4 * oz, "EPA and FDA"},
		{salmon, 95, "", "", free, 4 * oz, "EPA and FDA"},
		{salmon, 96, "", "", free, 6 * oz, "EPA and FDA"},
		{salmon, 131, "", "", free, 6 * oz, "EPA and FDA"},
		{salmon, 132, "", "", free, 12 * oz, "EPA and FDA"},
		{salmon, 480, "", "", free, 12 * oz, "EPA and FDA"},
		{salmon, 480, pregnant, "", free, 12 * oz, "EPA and FDA"},
		{sardines, 480, "", "", free, 12 * oz, "EPA and FDA"},
		{tuna, 480, "", "", free, 12 * oz, "EPA and FDA"},
		{albacore, 131, "", "", free, 0, "EPA and FDA"},
		{albacore, 132, "", "", free, 85, "EPA and FDA"},
		{albacore, 480, pregnant, "", free, 85, "EPA and FDA"},

		{liver, 480, pregnant, "", free, 0, "NHS: none in pregnancy"},
		{liver, 480, nursing, "", free, free, "NHS: once a week, no amount"},
		{liver, 480, "", "", free, free, "NHS: once a week, no amount"},

		{juice, 12, "", "", 120, free, "AAP 2017"},
		{juice, 47, "", "", 120, free, "AAP 2017"},
		{juice, 48, "", "", 180, free, "AAP 2017"},
		{juice, 83, "", "", 180, free, "AAP 2017"},
		{juice, 84, "", "", 240, free, "AAP 2017"},
		{juice, 227, "", "", 240, free, "AAP 2017"},
		{juice, 228, "", "", free, free, "AAP 2017: to 18 years"},

		{milk, 47, "", "", 710 / (0.0041 * 236.5882365), free, "AAP: 710 mL; 0.41 cup in 100 g (foods.csv), a cup is 236.5882365 mL"},
		{milk, 48, "", "", free, free, "AAP: of the youngest"},
		{milk, 480, "", "lactose", 12 / 0.0505, free, "NIH 2010: 12 g of lactose; 5.05 g in 100 g (foods.csv)"},
		{milk, 480, "", "", free, free, "only with the condition"},
		{drinkOfRice, 53, "", "", 0, free, "UK FSA 2009"},
		{drinkOfRice, 54, "", "", free, free, "UK FSA 2009: to four and a half years"},

		{flaxseed, 107, "", "", 3, free, "EFSA 2019"},
		{flaxseed, 108, "", "", 5, free, "EFSA 2019"},
		{flaxseed, 480, "", "", 10, free, "EFSA 2019"},
		{spinach, 35, "", "", 60, free, "EFSA 2010"},
		{spinach, 36, "", "", free, free, "EFSA 2010: to three years"},
		{coffee, 480, "", "", 400.0 / 30, free, "EFSA 2015: 400 mg; 30 mg a gram (caps.csv)"},
		{coffee, 480, pregnant, "", 200.0 / 30, free, "EFSA 2015: 200 mg"},
		{coffee, 480, nursing, "", 200.0 / 30, free, "EFSA 2015: 200 mg"},

		{rice, 480, "", "", free, free, "none published"},
		{salt, 480, "", "", free, free, "own planning rule"},
	} {
		table := rationtest.Table(t)
		f, err := table.Food(c.food)
		if err != nil {
			t.Fatal(err)
		}
		p := &nutrients.Person{AgeMonths: c.months, Sex: nutrients.Female, State: c.state}
		if c.condition != "" {
			p.Conditions = []nutrients.Condition{c.condition}
		}
		got := map[int]float64{1: free, 7: free}
		for _, l := range rules.Published(table, p) {
			if per := l.Counts(f); per > 0 {
				if _, ok := got[l.Days]; !ok {
					t.Errorf("%s: a limit of %d days", f.Name, l.Days)
				}
				got[l.Days] = math.Min(got[l.Days], l.Most/per)
			}
		}
		for days, want := range map[int]float64{1: c.day, 7: c.week} {
			if math.Abs(got[days]-want) > 1e-9 {
				t.Errorf("%s at %d months %s %s: at most %g g in %d days, want %g (%s)", f.Name, c.months, c.state, c.condition, got[days], days, want, c.source)
			}
		}
	}
}

// TestGlassesOfChildren: what is gladly eaten at a sitting is a goal for children under nine
// years only: own planning rule, no source.
func TestGlassesOfChildren(t *testing.T) {
	table := rationtest.Table(t)
	for months, any := range map[int]bool{24: true, 107: true, 108: false, 400: false} {
		p := rationtest.Adult("Odd", 0, nutrients.Male)
		p.AgeMonths, p.YearsOnly = months, false
		if got := rules.Glasses(table, &p); (len(got) > 0) != any {
			t.Errorf("at %d months %d goals for a sitting", months, len(got))
		}
	}
}

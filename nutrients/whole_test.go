package nutrients

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// What a person has: soft food by the condition or by an ordered texture, and nothing else by it.
func TestConditionsAPersonHas(t *testing.T) {
	texture := Orders{By: "Dr Ardal", On: "2026-01-31", List: []Order{{Of: OrderTexture}}}
	sodium := Orders{By: "Dr Ardal", On: "2026-01-31", List: []Order{{Of: OrderSodium, High: 2000}}}
	for _, c := range []struct {
		name       string
		p          Person
		soft, diab bool
	}{
		{"nobody's", Person{}, false, false},
		{"another's", Person{Conditions: []Condition{Diabetes1}}, false, true},
		{"by condition", Person{Conditions: []Condition{Diabetes1, SoftFood}}, true, true},
		{"by order", Person{Orders: texture}, true, false},
		{"another order", Person{Orders: sodium}, false, false},
	} {
		if c.p.Has(SoftFood) != c.soft || c.p.Has(Diabetes1) != c.diab {
			t.Errorf("%s: soft food %v, diabetes %v", c.name, c.p.Has(SoftFood), c.p.Has(Diabetes1))
		}
	}
}

// A rule is told as the household wrote it, and in the words of its column where it did not.
func TestRulesInTheirWords(t *testing.T) {
	for _, c := range []struct{ written, words string }{
		{"no wheat bran", "no wheat bran"},
		{"most peanut butter 30.5 g/day", "most peanut butter 30.5 g/day"},
		{"least rice 50 g/day", "least rice 50 g/day"},
		{"floor vitamin_c 120 mg", "floor vitamin_c 120 mg"},
		{"ceiling sodium 1.5 g", "ceiling sodium 1500 mg"},
		{"carbohydrate 45-60 g/meal", "carbohydrate 45-60 g/meal"},
		{"least rice 50.50 g/day", "least rice 50.5 g/day"},
	} {
		rule, fix, err := ParseRule(c.written)
		if err != nil {
			t.Errorf("%q: %v; %s", c.written, err, fix)
			continue
		}
		if got := rule.String(); got != c.written {
			t.Errorf("%q is told as %q", c.written, got)
		}
		rule.Text = ""
		if got := rule.String(); got != c.words {
			t.Errorf("%q, not read from a file, is %q, want %q", c.written, got, c.words)
		}
	}
}

// An order beside a rule on the same nutrient is a fault, beside one on another it is none; a floor
// as much as a ceiling. Protein and carbohydrate in grams a day are rules, a band a meal another.
func TestOrdersBesideRules(t *testing.T) {
	for _, c := range []struct {
		rule, order string
		fault       bool
	}{
		{"floor protein 50 g", "protein 55-60 g", true},
		{"ceiling protein 90 g", "protein 55-60 g", true},
		{"floor protein 50 g", "sodium at most 1800 mg", false},
		{"ceiling sodium 1500 mg", "sodium at most 1800 mg", true},
		{"floor potassium 1500 mg", "sodium at most 1800 mg", false},
		{"no white rice", "protein 55-60 g", false},
		{"floor carbohydrate 150 g", "carbohydrate 45-60 g a meal", false},
		{"carbohydrate 45-60 g/meal", "protein 55-60 g", false},
	} {
		_, err := readOne(t, fmt.Sprintf(`Aud,60,f,,,diabetes-1,,%s,"%s; by Dr Ardal, 2026-01-31",`, c.rule, c.order))
		if (err != nil) != c.fault || err != nil && !strings.Contains(err.Error(), "the orders set") {
			t.Errorf("%q beside %q: %v, want a fault %v", c.rule, c.order, err, c.fault)
		}
	}
}

// Why orders do not hold: both days, who gave them.
func TestWhyOrdersAreStale(t *testing.T) {
	o := Orders{By: "Dr Ardal", On: "2025-01-31", List: []Order{{Of: OrderSodium, High: 2000}}}
	for day, want := range map[string]string{
		"2026-06-01": "the orders of 2025-01-31 by Dr Ardal are more than a year old on 2026-06-01",
		"2025-01-30": "the orders are dated 2025-01-31, after the first day, 2025-01-30",
		"2025-06-01": "",
	} {
		if got := o.Stale(day); got != want {
			t.Errorf("%s: %q, want %q", day, got, want)
		}
	}
}

// The share of carbohydrate with diabetes begins with the AMDR of adults, 45 % (IOM DRI 2002/2005,
// data/amdr.csv), under its own words, and ends at the planning default of 55 %.
func TestOriginOfTheDiabeticsShare(t *testing.T) {
	plain := mustFor(t, Person{AgeMonths: 360, Sex: Male}, Options{})
	amdr := shareWhole(t, &plain, Carbohydrate)
	if amdr.Min.Amount != 45 || amdr.Max.Amount != 65 || !strings.HasPrefix(amdr.Min.Verified, "yes: ") || !strings.HasPrefix(amdr.Max.Source, "IOM DRI") {
		t.Fatalf("AMDR of carbohydrate %+v to %+v", amdr.Min, amdr.Max)
	}
	needs := mustFor(t, Person{AgeMonths: 360, Sex: Male, Activity: VeryActive, HeightCm: 190, WeightKg: 62, Conditions: []Condition{Diabetes1}}, Options{})
	share := shareWhole(t, &needs, Carbohydrate)
	if share.KcalPerG != 4 || share.Max.Amount != 55 || share.Max.Kind != "planning" || share.Max.Verified != "common practice, no source" {
		t.Errorf("at most %+v of %g kcal/g", share.Max, share.KcalPerG)
	}
	if share.Min.Kind != "planning" || share.Min.Source != "lower end of the AMDR: "+amdr.Max.Source || share.Min.Verified != amdr.Max.Verified {
		t.Errorf("at least %+v", share.Min)
	}
}

func shareWhole(t *testing.T, n *Needs, of Nutrient) Share {
	t.Helper()
	for _, s := range n.Shares {
		if s.Nutrient == of {
			return s
		}
	}
	t.Fatalf("no share of %s", of.Name())
	return Share{}
}

// A child's day with diabetes, 45 to 55 % of energy and 130 g at least (data/special.csv), less two
// snacks of 15 g, over three meals, to a whole gram; up to 65 % where 130 g do not fit. The lower
// figure stands first.
func TestCountsOfAChild(t *testing.T) {
	for months, weight := range map[int]float64{60: 18, 100: 28, 150: 45, 200: 60} {
		p := Person{AgeMonths: months, Sex: Female, HeightCm: 100 + float64(months-60)/2.4, WeightKg: weight, Activity: LowActive, Conditions: []Condition{Diabetes1}}
		needs := mustFor(t, p, Options{})
		kcal := needs.EER.Amount
		top := 0.55
		if 0.9*0.55*kcal/4 < 130 {
			top = 0.65
		}
		low := math.Round((math.Max(0.45*kcal/4, 130) - 30) / 3)
		high := math.Round((math.Max(top*kcal/4, 130) - 30) / 3)
		want := fmt.Sprintf("That is about %g to %g g at each of 3 meals and 15 g at each of 2 snacks.", low, high)
		if !noted(&needs, want) || low >= high {
			t.Errorf("%d months, %.0f kcal: nothing says %q in %+v", months, kcal, want, needs.Notes)
		}
	}
}

// What is said of the equation of pregnancy has the equation's source before that of the gain.
func TestSourceOfThePregnantsEnergy(t *testing.T) {
	needs := mustFor(t, Person{AgeMonths: 360, Sex: Female, State: Pregnant2, HeightCm: 165, WeightKg: 68, Activity: LowActive}, Options{})
	told := false
	for _, n := range needs.Notes {
		if strings.HasPrefix(n.Text, "Energy is by the equation of pregnancy for week ") {
			told = true
			if !strings.HasPrefix(n.Source, needs.EER.Source+"; weight gain: ") || needs.EER.Source == "" {
				t.Errorf("source %q, the energy's is %q", n.Source, needs.EER.Source)
			}
		}
	}
	if !told {
		t.Error("nothing is said of the equation")
	}
}

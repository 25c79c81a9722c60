package foods_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
)

// A two-week allowance per adult that is handed out as a one-size list, in
// ounces, and said to give 2,000 kcal a day. Common practice, no source; it
// serves as a check value only. The foods of the table that stand for each line
// are our choice, in equal parts where there are several.
var allowance = []struct {
	line   string
	ounces float64
	foods  []string
}{
	{"dry skim milk", 20, []string{"nonfat dry milk, instant, vitamins A and D"}},
	{"evaporated milk", 14, []string{"evaporated milk, vitamin D"}},
	{"canned fruit", 112, []string{"peaches in juice, canned", "fruit cocktail in light syrup, canned", "applesauce, sweetened"}},
	{"canned vegetables", 112, []string{"corn, canned, drained", "green beans, canned, drained", "tomatoes in juice, canned"}},
	{"canned soup", 112, []string{"chicken noodle soup, condensed", "tomato soup, condensed", "vegetable beef soup, condensed"}},
	{"canned main dishes", 208, []string{"beef stew, canned", "bean soup with pork, condensed", "chicken rice soup, chunky"}},
	{"crackers", 56, []string{"saltine crackers"}},
	{"jam", 14, []string{"jam"}},
	{"coffee or cocoa", 4, []string{"instant coffee"}},
	{"sugar", 4, []string{"sugar, white"}},
	{"salt", 4, []string{"salt"}},
	// Without an amount on the list: a small glass of juice a day and two
	// pieces of candy, our allowance for them.
	{"juice, no amount given", 14 * 6, []string{"orange juice, canned"}},
	{"hard candy, no amount given", 14 * 10 / gPerOunce, []string{"hard candy"}},
}

const (
	gPerOunce       = 28.349523125 // exact, international avoirdupois ounce
	allowanceDays   = 14.0
	allowanceSaid   = 2000.0 // kcal a day, common practice, no source
	allowanceWithin = 0.25   // "about right" here: within a quarter
)

func TestOneSizeAllowance(t *testing.T) {
	all, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	var perDay [nutrients.Count]float64
	for _, line := range allowance {
		for _, name := range line.foods {
			f, err := all.Food(name)
			if err != nil {
				t.Fatal(err)
			}
			grams := line.ounces * gPerOunce / float64(len(line.foods))
			for n := range nutrients.Count {
				perDay[n] += f.Per100g.Known(n) * grams / 100 / allowanceDays
			}
		}
	}
	energy := perDay[nutrients.Energy]
	t.Logf("the list gives %.0f kcal a day where %.0f are said", energy, allowanceSaid)
	if math.Abs(energy-allowanceSaid) > allowanceWithin*allowanceSaid {
		t.Errorf("the list gives %.0f kcal a day; 2,000 is not about right", energy)
	}

	woman := nutrients.Person{
		Name: "a woman of 30", AgeMonths: 360, YearsOnly: true, Sex: nutrients.Female,
		Activity: nutrients.LowActive, Count: 1,
	}
	needs, err := nutrients.For(woman, nutrients.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var lacks []string
	for _, need := range needs.List {
		if need.Floor != nil && perDay[need.Nutrient] < need.Floor.Amount {
			lacks = append(lacks, fmt.Sprintf("%s %.0f %%", need.Nutrient, 100*perDay[need.Nutrient]/need.Floor.Amount))
		}
		if need.Ceiling != nil && perDay[need.Nutrient] > need.Ceiling.Amount {
			lacks = append(lacks, fmt.Sprintf("%s over, %.0f %%", need.Nutrient, 100*perDay[need.Nutrient]/need.Ceiling.Amount))
		}
	}
	t.Logf("against the needs of a woman of 30: %s", strings.Join(lacks, "; "))
	for _, n := range []string{"vitamin_e", "fibre", "sodium over"} {
		if !strings.Contains(strings.Join(lacks, ";"), n) {
			t.Errorf("the list does not show %s, which the README says of it", n)
		}
	}
}

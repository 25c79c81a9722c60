package nutrients

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// faultsOf reads one row of a household with the columns named and returns its faults, one a line.
func faultsOf(columns, row string) []string {
	_, _, err := ReadHousehold("home.csv", strings.NewReader(columns+"\n"+row+"\n"))
	if err == nil {
		return nil
	}
	return strings.Split(err.Error(), "\n")
}

// The heights and weights that are taken at each age, as entered (common practice, no source): each
// end is taken and what lies beyond it is not. The other measure is left out.
func TestPlausibleBodies(t *testing.T) {
	for _, c := range []struct {
		from, below                            int // months
		minHeight, maxHeight, minWeight, maxKg float64
	}{
		{0, 3, 35, 70, 1, 9}, {3, 6, 45, 85, 2, 14}, {6, 12, 50, 95, 3, 18}, {12, 36, 60, 120, 5, 35}, {36, 108, 70, 170, 7, 100},
		{108, 168, 95, 210, 14, 180}, {168, 228, 100, 250, 20, 300}, {228, 1452, 100, 250, 25, 300},
	} {
		for _, months := range []int{c.from, c.below - 1} {
			feeding := ""
			if months < 12 {
				feeding = "breast"
			}
			for _, at := range []struct {
				height, weight string
				ok             bool
			}{
				{measure(c.minHeight), "", true}, {measure(c.minHeight - 0.5), "", false}, {measure(c.maxHeight), "", true}, {measure(c.maxHeight + 0.5), "", false},
				{"", measure(c.minWeight), true}, {"", measure(c.minWeight - 0.5), false}, {"", measure(c.maxKg), true}, {"", measure(c.maxKg + 0.5), false},
			} {
				row := fmt.Sprintf("A,%d,f,%s,%s,%s", months, at.height, at.weight, feeding)
				if faults := faultsOf("name,age_months,sex,height_cm,weight_kg,feeding", row); (faults == nil) != at.ok || len(faults) > 1 {
					t.Errorf("%s: %q, want taken %v", row, faults, at.ok)
				}
			}
		}
	}
}

// Weight over height squared is 9 to 100 kg/m² from two years on: at 1 m 9 to 100 kg, at 2 m 36 kg
// to the 300 kg of the column. A height that is impossible is told once.
func TestPlausibleWeightForHeight(t *testing.T) {
	for row, want := range map[string]int{
		"A,24,f,100,9": 0, "A,24,f,100,8.9": 1, "A,23,f,100,8.9": 0, "A,23,f,60,35": 0, "A,24,f,60,35": 0, "A,108,f,100,100": 0, "A,108,f,100,100.5": 1,
		"A,300,f,200,36": 0, "A,300,f,200,35.9": 1, "A,300,f,90,300": 1, "A,300,f,150,225": 0, "A,300,f,150,226": 1, "A,24,f,100,": 0, "A,24,f,,9": 0,
	} {
		if faults := faultsOf("name,age_months,sex,height_cm,weight_kg", row); len(faults) != want {
			t.Errorf("%s: %q, want %d faults", row, faults, want)
		}
	}
}

// Ages at their ends: 120 years and 11 months, months beside years from 0 to 11, none of an infant
// by years alone; and one fault for each slip.
func TestAges(t *testing.T) {
	for ages, months := range map[string]int{ // -1: one fault
		"120,": 1440, "121,": -1, ",1451": 1451, ",1452": -1, "120,11": 1451, "2,0": 24, "2,11": 35, "2,12": -1, "2,-1": -1, "1,": 12, ",12": 12, ",": -1, "x,": -1, "30,x": -1, "2,1.5": -1, ",1.5": -1,
	} {
		people, _, err := ReadHousehold("home.csv", strings.NewReader("name,age_years,age_months,sex\nA,"+ages+",f\n"))
		switch {
		case months < 0 && (err == nil || strings.Contains(err.Error(), "\n")):
			t.Errorf("%s: %v, want one fault", ages, err)
		case months >= 0 && (err != nil || people[0].AgeMonths != months || people[0].YearsOnly != strings.HasSuffix(ages, ",")):
			t.Errorf("%s: %+v, %v; want %d months", ages, people, err, months)
		}
	}
	for ages, ok := range map[string]bool{"0,": false, "0,0": true, "0,5": true, ",0": true, "0,11": true} {
		people, _, err := ReadHousehold("home.csv", strings.NewReader("name,age_years,age_months,sex,feeding\nA,"+ages+",f,breast\n"))
		if (err == nil) != ok || ok && people[0].YearsOnly {
			t.Errorf("an infant of %s: %+v, %v; want taken %v", ages, people, err, ok)
		}
	}
}

// A name has 100 letters at most, however many bytes, and a file 10,000 rows.
func TestLongestNameAndHousehold(t *testing.T) {
	for name, ok := range map[string]bool{strings.Repeat("å", 100): true, strings.Repeat("å", 101): false, "\u200bAda": false, "Ada\x07": false, "\x07": false, "Ada Å. (2)": true} {
		if faults := faultsOf("name,age_years,sex", name+",30,f"); (faults == nil) != ok || len(faults) > 1 {
			t.Errorf("a name of %d bytes: %q, want taken %v", len(name), faults, ok)
		}
	}
	var rows strings.Builder
	for i := range 10_001 {
		fmt.Fprintf(&rows, "\nA%d,30,f", i)
		if i == 9_999 {
			if faults := faultsOf("name,age_years,sex", strings.TrimPrefix(rows.String(), "\n")); faults != nil {
				t.Errorf("10,000 rows: %.200q", faults)
			}
		}
	}
	if faults := faultsOf("name,age_years,sex", strings.TrimPrefix(rows.String(), "\n")); len(faults) != 1 || !strings.HasPrefix(faults[0], "home.csv:10002:1: ") {
		t.Errorf("10,001 rows: %.200q, want one fault of the last", faults)
	}
}

// A band is refused where its top gives less than the least of a day, 130 g, in pregnancy 175 g
// (RDA), or where its bottom is more than 65 % of the energy (AMDR): three meals and two snacks of
// 15 g, 4 kcal a gram.
func TestBandsThatCannotBeEaten(t *testing.T) {
	const columns = "name,age_years,sex,state,rules"
	woman := mustFor(t, Person{AgeMonths: 360, YearsOnly: true, Sex: Female}, Options{})
	fits := math.Floor((0.65*woman.EER.Amount/4 - 30) / 3) // whole grams of a meal
	for row, want := range map[string]string{
		"A,30,f,,carbohydrate 20-33 g/meal":                                     "at most 129 g a day, under the 130 g",
		"A,30,f,,carbohydrate 20-34 g/meal":                                     "",
		"A,30,f,pregnant-1,carbohydrate 20-48 g/meal":                           "at most 174 g a day, under the 175 g",
		"A,30,f,pregnant-1,carbohydrate 20-49 g/meal":                           "",
		fmt.Sprintf("A,30,f,,carbohydrate %g-%g g/meal", fits, fits+10):         "",
		fmt.Sprintf("A,30,f,,carbohydrate %g-%g g/meal", fits+1, fits+10):       fmt.Sprintf("at least %g g a day, over the %.0f g that fit", 3*(fits+1)+30, 0.65*woman.EER.Amount/4),
		"A,30,f,,carbohydrate 0-60 g/meal":                                      "out of range",
		"A,30,f,,carbohydrate 40-401 g/meal":                                    "out of range",
		"A,30,f,,carbohydrate 40-400 g/meal":                                    "",
		"A,30,f,,carbohydrate 40-40 g/meal":                                     "",
		"A,30,x,,carbohydrate 20-33 g/meal":                                     `sex "x"`,
		"A,30,f,,floor iron 20 mg; carbohydrate 40-60 g/meal; floor zinc 12 mg": "",
		"A,30,f,,ceiling iron 20 mg; floor zinc 30 mg":                          "",
	} {
		faults := faultsOf(columns, row)
		if want == "" && faults != nil || want != "" && (len(faults) != 1 || !strings.Contains(faults[0], want)) {
			t.Errorf("%s: %q, want %q", row, faults, want)
		}
	}
	// Beside another rule that cannot be obeyed both are told; nothing of who is not planned for.
	if faults := faultsOf(columns, "A,30,f,,floor iron 60 mg; carbohydrate 20-33 g/meal"); len(faults) != 2 || !strings.Contains(faults[0], "40.5 mg") || !strings.Contains(faults[1], "at most 129 g") {
		t.Errorf("%q, want both faults", faults)
	}
	if faults := faultsOf("name,age_years,sex,conditions,rules", "A,30,f,tube-feeding,carbohydrate 20-33 g/meal"); faults != nil {
		t.Errorf("%q of who is tube-fed", faults)
	}
}

// The widest amounts of a rule, as entered (common practice, no source), and just beyond.
func TestWidestRules(t *testing.T) {
	for text, ok := range map[string]bool{
		"most rice 5000 g": true, "most rice 5000.1 g": false, "least rice 0.1 g": true, "least rice 0 g": false, "most rice 0 g": true, "most rice 176.4 oz": false, "most rice 176.3 oz": true,
		"floor energy 200 kcal": true, "floor energy 199 kcal": false, "ceiling energy 10000 kcal": true, "ceiling energy 10001 kcal": false,
		"floor iron 1000000 mg": true, "floor iron 1000001 mg": false, "ceiling iron 0 mg": true, "floor iron 0 mg": false,
		"carbohydrate 0.1-400 g/meal": true, "carbohydrate 0-400 g/meal": false, "carbohydrate 1-400.1 g/meal": false,
		"ceiling ash 3 g": false, "ceiling water 3 g": false, "floor happiness 30 mg": false, "floor vitamin_d_iu 400 IU": true,
	} {
		if rule, fix, err := ParseRule(text); (err == nil) != ok || err != nil && fix == "" {
			t.Errorf("%s: %+v, %v; %s, want taken %v", text, rule, err, fix, ok)
		}
	}
}

// A rule beside an order is refused where both set the same and taken where they do not; orders are
// for those from twelve months on.
func TestRulesBesideOrders(t *testing.T) {
	const columns = "name,age_months,sex,rules,orders"
	for row, want := range map[string]string{
		"A,360,f,ceiling protein 90 g,\"protein at most 60 g; by A, 2026-01-31\"":              "the orders set protein",
		"A,360,f,floor iron 20 mg,\"protein at most 60 g; by A, 2026-01-31\"":                  "",
		"A,360,f,no liver,\"protein at most 60 g; by A, 2026-01-31\"":                          "",
		"A,360,f,carbohydrate 45-60 g/meal,\"protein at most 60 g; by A, 2026-01-31\"":         "",
		"A,360,f,carbohydrate 45-60 g/meal,\"carbohydrate 45-60 g a meal; by A, 2026-01-31\"":  "the orders set carbohydrate",
		"A,360,f,ceiling carbohydrate 250 g,\"carbohydrate 45-60 g a meal; by A, 2026-01-31\"": "",
		"A,360,f,carbohydrate 45-60 g/meal,\"texture soft; by A, 2026-01-31\"":                 "",
		"A,12,f,,\"sodium at most 1000 mg; by A, 2026-01-31\"":                                 "",
		"A,360,f,,\"phosphorus at least 4000 mg; by A, 2026-01-31\"":                           "", // the UL itself (IOM 1997)
		"A,360,f,,\"phosphorus at least 4001 mg; by A, 2026-01-31\"":                           "over the upper level of 4000 mg",
		"A,360,f,,\"sodium at least 4000 mg; protein at least 200 g; by A, 2026-01-31\"":       "",
		"A,360,x,,\"phosphorus at least 4001 mg; by A, 2026-01-31\"":                           `sex "x"`,
	} {
		faults := faultsOf(columns, row)
		if want == "" && faults != nil || want != "" && (len(faults) != 1 || !strings.Contains(faults[0], want)) {
			t.Errorf("%s: %q, want %q", row, faults, want)
		}
	}
}

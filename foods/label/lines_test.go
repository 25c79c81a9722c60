package label_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"rationwright/foods/label"
	"rationwright/nutrients"
	"rationwright/nutrients/table"
)

// TestWhatALineSays: a line is read to the figure for 100 g that is worked by hand beside it, is
// left unknown, or is the one fault of its label, with a remedy; near misses stand side by side.
func TestWhatALineSays(t *testing.T) {
	unknown := math.NaN()
	anyFault := errors.New("any fault")
	for _, c := range []struct {
		text string
		n    nutrients.Nutrient
		want float64
		err  error // the fault wanted, nil none
		says string
	}{
		// What the figures are for: from 0.5 to 5000 g, 1 oz = 28.349523125 g by definition.
		{"per 0.5 g; fat 0.1 g", nutrients.Fat, 20, nil, ""},
		{"per 0.4 g; fat 0.1 g", nutrients.Fat, 0, table.ErrRange, "0.5 to 5000"},
		{"per 5000 g; fat 50 g", nutrients.Fat, 1, nil, ""},
		{"per 5001 g; fat 50 g", nutrients.Fat, 0, table.ErrRange, "0.5 to 5000"},
		{"per 3.5 oz; fat 9.92233309375 g", nutrients.Fat, 10, nil, ""},
		{"serving size 1 cup (40 g); fat 4 g", nutrients.Fat, 10, nil, ""},
		{"in 50 g: fat 4 g", nutrients.Fat, 8, nil, ""},
		{"per 100 g; fat 4 g; per 100 g", nutrients.Fat, 4, nil, ""},
		{"per 100 g; fat 4 g; per 50 g", nutrients.Fat, 0, label.ErrTwice, "as well"},
		{"per 100 g; fat 4 g; per 100 ml", nutrients.Fat, 0, label.ErrTwice, "as well"},
		{"per 100 g; fat 4 g; energy per serving 120 kcal", nutrients.Energy, unknown, nil, ""}, // for another amount
		{"per serving; fat 4 g", nutrients.Fat, 0, label.ErrBasis, "write the grams of a serving: "},
		{"fat 4 g", nutrients.Fat, 0, label.ErrBasis, `write "per 100 g"`},

		// Energy: a label's calories are kilocalories; two lines, one in kJ and one in kcal, are one
		// figure, and the kcal printed are taken. 1569 and 1574 kJ are 375.0 and 376.2 kcal, of which
		// 4.25 ÷ 4 and one kcal more are 399.4 and 400.7.
		{"per 100 g; energy 150 calories", nutrients.Energy, 150, nil, ""},
		{"per 100 g; energy 150 cal", nutrients.Energy, 150, nil, ""},
		{"per 100 g; calories: 150", nutrients.Energy, 150, nil, ""},
		{"per 100 g; 250 kcal", nutrients.Energy, 250, nil, ""},
		{"per 100 g; 12 g", nutrients.Energy, 0, label.ErrLine, ""},
		{"per 100 g; flatbread 250 kcal", nutrients.Energy, 0, label.ErrLine, "flatbread"},
		{"per 100 g; energy 1574 kJ; energy 400 kcal", nutrients.Energy, 400, nil, ""},
		{"per 100 g; energy 400 kcal; energy 1574 kJ", nutrients.Energy, 400, nil, ""},
		{"per 100 g; energy 1569 kJ; energy 400 kcal", nutrients.Energy, 0, label.ErrTwice, "energy"},
		{"per 100 g; energy 400 kcal; energy 1569 kJ", nutrients.Energy, 0, label.ErrTwice, "energy"},
		{"per 100 g; energy 400 kcal; energy 300 kcal", nutrients.Energy, 0, label.ErrTwice, "energy"},
		{"per 100 g; energy 12 g", nutrients.Energy, 0, label.ErrFigure, "kJ or kcal"},
		{"per 100 g; energy 12 %", nutrients.Energy, 0, label.ErrFigure, "kJ or kcal"},

		// Names, and what stands before them.
		{"per 100 g; of which saturates 1 g", nutrients.SaturatedFat, 1, nil, ""},
		{"per 100 g; which saturates 1 g", nutrients.SaturatedFat, 1, nil, ""},
		{"per 100 g; thereof saturates 1 g", nutrients.SaturatedFat, 1, nil, ""},
		{"per 100 g; and saturates 1 g", nutrients.SaturatedFat, 1, nil, ""},
		{"per 100 g | fat 4 g | protein 3 g", nutrients.Protein, 3, nil, ""},
		{"per 100 g, fat 4 g, protein 3,5 g", nutrients.Protein, 3.5, nil, ""},
		{"per 100 g; biotin; fat 4 g", nutrients.Fat, 4, nil, ""}, // no column: a figure is not missed
		{"per 100 g; fat; protein 3 g", nutrients.Fat, 0, label.ErrFigure, "with its unit"},
		{"per 100 g; fat 4 g; total fat 4 g", nutrients.Fat, 0, label.ErrTwice, `"fat"`},

		// Figures and their units.
		{"per 100 g; fat .5 g", nutrients.Fat, 0.5, nil, ""},
		{"per 100 g; fat 4g6%", nutrients.Fat, 4, nil, ""},
		{"per 100 g; fat 3 g 1 g", nutrients.Fat, 0, anyFault, "one column"},
		{"per 100 g; zinc 1.20 mg", nutrients.Zinc, 1.2, nil, ""},
		{"per 100 g; zinc 1.200 mg", nutrients.Zinc, 0, label.ErrFigure, "thousands"},
		{"per 100 g; zinc 1.200mg", nutrients.Zinc, 0, label.ErrFigure, "thousands"}, // however close the unit stands
		{"per 100 g; energy 1.674 kJ", nutrients.Energy, 0, label.ErrFigure, "thousands"},
		{"per 100 g; sodium 1 200 mg", nutrients.Sodium, 0, label.ErrFigure, "thousands"},
		{"per 100 g; sodium 1’200 mg", nutrients.Sodium, 0, label.ErrFigure, "thousands"},
		{"per 100 g; selenium 0.055 mg", nutrients.Selenium, 55, nil, ""},
		{"per 100 g; selenium 55 µg", nutrients.Selenium, 55, nil, ""},
		{"per 100 g; selenium 55 μg", nutrients.Selenium, 55, nil, ""},
		{"per 100 g; selenium 55 mcg", nutrients.Selenium, 55, nil, ""},
		{"per 100 g; selenium 55ug", nutrients.Selenium, 55, nil, ""},
		{"per 100 g; iron 40 IU", nutrients.Iron, 0, nutrients.ErrUnit, "as on the label"},
		{"per 100 g; vitamin A 120 µg", nutrients.VitaminA, unknown, nil, ""},
		{"per 100 g; vitamin A 120 µg RAE", nutrients.VitaminA, 120, nil, ""},
		{"per 100 g; vitamin E 3 mg", nutrients.VitaminE, unknown, nil, ""},
		{"per 100 g; vitamin E 3 mg alpha-tocopherol", nutrients.VitaminE, 3, nil, ""},
		{"per 100 g; folate 40 µg", nutrients.Folate, unknown, nil, ""},
		{"per 100 g; folate 40 µg DFE", nutrients.Folate, 40, nil, ""},

		// Less than: at its limit where plans hold it below a ceiling, as none where above a floor.
		{"per 100 g; sugars less than 0.5 g", nutrients.Sugars, 0.5, nil, ""},
		{"per 100 g; sugars under 0.5 g", nutrients.Sugars, 0.5, nil, ""},
		{"per 100 g; protein ≤0.5 g", nutrients.Protein, 0, nil, ""},
		{"per 100 g; protein 0.5 g", nutrients.Protein, 0.5, nil, ""},
		{"per 100 g; iron < 0.5 mg", nutrients.Iron, unknown, nil, ""},
		{"per 100 g as consumed; fat 4 g", nutrients.Fat, 0, label.ErrLine, "as sold"},
	} {
		got, faults := label.Parse(c.text)
		if c.err != nil {
			var said []string
			for _, f := range faults {
				said = append(said, f.Error())
			}
			text := strings.Join(said, "\n")
			if got != nil || c.err != anyFault && (len(faults) == 0 || !errors.Is(faults[0], c.err)) || !strings.Contains(text, c.says) {
				t.Errorf("%s: read as %v with faults %q, want %v with %q", c.text, got, text, c.err, c.says)
			}
			continue
		}
		if len(faults) > 0 {
			t.Errorf("%s: %v", c.text, faults)
			continue
		}
		per := got.Per100g(1)
		if v := per[c.n]; math.IsNaN(v) != math.IsNaN(c.want) || math.Abs(v-c.want) > 1e-9 {
			t.Errorf("%s: %g of %s, want %g", c.text, v, c.n, c.want)
		}
	}
}

// TestFaultsInTheOrderOfTheLine: faults of one line stand from left to right, also where what is
// wrong with the whole is known last.
func TestFaultsInTheOrderOfTheLine(t *testing.T) {
	_, faults := label.Parse("per serving; fat 12; protein 3 kcal")
	var at []int
	for _, f := range faults {
		at = append(at, f.Column)
	}
	if len(at) != 3 || at[0] != 1 || at[1] != 14 || at[2] != 22 {
		t.Errorf("faults at columns %v, want 1, 14 and 22: %v", at, faults)
	}
}

// TestLongestLabel: a label of 10,000 bytes is read and one byte more is not; a fault repeats 60
// bytes of its line and no more.
func TestLongestLabel(t *testing.T) {
	const text = "per 100 g; fat 4 g"
	for n, want := range map[int]bool{label.MostBytes: true, label.MostBytes + 1: false} {
		got, faults := label.Parse(text + strings.Repeat(" ", n-len(text)))
		if (got != nil) != want || !want && !errors.Is(faults[0], table.ErrTooMany) {
			t.Errorf("a label of %d bytes is read as %v, %v; want taken %v", n, got, faults, want)
		}
	}
	for n, want := range map[int]string{60: strings.Repeat("x", 56) + " 3 g", 61: strings.Repeat("x", 57) + " 3 …"} {
		_, faults := label.Parse("per 100 g; " + strings.Repeat("x", n-4) + " 3 g")
		if len(faults) != 1 || faults[0].Value != want {
			t.Errorf("a line of %d bytes: %v, want the value %q", n, faults, want)
		}
	}
}

// TestNotesOfAReading: what was left out, turned or assumed is said with its figures.
func TestNotesOfAReading(t *testing.T) {
	for text, want := range map[string]string{
		"per 100 g; carbohydrate 20 g; fibre 5 g":       "counts it in: 20 + 5 g",
		"per 100 g; carbohydrate 20 g":                  "does not say the fibre",
		"per 100 g; total carbohydrate 20 g":            "as holding the fibre",
		"per 100 g; niacin 50 % NRV":                    "niacin is left unknown: its NRV counts another form than the food table (Regulation (EU) No 1169/2011",
		"per 100 g; niacin 5 mg":                        "niacin is left unknown: the label does not say that it counts preformed niacin",
		"per 100 g; fat <0.5 g":                         "fat: less than 0.5 g is taken as 0.5, on the safe side",
		"per 100 g; protein <0.5 g":                     "protein: less than 0.5 g is taken as none, on the safe side",
		"per 100 g; iron <0.5 mg":                       "iron: less than 0.5 mg is left unknown",
		"per 100 g; starch 10 g":                        "starch is not taken: the food table has no column for it",
		"per 100 g; calcium <5 % NRV; carbohydrate 1 g": "calcium: less than 5 % is left unknown",
	} {
		got, faults := label.Parse(text)
		if len(faults) > 0 || !strings.Contains(strings.Join(got.Notes, "\n"), want) {
			t.Errorf("%s: %+v, %v; want a note with %q", text, got, faults, want)
		}
	}
}

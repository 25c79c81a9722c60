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

// Each worked label is an invented one; the figures wanted are worked by hand from
// the printed ones with the factors of the sources beside them, and a figure that
// is not wanted must be unknown.
func TestWorkedLabels(t *testing.T) {
	for _, c := range []struct {
		name, text string
		gPerML     float64
		want       map[nutrients.Nutrient]float64
	}{
		{
			// Regulation (EU) No 1169/2011: carbohydrate without fibre (annex I), so
			// 68.0 + 4.5 = 72.5; salt ÷ 2.5 (annex I point 11): 1.15 ÷ 2.5 = 0.46 g.
			name: "European, per 100 g",
			text: `Nutrition declaration
Typical values per 100 g
Energy 1527 kJ / 361 kcal
Fat 3.2 g
- of which saturates 0.5 g
Carbohydrate 68,0 g
- of which sugars 2.4 g
Fibre 4.5 g
Protein 12.1 g
Salt 1.15 g
Iron 2.8 mg (20 % NRV*)`,
			want: map[nutrients.Nutrient]float64{
				nutrients.Energy: 361, nutrients.Fat: 3.2, nutrients.SaturatedFat: 0.5, nutrients.Carbohydrate: 72.5,
				nutrients.Sugars: 2.4, nutrients.Fibre: 4.5, nutrients.Protein: 12.1, nutrients.Sodium: 460, nutrients.Iron: 2.8,
			},
		},
		{
			// 21 CFR 101.9: total carbohydrate holds the fibre. A serving of 40 g, so
			// each figure × 100 ÷ 40 = 2.5.
			name: "Nutrition Facts, per serving",
			text: `Nutrition Facts
Serving size 2/3 cup (40g)
Amount per serving
Calories 150
% Daily Value*
Total Fat 3g 4%
Saturated Fat 0.6g 3%
Trans Fat 0g
Cholesterol 2mg
Sodium 80mg 3%
Total Carbohydrate 27g 10%
Dietary Fiber 4g 14%
Total Sugars 6g
Includes 5g Added Sugars 10%
Protein 5g
Vitamin D 2mcg 10%
Potassium 160mg 4%
Folate 120mcg DFE (70mcg folic acid)
Niacin 4mg`,
			want: map[nutrients.Nutrient]float64{
				nutrients.Energy: 375, nutrients.Fat: 7.5, nutrients.SaturatedFat: 1.5, nutrients.Cholesterol: 5, nutrients.Sodium: 200,
				nutrients.Carbohydrate: 67.5, nutrients.Fibre: 10, nutrients.Sugars: 15, nutrients.AddedSugars: 12.5, nutrients.Protein: 12.5,
				nutrients.VitaminD: 5, nutrients.Potassium: 400, nutrients.Folate: 300,
			},
		},
		{
			// 1046 kJ ÷ 4.184 = 250 kcal, the definition of the thermochemical calorie.
			name: "kJ only, in one cell",
			text: "per 100 g: 1046 kJ; fat 10 g; carbohydrate 30 g; protein 9 g; sodium 0.4 g",
			want: map[nutrients.Nutrient]float64{
				nutrients.Energy: 250, nutrients.Fat: 10, nutrients.Carbohydrate: 30, nutrients.Protein: 9, nutrients.Sodium: 400,
			},
		},
		{
			// 100 mL of 1.04 g/mL weigh 104 g: 52 ÷ 1.04 = 50 kcal, 5.2 ÷ 1.04 = 5 g.
			name: "by volume", gPerML: 1.04,
			text: "per 100 ml: 218 kJ, 52 kcal, fat 2.6 g, carbohydrate 5.2 g, protein 3.12 g, calcium 124.8 mg",
			want: map[nutrients.Nutrient]float64{
				nutrients.Energy: 50, nutrients.Fat: 2.5, nutrients.Carbohydrate: 5, nutrients.Protein: 3, nutrients.Calcium: 120,
			},
		},
		{
			// Less than: what has a ceiling at its limit, protein at none, else unknown.
			// 40 IU of vitamin D are 1 µg: DRI, Calcium and Vitamin D (2011).
			name: "less than, forms that the table does not count",
			text: "per 100 g; energy 8 kcal; fat <0.5 g; carbohydrate 1 g; fibre <0.5 g; protein less than 0.5 g; salt <0.01 g; vitamin A 120 µg; vitamin E 3 mg; folic acid 50 µg; niacin 5 mg; vitamin D 60 IU; omega-3 1 g",
			want: map[nutrients.Nutrient]float64{
				nutrients.Energy: 8, nutrients.Fat: 0.5, nutrients.Carbohydrate: 1, nutrients.Protein: 0, nutrients.Sodium: 4, nutrients.VitaminD: 1.5,
			},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, faults := label.Parse(c.text)
			if len(faults) > 0 {
				t.Fatalf("faults: %v", faults)
			}
			per := got.Per100g(c.gPerML)
			for n := range nutrients.Count {
				want, known := c.want[n]
				v, has := per.Get(n)
				if known != has || known && math.Abs(v-want) > 1e-9*max(1, want) {
					t.Errorf("%s = %v, want %v (known: %v)", n, v, want, known)
				}
			}
		})
	}
}

// TestFibreInCarbohydrate: the table counts fibre into carbohydrate. So do Nutrition Facts
// (21 CFR 101.9), and what any label calls total carbohydrate; else it is left out of it
// (Regulation (EU) No 1169/2011, annex I) and added: 20 + 5 g.
func TestFibreInCarbohydrate(t *testing.T) {
	for text, want := range map[string]float64{
		"per 100 g; carbohydrate 20 g; fibre 5 g":                        25,
		"per 100 g; fibre 5 g; carbohydrate 20 g":                        25,
		"per 100 g; total carbohydrate 20 g; fibre 5 g":                  20,
		"Nutrition Facts; per 100 g; carbohydrate 20 g; fibre 5 g":       20,
		"Nutrition Facts; per 100 g; total carbohydrate 20 g; fibre 5 g": 20,
		"per 100 g; carbohydrate 20 g":                                   20,
	} {
		got, faults := label.Parse(text)
		if len(faults) > 0 {
			t.Fatalf("%s: %v", text, faults)
		}
		per := got.Per100g(0)
		if v, _ := per.Get(nutrients.Carbohydrate); math.Abs(v-want) > 1e-9 || len(got.Notes) != 1 {
			t.Errorf("%s: %g g of carbohydrate, notes %q, want %g g and one note", text, v, got.Notes, want)
		}
	}
}

// A percentage is taken only of a basis that is named, and of a form that the table
// counts. The daily values are from memory, so that what is asserted here is the
// arithmetic: half of the basis is half of the whole of it.
func TestPercentages(t *testing.T) {
	of := func(text string) float64 {
		t.Helper()
		got, faults := label.Parse("per 100 g; " + text)
		if len(faults) > 0 {
			t.Fatalf("%s: %v", text, faults)
		}
		per := got.Per100g(0)
		return per[nutrients.Calcium]
	}
	half, whole := of("calcium 50 % NRV"), of("calcium 100%NRV")
	if !(whole > 0) || math.Abs(2*half-whole) > 1e-9 {
		t.Errorf("50 %% is %v, 100 %% is %v", half, whole)
	}
	got, faults := label.Parse("per 100 g; niacin 50 % NRV; folic acid 50% NRV")
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	if per := got.Per100g(0); !math.IsNaN(per[nutrients.Niacin]) || !math.IsNaN(per[nutrients.Folate]) || len(got.Notes) != 2 {
		t.Errorf("equivalents are taken as the form of the table: %v", got.Notes)
	}
}

// Every fault of a label is found in one reading, where it stands.
func TestFaultsOfALabel(t *testing.T) {
	_, faults := label.Parse(strings.Join([]string{
		"per serving",                        // 1: grams missing
		"Energy 1046 kJ / 350 kcal",          // 2: 1046 kJ are 250 kcal
		"Fat 12",                             // 3: no unit
		"Protien 9 g",                        // 4: no such name
		"Carbohydrate 30 g; sodium 1,200 mg", // 5: thousands?
		"Iron 8%",                            // 6: of what?
		"Fibre 3 g",                          //
		"Fibre 4 g",                          // 8: twice
	}, "\n"))
	want := []struct {
		line, column int
		err          error
		in           string
	}{
		{1, 1, label.ErrBasis, "grams of a serving"}, {2, 1, label.ErrDiffers, "250 kcal"}, {3, 1, label.ErrFigure, "12 g"},
		{4, 1, label.ErrLine, `"protein"`}, {5, 20, label.ErrFigure, "thousands"}, {6, 1, nil, "% NRV"}, {8, 1, label.ErrTwice, "leave one"},
	}
	if len(faults) != len(want) {
		t.Fatalf("%d faults, want %d: %v", len(faults), len(want), faults)
	}
	for i, w := range want {
		f := faults[i]
		if f.Line != w.line || f.Column != w.column || w.err != nil && !errors.Is(f, w.err) || !strings.Contains(f.Error(), w.in) {
			t.Errorf("fault %d: %d:%d %v, want %d:%d with %q", i, f.Line, f.Column, f, w.line, w.column, w.in)
		}
	}
	for text, fix := range map[string]string{
		"fat 3 g": "per 100 g", "per 100 g per 30 g\nfat 3 g 1 g": "keep the figures of one", "per 100 g as prepared; fat 3 g": "as sold",
		"per 100 g; fat 3 kcal": "on the label", strings.Repeat("fat 3 g\n", 5000): "alone",
	} {
		if got, faults := label.Parse(text); got != nil || len(faults) == 0 || !strings.Contains(faults[0].Fix, fix) {
			t.Errorf("Parse(%.40q) = %v, %v; want a remedy with %q", text, got, faults, fix)
		}
	}
}

// FuzzParse: whatever the text, a label is read or refused with faults inside the
// text, and no figure is negative or endless.
func FuzzParse(f *testing.F) {
	for _, seed := range []string{
		"per 100 g: 1046 kJ/250 kcal; fat 10 g", "Serving size (40g)\nCalories 150\n% Daily Value\nTotal Fat 3g", "per 100 ml, salt <0,1 g",
		"per 0 g; fat 1 g", "per 100 g;;|\r\n\t-of which sugars 1.5 g", "\xff per 100 g fat \x00 1 g", "vitamin b12 100 µg", "per 100 g iron 10 %",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		got, faults := label.Parse(text)
		if (got == nil) == (len(faults) == 0) {
			t.Fatalf("label %v with faults %v", got, faults)
		}
		for _, fault := range faults {
			if fault.Line < 1 || fault.Line > 1+strings.Count(text, "\n") || fault.Column < 1 || fault.Fix == "" || errors.Is(fault, table.ErrDate) {
				t.Fatalf("fault outside the text or without a remedy: %v", fault)
			}
		}
		if got == nil {
			return
		}
		for _, v := range got.Per100g(1) {
			if v < 0 || math.IsInf(v, 0) {
				t.Fatalf("figure %v", v)
			}
		}
	})
}

// Energy is printed in kJ and in kcal, 4.184 kJ to the kilocalorie, or added up from
// rounded factors, 17 kJ or 4 kcal a gram; a slip between the two is refused. The
// limits are 4.0 and 4.25 kJ to the kcal, own planning rule, a whole kcal more or
// less being rounding: 100 kcal are 396 to 429.25 kJ.
func TestEnergyInBothUnits(t *testing.T) {
	for kJ, want := range map[string]bool{"395": false, "396": true, "397": true, "418": true, "429": true, "429.25": true, "430": false} {
		_, faults := label.Parse("per 100 g; energy " + kJ + " kJ / 100 kcal; fat 1 g; carbohydrate 20 g; protein 3 g; salt 0.1 g")
		if agree := len(faults) == 0; agree != want {
			t.Errorf("%s kJ and 100 kcal agree: %v, want %v (%v)", kJ, agree, want, faults)
		}
	}
}

package label

import (
	"fmt"
	"strings"
	"testing"

	"rationwright/nutrients"
)

// Regression values: the annex of Regulation (EU) No 1169/2011 and 21 CFR
// 101.9(c)(8)(iv) as they stand in the table, both from memory, so no published
// copy was compared. They hold the figures as they were entered.
const dailyEntered = `NRV vitamin_a 800 µg, vitamin_d 5 µg, vitamin_e 12 mg, vitamin_k 75 µg, vitamin_c 80 mg, thiamin 1.1 mg,
riboflavin 1.4 mg, niacin 16 mg, vitamin_b6 1.4 mg, folate 200 µg, vitamin_b12 2.5 µg, pantothenic_acid 6 mg, potassium 2000 mg,
calcium 800 mg, phosphorus 700 mg, magnesium 375 mg, iron 14 mg, zinc 10 mg, copper 1 mg, manganese 2 mg, selenium 55 µg
DV vitamin_a 900 µg, vitamin_c 90 mg, vitamin_d 20 µg, vitamin_e 15 mg, vitamin_k 120 µg, thiamin 1.2 mg, riboflavin 1.3 mg,
niacin 16 mg, vitamin_b6 1.7 mg, folate 400 µg, vitamin_b12 2.4 µg, pantothenic_acid 5 mg, choline 550 mg, calcium 1300 mg,
iron 18 mg, phosphorus 1250 mg, magnesium 420 mg, zinc 11 mg, selenium 55 µg, copper 0.9 mg, manganese 2.3 mg, potassium 4700 mg`

func TestDailyValuesAsEntered(t *testing.T) {
	have, err := dailyValues()
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	eu, us, _ := strings.Cut(dailyEntered, "\nDV ")
	for basis, list := range map[string]string{basisNRV: strings.TrimPrefix(eu, "NRV "), basisDV: us} {
		for _, entry := range strings.Split(strings.ReplaceAll(list, "\n", " "), ",") {
			var name, unit string
			var amount float64
			if _, err := fmt.Sscan(entry, &name, &amount, &unit); err != nil {
				t.Fatalf("%q: %v", entry, err)
			}
			n, ok := nutrients.ByName(name)
			d := have[dailyKey{n, basis}]
			if !ok || d.amount != amount || d.unit != unit {
				t.Errorf("%s of %s: %g %s, entered were %g %s", basis, name, d.amount, d.unit, amount, unit)
			}
			seen++
		}
	}
	if seen != len(have) || seen != 43 {
		t.Errorf("%d values, the table has %d, entered were 43", seen, len(have))
	}
}

// The two bases differ where the laws differ; which columns count the form that
// the food table counts is part of the figure.
func TestDailyValuesOfAnotherForm(t *testing.T) {
	have, err := dailyValues()
	if err != nil {
		t.Fatal(err)
	}
	other := map[string]string{basisNRV: "vitamin_a vitamin_e niacin folate", basisDV: "niacin"}
	for key, d := range have {
		if listed := strings.Contains(" "+other[key.basis]+" ", " "+key.nutrient.String()+" "); d.sameForm == listed {
			t.Errorf("%s of %s: same form %v", key.basis, key.nutrient, d.sameForm)
		}
	}
}

// TestPercentOfADailyValue: a percentage is that part of the value as entered above, of the basis
// that the label names: of calcium 800 mg by the NRV, 1300 mg by the DV. A label that names both
// or neither is asked, and the note says what was taken and that the figure is from memory.
func TestPercentOfADailyValue(t *testing.T) {
	for text, want := range map[string]float64{
		"per 100 g; calcium 25 % NRV":                       200,
		"per 100 g; calcium 25%NRV":                         200,
		"nutrient reference values; per 100 g; calcium 25%": 200,
		"Nutrition Facts; per 100 g; calcium 25 %":          325,
		"% Daily Value; per 100 g; calcium 25 %":            325,
		"per 100 g; calcium 25 % DV":                        325,
	} {
		got, faults := Parse(text)
		if len(faults) > 0 {
			t.Errorf("%s: %v", text, faults)
			continue
		}
		note := fmt.Sprintf("calcium: 25 %% of %g mg (", 4*want)
		if per := got.Per100g(0); per[nutrients.Calcium] != want || len(got.Notes) != 1 || !strings.HasPrefix(got.Notes[0], note) || !strings.HasSuffix(got.Notes[0], ", from memory)") {
			t.Errorf("%s: %g mg, %q; want %g mg and a note %q, from memory", text, per[nutrients.Calcium], got.Notes, want, note)
		}
	}
	for text, want := range map[string]string{
		"per 100 g; calcium 25 %":                      "not said",
		"Nutrition Facts; per 100 g; calcium 25 % NRV": "not said",
		"per 100 g; choline 25 % NRV":                  "no NRV of choline is known",
	} {
		if got, faults := Parse(text); got != nil || len(faults) != 1 || !strings.Contains(faults[0].Error(), want) {
			t.Errorf("%s: %+v, %v; want a fault with %q", text, got, faults, want)
		}
	}
}

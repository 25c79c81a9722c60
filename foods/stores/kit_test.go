package stores

import (
	"math/big"
	"slices"
	"strings"
	"testing"

	"rationwright/nutrients"
)

// An invented household: two adults, an older woman, a child, two infants.
func kitHousehold() []nutrients.Person {
	return []nutrients.Person{
		{Name: "a", AgeMonths: 12 * 34, Sex: nutrients.Female, Count: 2},
		{Name: "b", AgeMonths: 12 * 40, Sex: nutrients.Male, Conditions: []nutrients.Condition{nutrients.Diabetes1}, Count: 1},
		{Name: "c", AgeMonths: 12 * 78, Sex: nutrients.Female, Allergies: []nutrients.Allergy{{Allergen: "peanut"}}, Count: 1},
		{Name: "d", AgeMonths: 12 * 7, Sex: nutrients.Male, Count: 1},
		{Name: "e", AgeMonths: 3, Sex: nutrients.Female, Feeding: nutrients.FormulaFed, Count: 1},
		{Name: "f", AgeMonths: 8, Sex: nutrients.Female, Feeding: nutrients.BreastFed, Count: 1},
	}
}

// Every quantity is the table's rule, reckoned here in exact fractions from
// the cells of kit.csv.
func TestKitQuantities(t *testing.T) {
	counts := map[string]int{
		"household": 1, "person": 7, "infant": 2, "formula-fed infant": 1, "menstruating person": 2, "diabetic on insulin": 1,
		"allergic person": 1, "older person": 1, "older or disabled person": 1, "child": 1, "pet": 2, "device user": 1,
	}
	for _, days := range []int{1, 3, 14, 30} {
		kit := Kit(KitInput{People: kitHousehold(), Days: days, Pets: 2, DeviceUsers: 1})
		seen := map[string]KitLine{}
		for _, l := range kit {
			seen[l.ID] = l
		}
		for _, r := range rows("kit") {
			line, ok := seen[r.Text("id")]
			if !ok {
				t.Errorf("%s %s is not in the kit", r.Text("id"), r.Text("item"))
				continue
			}
			fixed, _ := new(big.Rat).SetString(r.Text("qty_fixed"))
			daily, _ := new(big.Rat).SetString(r.Text("qty_per_day"))
			n := counts[r.Text("basis")]
			if r.Text("id") == "K62" { // spoon and bowl from 6 months: one infant
				n = 1
			}
			q := daily.Mul(daily, big.NewRat(int64(days), 1))
			q.Add(q, fixed).Mul(q, big.NewRat(int64(n), 1))
			want := new(big.Int).Add(q.Num(), new(big.Int).Sub(q.Denom(), big.NewInt(1)))
			want.Div(want, q.Denom())
			if r.Text("medicine") == "yes" {
				want.SetInt64(0)
			}
			if int64(line.Quantity) != want.Int64() {
				t.Errorf("%s %s, %d days = %d, want %v = ⌈(%s + %s × %d) × %d⌉ (%s)", line.ID, line.Item, days, line.Quantity,
					want, r.Text("qty_fixed"), r.Text("qty_per_day"), days, n, r.Text("source"))
			}
			if line.Rule == "" {
				t.Errorf("%s shows no rule", line.ID)
			}
		}
	}
}

// Medicines never show an amount.
func TestMedicinesHaveNoDose(t *testing.T) {
	discuss, rest := Medicines(Kit(KitInput{People: kitHousehold(), Days: 14}))
	if len(discuss) != 7 {
		t.Errorf("%d medicines to discuss, want 7", len(discuss))
	}
	for _, l := range discuss {
		if l.Quantity != 0 || !strings.Contains(l.Rule, "clinician") || strings.ContainsAny(l.Rule, "0123456789") {
			t.Errorf("%s: quantity %d, rule %q", l.Item, l.Quantity, l.Rule)
		}
	}
	for _, l := range rest {
		if l.Unit == "dose" || l.Unit == "daily doses" || l.Item == "epinephrine devices" {
			t.Errorf("%s is given an amount", l.Item)
		}
	}
}

func TestKitByHousehold(t *testing.T) {
	alone := []nutrients.Person{{Name: "a", AgeMonths: 12 * 60, Sex: nutrients.Male, Count: 1}}
	ids := func(in KitInput) []string {
		var s []string
		for _, l := range Kit(in) {
			s = append(s, l.ID)
		}
		return s
	}
	warm, cold := ids(KitInput{People: alone, Days: 14}), ids(KitInput{People: alone, Days: 14, Cold: true})
	for _, id := range []string{"K39", "K51", "K53", "K54", "K56", "K59", "K63", "K75", "K76"} {
		if slices.Contains(warm, id) {
			t.Errorf("%s is for a man of 60 alone", id)
		}
	}
	// K04 stove, K06 matches, K70 extinguisher, K71 CO alarm go with a flame.
	for _, id := range []string{"K04", "K06", "K70", "K71"} {
		if !slices.Contains(warm, id) || slices.Contains(cold, id) {
			t.Errorf("%s: with heat %v, cold %v; want it only with heat", id, slices.Contains(warm, id), slices.Contains(cold, id))
		}
	}
	for _, l := range Kit(KitInput{People: alone, Days: 14}) {
		if l.ID == "K22" && (l.Quantity != 11 || l.Rule != "(4 + 0.5 a day × 14 days) for each person, × 1") {
			t.Errorf("spare batteries: %d by %q", l.Quantity, l.Rule)
		}
		if l.ID == "K19" && l.If != "cloudy water" {
			t.Errorf("filters: if %q, want cloudy water", l.If)
		}
	}
}

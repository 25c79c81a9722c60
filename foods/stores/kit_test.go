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

// What a line says: its arithmetic, and the case in which it is needed where the household
// does not show it. Medicines and the rest are the whole kit.
func TestWordsOfAKit(t *testing.T) {
	alone := []nutrients.Person{{Name: "a", AgeMonths: 12 * 60, Sex: nutrients.Male, Count: 1}}
	kit := Kit(KitInput{People: alone, Days: 14})
	said := map[string]KitLine{}
	for _, l := range kit {
		said[l.ID] = l
	}
	for id, want := range map[string][2]string{ // rule, and the case
		"K01": {"2 a household", ""}, "K02": {"1 a household", ""}, "K03": {"1 a household", "frying foods"},
		"K05": {"computed from the plan: pack of fuel", ""}, "K06": {"(2 + 0.5 a day × 14 days) a household", ""},
		"K08": {"1 a household", "formula, dry milk, bleach dosing"}, "K10": {"3 a day × 14 days for each person, × 1", ""},
		"K12": {"1 for each person, × 1", ""}, "K13": {"(1 + 0.25 a day × 14 days) a household", ""},
	} {
		if l, ok := said[id]; !ok || l.Rule != want[0] || l.If != want[1] {
			t.Errorf("%s: %q if %q, want %q if %q (kit.csv)", id, l.Rule, l.If, want[0], want[1])
		}
	}
	for _, l := range Kit(KitInput{People: alone, Days: 14, Cold: true}) {
		delete(said, l.ID)
	}
	for id, l := range said {
		if l.Category != "cooking" && !strings.Contains(l.When, "heat") && l.When != "any flame" {
			t.Errorf("%s %s is left out where nothing is heated: %s", id, l.Item, l.When)
		}
	}
	if _, ok := said["K01"]; ok {
		t.Error("no can opener where nothing is heated")
	}
	discuss, rest := Medicines(kit)
	if len(discuss) == 0 || len(rest) == 0 || len(discuss)+len(rest) != len(kit) {
		t.Errorf("%d to discuss and %d others of %d", len(discuss), len(rest), len(kit))
	}
}

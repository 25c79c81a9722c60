package nutrients

import (
	"math"
	"strings"
	"testing"
)

// ruled returns the needs of p with rules as the household writes them.
func ruled(t *testing.T, p Person, o Options, rules ...string) Needs {
	t.Helper()
	for _, text := range rules {
		rule, fix, err := ParseRule(text)
		if err != nil {
			t.Fatalf("%q: %v; %s", text, err, fix)
		}
		p.Rules = append(p.Rules, rule)
	}
	return mustFor(t, p, o)
}

// A girl of a year, 72 cm and 8 kg, needs −69.15 + 80 × 1 + 2.65 × 72 + 54.15 × 8 + 15 = 649.85
// kcal (NASEM 2023). Fat takes 30 % at least (AMDR), her 13 g of protein 52 kcal, 8.0 %: 62 % are
// left for carbohydrate, of which nine tenths, 90.65 g, stand in place of the RDA of 130 g.
func TestCarbohydrateFitsBesideFatAndProtein(t *testing.T) {
	girl := Person{AgeMonths: 12, Sex: Female, HeightCm: 72, WeightKg: 8}
	needs := mustFor(t, girl, Options{})
	floor := find(&needs, Carbohydrate).Floor
	if want := 0.9 * (0.7*649.85 - 4*13) / 4; math.Abs(floor.Amount-want) > 1e-9 || floor.Note != "lowered from 130 g to fit into 62 % of energy" {
		t.Errorf("%g g (%s), want %g", floor.Amount, floor.Note, want)
	}
	if protein := find(&needs, Protein).Floor; protein.Amount != 13 || protein.Note != "" {
		t.Errorf("protein %+v, want the RDA of 13 g", protein)
	}
	// A small woman who breast-feeds: 210 g (RDA) beside 71 g of protein and 20 % of fat, within the
	// 65 % of the AMDR or what the two leave.
	nursing := mustFor(t, Person{AgeMonths: 600, Sex: Female, State: Lactating1, HeightCm: 100, WeightKg: 25, Activity: Inactive}, Options{})
	kcal := nursing.EER.Amount
	want := math.Min(210, 0.9*math.Min(0.65*kcal, 0.8*kcal-4*71)/4)
	if got := floorOf(&nursing, Carbohydrate); math.Abs(got-want) > 1e-9 || want == 210 {
		t.Errorf("%g g at %.0f kcal, want %g", got, kcal, want)
	}
}

// An order of protein that takes all of the energy leaves no floor of carbohydrate: 400 g are
// 1,600 kcal, more than a small woman's need.
func TestNoCarbohydrateBesideAllProtein(t *testing.T) {
	p := Person{AgeMonths: 80 * 12, Sex: Female, HeightCm: 145, WeightKg: 40, Activity: Inactive,
		Orders: Orders{By: "Dr Ardal", On: "2026-01-31", List: []Order{{Of: OrderProtein, Low: 400}}}}
	needs := mustFor(t, p, Options{})
	if need := find(&needs, Carbohydrate); needs.EER.Amount > 1600 || need != nil && need.Floor != nil || floorOf(&needs, Protein) != 400 {
		t.Errorf("carbohydrate %+v, protein %g g at %.0f kcal", need, floorOf(&needs, Protein), needs.EER.Amount)
	}
}

// A floor or ceiling in grams lifts the shares of energy that it contradicts and no other. The
// ranges are the AMDR of adults (carbohydrate from 45 %, fat to 35 %, protein 10 to 35 %) and the
// Guidelines' 10 % of saturated fat and added sugars; with a tenth left for the food between, a
// ceiling of carbohydrate under 50 % contradicts, and a floor of fat or protein over 31.5 %, of
// saturated fat over 9 %. A gram has 4 kcal, of fat 9.
func TestRulesLiftTheSharesThatTheyContradict(t *testing.T) {
	woman := Person{AgeMonths: 360, Sex: Female}
	kcal := func() float64 { n := mustFor(t, woman, Options{}); return n.EER.Amount }()
	grams := func(percent, kcalPerG float64) string {
		return measure(math.Round(1e4*percent/100*kcal/kcalPerG) / 1e4)
	}
	all := "protein fat carbohydrate saturated_fat added_sugars"
	for _, c := range []struct {
		rule, left, note string
	}{
		{"ceiling carbohydrate " + grams(50.1, 4) + " g", all, ""},
		{"ceiling carbohydrate " + grams(49.9, 4) + " g", "protein saturated_fat added_sugars", "is 49.9 % of energy; the published shares that it contradicts no longer hold"},
		{"floor carbohydrate " + grams(58.4, 4) + " g", all, ""},
		{"floor carbohydrate " + grams(58.6, 4) + " g", "protein saturated_fat added_sugars", "is 58.6 % of energy"},
		{"floor fat " + grams(31.4, 9) + " g", all, ""},
		{"floor fat " + grams(31.6, 9) + " g", "protein saturated_fat added_sugars", "is 31.6 % of energy"},
		{"floor carbohydrate " + grams(40, 4) + " g", all, ""},
		{"ceiling protein " + grams(34, 4) + " g", all, ""},
		{"ceiling fat " + grams(40, 9) + " g", all, ""},
		{"ceiling fat " + grams(22.3, 9) + " g", all, ""},
		{"ceiling fat " + grams(22.1, 9) + " g", "protein saturated_fat added_sugars", "is 22.1 % of energy"},
		{"floor protein " + grams(31.4, 4) + " g", all, ""},
		{"floor protein " + grams(31.6, 4) + " g", "saturated_fat added_sugars", "is 31.6 % of energy"},
		{"floor saturated fat " + grams(8.9, 9) + " g", all, ""},
		{"floor saturated fat " + grams(9.1, 9) + " g", "protein fat carbohydrate added_sugars", "is 9.1 % of energy"},
		{"ceiling saturated fat 5 g", all, ""},
		{"floor iron 20 mg", all, ""},
	} {
		needs := ruled(t, woman, Options{}, c.rule)
		if r := needs.Person.Rules[0]; r.Kind == RuleFloor && floorOf(&needs, r.Nutrient) != r.Low || r.Kind == RuleCeiling && ceilingOf(&needs, r.Nutrient) != r.Low {
			t.Errorf("%s: %g to %g", c.rule, floorOf(&needs, r.Nutrient), ceilingOf(&needs, r.Nutrient))
		}
		left := map[string]bool{}
		for _, s := range needs.Shares {
			left[s.Nutrient.Name()] = true
		}
		for _, n := range strings.Fields(all) {
			if want := strings.Contains(" "+c.left+" ", " "+n+" "); left[n] != want {
				t.Errorf("%s: a share of %s %v, want %v", c.rule, n, left[n], want)
			}
		}
		if !noted(&needs, c.note) || (c.note == "") == noted(&needs, "no longer hold") {
			t.Errorf("%s: no note %q in %+v", c.rule, c.note, needs.Notes)
		}
	}
}

// Each share says what it is: a range of the DRI report or of the Guidelines.
func TestKindsOfShares(t *testing.T) {
	needs := mustFor(t, Person{AgeMonths: 360, Sex: Male}, Options{})
	for _, s := range needs.Shares {
		want := map[Nutrient]string{SaturatedFat: "guideline", AddedSugars: "guideline"}[s.Nutrient]
		if want == "" {
			want = "AMDR"
		}
		if s.Max.Kind != want || s.Min != nil && s.Min.Kind != want {
			t.Errorf("%s: %+v to %+v, want %s", s.Nutrient, s.Min, s.Max, want)
		}
	}
	toddler := mustFor(t, Person{AgeMonths: 23, Sex: Male}, Options{})
	if need := find(&toddler, AddedSugars); need == nil || need.Ceiling.Note != "none under 24 months" {
		t.Errorf("added sugars at 23 months: %+v", need)
	}
}

package nutrients

import (
	"math"
	"strings"
	"testing"
)

func TestSupplements(t *testing.T) {
	for _, c := range []struct {
		row, part string // part of the fault; "" none
	}{
		{`Aud,40,f,,,vegan,,,,"vitamin B12 10 µg; vitamin D 10 ug; iodine 150 ug"`, ""},
		{`Aud,40,f,,,,,,,multivitamin-mineral`, ""},
		{`Aud,40,f,,,kidney-disease,,,,vitamin D 10 ug`, "not with kidney-disease"},
		{`Aud,40,f,,,lithium,,,,iodine 150 ug`, "not with lithium"},
		{`Aud,40,f,,pregnant-2,,,,,multivitamin-mineral`, "not for this state"},
		{`Aud,40,f,,pregnant-2,,,,,pregnancy multivitamin-mineral`, ""},
		{`Aud,40,f,,pregnant-1,,,,,folic acid 400 ug`, ""},
		{`Aud,40,f,,pregnant-3,,,,,folic acid 400 ug`, "not for this state"},
		{`Aud,40,f,,,,,,,folic acid 400 ug`, ""},
		{`Odd,40,m,,,,,,,folic acid 400 ug`, "not for a man"},
		{`Odd,40,m,,,,,,,iron 14 mg`, "not for a man"},
		{`Odd,8,m,,,,,,,multivitamin-mineral`, "not for the age of 8 years"},
		{`Odd,70,m,,,,,,,vitamin D 20 ug`, "not for the age"},
		{`Odd,71,m,,,,,,,vitamin D 20 ug`, ""},
		{`Odd,40,m,,,,,,,vitamin D 10ug`, "did you mean"},
		{`Odd,40,m,,,,,,,cod liver oil`, "known are"},
		{`Odd,40,m,,,,,,,"vitamin D 10 ug; Vitamin d 10 µg"`, "written twice"},
		// Nothing more is said of what is not for the person, or of nobody's age or sex.
		{`Odd,,m,,,,,,,vitamin D 20 ug`, "write the age"},
		{`Odd,40,x,,,,,,,iron 14 mg`, `sex "x"`},
		// Iron 27 and 27 mg are over the UL of 45 mg: IOM DRI (2001), data/dri.csv.
		{`Aud,40,f,,pregnant-2,,,,,"iron 27 mg; pregnancy multivitamin-mineral"`, "over the upper level of 45"},
	} {
		p, err := readOne(t, c.row)
		switch {
		case c.part == "" && err != nil:
			t.Errorf("%s: %v", c.row, err)
		case c.part != "" && (err == nil || !strings.Contains(err.Error(), c.part) || strings.Contains(err.Error(), "\n")):
			t.Errorf("%s: %v, want one fault with %q", c.row, err, c.part)
		case c.part == "":
			again, _, err := ReadHouseholdRows("again", HouseholdRows([]Person{p}))
			if err != nil || strings.Join(again[0].Supplements, "|") != strings.Join(p.Supplements, "|") || len(p.Supplements) == 0 {
				t.Errorf("%s: written and read again: %v, %v", c.row, again, err)
			}
		}
	}
	infant := "name,age_months,sex,feeding,supplements\nEir,2,f,breast,%s\n"
	for name, taken := range map[string]bool{"vitamin D 10 ug drops": true, "vitamin D 10 ug": false, "iron drops 1 mg a kg": false, "multivitamin-mineral": false} {
		_, _, err := ReadHousehold("home.csv", strings.NewReader(strings.Replace(infant, "%s", name, 1)))
		if (err == nil) != taken {
			t.Errorf("an infant's %s: %v, want taken %v", name, err, taken)
		}
	}
}

// A dose counts towards the need, and under an upper level that counts all of a
// nutrient: at 40 years a woman's RDA of vitamin D is 15 µg, of B12 2.4 µg, of
// vitamin C 75 mg, the UL of iron 45 mg (IOM DRI 1998, 2000, 2001, 2011).
func TestSupplementsCount(t *testing.T) {
	p, err := readOne(t, `Aud,40,f,,,,,,,"multivitamin-mineral; vitamin B12 10 ug"`)
	if err != nil {
		t.Fatal(err)
	}
	with := mustFor(t, p, Options{})
	p.Supplements = nil
	without := mustFor(t, p, Options{})
	for _, c := range []struct {
		n             Nutrient
		before, after float64
	}{{VitaminD, 15, 0}, {VitaminB12, 2.4, 0}, {Iron, 18, 10}, {Calcium, 1000, 1000 - dose(t, &with, Calcium)}} {
		was, is := floorOf(&without, c.n), floorOf(&with, c.n)
		if math.Abs(was-c.before) > 1e-9 || c.after > 0 && math.Abs(is-c.after) > 1e-9 || c.after == 0 && is > 0 {
			t.Errorf("%s: from food %g with supplements, %g without, want %g and %g", c.n, is, was, c.after, c.before)
		}
	}
	for _, n := range []Nutrient{VitaminD, VitaminB12} {
		if need := find(&with, n); need != nil && need.Floor != nil {
			t.Errorf("%s: a floor of %+v is left of what the supplements hold", n, need.Floor)
		}
	}
	if was, is := ceilingOf(&without, Iron), ceilingOf(&with, Iron); was != 45 || is != 45-8 {
		t.Errorf("iron at most %g, with 8 mg of the supplement %g", was, is)
	}
	if was, is := ceilingOf(&without, Retinol), ceilingOf(&with, Retinol); was != 3000 || is != 3000-350 {
		t.Errorf("retinol at most %g, with a supplement %g", was, is)
	}
	if len(with.Supplements) != 2 {
		t.Fatalf("%d supplements, want 2", len(with.Supplements))
	}
	for _, want := range []Dose{
		{Of: "vitamin_d", Column: VitaminD, Amount: 15, Unit: "µg", UL: &Limit{Amount: 100}},
		{Of: "iron", Column: Iron, Amount: 8, Unit: "mg", UL: &Limit{Amount: 45}},
		{Of: "iodine_ug", Column: Count, Amount: 150, Unit: "ug", UL: &Limit{Amount: 1100}},
	} {
		found := false
		for _, d := range with.Supplements[0].Doses {
			if d.Of == want.Of {
				found = true
				if d.Column != want.Column || d.Amount != want.Amount || d.Unit != want.Unit || d.UL == nil || d.UL.Amount != want.UL.Amount {
					t.Errorf("%+v, want %+v", d, want)
				}
			}
		}
		if !found {
			t.Errorf("no %s in the multivitamin", want.Of)
		}
	}
	if !noted(&with, "Caution: no child under 14") {
		t.Error("nothing says who must not take it")
	}
}

// dose adds up what the supplements of a person hold of n.
func dose(t *testing.T, needs *Needs, n Nutrient) (total float64) {
	t.Helper()
	for _, s := range needs.Supplements {
		for _, d := range s.Doses {
			if d.Column == n {
				total += d.Amount
			}
		}
	}
	return total
}

// A vegan is asked about what no supplement of theirs holds.
func TestVegansAreAsked(t *testing.T) {
	for supplements, want := range map[string]string{
		"": "vitamin B12, vitamin D, iodine reliably", "vitamin B12 10 ug": "gives vitamin D, iodine reliably",
		"vitamin B12 10 ug; vitamin D 10 ug; iodine 150 ug": "",
	} {
		p, err := readOne(t, `Aud,40,f,,,vegan,,,,`+supplements)
		if err != nil {
			t.Fatal(err)
		}
		needs := mustFor(t, p, Options{})
		if want != "" && !noted(&needs, want) || want == "" && noted(&needs, "reliably") {
			t.Errorf("with %q nothing asks %q", supplements, want)
		}
	}
	for _, c := range []struct{ row, tablets string }{
		{`Aud,40,f,,,vegan,,,,`, "vitamin B12 10 ug vitamin_b12; vitamin D 10 ug vitamin_d; iodine 150 ug iodine_ug"},
		{`Aud,72,f,,,vegan,,,,`, "vitamin B12 10 ug vitamin_b12; vitamin D 20 ug vitamin_d; iodine 150 ug iodine_ug"}, // over 70: 20 µg (DRI 2011)
		{`Aud,2,f,,,vegan,,,,`, "vitamin D 10 ug vitamin_d"},                                                          // no tablet of B12 under 4 years, of iodine under 19, in the table
		{`Aud,40,f,,,vegan,,,,vitamin D 10 ug`, "vitamin B12 10 ug vitamin_b12; iodine 150 ug iodine_ug"},
		{`Aud,40,f,,,vegan; lithium,,,,`, "vitamin B12 10 ug vitamin_b12; vitamin D 10 ug vitamin_d"}, // lithium and iodine: ask first
		{`Aud,1,f,,,vegan,,,,`, "vitamin D 10 ug vitamin_d"},                                          // twelve months
		{`Aud,40,f,,,vegetarian,,,,`, ""},
	} {
		p, err := readOne(t, c.row)
		if err != nil {
			t.Fatal(err)
		}
		var names []string
		for _, tablet := range mustFor(t, p, Options{}).AskAbout {
			names = append(names, tablet.Name+" "+tablet.Nutrient)
		}
		if got := strings.Join(names, "; "); got != c.tablets {
			t.Errorf("%s is asked about %q, want %q", c.row, got, c.tablets)
		}
	}
	if needs := mustFor(t, Person{AgeMonths: 11, Sex: Female, Feeding: BreastFed, Conditions: []Condition{Vegan}}, Options{}); len(needs.AskAbout) > 0 || noted(&needs, "reliably") {
		t.Errorf("an infant is asked about %+v", needs.AskAbout)
	}
}

func TestMedicines(t *testing.T) {
	p, err := readOne(t, `Odd,70,m,,,warfarin; lithium; metformin; potassium-sparing,,,,`)
	if err != nil {
		t.Fatal(err)
	}
	needs := mustFor(t, p, Options{})
	for _, part := range []string{"Warfarin: keep vitamin K alike", "no salt substitute", "lowers vitamin B12", "keep salt and drinks alike"} {
		if !noted(&needs, part) {
			t.Errorf("no line with %q", part)
		}
	}
	if len(needs.Steady) != 3 {
		t.Errorf("steady %v, want vitamin K, potassium and sodium", needs.Steady)
	}
	for _, n := range needs.Notes {
		if strings.Contains(n.Text, "Warfarin") && (n.Source == "" || n.Verified == "") {
			t.Errorf("%+v has no source", n)
		}
	}
}

// The UL of folate, 1,000 µg at 30 years, counts folic acid of supplements and of
// fortified food (IOM DRI 1998): with 400 µg in a tablet food may bring 600 µg more, and
// without a tablet it is not held.
func TestFolicAcidOfFoodBesideATablet(t *testing.T) {
	p, err := readOne(t, `Aud,30,f,,,,,,,folic acid 400 ug`)
	if err != nil {
		t.Fatal(err)
	}
	with := mustFor(t, p, Options{})
	if got := ceilingOf(&with, FolicAcid); got != 600 {
		t.Errorf("folic acid of food at most %g µg, want 600", got)
	}
	p.Supplements = nil
	without := mustFor(t, p, Options{})
	if got := ceilingOf(&without, FolicAcid); got > 0 && !math.IsInf(got, 1) {
		t.Errorf("folic acid of food at most %g µg without a tablet, want no limit", got)
	}
}

package nutrients

import (
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
		// Iron 27 and 27 mg are over the UL of 45 mg: IOM DRI (2001), data/dri.csv.
		{`Aud,40,f,,pregnant-2,,,,,"iron 27 mg; pregnancy multivitamin-mineral"`, "over the upper level of 45"},
	} {
		p, err := readOne(t, c.row)
		switch {
		case c.part == "" && err != nil:
			t.Errorf("%s: %v", c.row, err)
		case c.part != "" && (err == nil || !strings.Contains(err.Error(), c.part)):
			t.Errorf("%s: %v, want a fault with %q", c.row, err, c.part)
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

// The doses of a person stand beside the needs and change none of them.
func TestSupplementsBesideNeeds(t *testing.T) {
	p, err := readOne(t, `Aud,40,f,,,,,,,"multivitamin-mineral; vitamin B12 10 ug"`)
	if err != nil {
		t.Fatal(err)
	}
	with := mustFor(t, p, Options{})
	p.Supplements = nil
	without := mustFor(t, p, Options{})
	for n := range Count {
		if a, b := floorOf(&with, n), floorOf(&without, n); a != b && !(a != a && b != b) {
			t.Errorf("%s: floor %g with supplements, %g without", n, a, b)
		}
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
	if !noted(&with, "Must not take it: no child under 14") {
		t.Error("nothing says who must not take it")
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

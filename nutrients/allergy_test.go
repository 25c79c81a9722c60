package nutrients

import (
	"slices"
	"testing"
)

func TestAllergyLevels(t *testing.T) {
	p, err := readOne(t, `Odd,14,m,,,,"peanut; Milk ~; sesame!",,,`)
	if err != nil {
		t.Fatal(err)
	}
	want := []Allergy{{"peanut", AllergyStrict}, {"milk", AllergyTraces}, {"sesame", AllergyHousehold}}
	if !slices.Equal(p.Allergies, want) {
		t.Errorf("%v, want %v", p.Allergies, want)
	}
	again, _, err := ReadHouseholdRows("again", HouseholdRows([]Person{p}))
	if err != nil || !slices.Equal(again[0].Allergies, want) {
		t.Errorf("written and read again: %v, %v", again, err)
	}
	for _, bad := range []string{"peanut~!", "peanut?", "peanut; peanut!", "~"} {
		if _, err := readOne(t, `Odd,14,m,,,,"`+bad+`",,,`); err == nil {
			t.Errorf("%q is taken", bad)
		}
	}
}

package report

import (
	"slices"
	"testing"

	"rationwright/solver/ration"
)

// Every line of what cannot be met together is a sentence, its amounts written as
// all figures are.
func TestConflictLinesAreAlike(t *testing.T) {
	proven := true
	p := &ration.Plan{Proven: &proven, Conflict: []ration.ConflictLimit{
		{Limit: "energy at least 2859 kcal a day", Person: "Henrik"},
		{Limit: "budget at most 30 TSD"},
		{Limit: "energy at least 1783 to 2859 kcal a day, for everyone"},
		{Limit: "stored water at most 1.2e+04 L"},
		{Limit: "iron at least 12.25 mg a day, by the table of 2006", Person: "Maja"},
	}}
	want := []string{
		"- Henrik: energy at least 2,859 kcal a day.",
		"- Budget at most 30 TSD.",
		"- Energy at least 1,783 to 2,859 kcal a day, for everyone.",
		"- Stored water at most 12,000 L.",
		"- Maja: iron at least 12.25 mg a day, by the table of 2006.",
	}
	if got := conflict(p).Lead; !slices.Equal(got, want) {
		t.Errorf("got  %q\nwant %q", got, want)
	}
	for person, want := range map[string]string{
		"":     "Proven: this cannot be met with the water to be stored for drinking and washing, whatever else is given up.",
		"Maja": "Proven: this cannot be met whatever needs are given up.",
	} {
		one := &ration.Plan{Proven: &proven, Conflict: []ration.ConflictLimit{{Limit: "budget at most 30 TSD", Person: person}}}
		if got := conflict(one).Notes; !slices.Equal(got, []string{want}) {
			t.Errorf("person %q: %q, want %q", person, got, want)
		}
	}
}

// What a way out costs is only what was found: no more than that.
func TestWayOutCostsAtMost(t *testing.T) {
	p := &ration.Plan{WaysOut: []ration.WayOut{{Change: "1193.28 TSD more in the budget", Cost: ptr(1223.2746), Tested: true}}}
	for currency, want := range map[string]string{
		"TSD": "- 1,193.28 TSD more in the budget. A plan then costs at most 1,223.28 TSD. Tested: a ration exists then.",
		"":    "- 1,193.28 TSD more in the budget. A plan then costs at most 1,223.28. Tested: a ration exists then.",
	} {
		if got := waysOut(p, currency).Lead; !slices.Equal(got, []string{want}) {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

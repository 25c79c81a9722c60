package ration

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"
)

// TestChangedPartsAreNamed: a part of a plan that is another, is new or is gone is
// named, and no other; so are the parts of its request.
func TestChangedPartsAreNamed(t *testing.T) {
	written, err := json.Marshal(Plan{
		Version: PlanVersion, Status: StatusOptimal, Least: LeastCost, Days: 14, Standard: "rda", Notice: "a word",
		Packs:   []PlanPack{{Pack: "rice", Count: 2}},
		Request: &RequestRecord{Version: PlanVersion, Start: "2026-11-25", Without: []string{"rice"}, Options: map[string]string{"days": "14"}},
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		old, new string
		want     []string
	}{
		{``, ``, nil},
		{`"notice":"a word",`, ``, []string{"notice"}},
		{`"notice":"a word",`, `"notice":"A word",`, []string{"notice"}},
		{`"days":14,`, `"days":14,"stopped":"x",`, []string{"stopped"}},
		{`"without":["rice"]`, `"without":["salt"]`, []string{"request.without"}},
		{`,"without":["rice"]`, ``, []string{"request.without"}},
		{`"notice":"a word",`, `"stopped":"a word",`, []string{"notice", "stopped"}},
	} {
		text := strings.Replace(string(written), c.old, c.new, 1)
		if text == string(written) && c.old != c.new {
			t.Fatalf("%s is not in %s", c.old, written)
		}
		plan, err := ReadPlan(strings.NewReader(text))
		if err != nil {
			t.Errorf("%q for %q: %v", c.new, c.old, err)
			continue
		}
		if got := plan.Changed(); !slices.Equal(got, c.want) {
			t.Errorf("%q for %q changes %q, want %q", c.new, c.old, got, c.want)
		}
	}
}

package report

import (
	"testing"

	"rationwright/foods/stores"
)

// TestWhereAFigureIsFrom: a figure without a source says so, one from memory too, and the
// mark is not written twice.
func TestWhereAFigureIsFrom(t *testing.T) {
	for _, c := range []struct{ source, verified, ref, marked string }{
		{"", "common practice, no source", "common practice, no source", "(common practice, no source)"},
		{"trade practice", "common practice, no source", "common practice, no source", "trade practice (common practice, no source)"},
		{"compiler planning value", "common practice, no source", "common practice, no source", "compiler planning value (common practice, no source)"},
		{"field guide", "common practice, no source", "field guide (common practice, no source)", "field guide (common practice, no source)"},
		{"USDA", "from memory", "USDA (from memory)", "USDA (from memory)"},
		{"USDA, from memory", "from memory", "USDA, from memory (from memory)", "USDA, from memory"},
		{"USDA", "yes: seen", "USDA", "USDA"},
	} {
		if got := ref(stores.Ref{Source: c.source, Verified: c.verified}); got != c.ref {
			t.Errorf("%q, %q: %q, want %q", c.source, c.verified, got, c.ref)
		}
		if got := marked(c.source, c.verified); got != c.marked {
			t.Errorf("%q, %q: marked %q, want %q", c.source, c.verified, got, c.marked)
		}
	}
	for key, want := range map[string]string{"iron": "mg", "vitamin_d": "µg", "no such thing": ""} {
		if got := unitOf("", key); got != want {
			t.Errorf("%s is in %q, want %q", key, got, want)
		}
		if got := unitOf("g", key); got != "g" {
			t.Errorf("%s is said to be in g, and is in %q", key, got)
		}
	}
}

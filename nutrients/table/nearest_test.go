package table_test

import (
	"fmt"
	"testing"

	"rationwright/nutrients/table"
)

func TestNearest(t *testing.T) {
	words := []string{"vitamin_a", "vitamin_b12", "vitamin_b6", "vitamin_c", "zinc", "iron", "fibre", "chickpeas, canned", "peas, canned", "peas"}
	for _, c := range []struct{ word, want string }{
		{"zink", `["zinc"]`},
		{"irno", `["iron"]`}, // neighbours swapped: one edit
		{"fiber", `["fibre"]`},
		{"Vitamin A", `["vitamin_a" "vitamin_c" "vitamin_b6"]`},
		{"vitamin b-12", `["vitamin_b12" "vitamin_b6" "vitamin_a"]`},
		{"chickpeas", `["chickpeas, canned" "peas"]`},
		{"quinoa", `[]`},
		{"", `[]`},
	} {
		if got := fmt.Sprintf("%q", table.Nearest(c.word, words, 3)); got != c.want {
			t.Errorf("Nearest(%q) = %s, want %s", c.word, got, c.want)
		}
	}
	if got := table.Nearest("zink", words, 0); got != nil {
		t.Errorf("Nearest(…, 0) = %q, want none", got)
	}
}

// TestSuggest: one word, two parted by or, three with a comma between the first; none, nothing.
func TestSuggest(t *testing.T) {
	words := []string{"vitamin_a", "vitamin_b12", "vitamin_b6", "vitamin_c", "iron", "chickpeas, canned", "peas"}
	for word, want := range map[string]string{
		"irno": `did you mean "iron"?`, "chickpeas": `did you mean "chickpeas, canned" or "peas"?`,
		"Vitamin A": `did you mean "vitamin_a", "vitamin_c" or "vitamin_b6"?`, "quinoa": "",
	} {
		if got := table.Suggest(word, words); got != want {
			t.Errorf("%q: %s, want %s", word, got, want)
		}
	}
}

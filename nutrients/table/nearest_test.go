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
	for _, c := range []struct {
		word  string
		words []string
		want  string
	}{
		// Three edits of nine letters, then what contains the word, then what it contains.
		{"chickpeas", []string{"peas", "chickpeas, canned", "chickbeens"}, `["chickbeens" "chickpeas, canned" "peas"]`},
		{"chickpeas", []string{"chickbeenz"}, `[]`}, // four edits
		{"zzz", []string{"abc", "zab"}, `["zab"]`},  // two edits, not every letter
		{"zz", []string{"ab", "az"}, `["az"]`},      // two edits would be every letter
		{"pea", []string{"green pea soup"}, `[]`},   // three letters sit in everything
		{"peas", []string{"green peas"}, `["green peas"]`},
		{"green pea soup", []string{"pea"}, `[]`},
		{"zink", []string{"zinc", "zinc"}, `["zinc"]`},          // written twice
		{"zinc", []string{"znic", "zincs"}, `["znic" "zincs"]`}, // one edit each, the shorter first
		{"bran", []string{"brown", "brand"}, `["brand" "brown"]`},
		{"bean", []string{"bear", "beat", "beak", "bead"}, `["bead" "beak" "bear"]`}, // three of as many edits, by letter
	} {
		if got := fmt.Sprintf("%q", table.Nearest(c.word, c.words, 3)); got != c.want {
			t.Errorf("Nearest(%q, %q) = %s, want %s", c.word, c.words, got, c.want)
		}
	}
	for n, want := range map[int]int{200: 1, 201: 0} {
		word := "z" + fmt.Sprintf("%0*d", n-1, 0)
		if got := table.Nearest(word, []string{"x" + word[1:]}, 3); len(got) != want {
			t.Errorf("%d words are near one of %d bytes, want %d", len(got), n, want)
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

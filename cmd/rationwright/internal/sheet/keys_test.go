package sheet

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

func fitted(t *testing.T, s *Sheet, limit int) string {
	t.Helper()
	var b strings.Builder
	if err := s.Fit(&b, limit); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// keysOf is a table like that of the food list, with keys as long as the longest
// in the food table.
func keysOf(rng *rand.Rand) (*Grid, []string) {
	g := NewGrid("~food", "NDB", "=pack", ">holds", ">price", "~allergens")
	var keys []string
	for range 12 {
		key := strings.Repeat("whole-grain-", 1+rng.IntN(2)) + strings.Repeat("x", 1+rng.IntN(8)) + "-1.42l-bottle"
		keys = append(keys, key)
		g.Row("grains and what is made of them", strings.Repeat("oats, rolled ", 1+rng.IntN(5)), "20044", key, "1.13 kg", "1,234.50", strings.Repeat("tree-nut; ", rng.IntN(6)))
	}
	return g, keys
}

// From 60 to 200 columns no key is broken, every line keeps the width, and no
// figure is broken either.
func TestKeysNeverBreak(t *testing.T) {
	g, keys := keysOf(rand.New(rand.NewPCG(3, 4)))
	for limit := 60; limit <= 200; limit++ {
		text := fitted(t, &Sheet{Sections: []Section{{Title: "Foods", Table: g, Notes: []string{strings.Repeat("word ", 80)}}}}, limit)
		for _, key := range keys {
			if !strings.Contains(text, key) {
				t.Fatalf("at %d columns %s is broken in\n%s", limit, key, text)
			}
		}
		for line := range strings.Lines(text) {
			if n := width(strings.TrimRight(line, "\n")); n > limit {
				t.Fatalf("at %d columns a line takes %d: %s", limit, n, line)
			}
		}
		if strings.Count(text, "1,234.50") != 12 || strings.Count(text, "1.13 kg") != 12 {
			t.Fatalf("at %d columns a figure is broken in\n%s", limit, text)
		}
	}
}

// TestKeysLeaveBeforeFiguresBreak: where a wide figure and a key stand beside each other in
// too little room, the key goes on a line of its own and the figure stays whole.
func TestKeysLeaveBeforeFiguresBreak(t *testing.T) {
	g := NewGrid("=key", ">figure")
	g.Row("", "rice-1kg-bag", "1,234,567,890.00 kg a year")
	for limit := 26; limit <= 60; limit++ { // the figure takes 26
		text := fitted(t, &Sheet{Sections: []Section{{Table: g}}}, limit)
		own := strings.Contains(text, "\n    rice-1kg-bag\n")
		if beside := limit >= 12+2+26; own == beside || !strings.Contains(text, "1,234,567,890.00 kg a year") {
			t.Errorf("at %d columns the key has a line of its own: %v\n%s", limit, own, text)
		}
	}
}

// TestTallNames: a tall name takes two lines and the fewest columns with which it does, and
// no word of it is broken.
func TestTallNames(t *testing.T) {
	for name, want := range map[string]int{
		"need of one day": 7, // need of / one day; in three lines it would be 6
		"two words":       5, "a b": 1, "word": 4, "a b c": 3, "of a year": 4, "": 1, "fifteen letters": 7,
	} {
		if got := (&Heading{Name: name, tall: true}).nameWidth(); got != want {
			t.Errorf("%q takes %d columns, want %d", name, got, want)
		}
		if got := (&Heading{Name: name}).nameWidth(); got != len(name) {
			t.Errorf("%q in one line takes %d columns", name, got)
		}
	}
}

// Numbers stand to the right, text to the left, a title over its rows, a column
// wraps inside its own width (34 columns less 3, 4 and 5 and three gaps are 16), and prose stays readable on a wide terminal.
func TestTableIsSet(t *testing.T) {
	g := NewGrid("~what", ">n", "=key", "^two words")
	g.Row("first", "a long text that goes on", "7", "k-1", "1")
	g.Row("first", "b", "123", "k-22", "22")
	g.Row("second", "c", "1", "k", "3")
	got := fitted(t, &Sheet{Alerts: []string{"BAD NEWS"}, Sections: []Section{{Title: "Title", Lead: []string{"- " + strings.Repeat("x ", 20)}, Table: g}}}, 34)
	want := `BAD NEWS

TITLE
- x x x x x x x x x x x x x x x x
  x x x x
what                n  key     two
                             words
----------------  ---  ----  -----
first:
a long text that    7  k-1       1
goes on
b                 123  k-22     22
second:
c                   1  k         3
`
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	for line := range strings.Lines(fitted(t, &Sheet{Sections: []Section{{Lead: []string{strings.Repeat("word ", 80)}}}}, 200)) {
		if width(line) > MaxColumns+1 {
			t.Errorf("prose of %d columns", width(line))
		}
	}
}

// What is from memory carries a mark, and the legend stands once at the end, only
// where something is marked.
func TestFromMemoryIsAMark(t *testing.T) {
	g := NewGrid("~source")
	g.Row("", "a table (from memory)")
	got := fitted(t, &Sheet{Sections: []Section{{Lead: []string{"- Drink (CDC (from memory))."}, Table: g}}}, 80)
	if strings.Count(got, "from memory") != 1 || strings.Count(got, "†") != 3 || !strings.Contains(got, "- Drink (CDC†).") || !strings.HasSuffix(got, "\n\n† from memory: the figure was written down without its source at hand.\n") {
		t.Errorf("got\n%s", got)
	}
	if got := fitted(t, &Sheet{Sections: []Section{{Lead: []string{"Drink (CDC)."}}}}, 80); got != "Drink (CDC).\n" {
		t.Errorf("got\n%s", got)
	}
}

// A section with nothing to say is left out, with the notes about its table.
func TestEmptySections(t *testing.T) {
	s := &Sheet{}
	s.Add(Section{Title: "Nothing"}, Section{Title: "Table", Table: NewGrid("a"), Notes: []string{"about the table"}}, Section{Title: "Lead", Table: NewGrid("a"), Lead: []string{"said"}, Notes: []string{"about"}})
	if len(s.Sections) != 1 || s.Sections[0].Title != "Lead" || s.Sections[0].Table != nil || s.Sections[0].Notes != nil {
		t.Errorf("%+v", s.Sections)
	}
	sec := Section{}
	sec.List("Rules:", nil)
	sec.List("Care:", []string{"- a"})
	if len(sec.Notes) != 2 || sec.Notes[0] != "Care:" {
		t.Errorf("%q", sec.Notes)
	}
}

func TestWords(t *testing.T) {
	for got, want := range map[string]string{
		Count(1, "pack", "packs"): "1 pack", Count(2345, "pack", "packs"): "2,345 packs", Count(0, "pack", "packs"): "0 packs",
		Sentence("ål is a fish "): "Ål is a fish.", Sentence("Stop!"): "Stop!", Sentence("is it so?"): "Is it so?", Sentence(""): "", Capital("a."): "A",
		Sourced("a rule.", "USDA."): "A rule (USDA).", Sourced("a rule", " "): "A rule.",
		Names(nil): "", Names([]string{"A\x1b"}): "A ", Names([]string{"A", "B"}): "A and B", Names([]string{"A", "B", "C"}): "A, B and C",
		Nutrient("dark-green-vegetables"): "dark green vegetables", Signed("2", 2): "+2", Signed("-2", -2): "-2",
	} {
		if got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

// TestLines: a line is said, or only where it holds.
func TestLines(t *testing.T) {
	var l Lines
	l.Say("%d of %s", 2, "them")
	l.If(false, "never")
	l.If(true, "%d %%", 3)
	if want := []string{"2 of them", "3 %"}; !slices.Equal(l, want) {
		t.Errorf("%q, want %q", l, want)
	}
}

// TestSectionsApart: an empty line stands between sections, none before the first; what is
// noted of a table follows it.
func TestSectionsApart(t *testing.T) {
	g := NewGrid("", ">n")
	g.Row("", "a", "1")
	got := fitted(t, &Sheet{Sections: []Section{{Lead: []string{"one"}}, {Title: "Two", Table: g, Notes: []string{"about it"}}}}, 80)
	if want := "one\n\nTWO\n   n\n-  -\na  1\nabout it\n"; got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// TestWidestGivesWayFirst: of two long texts of 40 and 20 columns that are to fit in 50 with
// a gap of 2, the one of 40 is set in 28; of 40 and 39 both come to 24.
func TestWidestGivesWayFirst(t *testing.T) {
	for second, want := range map[int]string{20: strings.Repeat("-", 28) + "  " + strings.Repeat("-", 20), 39: strings.Repeat("-", 24) + "  " + strings.Repeat("-", 24)} {
		g := NewGrid("~a", "~b")
		g.Row("", strings.Repeat("x ", 20)[:39]+"x", strings.Repeat("y ", 20)[:second-1]+"y")
		if got := strings.Split(fitted(t, &Sheet{Sections: []Section{{Table: g}}}, 50), "\n")[1]; got != want {
			t.Errorf("40 and %d columns in 50: %q, want %q", second, got, want)
		}
	}
}

// TestKeysAlone: a table of keys that are too wide for it is a line a key, and no empty ones;
// a key of just the width stays whole.
func TestKeysAlone(t *testing.T) {
	g := NewGrid("=key", "=other")
	g.Row("", "rice-1kg-bag", "oats-500-bag")
	if got, want := fitted(t, &Sheet{Sections: []Section{{Table: g}}}, 16), "    rice-1kg-bag\n    oats-500-bag\n"; got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if got, want := fitted(t, &Sheet{Sections: []Section{{Table: g}}}, 15), "    rice-1kg-\n    bag\n    oats-500-\n    bag\n"; got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	for n, want := range map[int]string{-3: "a|b|c", 0: "a|b|c", 1: "a|b|c", 3: "a b|c", 5: "a b c"} {
		if got := strings.Join(wrap("a b c", n), "|"); got != want {
			t.Errorf("in %d columns: %q, want %q", n, got, want)
		}
	}
}

package kinds

import (
	"slices"
	"strings"
	"testing"
)

func load(t testing.TB) *Table {
	t.Helper()
	tab, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	return tab
}

// TestEveryWordIsNeeded fails on a word that means what another word of its kind
// means already: a plural, a spelling, a container in front.
func TestEveryWordIsNeeded(t *testing.T) {
	tab := load(t)
	for _, k := range tab.Kinds {
		seen := map[string]string{}
		for _, word := range k.Words() {
			key := tab.Fold(word)
			if first, twice := seen[key]; twice {
				t.Errorf("%s: %q says the same as %q", k.Name, word, first)
			}
			seen[key] = word
		}
		for _, word := range k.Also {
			rest, packed := tab.Unpacked(word)
			if kind, sense := tab.Find(rest); packed && kind == k && sense == nil {
				t.Errorf("%s: %q is found without its container", k.Name, word)
			}
		}
	}
}

func TestFindWords(t *testing.T) {
	tab := load(t)
	for _, k := range tab.Kinds {
		for _, word := range k.Words() {
			for _, written := range []string{word, strings.ToUpper(word), "  " + word + ". "} {
				if got, _ := tab.Find(written); got != k {
					t.Errorf("Find(%q) = %v, want %s", written, got, k.Name)
				}
			}
		}
	}
}

// Pairs of words that one shop writes so and another so.
func TestOneKindTwoSpellings(t *testing.T) {
	tab := load(t)
	for _, pair := range [][2]string{
		{"wholewheat pasta", "whole wheat pasta"}, {"liver pâté", "liver pate"}, {"soy milk", "Soya Milk"},
		{"corn flour", "cornflour"}, {"tinned tomatoes", "canned tomato"}, {"chick peas", "chickpeas"},
		{"raisin", "RAISINS"}, {"peaches", "peach"}, {"anchovy", "anchovies"}, {"cows' milk", "cow's milk"},
		{"beans, baked", "baked beans"}, {"non-fat milk", "nonfat milk"}, {"flavored milk", "flavoured milk"},
		{"long life milk", "long-life milk"}, {"cow’s milk", "cow's milk"},
	} {
		a, _ := tab.Find(pair[0])
		b, _ := tab.Find(pair[1])
		if a == nil || a != b {
			t.Errorf("Find(%q) = %v, Find(%q) = %v, want one kind", pair[0], a, pair[1], b)
		}
	}
}

func TestUnpacked(t *testing.T) {
	tab := load(t)
	for _, test := range []struct {
		name, rest string
		ok         bool
	}{
		{"tin of sardines", "sardine", true},
		{"Tinned sardines", "sardine", true},
		{"a jar of jam", "jam", true},
		{"packets of rice", "rice", true},
		{"long-life milk", "milk", true},
		{"long life milk", "milk", true},
		{"box of", "", false},
		{"bar chocolate", "", false},
		{"sardines", "", false},
		{"", "", false},
	} {
		if rest, ok := tab.Unpacked(test.name); rest != test.rest || ok != test.ok {
			t.Errorf("Unpacked(%q) = %q, %v, want %q, %v", test.name, rest, ok, test.rest, test.ok)
		}
	}
}

func TestNesting(t *testing.T) {
	tab := load(t)
	for _, inner := range []struct{ kind, outer string }{
		{"sardines", "oily fish"}, {"oily fish", "fish"}, {"fish", "seafood"}, {"rolled oats", "oats"}, {"oats", "porridge cereals"},
	} {
		a, b := tab.Kind(inner.kind), tab.Kind(inner.outer)
		if a == nil || b == nil || !a.Within(b) || b.Within(a) {
			t.Errorf("%s does not lie within %s", inner.kind, inner.outer)
			continue
		}
		if !slices.Contains(b.Holds(tab), a) || !slices.Contains(a.Inside(tab), b) {
			t.Errorf("Holds and Inside do not say that %s lies within %s", inner.kind, inner.outer)
		}
		for _, ndb := range a.Foods {
			if of := tab.Of(ndb); slices.Index(of, a) > slices.Index(of, b) || !slices.Contains(of, b) {
				t.Errorf("Of(%s) = %v, want %s before %s", ndb, of, a.Name, b.Name)
			}
		}
	}
	if k := tab.Kind("no such kind"); k != nil {
		t.Errorf("Kind of nonsense = %v", k)
	}
}

// TestSenses checks that every word of words.csv says something, and that what
// must be asked means nothing by itself.
func TestSenses(t *testing.T) {
	tab := load(t)
	for key, s := range tab.senses {
		kind, sense := tab.Find(s.Word)
		if sense != s || kind != s.Means {
			t.Errorf("Find(%q) = %v, %v, want its own row", s.Word, kind, sense)
		}
		if len(s.CouldMean) == 0 && s.Note == "" {
			t.Errorf("%s could mean nothing else and says nothing", key)
		}
		if s.Means == nil && len(s.CouldMean) == 0 && s.Note == "" {
			t.Errorf("%s must be asked and offers nothing", key)
		}
		if slices.Contains(s.CouldMean, s.Means) {
			t.Errorf("%s could mean what it means", key)
		}
	}
}

func FuzzFind(f *testing.F) {
	tab := load(f)
	for _, seed := range []string{"", " ", "tin of", "a tin of tins of", "p\u00e2t\u00e9", "\u00ad\u202etuna", "\x00\xff", "''''", strings.Repeat("canned ", 50), "ss", "ies"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, word string) {
		key := tab.Fold(word)
		if strings.HasPrefix(key, " ") || strings.Contains(key, "  ") {
			t.Errorf("Fold(%q) = %q: blanks", word, key)
		}
		kind, sense := tab.Find(word)
		if key == "" && (kind != nil || sense != nil) {
			t.Errorf("Find(%q) finds %v %v with an empty key", word, kind, sense)
		}
		if again, _ := tab.Find("  " + strings.ToUpper(word) + " "); kind != nil && len(word) < mostWord-3 && isASCII(word) && again != kind {
			t.Errorf("Find(%q) = %v, in capitals %v", word, kind, again)
		}
		rest, ok := tab.Unpacked(word)
		if ok && len(rest) >= len(key)+1 {
			t.Errorf("Unpacked(%q) = %q is longer", word, rest)
		}
	})
}

func isASCII(s string) bool {
	return !strings.ContainsFunc(s, func(r rune) bool { return r > 126 })
}

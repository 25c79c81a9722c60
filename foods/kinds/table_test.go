package kinds

import (
	"errors"
	"maps"
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
		{"a potato", "potato", true},
		{"the potatoes", "potato", true},
		{"some rice", "rice", true},
		{"a", "", false},
		{"tin", "", false},
		{"a tin", "can", true}, // tin is read as can
		{"tin of", "", false},
	} {
		if rest, ok := tab.Unpacked(test.name); rest != test.rest || ok != test.ok {
			t.Errorf("Unpacked(%q) = %q, %v, want %q, %v", test.name, rest, ok, test.rest, test.ok)
		}
	}
}

// Two names are one where only case, accents, apostrophes, blanks or the number tell them apart; short
// words keep their ending.
func TestFold(t *testing.T) {
	tab := load(t)
	for _, c := range []struct{ name, want string }{
		{"Pâté", "pate"}, {"pa\u0302te\u0301", "pate"}, {"cow’s milk", "cow milk"}, {"cow's milk", "cow milk"}, {"2% milk", "2percent milk"}, {"salt & pepper", "salt and pepper"},
		{"berries", "berry"}, {"cries", "cry"}, {"pies", "pie"}, {"potatoes", "potato"}, {"toes", "toe"}, {"shoes", "sho"}, {"peaches", "peach"}, {"radishes", "radish"}, {"boxes", "box"}, {"axes", "axe"}, {"glasses", "glass"},
		{"as", "as"}, {"gas", "ga"}, {"glass", "glass"}, {"hummus", "hummus"}, {"basis", "basis"}, {"peas", "pea"},
		{"  tea -- green; ", "tea green"}, {"...", ""}, {strings.Repeat("a", 200), strings.Repeat("a", 200)}, {strings.Repeat("a", 201), ""},
	} {
		if got := tab.Fold(c.name); got != c.want {
			t.Errorf("Fold(%q) = %q, want %q", c.name, got, c.want)
		}
	}
}

// A word is found by itself, without its blanks, and in any order of its words, but where two kinds
// share such a key: then only by itself.
func TestKeysOfWords(t *testing.T) {
	tab := &Table{words: map[string]*Kind{}, joined: map[string]*Kind{}, sorted: map[string]*Kind{}, senses: map[string]*Sense{}}
	a, b, c := &Kind{Name: "a"}, &Kind{Name: "b"}, &Kind{Name: "c"}
	for _, w := range []struct {
		word  string
		kind  *Kind
		other *Kind
	}{
		{"oat bran", a, nil}, {"Oat Brans", b, a}, {"oat bran", a, a}, // taken already
		{"corn flour", b, nil}, {"cornflour white", c, nil}, {"corn flour white", b, nil}, // joined alike
		{"bean green", a, nil}, {"green bean", b, nil}, // alike in order
		{"nut butter spread", a, nil}, {"spread nut butter", a, nil}, // of one kind
	} {
		if other := tab.addWord(w.word, w.kind); other != w.other {
			t.Errorf("%q of %s: had by %v, want %v", w.word, w.kind.Name, other, w.other)
		}
	}
	for word, want := range map[string]*Kind{
		"oat bran": a, "oatbran": a, "bran, oat": a, "oat-brans": a, "branoat": nil,
		"cornflour": b, "flour corn": b, "cornflour white": c, "corn flour white": b, "cornflourwhite": nil, "white cornflour": c, "white corn flour": b,
		"green bean": b, "bean green": a, "greenbean": b, "beangreen": a, "butter nut spread": a, "nutbutterspread": a, "": nil, "oat": nil,
	} {
		if got, sense := tab.Find(word); got != want || sense != nil {
			t.Errorf("Find(%q) = %v, %v, want %v", word, got, sense, want)
		}
	}
	// What must be asked means nothing; what is said of a kind's name holds of its other words, and what
	// is said of another word does not.
	ask, says := &Sense{Word: "bran", CouldMean: []*Kind{a}}, &Sense{Word: "a", Means: a, Note: "a note"}
	tab.addWord("a", a)
	tab.senses["bran"], tab.senses["a"] = ask, says
	tab.senses["b"] = &Sense{Word: "b", Means: c}
	for word, want := range map[string]struct {
		kind  *Kind
		sense *Sense
	}{"brans": {nil, ask}, "a": {a, says}, "oat bran": {a, says}, "bran oat": {a, says}, "corn flour": {b, nil}} {
		if kind, sense := tab.Find(word); kind != want.kind || sense != want.sense {
			t.Errorf("Find(%q) = %v, %v, want %v, %v", word, kind, sense, want.kind, want.sense)
		}
	}
}

// The kinds of a food stand with the smallest first, and by name where two are as small.
func TestKindsOfAFoodInOrder(t *testing.T) {
	tab := load(t)
	alike := 0
	for ndb := range tab.of {
		of := tab.Of(ndb)
		for i := 1; i < len(of); i++ {
			a, b := of[i-1], of[i]
			if len(a.Foods) > len(b.Foods) || len(a.Foods) == len(b.Foods) && a.Name >= b.Name {
				t.Errorf("%s: %s of %d before %s of %d", ndb, a.Name, len(a.Foods), b.Name, len(b.Foods))
			}
			if len(a.Foods) == len(b.Foods) {
				alike++
			}
		}
	}
	if alike == 0 {
		t.Error("no two kinds of a food are as small: their names are not tried")
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
		if a.Within(a) || slices.Contains(a.Holds(tab), a) {
			t.Errorf("%s lies within itself", a.Name)
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

// TestAWordMeansOneThing: a word of a kind is no word that must be asked, nor one that means
// another kind; one that means its own kind may have other meanings beside it. It has one row.
func TestAWordMeansOneThing(t *testing.T) {
	tab := load(t)
	for _, c := range []struct {
		word, of string // of words.csv; the kind that has the word too
		faulty   bool
	}{{"tinned milk", "evaporated milk", true}, {"lard", "ghee", true}, {"lard", "shortening", false}} {
		if tab.senses[tab.Fold(c.word)] == nil || tab.Kind(c.of) == nil {
			t.Fatalf("%s or %s is not there", c.word, c.of)
		}
		with := *tab
		with.words, with.senses = maps.Clone(tab.words), map[string]*Sense{}
		with.words[tab.Fold(c.word)] = tab.Kind(c.of)
		err := with.readSenses()
		if errors.Is(err, errTwice) != c.faulty || c.faulty != (err != nil) || err != nil && !strings.Contains(err.Error(), "a word of "+c.of) {
			t.Errorf("%s a word of %s: %v, faulty %v", c.word, c.of, err, c.faulty)
		}
	}
	twice := *tab
	twice.senses = map[string]*Sense{tab.Fold("lard"): {Word: "lard"}}
	if err := twice.readSenses(); !errors.Is(err, errTwice) {
		t.Errorf("a second row of lard: %v", err)
	}
}

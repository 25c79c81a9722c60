package foods

import (
	"errors"
	"regexp"
	"slices"
	"strings"
	"testing"

	"rationwright/foods/kinds"
)

// TestEveryWordResolves asks the table for every word of every kind: it must
// mean the foods of the kind, all of them and no others.
func TestEveryWordResolves(t *testing.T) {
	tab := load(t)
	for _, k := range tab.Kinds().Kinds {
		for _, word := range k.Words() {
			m, err := tab.Resolve(word)
			if err != nil || m.Kind != k {
				t.Errorf("Resolve(%q) = %+v, %v, want %s", word, m, err, k.Name)
				continue
			}
			var got []string
			for _, f := range m.Foods {
				got = append(got, f.NDB)
			}
			if !slices.Equal(got, k.Foods) {
				t.Errorf("Resolve(%q) = %q, want %q", word, got, k.Foods)
			}
		}
	}
}

// TestEveryFoodHasAWord checks that people who know no food table reach every
// food by a word that takes in few others: six at most.
func TestEveryFoodHasAWord(t *testing.T) {
	const few = 6
	tab := load(t)
	for _, f := range tab.Foods {
		if len(f.Kinds) == 0 {
			t.Errorf("%s lies in no kind", f.Name)
			continue
		}
		if k := tab.Kinds().Kind(f.Kinds[0]); len(k.Foods) > few {
			t.Errorf("the smallest kind of %s is %s with %d foods", f.Name, k.Name, len(k.Foods))
		}
		m, err := tab.Resolve(f.Name)
		if err != nil || !slices.Contains(m.Foods, f) {
			t.Errorf("Resolve(%q) = %v, %v: not that food", f.Name, m, err)
		}
		if one, err := tab.Food(f.Name); err != nil || one != f {
			t.Errorf("Food(%q) = %v, %v", f.Name, one, err)
		}
	}
}

// TestKindsAreOfOneMeaning: a kind that means what a mark, an allergen, a group or what a food
// serves means too holds the same foods, but for those named here.
func TestKindsAreOfOneMeaning(t *testing.T) {
	tab := load(t)
	tag := func(tag string) func(*Food) bool { return func(f *Food) bool { return f.HasTag(tag) } }
	group := func(name string) func(*Food) bool { return func(f *Food) bool { return f.Group == name } }
	allergen := func(a string) func(*Food) bool {
		return func(f *Food) bool { return slices.Contains(f.Allergens, a) }
	}
	serves := func(g string) func(*Food) bool {
		return func(f *Food) bool {
			return slices.ContainsFunc(f.Serves, func(s Serving) bool { return s.Group == g })
		}
	}
	for _, c := range []struct {
		kind        string
		is          func(*Food) bool
		less, extra string // foods that are so and not of the kind, and of the kind and not so; parted by ;
	}{
		{"caffeine foods", tag("caffeine"), "", ""},
		{"infant formula", tag(TagInfantFormula), "", ""},
		{"baby food", tag("infant-food"), "", ""},
		{"eggs", tag("egg-raw"), "", ""},
		{"sugary drinks", tag("sugary-drink"), "", ""},
		{"fruit juice", tag("juice"), "", ""},
		{"fish with soft bones", tag("bones"), "", ""},
		{"fish", allergen("fish"), "", ""},
		{"fish in portions", allergen("fish"), "anchovies in oil, drained", ""},
		{"seafood", serves("seafood"), "", ""},
		{"seafood", group("canned fish"), "", ""},
		{"juice", group("juice"), "", ""},
		{"dried fruit and fruit chips", group("dried fruit"), "", ""},
		{"dried fruit", group("dried fruit"), "banana chips", ""},
		{"canned fruit", group("canned fruit"), "cranberry sauce", ""},
		{"canned beans", group("canned beans"), "", ""},
		{"dry pulses", group("dried beans and lentils"), "", ""},
		{"meat", group("canned meat and poultry"), "", ""},
		{"processed meat", tag("salt-meat"), "", "chicken liver pate, canned"},
		{"ready meals", group("canned and boxed meals"), "", ""},
		{"canned meals", group("canned and boxed meals"), "macaroni and cheese, boxed, dry", ""},
		{"soups", group("soups"), "", ""},
		{"pasta and noodles of every kind", group("pasta and noodles"), "", ""},
		{"baking goods", group("flour and baking"), "", ""},
		{"flours", tag("raw-flour"), "", "cornmeal, degermed, enriched"},
		{"bread and crackers of every kind", group("bread and crackers"), "", ""},
		{"grains to boil", group("grains"), "hominy, white, canned", ""},
		{"pure seasonings", group("seasonings"), "beef gravy, canned", ""},
		{"cooking fats", group("fats and oils"), "mayonnaise", ""},
		{"cow's milk", group("milk"), "cheese spread;parmesan cheese, grated", ""},
		{"sugars and sweets", group("sweets and spreads"), "granola bars", "sweetened condensed milk"},
	} {
		less, extra := strings.Split(c.less, ";"), strings.Split(c.extra, ";")
		if len(tab.ofKind(c.kind)) == 0 {
			t.Errorf("no food is of %s", c.kind)
		}
		for _, f := range tab.Foods {
			want := c.is(f) && !slices.Contains(less, f.Name) || slices.Contains(extra, f.Name)
			if got := slices.Contains(f.Kinds, c.kind); got != want {
				t.Errorf("%s is of %s: %v; by its other marks %v", f.Name, c.kind, got, want)
			}
		}
	}
}

// TestWhatHoldsCaffeine: all that the USDA's own words say is coffee, tea, cocoa or chocolate
// holds caffeine, the decaffeinated a little, and counts towards what is eaten of it.
func TestWhatHoldsCaffeine(t *testing.T) {
	words := regexp.MustCompile(`(?i)\b(coffee|tea|cocoa|cacao|chocolate|cola|guarana)\b`)
	found := 0
	for _, f := range load(t).Foods {
		if !words.MatchString(f.Description) {
			continue
		}
		found++
		if !f.HasTag("caffeine") || !slices.Contains(f.Kinds, "caffeine foods") || f.Counts(kinds.MgCaffeine) <= 0 {
			t.Errorf("%s (USDA: %s): marked %v, kinds %v, counts %g mg a gram", f.Name, f.Description, f.Tags, f.Kinds, f.Counts(kinds.MgCaffeine))
		}
	}
	if found < 9 {
		t.Errorf("%d foods of coffee, tea or cocoa, the USDA rows have at least 9", found)
	}
}

// TestKindsNameFoods fails when a kind names a food that the table lacks.
func TestKindsNameFoods(t *testing.T) {
	tab := load(t)
	for _, k := range tab.Kinds().Kinds {
		for _, ndb := range k.Foods {
			if tab.byNDB(ndb) == nil {
				t.Errorf("%s names NDB %s, which the table lacks", k.Name, ndb)
			}
		}
	}
}

func TestAmbiguousWords(t *testing.T) {
	tab := load(t)
	for _, word := range []string{"butter", "tin of butter", "biscuits", "bread", "tomato puree", "tomato purée"} {
		_, err := tab.Resolve(word)
		ambiguous := (*AmbiguousError)(nil)
		if !errors.As(err, &ambiguous) || !errors.Is(err, ErrAmbiguous) {
			t.Errorf("Resolve(%q): %v, want an AmbiguousError", word, err)
			continue
		}
		if ambiguous.Name != word || len(ambiguous.Choices) < 2 {
			t.Errorf("Resolve(%q): %+v, want two choices or more", word, ambiguous)
		}
		for _, choice := range ambiguous.Choices {
			if _, err := tab.Resolve(choice); err != nil {
				t.Errorf("%q offers %q, which means nothing: %v", word, choice, err)
			}
		}
	}
	for word, want := range map[string]string{"corn": "sweetcorn", "tinned fish": "fish", "rice": "rice", "tomato sauce": "tomato sauce"} {
		m, err := tab.Resolve(word)
		if err != nil || m.Name != want || len(m.Else) == 0 || !strings.Contains(m.Said(), word) {
			t.Errorf("Resolve(%q) = %+v, %v, want %s and what else it could mean", word, m, err, want)
		}
	}
	if m, err := tab.Resolve("honey"); err != nil || m.Said() != "" {
		t.Errorf("Resolve(honey) = %+v, %v, want nothing to say", m, err)
	}
}

// A food of the user's own lies in the kinds of the foods like it, and the words
// for these mean it too.
func TestOwnFoodHasKinds(t *testing.T) {
	tab := load(t)
	const own = `ndb,name,group,form,allergens,tags,texture,energy_kcal,protein_g,fat_g,carbohydrate_g
U001,island oats,breakfast cereals,oats_rolled,none,gluten;oats,soft,370,13,7,60
U002,butter,fats and oils,ghee,milk,animal,soft,740,1,82,1
`
	if _, err := tab.ReadFoods("own.csv", strings.NewReader(own)); err != nil {
		t.Fatal(err)
	}
	for _, word := range []string{"porridge cereals", "island oats"} {
		m, err := tab.Resolve(word)
		if err != nil || !slices.ContainsFunc(m.Foods, func(f *Food) bool { return f.NDB == "U001" }) {
			t.Errorf("Resolve(%q) = %v, %v, want U001 among them", word, m, err)
		}
	}
	if m, err := tab.Resolve("butter"); err != nil || len(m.Foods) != 1 || m.Foods[0].NDB != "U002" {
		t.Errorf("Resolve(butter) = %v, %v, want the user's own butter", m, err)
	}
}

// What is said of a name that means several things, one that is not certain, or none, and
// of a word that could have been meant otherwise.
func TestWordsOfANameFault(t *testing.T) {
	near := func(names ...string) func() []string { return func() []string { return names } }
	for _, test := range []struct {
		err       error
		what, fix string
	}{
		{&AmbiguousError{Name: "butter", Choices: []string{"ghee", "peanut butter"}}, `"butter" could mean "ghee" or "peanut butter"`, "write the one that is meant"},
		{&AmbiguousError{Name: "butter", Choices: []string{"ghee", "peanut butter"}, Note: "and 3 more"}, `"butter" could mean "ghee" or "peanut butter" (and 3 more)`, "write the one that is meant"},
		{&AmbiguousError{Name: "butter", Choices: []string{"ghee"}}, `"butter" is not certain to mean "ghee"`, `write "ghee" if that is meant`},
		{&AmbiguousError{Name: "butter", Choices: []string{"ghee"}, Note: "in the north"}, `"butter" is not certain to mean "ghee" (in the north)`, `write "ghee" if that is meant`},
		{&AmbiguousError{Name: "tin", Note: "a container"}, `"tin" is no food of its own: a container`, "name the foods that are meant"},
		{&UnknownError{What: "food", Name: "oatz", near: near("oats", "oat bran")}, `no food is called "oatz"`, `did you mean "oats" or "oat bran"?`},
		{&UnknownError{What: "food", Name: "qqq", near: near()}, `no food is called "qqq"`, `"rationwright foods list" has all names`},
	} {
		what, fix, ok := NameFault(test.err)
		if what != test.what || fix != test.fix || !ok {
			t.Errorf("%v: %q, %q, %v, want %q and %q", test.err, what, fix, ok, test.what, test.fix)
		}
		if ambiguous := (*AmbiguousError)(nil); errors.As(test.err, &ambiguous) && test.err.Error() != test.what+"; "+test.fix {
			t.Errorf("%v, want %s; %s", test.err, test.what, test.fix)
		}
	}
	if what, fix, ok := NameFault(errors.New("no disk")); ok || what != "" || fix != "" {
		t.Errorf("another error: %q, %q, %v", what, fix, ok)
	}
	for _, test := range []struct {
		m    Meaning
		want string
	}{
		{Meaning{Word: "oats", Name: "oats"}, ""},
		{Meaning{Word: "corn", Name: "sweetcorn", Else: []string{"maize", "popcorn"}}, `"corn" is taken to mean sweetcorn; it could also mean "maize" or "popcorn"`},
		{Meaning{Word: "corn", Name: "sweetcorn", Note: "in cans"}, `"corn" is taken to mean sweetcorn (in cans)`},
		{Meaning{Word: "corn", Name: "sweetcorn", Note: "in cans", Else: []string{"maize"}}, `"corn" is taken to mean sweetcorn (in cans); it could also mean "maize"`},
	} {
		if got := test.m.Said(); got != test.want {
			t.Errorf("%+v: %q, want %q", test.m, got, test.want)
		}
	}
}

// A food is found by its name without its commas too; two that are compared alike by
// neither. What is one's own and bears the word of a kind is in it once.
func TestNamesComparedAlike(t *testing.T) {
	tab := load(t)
	for _, f := range tab.Foods {
		if got := tab.byName(strings.ReplaceAll(f.Name, ",", "")); got != f {
			t.Errorf("%s without commas: %v", f.Name, got)
		}
	}
	const own = "ndb,name,group,form,allergens,tags,texture,energy_kcal,protein_g,fat_g,carbohydrate_g\n"
	row := func(key, name string) string {
		return key + ",\"" + name + "\",breakfast cereals,oats_rolled,none,gluten;oats,soft,370,13,7,60\n"
	}
	if _, err := tab.ReadFoods("own.csv", strings.NewReader(own+row("U001", "oats")+row("U002", "island, groats")+row("U003", "island groats!"))); err != nil {
		t.Fatal(err)
	}
	m, err := tab.Resolve("oats")
	if err != nil || m.Kind == nil {
		t.Fatalf("oats: %+v, %v", m, err)
	}
	n := 0
	for _, f := range m.Foods {
		if f.NDB == "U001" {
			n++
		}
	}
	if n != 1 {
		t.Errorf("one's own oats are %d times among oats", n)
	}
	if f, err := tab.Food("island, groats"); err != nil || f.NDB != "U002" {
		t.Errorf("by its exact name: %v, %v", f, err)
	}
	if f := tab.byName("Island groats"); f != nil {
		t.Errorf("a name of two is taken for %s", f.NDB)
	}
}

// What is near a name means several things, each once, and every kind of name is among it:
// words for kinds, foods, shop groups and groups of the pattern.
func TestNearestMeansSeveral(t *testing.T) {
	tab := load(t)
	for name, want := range map[string]string{
		"whole-grain": "whole-grains", "nuts-seeds-so": "nuts-seeds-soy", "bread and craker": "bread and crackers", "sardins": "sardines",
		"peaches in juice, caned": "peaches in juice, canned", "evaporated milk, vitamin": "evaporated milk, vitamin D", "beans": "", "rice": "", "oat": "",
	} {
		near := tab.Nearest(name)
		if want != "" && !slices.Contains(near, want) || len(near) == 0 || len(near) > 3 {
			t.Errorf("near %s: %q, want %q among at most three", name, near, want)
		}
		means := map[string]bool{}
		for _, n := range near {
			what := n
			if m, err := tab.Resolve(n); err == nil {
				what = m.Name
			}
			if means[what] {
				t.Errorf("near %s: %q, of which two mean %s", name, near, what)
			}
			means[what] = true
		}
	}
}

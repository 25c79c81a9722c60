package foods

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"rationwright/nutrients"
)

// said writes findings as severity and check, sorted.
func said(list []Finding) string {
	var words []string
	for _, f := range list {
		words = append(words, fmt.Sprintf("%s %s", f.Severity, f.Check))
	}
	slices.Sort(words)
	return strings.Join(words, ", ")
}

// Each rule about words, tags and use, kept and broken by itself: a food is as those of
// the table are, but for the one change.
func TestRulesOfVerify(t *testing.T) {
	tab := load(t)
	plain := func() *Food {
		f := figures(map[nutrients.Nutrient]float64{nutrients.Sodium: 5, nutrients.AddedSugars: 0, nutrients.Cholesterol: 0})
		f.Name, f.Description, f.Group, f.Texture, f.Class, f.Form = "millet", "Millet, raw", "grains", "soft", "ready to eat", "rice_white"
		f.Source, f.Verified, f.OccasionG, f.DayG, f.HasLactose = "test", "yes", 50, 100, true
		f.Serves = []Serving{{"grains", 3}}
		f.Keeping, f.Preparation, f.Packs = &Keeping{}, &Preparation{}, []*Pack{{}}
		return f
	}
	all := func(v *verifier, f *Food) {
		v.words(f)
		v.allergens(f)
		v.tags(f)
		v.animal(f)
		v.pieces(f)
		v.use(f)
	}
	tags := func(words ...string) func(*Food) { return func(f *Food) { f.Tags = words } }
	has := func(n nutrients.Nutrient, v float64, words ...string) func(*Food) {
		return func(f *Food) { f.Per100g[n], f.Tags = v, words }
	}
	called := func(words string, tags ...string) func(*Food) {
		return func(f *Food) { f.Description, f.Tags = words, tags }
	}
	beans := func(change func(*Food)) func(*Food) {
		return func(f *Food) { f.Group, f.Serves = "canned beans", []Serving{{"beans", 1}}; change(f) }
	}
	holding := func(allergen string, words ...string) func(*Food) {
		return func(f *Food) { f.Allergens, f.Tags = []string{allergen}, words }
	}
	soyDrink := func(calcium, d float64, allergen string, words ...string) func(*Food) {
		return func(f *Food) {
			f.Per100g[nutrients.Calcium], f.Per100g[nutrients.VitaminD] = calcium, d
			f.Allergens, f.Tags = []string{allergen}, append(words, TagFortifiedSoy)
		}
	}
	fish := func(allergens []string, mercury string, words ...string) func(*Food) {
		return func(f *Food) {
			f.Group, f.Serves, f.Allergens, f.Mercury, f.Tags = "canned fish", []Serving{{"seafood", 1}}, allergens, mercury, words
		}
	}
	for _, test := range []struct {
		name   string
		change func(*Food)
		want   string
	}{
		{"sound", func(*Food) {}, ""},
		{"no name", func(f *Food) { f.Name = "" }, "error name"},
		{"no group", func(f *Food) { f.Group = "" }, "error group"},
		{"no texture", func(f *Food) { f.Texture = "" }, "error texture"},
		{"no class", func(f *Food) { f.Class = "" }, "error class"},
		{"no source", func(f *Food) { f.Source = "" }, "error source"},
		{"not said how verified", func(f *Food) { f.Verified = "" }, "error source"},
		{"a wrong allergen", func(f *Food) { f.Allergens = []string{"nuts"} }, "error allergens"},
		{"a wrong tag", func(f *Food) { f.Tags = []string{"tasty"} }, "error tags"},
		{"a wrong group of the pattern", func(f *Food) { f.Serves = append(f.Serves, Serving{"starch", 1}) }, "error serves"},
		{"eaten with what is not there", func(f *Food) { f.Companions = []string{"grains", "hope"} }, "error companions"},
		{"a wrong trace", func(f *Food) { f.MayContain = []string{"nuts"} }, "error allergens"},
		{"a trace", func(f *Food) { f.MayContain = []string{"soy"} }, ""},
		{"held and possible", func(f *Food) { f.Allergens, f.MayContain = []string{"soy"}, []string{"soy"} }, "error allergens"},
		{"eaten with a group of the pattern", func(f *Food) { f.Companions = []string{"dairy"} }, ""},
		{"eaten with a shop group", func(f *Food) { f.Companions = []string{"grains"} }, ""},
		{"brand", called("Millet, ACME"), "error brand"},
		{"brand of one's own food", func(f *Food) { f.Description, f.Own = "Millet, ACME", true }, ""},
		{"two capitals", called("Millet, AC"), ""},
		{"three capitals", called("Millet, ACM"), "error brand"},
		{"USDA is no brand", called("Millet, USDA"), ""},
		{"trade mark", called("Millet™"), "error brand"},

		{"sodium under the limit", has(nutrients.Sodium, 139.9), ""},
		{"sodium at the limit", has(nutrients.Sodium, 140), "error tags"},
		{"salted", has(nutrients.Sodium, 140, "added-salt"), ""},
		{"formula is no salted food", func(f *Food) { f.Per100g[nutrients.Sodium], f.Tags = 140, []string{TagInfantFormula} }, ""},
		{"dry milk is salty by itself", func(f *Food) { f.Per100g[nutrients.Sodium], f.Form = 500, "dry_milk_nonfat" }, ""},
		{"egg powder is salty by itself", func(f *Food) { f.Per100g[nutrients.Sodium], f.Form = 500, "egg_powder" }, ""},
		{"dried vegetables are salty by themselves", func(f *Food) { f.Per100g[nutrients.Sodium], f.Form = 500, "vegetables_dehydrated" }, ""},
		{"added sugars under the limit", has(nutrients.AddedSugars, 2.4), ""},
		{"added sugars at the limit", has(nutrients.AddedSugars, 2.5), "error tags"},
		{"sweetened", has(nutrients.AddedSugars, 2.5, "added-sugar"), ""},

		{"fortified soy drink", soyDrink(120, 1, "soy", "dairy-drink"), ""},
		{"soy drink without calcium", soyDrink(0, 1, "soy", "dairy-drink"), "error tags"},
		{"soy drink without vitamin D", soyDrink(120, 0, "soy", "dairy-drink"), "error tags"},
		{"soy drink that is no drink", soyDrink(120, 1, "soy"), "error tags"},
		{"fortified drink without soy", soyDrink(120, 1, "sesame", "dairy-drink"), "error tags"},

		{"wheat", holding("wheat", "gluten"), ""},
		{"wheat without gluten", holding("wheat"), "error tags"},
		{"milk", holding("milk", "animal"), ""},
		{"milk not of an animal", holding("milk"), "error tags"},
		{"animal, of what is not said", tags("animal"), "error tags"},
		{"human milk", tags(TagHumanMilk), ""},
		{"cholesterol of milk", func(f *Food) { holding("milk", "animal")(f); f.Per100g[nutrients.Cholesterol] = 1 }, ""},
		{"cholesterol of nothing", has(nutrients.Cholesterol, 1), "error cholesterol"},
		{"cholesterol of an animal", has(nutrients.Cholesterol, 1, "animal"), "error cholesterol, error tags"},
		{"cholesterol of milk not of an animal", func(f *Food) { holding("milk")(f); f.Per100g[nutrients.Cholesterol] = 1 }, "error cholesterol, error tags"},

		{"tuna", fish([]string{"fish"}, "best", "fish", "animal"), ""},
		{"tuna without its class", fish([]string{"fish"}, "", "fish", "animal"), "error mercury"},
		{"tuna without its tag", fish([]string{"fish"}, "", "animal"), "error tags"},
		{"tuna with its class and without its tag", fish([]string{"fish"}, "good", "animal"), "error tags, error tags"},
		{"sauce with fish", holding("fish", "animal"), ""},
		{"class of mercury of what is no fish", func(f *Food) { f.Mercury = "best" }, "error tags"},
		{"class of mercury of the table", fish([]string{"fish"}, "some", "fish", "animal"), "error mercury"},

		{"beef in the description", called("Millet with beef"), "error tags"},
		{"beef", called("Millet with beef", "meat", "animal"), ""},
		{"beef for infants", called("Millet with beef", "infant-food"), ""},
		{"no beef", called("Millet, meatless bacon bits"), "error tags"},
		{"without meat", func(f *Food) { f.Description = "Millet, without meat" }, ""},
		{"milk in the description", called("Millet with milk"), "error allergens"},
		{"no cow's milk", called("Millet with almond milk"), "error allergens"}, // the almonds
		{"oil is no evidence", called("Millet with soybean oil"), ""},

		{"beans in pieces", beans(func(*Food) {}), "error pieces"},
		{"beans in pieces, tagged", beans(tags("whole-pieces")), ""},
		{"beans that choke", beans(tags("choking")), ""},
		{"beans with bones", beans(tags("bones")), ""},
		{"beans for infants", beans(tags("infant-food")), ""},
		{"mashed beans", beans(func(f *Food) { f.Texture = "puree" }), ""},
		{"chunks", called("Millet in chunks"), "error pieces"},
		{"chunks, tagged", called("Millet in chunks", "whole-pieces"), ""},

		{"no keeping time", func(f *Food) { f.Keeping = nil }, "error keeping"},
		{"no preparation", func(f *Food) { f.Preparation = nil }, "error preparation"},
		{"no sitting", func(f *Food) { f.OccasionG, f.Serves = 0, nil }, "error amounts"},
		{"half a gram at a sitting", func(f *Food) { f.OccasionG = 0.5 }, ""},
		{"formula has no sitting", func(f *Food) { f.OccasionG, f.Serves, f.Tags = 0, nil, []string{TagInfantFormula} }, ""},
		{"a sitting a day", func(f *Food) { f.DayG = 50 }, ""},
		{"less in a day than at a sitting", func(f *Food) { f.DayG = 49 }, "error amounts"},
		{"no day", func(f *Food) { f.DayG = 0 }, ""},
		{"lactose not known", func(f *Food) { f.HasLactose = false }, "info lactose"},
		{"no pack", func(f *Food) { f.Packs = nil }, "warning packs"},
		{"no pack of what is made at home", func(f *Food) { f.Packs, f.Tags = nil, []string{"home-only"} }, ""},
		{"serves nothing", func(f *Food) { f.Serves = nil }, "info serves"},
		{"serves another group", func(f *Food) { f.Serves = []Serving{{"fruits", 1}} }, "info serves"},
		{"an ingredient serves nothing", func(f *Food) { f.Serves, f.Tags = nil, []string{"ingredient"} }, ""},
		{"of a group that serves nothing", func(f *Food) { f.Group, f.Serves = "seasonings", nil }, ""},
		{"an ingredient eaten with nothing", func(f *Food) { f.Class = "ingredient only" }, "error companions"},
		{"an ingredient eaten with grains", func(f *Food) { f.Class, f.Companions = "ingredient only", []string{"grains"} }, ""},
	} {
		f := plain()
		test.change(f)
		v := &verifier{table: tab}
		all(v, f)
		if got := said(v.findings); got != test.want {
			t.Errorf("%s: %q, want %q: %v", test.name, got, test.want, v.findings)
		}
	}
}

// Keys and names are there once each in a table, whatever their capitals, and no pack has
// the key of a food.
func TestKeysOfATable(t *testing.T) {
	for _, test := range []struct {
		name   string
		change func(a, b *Food, p, q *Pack)
		want   string
	}{
		{"sound", func(_, _ *Food, _, _ *Pack) {}, ""},
		{"the same figures", func(a, b *Food, _, _ *Pack) { b.Per100g = a.Per100g }, "info twins"},
		{"a number twice", func(a, b *Food, _, _ *Pack) { b.NDB = a.NDB }, "error keys"},
		{"a key twice in capitals", func(a, b *Food, _, _ *Pack) { a.NDB, b.NDB, a.Computed, b.Computed = "c1", "C1", true, true }, "error keys"},
		{"a name twice", func(a, b *Food, _, _ *Pack) { b.Name = strings.ToUpper(a.Name) }, "error keys"},
		{"a name that is a number", func(a, b *Food, _, _ *Pack) { b.Name = a.NDB }, "error keys"},
		{"no NDB number", func(a, _ *Food, _, _ *Pack) { a.NDB = "1234" }, "error keys"},
		{"no number", func(a, _ *Food, _, _ *Pack) { a.NDB = "1234x" }, "error keys"},
		{"a key of a computed row", func(a, _ *Food, _, _ *Pack) { a.NDB, a.Computed = "C0001", true }, ""},
		{"a pack twice", func(_, _ *Food, p, q *Pack) { q.Key = strings.ToUpper(p.Key) }, "error keys"},
		{"a pack with the number of a food", func(a, _ *Food, p, _ *Pack) { p.Key = a.NDB }, "error keys"},
		{"a pack with the name of a food", func(a, _ *Food, p, _ *Pack) { p.Key = a.Name }, "error keys"},
		{"a blank in a key", func(_, _ *Food, p, _ *Pack) { p.Key = "a b" }, "error keys"},
		{"a comma in a key", func(_, _ *Food, p, _ *Pack) { p.Key = "a,b" }, "error keys"},
		{"a semicolon in a key", func(_, _ *Food, p, _ *Pack) { p.Key = "a;b" }, "error keys"},
		{"a tab in a key", func(_, _ *Food, p, _ *Pack) { p.Key = "a\tb" }, "error keys"},
	} {
		a, b := figures(map[nutrients.Nutrient]float64{nutrients.Iron: 1}), figures(map[nutrients.Nutrient]float64{nutrients.Iron: 2})
		a.NDB, a.Name, b.NDB, b.Name = "00001", "rice", "00002", "beans"
		p, q := &Pack{Key: "rice-500g-bag", Food: a}, &Pack{Key: "beans-400g-can", Food: b}
		test.change(a, b, p, q)
		v := &verifier{table: &Table{Foods: []*Food{a, b}, Packs: []*Pack{p, q}}}
		v.keys()
		if got := said(v.findings); got != test.want {
			t.Errorf("%s: %q, want %q", test.name, got, test.want)
		}
	}
}

// What the release itself has out of tolerance is information with its reason, also in a
// food with those figures; not in one of the user's own that has others.
func TestAcceptedFindings(t *testing.T) {
	accepted := map[acceptedKey]string{{"01133", "energy"}: "old factors"}
	for _, test := range []struct {
		name, check string
		f           Food
		want        string
	}{
		{"the row", "energy", Food{NDB: "01133", Name: "egg"}, "info: 01133 egg: energy: 9 kcal; accepted: old factors"},
		{"another check", "parts", Food{NDB: "01133", Name: "egg"}, "error: 01133 egg: parts: 9 kcal"},
		{"another row", "energy", Food{NDB: "01134", Name: "egg"}, "error: 01134 egg: energy: 9 kcal"},
		{"with its figures", "energy", Food{NDB: "U001", Name: "egg", Own: true, Copied: true, Like: "01133"}, "info: U001 egg: energy: 9 kcal; accepted: old factors"},
		{"with figures of its own", "energy", Food{NDB: "U001", Name: "egg", Own: true, Like: "01133"}, "error: U001 egg: energy: 9 kcal"},
		{"of the user's, by the number", "energy", Food{NDB: "01133", Name: "egg", Own: true}, "error: 01133 egg: energy: 9 kcal"},
	} {
		v := &verifier{accepted: accepted}
		v.add(Error, &test.f, test.check, "%d kcal", 9)
		if len(v.findings) != 1 || v.findings[0].String() != test.want {
			t.Errorf("%s: %v, want %s", test.name, v.findings, test.want)
		}
	}
	for want, f := range map[string]Finding{
		"warning: p-1: price: none": {Severity: Warning, Pack: &Pack{Key: "p-1"}, Food: &Food{NDB: "1"}, Check: "price", Text: "none"},
		"error: table: x: y":        {Severity: Error, Check: "x", Text: "y"},
	} {
		if f.String() != want {
			t.Errorf("%q, want %q", f.String(), want)
		}
	}
}

// Findings of a food come errors first, then warnings, then what is worth knowing.
func TestOrderOfFindings(t *testing.T) {
	tab := load(t)
	f := food(t, tab, "20044")
	f.HasLactose = false
	f.Packs[0].HasPrice = false
	f.Packs[0].Source = ""
	got := verify(tab, []*Food{f})
	first := slices.IndexFunc(got, func(x Finding) bool { return x.Food == f && x.Check != "twins" })
	got = got[first:]
	if !slices.IsSortedFunc(got, func(a, b Finding) int { return rank(a.Severity) - rank(b.Severity) }) || said(got[:2]) != "error source, warning price" {
		t.Errorf("%v", got)
	}
	for i, s := range []Severity{Error, Warning, Info} {
		if rank(s) != i {
			t.Errorf("%s is at %d", s, rank(s))
		}
	}
}

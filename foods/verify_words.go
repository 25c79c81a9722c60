package foods

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"rationwright/nutrients"
)

// words checks that every word of the row is one that the table knows.
func (v *verifier) words(f *Food) {
	one := func(check, word string, words []string) {
		if !slices.Contains(words, word) {
			v.add(Error, f, check, "%q is none of: %s", word, strings.Join(words, " "))
		}
	}
	if f.Name == "" {
		v.add(Error, f, "name", "no name")
	}
	one("group", f.Group, v.table.groups)
	one("texture", f.Texture, Textures)
	if f.Mercury != "" {
		one("mercury", f.Mercury, MercuryClasses)
	}
	for _, a := range f.Allergens {
		one("allergens", a, Allergens)
	}
	for _, a := range f.MayContain {
		one("allergens", a, Allergens)
		if slices.Contains(f.Allergens, a) {
			v.add(Error, f, "allergens", "%s is both held and possible", a)
		}
	}
	for _, tag := range f.Tags {
		if !slices.Contains(v.table.tags, tag) {
			v.add(Error, f, "tags", "%q is not in tags.csv", tag)
		}
	}
	for _, s := range f.Serves {
		if _, ok := patternUnit(s.Group); !ok {
			v.add(Error, f, "serves", "%q is no pattern group", s.Group)
		}
	}
	for _, c := range f.Companions {
		if !slices.ContainsFunc(v.table.Foods, func(o *Food) bool { return isNamed(o, []string{c}) }) {
			v.add(Error, f, "companions", "%q is no food and no group", c)
		}
	}
	if !slices.Contains(classes, f.Class) {
		v.add(Error, f, "class", "%q is none of: %s", f.Class, strings.Join(classes, ", "))
	}
	if f.Source == "" || f.Verified == "" {
		v.add(Error, f, "source", "no source, or not said how it was verified")
	}
	if brand := brandWord(f); brand != "" && !f.Own {
		v.add(Error, f, "brand", "%q looks like a brand", brand)
	}
	v.glycaemic(f)
}

// classes are the classes of cooking practice of testdata/reference/cooking_absurd.csv.
var classes = []string{"ready to eat", "needs water or heat", "ingredient only", "spread or topping", "drink or drink mix"}

// glycaemic checks the class against the index: low to 55, high from 70.
// Source: ISO 26642, requirements special.csv.
func (v *verifier) glycaemic(f *Food) {
	want := ""
	switch {
	case f.GI <= 0:
	case f.GI <= 55:
		want = "low"
	case f.GI < 70:
		want = "medium"
	default:
		want = "high"
	}
	if f.GI > 0 && f.GIClass != want {
		v.add(Error, f, "glycaemic index", "%.0f is %s, not %q", f.GI, want, f.GIClass)
	}
}

// plainCapitals are words in capitals that are no brand.
var plainCapitals = []string{"USDA", "UHT", "NFDM", "RTF", "DHA", "ARA", "ADD", "SR"}

// brandWord returns a word of f that looks like a brand: a trade sign, or a
// word in capitals as the USDA table writes makers' names. The short
// description is all capitals and is not looked at.
func brandWord(f *Food) string {
	for _, text := range []string{f.Name, f.Description} {
		if i := strings.IndexAny(text, "®™©"); i >= 0 {
			return text
		}
		for _, w := range strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && r != '\'' }) {
			if utf8.RuneCountInString(w) >= 3 && strings.ToUpper(w) == w && !slices.Contains(plainCapitals, w) {
				return w
			}
		}
	}
	return ""
}

// evidence is a word of a description that says what a food holds.
type evidence struct {
	words  []string
	unless []string // words that take the evidence away
}

// allergenEvidence says which words mean which allergen. Source:
// testdata/reference/allergens.csv, contains and hidden_source, and their plain language.
var allergenEvidence = map[string]evidence{
	"wheat": {[]string{"wheat", "spaghetti", "macaroni", "pasta", "couscous", "bulgur", "farina", "matzo", "ravioli", "cracker", "crackers", "bread", "pretzels", "cookies"},
		[]string{"buckwheat", "rice noodles", "corn pasta", "pasta, gluten-free", "pasta, corn", "sauce, pasta, spaghetti", "pasta sauce", "spaghetti sauce", "sauce, pasta", "rice crackers", "rice and vermicelli"}},
	"milk":      {[]string{"milk", "cheese", "butter", "whey", "cream", "buttermilk", "yogurt"}, []string{"soymilk", "soy milk", "almond milk", "coconut milk", "rice milk", "milk, human", "human milk", "peanut butter", "almond butter", "sesame butter", "butter, peanut", "butter, almond", "butter, sesame", "cashew butter", "butter, cashew", "nut butter", "seed butter", "sunflower seed butter", "cocoa butter", "cream of tartar", "creamed corn", "cream style", "cream-style", "butter beans", "without milk", "non-dairy", "soy-based", "soy based", "margarine-like", "milk-free", "coconut cream", "cream, coconut", "cream of wheat"}},
	"egg":       {[]string{"egg", "eggs", "mayonnaise"}, []string{"eggless", "eggplant", "without egg", "egg-free", "no egg"}},
	"peanut":    {[]string{"peanut", "peanuts"}, []string{"peanut-free"}},
	"tree-nut":  {[]string{"almond", "almonds", "walnut", "walnuts", "cashew", "cashews", "pecan", "pecans", "hazelnut", "hazelnuts", "pistachio", "pistachios", "mixed nuts", "brazil", "macadamia"}, nil},
	"soy":       {[]string{"soy", "tofu", "soybean", "soybeans", "soymilk", "edamame"}, []string{"oil, soybean", "soybean oil", "soy oil", "soy-free", "without soy"}},
	"sesame":    {[]string{"sesame", "tahini"}, nil},
	"fish":      {[]string{"tuna", "salmon", "sardine", "sardines", "mackerel", "anchovy", "anchovies", "herring", "cod", "fish", "trout"}, []string{"shellfish"}},
	"shellfish": {[]string{"shrimp", "crab", "lobster", "crayfish", "prawn"}, []string{"crab apple"}},
}

// allergens checks that what the description says is among the allergens.
// Highly refined oil is no evidence: US labels need not name it.
func (v *verifier) allergens(f *Food) {
	for _, a := range Allergens {
		word := allergenEvidence[a].in(f)
		if word == "" || slices.Contains(f.Allergens, a) {
			continue
		}
		v.add(Error, f, "allergens", "%q in the description, but %s is not among the allergens", word, a)
	}
}

// in returns the word of e that stands in the name or description of f.
func (e evidence) in(f *Food) string {
	for _, text := range []string{f.Name, f.Description} {
		text = strings.ToLower(text)
		for _, w := range e.words {
			if containsWord(text, w) && containsWord(e.without(text), w) {
				return w
			}
		}
	}
	return ""
}

// without returns text less the phrases that take the evidence away.
func (e evidence) without(text string) string {
	for _, u := range e.unless {
		text = strings.ReplaceAll(text, u, " ")
	}
	return text
}

// containsWord reports whether w stands in text between borders of words.
func containsWord(text, w string) bool {
	for at := 0; ; {
		i := strings.Index(text[at:], w)
		if i < 0 {
			return false
		}
		start, end := at+i, at+i+len(w)
		before, _ := utf8.DecodeLastRuneInString(text[:start])
		after, _ := utf8.DecodeRuneInString(text[end:])
		if !unicode.IsLetter(before) && !unicode.IsLetter(after) {
			return true
		}
		at = end
	}
}

// tagEvidence says which words mean which tag. Sources: data/tags.csv.
var tagEvidence = []struct {
	tag string
	evidence
}{
	{"meat", evidence{[]string{"beef", "pork", "ham", "bacon", "veal", "lamb", "luncheon meat", "corned beef", "sausage", "frankfurter", "franks", "jerky", "meatballs", "lard"}, []string{"meatless", "without meat", "no meat", "vegetarian", "meat extender", "bacon bits, meatless", "hamburger bun"}}},
	{"poultry", evidence{[]string{"chicken", "turkey"}, []string{"meatless", "vegetarian", "chickenless"}}},
	{"honey", evidence{[]string{"honey"}, []string{"honeydew"}}},
	{"oats", evidence{[]string{"oat", "oats", "oatmeal", "granola", "muesli"}, nil}},
	{"gluten", evidence{[]string{"barley", "rye", "malt", "malted"}, []string{"maltodextrin"}}},
	{"gelatin", evidence{[]string{"gelatin", "marshmallows", "gummy", "gumdrops"}, nil}},
	{"alcohol", evidence{[]string{"wine", "beer", "rum", "brandy", "liqueur", "whisky", "whiskey", "vodka", "sherry", "alcohol"}, []string{"wine vinegar", "non-alcoholic", "without alcohol", "alcohol-free", "root beer", "ginger beer"}}},
	{"liver", evidence{[]string{"liver", "liverwurst"}, nil}},
	{"choking", evidence{[]string{"nuts", "almonds", "peanuts", "walnuts", "cashews", "pecans", "pistachio nuts", "seeds", "popcorn", "raisins", "prunes", "jerky", "marshmallows", "candies, hard", "hard candy"}, []string{"nuts, coconut", "seeds, sesame butter", "butter", "babyfood", "prune juice", "juice", "with raisins", "and raisins", "mature seeds", "canned", "seedless", "infant", "stewed"}}},
}

// tags checks tags against allergens, composition and the description.
func (v *verifier) tags(f *Food) {
	missing := func(tag, because string) {
		if !f.HasTag(tag) {
			v.add(Error, f, "tags", "%s, but the tag %q is missing", because, tag)
		}
	}
	has := func(a string) bool { return slices.Contains(f.Allergens, a) }
	if has("wheat") {
		missing("gluten", "it holds wheat")
	}
	if has("fish") && f.Group == "canned fish" {
		missing("fish", "it is canned fish")
	}
	if f.HasTag("fish") && f.Group == "canned fish" && f.Mercury == "" {
		v.add(Error, f, "mercury", "fish without a mercury class")
	}
	if f.Mercury != "" {
		missing("fish", "it has a mercury class")
	}
	for _, e := range tagEvidence {
		if word := e.in(f); word != "" && !f.HasTag("infant-food") {
			missing(e.tag, "\""+word+"\" is in the description")
		}
	}
	if sodium, known := f.Per100g.Get(nutrients.Sodium); known && sodium >= lowSodiumMg && !f.feed() && !f.naturallySalty() {
		missing("added-salt", "it holds as much sodium as no unsalted food")
	}
	if added, known := f.Per100g.Get(nutrients.AddedSugars); known && added >= countedSugarsG {
		missing("added-sugar", "it holds added sugars")
	}
	if f.HasTag(TagFortifiedSoy) && !(f.HasTag(TagDairyDrink) && has("soy") && f.Per100g.Known(nutrients.Calcium) > 0 && f.Per100g.Known(nutrients.VitaminD) > 0) {
		v.add(Error, f, "tags", "it is tagged %q, but is no drink of soy with calcium and vitamin D", TagFortifiedSoy)
	}
	if f.Class == "ingredient only" && len(f.Companions) == 0 {
		v.add(Error, f, "companions", "an ingredient without foods to be eaten with")
	}
}

// Limits of the tags added-salt and added-sugar, per 100 g. Source:
// data/tags.csv.
const (
	lowSodiumMg    = 140
	countedSugarsG = 2.5
)

// naturallySalty reports whether f is a dried food whose own sodium passes the
// limit: milk, egg and dried vegetables.
func (f *Food) naturallySalty() bool {
	return strings.HasPrefix(f.Form, "dry_milk") || slices.Contains([]string{"egg_powder", "vegetables_dehydrated", "instant_potatoes", "baby_cereal_dry"}, f.Form)
}

// use checks what the table says of keeping, preparation and amounts.
func (v *verifier) use(f *Food) {
	if f.Keeping == nil {
		v.add(Error, f, "keeping", "no keeping time for the form %q", f.Form)
	}
	if f.Preparation == nil {
		v.add(Error, f, "preparation", "no preparation for the form %q", f.Form)
	}
	if !f.feed() {
		switch {
		case f.OccasionG <= 0:
			v.add(Error, f, "amounts", "no amount at one sitting")
		case f.DayG > 0 && f.DayG < f.OccasionG:
			v.add(Error, f, "amounts", "%.0f g in a day is less than the %.0f g at one sitting", f.DayG, f.OccasionG)
		}
	}
	if !f.HasLactose {
		v.add(Info, f, "lactose", "unknown: counted as %.1f g in 100 g, the most that it can hold", f.LactoseAtMost())
	}
	if len(f.Packs) == 0 && !f.HasTag("home-only") {
		v.add(Warning, f, "packs", "no pack: it cannot be bought")
	}
	if groups, ok := expected[f.Group]; ok && f.OccasionG > 0 && !f.HasTag("ingredient") && !slices.ContainsFunc(f.Serves, func(s Serving) bool { return slices.Contains(groups, s.Group) }) {
		v.add(Info, f, "serves", "a food of %s that serves none of: %s", f.Group, strings.Join(groups, " "))
	}
}

// expected are the pattern groups of which a food of a shop group serves one.
var expected = map[string][]string{
	"grains":                  {"grains"},
	"pasta and noodles":       {"grains"},
	"bread and crackers":      {"grains"},
	"canned vegetables":       {"vegetables"},
	"canned fruit":            {"fruits"},
	"dried fruit":             {"fruits"},
	"juice":                   {"fruits", "vegetables"},
	"canned beans":            {"beans"},
	"dried beans and lentils": {"beans", "nuts-seeds-soy"},
	"canned meat and poultry": {"protein"},
	"canned fish":             {"seafood"},
	"milk":                    {"dairy"},
}

package foods

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"rationwright/nutrients"
)

// Reason says why somebody does not get a food, or gets only so much of it.
// The zero Reason means that there is none.
type Reason struct {
	Rule     string // key of the rule, "" for a wish of the person
	Text     string // plain words
	Safety   bool   // a safety rule: no wish, limit or closest ration lifts it
	Everyone bool   // concerns everybody of every age
	Source   string
	Verified string
}

// rule is one row of data/eligibility.csv: some people do not get some foods,
// or get them only handled in some way.
type rule struct {
	who         who
	from, under int // full months of age; under 0 means no upper end
	food        []term
	advice      bool // does not bar: says how the food is to be handled
	Reason
}

// who selects people by state, feeding, condition or allergy; "all" selects
// everybody. See data/eligibility.csv for the words.
type who struct {
	kind string // all, state, feeding, condition, allergy, strict, kitchen
	word string
}

// The words of the who column besides conditions. An allergy word is followed
// by a colon and the allergen; "strict" is an allergy that allows no traces, and
// "kitchen" is everybody who shares a kitchen with one.
var whoKinds = map[string]string{
	"all": "all", "pregnant": "state", "lactating": "state",
	"breast-fed": "feeding", "formula-fed": "feeding", "mixed-fed": "feeding",
}

func parseWho(s string) (who, error) {
	if kind, ok := whoKinds[s]; ok {
		return who{kind: kind, word: s}, nil
	}
	if kind, word, ok := strings.Cut(s, ":"); ok && slices.Contains([]string{"allergy", "strict", "kitchen"}, kind) {
		if !slices.Contains(Allergens, word) {
			return who{}, fmt.Errorf("no such allergen as %q; write one of %s", word, strings.Join(Allergens, " "))
		}
		return who{kind: kind, word: word}, nil
	}
	if !slices.Contains(conditions, nutrients.Condition(s)) {
		return who{}, fmt.Errorf("nobody is called that; write all, a state, a feeding, a condition or an allergy")
	}
	return who{kind: "condition", word: s}, nil
}

// conditions are the conditions that a rule may name.
var conditions = []nutrients.Condition{
	nutrients.Diabetes1, nutrients.Diabetes2, nutrients.Diabetes2Diet, nutrients.DiabetesPregnancy,
	nutrients.LowSodium, nutrients.KidneyDisease, nutrients.SoftFood, nutrients.Coeliac, nutrients.Lactose,
	nutrients.Vegetarian, nutrients.Vegan,
}

// selects reports whether w means p, who lives in household.
func (w who) selects(p *nutrients.Person, household []nutrients.Person) bool {
	switch w.kind {
	case "all":
		return true
	case "state":
		return w.word == "pregnant" && p.Pregnant() || w.word == "lactating" && p.Lactating()
	case "feeding":
		return p.AgeMonths < infantMonths && w.word == feedingWord(p.Feeding)
	case "condition":
		return p.Has(nutrients.Condition(w.word))
	case "allergy":
		return hasAllergy(p, w.word, nutrients.AllergyTraces, nutrients.AllergyStrict, nutrients.AllergyHousehold)
	case "strict":
		return hasAllergy(p, w.word, nutrients.AllergyStrict, nutrients.AllergyHousehold)
	case "kitchen":
		for i := range household {
			if hasAllergy(&household[i], w.word, nutrients.AllergyHousehold) {
				return true
			}
		}
		return hasAllergy(p, w.word, nutrients.AllergyHousehold)
	}
	return false
}

// infantMonths is the age under which a child is an infant: life stages of the
// Dietary Reference Intakes.
const infantMonths = 12

// feedingWord is the who word of a feeding. An infant without one is taken to
// be formula-fed: then the feed is bought, which is the safe side.
func feedingWord(f nutrients.Feeding) string {
	switch f {
	case nutrients.BreastFed:
		return "breast-fed"
	case nutrients.MixedFed:
		return "mixed-fed"
	}
	return "formula-fed"
}

func hasAllergy(p *nutrients.Person, allergen string, levels ...nutrients.AllergyLevel) bool {
	return slices.ContainsFunc(p.Allergies, func(a nutrients.Allergy) bool {
		return a.Allergen == allergen && slices.Contains(levels, a.Level)
	})
}

// termKinds are the kinds of terms that compare a word: which foods they hold of, and
// where not every word will do the words and what one of them is.
var termKinds = map[string]struct {
	of    func(f *Food, word string) bool
	what  string
	words []string
}{
	"tag":        {of: (*Food).HasTag},
	"group":      {of: func(f *Food, word string) bool { return f.Group == word }},
	"form":       {of: func(f *Food, word string) bool { return f.Form == word }},
	"class":      {of: func(f *Food, word string) bool { return f.Class == word }},
	"ndb":        {of: func(f *Food, word string) bool { return f.NDB == word }},
	"allergen":   {func(f *Food, word string) bool { return slices.Contains(f.Allergens, word) }, "allergen", Allergens},
	"maycontain": {func(f *Food, word string) bool { return slices.Contains(f.MayContain, word) }, "allergen", Allergens},
	"texture":    {func(f *Food, word string) bool { return f.Texture == word }, "texture", Textures},
	"mercury":    {func(f *Food, word string) bool { return f.Mercury == word }, "class", MercuryClasses},
}

// term is one condition on a food: "tag:honey", "!texture:puree",
// "over:sodium_mg:35". All terms of a rule must hold.
type term struct {
	not   bool
	kind  string
	of    func(f *Food, word string) bool // by [termKinds]; nil: over the limit
	word  string
	n     nutrients.Nutrient
	limit float64 // per 100 g
}

func parseTerms(s string) ([]term, error) {
	var terms []term
	for field := range strings.FieldsSeq(s) {
		t, ok := term{}, false
		field, t.not = strings.CutPrefix(field, "!")
		if t.kind, t.word, ok = strings.Cut(field, ":"); !ok || t.word == "" {
			return nil, fmt.Errorf("%q is no term; write kind:word, as in tag:honey", field)
		}
		kind := termKinds[t.kind]
		t.of = kind.of
		switch {
		case t.of != nil:
			if kind.words != nil && !slices.Contains(kind.words, t.word) {
				return nil, fmt.Errorf("no such %s as %q; write one of %s", kind.what, t.word, strings.Join(kind.words, " "))
			}
		case t.kind == "over":
			column, amount, _ := strings.Cut(t.word, ":")
			n, found := nutrients.ByColumn(column)
			limit, err := strconv.ParseFloat(amount, 64)
			if !found || err != nil || limit < 0 {
				return nil, fmt.Errorf("%q is no limit; write over:column:amount per 100 g", field)
			}
			t.n, t.limit = n, limit
		default:
			return nil, fmt.Errorf("no such kind of term as %q", t.kind)
		}
		terms = append(terms, t)
	}
	if len(terms) == 0 {
		return nil, fmt.Errorf("no term; write kind:word, as in tag:honey")
	}
	return terms, nil
}

// holds reports whether the term is true of f. An unknown amount counts as
// over every limit: a safety rule does not read a gap as none.
func (t *term) holds(f *Food) bool {
	if t.of != nil {
		return t.of(f, t.word) != t.not
	}
	return (math.IsNaN(f.Per100g[t.n]) || f.Per100g[t.n] > t.limit) != t.not
}

// applies reports whether the rule is about f and p.
func (r *rule) applies(p *nutrients.Person, household []nutrients.Person, f *Food) bool {
	if p.AgeMonths < r.from || r.under > 0 && p.AgeMonths >= r.under {
		return false
	}
	return r.who.selects(p, household) && !slices.ContainsFunc(r.food, func(t term) bool { return !t.holds(f) })
}

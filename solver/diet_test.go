package solver

import (
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// evidence is a word in the name or description of a food, less the phrases
// that take it away.
type evidence struct{ word, unless *regexp.Regexp }

func words(word, unless string) evidence {
	e := evidence{word: regexp.MustCompile(`\b(` + word + `)\b`)}
	if unless != "" {
		e.unless = regexp.MustCompile(unless)
	}
	return e
}

func (e evidence) in(f *foods.Food) bool {
	text := strings.ToLower(f.Name + "; " + f.Description)
	if e.unless != nil {
		text = e.unless.ReplaceAllString(text, " ")
	}
	return e.word.MatchString(text)
}

// Words by which a reader of the label knows what a food holds. Written here
// again, apart from the marks of the food table: the sources of an allergen by
// FALCPA (2004) and the FASTER Act (2021), and the meaning of the words.
var (
	allergenWords = map[string]evidence{
		"milk":      words(`milk|cheese|whey|yogurt|butter|cream`, `milk, human|human milk|(soy|rice|almond|coconut|oat|nut|seed|cocoa|peanut|sesame|cashew|apple)[ -]?(milk|butter|cream)|soymilk|butter, (peanut|almond|sesame|cashew)|sesame butter|(almond|peanut|nuts?|seeds?)[a-z, ]* butter|cream of (wheat|tartar)|cream[ -]style|creamed corn|without milk|soy[- ]based|butter beans?|non-?dairy`),
		"egg":       words(`eggs?|mayonnaise`, `without egg|egg-free`),
		"fish":      words(`tuna|salmon|sardines?|mackerel|anchov(y|ies)|herring|cod|trout`, ``),
		"shellfish": words(`shrimp|crabs?|lobster|crayfish|prawns?`, `crab apple`),
		"tree-nut":  words(`almonds?|walnuts?|cashews?|pecans?|hazelnuts?|pistachios?|macadamia|mixed nuts`, ``),
		"wheat":     words(`wheat|spaghetti|macaroni|couscous|bulgur|farina|ravioli|pretzels?|semolina`, `buckwheat|gluten-free[a-z, ]*|(sauce, pasta, spaghetti|spaghetti sauce)[a-z/ -]*`),
		"peanut":    words(`peanuts?`, ``),
		"soy":       words(`soy|soymilk|tofu|soybeans?`, `soybean oil|oil, soybean|soy oil|\boil\b[^;]*\bsoybean[^;]*`),
		"sesame":    words(`sesame|tahini`, ``),
	}
	meatWords    = words(`beef|pork|ham|bacon|veal|lamb|chicken|turkey|sausages?|frankfurters?|jerky|meatballs?|luncheon meat|lard`, `meatless|vegetarian|meat extender|without meat|bacon bits`)
	fishWords    = words(`tuna|salmon|sardines?|mackerel|anchov(y|ies)|herring|cod|trout|fish|shrimp|crabs?|clams?|oysters?|lobster`, `includes oyster`)
	honeyWords   = words(`honey`, `honeydew`)
	glutenWords  = words(`wheat|barley|rye|malt|malted|spaghetti|macaroni|couscous|bulgur|semolina|pretzels?|farina`, `buckwheat|maltodextrin|gluten-free[a-z, ]*|(sauce, pasta, spaghetti|spaghetti sauce)[a-z/ -]*`)
	liverWords   = words(`liver|liverwurst`, ``)
	mercuryWords = words(`king mackerel|mackerel, king|shark|swordfish|tilefish|marlin|orange roughy|bigeye`, ``)
	juiceWords   = words(`juice`, `(canned |packed )?in [a-z ]*juice|juice pack|, juice`)
	chokeWords   = words(`popcorn|raisins|peanuts|almonds|walnuts|cashews|pecans|mixed nuts|jerky|marshmallows?|hard candy|candies, hard|gumdrops`, `butter[a-z, ]*(peanuts?|almonds?)|(peanut|almond|cashew)s? butter|, almond butter|without salt|with raisins|and raisins`)
)

// barred says in plain words why p, one of household, must not eat f, "" when
// no rule that a layman knows bars it. It knows nothing of the eligibility
// table.
func barred(p *nutrients.Person, household []nutrients.Person, f *foods.Food) string {
	holds := func(allergen string) bool {
		return slices.Contains(f.Allergens, allergen) || allergenWords[allergen].in(f)
	}
	feed := f.HasTag("infant-formula") || f.HasTag("human-milk")
	for _, a := range p.Allergies {
		if holds(a.Allergen) && !(feed && p.AgeMonths < 12 && p.Feeding == nutrients.BreastFed) {
			return "allergic to " + a.Allergen
		}
	}
	for _, other := range household {
		for _, a := range other.Allergies {
			if a.Level == nutrients.AllergyHousehold && holds(a.Allergen) && !f.HasTag("human-milk") {
				return "in a household without " + a.Allergen
			}
		}
	}
	meat := meatWords.in(f) || f.HasTag("meat") || f.HasTag("poultry")
	fish := fishWords.in(f) || f.HasTag("fish")
	vegan, infant := p.Has(nutrients.Vegan), p.AgeMonths < 12
	switch {
	case (vegan || p.Has(nutrients.Vegetarian)) && (meat || fish):
		return "vegetarian"
	case vegan && !infant && (holds("milk") || holds("egg") || honeyWords.in(f)):
		return "vegan"
	case p.Has(nutrients.Coeliac) && (glutenWords.in(f) || slices.Contains(f.Allergens, "wheat") || f.HasTag("gluten")):
		return "coeliac"
	case p.AgeMonths < 6 && !feed:
		return "under 6 months"
	case infant && (honeyWords.in(f) || f.HasTag("honey")):
		return "honey under 12 months"
	case infant && (f.HasTag("dairy-drink") || f.HasTag("added-salt")):
		return "cow's milk as a drink or added salt under 12 months"
	case infant && juiceWords.in(f):
		return "juice under 12 months"
	case !infant && feed:
		return "infant formula at 12 months or over"
	case p.AgeMonths < 48 && (chokeWords.in(f) || f.HasTag("choking") || f.HasTag("bones")):
		return "choking under 4 years"
	case p.Has(nutrients.SoftFood) && f.Texture != "puree" && f.Texture != "soft":
		return "needs soft food"
	case p.Pregnant() && liverWords.in(f):
		return "liver in pregnancy"
	case mercuryWords.in(f) || f.Mercury == "avoid":
		return "fish highest in mercury"
	case p.AgeMonths < 11*12 && f.Mercury == "good":
		return "under 11 years, fish that is no best choice"
	}
	return ""
}

// In a shared pot, what a person may not eat has no path to them: no column of
// the model holds it, whatever the household. Shown on models of random
// households, and on every plan of the campaign by [checkForbidden].
func TestNoPathToForbiddenFood(t *testing.T) {
	rng := rand.New(rand.NewPCG(2026, 12))
	all := table(t)
	columns, kept := 0, map[string]bool{}
	for range 15 * *campaign {
		household := randomHousehold(rng)
		r, err := Build(&ration.Request{People: household, Table: all, Least: ration.LeastWeight})
		if err != nil {
			t.Fatalf("%v: %v", nutrients.HouseholdRows(household), err)
		}
		for j, info := range r.cols {
			if info.kind != colEat {
				continue
			}
			columns++
			e, f := r.eaters[info.eater], r.larder[info.larder].food
			if why := barred(&e.person, household, f); why != "" {
				t.Errorf("%s: %s, %v, has column %s", why, e.person.Name, nutrients.HouseholdRows(household), r.Problem.Cols[j].Name)
			}
			kept[f.Name] = true
		}
	}
	if columns < 5_000 || len(kept) < 200 {
		t.Errorf("only %d columns of %d foods were seen: the test shows too little", columns, len(kept))
	}
}

// The rule of the shared pot itself: everything eaten comes out of packs that
// others may share, so a household with one allergy buys what the others eat,
// and only "!" keeps it out of the house.
func TestSharedPot(t *testing.T) {
	for _, c := range []struct {
		name    string
		allergy nutrients.Allergy
		others  bool // the others may eat it
	}{
		{"an allergy of one", nutrients.Allergy{Allergen: "wheat"}, true},
		{"an allergy of the household", nutrients.Allergy{Allergen: "wheat", Level: nutrients.AllergyHousehold}, false},
	} {
		one, other := adult("Signe", 30, nutrients.Female), adult("Arvid", 40, nutrients.Male)
		one.Allergies = []nutrients.Allergy{c.allergy}
		r, err := Build(request(t, one, other))
		if err != nil {
			t.Fatal(err)
		}
		for i, want := range []bool{false, c.others} {
			got := slices.ContainsFunc(r.open(r.eaters[i]), allergenWords["wheat"].in)
			if got != want {
				t.Errorf("%s: %s may eat wheat: %v, want %v", c.name, r.eaters[i].person.Name, got, want)
			}
		}
	}
}

package rationtest

import (
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

func (e evidence) In(f *foods.Food) bool {
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
	AllergenWords = map[string]evidence{
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

// Barred says in plain words why p, one of household, must not eat f, "" when
// no rule that a layman knows bars it. It knows nothing of the eligibility
// table.
func Barred(p *nutrients.Person, household []nutrients.Person, f *foods.Food) string {
	holds := func(allergen string) bool {
		return slices.Contains(f.Allergens, allergen) || AllergenWords[allergen].In(f)
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
	meat := meatWords.In(f) || f.HasTag("meat") || f.HasTag("poultry")
	fish := fishWords.In(f) || f.HasTag("fish")
	vegan, infant := p.Has(nutrients.Vegan), p.AgeMonths < 12
	switch {
	case (vegan || p.Has(nutrients.Vegetarian)) && (meat || fish):
		return "vegetarian"
	case vegan && !infant && (holds("milk") || holds("egg") || honeyWords.In(f)):
		return "vegan"
	case p.Has(nutrients.Coeliac) && (glutenWords.In(f) || slices.Contains(f.Allergens, "wheat") || f.HasTag("gluten")):
		return "coeliac"
	case p.AgeMonths < 6 && !feed:
		return "under 6 months"
	case infant && (honeyWords.In(f) || f.HasTag("honey")):
		return "honey under 12 months"
	case infant && (f.HasTag("dairy-drink") || f.HasTag("added-salt")):
		return "cow's milk as a drink or added salt under 12 months"
	case infant && juiceWords.In(f):
		return "juice under 12 months"
	case !infant && feed:
		return "infant formula at 12 months or over"
	case p.AgeMonths < 48 && (chokeWords.In(f) || f.HasTag("choking") || f.HasTag("bones")):
		return "choking under 4 years"
	case p.Has(nutrients.SoftFood) && f.Texture != "puree" && f.Texture != "soft":
		return "needs soft food"
	case p.Pregnant() && liverWords.In(f):
		return "liver in pregnancy"
	case mercuryWords.In(f) || f.Mercury == "avoid":
		return "fish highest in mercury"
	case p.AgeMonths < 11*12 && f.Mercury == "good":
		return "under 11 years, fish that is no best choice"
	}
	return ""
}

// CheckReserveUneaten adds up what is eaten of each food against the packs that
// are not set aside: the reserve is never ration.
func CheckReserveUneaten(t *testing.T, plan *ration.Plan) {
	t.Helper()
	bought, reserve := map[string]float64{}, map[string]bool{}
	for _, line := range plan.Packs {
		if line.Reserve {
			reserve[line.Food] = true
			continue
		}
		bought[line.Food] += float64(line.Count) * line.NetG
	}
	for food := range reserve {
		eaten := 0.0
		for _, p := range plan.People {
			for _, f := range p.Foods {
				if f.Food == food {
					eaten += float64(p.Count) * f.Grams
				}
			}
		}
		if eaten > bought[food]*(1+ration.CheckTolerance) {
			t.Errorf("%g g of %s eaten from packs of %g g: the reserve is eaten", eaten, food, bought[food])
		}
	}
}

// CheckForbidden looks at every food of every person of a plan with the plain
// words of [Barred], apart from the eligibility code.
func CheckForbidden(t *testing.T, req *ration.Request, plan *ration.Plan) {
	t.Helper()
	byName := map[string]*nutrients.Person{}
	for i := range req.People {
		byName[req.People[i].Name] = &req.People[i]
	}
	for _, person := range plan.People {
		for _, line := range person.Foods {
			f, err := req.Table.Food(line.Food)
			if err != nil {
				t.Fatal(err)
			}
			if why := Barred(byName[person.Name], req.People, f); why != "" {
				t.Errorf("%s gets %s: %s", person.Name, f.Name, why)
			}
		}
	}
}

// ContainsText reports whether part stands in text, whatever the case.
func ContainsText(text, part string) bool {
	return strings.Contains(strings.ToLower(text), strings.ToLower(part))
}

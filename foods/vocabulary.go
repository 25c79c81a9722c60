package foods

import (
	"slices"

	"rationwright/nutrients"
)

// Allergens are the nine major allergens in the words of household.csv.
// Source: FALCPA 2004 and FASTER Act 2021, see testdata/reference/allergens.csv.
var Allergens = nutrients.Allergens

// Textures are the words of Food.Texture, from the softest to the hardest.
var Textures = []string{"puree", "soft", "regular", "hard"}

// MercuryClasses are the words of Food.Mercury: best choice, good choice and
// choice to avoid of the EPA and FDA advice about eating fish, see
// testdata/reference/fish_mercury.csv.
var MercuryClasses = []string{"best", "good", "avoid"}

// Tags of data/tags.csv that the code itself asks for; the others stand only in
// data/eligibility.csv.
const (
	TagInfantFormula = "infant-formula"
	TagHumanMilk     = "human-milk"
	TagInfantFood    = "infant-food"
	TagJuice         = "juice"
	TagDairyDrink    = "dairy-drink"
	TagWholeMilk     = "whole-milk"
	TagFortifiedSoy  = "fortified-soy"
	TagSugaryDrink   = "sugary-drink"
	TagGluten        = "gluten"
	TagCaffeine      = "caffeine"
	TagFastSugar     = "fast-sugar"
	TagLowGI         = "low-gi"
	TagHoney         = "honey"
	TagChoking       = "choking"
	TagMeat          = "meat"
	TagPoultry       = "poultry"
)

// PatternGroups are the groups of the daily pattern of food groups with the
// unit in which each is counted (Dietary Guidelines for Americans 2020-2025,
// appendix 3).
var PatternGroups = []struct{ Name, Unit string }{
	{"grains", "oz-eq"},
	{"whole-grains", "oz-eq"},
	{"vegetables", "cup-eq"},
	{"beans", "cup-eq"},
	{"fruits", "cup-eq"},
	{"dairy", "cup-eq"},
	{"protein", "oz-eq"},
	{"seafood", "oz-eq"},
	{"nuts-seeds-soy", "oz-eq"},
	{"oils", "g"},
}

// patternUnit returns the unit of a pattern group; ok is false when there is
// no such group.
func patternUnit(group string) (unit string, ok bool) {
	for _, g := range PatternGroups {
		if g.Name == group {
			return g.Unit, true
		}
	}
	return "", false
}

// HasTag reports whether the food carries the eligibility tag.
func (f *Food) HasTag(tag string) bool { return slices.Contains(f.Tags, tag) }

// PerGram returns what one gram of the food counts towards a pattern group, in
// the group's unit, 0 when nothing.
func (f *Food) PerGram(group string) float64 {
	for _, s := range f.Serves {
		if s.Group == group {
			return s.Per100g / 100
		}
	}
	return 0
}

// feed reports whether f is fed by volume: infant formula and human milk.
func (f *Food) feed() bool { return f.HasTag(TagInfantFormula) || f.HasTag(TagHumanMilk) }

package foods

import (
	"slices"

	"rationwright/nutrients"
)

// animalTags are the tags that say which animal food a food holds, next to the
// allergens milk, egg, fish and shellfish.
var animalTags = []string{"meat", "poultry", "fish", "honey", "gelatin", "rennet", "meat-stock", "human-milk"}

// animal checks that what comes from an animal says so. Cholesterol is in no
// plant food by more than a trace, so that any of it in the table means milk,
// egg, meat or fish. Source: US Dietary Guidelines 2020-2025 (cholesterol is
// found in animal foods only), from memory.
func (v *verifier) animal(f *Food) {
	named := f.holdsAnimal()
	tagged := f.HasTag("animal") || f.HasTag(TagHumanMilk)
	if chol := f.Per100g.Known(nutrients.Cholesterol); chol > 0 && !(tagged && named) {
		v.add(Error, f, "cholesterol", "%.0f mg cholesterol in 100 g, but neither the tag animal and an allergen or tag of an animal food", chol)
	}
	if named && !tagged {
		v.add(Error, f, "tags", "it holds an animal food, but the tag %q is missing", "animal")
	}
	if tagged && !named {
		v.add(Error, f, "tags", "it is tagged animal, but no allergen and none of %v says of what", animalTags)
	}
}

// holdsAnimal reports whether an allergen or a tag says that f holds an animal
// food.
func (f *Food) holdsAnimal() bool {
	return slices.ContainsFunc(animalTags, f.HasTag) ||
		slices.ContainsFunc([]string{"milk", "egg", "fish", "shellfish"}, func(a string) bool { return slices.Contains(f.Allergens, a) })
}

// pieceGroups are the shop groups whose foods come in pieces.
var pieceGroups = []string{"canned meat and poultry", "canned vegetables", "canned beans", "canned fruit"}

// pieces checks that food in pieces has a rule for children under 4 years, or a
// reason in data/exceptions.csv why it needs none. Source:
// child_under_4y_choking of special.csv (chunks of meat, whole beans, whole
// canned fruit pieces: leave out or mash).
func (v *verifier) pieces(f *Food) {
	ruled := f.HasTag(TagChoking) || f.HasTag("whole-pieces") || f.HasTag("bones") || f.HasTag(TagInfantFood)
	if slices.Contains(pieceGroups, f.Group) && f.Texture != "puree" && !ruled {
		v.add(Error, f, "pieces", "food in pieces without a rule for children under 4 years: tag it whole-pieces or choking")
	}
	if word := pieceEvidence.in(f); word != "" && !ruled {
		v.add(Error, f, "pieces", "%q is in the description, but no rule for children under 4 years: tag it whole-pieces or choking", word)
	}
}

var pieceEvidence = evidence{[]string{"stew", "chunks", "chunky", "meatballs", "lima beans", "beans, dry", "mixed vegetables", "ravioli"}, nil}

package foods

import "slices"

// fluidGroups are the shop groups whose foods are drunk or spooned as a liquid.
var fluidGroups = []string{"drinks", "juice", "soups"}

// formBouillon is the form of cubes and powder that become broth.
const formBouillon = "bouillon"

// IsFluid reports whether f, as made ready, counts as fluid where a clinician
// limits that: what is liquid at room temperature (common practice, no source).
// Cooked cereals and the juice of canned fruit are not counted.
func (f *Food) IsFluid() bool {
	return slices.Contains(fluidGroups, f.Group) || f.Form == formBouillon ||
		slices.ContainsFunc([]string{TagDairyDrink, TagJuice, TagSugaryDrink}, f.HasTag)
}

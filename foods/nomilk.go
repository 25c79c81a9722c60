package foods

import (
	"slices"

	"rationwright/nutrients"
)

// toddlerUnder is the age in months at which the pattern of small children ends: Dietary
// Guidelines for Americans 2020-2025, 12 to 23 months.
const toddlerUnder = 24

// NoMilk reports whether p, a child of 12 to 23 months and one of household, may have none
// of the milk that a child of that age drinks: an allergy or the diet of the child bars all
// of it, an allergy in the house keeps it out, the child's dislikes and rules leave none, or
// it is among without, which nobody gets. Of anybody else it is false, and where t
// holds no such milk. The error joins one [*UnknownError] per name of the child's wishes
// that the table lacks.
func NoMilk(t *Table, p nutrients.Person, household []nutrients.Person, without []*Food) (bool, error) {
	if p.AgeMonths < infantMonths || p.AgeMonths >= toddlerUnder {
		return false, nil
	}
	wishes, err := t.Wishes(p)
	if err != nil {
		return false, err
	}
	none := func(f *Food) bool {
		return slices.ContainsFunc(wishes.Most, func(w Portion) bool { return w.GramsPerDay <= 0 && slices.Contains(w.Foods, f) })
	}
	known := false
	for _, f := range t.Foods {
		if !f.HasTag(TagDairyDrink) || !f.HasTag(TagWholeMilk) {
			continue
		}
		known = true
		may, _ := Eligible(p, household, f)
		if _, unwanted := wishes.Refuses(f); may && !unwanted && !none(f) && !slices.Contains(without, f) {
			return false, nil
		}
	}
	return known, nil
}

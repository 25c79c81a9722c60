package foods

import (
	"slices"

	"rationwright/nutrients"
)

// Companion is a food that an ingredient, spread or topping is eaten with, and
// the most grams of the ingredient that go with one gram of it.
type Companion struct {
	Food  *Food
	Ratio float64 // g of the ingredient per g of Food, each on its own basis
}

// Companions returns the foods of the table that f is eaten with, in table
// order, nil when f is eaten by itself. A person eats of f at most
//
//	y_f ≤ Σ_c ratio_c · y_c
//
// over the companions c, with ratio_c the most of f at one sitting over the
// most of c at one sitting: a dish made up to its limit takes f up to its. A
// companion without a figure (infant formula) takes its own weight. Sources: cap_source of
// foods.csv for what is eaten at one sitting; for which foods are companions household
// cooking practice, common practice, no source.
//
// Neither f itself nor an ingredient of the same kind (one with the same
// companions) is a companion: bran is not eaten with bran.
func (t *Table) Companions(f *Food) []Companion {
	if len(f.Companions) == 0 {
		return nil
	}
	var with []Companion
	for _, c := range t.Foods {
		if c == f || slices.Equal(c.Companions, f.Companions) || !isNamed(c, f.Companions) {
			continue
		}
		ratio := 1.0
		if c.OccasionG > 0 && f.OccasionG > 0 {
			ratio = f.OccasionG / c.OccasionG
		}
		with = append(with, Companion{Food: c, Ratio: ratio})
	}
	return with
}

// isNamed reports whether one of names is the name, shop group or a pattern
// group of f.
func isNamed(f *Food, names []string) bool {
	return slices.ContainsFunc(names, func(name string) bool {
		return name == f.Name || name == f.Group ||
			slices.ContainsFunc(f.Serves, func(s Serving) bool { return s.Group == name })
	})
}

// FastSugarG returns the grams of sugars in one gram of f, 0 where unknown or
// where f is not quick sugar that treats a low blood glucose.
func (f *Food) FastSugarG() float64 {
	if !f.HasTag(TagFastSugar) {
		return 0
	}
	return f.Per100g.Known(nutrients.Sugars) / 100
}

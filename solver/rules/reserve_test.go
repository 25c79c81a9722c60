package rules

import (
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
)

// Doses of 15 g of quick sugar in a pack, by hand: whole ones only, one where it does
// not keep once it is open, none of what is no quick sugar.
func TestDosesOfAPack(t *testing.T) {
	for _, c := range []struct {
		grams, sugars, hours float64
		tag                  string
		want                 float64
	}{
		{44, 100, 8760, foods.TagFastSugar, 2}, {45, 100, 8760, foods.TagFastSugar, 3}, {46, 100, 8760, foods.TagFastSugar, 3},
		{60, 100, 8760, foods.TagFastSugar, 4}, {90, 50, 8760, foods.TagFastSugar, 3},
		{1000, 10, 24, foods.TagFastSugar, 1}, {1000, 10, 48, foods.TagFastSugar, 6}, {100, 10, 24, foods.TagFastSugar, 0}, {100, 100, 8760, "", 0},
	} {
		f := &foods.Food{Per100g: nutrients.Unknown(), Keeping: &foods.Keeping{AfterOpenHours: c.hours}, Tags: []string{c.tag}}
		f.Per100g[nutrients.Sugars] = c.sugars
		if got := Doses(&foods.Pack{Food: f, NetG: c.grams}); got != c.want {
			t.Errorf("%g g with %g %% of sugar that keeps %g h: %g doses, want %g", c.grams, c.sugars, c.hours, got, c.want)
		}
	}
}

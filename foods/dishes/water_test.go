package dishes

import (
	"testing"

	"rationwright/foods"
)

// TestWaterOfAPart, by hand: 80 g at 250 mL per 100 g take 200 mL. The dish's own water
// goes before that of the food, scaled where another food makes the part.
func TestWaterOfAPart(t *testing.T) {
	food := func(form string, water, discarded float64) *foods.Food {
		return &foods.Food{Form: form, Preparation: &foods.Preparation{WaterML: water, DiscardedML: discarded}}
	}
	none := &foods.Food{Form: "canned"}
	rice, grain, dry := food("rice", 200, 0), food("grain", 300, 0), food("rice", 0, 0)
	beans := food("beans", 400, 150)
	own := func(v float64) *float64 { return &v }
	for _, c := range []struct {
		name             string
		part             Part
		food             *foods.Food
		added, discarded float64
	}{
		{"as the food is prepared", Part{ReckonedAs: rice}, beans, 320, 120},
		{"the dish's own", Part{ReckonedAs: rice, WaterML: own(250)}, rice, 200, 0},
		{"the dish's own, by another food of the form", Part{ReckonedAs: rice, WaterML: own(250)}, dry, 200, 0},
		{"half as much again by another grain", Part{ReckonedAs: rice, WaterML: own(250)}, grain, 300, 0},
		{"a food that takes no water", Part{ReckonedAs: rice, WaterML: own(250)}, none, 0, 0},
		{"a food that takes no water, as it is", Part{ReckonedAs: rice}, none, 0, 0},
		{"reckoned with one that takes none", Part{ReckonedAs: dry, WaterML: own(250)}, beans, 320, 120},
		{"reckoned with one of which nothing is known", Part{ReckonedAs: none, WaterML: own(250)}, beans, 320, 120},
		{"no water in the dish", Part{ReckonedAs: rice, WaterML: own(0)}, rice, 0, 0},
	} {
		added, discarded := c.part.Water(c.food, 80)
		if added != c.added || discarded != c.discarded {
			t.Errorf("%s: %g mL, %g mL thrown away; want %g and %g", c.name, added, discarded, c.added, c.discarded)
		}
	}
}

// TestPiecesAndSpoons: from half a piece on pieces are counted; a food without pieces has
// its cup, and of a spoon alone the cup is 16 (USDA table of weights).
func TestPiecesAndSpoons(t *testing.T) {
	f := &foods.Food{NDB: "00000"}
	b := &Book{measures: map[string][]measure{f.NDB: {{one: "slice", many: "slices", grams: 30}, {one: "cup", many: "cups", grams: 240}}}}
	for grams, want := range map[float64]string{15: "1/2 slice", 30: "1 slice", 90: "3 slices"} {
		if got := b.Measure(f, grams, nil); got != want {
			t.Errorf("%g g of slices of 30: %q, want %q", grams, got, want)
		}
	}
	if got := b.Measure(f, 14.9, nil); got == "" || got == "1/2 slice" {
		t.Errorf("under half a slice: %q, want spoons", got)
	}
	b.measures[f.NDB] = []measure{{one: "tbsp", many: "tbsp", grams: 15}}
	for grams, want := range map[float64]string{240: "1 cup", 30: "2 tbsp", 5: "1 tsp"} {
		if got := b.Measure(f, grams, nil); got != want {
			t.Errorf("%g g of spoons of 15: %q, want %q", grams, got, want)
		}
	}
}

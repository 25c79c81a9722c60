package dishes

import (
	"testing"

	"rationwright/foods"
)

// TestAmountsInMeasures, by hand, of a cup of 240 g (a tablespoon of 15 g, a teaspoon of 5 g) and of a
// pack of 400 g: shares of a kitchen to the nearest, halves from four on, whole ones from ten on.
func TestAmountsInMeasures(t *testing.T) {
	cup := &foods.Food{NDB: "00000"}
	plain := &foods.Food{NDB: "00001"}
	b := &Book{measures: map[string][]measure{cup.NDB: {{one: "cup", many: "cups", grams: 240}}}}
	for grams, want := range map[float64]string{
		52.8: "1/4 cup", 52.7: "3 1/2 tbsp", 60: "1/4 cup", 80: "1/3 cup", 120: "1/2 cup", 160: "2/3 cup", 180: "3/4 cup", 229: "1 cup", 240: "1 cup", 300: "1 1/4 cups", 480: "2 cups", 640: "2 2/3 cups", 710: "3 cups",
		4 * 240: "4 cups", 4.2 * 240: "4 cups", 4.3 * 240: "4 1/2 cups", 9.8 * 240: "10 cups", 10.4 * 240: "10 cups", 10.6 * 240: "11 cups",
		15: "1 tbsp", 14.9: "3 tsp", 20: "1 1/3 tbsp", 5: "1 tsp", 2.5: "1/2 tsp", 1: "1/4 tsp", 0.99: "a pinch", 0.1: "a pinch",
	} {
		if got := b.Measure(cup, grams, &foods.Pack{NetG: 400}); got != want {
			t.Errorf("%g g of a cup of 240: %q, want %q", grams, got, want)
		}
	}
	for grams, want := range map[float64]string{59.9: "", 60: "1/4 of a pack", 100: "1/4 of a pack", 130: "1/3 of a pack", 300: "3/4 of a pack", 400: "1 of a pack", 500: "1 1/4 packs", 4000: "10 packs"} {
		if got := b.Measure(plain, grams, &foods.Pack{NetG: 400}); got != want {
			t.Errorf("%g g of a pack of 400: %q, want %q", grams, got, want)
		}
	}
	// A spoon that is said goes before the cup's, a tablespoon before none and after a teaspoon.
	b.measures[cup.NDB] = []measure{{one: "cup", many: "cups", grams: 240}, {one: "tsp", many: "tsp", grams: 4}, {one: "tbsp", many: "tbsp", grams: 15}}
	for grams, want := range map[float64]string{12: "1 tbsp", 8: "2 tsp", 0.8: "1/4 tsp", 0.79: "a pinch"} {
		if got := b.Measure(cup, grams, nil); got != want {
			t.Errorf("%g g of a teaspoon of 4: %q, want %q", grams, got, want)
		}
	}
	b.measures[cup.NDB] = []measure{{one: "tsp", many: "tsp", grams: 4}} // 16 × 3 × 4 g are a cup
	for grams, want := range map[float64]string{192: "1 cup", 12: "1 tbsp", 4: "1 tsp"} {
		if got := b.Measure(cup, grams, nil); got != want {
			t.Errorf("%g g of a teaspoon of 4 alone: %q, want %q", grams, got, want)
		}
	}
}

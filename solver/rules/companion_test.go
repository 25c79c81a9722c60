package rules

import (
	"math"
	"testing"

	"rationwright/foods"
)

// TestSittings: of flour at 60 g a sitting with 0.5 g of yeast to a gram of it, a gram of
// yeast goes with one hundred-and-twentieth of a sitting; what has no sitting counts by
// the gram.
func TestSittings(t *testing.T) {
	yeast, oil := &foods.Food{Name: "yeast"}, &foods.Food{Name: "oil"}
	list := []foods.Companion{{Food: yeast, Ratio: 0.5}, {Food: oil, Ratio: 3}}
	for grams, want := range map[float64][3]float64{60: {60, 0.5 / 60, 3.0 / 60}, 0: {1, 0.5, 3}} {
		sitting, shares := Sittings(&foods.Food{OccasionG: grams}, list)
		if sitting != want[0] || math.Abs(shares[yeast]-want[1]) > 1e-12 || math.Abs(shares[oil]-want[2]) > 1e-12 || len(shares) != 2 {
			t.Errorf("%g g at a sitting: %g, %v, want %v", grams, sitting, shares, want)
		}
	}
}

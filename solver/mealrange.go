package solver

import (
	"fmt"

	"rationwright/nutrients"
)

// mealRange says what perDay grams of carbohydrate come to at each meal.
func mealRange(band *nutrients.MealBand, perDay float64) *MealRange {
	return &MealRange{
		MeanG: band.MeanG(perDay), LowG: band.Low.Amount, HighG: band.High.Amount,
		Meals: band.Meals, Snacks: band.Snacks, SnackG: band.SnackG,
		Enforced: band.Enforced, Source: sourceOf(band.Low.Source, band.Low.Verified),
	}
}

// words says in a line how much carbohydrate a meal of this plan has.
func (m *MealRange) words(perDay float64) string {
	return fmt.Sprintf("This plan gives %.0f g of carbohydrate a day: about %.0f g at each of %d meals, with %d snacks of %g g.",
		perDay, m.MeanG, m.Meals, m.Snacks, m.SnackG)
}

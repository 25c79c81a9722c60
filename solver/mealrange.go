package solver

import (
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// mealRange says what perDay grams of carbohydrate come to at each meal.
func mealRange(band *nutrients.MealBand, perDay float64) *ration.MealRange {
	return &ration.MealRange{
		MeanG: band.MeanG(perDay), LowG: band.Low.Amount, HighG: band.High.Amount,
		Meals: band.Meals, Snacks: band.Snacks, SnackG: band.SnackG,
		Enforced: band.Enforced, Source: ration.SourceOf(band.Low.Source, band.Low.Verified),
	}
}

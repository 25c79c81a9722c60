package menu

import "rationwright/foods"

// besideAt is the meal beside which a food is eaten that no dish takes.
func besideAt(f *foods.Food) int {
	switch f.Group {
	case "oils and fats", "fats and oils", "canned vegetables", "canned beans", "canned fish", "canned meat", "grains", "pasta and noodles", "dried beans and lentils", "flour and baking":
		return atEvening
	case "bread and crackers", "soups":
		return atMidday
	}
	return atBreakfast
}

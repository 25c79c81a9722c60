package menu

import "rationwright/foods/dishes"

// kind is a sort of place in the menu.
type kind int

const (
	atBreakfasts kind = iota
	atMains           // midday and evening
	atSnacks
	atDrinks // beside a meal
	kinds
)

// choice is how often a dish is served at each kind of place, and what the whole
// household eats of it at one serving.
type choice struct {
	*candidate
	times   [kinds]int
	kcal    float64
	protein float64
}

// Costs of the choice, in kcal of the household's food per kcal, serving or head.
const (
	costBeside   = 1.0  // a kcal that no dish takes
	costSeason   = 0.5  // of fat, sugar and other seasoning that no dish takes
	costThin     = 1.5  // a kcal that a serving lacks to its least
	costLarge    = 1.0  // a kcal of a serving over its most
	costNone     = 500  // a head at a meal without a dish
	costOwn      = 60   // a head at a meal with a dish of one's own
	costOwnPot   = 160  // where that is cooked
	costOften    = 25   // a head at a serving over the usual count
	costServing  = 4    // a head at a drink or snack
	costPot      = 12   // times that, where it is cooked
	costVariety  = 8    // a head at a main dish: fewer, larger ones are no aim
	costNotCold  = 800  // a head at a meal that is hot on a cold day
	costWetter   = 1500 // a litre that dishes take beyond what the plan stores for food
	snacksPerDay = 2
	drinksPerDay = 4 // beside three meals and a snack
)

// servedAt reports whether the dish is served at a kind of place.
func servedAt(d *dishes.Dish, k kind) bool {
	switch k {
	case atBreakfasts:
		return d.Has(dishes.Breakfast)
	case atMains:
		return d.Has(dishes.Midday) || d.Has(dishes.Evening)
	case atSnacks:
		return d.Has(dishes.Snack)
	}
	return d.Has(dishes.Drink)
}

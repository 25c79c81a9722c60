package menu

import "rationwright/solver/ration"

// What a menu is made of, as it is asked and answered.
type (
	Menu   = ration.Menu
	Day    = ration.MenuDay
	Meal   = ration.MenuMeal
	Dish   = ration.MenuDish
	Kept   = ration.MenuKept
	Served = ration.MenuServed
	Amount = ration.MenuAmount
	Misfit = ration.MenuMisfit
	Left   = ration.MenuLeft
)

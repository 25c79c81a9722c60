package ration

// Names of what a household as a whole is short of.
const (
	ShortWater   = "stored_water"
	ShortHeat    = "heat_for_cooking"
	ShortReserve = "fast_sugar_set_aside"
)

// Names of water among shortfalls: for washing, and the least to drink.
const (
	ShortWashing = "washing_water"
	ShortDrink   = "drinking_water"
)

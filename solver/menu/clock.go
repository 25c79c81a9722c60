package menu

import "rationwright/foods/dishes"

// The meals of a day in their order. Two snacks stand between the main meals.
var clock = []struct {
	slot dishes.Slot
	name string
	hour float64 // of the day; own planning rule, no source
}{
	{dishes.Breakfast, "breakfast", 7.5},
	{dishes.Snack, "morning snack", 10.5},
	{dishes.Midday, "midday", 13},
	{dishes.Snack, "afternoon snack", 16},
	{dishes.Evening, "evening", 19},
}

// Positions in clock.
const (
	atBreakfast = 0
	atMorning   = 1
	atMidday    = 2
	atAfternoon = 3
	atEvening   = 4
	meals       = 5 // of a day
)

// mainMeals are those at which a dish is on the table for the whole household.
var mainMeals = []int{atBreakfast, atMidday, atEvening}

// isSnack reports whether a position is between the main meals.
func isSnack(at int) bool { return at == atMorning || at == atAfternoon }

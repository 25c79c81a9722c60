package menucheck

// written is a menu as its JSON says.
type written struct {
	FromDay   int          `json:"from_day"`
	Days      []writtenDay `json:"days"`
	Leftovers []struct {
		Pack  string `json:"pack"`
		Count int    `json:"count"`
	} `json:"leftovers"`
	WaterL float64 `json:"water_l"`
	HeatMJ float64 `json:"heat_mj"`
}

// writtenDay is one of its days.
type writtenDay struct {
	Day  int    `json:"day"`
	Date string `json:"date"`
	Cold bool   `json:"cold"`

	HeatMJ float64 `json:"heat_mj"`
	WaterL float64 `json:"water_l"`

	Meals []writtenMeal `json:"meals"`
}

// writtenMeal is one of its meals.
type writtenMeal struct {
	Meal   string  `json:"meal"`
	Hour   float64 `json:"hour"`
	Dishes []struct {
		Dish string `json:"dish"`
	} `json:"dishes"`
	Opens  []string `json:"opens"`
	People []served `json:"people"`
}

// isMain reports whether it is a main meal, which takes a dish.
func (m *writtenMeal) isMain() bool {
	return m.Meal == "breakfast" || m.Meal == "midday" || m.Meal == "evening"
}

// served is what one person gets at a meal.
type served struct {
	Name  string    `json:"name"`
	Count int       `json:"count"`
	Foods []helping `json:"foods"`
}

// helping is a food of it, in a dish or by itself.
type helping struct {
	Food  string  `json:"food"`
	Dish  string  `json:"dish"`
	Grams float64 `json:"grams"`
}

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

	Meals []struct {
		Meal   string  `json:"meal"`
		Hour   float64 `json:"hour"`
		Dishes []struct {
			Dish    string   `json:"dish"`
			Minutes float64  `json:"minutes"`
			For     []string `json:"for"`
		} `json:"dishes"`
		Opens  []string `json:"opens"`
		People []served `json:"people"`
	} `json:"meals"`
}

// served is what one person gets at a meal.
type served struct {
	Name  string `json:"name"`
	Count int    `json:"count"`
	Foods []struct {
		Food  string  `json:"food"`
		Dish  string  `json:"dish"`
		Grams float64 `json:"grams"`
	} `json:"foods"`
}

package ration

// Menu is the schedule of a plan. Its JSON form extends that of the plan's: days, meals,
// what is opened and what each person gets, see the README.
type Menu struct {
	Notice    string       `json:"notice,omitempty"` // what is worst, in one line
	Start     string       `json:"start"`            // ISO date of day one of the plan
	FromDay   int          `json:"from_day"`         // the first day of this menu, 1 for a whole plan
	Days      []MenuDay    `json:"days"`
	Misfits   []MenuMisfit `json:"misfits,omitempty"` // what of the plan fits no dish, worst first
	Leftovers []MenuLeft   `json:"leftovers,omitempty"`
	Cautions  []string     `json:"cautions,omitempty"`
	InDishes  float64      `json:"in_dishes"` // share of the energy that is eaten in dishes
	WaterL    float64      `json:"water_l"`   // into food over the menu
	HeatMJ    float64      `json:"heat_mj"`   // useful heat over the menu
}

// MenuDay is one day of a menu.
type MenuDay struct {
	Day     int        `json:"day"` // of the plan, 1 for the first
	Date    string     `json:"date"`
	Cold    bool       `json:"cold,omitempty"` // nothing is heated, as asked
	Meals   []MenuMeal `json:"meals"`
	Tonight []string   `json:"tonight,omitempty"` // what is soaked in the evening for the next day
	WaterL  float64    `json:"water_l"`           // into food
	HeatMJ  float64    `json:"heat_mj"`
}

// MenuMeal is one meal of a day.
type MenuMeal struct {
	Meal   string       `json:"meal"`
	Hour   float64      `json:"hour"`
	Dishes []MenuDish   `json:"dishes,omitempty"` // the main dish first, then drinks and what is beside it
	Opens  []string     `json:"opens"`            // keys of packs, one entry for each pack
	Keeps  []MenuKept   `json:"keeps,omitempty"`  // until when what is opened must be finished
	People []MenuServed `json:"people"`
	WaterL float64      `json:"water_l"`
	HeatMJ float64      `json:"heat_mj"`
}

// MenuDish is a dish on the table.
type MenuDish struct {
	Key     string   `json:"dish"`
	Name    string   `json:"name"`
	How     string   `json:"how"`
	Minutes float64  `json:"minutes"`
	Cooking string   `json:"cooking"`
	For     []string `json:"for,omitempty"` // names, where it is not for everyone at the meal
	WaterML float64  `json:"water_ml"`      // for all who eat it
}

// MenuKept is a pack opened that does not keep: it is finished by the meal named, or
// thrown away.
type MenuKept struct {
	Pack   string `json:"pack"`
	Until  string `json:"until"`
	Safety bool   `json:"safety"` // a safety limit, not one of quality
}

// MenuServed is what one person of a household row gets at a meal. Grams are for one
// person, on the basis of the food's row.
type MenuServed struct {
	Name    string       `json:"name"`
	Count   int          `json:"count"`
	Foods   []MenuAmount `json:"foods"`
	EatenAs []string     `json:"eaten_as,omitempty"` // what is done for the mouth
}

// MenuAmount is grams of one food in one dish at a meal.
type MenuAmount struct {
	Food    string  `json:"food"`
	NDB     string  `json:"ndb,omitempty"`
	Dish    string  `json:"dish,omitempty"` // key; "" where it is eaten beside the dishes
	Grams   float64 `json:"grams"`
	Measure string  `json:"measure,omitempty"` // in household measures
}

// MenuMisfit is something of the plan that no dish takes, or a rule that is not kept.
type MenuMisfit struct {
	Person string  `json:"person,omitempty"`
	Text   string  `json:"text"`
	Kcal   float64 `json:"kcal,omitempty"` // a day, what it weighs
}

// MenuLeft is packs of the plan that nobody needs opened: a reserve.
type MenuLeft struct {
	Pack  string `json:"pack"`
	Count int    `json:"count"`
}

// DishesCost is the plan without dishes beside which one with dishes stands: the best
// found and what is proven of it, in the unit of the plan's value. Every plan with
// dishes is one without too, so that Bound holds for both.
type DishesCost struct {
	Value float64  `json:"value"`
	Bound *float64 `json:"bound,omitempty"`
	Gap   *float64 `json:"gap,omitempty"`  // fraction
	Price float64  `json:"price"`          // what dishes add before any slack is spent, fraction of Value
	Room  float64  `json:"room,omitempty"` // by what part more than without dishes planning rules gave, so that there are dishes; the plan without them has the same
	None  string   `json:"none,omitempty"` // why there is no plan by dishes: the menu is then the nearest to one
}

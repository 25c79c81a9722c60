package ration

// Eatable says how far people will eat what a plan holds: how many different
// things there are, what leans on one food, and which of this program's planning
// rules had to give.
type Eatable struct {
	Products         int           `json:"products"`                // different foods in the store, water and what is set aside apart
	MostSizes        int           `json:"most_sizes"`              // most pack sizes of one food
	LargestFoodShare float64       `json:"largest_food_share"`      // of one person's energy, fraction
	LargestKindShare float64       `json:"largest_kind_share"`      // of a kind of food that has no share of its own, fraction
	Crumbs           int           `json:"crumbs"`                  // amounts under the least portion of a food: a person's foods so small
	Mains            int           `json:"mains"`                   // different mains, of foods that half of those who eat have portions of: see [DifferentMains]
	Price            *float64      `json:"price,omitempty"`         // what the second aim added to the first, fraction of the best found
	Weight           *float64      `json:"weight,omitempty"`        // the second aim's own value, by its weights
	Bound            *float64      `json:"bound,omitempty"`         // and what is proven of it: no plan within the slack has less
	LittleSodium     *LittleSodium `json:"little_sodium,omitempty"` // where a second aim was sought for somebody who is to have little
	Stopped          string        `json:"stopped,omitempty"`       // the second aim, by the clock
	Loosened         []Loosened    `json:"loosened,omitempty"`      // planning rules that give: with them nothing fits
}

// LittleSodium is the sodium of all who are to have little, mg a day together, and what is
// proven: no plan within the slack gives them less. It goes before the second aim, which
// may raise it by a fiftieth (own planning rule, no source).
type LittleSodium struct {
	People []string `json:"people"`
	Amount float64  `json:"amount"`
	Least  float64  `json:"least"`
}

// Loosened is one planning rule of this program that a plan goes beyond, by as
// little as was found: no safety rule ever is.
type Loosened struct {
	Person string  `json:"person"`
	Kind   string  `json:"kind"` // of food, or one food
	Unit   string  `json:"unit"` // a day; or "% of energy"
	Amount float64 `json:"amount"`
	Limit  float64 `json:"limit"`
}

// PartOfEnergy is the unit of a [Loosened] share.
const PartOfEnergy = "% of energy"

// First is the best found of the first aim (cost, weight or volume) before the
// slack was spent on the second, and how far people would have eaten that.
type First struct {
	Value     float64  `json:"value"`
	Gap       *float64 `json:"gap,omitempty"` // fraction
	Products  int      `json:"products"`
	MostSizes int      `json:"most_sizes"`
	Crumbs    int      `json:"crumbs"`
}

package ration

import (
	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/nutrients"
)

// Of is the total that an objective minimises.
func (t *Totals) Of(l Least) float64 {
	switch l {
	case LeastWeight:
		return t.WeightKg
	case LeastVolume:
		return t.VolumeL
	default:
		return t.Cost
	}
}

// FindPack finds a pack of the request's table or stock by its key.
func FindPack(req *Request, key string) *foods.Pack {
	for _, k := range req.Table.Packs {
		if k.Key == key {
			return k
		}
	}
	for _, line := range req.Stock {
		if line.Pack.Key == key {
			return line.Pack
		}
	}
	return nil
}

// Plan is the answer to a [Request]: what to buy, what each person gets, and
// how close to the best it is proven to be. Its JSON form is stable (see the
// README); an absent value is an absent key, never 0.
type Plan struct {
	Notice   string         `json:"notice,omitempty"` // whom the plan does not feed; stands first
	Version  string         `json:"version"`
	Request  *RequestRecord `json:"request,omitempty"` // rebuilds the model with no other file
	Status   string         `json:"status"`            // optimal | limit | infeasible
	Stopped  string         `json:"stopped,omitempty"` // "time limit reached; another run may differ" …
	Least    Least          `json:"least"`
	Days     int            `json:"days"`
	Standard string         `json:"standard"`
	Value    *float64       `json:"value,omitempty"` // in the unit of Least: currency, kg or litres
	Bound    *float64       `json:"bound,omitempty"`
	Gap      *float64       `json:"gap,omitempty"` // fraction
	Totals   *Totals        `json:"totals,omitempty"`
	First    *First         `json:"first,omitempty"`   // before the slack was spent; status is judged by it
	Eatable  *Eatable       `json:"eatable,omitempty"` // how far people will eat it
	Packs    []PlanPack     `json:"packs,omitempty"`
	People   []PlanPerson   `json:"people,omitempty"`

	Shortfalls []Shortfall `json:"shortfalls,omitempty"`
	Refused    []Refused   `json:"refused,omitempty"`
	Prices     []Price     `json:"prices,omitempty"`
	Cautions   []Caution   `json:"cautions,omitempty"`
	NotChecked []string    `json:"not_checked,omitempty"`
	Shelves    *ShelfFit   `json:"shelves,omitempty"`    // where everything stands, when shelves were given
	Notes      []string    `json:"notes,omitempty"`      // what is assumed, in plain words
	Audit      *Audit      `json:"audit,omitempty"`      // the proof gone through again, when asked
	WeakHands  bool        `json:"weak_hands,omitempty"` // all who open packs are 65 or over

	// Only with dishes chosen together with the packs.
	Menu   *Menu       `json:"menu,omitempty"`
	Dishes *DishesCost `json:"without_dishes,omitempty"`

	// Only when nothing fits.
	Conflict []ConflictLimit `json:"conflict,omitempty"`
	Proven   *bool           `json:"proven,omitempty"`
	Closest  *Closest        `json:"closest,omitempty"`
	WaysOut  []WayOut        `json:"ways_out,omitempty"`

	WaterShort *stores.Shortage `json:"water_short,omitempty"` // where the most water asked for does not do

	Digest map[string]string `json:"digest,omitempty"` // of each part, as written; see MarshalJSON

	changed []string // parts of a plan read back whose digest is another
}

// Totals of a plan: food, stored water and fuel together, and the food alone.
type Totals struct {
	Cost     float64 `json:"cost"`
	Currency string  `json:"currency"`
	WeightKg float64 `json:"weight_kg"`
	VolumeL  float64 `json:"volume_l"`
	WaterL   float64 `json:"water_l"`
	HeatMJ   float64 `json:"heat_mj"`
	// Of WaterL and HeatMJ, what the stock list has already; it costs nothing.
	OwnWaterL float64    `json:"own_water_l,omitempty"`
	OwnHeatMJ float64    `json:"own_heat_mj,omitempty"`
	Food      FoodTotals `json:"food"`
}

// FoodTotals are the totals of the packs alone.
type FoodTotals struct {
	Cost     float64 `json:"cost"`
	WeightKg float64 `json:"weight_kg"`
	VolumeL  float64 `json:"volume_l"`
}

// PlanPack is one line of the shopping list. NetG is edible grams of one pack
// on the basis of the food's row; Cost, WeightKg and VolumeL are of the line.
type PlanPack struct {
	Pack      string  `json:"pack"`
	Food      string  `json:"food"`
	NDB       string  `json:"ndb,omitempty"`
	Count     int     `json:"count"` // packs in the store: bought and from stock
	NetG      float64 `json:"net_g"`
	Cost      float64 `json:"cost"`
	WeightKg  float64 `json:"weight_kg"`
	VolumeL   float64 `json:"volume_l"`
	FromStock int     `json:"from_stock,omitempty"` // of Count
	Reserve   bool    `json:"reserve,omitempty"`    // set aside, never ration
	Group     string  `json:"group,omitempty"`
	EasyOpen  bool    `json:"easy_open,omitempty"` // weak hands can open and lift it
}

// PlanPerson is what one person of a household row eats over the horizon and
// gets per day.
type PlanPerson struct {
	Name         string             `json:"name"`
	Count        int                `json:"count"`
	Foods        []PersonFood       `json:"foods"`
	ByDate       []DatedFood        `json:"by_date,omitempty"` // of Foods, what comes out of stock that does not keep all days
	Needs        []PersonNeed       `json:"needs"`
	Rules        []RuleNote         `json:"rules,omitempty"`
	AskAbout     []nutrients.Tablet `json:"ask_about,omitempty"`             // supplements of what the diet leaves scarce; not counted
	Carbohydrate *MealRange         `json:"carbohydrate_per_meal,omitempty"` // with diabetes or a band of one's own
	DrinkLPerDay float64            `json:"drink_l_per_day,omitempty"`
}

// PersonFood is grams of a food over the horizon, on the basis of its row.
type PersonFood struct {
	Food  string  `json:"food"`
	NDB   string  `json:"ndb,omitempty"`
	Grams float64 `json:"grams"`
}

// DatedFood is grams of a food out of packs that must be eaten by a day.
type DatedFood struct {
	Food  string  `json:"food"`
	NDB   string  `json:"ndb,omitempty"`
	Day   int     `json:"day"` // of the horizon, 1 for the first
	Grams float64 `json:"grams"`
}

// PersonNeed is one nutrient per day: what is got and what is asked.
type PersonNeed struct {
	Nutrient string   `json:"nutrient"`
	Unit     string   `json:"unit"`
	Amount   float64  `json:"amount"`
	Floor    *float64 `json:"floor,omitempty"`
	Ceiling  *float64 `json:"ceiling,omitempty"`
	Target   *float64 `json:"target,omitempty"`
	Source   string   `json:"source"`
	Unknown  bool     `json:"unknown,omitempty"` // some food eaten has no figure for it
}

// MealRange is the carbohydrate of one meal, in g: what the day's comes to
// beside the snacks, and the band. Enforced is true where the person or a
// clinician set the band; else it is the usual counting range, shown only.
type MealRange struct {
	MeanG    float64 `json:"mean_g"`
	LowG     float64 `json:"low_g"`
	HighG    float64 `json:"high_g"`
	Meals    int     `json:"meals"`
	Snacks   int     `json:"snacks"`
	SnackG   float64 `json:"snack_g"`
	Enforced bool    `json:"enforced"`
	Source   string  `json:"source"`
}

// RuleNote is one line of a person's rule set.
type RuleNote struct {
	Text   string `json:"text"`
	Source string `json:"source"`
	Apart  *Apart `json:"apart,omitempty"` // set where the store holds what this person must not have
}

// Apart lists the foods of a store that hold an allergen (or gluten), and those that
// hold it not and may hold it, each by its name in the table.
type Apart struct {
	Allergen string   `json:"allergen"`
	Holds    []string `json:"holds,omitempty"`
	MayHold  []string `json:"may_hold,omitempty"`
}

// Shortfall is an amount per day under its target.
type Shortfall struct {
	Person   string  `json:"person"`
	Nutrient string  `json:"nutrient"`
	Unit     string  `json:"unit,omitempty"`
	Amount   float64 `json:"amount"`
	Target   float64 `json:"target"`
}

// Refused is a person whom a clinician must plan for.
type Refused struct {
	Name   string `json:"name"`
	Reason string `json:"reason"`
	Source string `json:"source"`
}

// Price is the shadow price of a binding limit, of the relaxation, "about".
type Price struct {
	Limit    string  `json:"limit"`
	Person   string  `json:"person,omitempty"`
	Unit     string  `json:"unit,omitempty"`
	Marginal float64 `json:"marginal"`
}

// Caution is a warning that touches this plan.
type Caution struct {
	ID       string   `json:"id"`
	Severity string   `json:"severity"` // stop | warn | info
	Text     string   `json:"text"`
	Source   string   `json:"source"`
	People   []string `json:"people,omitempty"`
}

// ConflictLimit is one limit of a conflicting set, in the user's words.
type ConflictLimit struct {
	Limit  string `json:"limit"`
	Person string `json:"person,omitempty"`
}

// Closest is the ration that comes closest when nothing fits.
type Closest struct {
	People     []PlanPerson `json:"people"`
	Packs      []PlanPack   `json:"packs,omitempty"`
	Shortfalls []Shortfall  `json:"shortfalls,omitempty"`
	Over       []Over       `json:"over,omitempty"` // ceilings passed

	Passed []Over `json:"-"` // with those that are only a share of too little energy
}

// Over is a ceiling that the closest ration passes, per day.
type Over struct {
	Person   string  `json:"person"`
	Nutrient string  `json:"nutrient"`
	Unit     string  `json:"unit"`
	Amount   float64 `json:"amount"`
	Ceiling  float64 `json:"ceiling"`
}

// WayOut is one relaxation that was tried, and what it would cost.
type WayOut struct {
	Change string   `json:"change"`
	Cost   *float64 `json:"cost,omitempty"`
	Tested bool     `json:"tested"`

	Request *Request `json:"-"` // the changed request
	Plan    *Plan    `json:"-"` // a plan of it
}

// Need finds a line of the plan by its nutrient.
func (p *PlanPerson) Need(name string) *PersonNeed {
	for i := range p.Needs {
		if p.Needs[i].Nutrient == name {
			return &p.Needs[i]
		}
	}
	return nil
}

// NeedOf finds what a person gets of a nutrient, nil where the plan says nothing of it.
func (p *Plan) NeedOf(person, nutrient string) *PersonNeed {
	for i := range p.People {
		if p.People[i].Name == person {
			return p.People[i].Need(nutrient)
		}
	}
	return nil
}

// Bought is how many of each pack the plan buys to eat, by key.
func (p *Plan) Bought() map[string]int {
	out := map[string]int{}
	for _, k := range p.Packs {
		if n := k.Count - k.FromStock; n > 0 && !k.Reserve {
			out[k.Pack] += n
		}
	}
	return out
}

package ration

import (
	"time"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/nutrients"
)

// Least is what a plan minimises.
type Least string

// The words of --least.
const (
	LeastCost   Least = "cost"
	LeastWeight Least = "weight"
	LeastVolume Least = "volume"
)

// Cook is the most demanding preparation a household can do.
type Cook string

// The words of --cook, each allowing those before it.
const (
	CookNone   Cook = "none"   // nothing heated
	CookWarm   Cook = "warm"   // heat through
	CookBoil   Cook = "boil"   // boil water, under 20 minutes' simmering (default)
	CookSimmer Cook = "simmer" // long simmering and baking
)

// Request is everything that decides a plan. It is complete: the same Request
// gives the same Plan.
type Request struct {
	People      []nutrients.Person
	Table       *foods.Table // foods, packs and prices
	Stock       []foods.StockLine
	StockWaterL *float64 // stored water on hand, nil unknown
	StockHeatMJ *float64 // useful heat of the fuel on hand, nil unknown
	Without     []string // food names or NDB numbers nobody gets
	Least       Least    // "" means cost
	Days        int      // 0 means 14
	Standard    nutrients.Standard
	Energy      nutrients.EnergySet
	LeanEnergy  bool // energy floor 0.97 for adults 19–64
	Cook        Cook // "" means boil
	Limits      Limits
	Hot         bool // hot climate
	Pets        int
	Ill         []string       // names of people who are ill, or may be: more water is kept for them
	Stove       string         // stove and fuel, a word of stores.StoveNames; "" means stores.UsualStove
	Shelves     []stores.Shelf // shelves that must hold food and water, from the floor up; none means no such limit
	BoilWater   bool           // drinking water must be boiled
	StockOnly   bool           // buy nothing: from stock alone
	EasyOpen    bool           // only packs that weak hands can open and lift
	Allowance   bool           // the usual water allowance per head as a row
	Within      float64        // relative gap asked; 0 means 0.01
	Time        time.Duration  // for the whole question, which the context ends; the search's work is counted from it; 0 means 10 s
	Work        int64          // deterministic stop, simplex iterations; 0 means none
	Effort      time.Duration  // of Time, what the search's work is counted from, where it is one step of several; 0 means all
	Slack       float64        // part of the best found that the second aim may add; 0 means no second aim
	Weights     Weights        // of the second aim; nil means the built-in ones
	Audit       bool           // keep what an audit of the proof needs
	Terse       bool           // who eats what is not tidied of crumbs, and where nothing fits, what conflicts is said and no more: neither what comes closest nor a way out
	Start       string         // ISO date of day one; what depends on today takes it
	Files       Files          // the user's files as read, for the record in a plan
	Demo        Demo           // what of the request is the embedded demo

	WashingL *float64 // water for hands and dishes, L a head and day; nil: [stores.HygieneL]

	WithMenu bool // packs and dishes are chosen together

	Keep map[string]int // packs bought that must stay as many, by key

	// WarmStart is packs bought for a request like this one, by key: the plan before a
	// change, or that of a similar household. The search begins near them; nil begins
	// without. It decides nothing but how soon a good plan is found.
	WarmStart map[string]int

	// IgnoreEatable leaves the planning rules of this program on kinds of food out:
	// what needs and safety alone allow, as where a conflict or a stock is judged.
	IgnoreEatable bool
}

// Limits are the optional limits of a plan; nil means none.
type Limits struct {
	Budget   *float64 // in the currency of the prices
	WeightKg *float64
	VolumeL  *float64 // of upright boxes
	WaterL   *float64
	HeatMJ   *float64
}

// Demo says which parts of a request are the embedded, invented demo.
type Demo struct {
	Household bool `json:"household,omitempty"`
	Prices    bool `json:"prices,omitempty"`
}

// Files are the rows of the user's own files, header first; nil means none was
// given.
type Files struct {
	Foods, Prices, Stock [][]string
	Caps                 [][]string // limits on kinds of food in place of the built-in planning rules
	Weights              [][]string // of the second aim
	Dishes, DishParts    [][]string // of the user's own
}

package foods

import "rationwright/nutrients"

// Food is one row of the food table.
type Food struct {
	NDB         string // five characters; for computed and user rows a key of their own, see Computed
	Computed    bool   // true: not a USDA row (median formula, user's label); no NDB number
	Name        string // short unique plain name, lower case
	Description string // long USDA description, or the label's text
	Group       string // shop group, one of [Groups]
	Form        string // key of keeping times, preparation and density
	Basis       string // what 100 g of the row is: "as packed", "drained", "dry", "powder", …

	Per100g nutrients.Amounts // per 100 g on Basis, edible part

	Allergens  []string // milk egg fish shellfish tree-nut wheat peanut soy sesame
	MayContain []string // allergens that some makers' packs hold; excluded for a "!" allergy
	Tags       []string // eligibility tags, see [Tags]
	Texture    string   // "puree", "soft", "regular" or "hard"
	Mercury    string   // fish only: "best", "good" or "avoid"
	LactoseG   float64  // g per 100 g; 0 when none
	HasLactose bool     // LactoseG is known; when false see [Food.LactoseAtMost]
	GI         float64  // glycaemic index, 0 when not known
	GIClass    string   // low medium high, "" unknown
	Class      string   // class of cooking practice: ingredient only, spread or topping, …
	Companions []string // an ingredient is eaten only with foods of these groups or names
	OccasionG  float64  // most that an adult eats at one occasion, g on Basis; 0 = no figure
	DayG       float64  // most that an adult eats in a day, g on Basis
	Serves     []Serving
	AddedRule  string // how added sugars were found
	CapSource  string // where OccasionG and DayG come from
	Note       string
	Source     string
	Verified   string

	Kinds   []string // names of the kinds in which it lies, the smallest first, see [Table.Kinds]
	Short   string   // short USDA description
	Factors Factors  // energy factors of the row, zero when the table has none
	Own     bool     // the user's own food, or a row with figures from the user's label
	Like    string   // key of the food that the user's own is most like, "" none
	Copied  bool     // its figures are those of Like, unchanged

	folded string // the name as names are compared, set when the table is sorted

	Keeping     *Keeping
	Preparation *Preparation
	Packs       []*Pack // those that may be bought, see [Table.Sell]
}

// Factors are the Atwater factors of a row, kcal per g; zero means that the
// table has none and the general factors 4, 9 and 4 apply.
type Factors struct {
	Protein, Fat, Carbohydrate float64
}

// Serving is what 100 g of a food counts towards one group of the daily
// pattern.
type Serving struct {
	Group   string  // pattern group: grains, whole-grains, vegetables, …
	Per100g float64 // equivalents (cup-eq, oz-eq, g of oil) per 100 g
}

// Pack is one size in which a food is sold.
type Pack struct {
	Key       string // unique across the table, the same string in every file
	Food      *Food
	Container string  // key of packages.csv
	Market    string  // where shops sell it: metric, us or both; "" for the user's own, sold anywhere
	LabelG    float64 // net weight on the label, liquid included
	NetG      float64 // edible grams on the basis of the food's row
	TareG     float64
	GrossG    float64 // LabelG + TareG
	VolumeL   float64 // litres of the upright box around it; a shelf takes more, see stores.ShelfSpaceL
	Price     float64 // in Currency; HasPrice false means none
	HasPrice  bool
	Currency  string
	Invented  bool   // price invented for the demo
	EasyOpen  bool   // can be opened by weak hands
	Basis     string // what LabelG and NetG are, in words: "drained of label" …
	Own       bool   // the user's own pack
	Note      string
	Source    string
	Verified  string
}

// Keeping is how long a form of food keeps.
type Keeping struct {
	Form           string
	UseByMonths    float64 // at 21 °C; 0 = the label's date rules
	AfterOpenHours float64 // without refrigeration
	AfterOpenBasis string  // "safety" or "quality"
	LabelDateBinds bool
	MaxStorageC    float64
	Source         string
	Verified       string
}

// Preparation is how a form of food is made ready, per 100 g on its basis.
type Preparation struct {
	Form        string
	Class       string  // none, warm, boil or simmer: the word of --cook
	ColdOK      bool    // may be eaten without heat
	WaterML     float64 // all water taken
	EatenML     float64 // part that is eaten or drunk
	DiscardedML float64
	SteamML     float64
	SimmerMin   float64
	HeatMJ      float64 // useful heat, before stove losses
	Source      string
	Verified    string
	StandMin    float64 // minutes to stand before it is eaten
	SoakHours   float64
}

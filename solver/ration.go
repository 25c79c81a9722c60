package solver

import (
	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/ration"
)

// Ration is the model of one request: the program as plain data, and what each
// of its rows and columns stands for. Grams are over the whole horizon, on the
// basis of the food's row; litres and MJ likewise.
type Ration struct {
	Request *ration.Request // with every default filled in
	Problem *linear.Problem

	cols []colInfo // parallel to Problem.Cols
	rows []rowInfo // parallel to Problem.Rows

	// anyCooking takes in foods whatever cooking they need, and leaves those that
	// are eaten cold as they are: how conflicts are looked into.
	anyCooking bool

	eaters  []*eater
	refused []*eater
	larder  []*larderFood // foods that somebody may eat, in table order
	water   int           // column: litres stored
	heat    int           // column: MJ of useful heat
	byDate  []byDateCol   // what is eaten out of stock whose date falls within the horizon
	notes   []string      // what was assumed while building

	nearMiss    string // what was found where nothing was found within the limits, "" for nothing
	provenEmpty bool   // the search proved that nothing is within the limit on what it makes least

	supplies supplies // what stored water and heat come to
}

// eater is one household row.
type eater struct {
	person nutrients.Person
	needs  nutrients.Needs
	count  float64
	wishes *foods.Wishes
	eats   []eatCol // ascending by larder index
	drink  int      // column: litres drunk; -1 for infants
}

// eatCol is one food that one person may eat.
type eatCol struct {
	food   int // index in larder
	col    int // column
	window float64
	capG   float64
	spare  float64 // bought for each gram eaten: 1, more for infant formula
}

// larderFood is one food of the model with its packs.
type larderFood struct {
	food       *foods.Food
	buy        []packCol
	stock      []packCol
	reserve    []packCol
	mayReserve bool    // packs of it may be set aside against a low blood sugar
	window     float64 // Σ n_p m_pf, g
	capG       float64 // C_f, g
	opened     float64 // most packs that one eater opens over the horizon: max_p cap_pf / m_pf
	balance    int     // row, -1 where the food comes without a pack
}

// packCol is an integer column of packs.
type packCol struct {
	pack   *foods.Pack
	col    int
	usable float64 // g of one pack that can be eaten: min(net, Σ n_p m_pf, C_f)
	line   int     // stock line, -1 when bought
	dated  bool    // its date falls within the horizon
	day    int     // with dated: last day on which it may be eaten
}

// colKind says what a column stands for.
type colKind int

const (
	colBuy colKind = iota
	colStock
	colReserve
	colByDate // of what one person eats of a food, out of packs of one date
	colEat
	colDrink
	colWater
	colHeat
	colOwnWater  // of the water stored, what is on hand already
	colOwnHeat   // of the heat used, what the fuel on hand gives
	colDish      // sittings of dishes that take an ingredient
	colKept      // water kept for one person to drink
	colContainer // whole containers of water, where shelves are given
)

// colInfo says what one column stands for.
type colInfo struct {
	kind   colKind
	eater  int // -1 none
	larder int // -1 none
	pack   *foods.Pack
}

// rowKind says what a row stands for.
type rowKind int

const (
	rowBalance rowKind = iota
	rowOpened
	rowNutrient
	rowShare
	rowWater
	rowAllWater // stored, for everything
	rowStored
	rowHeat
	rowPattern
	rowGroupCap
	rowCompanion
	rowFeed
	rowReserve
	rowUser  // a rule of the household file on a food
	rowKeep  // packs that must stay as many
	rowLimit // budget, weight, litres, water, heat, allowance, shelves
	rowDated
	rowAfter // what is left for the days after a date
	rowGlycaemic
)

// class says what may be done with a row when nothing fits.
type class int

const (
	structural  class = iota // arithmetic: cannot be given up
	requirement              // a need: may fall short in the closest ration
	limit                    // the user's own limit: may be relaxed in a way out
	safety                   // may stand in a conflict, never in a way out
)

// rowInfo says what one row stands for, in words for people.
type rowInfo struct {
	kind     rowKind
	class    class
	eater    int                // -1 none
	nutrient nutrients.Nutrient // rowNutrient, rowShare, rowWater
	group    string             // rowPattern, rowGroupCap
	text     string             // "iron", "budget", … plain words
	unit     string
	total    ration.Least // rowLimit on a total of packs: which; "" for all other rows
	perDay   float64      // divides a row's amount to one person's day; 1 where it has none
	source   string
	mayPass  bool // its ceiling guards against long-term illness only: the closest ration may pass it
}

func (r *Ration) addRow(name string, lower, upper float64, info rowInfo) int {
	r.rows = append(r.rows, info)
	return r.Problem.AddRow(name, lower, upper)
}

func (r *Ration) addCol(name string, lower, upper float64, integer bool, info colInfo) int {
	r.cols = append(r.cols, info)
	return r.Problem.AddCol(name, 0, lower, upper, integer)
}

// days is the horizon.
func (r *Ration) days() float64 { return float64(r.Request.Days) }

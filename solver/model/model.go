package model

import (
	"fmt"
	"math"
	"slices"
	"time"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// Stored reports whether the row is the floor of a vitamin that the body
// stores.
func (info RowInfo) Stored() bool {
	return info.Kind == RowNutrient && slices.Contains(storedVitamins, info.Nutrient)
}

// IsOf reports whether the row is about n, over all days or those after a date.
func (info RowInfo) IsOf(n nutrients.Nutrient) bool {
	return (info.Kind == RowNutrient || info.Kind == RowAfter) && info.Nutrient == n
}

// Name is what the row is about, as a key of the output.
func (info RowInfo) Name() string {
	switch info.Kind {
	case RowPattern, RowGroupCap:
		return ration.GroupName(info.Group)
	case RowKindCap, RowKindShare:
		return info.Group
	case RowUser, RowFeed, RowReserve, RowLimit, RowKeep, RowAllWater, RowAfter, RowDish:
		return info.Text
	case RowFluid:
		return ration.ShortDrink
	default:
		return info.Nutrient.Name()
	}
}

// Model is the model of one request: the program as plain data, and what each
// of its rows and columns stands for. Grams are over the whole horizon, on the
// basis of the food's row; litres and MJ likewise.
type Model struct {
	Request *ration.Request // with every default filled in
	Problem *linear.Problem

	Cols []colInfo // parallel to Problem.Cols
	Rows []RowInfo // parallel to Problem.Rows

	// anyCooking takes in foods whatever cooking they need, and leaves those that
	// are eaten cold as they are: how conflicts are looked into.
	anyCooking bool

	Eaters  []*Eater
	Refused []*Eater
	Larder  []*LarderFood // foods that somebody may eat, in table order
	Water   int           // column: litres stored
	Heat    int           // column: MJ of useful heat
	ByDate  []byDateCol   // what is eaten out of stock whose date falls within the horizon
	Notes   []string      // what was assumed while building

	Supplies rules.Supplies // what stored water and heat come to
}

// Eater is one household row.
type Eater struct {
	Person nutrients.Person
	Needs  nutrients.Needs
	Count  float64
	Wishes *foods.Wishes
	Eats   []eatCol // ascending by larder index
	Drink  int      // column: litres drunk; -1 for infants
}

// eatCol is one food that one person may eat.
type eatCol struct {
	Food        int // index in larder
	Col         int // column
	Window      float64
	CapG        float64
	SpareFactor float64 // bought for each gram eaten: 1, more for infant formula
}

// LarderFood is one food of the model with its packs.
type LarderFood struct {
	Food       *foods.Food
	Buy        []PackCol
	Stock      []PackCol
	Reserve    []PackCol
	mayReserve bool    // packs of it may be set aside against a low blood sugar
	Window     float64 // Σ n_p m_pf, g
	CapG       float64 // C_f, g
	opened     float64 // most packs that one eater opens over the horizon: max_p cap_pf / m_pf
	Balance    int     // row, -1 where the food comes without a pack
}

// PackCol is an integer column of packs.
type PackCol struct {
	Pack   *foods.Pack
	Col    int
	Usable float64 // g of one pack that can be eaten: min(net, Σ n_p m_pf, C_f)
	Line   int     // stock line, -1 when bought
	dated  bool    // its date falls within the horizon
	day    int     // with dated: last day on which it may be eaten
}

// colKind says what a column stands for.
type colKind int

const (
	ColBuy colKind = iota
	colStock
	ColReserve
	colByDate // of what one person eats of a food, out of packs of one date
	ColEat
	colDrink
	colWater
	colHeat
	colOwnWater  // of the water stored, what is on hand already
	colOwnHeat   // of the heat used, what the fuel on hand gives
	colDish      // sittings of dishes that take an ingredient
	colKept      // water kept for one person to drink
	colForm      // 1 where an infant's formula is powder, 0 where it is ready to feed
	colEnergy    // all energy that one person eats
	colContainer // whole containers of water, where shelves are given
	colServings  // of a dish
	colPart      // grams of a food in a part of a dish
)

// colInfo says what one column stands for.
type colInfo struct {
	Kind   colKind
	Eater  int // -1 none
	Larder int // -1 none
	pack   *foods.Pack
}

// rowKind says what a row stands for.
type rowKind int

const (
	RowBalance rowKind = iota
	RowOpened
	RowNutrient
	RowShare
	RowWater
	RowAllWater // stored, for everything
	rowStored
	RowHeat
	RowPattern
	RowGroupCap
	RowCompanion
	RowFeed
	RowReserve
	RowUser  // a rule of the household file on a food
	RowKeep  // packs that must stay as many
	RowLimit // budget, weight, litres, water, heat, allowance, shelves
	rowDated
	RowAfter // what is left for the days after a date
	RowGlycaemic
	RowFluid     // drinks and food that is liquid, by a clinician's order
	RowKindCap   // of a kind of food, in its unit
	RowKindShare // of the energy, from one food or one kind
	RowDish      // servings of dishes and what is in them
)

// Class says what may be done with a row when nothing fits.
type Class int

const (
	Structural  Class = iota // arithmetic: cannot be given up
	Requirement              // a need: may fall short in the closest ration
	UserLimit                // the user's own limit: may give way in a way out
	Safety                   // may stand in a conflict, never in a way out
	Planning                 // this program's own rule of what people will eat: loosened before anything else gives
)

// RowInfo says what one row stands for, in words for people.
type RowInfo struct {
	Kind     rowKind
	Class    Class
	Eater    int                // -1 none
	Nutrient nutrients.Nutrient // rowNutrient, rowShare, rowWater
	Group    string             // RowPattern, RowGroupCap; the kind of RowKindCap, the kind or food of RowKindShare
	Limit    float64            // RowKindCap, RowKindShare: a day's amount, per cent of the energy, before anything is loosened
	Text     string             // "iron", "budget", … plain words
	Unit     string
	Total    ration.Least // RowLimit on a total of packs: which; "" for all other rows
	On       LimitOn      // RowLimit: what it limits
	Of       string       // RowUser: the rule as written; RowFeed: the tag of what is fed; RowKeep: the food
	PerDay   float64      // divides a row's amount to one person's day; 1 where it has none
	Ordered  bool         // a clinician's order
	MayPass  bool         // its ceiling guards against long-term illness only: the closest ration may pass it
}

func (m *Model) addRow(name string, lower, upper float64, info RowInfo) int {
	m.Rows = append(m.Rows, info)
	return m.Problem.AddRow(name, lower, upper)
}

// addEatenRow adds a row about what eater ei eats over the horizon: the sum of what a gram
// of each food counts.
func (m *Model) addEatenRow(ei int, name string, lower, upper float64, info RowInfo, counts func(f *foods.Food) float64) int {
	e := m.Eaters[ei]
	info.Eater, info.PerDay = ei, m.Days()
	row := m.addRow(fmt.Sprintf("%s[%s]", name, e.Person.Name), lower, upper, info)
	for _, y := range e.Eats {
		m.Problem.Set(row, y.Col, counts(m.Larder[y.Food].Food))
	}
	return row
}

// only counts a gram of what in is true of by counts, and of all else as nothing.
func only(in func(f *foods.Food) bool, counts func(f *foods.Food) float64) func(f *foods.Food) float64 {
	return func(f *foods.Food) float64 {
		if !in(f) {
			return 0
		}
		return counts(f)
	}
}

// gram counts a gram of any food as one.
func gram(*foods.Food) float64 { return 1 }

func (m *Model) addCol(name string, lower, upper float64, integer bool, info colInfo) int {
	m.Cols = append(m.Cols, info)
	return m.Problem.AddCol(name, 0, lower, upper, integer)
}

// Days is the horizon.
func (m *Model) Days() float64 { return float64(m.Request.Days) }

var Inf = math.Inf(1)

// WithEffort is the model with its search's work counted from d.
func (m *Model) WithEffort(d time.Duration) *Model {
	out, req := *m, *m.Request
	req.Effort, out.Request = d, &req
	return &out
}

// WithTime is the model with a part of the time of its request.
func (m *Model) WithTime(part float64) *Model {
	out, req := *m, *m.Request
	req.Time = time.Duration(part * float64(req.Time))
	out.Request = &req
	return &out
}

// Unit is that of the objective.
func (m *Model) Unit() string {
	switch m.Request.Least {
	case ration.LeastWeight:
		return "kg"
	case ration.LeastVolume:
		return "L"
	default:
		return m.Currency()
	}
}

// HasAmount reports whether a row of this kind has an amount of its own: a part of
// what is eaten, such as a share of energy, has not.
func (info RowInfo) HasAmount() bool {
	return info.Kind != RowShare && info.Kind != RowGlycaemic && info.Kind != RowKindShare
}

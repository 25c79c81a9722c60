package model

import (
	"math"
	"slices"

	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// Seating is the dishes of a model in which every gram that is eaten has its dish.
type Seating struct {
	Seats   []*Seat // dishes that the whole household may eat as the main one of a meal
	Parties []*Party
}

// Seat is how often the household eats a dish as the main one of a meal over the
// horizon: columns of whole numbers, -1 where it is not for that meal.
type Seat struct {
	Dish            *dishes.Dish
	Breakfast, Main int // Main: midday and evening
}

// Columns are those that the dish has.
func (s *Seat) Columns() []int {
	return slices.DeleteFunc([]int{s.Breakfast, s.Main}, func(col int) bool { return col < 0 })
}

// Party is those rows of the household who may be served the same dishes.
type Party struct {
	Eaters []*Eater
	Heads  float64 // Σ count × size of a serving, an adult's usual one is 1
	Count  float64
	Own    []*OwnDish
	Jars   int // column: of an infant, a jar of meat a day or none; -1: no such choice
}

// HeadsOf is the servings of d that the party is: a child's dish has the child's own amounts.
func (g *Party) HeadsOf(d *dishes.Dish) float64 {
	if d.UnderMonths > 0 {
		return g.Count
	}
	return g.Heads
}

// OwnDish is how many usual servings of a dish a party has beside the household's, as
// columns: in place of a main dish that it may not have, and between meals or beside them.
type OwnDish struct {
	Dish                     *dishes.Dish
	Breakfast, Main, Between int
}

// Menu is which dishes may be chosen. Nil fields mean all of the book.
type Menu struct {
	Book    *dishes.Book
	Counts  map[string][2]int         // if set: how often each dish is eaten at breakfast, and at midday and in the evening
	Own     func(d *dishes.Dish) bool // which may be eaten by one party beside these
	Table   func(d *dishes.Dish) bool // which may be the main dish of a meal
	Foods   []bool                    // by larder index: what is in dishes; nothing else is eaten
	Jars    map[string]bool           // if set: the infants, by name, who have a jar of meat a day
	Between float64                   // usual servings between and beside meals, a head and day
	Beside  float64                   // part of the energy that may be eaten beside the dishes
}

// AdultServingsKcal is the energy of a day of usual servings of an adult: the size of a
// person's servings is their energy over it. Source: fortnights of usual servings of the
// dish table, 2,041 to 2,076 kcal a day.
const AdultServingsKcal = 2050

// TableMonths is the age in full months under which a child has only dishes of its own.
const TableMonths = 12

// everyOther is the part of the days on which one dish is the main one of a meal at
// most: under every other day, so that the days can be ordered and it is never on two
// running.
const everyOther = 0.45

// EveryOther is the most of so many days on which one dish is the main one of a meal.
func EveryOther(days float64) float64 { return math.Max(1, math.Floor(everyOther*days)) }

// AddDishes adds to the model that everything eaten is part of a dish. Let n_d be the
// meals at which the household eats dish d, S_g the servings that a party g is, m_gd
// and v_gd its servings of a dish of its own at and between meals, Y grams:
//
//	Σ_d n_d = meals of the horizon, n_d ≤ times_d, n_d whole
//	Σ_d m_gd = Σ of n_d that g may not have
//	least·(S n + S m + v) ≤ Σ_f Y_gdqf / factor_f ≤ most·(…)   each part q; least 0 where optional
//	Σ_dq Y_gdqf = Σ_{p in g} n_p y_pf                          each food f
//
// A part that foods make which do not keep beyond a day once opened needs packs o_k opened at each meal: Σ_k min(1, net_k/(least·S)) o_dqk ≥ n_d, Σ_dq o_dqk ≤
// packs; what keeps stands in for them with Σ Y / (least·S).
//
// What a dish takes more of water than its foods by themselves is stored as well.
func (m *Model) AddDishes(menu Menu) *Seating {
	b := &seater{Model: m, menu: menu, seating: &Seating{}}
	b.close()
	b.part()
	b.seat()
	for _, g := range b.seating.Parties {
		b.addParty(g)
		b.addJars(g)
	}
	b.addOpenings()
	MergeAll(m.Problem)
	return b.seating
}

// close lets nobody buy or eat what is in no dish; what is on hand stays where it is.
func (b *seater) close() {
	for li, lf := range b.Larder {
		if b.menu.Foods[li] {
			continue
		}
		for _, k := range lf.Buy {
			b.Problem.Cols[k.Col].Upper = b.Problem.Cols[k.Col].Lower
		}
		for _, e := range b.Eaters {
			if y, ok := e.Eating(li); ok && !isFeed(e, lf.Food) {
				b.Problem.Cols[y.Col].Upper = 0
			}
		}
	}
}

// seater adds the dishes to a model.
type seater struct {
	*Model
	menu    Menu
	seating *Seating

	services []*service
}

// servable reports whether e may be served d: of the age, and with a food that e may
// eat for every part that d cannot do without.
func (b *seater) servable(e *Eater, d *dishes.Dish) bool {
	if !d.ServedTo(e.Person.AgeMonths) || d.ColdOnly && b.Request.Cook != ration.CookNone || ration.CookRank[d.Cooking] > ration.CookRank[string(b.Request.Cook)] {
		return false
	}
	for _, p := range d.Required() {
		if !slices.ContainsFunc(e.Eats, func(y eatCol) bool { return b.makes(d, p, y) }) {
			return false
		}
	}
	return true
}

// makes reports whether what a column stands for makes a part of d.
func (b *seater) makes(d *dishes.Dish, p *dishes.Part, y eatCol) bool {
	f := b.Larder[y.Food].Food
	_, ok := p.Makes(f)
	return ok && b.menu.Foods[y.Food] && p.Cooks(d, f)
}

// part gathers the eaters in parties. Infants are a party each, those on feeds alone none.
func (b *seater) part() {
	bySign := map[string]*Party{}
	for _, e := range b.Eaters {
		if e.Needs.Feed != nil && e.Needs.Feed.Only {
			continue
		}
		sign := make([]byte, len(b.menu.Book.Dishes))
		for i, d := range b.menu.Book.Dishes {
			sign[i] = '0'
			if b.servable(e, d) && (b.menu.Table(d) || b.menu.Own(d)) {
				sign[i] = '1'
			}
		}
		key := string(sign)
		if e.Person.AgeMonths < TableMonths {
			key = e.Person.Name
		}
		g := bySign[key]
		if g == nil {
			g = &Party{}
			bySign[key] = g
			b.seating.Parties = append(b.seating.Parties, g)
		}
		g.Eaters = append(g.Eaters, e)
		g.Heads += e.Count * e.ServingSize()
		g.Count += e.Count
	}
}

// ServingSize is the size of e's servings, an adult's usual one is 1.
func (e *Eater) ServingSize() float64 {
	for _, need := range e.Needs.List {
		if need.Nutrient == nutrients.Energy && need.Floor != nil {
			return need.Floor.Amount / AdultServingsKcal
		}
	}
	return 1
}

// LeastAtTable is the part of the household that must be able to eat a dish that is
// on the table for all, and each part that it cannot do without.
const LeastAtTable = 0.5

// addDishRow adds a row about dishes.
func (b *seater) addDishRow(name string, lower, upper float64) int {
	return b.addRow(name, lower, upper, RowInfo{Kind: RowDish, Class: Structural, Eater: -1, Text: name, Unit: "servings", PerDay: 1})
}

func (b *seater) addServings(name string, upper float64, whole bool) int {
	return b.addCol(name, 0, upper, whole, colInfo{Kind: colServings, Eater: -1, Larder: -1})
}

// seat adds the columns of the household's meals and their rows.
func (b *seater) seat() {
	days := b.Days()
	breakfasts, mains := b.addDishRow("breakfasts", days, days), b.addDishRow("main-meals", 2*days, 2*days)
	midday, evening := b.addDishRow("only-midday", -Inf, days), b.addDishRow("only-evening", -Inf, days)
	atTable := 0.0
	for _, g := range b.seating.Parties {
		if g.Eaters[0].Person.AgeMonths >= TableMonths {
			atTable += g.Heads
		}
	}
	for _, d := range b.menu.Book.Dishes {
		if d.UnderMonths > 0 || !b.menu.Table(d) || !d.Has(dishes.Breakfast) && !d.Has(dishes.Midday) && !d.Has(dishes.Evening) {
			continue
		}
		heads := 0.0
		for _, g := range b.seating.Parties {
			if b.atTable(g, d) {
				heads += g.Heads
			}
		}
		if heads < LeastAtTable*atTable || heads == 0 {
			continue
		}
		most := math.Min(b.timesMost(d), EveryOther(days))
		s := &Seat{Dish: d, Breakfast: -1, Main: -1}
		all := b.addDishRow("times["+d.Key+"]", -Inf, most)
		if d.Has(dishes.Breakfast) {
			s.Breakfast = b.addServings("breakfast["+d.Key+"]", most, true)
			b.Problem.Set(breakfasts, s.Breakfast, 1)
			b.Problem.Set(all, s.Breakfast, 1)
		}
		if d.Has(dishes.Midday) || d.Has(dishes.Evening) {
			s.Main = b.addServings("main["+d.Key+"]", most, true)
			b.Problem.Set(mains, s.Main, 1)
			b.Problem.Set(all, s.Main, 1)
			if !d.Has(dishes.Evening) {
				b.Problem.Set(midday, s.Main, 1)
			} else if !d.Has(dishes.Midday) {
				b.Problem.Set(evening, s.Main, 1)
			}
		}
		if n := b.menu.Counts[d.Key]; b.menu.Counts != nil {
			b.fix(s.Breakfast, n[0])
			b.fix(s.Main, n[1])
		}
		b.seating.Seats = append(b.seating.Seats, s)
	}
}

func (b *seater) fix(col, n int) {
	if col >= 0 {
		b.Problem.Cols[col].Lower, b.Problem.Cols[col].Upper = float64(n), float64(n)
	}
}

// timesMost is how often a dish may be eaten over the horizon.
func (b *seater) timesMost(d *dishes.Dish) float64 {
	return float64(d.TimesMax) * math.Ceil(b.Days()/dishes.Fortnight)
}

// atTable reports whether a party is served a dish of the household.
func (b *seater) atTable(g *Party, d *dishes.Dish) bool {
	return g.Eaters[0].Person.AgeMonths >= TableMonths && b.servable(g.Eaters[0], d)
}

// RowOf is the first row of a kind.
func (m *Model) RowOf(kind rowKind) int {
	return slices.IndexFunc(m.Rows, func(info RowInfo) bool { return info.Kind == kind })
}

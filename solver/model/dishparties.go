package model

import (
	"fmt"
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/rules"
)

// term is a coefficient of a column, in a list of terms.
type dishTerm struct {
	col   int
	value float64
}

// addParty adds what a party eats in dishes.
func (b *seater) addParty(g *Party) {
	name := g.Eaters[0].Person.Name
	between := b.addDishRow("between["+name+"]", -Inf, b.menu.Between*b.Days()*g.Heads)
	lower := 0.0
	if g.Eaters[0].Person.AgeMonths < TableMonths { // milk is its main food
		lower = -Inf
	}
	own := [2]int{-1, -1} // rows of the meals at which the party has a dish of its own
	for k, word := range []string{"own-breakfasts", "own-mains"} {
		for _, s := range b.seating.Seats {
			col := [2]int{s.Breakfast, s.Main}[k]
			if col < 0 || b.atTable(g, s.Dish) {
				continue
			}
			if own[k] < 0 {
				own[k] = b.addDishRow(word+"["+name+"]", lower, 0)
			}
			b.Problem.Set(own[k], col, -g.Heads)
		}
	}
	inDishes := map[int]int{} // row of each larder food
	for _, e := range g.Eaters {
		for _, y := range e.Eats {
			if !b.menu.Foods[y.Food] || isFeed(e, b.Larder[y.Food].Food) {
				continue
			}
			row, ok := inDishes[y.Food]
			if !ok {
				row = b.addRow(fmt.Sprintf("in-dishes[%s,%s]", name, b.Larder[y.Food].Food.Name), 0, 0,
					RowInfo{Kind: RowDish, Class: Structural, Eater: -1, Text: "every gram in a dish", Unit: "g", PerDay: 1})
				inDishes[y.Food] = row
			}
			b.Problem.Set(row, y.Col, -e.Count)
		}
	}
	b.addBeside(g, inDishes)
	for _, d := range b.menu.Book.Dishes {
		if !b.servable(g.Eaters[0], d) {
			continue
		}
		heads := g.HeadsOf(d)
		most := b.timesMost(d)
		var servings []dishTerm // usual servings of an adult
		v := &service{dish: d, heads: heads, cols: map[*dishes.Part][]partCol{}}
		if i := slices.IndexFunc(b.seating.Seats, func(s *Seat) bool { return s.Dish == d }); i >= 0 && b.atTable(g, d) {
			v.atTable = true
			for _, col := range b.seating.Seats[i].Columns() {
				v.meals = append(v.meals, dishTerm{col, 1})
				servings = append(servings, dishTerm{col, heads})
			}
		}
		if b.menu.Own(d) {
			o := &OwnDish{Dish: d, Breakfast: -1, Main: -1, Between: -1}
			add := func(to *int, word string, row int) {
				*to = b.addServings(fmt.Sprintf("%s[%s,%s]", word, name, d.Key), most*heads, false)
				if row >= 0 {
					b.Problem.Set(row, *to, g.Heads/heads)
				}
				servings = append(servings, dishTerm{*to, 1})
				if row != between {
					v.meals = append(v.meals, dishTerm{*to, 1 / heads})
				}
			}
			if own[0] >= 0 && d.Has(dishes.Breakfast) {
				add(&o.Breakfast, "own-breakfast", own[0])
			}
			if own[1] >= 0 && (d.Has(dishes.Midday) || d.Has(dishes.Evening)) {
				add(&o.Main, "own-main", own[1])
			}
			if d.Has(dishes.Snack) || d.Has(dishes.Drink) {
				add(&o.Between, "between", between)
			}
			if o.Breakfast >= 0 || o.Main >= 0 || o.Between >= 0 {
				g.Own = append(g.Own, o)
			}
		}
		if len(servings) == 0 {
			continue
		}
		if len(servings) > 1 {
			row := b.addDishRow(fmt.Sprintf("often[%s,%s]", name, d.Key), -Inf, most*heads)
			b.Problem.Rows[row].Lazy = true
			for _, t := range servings {
				b.Problem.Set(row, t.col, t.value)
			}
		}
		b.addParts(g, v, servings, inDishes)
		b.services = append(b.services, v)
	}
}

// addBeside lets a party eat a part of its energy beside the dishes, of what is not an
// ingredient: nobody eats flour or baking powder by itself.
func (b *seater) addBeside(g *Party, inDishes map[int]int) {
	if b.menu.Beside == 0 {
		return
	}
	name := g.Eaters[0].Person.Name
	energy := b.addRow("beside["+name+"]", -Inf, b.menu.Beside*g.Heads*AdultServingsKcal*b.Days(),
		RowInfo{Kind: RowDish, Class: Structural, Eater: -1, Text: "beside the dishes", Unit: "kcal", PerDay: 1})
	for li, lf := range b.Larder {
		row, ok := inDishes[li]
		if !ok || len(lf.Food.Companions) > 0 || lf.Food.HasTag("ingredient") {
			continue
		}
		col := b.addCol(fmt.Sprintf("beside[%s,%s]", name, lf.Food.Name), 0, Inf, false, colInfo{Kind: colPart, Eater: -1, Larder: li})
		b.Problem.Set(row, col, 1)
		b.Problem.Set(energy, col, math.Max(lf.Food.Per100g.Known(nutrients.Energy)/100, besideKcal))
	}
}

// besideKcal is what a gram without energy counts beside the dishes, in kcal.
const besideKcal = 0.1

// addParts adds what a party eats of each part of a dish.
func (b *seater) addParts(g *Party, v *service, servings []dishTerm, inDishes map[int]int) {
	d := v.dish
	name := g.Eaters[0].Person.Name
	stored := b.RowOf(RowAllWater)
	for i, p := range d.Parts {
		label := fmt.Sprintf("[%s,%s,%d]", name, d.Key, i+1)
		var cols []dishTerm
		for li := range b.Larder {
			row, ok := inDishes[li]
			f := b.Larder[li].Food
			factor, makes := p.Makes(f)
			if !ok || !makes || !p.Cooks(d, f) {
				continue
			}
			col := b.addCol(fmt.Sprintf("part[%s,%s,%d,%s]", name, d.Key, i+1, f.Name), 0, Inf, false, colInfo{Kind: colPart, Eater: -1, Larder: li})
			b.Problem.Set(row, col, 1)
			b.Problem.Set(stored, col, -StoredBeyondL(p, f))
			cols = append(cols, dishTerm{col, 1 / factor})
			v.cols[p] = append(v.cols[p], partCol{li, col, factor})
		}
		if len(cols) == 0 {
			continue
		}
		hold := func(word string, lower, upper, each float64) {
			row := b.addDishRow(word+label, lower, upper)
			b.Problem.Rows[row].Lazy = true
			for _, t := range cols {
				b.Problem.Set(row, t.col, t.value)
			}
			for _, t := range servings {
				b.Problem.Set(row, t.col, -each*t.value)
			}
		}
		hold("most", -Inf, 0, p.MaxG)
		if !p.Optional {
			hold("least", 0, Inf, p.MinG*leastShare(g))
		}
	}
}

// A child under leastMonths leaves half of the least of a serving: they have nearly the
// nutrients of an older one to get from half the energy, and limits that a whole family dish
// soon reaches. Own planning rule, no source.
const (
	leastMonths = 36
	childLeast  = 0.55
)

// leastShare is the part of the least of a serving that a party eats at least.
func leastShare(g *Party) float64 {
	if g.Eaters[0].Person.AgeMonths < leastMonths {
		return childLeast
	}
	return 1
}

// leastBeyondL is the litres a gram under which one amount of water is the other: what
// subtracting leaves of equal ones, 1e-19, would spoil the scaling of a program.
const leastBeyondL = 1e-12

// BeyondL is the water in L that a gram of f takes in a part beyond what it takes by
// itself, less than nothing where it takes less.
func BeyondL(p *dishes.Part, f *foods.Food) float64 {
	added, _ := p.Water(f, 1)
	more := added/1000 - rules.WaterTakenLPerG(f)
	if math.Abs(more) < leastBeyondL {
		return 0
	}
	return more
}

// StoredBeyondL is the stored water in L for that, spare included: none where it takes less.
func StoredBeyondL(p *dishes.Part, f *foods.Food) float64 {
	return rules.WaterFigure().SpillFactor * math.Max(0, BeyondL(p, f))
}

package model

import (
	"fmt"
	"math"

	"rationwright/solver/rules"
)

// addGlasses lets a child have of a drink that does not keep beyond its meal what is gladly
// drunk at a sitting out of each carton, and room more: a plan without meals gives the
// smallest child half of each litre. With x packs
//
//	counts_f·y_pf ≤ Σ_k min(counts_f·net_k, (1 + room)·sitting)·x_k   each child, drink and kind
func (b *seater) addGlasses() {
	for _, e := range b.Eaters {
		for _, l := range rules.Glasses(b.Request.Table, &e.Person) {
			most := (1 + b.menu.Glasses) * l.Most
			for _, y := range e.Eats {
				lf := b.Larder[y.Food]
				each := l.Counts(lf.Food)
				if each <= 0 || !b.menu.Foods[y.Food] || !lf.Food.IsFluid() || !b.shortlyOpen(y.Food) || lf.Food.Keeping.AfterOpenHours >= mealHours {
					continue
				}
				row := b.addDishRow(fmt.Sprintf("glasses[%s,%s]", e.Person.Name, lf.Food.Name), -Inf, 0)
				b.Problem.Rows[row].Lazy = true
				b.Problem.Set(row, y.Col, each)
				for _, k := range lf.Supply() {
					b.Problem.Set(row, k.Col, -math.Min(each*k.Pack.NetG, most))
				}
			}
		}
	}
}

// mealHours is under which what is opened is finished at its meal, as in a menu.
const mealHours = 3

// shortlyOpen reports whether a food of the larder keeps a day at most once opened.
func (b *seater) shortlyOpen(li int) bool {
	k := b.Larder[li].Food.Keeping
	return k != nil && k.AfterOpenHours <= dayHours && len(b.Larder[li].Supply()) > 0
}

package solver

import (
	"fmt"
	"math"
	"strings"

	"rationwright/foods"
)

// addCompanionRows says that an ingredient is eaten only with what it is cooked
// with. The food table gives y_pf ≤ Σ_c ratio_fc y_pc with ratio_fc = o_f / o_c,
// the most at one sitting of the one over that of the other, so that all
// ingredients with the same companions share one sum of sittings:
//
//	z_pL − Σ_{c in L} y_pc / o_c = 0
//	y_pf − o_f z_pL ≤ 0
func (r *Ration) addCompanionRows() {
	for ei, e := range r.eaters {
		if e.needs.Feed != nil {
			continue
		}
		dishes := map[string]int{} // column z by list of companions
		for _, y := range e.eats {
			f := r.larder[y.food].food
			companions := r.Request.Table.Companions(f)
			if companions == nil {
				continue
			}
			sitting, shares := sittings(f, companions)
			key := strings.Join(f.Companions, ";")
			if f.OccasionG <= 0 {
				key += ";" + f.Name // without a sitting of its own its ratios are of another scale
			}
			dish, ok := dishes[key]
			if !ok {
				dish = r.addDish(ei, e, key, shares)
				dishes[key] = dish
			}
			row := r.addRow(fmt.Sprintf("with[%s,%s]", e.person.Name, f.Name), math.Inf(-1), 0, rowInfo{
				kind: rowCompanion, class: structural, eater: ei,
				text: f.Name + " with what it is cooked with", unit: "g", perDay: r.days(), source: foods.CompanionSource,
			})
			r.Problem.Rows[row].Lazy = true
			r.Problem.Set(row, y.col, 1)
			r.Problem.Set(row, dish, -sitting)
		}
	}
}

// sittings splits the ratios of an ingredient into its own amount at one
// sitting, in g, and the sittings that a gram of each companion is.
func sittings(f *foods.Food, companions []foods.Companion) (sitting float64, shares map[*foods.Food]float64) {
	sitting = f.OccasionG
	if sitting <= 0 {
		sitting = 1
	}
	shares = map[*foods.Food]float64{}
	for _, c := range companions {
		shares[c.Food] = c.Ratio / sitting
	}
	return sitting, shares
}

// addDish makes the column of the sittings of dishes that take an ingredient.
func (r *Ration) addDish(ei int, e *eater, key string, shares map[*foods.Food]float64) int {
	name := fmt.Sprintf("dishes[%s,%s]", e.person.Name, key)
	dish := r.addCol(name, 0, inf, false, colInfo{kind: colDish, eater: ei, larder: -1})
	row := r.addRow(name, 0, 0, rowInfo{
		kind: rowCompanion, class: structural, eater: ei,
		text: "dishes of " + strings.ReplaceAll(key, ";", ", "), unit: "sittings", perDay: r.days(), source: foods.CompanionSource,
	})
	r.Problem.Set(row, dish, 1)
	for _, y := range e.eats {
		if share := shares[r.larder[y.food].food]; share > 0 {
			r.Problem.Set(row, y.col, -share)
		}
	}
	return dish
}

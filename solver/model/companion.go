package model

import (
	"fmt"
	"math"
	"strings"

	"rationwright/foods"
	"rationwright/solver/rules"
)

// addCompanionRows says that an ingredient is eaten only with what it is cooked
// with. The food table gives y_pf ≤ Σ_c ratio_fc y_pc with ratio_fc = o_f / o_c,
// the most at one sitting of the one over that of the other, so that all
// ingredients with the same companions share one sum of sittings:
//
//	z_pL − Σ_{c in L} y_pc / o_c = 0
//	y_pf − o_f z_pL ≤ 0
func addCompanionRows(m *Model) {
	for ei, e := range m.Eaters {
		if e.Needs.Feed != nil {
			continue
		}
		dishes := map[string]int{} // column z by list of companions
		for _, y := range e.Eats {
			f := m.Larder[y.Food].Food
			companions := m.Request.Table.Companions(f)
			if companions == nil {
				continue
			}
			sitting, shares := rules.Sittings(f, companions)
			key := strings.Join(f.Companions, ";")
			if f.OccasionG <= 0 {
				key += ";" + f.Name // without a sitting of its own its ratios are of another scale
			}
			dish, ok := dishes[key]
			if !ok {
				dish = addDish(m, ei, e, key, shares)
				dishes[key] = dish
			}
			row := m.addRow(fmt.Sprintf("with[%s,%s]", e.Person.Name, f.Name), math.Inf(-1), 0, RowInfo{
				Kind: RowCompanion, Class: Structural, Eater: ei,
				Text: f.Name + " with what it is cooked with", Unit: "g", PerDay: m.Days(),
			})
			m.Problem.Rows[row].Lazy = true
			m.Problem.Set(row, y.Col, 1)
			m.Problem.Set(row, dish, -sitting)
		}
	}
}

// addDish makes the column of the sittings of dishes that take an ingredient.
func addDish(m *Model, ei int, e *Eater, key string, shares map[*foods.Food]float64) int {
	name := fmt.Sprintf("dishes[%s,%s]", e.Person.Name, key)
	dish := m.addCol(name, 0, Inf, false, colInfo{Kind: colDish, Eater: ei, Larder: -1})
	row := m.addRow(name, 0, 0, RowInfo{
		Kind: RowCompanion, Class: Structural, Eater: ei,
		Text: "dishes of " + strings.ReplaceAll(key, ";", ", "), Unit: "sittings", PerDay: m.Days(),
	})
	m.Problem.Set(row, dish, 1)
	for _, y := range e.Eats {
		if share := shares[m.Larder[y.Food].Food]; share > 0 {
			m.Problem.Set(row, y.Col, -share)
		}
	}
	return dish
}

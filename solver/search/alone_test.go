package search

import (
	"math"
	"slices"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
)

// Who stands alone is somebody whose own rows no food meets. Each of two may eat up to 5 g and needs 4,
// of which nothing else comes. Where one needs 10 there is nobody whose needs can be met by themselves,
// unless a column of all, here of what another brings, stands in that row too: then nothing is said.
func TestWhoStandsAlone(t *testing.T) {
	for _, c := range []struct {
		name   string
		need   [2]float64
		shared [2]bool // a column that is nobody's stands in the row of the need
		lazy   [2]bool
		alone  int
		basis  bool
	}{
		{"both are met", [2]float64{4, 4}, [2]bool{}, [2]bool{}, -1, true},
		{"the first is not", [2]float64{10, 4}, [2]bool{}, [2]bool{}, 0, false},
		{"the second is not", [2]float64{4, 10}, [2]bool{}, [2]bool{}, 1, false},
		{"the first by another column", [2]float64{10, 4}, [2]bool{true, false}, [2]bool{}, -1, false},
		{"the second by another column", [2]float64{4, 10}, [2]bool{false, true}, [2]bool{}, -1, false},
		{"the second, the column being in the row of the first", [2]float64{4, 10}, [2]bool{true, false}, [2]bool{}, 1, false},
		{"a row that may wait", [2]float64{10, 4}, [2]bool{}, [2]bool{true, false}, -1, true},
	} {
		m := &model.Model{Request: &ration.Request{Days: 10}, Problem: &linear.Problem{}, Water: -1, Heat: -1}
		p := m.Problem
		all := p.AddCol("brought", 1, 0, 100, false)
		m.Cols = slices.Grow(m.Cols, 3)[:3] // one that is nobody's, and what each eats
		m.Cols[all].Eater = -1
		for ei, name := range []string{"Signe", "Arvid"} {
			m.Eaters = append(m.Eaters, &model.Eater{Person: nutrients.Person{Name: name, Count: 1}, Count: 1, Drink: -1})
			row := p.AddRow(name, c.need[ei], math.Inf(1))
			p.Rows[row].Lazy = c.lazy[ei]
			m.Rows = append(m.Rows, model.RowInfo{Kind: model.RowNutrient, Eater: ei, Nutrient: nutrients.Protein, PerDay: 10})
			eat := p.AddCol("eat "+name, 0, 0, 5, false)
			m.Cols[eat].Kind, m.Cols[eat].Eater = model.ColEat, ei
			p.Set(row, eat, 1)
			if c.shared[ei] {
				p.Set(row, all, 1)
			}
		}
		model.MergeAll(p)
		basis, alone := Crash(t.Context(), m, p)
		if alone != c.alone || (basis != nil) != c.basis {
			t.Errorf("%s: %d stands alone, a basis %v; want %d, %v", c.name, alone, basis != nil, c.alone, c.basis)
		}
	}
}

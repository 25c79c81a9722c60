package model

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"rationwright/nutrients"
)

// addStockDateRows counts a pack whose date falls within the horizon only for
// what its eaters may eat of it by then, and leaves something for the days after
// it: see [Ration.addByDate] and [Ration.addAfterRows].
func addStockDateRows(m *Model) {
	for li, lf := range m.Larder {
		if lf.Balance >= 0 {
			addByDate(m, li, lf, lf.datedStock())
		}
	}
	addAfterRows(m)
}

// byDateCol is what one person eats of a food out of packs of one date.
type byDateCol struct {
	Col    int
	Eater  int
	Larder int
	Day    int // the last on which they may be eaten
}

// addByDate shares out what is eaten of a food by each date e of its stock, v_pe in
// grams for one p. It comes out of packs of that date, s_l of line l:
//
//	Σ_p n_p v_pe ≤ Σ_{lines l of date e} usable_l s_l
//	Σ_{e' ≤ e} v_pe' ≤ cap_pf · e / D,   Σ_e v_pe ≤ y_pf
//
// and takes that much off the balance of the packs that keep.
func addByDate(m *Model, li int, lf *LarderFood, dated []PackCol) {
	before := map[int][]int{} // by eater: columns so far
	for i, k := range dated {
		if i > 0 && dated[i-1].day == k.day {
			continue
		}
		packs := m.addRow(fmt.Sprintf("dated[%s,day %d]", lf.Food.Name, k.day), math.Inf(-1), 0, dateInfo(lf))
		for _, l := range dated {
			if l.day == k.day {
				m.Problem.Set(packs, l.Col, -l.Usable)
			}
		}
		for ei, e := range m.Eaters {
			y, ok := e.Eating(li)
			if !ok {
				continue
			}
			most := y.CapG * float64(k.day) / m.Days()
			col := m.addCol(fmt.Sprintf("by-date[%s,%s,day %d]", e.Person.Name, lf.Food.Name, k.day), 0, most, false,
				colInfo{Kind: colByDate, Eater: ei, Larder: li})
			m.ByDate = append(m.ByDate, byDateCol{col, ei, li, k.day})
			m.Problem.Set(packs, col, e.Count*y.SpareFactor)
			m.Problem.Set(lf.Balance, col, -e.Count*y.SpareFactor)
			before[ei] = append(before[ei], col)
			if len(before[ei]) > 1 {
				row := m.addRow(fmt.Sprintf("by-day-%d[%s,%s]", k.day, e.Person.Name, lf.Food.Name), math.Inf(-1), most, dateInfo(lf))
				m.Problem.Rows[row].Lazy = true
				for _, j := range before[ei] {
					m.Problem.Set(row, j, 1)
				}
			}
		}
	}
	for ei, e := range m.Eaters {
		if y, ok := e.Eating(li); ok && len(before[ei]) > 0 {
			row := m.addRow(fmt.Sprintf("dated-of[%s,%s]", e.Person.Name, lf.Food.Name), math.Inf(-1), 0, dateInfo(lf))
			m.Problem.Set(row, y.Col, -1)
			for _, j := range before[ei] {
				m.Problem.Set(row, j, 1)
			}
		}
	}
}

func dateInfo(lf *LarderFood) RowInfo {
	return RowInfo{Kind: rowDated, Class: Structural, Eater: -1, Text: lf.Food.Name, Unit: "g", PerDay: 1}
}

// addAfterRows feeds everyone on the days after each date e of the stock too, and
// not ahead of it: with a_i the coefficients of the rows of energy, protein and an
// infant's milk,
//
//	Σ_f a_if (y_pf − Σ_{e' ≤ e} v_pfe') ≥ (D − e)/D · floor_i
//	Σ_f a_if Σ_{e' ≤ e} v_pfe' ≤ e/D · ceiling_i
//
// Other needs are averages over the horizon.
func addAfterRows(m *Model) {
	var days []int
	for _, v := range m.ByDate {
		days = append(days, v.Day)
	}
	if len(days) == 0 {
		return
	}
	slices.Sort(days)
	days = slices.Compact(days)
	byRow := m.Problem.ByRow()
	for i, info := range slices.Clone(m.Rows) {
		daily := info.Kind == RowFeed || info.Kind == RowNutrient && (info.Nutrient == nutrients.Energy || info.Nutrient == nutrients.Protein)
		if !daily || info.Eater < 0 {
			continue
		}
		bounds := m.Problem.Rows[i]
		cols, values := byRow.Row(i)
		per := map[int]float64{} // of a gram, by food
		for k, j := range cols {
			per[m.Cols[j].Larder] = values[k]
		}
		for _, day := range days {
			add := func(word string, part, lower, upper float64) int {
				of := info
				of.Kind, of.Text, of.PerDay = RowAfter, fmt.Sprintf("%s %s day %d", info.Text, word, day), info.PerDay*part
				name := fmt.Sprintf("%s-%s-%d[%s]", info.Name(), word, day, m.Eaters[info.Eater].Person.Name)
				return m.addRow(name, lower, upper, of)
			}
			left := (m.Days() - float64(day)) / m.Days()
			rest, early := -1, -1
			if bounds.Lower > 0 {
				rest = add("after", left, left*bounds.Lower, Inf)
				for k, j := range cols {
					m.Problem.Set(rest, j, values[k])
				}
			}
			if bounds.Upper < Inf {
				early = add("by", 1-left, math.Inf(-1), (1-left)*bounds.Upper)
			}
			for _, v := range m.ByDate {
				if v.Eater != info.Eater || v.Day > day {
					continue
				}
				if rest >= 0 {
					m.Problem.Set(rest, v.Col, -per[v.Larder])
				}
				if early >= 0 {
					m.Problem.Set(early, v.Col, per[v.Larder])
				}
			}
		}
	}
}

// datedStock lists the stock whose date falls within the horizon, the earliest
// first.
func (lf *LarderFood) datedStock() []PackCol {
	dated := slices.DeleteFunc(slices.Clone(lf.Stock), func(k PackCol) bool { return !k.dated })
	slices.SortStableFunc(dated, func(a, b PackCol) int { return cmp.Compare(a.day, b.day) })
	return dated
}

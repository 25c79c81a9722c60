package model

import (
	"fmt"
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/solver/rules"
)

// addPackColumns makes the integer columns: packs to buy, packs in stock, and
// packs of fast sugar set aside. A pack counts for what can be eaten of it,
//
//	usable_k = min(net_k, Σ_p n_p m_pf, C_f)
//
// where m_pf is what p eats of f in one open window and C_f what all may eat
// of f over the horizon.
func addPackColumns(m *Model) {
	reserve := m.Doses()
	for li, lf := range m.Larder {
		if lf.Food.HasTag(foods.TagHumanMilk) {
			continue
		}
		for _, k := range lf.Food.Packs {
			if !rules.CanOpen(m.Request, k) {
				continue
			}
			if lf.CapG > 0 && !m.Request.StockOnly {
				usable := lf.Usable(k)
				lf.Buy = append(lf.Buy, m.packColumn(ColBuy, "buy["+k.Key+"]", li, -1, k, usable, math.Ceil(lf.CapG/usable-1e-9)))
			}
			if doses := rules.Doses(k); reserve > 0 && rules.HoldsDoses(k) && lf.mayReserve && !m.Request.StockOnly {
				most := math.Ceil(reserve / doses)
				lf.Reserve = append(lf.Reserve, m.packColumn(ColReserve, "reserve["+k.Key+"]", li, -1, k, doses, most))
			}
		}
		for i, line := range m.Request.Stock {
			if line.Pack.Food != lf.Food || line.Count < 1 {
				continue
			}
			if day, ok := rules.LastDay(m.Request, line); ok && day < 1 {
				continue // past its time
			}
			if lf.CapG > 0 {
				lf.Stock = append(lf.Stock, stockColumns(m, li, lf, i))
			}
			if reserve > 0 && rules.Doses(line.Pack) > 0 && lf.mayReserve && rules.CanOpen(m.Request, line.Pack) && m.Keeps(line) {
				lf.Reserve = append(lf.Reserve, reserveFromStock(m, li, lf, i))
			}
		}
	}
}

// packColumn makes a column of at most so many packs of larder food li, with how much of one
// counts; line is that of the stock, -1 where they are bought.
func (m *Model) packColumn(kind colKind, name string, li, line int, k *foods.Pack, usable, most float64) PackCol {
	col := m.addCol(name, 0, most, true, colInfo{Kind: kind, Eater: -1, Larder: li, pack: k})
	return PackCol{Pack: k, Usable: usable, Line: line, Col: col}
}

// stockColumns makes the column of one line of the stock: packs used.
func stockColumns(m *Model, li int, lf *LarderFood, line int) PackCol {
	stock := m.Request.Stock[line]
	usable := lf.Usable(stock.Pack)
	most := math.Min(math.Floor(stock.Count), math.Ceil(math.Max(lf.CapG/usable, lf.opened)-1e-9))
	if !rules.CanOpen(m.Request, stock.Pack) {
		most = 0
	}
	k := m.packColumn(colStock, fmt.Sprintf("stock[%d:%s]", line+1, stock.Pack.Key), li, line, stock.Pack, usable, most)
	if day, ok := rules.LastDay(m.Request, stock); ok && day < m.Request.Days {
		k.dated, k.day = true, day
	}
	return k
}

// reserveFromStock makes the column of packs of one line of the stock that are
// set aside. A pack is set aside or eaten:
//
//	s_l + r_l ≤ on hand
func reserveFromStock(m *Model, li int, lf *LarderFood, line int) PackCol {
	stock := m.Request.Stock[line]
	onHand := math.Floor(stock.Count)
	name := fmt.Sprintf("reserve-stock[%d:%s]", line+1, stock.Pack.Key)
	k := m.packColumn(colStock, name, li, line, stock.Pack, rules.Doses(stock.Pack), onHand)
	for _, s := range lf.Stock {
		if s.Line == line {
			row := m.addRow(fmt.Sprintf("on-hand[%d:%s]", line+1, stock.Pack.Key), math.Inf(-1), onHand, RowInfo{
				Kind: rowDated, Class: Structural, Eater: -1, Text: lf.Food.Name, Unit: "packs", PerDay: 1,
			})
			m.Problem.Set(row, s.Col, 1)
			m.Problem.Set(row, k.Col, 1)
		}
	}
	return k
}

// Keeps reports whether a line of the stock keeps past the horizon.
func (m *Model) Keeps(line foods.StockLine) bool {
	day, ok := rules.LastDay(m.Request, line)
	return !ok || day >= m.Request.Days
}

// Usable returns how many grams of one pack can be eaten before it spoils.
func (lf *LarderFood) Usable(k *foods.Pack) float64 {
	return math.Min(k.NetG, math.Min(lf.Window, lf.CapG))
}

// addBalanceRows says that what is eaten comes out of packs:
//
//	Σ_p n_p y_pf − Σ_k usable_k (x_k + s_k) ≤ 0
func addBalanceRows(m *Model) {
	for li, lf := range m.Larder {
		if lf.CapG <= 0 || lf.Food.HasTag(foods.TagHumanMilk) {
			continue
		}
		lf.Balance = m.addRow("packs["+lf.Food.Name+"]", math.Inf(-1), 0, RowInfo{
			Kind: RowBalance, Class: Structural, Eater: -1, Text: lf.Food.Name, Unit: "g", PerDay: 1,
		})
		for _, e := range m.Eaters {
			if y, ok := e.Eating(li); ok {
				m.Problem.Set(lf.Balance, y.Col, e.Count*y.SpareFactor)
			}
		}
		for _, k := range lf.Supply() {
			if k.dated { // see addByDate
				continue
			}
			m.Problem.Set(lf.Balance, k.Col, -k.Usable)
		}
	}
}

// GramCost is the least that a gram of the food that can be eaten costs in packs that are
// bought, at a cost for each of their columns; col is that of the pack. It is +Inf and -1
// where none is to be had.
func (lf *LarderFood) GramCost(cost func(col int) float64) (least float64, col int) {
	least, col = Inf, -1
	for _, k := range lf.Buy {
		if c := cost(k.Col) / k.Usable; c < least {
			least, col = c, k.Col
		}
	}
	return least, col
}

// Supply lists the columns that bring the food into the ration.
func (lf *LarderFood) Supply() []PackCol {
	return slices.Concat(lf.Buy, lf.Stock)
}

// Eating returns e's column for larder food li.
func (e *Eater) Eating(li int) (eatCol, bool) {
	for _, y := range e.Eats {
		if y.Food == li {
			return y, true
		}
	}
	return eatCol{}, false
}

// addOpenedRows says that nobody eats more of a food that must be finished once
// open than one window's amount per opened pack:
//
//	y_pf − m_pf Σ_k (x_k + s_k) ≤ 0   where m_pf is under p's cap on f
func addOpenedRows(m *Model) {
	for ei, e := range m.Eaters {
		for _, y := range e.Eats {
			lf := m.Larder[y.Food]
			if lf.Balance < 0 || y.Window >= y.CapG {
				continue
			}
			if len(m.Eaters) == 1 && e.Count <= 1 {
				continue // the balance row already says it
			}
			row := m.addRow(fmt.Sprintf("opened[%s,%s]", e.Person.Name, lf.Food.Name), math.Inf(-1), 0, RowInfo{
				Kind: RowOpened, Class: Structural, Eater: ei, Text: lf.Food.Name, Unit: "g", PerDay: 1,
			})
			m.Problem.Rows[row].Lazy = true
			m.Problem.Set(row, y.Col, 1)
			for _, k := range lf.Supply() {
				m.Problem.Set(row, k.Col, -y.Window)
			}
		}
	}
}

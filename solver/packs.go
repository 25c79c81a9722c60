package solver

import (
	"fmt"
	"math"

	"rationwright/foods"
)

// addPackColumns makes the integer columns: packs to buy, packs in stock, and
// packs of fast sugar set aside. A pack counts for what can be eaten of it,
//
//	usable_k = min(net_k, Σ_p n_p m_pf, C_f)
//
// where m_pf is what p eats of f in one open window and C_f what all may eat
// of f over the horizon.
func (r *Ration) addPackColumns() {
	reserve := r.reserveG()
	for li, lf := range r.larder {
		if lf.food.HasTag(foods.TagHumanMilk) {
			continue
		}
		for _, k := range lf.food.Packs {
			if !canOpen(r.Request, k) {
				continue
			}
			if lf.capG > 0 && !r.Request.StockOnly {
				usable := lf.usable(k)
				lf.buy = append(lf.buy, packCol{
					pack:   k,
					usable: usable,
					line:   -1,
					col: r.addCol("buy["+k.Key+"]", 0, math.Ceil(lf.capG/usable-1e-9), true,
						colInfo{kind: colBuy, eater: -1, larder: li, pack: k}),
				})
			}
			if reserve > 0 && lf.mayReserve && !r.Request.StockOnly {
				lf.reserve = append(lf.reserve, packCol{
					pack:   k,
					usable: fastSugarG(k),
					line:   -1,
					col: r.addCol("reserve["+k.Key+"]", 0, math.Ceil(reserve/fastSugarG(k)), true,
						colInfo{kind: colReserve, eater: -1, larder: li, pack: k}),
				})
			}
		}
		for i, line := range r.Request.Stock {
			if line.Pack.Food != lf.food || line.Count < 1 {
				continue
			}
			if day, ok := lastDay(r.Request, line); ok && day < 1 {
				continue // past its time
			}
			if lf.capG > 0 {
				lf.stock = append(lf.stock, r.stockColumns(li, lf, i))
			}
			if reserve > 0 && lf.mayReserve && canOpen(r.Request, line.Pack) && r.keeps(line) {
				lf.reserve = append(lf.reserve, r.reserveFromStock(li, lf, i))
			}
		}
	}
}

// stockColumns makes the column of one line of the stock: packs used.
func (r *Ration) stockColumns(li int, lf *larderFood, line int) packCol {
	stock := r.Request.Stock[line]
	k := packCol{pack: stock.Pack, usable: lf.usable(stock.Pack), line: line}
	info := colInfo{kind: colStock, eater: -1, larder: li, pack: stock.Pack}
	most := math.Min(math.Floor(stock.Count), math.Ceil(math.Max(lf.capG/k.usable, lf.opened)-1e-9))
	if !canOpen(r.Request, stock.Pack) {
		most = 0
	}
	if day, ok := lastDay(r.Request, stock); ok && day < r.Request.Days {
		k.dated, k.day = true, day
	}
	k.col = r.addCol(fmt.Sprintf("stock[%d:%s]", line+1, stock.Pack.Key), 0, most, true, info)
	return k
}

// reserveFromStock makes the column of packs of one line of the stock that are
// set aside. A pack is set aside or eaten:
//
//	s_l + r_l ≤ on hand
func (r *Ration) reserveFromStock(li int, lf *larderFood, line int) packCol {
	stock := r.Request.Stock[line]
	k := packCol{pack: stock.Pack, usable: fastSugarG(stock.Pack), line: line}
	onHand := math.Floor(stock.Count)
	k.col = r.addCol(fmt.Sprintf("reserve-stock[%d:%s]", line+1, stock.Pack.Key), 0, onHand, true,
		colInfo{kind: colStock, eater: -1, larder: li, pack: stock.Pack})
	for _, s := range lf.stock {
		if s.line == line {
			row := r.addRow(fmt.Sprintf("on-hand[%d:%s]", line+1, stock.Pack.Key), math.Inf(-1), onHand, rowInfo{
				kind: rowDated, class: structural, eater: -1, text: lf.food.Name, unit: "packs", perDay: 1,
			})
			r.Problem.Set(row, s.col, 1)
			r.Problem.Set(row, k.col, 1)
		}
	}
	return k
}

// keeps reports whether a line of the stock keeps past the horizon.
func (r *Ration) keeps(line foods.StockLine) bool {
	day, ok := lastDay(r.Request, line)
	return !ok || day >= r.Request.Days
}

// usable returns how many grams of one pack can be eaten before it spoils.
func (lf *larderFood) usable(k *foods.Pack) float64 {
	return math.Min(k.NetG, math.Min(lf.window, lf.capG))
}

// addBalanceRows says that what is eaten comes out of packs:
//
//	Σ_p n_p y_pf − Σ_k usable_k (x_k + s_k) ≤ 0
func (r *Ration) addBalanceRows() {
	for li, lf := range r.larder {
		if lf.capG <= 0 || lf.food.HasTag(foods.TagHumanMilk) {
			continue
		}
		lf.balance = r.addRow("packs["+lf.food.Name+"]", math.Inf(-1), 0, rowInfo{
			kind: rowBalance, class: structural, eater: -1, text: lf.food.Name, unit: "g", perDay: 1,
		})
		for _, e := range r.eaters {
			if y, ok := e.eating(li); ok {
				r.Problem.Set(lf.balance, y.col, e.count*y.spare)
			}
		}
		for _, k := range lf.supply() {
			if k.dated { // see addByDate
				continue
			}
			r.Problem.Set(lf.balance, k.col, -k.usable)
		}
	}
}

// supply lists the columns that bring the food into the ration.
func (lf *larderFood) supply() []packCol {
	return append(append([]packCol(nil), lf.buy...), lf.stock...)
}

// eating returns e's column for larder food li.
func (e *eater) eating(li int) (eatCol, bool) {
	for _, y := range e.eats {
		if y.food == li {
			return y, true
		}
	}
	return eatCol{}, false
}

// addOpenedRows says that nobody eats more of a food that must be finished once
// open than one window's amount per opened pack:
//
//	y_pf − m_pf Σ_k (x_k + s_k) ≤ 0   where m_pf is under p's cap on f
func (r *Ration) addOpenedRows() {
	for ei, e := range r.eaters {
		for _, y := range e.eats {
			lf := r.larder[y.food]
			if lf.balance < 0 || y.window >= y.capG {
				continue
			}
			if len(r.eaters) == 1 && e.count <= 1 {
				continue // the balance row already says it
			}
			row := r.addRow(fmt.Sprintf("opened[%s,%s]", e.person.Name, lf.food.Name), math.Inf(-1), 0, rowInfo{
				kind: rowOpened, class: structural, eater: ei, text: lf.food.Name, unit: "g", perDay: 1,
			})
			r.Problem.Rows[row].Lazy = true
			r.Problem.Set(row, y.col, 1)
			for _, k := range lf.supply() {
				r.Problem.Set(row, k.col, -y.window)
			}
		}
	}
}

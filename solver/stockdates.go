package solver

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// addStockDateRows counts a pack whose date falls within the horizon only for
// what its eaters may eat of it by then, and leaves something for the days after
// it: see [Ration.addByDate] and [Ration.addAfterRows].
func (r *Ration) addStockDateRows() {
	for li, lf := range r.larder {
		if lf.balance >= 0 {
			r.addByDate(li, lf, lf.datedStock())
		}
	}
	r.addAfterRows()
}

// byDateCol is what one person eats of a food out of packs of one date.
type byDateCol struct {
	col    int
	eater  int
	larder int
	day    int // the last on which they may be eaten
}

// addByDate shares out what is eaten of a food by each date e of its stock, v_pe in
// grams for one p. It comes out of packs of that date, s_l of line l:
//
//	Σ_p n_p v_pe ≤ Σ_{lines l of date e} usable_l s_l
//	Σ_{e' ≤ e} v_pe' ≤ cap_pf · e / D,   Σ_e v_pe ≤ y_pf
//
// and takes that much off the balance of the packs that keep.
func (r *Ration) addByDate(li int, lf *larderFood, dated []packCol) {
	before := map[int][]int{} // by eater: columns so far
	for i, k := range dated {
		if i > 0 && dated[i-1].day == k.day {
			continue
		}
		packs := r.addRow(fmt.Sprintf("dated[%s,day %d]", lf.food.Name, k.day), math.Inf(-1), 0, r.dateInfo(lf))
		for _, l := range dated {
			if l.day == k.day {
				r.Problem.Set(packs, l.col, -l.usable)
			}
		}
		for ei, e := range r.eaters {
			y, ok := e.eating(li)
			if !ok {
				continue
			}
			most := y.capG * float64(k.day) / r.days()
			col := r.addCol(fmt.Sprintf("by-date[%s,%s,day %d]", e.person.Name, lf.food.Name, k.day), 0, most, false,
				colInfo{kind: colByDate, eater: ei, larder: li})
			r.byDate = append(r.byDate, byDateCol{col, ei, li, k.day})
			r.Problem.Set(packs, col, e.count*y.spare)
			r.Problem.Set(lf.balance, col, -e.count*y.spare)
			before[ei] = append(before[ei], col)
			if len(before[ei]) > 1 {
				row := r.addRow(fmt.Sprintf("by-day-%d[%s,%s]", k.day, e.person.Name, lf.food.Name), math.Inf(-1), most, r.dateInfo(lf))
				r.Problem.Rows[row].Lazy = true
				for _, j := range before[ei] {
					r.Problem.Set(row, j, 1)
				}
			}
		}
	}
	for ei, e := range r.eaters {
		if y, ok := e.eating(li); ok && len(before[ei]) > 0 {
			row := r.addRow(fmt.Sprintf("dated-of[%s,%s]", e.person.Name, lf.food.Name), math.Inf(-1), 0, r.dateInfo(lf))
			r.Problem.Set(row, y.col, -1)
			for _, j := range before[ei] {
				r.Problem.Set(row, j, 1)
			}
		}
	}
}

func (r *Ration) dateInfo(lf *larderFood) rowInfo {
	return rowInfo{kind: rowDated, class: structural, eater: -1, text: lf.food.Name, unit: "g", perDay: 1}
}

// addAfterRows feeds everyone on the days after each date e of the stock too, and
// not ahead of it: with a_i the coefficients of the rows of energy, protein and an
// infant's milk,
//
//	Σ_f a_if (y_pf − Σ_{e' ≤ e} v_pfe') ≥ (D − e)/D · floor_i
//	Σ_f a_if Σ_{e' ≤ e} v_pfe' ≤ e/D · ceiling_i
//
// Other needs are averages over the horizon.
func (r *Ration) addAfterRows() {
	var days []int
	for _, v := range r.byDate {
		if !slices.Contains(days, v.day) {
			days = append(days, v.day)
		}
	}
	slices.Sort(days)
	if len(days) == 0 {
		return
	}
	byRow := r.Problem.ByRow()
	for i, info := range slices.Clone(r.rows) {
		daily := info.kind == rowFeed || info.kind == rowNutrient && (info.nutrient == nutrients.Energy || info.nutrient == nutrients.Protein)
		if !daily || info.eater < 0 {
			continue
		}
		bounds := r.Problem.Rows[i]
		cols, values := byRow.Row(i)
		per := map[int]float64{} // of a gram, by food
		for k, j := range cols {
			per[r.cols[j].larder] = values[k]
		}
		name := info.name()
		for _, day := range days {
			after := info
			after.kind, after.text = rowAfter, fmt.Sprintf("%s after day %d", info.text, day)
			left := (r.days() - float64(day)) / r.days()
			after.perDay = info.perDay * left
			ahead := info
			ahead.kind, ahead.text = rowAfter, fmt.Sprintf("%s by day %d", info.text, day)
			ahead.perDay = info.perDay * (1 - left)
			rest, early := -1, -1
			if bounds.Lower > 0 {
				rest = r.addRow(fmt.Sprintf("%s-after-%d[%s]", name, day, r.eaters[info.eater].person.Name), left*bounds.Lower, inf, after)
				for k, j := range cols {
					r.Problem.Set(rest, j, values[k])
				}
			}
			if bounds.Upper < inf {
				early = r.addRow(fmt.Sprintf("%s-by-%d[%s]", name, day, r.eaters[info.eater].person.Name), math.Inf(-1), (1-left)*bounds.Upper, ahead)
			}
			for _, v := range r.byDate {
				if v.eater != info.eater || v.day > day {
					continue
				}
				if rest >= 0 {
					r.Problem.Set(rest, v.col, -per[v.larder])
				}
				if early >= 0 {
					r.Problem.Set(early, v.col, per[v.larder])
				}
			}
		}
	}
}

// datedStock lists the stock whose date falls within the horizon, the earliest
// first.
func (lf *larderFood) datedStock() []packCol {
	var dated []packCol
	for _, k := range lf.stock {
		if k.dated {
			dated = append(dated, k)
		}
	}
	slices.SortStableFunc(dated, func(a, b packCol) int { return cmp.Compare(a.day, b.day) })
	return dated
}

// lastDay returns the last day of the plan on which a line of the stock may be
// eaten: the day of its date, or of the keeping time of a pack that is open
// already, whichever comes first; ok is false where neither is known.
// [foods.Keeping.OpenDays] counts the days of an open pack.
func lastDay(req *ration.Request, line foods.StockLine) (day int, ok bool) {
	day, ok = dayOf(req, line.BestBefore)
	opened, isOpen := dayOf(req, line.Opened)
	if !isOpen {
		return day, ok
	}
	end := opened + line.Pack.Food.Keeping.OpenDays() - 1
	if !ok || end < day {
		return end, true
	}
	return day, true
}

// dayOf returns which day of the plan an ISO date is, 1 for the first; ok is
// false where there is no date or no start.
func dayOf(req *ration.Request, date string) (day int, ok bool) {
	if date == "" || req.Start == "" {
		return 0, false
	}
	start, err := time.Parse(time.DateOnly, req.Start)
	if err != nil {
		return 0, false
	}
	end, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return 0, false
	}
	return int(end.Sub(start).Hours()/24) + 1, true
}

package solver

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"rationwright/foods"
)

// addStockDateRows counts a pack whose date falls within the horizon only for
// what its eaters may eat of it by then, with u_l the grams eaten of line l:
//
//	u_l ≤ usable_l s_l          and, for every date e of a food,
//	Σ_{lines dated on or before e} u_l ≤ C_f · e / D
func (r *Ration) addStockDateRows() {
	for _, lf := range r.larder {
		dated := lf.datedStock()
		for i, k := range dated {
			row := r.addRow(fmt.Sprintf("use[%d:%s]", k.line+1, k.pack.Key), math.Inf(-1), 0, rowInfo{
				kind: rowDated, class: structural, eater: -1, text: lf.food.Name, unit: "g", perDay: 1,
			})
			r.Problem.Set(row, k.use, 1)
			r.Problem.Set(row, k.col, -k.usable)
			if i+1 < len(dated) && dated[i+1].day == k.day {
				continue
			}
			row = r.addRow(fmt.Sprintf("dated[%s,day %d]", lf.food.Name, k.day), math.Inf(-1),
				lf.capG*float64(k.day)/r.days(), rowInfo{
					kind: rowByDate, class: structural, eater: -1,
					text: lf.food.Name + " to be eaten by its date", unit: "g", perDay: 1,
				})
			for _, l := range dated[:i+1] {
				r.Problem.Set(row, l.use, 1)
			}
		}
	}
}

// datedStock lists the stock whose date falls within the horizon, the earliest
// first.
func (lf *larderFood) datedStock() []packCol {
	var dated []packCol
	for _, k := range lf.stock {
		if k.use >= 0 {
			dated = append(dated, k)
		}
	}
	slices.SortStableFunc(dated, func(a, b packCol) int { return cmp.Compare(a.day, b.day) })
	return dated
}

// lastDay returns the last day of the plan on which a line of the stock may be
// eaten: the day of its date, or of the keeping time of a pack that is open
// already, whichever comes first; ok is false where neither is known. An open
// pack counts from the start of the day on which it was opened, for whole days
// only, and at least for that day.
func lastDay(req *Request, line foods.StockLine) (day int, ok bool) {
	day, ok = dayOf(req, line.BestBefore)
	opened, isOpen := dayOf(req, line.Opened)
	if !isOpen {
		return day, ok
	}
	end := opened
	if k := line.Pack.Food.Keeping; k != nil {
		end += max(0, int(k.AfterOpenHours/24)-1)
	}
	if !ok || end < day {
		return end, true
	}
	return day, true
}

// dayOf returns which day of the plan an ISO date is, 1 for the first; ok is
// false where there is no date or no start.
func dayOf(req *Request, date string) (day int, ok bool) {
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

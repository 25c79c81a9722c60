package solver

import (
	"fmt"
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/solver/ration"
)

// allowanceText names the usual allowance of drinking water a head.
const allowanceText = "the usual water allowance"

// addLimitRows adds the user's own limits on the whole store.
func (r *Ration) addLimitRows() {
	limits := r.Request.Limits
	r.addTotalRow("budget", "budget", r.currency(), limits.Budget, ration.LeastCost)
	r.addTotalRow("max-weight", "weight", "kg", limits.WeightKg, ration.LeastWeight)
	r.addTotalRow("max-litres", "shelf space", "L", limits.VolumeL, ration.LeastVolume)
	r.addColumnLimit("max-water", "stored water", "L", limits.WaterL, r.water)
	r.addColumnLimit("max-heat", "heat for cooking", "MJ", limits.HeatMJ, r.heat)
	r.addShelfRows()
	if r.Request.Allowance {
		row := r.addRow("water-allowance", allowanceL(r.Request), inf, rowInfo{
			kind: rowLimit, class: limit, eater: -1, text: allowanceText, unit: "L", perDay: 1,
			source: "common practice, no source",
		})
		r.Problem.Set(row, r.water, 1)
	}
}

// allowanceL is the usual allowance of water of everyone over the horizon; the
// pets' water comes on top, as it is for people.
func allowanceL(req *ration.Request) float64 {
	perDay := float64(req.Pets) * waterFigure().petL
	for _, p := range req.People {
		perDay += float64(p.Count) * waterFigure().usualL
	}
	return perDay * float64(req.Days)
}

func (r *Ration) addTotalRow(name, text, unit string, most *float64, total ration.Least) {
	if most == nil {
		return
	}
	row := r.addRow(name, math.Inf(-1), *most, rowInfo{
		kind: rowLimit, class: limit, eater: -1, text: text, unit: unit, total: total, perDay: 1,
	})
	for j := range r.cols {
		r.Problem.Set(row, j, r.coefficient(j, total))
	}
}

func (r *Ration) addColumnLimit(name, text, unit string, most *float64, col int) {
	if most == nil {
		return
	}
	row := r.addRow(name, math.Inf(-1), *most, rowInfo{
		kind: rowLimit, class: limit, eater: -1, text: text, unit: unit, perDay: 1,
	})
	r.Problem.Set(row, col, 1)
}

// currency is that of the table's prices.
func (r *Ration) currency() string {
	for _, k := range r.Request.Table.Packs {
		if k.Currency != "" {
			return k.Currency
		}
	}
	return ""
}

// addWishRows adds the household file's own amounts of foods: most FOOD, least
// FOOD. They are the user's locks.
func (r *Ration) addWishRows() {
	for ei, e := range r.eaters {
		for _, w := range e.wishes.Most {
			r.addWishRow(ei, e, w, math.Inf(-1), w.GramsPerDay*r.days())
		}
		for _, w := range e.wishes.Least {
			r.addWishRow(ei, e, w, w.GramsPerDay*r.days(), inf)
		}
	}
}

func (r *Ration) addWishRow(ei int, e *eater, w foods.Portion, lower, upper float64) {
	row := r.addRow(fmt.Sprintf("rule-%s[%s]", w.Text, e.person.Name), lower, upper, rowInfo{
		kind: rowUser, class: limit, eater: ei, text: "rule: " + w.Text, unit: "g", perDay: r.days(),
		source: "household file",
	})
	for _, y := range e.eats {
		if slices.Contains(w.Foods, r.larder[y.food].food) {
			r.Problem.Set(row, y.col, 1)
		}
	}
}

package solver

import (
	"cmp"
	"math"
	"slices"

	"rationwright/solver/branch"
	"rationwright/solver/ration"
)

// dullPrice is the shadow price under which a limit is not listed, in the unit
// of the objective per unit of the limit: far under a cent, a gram or a
// millilitre for a whole day's need.
const dullPrice = 1e-9

// shadowPrices lists what one unit more of each binding limit would cost, by
// the relaxation on the original rows without cuts: what a day's need more, of
// one person, or a unit more of the household's own limit changes the value. Of
// a row that stands for several alike people it is the price of one of them, so
// that it does not matter whether they share a row of the household. Negative
// means that it would save. The largest effect of the whole limit comes first.
func (r *Ration) shadowPrices(result branch.Result) []ration.Price {
	if len(result.RootDual) != len(r.rows) {
		return nil
	}
	type ranked struct {
		ration.Price
		weight float64
	}
	var all []ranked
	for i, info := range r.rows {
		dual := result.RootDual[i]
		switch info.kind {
		case rowNutrient, rowWater, rowPattern, rowGroupCap, rowShare, rowUser, rowLimit:
		default:
			continue
		}
		if math.Abs(dual) < dullPrice || info.class == safety { // safety is no price to haggle over
			continue
		}
		row := r.Problem.Rows[i]
		side, amount := " at least", row.Lower
		if dual < 0 {
			side, amount = " at most", row.Upper
		}
		if info.kind == rowShare {
			side = ""
		}
		p := ranked{
			Price:  ration.Price{Limit: info.text + side, Unit: info.unit, Marginal: dual * r.priceScale(info)},
			weight: math.Abs(dual * amount),
		}
		if info.kind == rowShare {
			p.weight = math.Abs(dual) * info.perDay
		}
		if info.eater >= 0 {
			p.Person = r.eaters[info.eater].person.Name
		}
		all = append(all, p)
	}
	slices.SortStableFunc(all, func(a, b ranked) int { return cmp.Compare(b.weight, a.weight) })
	prices := make([]ration.Price, len(all))
	for i, p := range all {
		prices[i] = p.Price
	}
	return prices
}

// priceScale turns the dual of a row into a price per unit a day of one person: a
// row of the program is of one person, but moves as many as the household's row
// stands for.
func (r *Ration) priceScale(info rowInfo) float64 {
	if info.eater < 0 {
		return info.perDay
	}
	return info.perDay / r.eaters[info.eater].count
}

package answer

import (
	"cmp"
	"math"
	"slices"

	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// DullPrice is the shadow price under which a limit is not listed, in the unit
// of the objective per unit of the limit: far under a cent, a gram or a
// millilitre for a whole day's need.
const DullPrice = 1e-9

// ShadowPrices lists what one unit more of each binding limit would cost, by
// the relaxation on the original rows without cuts: what a day's need more, of
// one person, or a unit more of the household's own limit changes the value. Of
// a row that stands for several alike people it is the price of one of them, so
// that it does not matter whether they share a row of the household. Negative
// means that it would save. The largest effect of the whole limit comes first.
func ShadowPrices(m *model.Model, result search.Result) []ration.Price {
	if len(result.RootDual) != len(m.Rows) {
		return nil
	}
	type ranked struct {
		ration.Price
		weight float64
	}
	var all []ranked
	for i, info := range m.Rows {
		dual := result.RootDual[i]
		switch info.Kind {
		case model.RowNutrient, model.RowWater, model.RowPattern, model.RowGroupCap, model.RowShare, model.RowUser, model.RowLimit:
		default:
			continue
		}
		if math.Abs(dual) < DullPrice || info.Class == model.Safety || info.Ordered { // safety is no price to haggle over
			continue
		}
		row := m.Problem.Rows[i]
		side, amount := " at least", row.Lower
		if dual < 0 {
			side, amount = " at most", row.Upper
		}
		if info.Kind == model.RowShare {
			side = ""
		}
		p := ranked{
			Price:  ration.Price{Limit: info.Text + side, Unit: info.Unit, Marginal: dual * PriceScale(m, info)},
			weight: math.Abs(dual * amount),
		}
		if info.Kind == model.RowShare {
			p.weight = math.Abs(dual) * info.PerDay
		}
		if info.Eater >= 0 {
			p.Person = m.Eaters[info.Eater].Person.Name
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

// PriceScale turns the dual of a row into a price per unit a day of one person: a
// row of the program is of one person, but moves as many as the household's row
// stands for.
func PriceScale(m *model.Model, info model.RowInfo) float64 {
	if info.Eater < 0 {
		return info.PerDay
	}
	return info.PerDay / m.Eaters[info.Eater].Count
}

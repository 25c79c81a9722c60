package aim

import (
	"math"
	"slices"

	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// A pack is a remnant where more of it than unused is left and does not keep so many
// hours once open. Planning rule of this program, no source.
const (
	unused    = 0.75
	keepsYear = 365 * 24
)

// wastes reports whether what is left of a food counts: it is bought, and what is
// open does not keep.
func (p *program) wastes(li int) bool {
	lf := p.model.Larder[li]
	return p.bought[li] >= 0 && len(lf.Stock) == 0 && lf.Balance >= 0 &&
		!(lf.Food.Keeping != nil && lf.Food.Keeping.AfterOpenHours >= keepsYear)
}

// leftOf is what is left of a food, as terms: Σ_k usable_k x_k − Σ_p n_p y_pf.
func (p *program) leftOf(li int) []linear.Entry {
	var left []linear.Entry
	for _, k := range p.model.Larder[li].Buy {
		left = append(left, term(k.Col, k.Usable))
	}
	for _, e := range p.model.Eaters {
		if y, ok := e.Eating(li); ok {
			left = append(left, term(y.Col, -e.Count*y.SpareFactor))
		}
	}
	return left
}

// addRemnants counts the foods whose last pack is hardly used and does not keep:
//
//	Σ_k usable_k x_k − Σ_p n_p y_pf ≤ unused·usable_k + M (1 − t_k) + M r_f,  weight Σ r_f
func (p *program) addRemnants() {
	weight := p.weights.Of(ration.AimRemnant)
	for li, lf := range p.model.Larder {
		if weight == 0 || !p.wastes(li) {
			continue
		}
		left := p.leftOf(li)
		largest := 0.0
		for _, k := range lf.Buy {
			largest = math.Max(largest, k.Usable)
		}
		most := 2 * largest
		r := p.binary("remnant["+lf.Food.Name+"]", weight)
		for _, k := range lf.Buy {
			p.most("remnant["+k.Pack.Key+"]", unused*k.Usable+most, true, append(slices.Clip(left), term(p.sizes[li][k.Col], most), term(r, -most))...)
		}
		p.fill = append(p.fill, func(x []float64) {
			rest := sum(x, left)
			for _, k := range lf.Buy {
				if x[k.Col] > 0 && rest > unused*k.Usable*(1+search.PortionTolerance) {
					x[r] = 1
				}
			}
		})
	}
}

// leftRow is a row of a program without columns for remnants that holds what may be
// left of a food.
type leftRow struct {
	row   int
	packs []model.PackCol
	left  []linear.Entry
}

// addLeftRows adds to q, whose first columns are those of the model, a row for what
// is left of each food, which binds nothing as yet.
func (p *program) addLeftRows(q *linear.Problem) []leftRow {
	var list []leftRow
	for li, lf := range p.model.Larder {
		if p.weights.Of(ration.AimRemnant) == 0 || !p.wastes(li) {
			continue
		}
		r := leftRow{q.AddRow("left["+lf.Food.Name+"]", math.Inf(-1), math.Inf(1)), lf.Buy, p.leftOf(li)}
		for _, t := range r.left {
			q.Set(r.row, t.Row, t.Value)
		}
		list = append(list, r)
	}
	return list
}

// most is the upper side of the row around a point: so much that no pack there is,
// nor one that comes, is a remnant; more where one is already. Where packs are of
// several sizes the smallest there is counts; where there are none the row is open to
// the largest.
func (r *leftRow) most(x []float64) float64 {
	least, largest := math.Inf(1), 0.0
	for _, k := range r.packs {
		largest = math.Max(largest, k.Usable)
		if math.Round(x[k.Col]) > 0 {
			least = math.Min(least, k.Usable)
		}
	}
	if math.IsInf(least, 1) {
		return unused * largest
	}
	return math.Max(unused*least, sum(x, r.left))
}

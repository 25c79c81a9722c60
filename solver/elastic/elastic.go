package elastic

import (
	"context"
	"math"
	"slices"

	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// stage is one step of the closest ration: the needs whose shortfall is made
// least before the next step's.
type stage func(model.RowInfo) bool

// stages is the order of the needs when not all can be met: water, energy,
// protein, the rest; and last the water and heat on hand, which more can be had of.
var stages = []stage{
	func(i model.RowInfo) bool { return i.Kind == model.RowWater || i.Kind == model.RowFluid },
	func(i model.RowInfo) bool { return i.IsOf(nutrients.Energy) },
	func(i model.RowInfo) bool { return i.IsOf(nutrients.Protein) },
	func(i model.RowInfo) bool { return i.Kind != model.RowLimit },
	func(model.RowInfo) bool { return true },
}

// shareScale is the part of the energy requirement against which energy outside
// its shares is counted: between the largest share of added sugars, a tenth, and
// that of carbohydrate, 65 per cent.
const shareScale = 0.3

// Elastic is the program with a shortfall column in every soft row, and one for
// the worst off of each kind of row:
//
//	a_i x + u_i ≥ floor_i,   u_i ≤ floor_i t_g,   0 ≤ u_i ≤ floor_i
//
//	minimise Σ_g t_g + ε Σ_i u_i / floor_i
//
// so that what there is of a nutrient is shared: nobody falls further short of
// it, in parts of the floor, than must be. Every other row stays as it is. A
// household's own limit may be soft as well, upwards: a_i x − u_i ≤ limit_i; and
// the stored water, as far as it is for washing. Shares of the energy and ceilings
// that guard against long-term illness only may be passed too, last of all: hunger
// is worse.
type Elastic struct {
	Model   *model.Model
	Problem *linear.Problem
	Rows    []int           // soft rows
	Cols    []int           // the shortfall columns of rows, then those of the worst off
	Weights []float64       // what one unit of each counts
	Kinds   []model.RowInfo // what each column is about
	Signs   []float64       // per row: 1 where it is missed, -1 where it is passed
	whole   []float64       // per row: what a shortfall is a part of

	relaxation *search.Master // as it was solved last
	thorough   int64          // how many times the usual work is worth it
}

// EveryoneWeight is ε: what one person's shortfall counts against that of the
// worst off.
const EveryoneWeight = 0.01

// IsNeed picks the rows that the closest ration may miss: needs and water for
// washing, never safety rows, the user's limits or the arithmetic.
func IsNeed(info model.RowInfo) bool {
	return info.Class == model.Requirement || info.Kind == model.RowAllWater
}

// New makes the elastic program over the rows that soft picks; hungry lets
// ceilings be passed that are better passed than going hungry.
func New(m *model.Model, soft func(model.RowInfo) bool, hungry bool) *Elastic {
	e := &Elastic{Model: m, Problem: m.Problem.Clone()}
	e.Problem.ClearCosts()
	for i, info := range m.Rows {
		row := m.Problem.Rows[i]
		switch {
		case !soft(info):
		case info.Kind == model.RowAllWater && m.WashingL() <= 0: // there is none to give up
		case info.Kind == model.RowAllWater:
			e.addShort(i, info, m.WashingL(), m.WashingL(), 1)
		case info.Kind == model.RowShare:
			if !hungry {
				continue
			}
			scale := shareScale * m.Eaters[info.Eater].Needs.EER.Amount * m.Days()
			sign := 1.0
			if row.Upper < model.Inf {
				sign = -1
			}
			e.addShort(i, info, scale, model.Inf, sign)
		case row.Lower > 0 || info.MayPass && hungry:
			if row.Lower > 0 {
				e.addShort(i, info, row.Lower, row.Lower, 1)
			}
			if info.MayPass && hungry {
				over := info
				over.Text += " at most"
				e.addShort(i, over, row.Upper, model.Inf, -1)
			}
		case info.Kind == model.RowLimit && row.Upper < model.Inf:
			e.addShort(i, info, math.Max(row.Upper, 1), model.Inf, -1)
		}
	}
	for ei, p := range m.Eaters {
		if info := drinkInfo(m, ei); p.Drink >= 0 && soft(info) && m.Problem.Cols[p.Drink].Lower > 0 {
			least := m.Problem.Cols[p.Drink].Lower
			e.Problem.Cols[p.Drink].Lower = 0
			row := e.Problem.AddRow("drink["+p.Person.Name+"]", least, model.Inf)
			e.Problem.Set(row, p.Drink, 1)
			e.addShort(row, info, least, least, 1)
		}
	}
	e.addWorst()
	return e
}

// drinkInfo is what the least that one drinks is about: a bound of the model, a
// row where it may be missed.
func drinkInfo(m *model.Model, ei int) model.RowInfo {
	return model.RowInfo{Kind: model.RowWater, Class: model.Requirement, Eater: ei, Nutrient: nutrients.Water, Text: ration.ShortDrink, Unit: "L", PerDay: m.Days()}
}

// addShort makes the shortfall column of row i of the program, which is about what
// info says: up to most, in parts of whole.
func (e *Elastic) addShort(i int, info model.RowInfo, whole, most, sign float64) {
	col := e.Problem.AddCol("short["+e.Problem.Rows[i].Name+" "+info.Text+"]", 0, 0, most, false)
	e.Problem.Set(i, col, sign)
	e.Rows = append(e.Rows, i)
	e.Cols = append(e.Cols, col)
	e.Weights = append(e.Weights, EveryoneWeight/whole)
	e.whole = append(e.whole, whole)
	e.Signs = append(e.Signs, sign)
	e.Kinds = append(e.Kinds, info)
}

// addWorst makes the columns and rows of the worst off of each kind.
func (e *Elastic) addWorst() {
	at := map[string]int{}
	for k, i := range e.Rows {
		info := e.Kinds[k]
		kind := info.Unit + " " + info.Text
		col, ok := at[kind]
		if !ok {
			col = e.Problem.AddCol("worst["+kind+"]", 0, 0, model.Inf, false)
			at[kind] = col
			e.Cols = append(e.Cols, col)
			e.Weights = append(e.Weights, 1)
			e.Kinds = append(e.Kinds, info)
		}
		row := e.Problem.AddRow("share["+e.Problem.Rows[i].Name+"]", math.Inf(-1), 0)
		e.Problem.Set(row, e.Cols[k], 1)
		e.Problem.Set(row, col, -e.whole[k])
	}
}

// Costs returns the objective that counts the shortfalls of some kinds of row,
// one figure per shortfall column.
func (e *Elastic) Costs(counts func(model.RowInfo) bool) []float64 {
	list := make([]float64, len(e.Cols))
	for k, info := range e.Kinds {
		if counts(info) {
			list[k] = e.Weights[k]
		}
	}
	return list
}

// stageCosts are the costs of stage s: what it counts and no stage before does.
func (e *Elastic) stageCosts(s int) []float64 {
	return e.Costs(func(i model.RowInfo) bool {
		return stages[s](i) && !slices.ContainsFunc(stages[:s], func(f stage) bool { return f(i) })
	})
}

// Closest finds the ration that comes closest to the needs that soft picks, in
// the order of [stages]: one value per column of the model, packs whole; nil where
// nothing was found.
func Closest(ctx context.Context, m *model.Model, soft func(model.RowInfo) bool) []float64 {
	e := New(m, soft, true)
	var costs [][]float64
	for s := range stages {
		costs = append(costs, e.stageCosts(s))
	}
	point := e.least(ctx, costs)
	if point == nil {
		return nil
	}
	if !m.HasTotals() {
		if result := e.cheapest(ctx, point); result.X != nil {
			point = result.X
		}
	}
	return point[:len(m.Cols)]
}

// Impossible proves, where it returns true, that no ration meets every need but
// those that a plan gives up by itself: by a verified ray, or by the proven lower
// bound on all shortfalls together.
func Impossible(ctx context.Context, m *model.Model) bool {
	e := New(m, IsNeed, false)
	x, err := search.Relax(e.Problem)
	if err != nil {
		return false
	}
	for k, cost := range e.Costs(func(i model.RowInfo) bool { return !i.Stored() }) {
		x.SetCost(e.Cols[k], cost)
	}
	result := x.Solve(ctx)
	return result.Status == simplex.Infeasible ||
		result.Status == simplex.Optimal && result.HasBound && result.Bound > search.ShortTolerance
}

// cheapest makes the plan's own objective least at the shortfalls held.
func (e *Elastic) cheapest(ctx context.Context, start []float64) search.Result {
	m := e.Model
	for j := range m.Cols { // no other column has a cost, see New
		e.Problem.Cols[j].Cost = m.Problem.Cols[j].Cost
	}
	return search.Run(ctx, e.Problem, search.Options{
		Gap: search.ClosestGap, MinDenom: ration.SmallestStep(m.Request.Least), Work: search.ClosestWork, Start: start,
	})
}

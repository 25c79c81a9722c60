package aim

import (
	"context"
	"math"
	"slices"

	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// perMgSodium is what a mg of sodium that one of them eats over the horizon counts.
func (p *program) perMgSodium() float64 {
	const mgPerG = 1000
	return p.weights.Of(ration.AimSodium) / mgPerG / p.model.Days()
}

// sodiumRow is the row of the most sodium of somebody who is to have little.
type sodiumRow struct {
	row   int
	most  float64 // over the horizon, see [program.keepSodium]
	count float64
	cols  []int
	mg    []float64 // of a gram, per column
}

func (p *program) sodiumRows() []sodiumRow {
	var list []sodiumRow
	for i, info := range p.model.Rows {
		if info.Kind != model.RowNutrient || !info.IsOf(nutrients.Sodium) || math.IsInf(p.model.Problem.Rows[i].Upper, 1) {
			continue
		}
		e := p.model.Eaters[info.Eater]
		if !rules.LittleSodium(&e.Person) {
			continue
		}
		r := sodiumRow{row: i, most: p.model.Problem.Rows[i].Upper, count: e.Count}
		for _, y := range e.Eats {
			if mg := p.model.Larder[y.Food].Food.Per100g.Known(nutrients.Sodium); mg > 0 {
				r.cols, r.mg = append(r.cols, y.Col), append(r.mg, mg/100)
			}
		}
		list = append(list, r)
	}
	return list
}

// at is the sodium at a point, mg over the horizon.
func (r *sodiumRow) at(x []float64) float64 {
	total := 0.0
	for k, j := range r.cols {
		total += r.mg[k] * x[j]
	}
	return total
}

// Limits of the search for whole packs with less sodium: gaps, and simplex iterations
// of each step.
const (
	leanGap   = 0.01
	pricedGap = 0.002
	cheapGap  = 0.005

	pricedWork = 15000 // of a first price, and of the least sodium after it
	moreWork   = 8000  // of a further price, and of the least sodium after it
	provenWork = 6000
	cheapWork  = 3000

	// wholeWork is the work of a search for which these are meant: a smaller one has
	// less of each.
	wholeWork = 200000
	// farFrom is how many times the relaxation's sodium it may be before further prices
	// are tried.
	farFrom = 1.25
)

// firstParts are the parts of the price of sodium at the end of the slack that are tried,
// moreParts those of the price where whole packs come to its end, each until a point
// within the slack is found.
var firstParts, moreParts = []float64{0.5, 0.25}, []float64{1, 0.5, 0.25}

// lean is what the search for the least sodium found: a point of the model, and what is
// proven of the sodium of all who are to have little: no point within the slack has less,
// in mg over the horizon.
type lean struct {
	x     []float64
	bound float64
}

// leanest is the point with the least sodium found, within the slack, for those who are
// to have little: it goes before whatever else the slack may bring, since too much of it
// harms them. With s the sodium and c the first aim, s under a most of c leaves whole
// packs little room. So the search begins with
//
//	min c + w·s
//
// with w a part of what the relaxation pays for a mg less at the end of the slack, and
// goes on from what that finds, or from x, to the least s within the slack; where that
// stays far from the relaxation, again with w from where whole packs come to the end of
// the slack; at last over all foods, so that the bound is one of the whole. nil where
// there is nothing to seek.
func (p *program) leanest(ctx context.Context, x []float64, most float64) *lean {
	if len(p.sodium) == 0 {
		return nil
	}
	m := p.model
	mg := make([]float64, len(m.Cols)) // of all who are to have little, per unit of a column
	for _, r := range p.sodium {
		for k, j := range r.cols {
			mg[j] += r.count * r.mg[k]
		}
	}
	x = slices.Clone(x[:len(m.Cols)])
	take := func(y []float64) bool {
		if y == nil || m.ValueOf(y) > most || p.sodiumAt(y) > p.sodiumAt(x) {
			return false
		}
		x = slices.Clone(y[:len(m.Cols)])
		return true
	}
	scale := math.Min(1, float64(search.Work(m))/wholeWork)
	options := func(gap, unit, work float64) search.Options {
		return search.Options{Gap: gap, MinDenom: unit, Work: int64(scale * work), Start: x}
	}
	step := ration.SmallestStep(m.Request.Least)
	least := p.leastSodium(mg, most)
	seek := func(price float64, parts []float64, work float64) {
		for _, part := range parts {
			q := m.CopyProblem()
			for j := range q.Cols {
				q.Cols[j].Cost += part * price * mg[j]
			}
			if price == 0 || take(search.RestrictedSearch(ctx, m, q, options(pricedGap, step, work)).X) {
				break
			}
		}
		take(search.RestrictedSearch(ctx, m, least, options(leanGap, 1, work)).X)
	}
	price, bound := pricePerMg(ctx, least)
	seek(price, firstParts, pricedWork)
	if p.sodiumAt(x) > farFrom*bound {
		price, _ = pricePerMg(ctx, p.leastSodium(mg, most-wholePacks(ctx, p)))
		seek(price, moreParts, moreWork)
	}
	found := search.Run(ctx, least, options(leanGap, 1, provenWork))
	take(found.X)
	if found.Status == search.Optimal || found.Status == search.Limit {
		bound = math.Max(bound, found.Bound)
	}
	take(sameSodium(ctx, p, x)) // what is saved is there for the rest
	p.keepSodium(x)
	return &lean{x, math.Max(0, bound)}
}

// wholePacks is what whole packs cost more than the relaxation of the first aim.
func wholePacks(ctx context.Context, p *program) float64 {
	lp, err := search.Relax(p.model.CopyProblem())
	if err != nil {
		return 0
	}
	r := lp.Solve(ctx)
	if r.Status != simplex.Optimal {
		return 0
	}
	return math.Max(0, p.best-r.Value)
}

// sameSodium seeks the least of the first aim with no more sodium than at x.
func sameSodium(ctx context.Context, p *program, x []float64) []float64 {
	m := p.model
	q := m.CopyProblem()
	for _, r := range p.sodium {
		q.Rows[r.row].Upper = math.Min(q.Rows[r.row].Upper, r.at(x)*(1+portionTolerance))
	}
	found := search.RestrictedSearch(ctx, m, q, search.Options{Gap: cheapGap, MinDenom: ration.SmallestStep(m.Request.Least), Work: cheapWork, Start: x[:len(m.Cols)]})
	if found.X == nil {
		return x
	}
	return found.X[:len(m.Cols)]
}

// leastSodium is the model with the sodium of those who are to have little as its
// objective, and the first aim as its last row, most at most.
func (p *program) leastSodium(mg []float64, most float64) *linear.Problem {
	q := p.model.CopyProblem()
	row := q.AddRow("slack", math.Inf(-1), most)
	for j := range q.Cols {
		if c := q.Cols[j].Cost; c != 0 {
			q.Set(row, j, c)
		}
		q.Cols[j].Cost = mg[j]
		q.Cols[j].Entries = model.Merged(q.Cols[j].Entries)
	}
	return q
}

// pricePerMg is what the relaxation of [program.leastSodium] pays, in the first aim, for a
// mg less, and what it proves of the sodium; 0 and −∞ where it is not solved.
func pricePerMg(ctx context.Context, least *linear.Problem) (price, bound float64) {
	lp, err := search.Relax(least)
	if err != nil {
		return 0, math.Inf(-1)
	}
	result := lp.Solve(ctx)
	if result.Status != simplex.Optimal || !result.HasBound {
		return 0, math.Inf(-1)
	}
	if row := len(least.Rows) - 1; result.Dual[row] < 0 {
		price = -1 / result.Dual[row]
	}
	return price, result.Bound
}

// sodiumAt is that of all who are to have little.
func (p *program) sodiumAt(x []float64) float64 {
	total := 0.0
	for k := range p.sodium {
		total += p.sodium[k].count * p.sodium[k].at(x)
	}
	return total
}

// keepSodium keeps the sodium of x, so that nothing else takes back what less of it
// was paid for.
func (p *program) keepSodium(x []float64) {
	for k := range p.sodium {
		r := &p.sodium[k]
		r.most = math.Min(p.model.Problem.Rows[r.row].Upper, keptSodium*r.at(x))
	}
}

// keptSodium is how far sodium may go up again for the sake of other things: a little,
// so that a move is not barred by what one food more of a sort holds.
const keptSodium = 1.02

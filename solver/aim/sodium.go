package aim

import (
	"context"
	"math"

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

// Limits of the search for whole packs with less sodium.
const (
	leanGap  = 0.02
	leanWork = 15000 // simplex iterations
)

// leanParts are the parts of the price of sodium that are tried, until a point within the
// slack is found.
var leanParts = []float64{0.5, 0.25}

// leanest is the point with the least sodium found, within the slack, for those who are
// to have little. With s the sodium and c the first aim, s under a most of c leaves whole
// packs little room; so the search begins with
//
//	min c + w·s
//
// with w a part of what the relaxation at the end of the slack pays for a mg less, and
// goes on from what that finds, or from x, to the least s within the slack. Neither way
// alone ends well on every household. nil where there is nothing to seek.
func (p *program) leanest(ctx context.Context, x []float64, most float64) []float64 {
	if len(p.sodium) == 0 || p.perMgSodium() == 0 {
		return nil
	}
	m := p.model
	mg := make([]float64, len(m.Cols)) // of all who are to have little, per unit of a column
	for _, r := range p.sodium {
		for k, j := range r.cols {
			mg[j] += r.count * r.mg[k]
		}
	}
	step := ration.SmallestStep(m.Request.Least)
	seek := func(q *linear.Problem, gap, unit float64) bool {
		found := search.RestrictedSearch(ctx, m, q, search.Options{Gap: gap, MinDenom: unit, Work: leanWork, Start: x})
		if found.X == nil || m.ValueOf(found.X) > most || p.sodiumAt(found.X) > p.sodiumAt(x)*keptSodium {
			return false
		}
		x = found.X[:len(m.Cols)]
		return true
	}
	least := p.leastSodium(mg, most)
	if price := pricePerMg(ctx, least); price > 0 {
		for _, part := range leanParts {
			q := m.CopyProblem()
			for j := range q.Cols {
				q.Cols[j].Cost += part * price * mg[j]
			}
			if seek(q, leanGap/10, step) {
				break
			}
		}
	}
	seek(least, leanGap, 1)
	p.keepSodium(x)
	cheap := m.CopyProblem() // the same sodium for less: what is saved is there for the rest
	for _, r := range p.sodium {
		cheap.Rows[r.row].Upper = r.most
	}
	seek(cheap, leanGap/4, step)
	return x
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
// mg less; 0 where it pays nothing or is not solved.
func pricePerMg(ctx context.Context, least *linear.Problem) float64 {
	lp, err := search.Relax(least)
	if err != nil {
		return 0
	}
	result := lp.Solve(ctx)
	if row := len(least.Rows) - 1; result.Status == simplex.Optimal && result.Dual[row] < 0 {
		return -1 / result.Dual[row]
	}
	return 0
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

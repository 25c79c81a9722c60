package aim

import (
	"context"
	"math"

	"rationwright/nutrients"
	"rationwright/solver/branch"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
	"rationwright/solver/search"
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

// leanest is the point with the least sodium found, within the slack, for
// those who are to have little: the first aim's own search with their ceilings lowered
// together. nil where there is none such or none is found.
func (p *program) leanest(ctx context.Context, x []float64, most float64) []float64 {
	rows := p.sodium // keeps what is reached
	if len(rows) == 0 || p.perMgSodium() == 0 {
		return nil
	}
	m := p.model
	for _, part := range leanParts {
		q := m.CopyProblem()
		row := q.AddRow("slack", math.Inf(-1), p.best+part*(most-p.best))
		for j := range q.Cols {
			if c := q.Cols[j].Cost; c != 0 {
				q.Set(row, j, c)
			}
			q.Cols[j].Cost = 0
		}
		for _, r := range rows {
			for k, j := range r.cols {
				q.Cols[j].Cost += r.count * r.mg[k]
			}
		}
		found := search.RestrictedSearch(ctx, m, q, branch.Options{Gap: leanGap, MinDenom: 1, Work: leanWork, Start: x})
		if found.X != nil && p.sodiumAt(found.X) < p.sodiumAt(x) {
			x = found.X[:len(m.Cols)]
		}
	}
	p.keepSodium(x)
	cheap := m.CopyProblem() // the same sodium for less: what is saved is there for the rest
	for _, r := range rows {
		cheap.Rows[r.row].Upper = r.most
	}
	if again := search.RestrictedSearch(ctx, m, cheap, branch.Options{Gap: leanGap / 4, MinDenom: ration.SmallestStep(m.Request.Least), Work: leanWork, Start: x}); again.X != nil {
		x = again.X[:len(m.Cols)]
	}
	return x
}

// leanParts are the parts of the slack within which less sodium is sought, one after
// the other: a search for whole packs ends better with more room, and not always.
var leanParts = []float64{0.7, 1}

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

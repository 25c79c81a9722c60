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

// Harmed reports whether somebody is to have little sodium: the second aim then begins
// with that, and needs more of the time.
func Harmed(m *model.Model) bool {
	return slices.ContainsFunc(m.Eaters, func(e *model.Eater) bool { return rules.LittleSodium(&e.Person) })
}

// sodiumRow is the row of the most sodium of somebody who is to have little.
type sodiumRow struct {
	row   int
	most  float64 // over the horizon, see [program.keepSodium]
	count float64
	mg    []linear.Entry // columns, each with what a gram counts
}

func (p *program) sodiumRows() []sodiumRow {
	var list []sodiumRow
	for i, info := range p.model.Rows {
		if info.Kind != model.RowNutrient || info.Nutrient != nutrients.Sodium || math.IsInf(p.model.Problem.Rows[i].Upper, 1) {
			continue
		}
		e := p.model.Eaters[info.Eater]
		if !rules.LittleSodium(&e.Person) {
			continue
		}
		r := sodiumRow{row: i, most: p.model.Problem.Rows[i].Upper, count: e.Count}
		for _, y := range e.Eats {
			if mg := p.model.Larder[y.Food].Food.Per100g.Known(nutrients.Sodium); mg > 0 {
				r.mg = append(r.mg, term(y.Col, mg/100))
			}
		}
		list = append(list, r)
	}
	return list
}

// at is the sodium at a point, mg over the horizon.
func (r *sodiumRow) at(x []float64) float64 { return sum(x, r.mg) }

// Allowances of sodium on the way back to within the slack, as so many times what was
// found beyond it: the first ones, then halfway between one that was too little and what
// was reached; so many in all, and none nearer to the last than allowanceStep.
var allowances = []float64{1.3, 1.7, 2.2}

const (
	crossings     = 6
	allowanceStep = 1.03
)

// sodiumPoint is what the search for the least sodium found: a point of the model, and what is
// proven of the sodium of all who are to have little: no point within the slack has less,
// in mg over the horizon.
type sodiumPoint struct {
	x     []float64
	bound float64
}

// leastSodiumPoint is the point with the least sodium found, within the slack, for those who are
// to have little: it goes before whatever else the slack may bring, since too much of it
// harms them. With s the sodium and c the first aim, c at its most leaves whole packs so
// little room that hardly a move is left from x. So the search goes round that:
//
//	min c + w·s
//
// with w a part of what the relaxation pays for a mg less where whole packs come to the end of
// the slack; from what that finds beyond the slack, the least c until it is within, with
// hardly more sodium; and from there the least s within the slack. proven is the bound of
// the first aim. nil where there is nothing to seek.
func (p *program) leastSodiumPoint(ctx context.Context, x []float64, most, proven float64) *sodiumPoint {
	if len(p.sodium) == 0 {
		return nil
	}
	m := p.model
	mg := make([]float64, len(m.Cols)) // of all who are to have little, per unit of a column
	for _, r := range p.sodium {
		for _, t := range r.mg {
			mg[t.Row] += r.count * t.Value
		}
	}
	s := &lower{program: p, x: slices.Clone(x[:len(m.Cols)]), most: most, mg: mg, scale: math.Min(1, float64(search.Work(m))/wholeWork)}
	least := p.leastSodium(mg, most)
	_, bound := pricePerMg(ctx, least)
	s.price, _ = pricePerMg(ctx, p.leastSodium(mg, most-math.Max(0, p.best-proven)))
	if s.price > 0 {
		s.comeBack(ctx, s.goBeyond(ctx))
	}
	s.take(s.seek(ctx, least, s.x, search.Options{Gap: lastGap, MinDenom: 1}, lastWork))
	s.take(s.seek(ctx, s.allowing(s.x, 1), s.x, s.cheapest(cheapGap), cheapWork)) // what is saved is there for the rest
	found := search.WithPart(ctx, provenPart, func(ctx context.Context) search.Result {
		return search.Run(ctx, least, search.Options{Gap: lastGap, MinDenom: 1, Work: int64(s.scale * provenWork), Start: s.x})
	})
	s.take(found.X)
	if found.Status == search.Optimal || found.Status == search.Limit {
		bound = math.Max(bound, found.Bound)
	}
	p.keepSodium(s.x)
	return &sodiumPoint{s.x, math.Max(0, bound)}
}

// lower is the search for less sodium.
type lower struct {
	*program
	x     []float64 // with the least found within the slack
	most  float64   // of the first aim
	mg    []float64 // of all who are to have little, per unit of a column
	price float64   // of a mg, in the unit of the first aim
	scale float64   // of the work
}

// take takes a point that is within the slack and has no more sodium.
func (s *lower) take(y []float64) bool {
	if y == nil || s.model.ValueOf(y) > s.most || s.sodiumAt(y) > s.sodiumAt(s.x) {
		return false
	}
	s.x = slices.Clone(y[:len(s.model.Cols)])
	return true
}

// seek is the best point of q found from a point, that one where none is found.
func (s *lower) seek(ctx context.Context, q *linear.Problem, from []float64, opt search.Options, work float64) []float64 {
	opt.Work, opt.Start = int64(s.scale*work), from[:len(s.model.Cols)]
	if found := search.RestrictedSearch(ctx, s.model, q, opt); found.X != nil {
		return found.X
	}
	return from
}

// cheapest are the options of a search for the least of the first aim.
func (s *lower) cheapest(gap float64) search.Options {
	return search.Options{Gap: gap, MinDenom: ration.SmallestStep(s.model.Request.Least)}
}

// goBeyond is a point with hardly more than the least sodium, mostly beyond the slack.
func (s *lower) goBeyond(ctx context.Context) []float64 {
	y := s.x
	for times := firstPrice; times <= mostPrice && s.model.ValueOf(y) <= s.most; times *= higherPrice {
		q := s.model.Problem.Clone()
		for j := range q.Cols {
			q.Cols[j].Cost += times * s.price * s.mg[j]
		}
		y = s.seek(ctx, q, y, s.cheapest(pricedGap), pricedWork)
		s.take(y)
	}
	return y
}

// comeBack seeks a point within the slack from y, beyond it, with as little more sodium
// as it can.
func (s *lower) comeBack(ctx context.Context, y []float64) {
	if s.model.ValueOf(y) <= s.most {
		return
	}
	least, little, enough := s.sodiumAt(y), 1.0, math.Inf(1)
	next := allowances
	for range crossings {
		allowed := math.Sqrt(little * math.Min(enough, s.sodiumAt(s.x)/least))
		if math.IsInf(enough, 1) && len(next) > 0 {
			allowed, next = next[0], next[1:]
		}
		if allowed*least >= s.sodiumAt(s.x) || allowed < allowanceStep*little {
			return
		}
		opt := s.cheapest(pricedGap)
		opt.Until = search.WithinOrBeyond(s.most, s.most)
		if z := s.seek(ctx, s.allowing(y, allowed*least/s.sodiumAt(y)), y, opt, crossWork); s.take(z) {
			enough = s.sodiumAt(s.x) / least
		} else {
			little, y = allowed, z
		}
	}
}

// allowing is the model with at most so many times the sodium of x.
func (s *lower) allowing(x []float64, times float64) *linear.Problem {
	q := s.model.Problem.Clone()
	for _, r := range s.sodium {
		q.Rows[r.row].Upper = math.Min(q.Rows[r.row].Upper, times*r.at(x)*(1+search.PortionTolerance))
	}
	return q
}

// leastSodium is the model with the sodium of those who are to have little as its
// objective, and the first aim as its last row, most at most.
func (p *program) leastSodium(mg []float64, most float64) *linear.Problem {
	q := p.model.Problem.Clone()
	row := q.AddRow("slack", math.Inf(-1), most)
	for j := range q.Cols {
		if c := q.Cols[j].Cost; c != 0 {
			q.Set(row, j, c)
		}
		q.Cols[j].Cost = mg[j]
	}
	model.MergeAll(q)
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

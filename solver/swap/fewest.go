package swap

import (
	"context"
	"iter"
	"math"
	"slices"

	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// fewest finds the plan with the fewest changes, at no more than spread over the
// value found so far:
//
//	minimise Σ_k |x_k − old_k|   subject to   value ≤ (1 + spread)·best
//
// over packs not of the foods that go. The relaxation of the whole program
// bounds the number from below. Searches with a price on the value, and one
// under the spread, among the foods that it finds worth it, find a plan; then
// every pack whose reduced cost lies over what a smaller
// number would leave is shut out, and what is left is searched again: its bound
// holds for the whole. The least value at that number of changes comes last.
func (w *swapSearch) fewest(ctx context.Context) {
	m := w.model
	ceiling := math.Min(w.most, w.value*(1+w.spread)) + search.ValueRoom*math.Abs(w.value)
	p := w.changesProgram(ceiling)
	w.changes = w.changesAt(w.x)
	start := w.withChanges(p, w.x)
	q, err := search.NewMaster(m, p, m.FoodsOf(w.old))
	if err != nil {
		return
	}
	result := q.Solve(ctx)
	if result.Status != simplex.Optimal || !result.HasBound {
		return
	}
	w.bound = wholeAbove(result.Bound)
	start = w.byPrice(ctx, p, result, start)
	opt := search.Options{MinDenom: 1, Work: w.work(search.SwapFewestWork), Start: start}
	found := q.SearchAmong(ctx, p, result, search.QuickFoods, opt)
	start = w.take(p, found.X, start)
	if w.bound < w.changes && float64(w.changes)-1-result.Bound < 1 {
		opt.Start, opt.Work = start, w.work(search.SwapProofWork)
		rest := w.withoutDear(p, result, float64(w.changes)-1)
		found := search.SolveSmaller(ctx, rest, opt)
		if found.Status == search.Infeasible { // nothing but the start was there, and it is shut out
			w.bound = w.changes
		} else if !math.IsInf(found.Bound, 0) {
			w.bound = max(w.bound, min(w.changes, wholeAbove(found.Bound)))
		}
		start = w.take(p, found.X, start)
	}
	w.cheapest(ctx, q, p, result, start)
}

// Prices of the value, in changes for one unit of it: from the relaxation's own,
// growing by swapPriceStep until a plan keeps the spread, then nearer to the last
// that was too low while there are swapPriceWorth more changes than the bound.
// Where the relaxation has none, all that the spread leaves is worth swapPriceLeast
// of a change.
const (
	swapPrices       = 6
	swapPriceStep    = 2
	swapPriceHalving = 1
	swapPriceWorth   = 3
	swapPriceLeast   = 0.25
)

// byPrice looks for plans with few changes that keep the spread by putting a
// price on their value in the place of the row. A plain search under the row has
// nothing to go by: most plans change equally many packs and it cannot see which
// is nearer to keeping it.
func (w *swapSearch) byPrice(ctx context.Context, p *linear.Problem, result simplex.Result, start []float64) []float64 {
	m := w.model
	ceiling := p.Rows[w.spreadRow].Upper
	price := -result.Dual[w.spreadRow]
	if room := ceiling - w.least; room > 0 && !math.IsInf(room, 1) {
		price = math.Max(price, swapPriceLeast/room)
	}
	var last []float64 // the best point at the price before, where the next goes on
	at := func(price float64) []float64 {
		found := w.atPrice(ctx, p, price, last)
		if found == nil {
			return nil
		}
		if m.ValueOf(found) <= ceiling {
			start = w.take(p, found, start)
		} else {
			last = found
		}
		return found
	}
	low := price
	for range swapPrices {
		found := at(price)
		if found == nil {
			return start
		}
		if m.ValueOf(found) <= ceiling {
			break
		}
		low = price
		price *= swapPriceStep
	}
	for range swapPriceHalving {
		if price <= low || w.changes <= w.bound+swapPriceWorth {
			break
		}
		middle := math.Sqrt(low * price)
		found := at(middle)
		switch {
		case found == nil:
			return start
		case m.ValueOf(found) <= ceiling:
			price = middle
		default:
			low = middle
		}
	}
	return start
}

// atPrice searches with a price on the value, from the better of a dive and last;
// nil where nothing is found.
func (w *swapSearch) atPrice(ctx context.Context, p *linear.Problem, price float64, last []float64) []float64 {
	m := w.model
	priced := p.Clone()
	priced.Rows[w.spreadRow].Upper = math.Inf(1)
	for j := range m.Cols {
		priced.Cols[j].Cost += price * m.Problem.Cols[j].Cost
	}
	q, err := search.NewMaster(m, priced, m.FoodsOf(w.old))
	if err != nil || ctx.Err() != nil {
		return nil
	}
	result := q.Solve(ctx)
	if result.Status != simplex.Optimal {
		return nil
	}
	if dived := q.LP.DiveUp(ctx); dived != nil && (last == nil || priced.CostAt(dived) < priced.CostAt(last)) {
		last = dived
	}
	return q.SearchAmong(ctx, priced, result, search.QuickFoods, search.Options{
		Gap: search.SwapPriceGap, MinDenom: 1, Work: w.work(search.SwapPriceWork), Start: last,
	}).X
}

// wholeAbove is the least whole number that a bound leaves.
func wholeAbove(bound float64) int { return int(math.Max(0, math.Ceil(bound-search.ChosenTolerance))) }

// changesProgram is the ration program with the number of changes as its
// objective: packs new to the plan count one each, those of the old plan by
// columns of how many more and fewer, x_k − up_k + down_k = old_k.
func (w *swapSearch) changesProgram(ceiling float64) *linear.Problem {
	m := w.model
	p := m.Problem.Clone()
	row := p.AddRow("spread", math.Inf(-1), ceiling)
	w.spreadRow = row
	heads := 0.0
	for _, e := range append(slices.Clone(m.Eaters), m.Refused...) {
		heads += e.Count
	}
	for j := range m.Cols {
		p.Cols[j].Upper = math.Min(p.Cols[j].Upper, search.PlentyADay*m.Days()*(heads+float64(m.Request.Pets)))
		p.Set(row, j, p.Cols[j].Cost)
		p.Cols[j].Cost = 0
	}
	for k, was := range w.counted() {
		if was == 0 {
			p.Cols[k.Col].Cost = 1
			continue
		}
		row := p.AddRow("change["+k.Pack.Key+"]", was, was)
		up := p.AddCol("up["+k.Pack.Key+"]", 1, 0, math.Max(0, p.Cols[k.Col].Upper-was), true)
		down := p.AddCol("down["+k.Pack.Key+"]", 1, 0, was, true)
		p.Set(row, k.Col, 1)
		p.Set(row, up, -1)
		p.Set(row, down, 1)
	}
	return p
}

// counted are the packs whose changes count, each with how many were bought before.
func (w *swapSearch) counted() iter.Seq2[model.PackCol, float64] {
	return func(yield func(model.PackCol, float64) bool) {
		bought := w.old.Bought()
		for _, lf := range w.model.Larder {
			for _, k := range lf.Buy {
				if !w.touched[lf.Food] && !yield(k, float64(bought[k.Pack.Key])) {
					return
				}
			}
		}
	}
}

// changesAt counts the changes at a point.
func (w *swapSearch) changesAt(x []float64) int {
	n := 0.0
	for k, was := range w.counted() {
		n += math.Abs(math.Round(x[k.Col]) - was)
	}
	return int(n)
}

// withChanges extends a point of the ration by the columns of changes.
func (w *swapSearch) withChanges(p *linear.Problem, x []float64) []float64 {
	full := make([]float64, len(p.Cols))
	copy(full, x)
	j := len(w.model.Cols)
	for k, was := range w.counted() {
		if was == 0 {
			continue
		}
		full[j] = math.Max(0, math.Round(x[k.Col])-was)
		full[j+1] = math.Max(0, was-math.Round(x[k.Col]))
		j += 2
	}
	return full
}

// take keeps a point that changes no more packs than the best so far.
func (w *swapSearch) take(p *linear.Problem, x, start []float64) []float64 {
	if x == nil {
		return start
	}
	if n := w.changesAt(x); n <= w.changes {
		w.changes = n
		w.x = x[:len(w.model.Cols)]
		return w.withChanges(p, w.x)
	}
	return start
}

// withoutDear is p without the packs that no plan of at most most changes buys:
// with one of them the relaxation alone comes to more.
func (w *swapSearch) withoutDear(p *linear.Problem, result simplex.Result, most float64) *linear.Problem {
	rest := p.Clone()
	for j := range w.model.Cols {
		c := &rest.Cols[j]
		if c.Integer && c.Lower == 0 && result.X[j] <= search.ChosenTolerance && result.Reduced[j] > most-result.Bound+search.ChosenTolerance {
			c.Upper = 0
		}
	}
	w.model.CloseEmpty(rest)
	return rest
}

// cheapest looks for the least value at that number of changes.
func (w *swapSearch) cheapest(ctx context.Context, q *search.Master, p *linear.Problem, result simplex.Result, start []float64) {
	m := w.model
	p = p.Clone()
	row := p.AddRow("changes", math.Inf(-1), float64(w.changes))
	for j := range p.Cols {
		p.Set(row, j, p.Cols[j].Cost)
		p.Cols[j].Cost = 0
		if j < len(m.Cols) {
			p.Cols[j].Cost = m.Problem.Cols[j].Cost
		}
	}
	found := q.SearchAmong(ctx, p, result, search.QuickFoods, search.Options{
		Gap: m.Request.Within, MinDenom: ration.SmallestStep(m.Request.Least), Work: w.work(search.SwapLeastWork), Start: start,
	})
	if found.X != nil && m.ValueOf(found.X) <= m.ValueOf(w.x) {
		w.x = found.X[:len(m.Cols)]
	}
}

package solver

import (
	"context"
	"math"
	"slices"

	"rationwright/solver/branch"
	"rationwright/solver/linear"
	"rationwright/solver/ration"
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
	r := w.ration
	ceiling := math.Min(w.most, w.value*(1+w.spread)) + polishSlack*math.Abs(w.value)
	p := w.changesProgram(ceiling)
	w.changes = w.changesAt(w.x)
	start := w.withChanges(p, w.x)
	q, err := r.newPriced(p, r.foodsOf(w.old))
	if err != nil {
		return
	}
	result := q.solve(ctx)
	if result.Status != simplex.Optimal || !result.HasBound {
		return
	}
	w.bound = wholeAbove(result.Bound)
	start = w.byPrice(ctx, p, result, start)
	opt := branch.Options{Gap: branch.DefaultGap, MinDenom: 1, Work: w.work(swapFewestWork), Time: r.Request.Time, Start: start}
	found := q.search(ctx, p, result, quickFoods, opt)
	start = w.take(p, found.X, start)
	if w.bound < w.changes && float64(w.changes)-1-result.Bound < 1 {
		opt.Start, opt.Work = start, w.work(swapProofWork)
		rest := w.withoutDear(p, result, float64(w.changes)-1)
		found := searchSlim(ctx, rest, opt)
		if found.Status == branch.Infeasible { // nothing but the start was there, and it is shut out
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
	swapPriceGap     = 1e-3
)

// byPrice looks for plans with few changes that keep the spread by putting a
// price on their value in the place of the row. A plain search under the row has
// nothing to go by: most plans change equally many packs and it cannot see which
// is nearer to keeping it.
func (w *swapSearch) byPrice(ctx context.Context, p *linear.Problem, result simplex.Result, start []float64) []float64 {
	r := w.ration
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
		if r.valueOf(found) <= ceiling {
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
		if r.valueOf(found) <= ceiling {
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
		case r.valueOf(found) <= ceiling:
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
	r := w.ration
	priced := p.Clone()
	priced.Rows[w.spreadRow].Upper = math.Inf(1)
	for j := range r.cols {
		priced.Cols[j].Cost += price * r.Problem.Cols[j].Cost
	}
	q, err := r.newPriced(priced, r.foodsOf(w.old))
	if err != nil || ctx.Err() != nil {
		return nil
	}
	result := q.solve(ctx)
	if result.Status != simplex.Optimal {
		return nil
	}
	if dived := q.relaxed.diveUp(ctx); dived != nil && (last == nil || q.costOf(dived) < q.costOf(last)) {
		last = dived
	}
	return q.search(ctx, priced, result, quickFoods, branch.Options{
		Gap: swapPriceGap, MinDenom: 1, Work: w.work(swapPriceWork), Time: r.Request.Time, Start: last,
	}).X
}

// wholeAbove is the least whole number that a bound leaves.
func wholeAbove(bound float64) int { return int(math.Max(0, math.Ceil(bound-chosenTolerance))) }

// plentyADay bounds columns that have no bound of their own, in litres, MJ or
// containers per head and day: far over any ration's, and small enough for the
// relaxation's bound to hold where a reduced cost is a billionth off.
const plentyADay = 1000

// changesProgram is the ration program with the number of changes as its
// objective: packs new to the plan count one each, those of the old plan by
// columns of how many more and fewer, x_k − up_k + down_k = old_k.
func (w *swapSearch) changesProgram(ceiling float64) *linear.Problem {
	r := w.ration
	p := r.copyProblem()
	row := p.AddRow("spread", math.Inf(-1), ceiling)
	w.spreadRow = row
	heads := 0.0
	for _, e := range append(slices.Clone(r.eaters), r.refused...) {
		heads += e.count
	}
	for j := range r.cols {
		p.Cols[j].Upper = math.Min(p.Cols[j].Upper, plentyADay*r.days()*(heads+float64(r.Request.Pets)))
		p.Set(row, j, p.Cols[j].Cost)
		p.Cols[j].Cost = 0
	}
	bought := boughtOf(w.old)
	for _, lf := range r.larder {
		if w.touched[lf.food] {
			continue
		}
		for _, k := range lf.buy {
			was := float64(bought[k.pack.Key])
			if was == 0 {
				p.Cols[k.col].Cost = 1
				continue
			}
			row := p.AddRow("change["+k.pack.Key+"]", was, was)
			up := p.AddCol("up["+k.pack.Key+"]", 1, 0, math.Max(0, p.Cols[k.col].Upper-was), true)
			down := p.AddCol("down["+k.pack.Key+"]", 1, 0, was, true)
			p.Set(row, k.col, 1)
			p.Set(row, up, -1)
			p.Set(row, down, 1)
		}
	}
	return p
}

// changesAt counts the changes at a point.
func (w *swapSearch) changesAt(x []float64) int {
	bought, n := boughtOf(w.old), 0.0
	for _, lf := range w.ration.larder {
		if w.touched[lf.food] {
			continue
		}
		for _, k := range lf.buy {
			n += math.Abs(math.Round(x[k.col]) - float64(bought[k.pack.Key]))
		}
	}
	return int(n)
}

// withChanges extends a point of the ration by the columns of changes.
func (w *swapSearch) withChanges(p *linear.Problem, x []float64) []float64 {
	full := make([]float64, len(p.Cols))
	copy(full, x)
	bought := boughtOf(w.old)
	j := len(w.ration.cols)
	for _, lf := range w.ration.larder {
		if w.touched[lf.food] {
			continue
		}
		for _, k := range lf.buy {
			was := float64(bought[k.pack.Key])
			if was == 0 {
				continue
			}
			full[j] = math.Max(0, math.Round(x[k.col])-was)
			full[j+1] = math.Max(0, was-math.Round(x[k.col]))
			j += 2
		}
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
		w.x = x[:len(w.ration.cols)]
		return w.withChanges(p, w.x)
	}
	return start
}

// withoutDear is p without the packs that no plan of at most most changes buys:
// with one of them the relaxation alone comes to more.
func (w *swapSearch) withoutDear(p *linear.Problem, result simplex.Result, most float64) *linear.Problem {
	rest := p.Clone()
	for j := range w.ration.cols {
		c := &rest.Cols[j]
		if c.Integer && c.Lower == 0 && result.X[j] <= chosenTolerance && result.Reduced[j] > most-result.Bound+chosenTolerance {
			c.Upper = 0
		}
	}
	w.ration.closeEmpty(rest)
	return rest
}

// cheapest looks for the least value at that number of changes.
func (w *swapSearch) cheapest(ctx context.Context, q *priced, p *linear.Problem, result simplex.Result, start []float64) {
	r := w.ration
	p = p.Clone()
	row := p.AddRow("changes", math.Inf(-1), float64(w.changes))
	for j := range p.Cols {
		p.Set(row, j, p.Cols[j].Cost)
		p.Cols[j].Cost = 0
		if j < len(r.cols) {
			p.Cols[j].Cost = r.Problem.Cols[j].Cost
		}
	}
	found := q.search(ctx, p, result, quickFoods, branch.Options{
		Gap: r.Request.Within, MinDenom: ration.SmallestStep(r.Request.Least), Work: w.work(swapLeastWork), Time: r.Request.Time, Start: start,
	})
	if found.X != nil && r.valueOf(found.X) <= r.valueOf(w.x) {
		w.x = found.X[:len(r.cols)]
	}
}

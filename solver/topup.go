package solver

import (
	"cmp"
	"context"
	"math"
	"slices"

	"rationwright/solver/branch"
	"rationwright/solver/linear"
	"rationwright/solver/ration"
	"rationwright/solver/simplex"
)

// Buy is one line of the completing shopping list: packs, or whole litres of water
// and MJ of heat where the stock list counts them.
type Buy struct {
	Pack    string  `json:"pack"`
	Food    string  `json:"food"`
	Count   int     `json:"count"`
	Cost    float64 `json:"cost"`
	Reserve bool    `json:"reserve,omitempty"` // set aside, never ration
}

// complete finds the cheapest purchase that completes the stock: nothing where
// the stock is balanced by itself, else a plan with the stock and the shop
// together at least cost.
func (out *StockCheck) complete(ctx context.Context, req *ration.Request, alone *Ration, progress func(Progress)) error {
	both := *req
	both.Least = ration.LeastCost
	if out.Balanced {
		both.StockOnly = true
		both.Limits = alone.Request.Limits
	}
	r, err := Build(&both)
	if err != nil {
		return err
	}
	plan, err := r.completed(ctx, progress)
	if err != nil {
		return err
	}
	out.Cautions = plan.Cautions
	out.TopUp = plan
	if plan.Totals == nil {
		return nil
	}
	cost := 0.0
	for _, line := range plan.Packs {
		if n := line.Count - line.FromStock; n > 0 {
			out.Buy = append(out.Buy, Buy{Pack: line.Pack, Food: line.Food, Count: n, Cost: line.Cost, Reserve: line.Reserve})
			cost += line.Cost
		}
	}
	for _, more := range []struct {
		pack, name string
		onHand     *float64
		amount     float64
		price      float64
	}{
		{"water", "stored water, litres", req.StockWaterL, plan.Totals.WaterL - plan.Totals.OwnWaterL, r.supplies.water.Cost},
		{"heat", "useful heat for cooking, MJ", req.StockHeatMJ, plan.Totals.HeatMJ - plan.Totals.OwnHeatMJ, r.supplies.heat.Cost},
	} {
		if n := math.Ceil(more.amount - shortTolerance); more.onHand != nil && n > 0 {
			out.Buy = append(out.Buy, Buy{Pack: more.pack, Food: more.name, Count: int(n), Cost: n * more.price})
			cost += n * more.price
		}
	}
	out.BuyCost = &cost
	out.WaterNeededL = plan.Totals.WaterL
	out.HeatNeededMJ = plan.Totals.HeatMJ
	return nil
}

// completed makes the plan of a stock check: like [Ration.make], but what is
// bought is looked over once more for what the stock gives already. Where the
// request is brief, or limits the work, a quick search among the foods that the
// relaxation finds worth it comes first, and one of the whole betters it and
// proves how good it is.
func (r *Ration) completed(ctx context.Context, progress func(Progress)) (*ration.Plan, error) {
	if !r.Request.Brief && r.Request.Work == 0 || len(r.eaters) == 0 {
		return r.makeWith(ctx, progress, func(ctx context.Context, x []float64) []float64 { return r.withoutNeedless(ctx, x) })
	}
	opt := r.options(progress, r.underLimits(ctx, false))
	opt.Work = r.work() / 2
	found := r.quickly(ctx, r.Problem, opt)
	if found.X == nil {
		return r.makeWith(ctx, progress, func(ctx context.Context, x []float64) []float64 { return r.withoutNeedless(ctx, x) })
	}
	if ration.GapOf(found.Value, found.Bound, opt.MinDenom) > opt.Gap {
		opt.Start = found.X
		if more := branch.Solve(ctx, r.Problem, opt); more.X != nil {
			more.Bound = math.Max(more.Bound, found.Bound)
			found = more
		}
	}
	return r.finish(ctx, r.withoutNeedless(ctx, found.X), found, nil)
}

// withoutNeedless uses all of the stock and takes bought packs away, the
// dearest first, for as long as the needs are met without them and at no higher
// value.
func (r *Ration) withoutNeedless(ctx context.Context, x []float64) []float64 {
	p := r.copyProblem()
	r.fixPacks(p, x)
	var bought []packCol
	for _, lf := range r.larder {
		for _, k := range lf.stock {
			most := r.Problem.Cols[k.col].Upper
			for _, aside := range lf.reserve {
				if aside.line == k.line {
					most = math.Min(most, math.Floor(r.Request.Stock[k.line].Count)-math.Round(x[aside.col]))
				}
			}
			p.Cols[k.col].Lower, p.Cols[k.col].Upper = most, most
			if r.hasTotals() { // which stock weighs on as well
				p.Cols[k.col].Lower = 0
			}
		}
		for _, k := range append(slices.Clone(lf.buy), lf.reserve...) {
			if k.line < 0 && math.Round(x[k.col]) > 0 {
				bought = append(bought, k)
			}
		}
	}
	slices.SortStableFunc(bought, func(a, b packCol) int {
		return cmp.Compare(r.Problem.Cols[b.col].Cost, r.Problem.Cols[a.col].Cost)
	})
	value := r.valueOf(x) + polishSlack*math.Abs(r.valueOf(x))
	r.closeEmpty(p)
	if less := r.dropNeedless(ctx, p, bought, value); less != nil {
		x = less
	}
	return r.lightest(ctx, p, x, value)
}

// dropNeedless takes bought packs of p away, one at a time, while a point of no
// more than value is left: the bounds of p end at what stays. It returns the last
// point, nil where none went. Where all packs are fixed each try is a relaxation,
// from the basis of the last.
func (r *Ration) dropNeedless(ctx context.Context, p *linear.Problem, bought []packCol, value float64) []float64 {
	moved := func(packCol) {}
	fits := func() bool {
		found := r.fill(ctx, p)
		return found != nil && r.valueOf(found) <= value
	}
	if !r.hasTotals() {
		in := make([]bool, len(r.larder))
		for li, lf := range r.larder {
			for _, k := range lf.supply() {
				in[li] = in[li] || p.Cols[k.col].Upper > 0
			}
		}
		q, err := r.newPriced(p, in)
		if err != nil {
			return nil
		}
		moved = func(k packCol) { q.relaxed.setBounds(k.col, p.Cols[k.col].Lower, p.Cols[k.col].Upper) }
		fits = func() bool {
			result := q.relaxed.solve(ctx)
			return result.Status == simplex.Optimal && result.Value <= value
		}
	}
	gone := false
	for _, k := range bought {
		for p.Cols[k.col].Upper > 0 && ctx.Err() == nil {
			p.Cols[k.col].Lower--
			p.Cols[k.col].Upper--
			moved(k)
			if fits() {
				gone = true
				continue
			}
			p.Cols[k.col].Lower++
			p.Cols[k.col].Upper++
			moved(k)
			break
		}
	}
	if !gone {
		return nil
	}
	return r.fill(ctx, p)
}

// lightest takes no more from stock than needed: of the points of p that cost no
// more than value, the lightest.
func (r *Ration) lightest(ctx context.Context, p *linear.Problem, x []float64, value float64) []float64 {
	for _, lf := range r.larder {
		for _, k := range lf.stock {
			p.Cols[k.col].Lower = 0
		}
	}
	row := p.AddRow("value", math.Inf(-1), value)
	for j := range r.cols {
		p.Set(row, j, p.Cols[j].Cost)
		p.Cols[j].Cost = r.coefficient(j, ration.LeastWeight)
	}
	if found := r.fill(ctx, p); found != nil {
		return found
	}
	return x
}

// fill finds the best point of p, whose bought packs are fixed; nil when there
// is none.
func (r *Ration) fill(ctx context.Context, p *linear.Problem) []float64 {
	s := newSlim(p)
	result := branch.Solve(ctx, s.problem, branch.Options{Gap: polishGap, MinDenom: ration.SmallestStep(r.Request.Least), Work: polishWork})
	if result.X == nil {
		return nil
	}
	return s.wide(result.X)
}

// valueOf is the plan's own objective at x, which may have more columns.
func (r *Ration) valueOf(x []float64) float64 {
	value := 0.0
	for j := range r.cols {
		value += r.Problem.Cols[j].Cost * x[j]
	}
	return value
}

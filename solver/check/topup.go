package check

import (
	"cmp"
	"context"
	"errors"
	"math"
	"slices"

	"rationwright/solver/answer"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
	"rationwright/solver/search"
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
func (out *StockCheck) complete(ctx context.Context, req *ration.Request, alone *model.Model, progress func(search.Progress)) error {
	both := *req
	both.Least = ration.LeastCost
	if out.Balanced {
		both.StockOnly = true
		both.Limits = alone.Request.Limits
	}
	m, err := model.Build(&both)
	if err != nil {
		return err
	}
	plan, err := completed(ctx, m, progress)
	if errors.Is(err, ration.ErrNoPlan) && !search.Interrupted(ctx) {
		out.Unsettled = append(out.Unsettled, "what completes it")
		out.Cautions = answer.Cautions(m, answer.EmptyPlan(m))
		return nil
	}
	if err != nil {
		return err
	}
	out.Cautions = plan.Cautions
	out.TopUp = plan
	if plan.Totals == nil {
		return nil
	}
	cost := 0.0
	for _, line := range purchases(req, plan, m.Supplies) {
		out.Buy = append(out.Buy, line)
		cost += line.Cost
	}
	out.BuyCost = &cost
	out.WaterNeededL = plan.Totals.WaterL
	out.HeatNeededMJ = plan.Totals.HeatMJ
	return nil
}

// purchases are the packs of a plan that are not in stock, and the water and heat that it
// takes beyond what is on hand, where the stock list counts them.
func purchases(req *ration.Request, plan *ration.Plan, supplies rules.Supplies) []Buy {
	var list []Buy
	for _, line := range plan.Packs {
		if n := line.Count - line.FromStock; n > 0 {
			list = append(list, Buy{Pack: line.Pack, Food: line.Food, Count: n, Cost: line.Cost, Reserve: line.Reserve})
		}
	}
	for _, more := range []struct {
		pack, name string
		onHand     *float64
		amount     float64
		price      float64
	}{
		{"water", "stored water, litres", req.StockWaterL, plan.Totals.WaterL - plan.Totals.OwnWaterL, supplies.Water.Cost},
		{"heat", "useful heat for cooking, MJ", req.StockHeatMJ, plan.Totals.HeatMJ - plan.Totals.OwnHeatMJ, supplies.Heat.Cost},
	} {
		if n := math.Ceil(more.amount - search.ShortTolerance); more.onHand != nil && n > 0 {
			list = append(list, Buy{Pack: more.pack, Food: more.name, Count: int(n), Cost: n * more.price})
		}
	}
	return list
}

// completed makes the plan of a stock check: like [Ration.make], but what is
// bought is looked over once more for what the stock gives already. Where the
// request is brief, or limits the work, a quick search among the foods that the
// relaxation finds worth it comes first, and one of the whole betters it and
// proves how good it is.
func completed(ctx context.Context, m *model.Model, progress func(search.Progress)) (*ration.Plan, error) {
	if m.Request.Effort == 0 && m.Request.Work == 0 || len(m.Eaters) == 0 {
		return plan.MakeModelWith(ctx, m, progress, nil, withoutNeedless)
	}
	start, _ := search.UnderLimits(ctx, m, false)
	opt := search.OptionsOf(m, progress, start)
	opt.Work = search.Work(m) / 2
	found := search.WithPart(ctx, search.QuickPart, func(ctx context.Context) search.Result { return search.RestrictedSearch(ctx, m, m.Problem, opt) })
	if found.X == nil {
		return plan.MakeModelWith(ctx, m, progress, nil, withoutNeedless)
	}
	if ration.GapOf(found.Value, found.Bound, opt.MinDenom) > opt.Gap {
		opt.Start = found.X
		if more := search.WithPart(ctx, search.QuickPart, func(ctx context.Context) search.Result { return search.Run(ctx, m.Problem, opt) }); more.X != nil {
			more.Bound = math.Max(more.Bound, found.Bound)
			found = more
		}
	}
	return answer.Finish(ctx, m, withoutNeedless(ctx, m, found.X), found, nil)
}

// withoutNeedless uses all of the stock and takes bought packs away, the
// dearest first, for as long as the needs are met without them and at no higher
// value.
func withoutNeedless(ctx context.Context, m *model.Model, x []float64) []float64 {
	p := m.Problem.Clone()
	m.FixPacks(p, x)
	var bought []model.PackCol
	for _, lf := range m.Larder {
		for _, k := range lf.Stock {
			most := m.Problem.Cols[k.Col].Upper
			for _, aside := range lf.Reserve {
				if aside.Line == k.Line {
					most = math.Min(most, math.Floor(m.Request.Stock[k.Line].Count)-math.Round(x[aside.Col]))
				}
			}
			p.Cols[k.Col].Lower, p.Cols[k.Col].Upper = most, most
			if m.HasTotals() { // which stock weighs on as well
				p.Cols[k.Col].Lower = 0
			}
		}
		for _, k := range append(slices.Clone(lf.Buy), lf.Reserve...) {
			if k.Line < 0 && math.Round(x[k.Col]) > 0 {
				bought = append(bought, k)
			}
		}
	}
	slices.SortStableFunc(bought, func(a, b model.PackCol) int {
		return cmp.Compare(m.Problem.Cols[b.Col].Cost, m.Problem.Cols[a.Col].Cost)
	})
	value := m.ValueOf(x) + search.ValueRoom*math.Abs(m.ValueOf(x))
	m.CloseEmpty(p)
	if less := dropNeedless(ctx, m, p, bought, value); less != nil {
		x = less
	}
	return lightest(ctx, m, p, x, value)
}

// dropNeedless takes bought packs of p away, one at a time, while a point of no
// more than value is left: the bounds of p end at what stays. It returns the last
// point, nil where none went. Where all packs are fixed each try is a relaxation,
// from the basis of the last.
func dropNeedless(ctx context.Context, m *model.Model, p *linear.Problem, bought []model.PackCol, value float64) []float64 {
	moved := func(model.PackCol) {}
	fits := func() bool {
		found := search.Fill(ctx, m, p)
		return found != nil && m.ValueOf(found) <= value
	}
	if !m.HasTotals() {
		in := make([]bool, len(m.Larder))
		for li, lf := range m.Larder {
			for _, k := range lf.Supply() {
				in[li] = in[li] || p.Cols[k.Col].Upper > 0
			}
		}
		q, err := search.NewMaster(m, p, in)
		if err != nil {
			return nil
		}
		moved = func(k model.PackCol) { q.LP.SetBounds(k.Col, p.Cols[k.Col].Lower, p.Cols[k.Col].Upper) }
		fits = func() bool {
			result := q.LP.Solve(ctx)
			return result.Status == simplex.Optimal && result.Value <= value
		}
	}
	gone := false
	for _, k := range bought {
		for p.Cols[k.Col].Upper > 0 && ctx.Err() == nil {
			p.Cols[k.Col].Lower--
			p.Cols[k.Col].Upper--
			moved(k)
			if fits() {
				gone = true
				continue
			}
			p.Cols[k.Col].Lower++
			p.Cols[k.Col].Upper++
			moved(k)
			break
		}
	}
	if !gone {
		return nil
	}
	return search.Fill(ctx, m, p)
}

// lightest takes no more from stock than needed: of the points of p that cost no
// more than value, the lightest.
func lightest(ctx context.Context, m *model.Model, p *linear.Problem, x []float64, value float64) []float64 {
	for _, lf := range m.Larder {
		for _, k := range lf.Stock {
			p.Cols[k.Col].Lower = 0
		}
	}
	row := p.AddRow("value", math.Inf(-1), value)
	for j := range m.Cols {
		p.Set(row, j, p.Cols[j].Cost)
		p.Cols[j].Cost = m.Coefficient(j, ration.LeastWeight)
	}
	if found := search.Fill(ctx, m, p); found != nil {
		return found
	}
	return x
}

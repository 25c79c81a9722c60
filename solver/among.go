package solver

import (
	"cmp"
	"context"
	"math"
	"slices"

	"rationwright/solver/branch"
	"rationwright/solver/linear"
	"rationwright/solver/simplex"
)

// quickFoods is how many foods a quick search chooses among: a ration is made of
// some forty.
const quickFoods = 60

// quick looks for a good plan in a short time: the relaxation of the whole
// program bounds it, a dive makes the first, a search among some of the foods
// betters it. The result's bound holds for the whole program; its point is nil
// where none was found, its status Infeasible where the relaxation has a
// verified ray.
func (q *priced) quick(ctx context.Context, opt branch.Options) branch.Result {
	r := q.ration
	result := q.solve(ctx)
	switch {
	case result.Status == simplex.Infeasible:
		return branch.Result{Status: branch.Infeasible, Bound: math.Inf(-1), Why: "the relaxation is infeasible"}
	case result.Status != simplex.Optimal || !result.HasBound:
		return branch.Result{Status: branch.Numerical, Bound: math.Inf(-1), Why: result.Why}
	}
	var dived [][]float64
	if limits := r.packLimits(q.problem); len(limits) > 0 {
		dived = q.diveWithin(ctx, result, limits)
	} else if opt.Start == nil {
		dived = append(dived, q.relaxed.diveUp(ctx))
	}
	for _, x := range dived {
		if x != nil && (opt.Start == nil || q.costOf(x) < q.costOf(opt.Start)) {
			opt.Start = x
		}
	}
	found := q.search(ctx, q.problem, result, quickFoods, opt)
	found.Bound, found.RootBound, found.RootDual, found.RootReduced, found.RootX = result.Bound, result.Bound, result.Dual, result.Reduced, result.X
	return found
}

// costOf is the objective at a point.
func (q *priced) costOf(x []float64) float64 {
	total := 0.0
	for j, c := range q.problem.Cols {
		total += c.Cost * x[j]
	}
	return total
}

// quickly makes a quick search of p, a program of r with its columns first, from
// the relaxation over all foods.
func (r *Ration) quickly(ctx context.Context, p *linear.Problem, opt branch.Options) branch.Result {
	q, err := r.newPriced(p, r.allFoods())
	if err != nil {
		return branch.Result{Status: branch.Numerical, Bound: math.Inf(-1), Why: err.Error()}
	}
	return q.quick(ctx, opt)
}

// allFoods picks every food of the larder.
func (r *Ration) allFoods() []bool {
	all := make([]bool, len(r.larder))
	for li := range all {
		all[li] = true
	}
	return all
}

// search searches p among the foods that the relaxation or the start is made of,
// those on hand, and those next in price, count in all. Its bound holds among
// these foods only.
func (q *priced) search(ctx context.Context, p *linear.Problem, result simplex.Result, count int, opt branch.Options) branch.Result {
	r := q.ration
	in := make([]bool, len(r.larder))
	for li, lf := range r.larder {
		in[li] = lf.balance < 0 || len(lf.stock) > 0 || len(lf.reserve) > 0
	}
	for j, info := range r.cols {
		if info.larder >= 0 && (result.X[j] > dust || opt.Start != nil && opt.Start[j] > dust) {
			in[info.larder] = true
		}
	}
	var next []int
	near := make([]float64, len(r.larder))
	for li, lf := range r.larder {
		if in[li] {
			count--
			continue
		}
		near[li] = math.Inf(1)
		for _, k := range lf.buy {
			near[li] = math.Min(near[li], result.Reduced[k.col]/k.usable)
		}
		next = append(next, li)
	}
	slices.SortStableFunc(next, func(a, b int) int { return cmp.Compare(near[a], near[b]) })
	for _, li := range next[:max(0, min(count, len(next)))] {
		in[li] = true
	}
	some := p.Clone()
	for li, lf := range r.larder {
		if in[li] {
			continue
		}
		for _, k := range lf.buy {
			some.Cols[k.col].Upper = some.Cols[k.col].Lower
		}
	}
	r.closeEmpty(some)
	return searchSlim(ctx, some, opt)
}

// searchSlim searches p without what its bounds fix.
func searchSlim(ctx context.Context, p *linear.Problem, opt branch.Options) branch.Result {
	s := newSlim(p)
	if opt.Start != nil {
		opt.Start = s.narrow(opt.Start)
	}
	found := branch.Solve(ctx, s.problem, opt)
	if found.Status == branch.Numerical { // once more with every row in from the start
		for i := range s.problem.Rows {
			s.problem.Rows[i].Lazy = false
		}
		found = branch.Solve(ctx, s.problem, opt)
	}
	if found.X != nil {
		found.X = s.wide(found.X)
	}
	return found
}

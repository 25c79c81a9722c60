package search

import (
	"cmp"
	"context"
	"math"
	"slices"

	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/simplex"
)

// Search looks for a good plan in a short time: the relaxation of the whole
// program bounds it, a dive makes the first, a search among some of the foods
// betters it. The result's bound holds for the whole program; its point is nil
// where none was found, its status Infeasible where the relaxation has a
// verified ray.
func (q *Master) Search(ctx context.Context, opt Options) Result {
	m := q.Model
	result := q.Solve(ctx)
	switch {
	case result.Status == simplex.Infeasible:
		return Result{Status: Infeasible, Bound: math.Inf(-1), Why: "the relaxation is infeasible"}
	case result.Status != simplex.Optimal || !result.HasBound:
		return Result{Status: Numerical, Bound: math.Inf(-1), Why: result.Why}
	}
	var dived [][]float64
	if limits := m.PackLimits(q.problem); len(limits) > 0 {
		dived = q.diveWithin(ctx, result, limits)
	} else if opt.Start == nil {
		dived = append(dived, q.LP.DiveUp(ctx))
	}
	for _, x := range dived {
		if x != nil && (opt.Start == nil || q.problem.CostAt(x) < q.problem.CostAt(opt.Start)) {
			opt.Start = x
		}
	}
	found := q.SearchAmong(ctx, q.problem, result, QuickFoods, opt)
	found.Bound, found.RootBound, found.RootDual, found.RootReduced = result.Bound, result.Bound, result.Dual, result.Reduced
	return found
}

// RestrictedSearch makes a quick search of p, a program of r with its columns first, from
// the relaxation over all foods.
func RestrictedSearch(ctx context.Context, m *model.Model, p *linear.Problem, opt Options) Result {
	q, err := NewMaster(m, p, allFoods(m))
	if err != nil {
		return Result{Status: Numerical, Bound: math.Inf(-1), Why: err.Error()}
	}
	return q.Search(ctx, opt)
}

// allFoods picks every food of the larder.
func allFoods(m *model.Model) []bool {
	all := make([]bool, len(m.Larder))
	for li := range all {
		all[li] = true
	}
	return all
}

// SearchAmong searches p among the foods that the relaxation or the start is made of,
// those on hand, and those next in price, count in all. Its bound holds among
// these foods only.
func (q *Master) SearchAmong(ctx context.Context, p *linear.Problem, result simplex.Result, count int, opt Options) Result {
	m := q.Model
	in := make([]bool, len(m.Larder))
	for li, lf := range m.Larder {
		in[li] = lf.Balance < 0 || len(lf.Stock) > 0 || len(lf.Reserve) > 0
	}
	for j, info := range m.Cols {
		if info.Larder >= 0 && (result.X[j] > model.Dust || opt.Start != nil && opt.Start[j] > model.Dust) {
			in[info.Larder] = true
		}
	}
	TakeNearest(m, in, result.Reduced, count)
	some := p.Clone()
	for li, lf := range m.Larder {
		if in[li] {
			continue
		}
		for _, k := range lf.Buy {
			some.Cols[k.Col].Upper = some.Cols[k.Col].Lower
		}
	}
	m.CloseEmpty(some)
	return SolveSmaller(ctx, some, opt)
}

// TakeNearest adds to the foods that are in those next in price, by the reduced costs of
// columns, until they are count in all.
func TakeNearest(m *model.Model, in []bool, reduced []float64, count int) {
	var next []int
	near := make([]float64, len(m.Larder))
	for li, lf := range m.Larder {
		if in[li] {
			count--
			continue
		}
		near[li], _ = lf.GramCost(func(col int) float64 { return reduced[col] })
		next = append(next, li)
	}
	slices.SortStableFunc(next, func(a, b int) int { return cmp.Compare(near[a], near[b]) })
	for _, li := range next[:max(0, min(count, len(next)))] {
		in[li] = true
	}
}

// SolveSmaller searches p without what its bounds fix.
func SolveSmaller(ctx context.Context, p *linear.Problem, opt Options) Result {
	s := WithoutFixed(p)
	if opt.Start != nil {
		opt.Start = s.Restrict(opt.Start)
	}
	found := Run(ctx, s.Problem, opt)
	if found.Status == Numerical { // once more with every row in from the start
		for i := range s.Problem.Rows {
			s.Problem.Rows[i].Lazy = false
		}
		found = Run(ctx, s.Problem, opt)
	}
	if found.X != nil {
		found.X = s.Expand(found.X)
	}
	return found
}

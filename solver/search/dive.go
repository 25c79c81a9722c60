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

// DiveUp looks for a point with whole packs where more of a pack never does
// harm: it rounds the largest fractions up and solves again, until all are
// whole, so that the packs after the first few are chosen knowing those before.
// It returns nil where it does not end within a fixed number of steps. The
// bounds are put back afterwards.
func (x *Relaxation) DiveUp(ctx context.Context) []float64 { return x.DiveUpTo(ctx, model.Inf) }

// DiveUpTo is DiveUp for points of which the objective is no more than most: it
// returns nil as soon as that is out of reach.
func (x *Relaxation) DiveUpTo(ctx context.Context, most float64) []float64 {
	type bounds struct {
		col          int
		lower, upper float64
	}
	var undo []bounds
	defer func() {
		for _, b := range slices.Backward(undo) {
			x.SetBounds(b.col, b.lower, b.upper)
		}
	}()
	for range diveSteps {
		result := x.SolveUpTo(ctx, most)
		if result.Status != simplex.Optimal {
			return nil
		}
		largest := WholeTolerance
		for j, c := range x.problem.Cols {
			if c.Integer && x.colAt[j] >= 0 {
				largest = math.Max(largest, fractionOf(result.X[j]))
			}
		}
		if largest <= WholeTolerance {
			return x.atWhole(ctx, result.X, func(j int, n float64) {
				lower, upper := x.Solver.Bounds(x.colAt[j])
				undo = append(undo, bounds{j, lower, upper})
				x.SetBounds(j, n, n)
			})
		}
		for j, c := range x.problem.Cols {
			if f := fractionOf(result.X[j]); c.Integer && x.colAt[j] >= 0 && (f >= largest || f > diveNearly) {
				lower, upper := x.Solver.Bounds(x.colAt[j])
				undo = append(undo, bounds{j, lower, upper})
				x.SetBounds(j, math.Min(math.Ceil(result.X[j]-WholeTolerance), upper), upper)
			}
		}
	}
	return nil
}

// Descend takes packs away from x, a point with whole packs, one at a time and the dearest
// first, where it costs less without (one-opt: T. Achterberg, "Constraint integer
// programming", thesis, TU Berlin, 2007; here what is eaten is solved anew each time). A
// dive has bought many before those that make them superfluous. The bounds are put back
// afterwards.
func (x *Relaxation) Descend(ctx context.Context, best []float64) []float64 {
	var packs []int
	for j, c := range x.problem.Cols {
		if !c.Integer || x.colAt[j] < 0 {
			continue
		}
		lower, upper := x.Bounds(j)
		defer x.SetBounds(j, lower, upper)
		n := math.Round(best[j])
		x.SetBounds(j, n, n)
		if n > lower && x.costs[j] > 0 {
			packs = append(packs, j)
		}
	}
	slices.SortStableFunc(packs, func(a, b int) int { return cmp.Compare(x.costs[b], x.costs[a]) })
	r := x.Solve(ctx)
	if r.Status != simplex.Optimal {
		return best
	}
	value, basis := r.Value, x.Basis()
	for _, j := range packs {
		for n := math.Round(best[j]); n > x.problem.Cols[j].Lower; n-- {
			x.SetBounds(j, n-1, n-1)
			if r := x.SolveUpTo(ctx, value); r.Status == simplex.Optimal && r.Value < value {
				best, value, basis = wholeAt(x.problem, r.X), r.Value, x.Basis()
				continue
			}
			x.SetBounds(j, n, n)
			x.SetBasis(basis)
			break
		}
	}
	return best
}

// wholeAt is point with its packs whole to the last digit.
func wholeAt(p *linear.Problem, point []float64) []float64 {
	for j, c := range p.Cols {
		if c.Integer {
			point[j] = math.Round(point[j])
		}
	}
	return point
}

// atWhole solves once more with the packs at the whole numbers that point is near
// to, so that nothing is eaten out of a millionth of a pack. It returns nil where
// that leaves no point.
func (x *Relaxation) atWhole(ctx context.Context, point []float64, fix func(j int, n float64)) []float64 {
	for j, c := range x.problem.Cols {
		if c.Integer && x.colAt[j] >= 0 {
			fix(j, math.Round(point[j]))
		}
	}
	result := x.Solve(ctx)
	if result.Status != simplex.Optimal {
		return nil
	}
	return wholeAt(x.problem, result.X)
}

// diveWithin looks for points with whole packs under limits on sums of packs,
// which rounding up runs over: it leaves the rows out and puts a price on each
// sum in their stead, which is raised until all are kept, and then brought near to
// where they are. It returns what it found, in the order found.
func (q *Master) diveWithin(ctx context.Context, result simplex.Result, rows []int) [][]float64 {
	x, p := q.LP, q.problem
	var found [][]float64
	prices := make([]float64, len(rows))
	for k, i := range rows {
		least := divePrice * math.Max(math.Abs(result.Value), 1e-6) / math.Max(math.Abs(p.Rows[i].Upper), 1e-6)
		prices[k] = math.Max(-result.Dual[i], least)
		x.SetRowBounds(i, p.Rows[i].Lower, model.Inf)
	}
	costs := slices.Clone(x.costs)
	defer func() {
		for _, i := range rows {
			x.SetRowBounds(i, p.Rows[i].Lower, p.Rows[i].Upper)
		}
		for j, cost := range costs {
			x.SetCost(j, cost)
		}
	}()
	keeps := func(times float64) bool {
		for j, c := range p.Cols {
			cost := costs[j]
			for _, e := range c.Entries {
				if k := slices.Index(rows, e.Row); k >= 0 {
					cost += times * prices[k] * e.Value
				}
			}
			x.SetCost(j, cost)
		}
		if q.Solve(ctx).Status != simplex.Optimal {
			return false
		}
		whole := x.DiveUp(ctx)
		if whole == nil {
			return false
		}
		if missed, err := p.Check(whole, LimitTolerance); err != nil || len(missed) > 0 {
			return false
		}
		found = append(found, whole)
		return true
	}
	times := 1.0
	for n := range divePrices {
		if !keeps(times) {
			times *= diveStep
			continue
		}
		low, high := times/diveStep, times
		for range diveHalving {
			if n == 0 {
				break
			}
			if mid := math.Sqrt(low * high); keeps(mid) {
				high = mid
			} else {
				low = mid
			}
		}
		break
	}
	return found
}

// fractionOf is how far v lies over a whole number, 0 where it is as good as
// one.
func fractionOf(v float64) float64 {
	if f := v - math.Floor(v+WholeTolerance); f > WholeTolerance {
		return f
	}
	return 0
}

package solver

import (
	"context"
	"math"
	"time"

	"rationwright/solver/branch"
	"rationwright/solver/ration"
)

// Limits of the polish: it never decides the value, so it may be cut short, but
// by work, so that the same request gives the same plan on a slow machine.
const (
	polishWork  = 3000             // simplex iterations
	polishTime  = 30 * time.Second // safety stop
	polishGap   = 1e-3
	polishSlack = 1e-9 // relative room for the last digits of the value
)

// tidied takes packs out that are hardly touched, then polishes the plan.
func (r *Ration) tidied(ctx context.Context, x []float64) []float64 {
	return r.polish(ctx, r.withoutCrumbs(ctx, x))
}

// crumb is the part of a pack's usable content up to which the pack is hardly
// touched: what is eaten of it can come from elsewhere.
const crumb = 0.1

// withoutCrumbs takes away one pack of every food of which the last pack bought
// is hardly touched, where the needs are met without it at no higher value.
func (r *Ration) withoutCrumbs(ctx context.Context, x []float64) []float64 {
	p := r.copyProblem()
	r.fixPacks(p, x)
	r.closeEmpty(p)
	best, value := x, r.valueOf(x)
	for li, lf := range r.larder {
		left := 0.0 // of the packs when all have eaten
		for _, k := range lf.supply() {
			left += k.usable * math.Round(x[k.col])
		}
		for _, e := range r.eaters {
			if y, ok := e.eating(li); ok {
				left -= e.count * y.spare * x[y.col]
			}
		}
		for _, k := range lf.buy {
			if math.Round(x[k.col]) < 1 || left < (1-crumb)*k.usable || ctx.Err() != nil {
				continue
			}
			p.Cols[k.col].Lower--
			p.Cols[k.col].Upper--
			if found := r.fill(ctx, p); found != nil && r.valueOf(found) <= value {
				best, value = found, r.valueOf(found)
				break
			}
			p.Cols[k.col].Lower++
			p.Cols[k.col].Upper++
		}
	}
	return best
}

// polish looks for a plan of no higher value that weighs less, within a fixed
// amount of work, and returns the better of the two points.
func (r *Ration) polish(ctx context.Context, x []float64) []float64 {
	if r.Request.Least == ration.LeastWeight {
		return x
	}
	value := 0.0
	for j := range r.cols {
		value += r.Problem.Cols[j].Cost * x[j]
	}
	trial := r.copyProblem()
	row := trial.AddRow("value", math.Inf(-1), value+polishSlack*math.Abs(value))
	for j := range trial.Cols {
		trial.Set(row, j, trial.Cols[j].Cost)
		trial.Cols[j].Cost = r.coefficient(j, ration.LeastWeight)
	}
	result := branch.Solve(ctx, trial, branch.Options{
		Gap: polishGap, MinDenom: ration.SmallestStep(ration.LeastWeight), Time: polishTime, Work: polishWork, Start: x,
	})
	if result.X == nil || result.ByClock {
		return x
	}
	return result.X
}

package solver

import (
	"context"
	"math"
	"time"

	"rationwright/solver/branch"
)

// Limits of the polish: it never decides the value, so it may be cut short, but
// by work, so that the same request gives the same plan on a slow machine.
const (
	polishWork  = 3000             // simplex iterations
	polishTime  = 30 * time.Second // safety stop
	polishGap   = 1e-3
	polishSlack = 1e-9 // relative room for the last digits of the value
)

// polish looks for a plan of no higher value that weighs less, within a fixed
// amount of work, and returns the better of the two points.
func (r *Ration) polish(ctx context.Context, x []float64) []float64 {
	if r.Request.Least == LeastWeight {
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
		trial.Cols[j].Cost = r.coefficient(j, LeastWeight)
	}
	result := branch.Solve(ctx, trial, branch.Options{
		Gap: polishGap, MinDenom: smallest(LeastWeight), Time: polishTime, Work: polishWork, Start: x,
	})
	if result.X == nil || result.ByClock {
		return x
	}
	return result.X
}

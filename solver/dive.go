package solver

import (
	"context"
	"math"

	"rationwright/solver/simplex"
)

// Figures of a dive.
const (
	diveSteps   = 120  // relaxations solved
	diveNearly  = 0.8  // a fraction over this is rounded up along with the largest
	diveRounded = 1e-6 // how near to a whole number counts as whole
)

// diveUp looks for a point with whole packs where more of a pack never does
// harm: it rounds the largest fractions up and solves again, until all are
// whole, so that the packs after the first few are chosen knowing those before.
// It returns nil where it does not end within a fixed number of steps. The
// bounds are put back afterwards.
func (x *relaxed) diveUp(ctx context.Context) []float64 {
	type bounds struct {
		col          int
		lower, upper float64
	}
	var undo []bounds
	defer func() {
		for i := len(undo) - 1; i >= 0; i-- {
			x.setBounds(undo[i].col, undo[i].lower, undo[i].upper)
		}
	}()
	for range diveSteps {
		result := x.solve(ctx)
		if result.Status != simplex.Optimal {
			return nil
		}
		largest := diveRounded
		for j, c := range x.problem.Cols {
			if c.Integer && x.colAt[j] >= 0 {
				largest = math.Max(largest, fractionOf(result.X[j]))
			}
		}
		if largest <= diveRounded {
			return result.X
		}
		for j, c := range x.problem.Cols {
			if f := fractionOf(result.X[j]); c.Integer && x.colAt[j] >= 0 && (f >= largest || f > diveNearly) {
				lower, upper := x.solver.Bounds(x.colAt[j])
				undo = append(undo, bounds{j, lower, upper})
				x.setBounds(j, math.Min(math.Ceil(result.X[j]-diveRounded), upper), upper)
			}
		}
	}
	return nil
}

// fractionOf is how far v lies over a whole number, 0 where it is as good as
// one.
func fractionOf(v float64) float64 {
	if f := v - math.Floor(v+diveRounded); f > diveRounded {
		return f
	}
	return 0
}

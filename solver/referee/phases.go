package referee

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/optimize/convex/lp"
)

// Sizes on scaled data, where right-hand sides and costs are at most one.
const (
	// feasible is what the sum of the artificial columns may be at the end of
	// phase 1: the rounding of a few hundred pivots and the largest shift.
	feasible = 1e-7
	// negative is how far below zero a basic column may come out for the true
	// right-hand side, and a reduced cost for the true costs.
	negative = 1e-7
)

// shifts are the sizes by which the right-hand side is moved to keep gonum away
// from degenerate vertices, where it cycles. A basis that is optimal for the
// moved program has the right multipliers for the true one; when its point is
// not feasible there, a smaller move is tried, at last none.
var shifts = []float64{1e-8, 1e-10, 0}

// outcome is what came of the scaled program.
type outcome struct {
	verdict Verdict
	basis   []int     // Optimal: its columns
	z       []float64 // Optimal: the point for the true right-hand side
	y       []float64 // Optimal: its multipliers, if dual; Infeasible: a ray
	dual    bool      // y has no reduced cost below −negative
	err     error     // Silent: why
}

// solve runs from each start with each shift until a verdict comes that proves
// accepts. Failing that, it returns the first verdict that there was.
func (d *scaled) solve(ctx context.Context, starts []start, proves func(outcome) bool) outcome {
	var first outcome
	for _, from := range starts {
		for _, size := range shifts {
			out := d.attempt(ctx, from, size)
			if out.verdict != Silent && proves(out) {
				return out
			}
			if first.verdict == Silent {
				first = out
			}
			if ctx.Err() != nil {
				return first
			}
		}
	}
	return first
}

// attempt runs both phases with a right-hand side moved by about size.
func (d *scaled) attempt(ctx context.Context, from start, size float64) outcome {
	basis, out := d.feasibleBasis(ctx, from, size)
	if basis == nil {
		return out
	}
	if d.m == d.n {
		return d.conclude(basis, nil)
	}
	b, err := d.moved(d.a, basis, size)
	if err != nil {
		return outcome{err: err}
	}
	z, err := iterate(ctx, d.c, d.a, b, basis)
	if errors.Is(err, lp.ErrUnbounded) {
		return outcome{verdict: Unbounded}
	}
	if z == nil {
		return outcome{err: fmt.Errorf("phase 2: %w", err)}
	}
	end, basisErr := d.basisOf(z, d.n)
	if basisErr != nil {
		return outcome{err: errors.Join(err, basisErr)}
	}
	return d.conclude(end, err)
}

// moved returns a right-hand side near d.b at which the basis is feasible, and
// strictly so.
func (d *scaled) moved(cols [][]float64, basis []int, size float64) ([]float64, error) {
	v, err := factorise(cols, basis)
	if err != nil {
		return nil, err
	}
	b := make([]float64, d.m)
	for n, x := range v.primal(d.b) {
		x = math.Max(x, 0) + move(size, n)
		for i, a := range cols[basis[n]] {
			b[i] += a * x
		}
	}
	return b, nil
}

// feasibleBasis is phase 1: it minimises the sum of the artificial columns of a
// start. It returns nil and the outcome when there is no feasible basis to be
// had.
func (d *scaled) feasibleBasis(ctx context.Context, from start, size float64) ([]int, outcome) {
	if len(from.cols) == d.n {
		return from.basis, outcome{}
	}
	b, err := d.moved(from.cols, from.basis, size)
	if err != nil {
		return nil, outcome{err: fmt.Errorf("phase 1: %w", err)}
	}
	z, err := iterate(ctx, from.cost, from.cols, b, from.basis)
	if z == nil {
		return nil, outcome{err: fmt.Errorf("phase 1: %w", err)}
	}
	out := d.infeasibility(z, from)
	if out.verdict == Infeasible && err != nil {
		return nil, outcome{err: fmt.Errorf("phase 1: %w", err)}
	}
	if out.verdict == Infeasible {
		return nil, out
	}
	for k := range z[:d.n] {
		if math.Abs(z[k]) < size/2 {
			z[k] = 0 // basic at rounding's size: as good as any other zero
		}
	}
	end, err := d.basisOf(z, d.n)
	if err != nil {
		return nil, outcome{err: fmt.Errorf("phase 1: %w", err)}
	}
	return end, outcome{}
}

// infeasibility looks at the end of phase 1 and says whether artificial columns
// are needed for the true right-hand side as well as for the moved one. The
// multipliers tell: b·y is the least that their sum can be, and y is a ray.
func (d *scaled) infeasibility(z []float64, from start) outcome {
	left := 0.0
	for _, v := range z[d.n:] {
		left += math.Abs(v)
	}
	if left <= feasible {
		return outcome{}
	}
	wide := &scaled{m: d.m, n: len(from.cols), a: from.cols}
	end, err := wide.basisOf(z, wide.n)
	if err != nil {
		return outcome{verdict: Infeasible}
	}
	v, err := factorise(from.cols, end)
	if err != nil {
		return outcome{verdict: Infeasible}
	}
	y := v.dual(from.cost)
	least := 0.0
	for i := range y {
		least += d.b[i] * y[i]
	}
	if least <= feasible {
		return outcome{}
	}
	return outcome{verdict: Infeasible, y: y}
}

// conclude takes the basis gonum ended with, solves with the true right-hand
// side and says what the result is worth. ended is gonum's error, nil if it
// claims the optimum.
func (d *scaled) conclude(basis []int, ended error) outcome {
	v, err := factorise(d.a, basis)
	if err != nil {
		return outcome{err: errors.Join(ended, err)}
	}
	out := outcome{verdict: Optimal, basis: basis, z: make([]float64, d.n), y: v.dual(d.c), dual: true}
	for n, x := range v.primal(d.b) {
		if x < -negative {
			return outcome{err: errors.Join(ended, errors.New("the basis gonum ended with is not feasible"))}
		}
		out.z[basis[n]] = math.Max(x, 0)
	}
	for k := range d.a {
		r := d.c[k]
		for i, a := range d.a[k] {
			r -= a * out.y[i]
		}
		if r < -negative {
			out.dual = false
		}
	}
	if ended != nil && !out.dual {
		return outcome{err: ended}
	}
	return out
}

// move returns between one and two times size, for every i another factor of
// which no small whole multiples add up to zero: rows moved by factors that do
// would stay degenerate. Numbers from a generator with a fixed seed are good;
// the multiples of a golden ratio are not.
func move(size float64, i int) float64 {
	return size * (1 + rand.New(rand.NewPCG(uint64(i), 0)).Float64())
}

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
	z       []float64 // Optimal: the point for the true right-hand side
	y       []float64 // Optimal: its multipliers, if dual; Infeasible: a ray
	dual    bool      // y has no reduced cost below −negative
	err     error     // Silent: why
}

// solve tries the shifts in turn until one gives a verdict that proves accepts.
// Failing that, it returns the first verdict that there was.
func (d *scaled) solve(ctx context.Context, proves func(outcome) bool) outcome {
	var first outcome
	for k, size := range shifts {
		out := d.attempt(ctx, size)
		if out.verdict != Silent && proves(out) {
			return out
		}
		if k == 0 || first.verdict == Silent {
			first = out
		}
		if ctx.Err() != nil {
			break
		}
	}
	return first
}

// attempt runs both phases with a right-hand side moved by about size.
func (d *scaled) attempt(ctx context.Context, size float64) outcome {
	basis, out := d.feasibleBasis(ctx, size)
	if basis == nil {
		return out
	}
	v, err := d.factorise(basis)
	if err != nil {
		return outcome{err: err}
	}
	if d.m == d.n {
		return d.conclude(basis, nil)
	}
	// Moved so that this basis is feasible, and strictly so.
	start := v.primal(d.b)
	b := make([]float64, d.m)
	for n, k := range basis {
		x := math.Max(start[n], 0) + move(size, n)
		for i, a := range d.a[k] {
			b[i] += a * x
		}
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

// feasibleBasis is phase 1: it minimises the sum of artificial columns, one for
// each row that has no slack to start from, beginning with all of them basic.
// It returns nil and the outcome when there is no feasible basis to be had.
func (d *scaled) feasibleBasis(ctx context.Context, size float64) ([]int, outcome) {
	basis := make([]int, d.m)
	cols := append([][]float64(nil), d.a...)
	c := make([]float64, d.n)
	slack := d.slacks()
	for i := range basis {
		basis[i] = slack[i]
		if slack[i] >= 0 {
			continue
		}
		unit := make([]float64, d.m)
		unit[i] = 1
		basis[i] = len(cols)
		cols = append(cols, unit)
		c = append(c, 1)
	}
	if len(cols) == d.n {
		return basis, outcome{}
	}
	b := make([]float64, d.m)
	for i := range b {
		b[i] = d.b[i] + move(size, i)*d.startCoefficient(slack[i], i)
	}
	z, err := iterate(ctx, c, cols, b, basis)
	if z == nil {
		return nil, outcome{err: fmt.Errorf("phase 1: %w", err)}
	}
	out := d.infeasibility(z, cols, c)
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
func (d *scaled) infeasibility(z []float64, cols [][]float64, c []float64) outcome {
	left := 0.0
	for _, v := range z[d.n:] {
		left += math.Abs(v)
	}
	if left <= feasible {
		return outcome{}
	}
	wide := &scaled{m: d.m, n: len(cols), a: cols}
	end, err := wide.basisOf(z, len(cols))
	if err != nil {
		return outcome{verdict: Infeasible}
	}
	v, err := wide.factorise(end)
	if err != nil {
		return outcome{verdict: Infeasible}
	}
	y := v.dual(c)
	least := 0.0
	for i := range y {
		least += d.b[i] * y[i]
	}
	if least <= feasible {
		return outcome{}
	}
	return outcome{verdict: Infeasible, y: y}
}

// slacks returns for each row a column with a positive coefficient there and
// none elsewhere, −1 where there is none.
func (d *scaled) slacks() []int {
	slack := make([]int, d.m)
	for i := range slack {
		slack[i] = -1
	}
	for k := d.n - 1; k >= 0; k-- {
		at, count := -1, 0
		for i, v := range d.a[k] {
			if v != 0 {
				at = i
				count++
			}
		}
		if count == 1 && d.a[k][at] > 0 && d.c[k] == 0 && slack[at] < 0 {
			slack[at] = k
		}
	}
	return slack
}

// startCoefficient returns the coefficient of row i's first basic column.
func (d *scaled) startCoefficient(slack, i int) float64 {
	if slack < 0 {
		return 1
	}
	return d.a[slack][i]
}

// conclude takes the basis gonum ended with, solves with the true right-hand
// side and says what the result is worth. ended is gonum's error, nil if it
// claims the optimum.
func (d *scaled) conclude(basis []int, ended error) outcome {
	v, err := d.factorise(basis)
	if err != nil {
		return outcome{err: errors.Join(ended, err)}
	}
	out := outcome{verdict: Optimal, z: make([]float64, d.n), y: v.dual(d.c), dual: true}
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

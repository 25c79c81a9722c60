package referee_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"rationwright/solver/linear"
	"rationwright/solver/referee"
)

var inf = linear.Inf

// program builds a small program: columns as {cost, lower, upper}, rows as
// {lower, upper, coefficients…}.
func program(maximize bool, cols [][3]float64, rows ...[]float64) *linear.Problem {
	p := &linear.Problem{Maximize: maximize}
	for i, r := range rows {
		p.AddRow(fmt.Sprint("r", i), r[0], r[1])
	}
	for j, c := range cols {
		p.AddCol(fmt.Sprint("x", j), c[0], c[1], c[2], false)
		for i, r := range rows {
			p.Set(i, j, r[2+j])
		}
	}
	return p
}

// The zoo: programs small enough to solve by hand, each a trap for a solver in
// standard form. The algebra is in the program, the answer beside it.
var zoo = []struct {
	name    string
	p       *linear.Problem
	verdict referee.Verdict
	value   float64
	x       []float64 // nil where several points are best
	proven  bool
}{
	{"textbook", program(true, [][3]float64{{3, 0, inf}, {5, 0, inf}},
		[]float64{-inf, 4, 1, 0}, []float64{-inf, 12, 0, 2}, []float64{-inf, 18, 3, 2}),
		referee.Optimal, 36, []float64{2, 6}, true},
	{"equation", program(false, [][3]float64{{1, 0, inf}, {2, 0, inf}}, []float64{3, 3, 1, 1}),
		referee.Optimal, 3, []float64{3, 0}, true},
	{"as many equations as columns", program(false, [][3]float64{{1, 0, inf}, {1, 0, inf}},
		[]float64{3, 3, 1, 1}, []float64{1, 1, 1, -1}),
		referee.Optimal, 3, []float64{2, 1}, true},
	// gonum's own linear solve for this shape would call a rounding below zero
	// infeasible.
	{"as many equations as columns, at zero", program(false, [][3]float64{{1, 0, inf}, {1, 0, inf}},
		[]float64{0.3, 0.3, 0.1, 0.1}, []float64{0.3, 0.3, 0.1, -0.1}),
		referee.Optimal, 3, []float64{3, 0}, true},
	{"repeated equation", program(false, [][3]float64{{1, 0, inf}, {2, 0, inf}},
		[]float64{3, 3, 1, 1}, []float64{6, 6, 2, 2}, []float64{1, 1, 1, -1}, []float64{0.7, 0.7, 0.7, -0.7}),
		referee.Optimal, 4, []float64{2, 1}, true},
	{"equations that contradict", program(false, [][3]float64{{1, 0, inf}, {2, 0, inf}},
		[]float64{3, 3, 1, 1}, []float64{7, 7, 2, 2}),
		referee.Infeasible, 0, nil, false},
	{"range row", program(true, [][3]float64{{1, 0, inf}, {1, 0, 3}}, []float64{-2, 5, 1, 2}),
		referee.Optimal, 5, []float64{5, 0}, true},
	{"range row at its low end", program(false, [][3]float64{{1, -10, inf}, {0, 0, 0}}, []float64{-2, 5, 1, 2}),
		referee.Optimal, -2, []float64{-2, 0}, true},
	{"free column", program(false, [][3]float64{{1, -inf, inf}, {3, 0, inf}}, []float64{-4, inf, 1, 0}, []float64{1, inf, 0, 2}),
		referee.Optimal, -2.5, []float64{-4, 0.5}, true},
	{"upper bound only", program(true, [][3]float64{{1, -inf, 3}, {1, -inf, -1}}, []float64{-inf, 100, 1, 1}),
		referee.Optimal, 2, []float64{3, -1}, true},
	{"fixed column", program(false, [][3]float64{{5, 2, 2}, {1, 0, inf}}, []float64{10, inf, 3, 1}),
		referee.Optimal, 14, []float64{2, 4}, true},
	{"everything fixed, met", program(false, [][3]float64{{5, 2, 2}}, []float64{6, 6, 3}),
		referee.Optimal, 10, []float64{2}, true},
	{"everything fixed, missed", program(false, [][3]float64{{5, 2, 2}}, []float64{7, inf, 3}),
		referee.Infeasible, 0, nil, true},
	{"negative lower bound", program(false, [][3]float64{{1, -5, 5}, {1, -5, 5}}, []float64{-7, inf, 1, 1}),
		referee.Optimal, -7, nil, true},
	{"cap that only the second solve sees", program(false, [][3]float64{{1, 0, 2}, {3, 0, inf}}, []float64{5, inf, 1, 1}),
		referee.Optimal, 11, []float64{2, 3}, true},
	{"infeasible by a cap", program(false, [][3]float64{{1, 0, 2}, {3, 0, 1}}, []float64{5, inf, 1, 1}),
		referee.Infeasible, 0, nil, true},
	{"infeasible rows", program(false, [][3]float64{{1, 0, inf}}, []float64{5, inf, 1}, []float64{-inf, 4, 1}),
		referee.Infeasible, 0, nil, true},
	{"unbounded", program(true, [][3]float64{{1, 0, inf}, {0, 0, inf}}, []float64{-inf, 4, 1, -1}),
		referee.Unbounded, 0, nil, false},
	{"unbounded in a column without rows", program(false, [][3]float64{{-1, 0, inf}, {1, 0, inf}}, []float64{1, inf, 0, 1}),
		referee.Unbounded, 0, nil, false},
	{"infeasible beside such a column", program(false, [][3]float64{{-1, 0, inf}, {1, 0, 1}}, []float64{2, inf, 0, 1}),
		referee.Infeasible, 0, nil, true},
	{"column without rows at its best bound", program(false, [][3]float64{{-1, 0, 7}, {1, 2, inf}, {0, -inf, inf}, {0, -inf, 3}}),
		referee.Optimal, -5, nil, true},
	{"row without columns, met", program(false, [][3]float64{{1, 0, inf}}, []float64{-1, 0, 0}, []float64{1, inf, 1}),
		referee.Optimal, 1, []float64{1}, true},
	{"row without columns, missed", program(false, [][3]float64{{1, 0, inf}}, []float64{1, 2, 0}, []float64{1, inf, 1}),
		referee.Infeasible, 0, nil, true},
	{"row without bounds", program(false, [][3]float64{{1, 0, inf}}, []float64{-inf, inf, 3}, []float64{1, inf, 1}),
		referee.Optimal, 1, []float64{1}, true},
	{"only rows without bounds", program(true, [][3]float64{{1, 0, 4}}, []float64{-inf, inf, 3}),
		referee.Optimal, 4, []float64{4}, true},
	{"nothing holds it", program(false, [][3]float64{{1, -inf, inf}}, []float64{-inf, inf, 3}),
		referee.Unbounded, 0, nil, false},
	{"nothing at all", &linear.Problem{Offset: 3}, referee.Optimal, 3, []float64{}, true},
	{"no costs", program(false, [][3]float64{{0, 0, inf}}, []float64{2, 4, 1}),
		referee.Optimal, 0, nil, true},
	// E. M. L. Beale, "Cycling in the dual simplex algorithm", Naval Research
	// Logistics Quarterly 2 (1955): the largest-coefficient rule cycles here
	// from the slack basis. The optimum, −1/20 at (1/25, 0, 1, 0), is checked by
	// the multipliers (0, −3/2, −1/20).
	{"Beale's cycle", program(false, [][3]float64{{-0.75, 0, inf}, {150, 0, inf}, {-0.02, 0, inf}, {6, 0, inf}},
		[]float64{-inf, 0, 0.25, -60, -1. / 25, 9}, []float64{-inf, 0, 0.5, -90, -1. / 50, 3}, []float64{-inf, 1, 0, 0, 1, 0}),
		referee.Optimal, -0.05, []float64{0.04, 0, 1, 0}, true},
	{"feasible in one point only", program(true, [][3]float64{{1, 0, inf}, {1, 0, inf}},
		[]float64{-inf, 2, 1, 1}, []float64{2, inf, 1, 1}, []float64{0, inf, 1, -1}, []float64{0, inf, -1, 1}),
		referee.Optimal, 2, []float64{1, 1}, true},
	{"figures of very different size", program(false, [][3]float64{{1e-6, 0, inf}, {2e6, 0, 1e-3}},
		[]float64{1e6, inf, 1e-3, 1e9}, []float64{-inf, 1e12, 1, 0}),
		referee.Optimal, 1e3, nil, true},
}

func TestZoo(t *testing.T) {
	for _, c := range zoo {
		t.Run(c.name, func(t *testing.T) {
			op := opinion(t, c.p)
			if op.Verdict != c.verdict || op.Proven != c.proven {
				t.Fatalf("%v, want %v, proven %v\n%v", op, c.verdict, c.proven, c.p)
			}
			if op.Verdict != referee.Optimal {
				return
			}
			expect(t, "value", op.Value, c.value, 1e-9*math.Max(1, math.Abs(c.value)))
			expect(t, "bound", op.Bound, c.value, 1e-9*math.Max(1, math.Abs(c.value)))
			for j := range c.x {
				expect(t, c.p.Cols[j].Name, op.X[j], c.x[j], 1e-9)
			}
		})
	}
}

func TestIntegralityIsIgnored(t *testing.T) {
	p := program(true, [][3]float64{{1, 0, 1}}, []float64{-inf, 1, 2})
	p.Cols[0].Integer = true
	if op := opinion(t, p); op.Verdict != referee.Optimal || math.Abs(op.Value-0.5) > 1e-12 {
		t.Errorf("%v, want 0.5", op)
	}
}

func TestInvalidProgram(t *testing.T) {
	p := program(false, [][3]float64{{math.NaN(), 0, 1}})
	_, err := referee.Solve(context.Background(), p)
	var f linear.Findings
	if !errors.As(err, &f) {
		t.Errorf("error %v, want findings", err)
	}
}

// large has more rows than a moment's work, none of which follows from another.
func large(rows int) *linear.Problem {
	p := &linear.Problem{}
	for i := range rows {
		p.AddRow(fmt.Sprint("r", i), 1, inf)
	}
	for j := range 2 * rows {
		col := p.AddCol(fmt.Sprint("x", j), 1+math.Mod(float64(j)*math.Phi, 1), 0, inf, false)
		for i := range rows {
			p.Set(i, col, 0.1+math.Mod(float64(i*j+i+j)*math.Sqrt2, 1))
		}
	}
	return p
}

func TestTooLarge(t *testing.T) {
	p := &linear.Problem{}
	for i := range referee.MaxRows + 1 {
		p.Set(p.AddRow(fmt.Sprint("r", i), 1, inf), p.AddCol(fmt.Sprint("x", i), 1, 0, inf, false), 1)
	}
	op := opinion(t, p)
	if op.Verdict != referee.Silent || !strings.Contains(op.Why, "more than") {
		t.Errorf("%v, want no opinion for its size", op)
	}
}

// A context that ends stops gonum at its next look at the matrix, and what is
// told is no opinion.
func TestStopped(t *testing.T) {
	ctx, cancel := context.WithTimeout(context.Background(), 50*time.Millisecond)
	defer cancel()
	start := time.Now()
	op, err := referee.Solve(ctx, large(300))
	if err != nil || op.Verdict != referee.Silent || !strings.Contains(op.Why, "stopped") {
		t.Errorf("%v (%v), want no opinion because stopped", op, err)
	}
	if took := time.Since(start); took > 20*time.Second {
		t.Errorf("stopped after %v", took)
	}
}

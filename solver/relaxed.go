package solver

import (
	"context"
	"math"

	"rationwright/solver/linear"
	"rationwright/solver/simplex"
)

// relaxed is the relaxation of a program, parts of packs allowed, that can be
// solved again and again from its last basis. Rows that seldom bind are taken
// in only when a point violates them: of the demo's 1,800 rows that is four in
// five.
type relaxed struct {
	problem *linear.Problem
	rows    *linear.RowView
	solver  *simplex.Solver
	at      []int // row of the solver for each row of the problem, -1 while left out
}

// relaxedTolerance is how far a row that was left out may be missed, relative
// to the sum of its terms, before it is taken in: the tolerance to which the
// simplex method holds the others.
const relaxedTolerance = 1e-9

// relax makes the relaxation of p.
func relax(p *linear.Problem) (*relaxed, error) {
	x := &relaxed{problem: p, rows: p.ByRow(), at: make([]int, len(p.Rows))}
	small := &linear.Problem{Maximize: p.Maximize, Offset: p.Offset}
	for i, row := range p.Rows {
		x.at[i] = -1
		if !row.Lazy && !free(row) {
			x.at[i] = small.AddRow(row.Name, row.Lower, row.Upper)
		}
	}
	for j, c := range p.Cols {
		small.AddCol(c.Name, c.Cost, c.Lower, c.Upper, false)
		for _, e := range c.Entries {
			if x.at[e.Row] >= 0 {
				small.Set(x.at[e.Row], j, e.Value)
			}
		}
	}
	var err error
	x.solver, err = simplex.New(small)
	return x, err
}

// free reports whether a row binds nothing.
func free(row linear.Row) bool { return math.IsInf(row.Lower, -1) && math.IsInf(row.Upper, 1) }

// solve solves the relaxation. Dual, RowValue and Ray of the result are per row
// of the problem.
func (x *relaxed) solve(ctx context.Context) simplex.Result {
	for {
		result := x.solver.Solve(ctx, simplex.Limits{})
		if result.Status != simplex.Optimal || !x.takeIn(result.X) {
			return x.wide(result)
		}
	}
}

// takeIn adds the rows left out that point violates, and reports whether there
// were any.
func (x *relaxed) takeIn(point []float64) bool {
	added := false
	for i := range x.at { // rows that were added to the problem since are no part of this
		row := x.problem.Rows[i]
		if x.at[i] >= 0 {
			continue
		}
		cols, values := x.rows.Row(i)
		total, size := 0.0, 1.0
		for k, j := range cols {
			total += values[k] * point[j]
			size = math.Max(size, math.Abs(values[k]*point[j]))
		}
		if total < row.Lower-relaxedTolerance*size || total > row.Upper+relaxedTolerance*size {
			x.at[i] = x.solver.AddRow(row.Name, row.Lower, row.Upper, cols, values)
			added = true
		}
	}
	return added
}

// wide puts the figures per row of a result in the order of the problem's rows;
// a row left out has none.
func (x *relaxed) wide(result simplex.Result) simplex.Result {
	spread := func(v []float64) []float64 {
		if v == nil {
			return nil
		}
		out := make([]float64, len(x.at))
		for i, at := range x.at {
			if at >= 0 && at < len(v) {
				out[i] = v[at]
			}
		}
		return out
	}
	result.Dual = spread(result.Dual)
	result.RowValue = spread(result.RowValue)
	if result.Status == simplex.Infeasible {
		result.Ray = spread(result.Ray)
	}
	return result
}

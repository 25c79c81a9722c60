package search

import (
	"context"
	"math"
	"slices"

	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/simplex"
)

// Relaxation is the relaxation of a program, parts of packs allowed, that can be
// solved again and again from its last basis. Rows that seldom bind are taken
// in only when a point violates them: of the demo's 1,800 rows that is four in
// five. Columns may be left out too, until they are added.
//
// Figures per row and column are those of the problem as it was when the
// relaxation was made; rows held later come after them.
type Relaxation struct {
	problem *linear.Problem
	rows    *linear.RowView
	Solver  *simplex.Solver
	At      []int     // row of the solver for each row of the problem, -1 while left out
	colAt   []int     // likewise columns
	costs   []float64 // per column of the problem
	held    []heldRow

	Spent int64 // simplex iterations so far
}

// heldRow is a row that was added beside those of the problem: rows and columns
// of the solver.
type heldRow struct {
	row    int
	cols   []int
	values []float64
}

// Relax makes the relaxation of p.
func Relax(p *linear.Problem) (*Relaxation, error) { return RelaxWithout(p, nil) }

// RelaxWithout makes the relaxation of p without the columns that out marks;
// nil marks none. They count as zero until [relaxed.addColumns] adds them.
func RelaxWithout(p *linear.Problem, out []bool) (*Relaxation, error) {
	x := &Relaxation{problem: p, rows: p.ByRow(), colAt: make([]int, len(p.Cols)), costs: make([]float64, len(p.Cols))}
	small := &linear.Problem{Maximize: p.Maximize, Offset: p.Offset}
	touched := make([]bool, len(p.Rows))
	for j, c := range p.Cols {
		for _, e := range c.Entries {
			touched[e.Row] = touched[e.Row] || out == nil || !out[j]
		}
	}
	x.At = copyRows(small, p, func(i int, row linear.Row) bool {
		return !row.Lazy && !free(row) && (touched[i] || row.Lower > 0 || row.Upper < 0)
	})
	for j, c := range p.Cols {
		x.costs[j] = c.Cost
		x.colAt[j] = -1
		if out == nil || !out[j] {
			x.colAt[j] = copyCol(small, c, x.At)
		}
	}
	var err error
	x.Solver, err = simplex.New(small)
	return x, err
}

// free reports whether a row binds nothing.
func free(row linear.Row) bool { return math.IsInf(row.Lower, -1) && math.IsInf(row.Upper, 1) }

// Clone returns an independent copy, to be changed and thrown away.
func (x *Relaxation) Clone() *Relaxation {
	y := *x
	y.Solver = x.Solver.Clone()
	y.At, y.colAt, y.costs, y.held = slices.Clone(x.At), slices.Clone(x.colAt), slices.Clone(x.costs), slices.Clone(x.held)
	return &y
}

// AddColumns brings in columns that were left out, with the rows that they alone
// are in.
func (x *Relaxation) AddColumns(cols []int) error {
	for _, j := range cols {
		if x.colAt[j] >= 0 {
			continue
		}
		c := x.problem.Cols[j]
		c.Cost = x.costs[j]
		c.Integer = false
		var entries []linear.Entry
		for _, e := range c.Entries {
			if x.At[e.Row] >= 0 {
				entries = append(entries, linear.Entry{Row: x.At[e.Row], Value: e.Value})
			}
		}
		// Rows taken in late have a higher number in the solver than here.
		c.Entries = model.Merged(entries)
		at, err := x.Solver.AddCol(c)
		if err != nil {
			return err
		}
		x.colAt[j] = at
	}
	for _, j := range cols {
		for _, e := range x.problem.Cols[j].Entries {
			if row := x.problem.Rows[e.Row]; x.At[e.Row] < 0 && !row.Lazy && !free(row) {
				x.addLate(e.Row)
			}
		}
	}
	return nil
}

// addLate adds a row of the problem that was left out.
func (x *Relaxation) addLate(i int) {
	cols, values := x.rows.Row(i)
	var in []int
	var coefficients []float64
	for k, j := range cols {
		if x.colAt[j] >= 0 {
			in = append(in, x.colAt[j])
			coefficients = append(coefficients, values[k])
		}
	}
	row := x.problem.Rows[i]
	x.At[i] = x.Solver.AddRow(row.Lower, row.Upper, in, coefficients)
}

// SetCost changes the objective coefficient of a column.
func (x *Relaxation) SetCost(j int, cost float64) {
	x.costs[j] = cost
	if x.colAt[j] >= 0 {
		x.Solver.SetCost(x.colAt[j], cost)
	}
}

// SetBounds changes the bounds of a column that is in.
func (x *Relaxation) SetBounds(j int, lower, upper float64) {
	x.Solver.SetBounds(x.colAt[j], lower, upper)
}

// Bounds are those that a column that is in has now.
func (x *Relaxation) Bounds(j int) (lower, upper float64) { return x.Solver.Bounds(x.colAt[j]) }

// AddRow appends a row over columns that are in. It has no figure in results.
func (x *Relaxation) AddRow(lower, upper float64, cols []int, values []float64) {
	at := make([]int, len(cols))
	for k, j := range cols {
		at[k] = x.colAt[j]
	}
	row := x.Solver.AddRow(lower, upper, at, values)
	x.held = append(x.held, heldRow{row, at, values})
}

// Release frees the rows that were added.
func (x *Relaxation) Release() {
	for _, held := range x.held {
		x.Solver.SetRowBounds(held.row, math.Inf(-1), model.Inf)
	}
}

// SetRowBounds changes the sides of a row of the problem, which is taken in.
func (x *Relaxation) SetRowBounds(i int, lower, upper float64) {
	x.TakeRows([]int{i})
	x.Solver.SetRowBounds(x.At[i], lower, upper)
}

// TakeRows takes rows of the problem in at once: taken in one by one by
// [Relaxation.SetRowBounds], each would have the matrix made anew.
func (x *Relaxation) TakeRows(rows []int) {
	for _, i := range rows {
		if x.At[i] < 0 {
			x.addLate(i)
		}
	}
}

// Solve solves the relaxation. Figures of the result are per row and column of
// the problem.
func (x *Relaxation) Solve(ctx context.Context) simplex.Result { return x.solve(ctx, simplex.Limits{}) }

// SolveWithin solves the relaxation in at most so many simplex iterations; it ends with
// [simplex.Limit] where they are not enough.
func (x *Relaxation) SolveWithin(ctx context.Context, iterations int) simplex.Result {
	return x.solve(ctx, simplex.Limits{Iterations: iterations})
}

// SolveUpTo solves the relaxation; it ends with [simplex.Limit] once its bound passes
// most.
func (x *Relaxation) SolveUpTo(ctx context.Context, most float64) simplex.Result {
	return x.solve(ctx, simplex.Limits{Cutoff: most, HasCutoff: !math.IsInf(most, 1)})
}

func (x *Relaxation) solve(ctx context.Context, limits simplex.Limits) simplex.Result {
	afresh := false
	for {
		result := x.wide(nearlyOptimal(x.Solver.Solve(ctx, limits)))
		x.Spent += int64(result.Iterations)
		switch {
		case result.Status == simplex.Numerical && !afresh:
			// Rows and columns that came late are scaled better from the start.
			afresh = true
			if x.again() != nil {
				return result
			}
		case result.Status != simplex.Optimal || !x.takeIn(result.X):
			return result
		}
	}
}

// nearlyOptimal takes a point that keeps its rows, and whose value the proven
// bound nearly confirms, for an optimum. Among grams and packs, multipliers of
// 1e-8 add up to more than the simplex method lets pass; the bound counts them.
func nearlyOptimal(r simplex.Result) simplex.Result {
	if r.Status == simplex.Numerical && r.HasBound && r.PrimalResidual <= ration.CheckTolerance &&
		math.Abs(r.Value-r.Bound) <= relaxedGap*math.Max(1, math.Abs(r.Value)) {
		r.Status = simplex.Optimal
	}
	return r
}

// again makes the solver anew with the rows, columns, bounds and costs that it
// has now.
func (x *Relaxation) again() error {
	now := &linear.Problem{Maximize: x.problem.Maximize, Offset: x.problem.Offset}
	for i := range x.Solver.Rows() {
		lower, upper := x.Solver.RowBounds(i)
		now.AddRow("", lower, upper)
	}
	for j := range x.Solver.Cols() {
		lower, upper := x.Solver.Bounds(j)
		now.AddCol("", x.Solver.Cost(j), lower, upper, false)
	}
	for j, at := range x.colAt {
		if at < 0 {
			continue
		}
		for _, e := range x.problem.Cols[j].Entries {
			if x.At[e.Row] >= 0 {
				now.Cols[at].Entries = append(now.Cols[at].Entries, linear.Entry{Row: x.At[e.Row], Value: e.Value})
			}
		}
	}
	for _, held := range x.held {
		for k, j := range held.cols {
			now.Cols[j].Entries = append(now.Cols[j].Entries, linear.Entry{Row: held.row, Value: held.values[k]})
		}
	}
	for j := range now.Cols {
		now.Cols[j].Entries = model.Merged(now.Cols[j].Entries)
	}
	solver, err := simplex.New(now)
	if err == nil {
		x.Solver = solver
	}
	return err
}

// takeIn adds the rows left out that point violates, and reports whether there
// were any.
func (x *Relaxation) takeIn(point []float64) bool {
	added := false
	for i := range x.At { // rows that were added to the problem since are no part of this
		row := x.problem.Rows[i]
		if x.At[i] >= 0 || free(row) {
			continue
		}
		cols, values := x.rows.Row(i)
		total, size := 0.0, 1.0
		for k, j := range cols {
			total += values[k] * point[j]
			size = math.Max(size, math.Abs(values[k]*point[j]))
		}
		if total >= row.Lower-lazyTolerance*size && total <= row.Upper+lazyTolerance*size {
			continue
		}
		x.addLate(i)
		added = true
	}
	return added
}

// wide puts the figures of a result in the order of the problem's rows and
// columns; what is left out has none.
func (x *Relaxation) wide(result simplex.Result) simplex.Result {
	result.Dual = spread(result.Dual, x.At)
	result.RowValue = spread(result.RowValue, x.At)
	result.X = spread(result.X, x.colAt)
	result.Reduced = spread(result.Reduced, x.colAt)
	if result.Status == simplex.Infeasible {
		result.Ray = spread(result.Ray, x.At)
	}
	return result
}

// spread gives each place in at its figure of v, zero where it has none.
func spread(v []float64, at []int) []float64 {
	if v == nil {
		return nil
	}
	out := make([]float64, len(at))
	for i, k := range at {
		if k >= 0 && k < len(v) {
			out[i] = v[k]
		}
	}
	return out
}

package branch

import (
	"context"
	"math"
	"slices"

	"rationwright/solver/linear"
	"rationwright/solver/simplex"
)

// relaxation is one worker's linear relaxation of the space, a restricted master
// (P. Gilmore and R. Gomory, A linear programming approach to the cutting-stock
// problem, Operations Research 9 (1961)). It may hold fewer
// columns and rows than the space: a column left out rests at its root lower
// bound and is priced after each solve, a row left out is checked after each
// solve, and whatever is needed is appended and the solve goes on. So every
// outcome is one of the whole space.
//
// Only columns whose root lower bound is zero are left out, unless they are
// fixed for good: then the rows carry their share.
//
// Columns and rows have global indices (those of the space) and local ones
// (those of lp, in the order in which they were appended); only this file
// knows the local ones.
type relaxation struct {
	*space
	lp        *simplex.Solver
	colLocal  []int // −1: left out
	colGlobal []int
	rowLocal  []int // −1: left out
	rowGlobal []int

	blocks  []int // rows left out as blocks
	blockOf []int // per column: the block it is in, −1 none; nil without blocks

	lower, upper []float64 // the box of the node in hand, per column
	entries      int       // non-zeros of lp, about
	moved        []int     // columns whose box differs from the root's
	isMoved      []bool

	work     int64 // simplex iterations so far
	effort   int64 // estimated time so far, see effortOf
	x        []float64
	reduced  []float64
	activity []float64 // scratch of rowsIn
}

// outcome is what one solve of a relaxation says about its box. x and reduced
// are buffers of the relaxation and hold until its next solve.
type outcome struct {
	status  simplex.Status // Limit: iterations, cutoff or cancellation
	value   float64        // objective of x, when Optimal
	bound   float64        // valid lower bound over the box; +Inf when Infeasible
	inside  float64        // the same without what the columns left out may take from it
	x       []float64      // per column, when Optimal
	reduced []float64      // per column, c − yA, whenever bound is from duals
	rows    []int          // rows the duals below belong to
	duals   []float64      // duals, or the ray when Infeasible
}

// newRelaxation builds the relaxation with the given columns and rows; nil means
// all that are not settled (fixed columns, rows without sides).
func newRelaxation(s *space, keepCol, keepRow func(int) bool) (*relaxation, error) {
	r := &relaxation{space: s, colLocal: make([]int, s.n), rowLocal: make([]int, s.m+len(s.cuts)),
		lower: append([]float64(nil), s.lower...), upper: append([]float64(nil), s.upper...),
		isMoved: make([]bool, s.n), x: make([]float64, s.n), reduced: make([]float64, s.n)}
	p := &linear.Problem{}
	for i := range r.rowLocal {
		r.rowLocal[i] = -1
		_, lo, up := s.rowTerms(i)
		if math.IsInf(lo, -1) && math.IsInf(up, 1) || keepRow != nil && !keepRow(i) {
			continue
		}
		r.rowLocal[i] = p.AddRow("", lo, up)
		r.rowGlobal = append(r.rowGlobal, i)
	}
	entries := make([][]linear.Entry, s.n)
	for k, i := range r.rowGlobal {
		terms, _, _ := s.rowTerms(i)
		for _, t := range terms {
			entries[t.col] = append(entries[t.col], linear.Entry{Row: k, Value: t.value})
		}
	}
	for j := range r.colLocal {
		r.colLocal[j] = -1
		out := s.fixed(j) || keepCol != nil && !keepCol(j) && s.lower[j] == 0
		if out {
			if v := s.lower[j]; v != 0 {
				p.Offset += s.cost[j] * v
				for _, e := range entries[j] {
					p.Rows[e.Row].Lower -= e.Value * v
					p.Rows[e.Row].Upper -= e.Value * v
				}
			}
			continue
		}
		r.colLocal[j] = p.AddCol("", s.cost[j], s.lower[j], s.upper[j], false)
		p.Cols[r.colLocal[j]].Entries = entries[j]
		r.entries += len(entries[j])
		r.colGlobal = append(r.colGlobal, j)
	}
	lp, err := simplex.New(p)
	if err != nil {
		return nil, err
	}
	r.lp = lp
	return r, nil
}

// eager says whether row i stands in the relaxation from the start: rows that
// the caller marks as lazy come in when a point breaks them.
func (s *space) eager(i int) bool { return i >= s.m || !s.orig.Rows[i].Lazy }

// clone returns a relaxation that shares only the space.
func (r *relaxation) clone() *relaxation {
	c := *r
	c.lp = r.lp.Clone()
	c.colLocal = append([]int(nil), r.colLocal...)
	c.colGlobal = append([]int(nil), r.colGlobal...)
	c.rowLocal = append([]int(nil), r.rowLocal...)
	c.rowGlobal = append([]int(nil), r.rowGlobal...)
	c.blocks = append([]int(nil), r.blocks...)
	c.blockOf = append([]int(nil), r.blockOf...)
	c.lower = append([]float64(nil), r.lower...)
	c.upper = append([]float64(nil), r.upper...)
	c.moved = append([]int(nil), r.moved...)
	c.isMoved = append([]bool(nil), r.isMoved...)
	c.x = make([]float64, r.n)
	c.reduced = make([]float64, r.n)
	c.activity = nil
	c.work, c.effort = 0, 0
	return &c
}

// set gives column j the box [lower, upper] until the next reset.
func (r *relaxation) set(j int, lower, upper float64) {
	if lower == r.lower[j] && upper == r.upper[j] {
		return
	}
	r.lower[j], r.upper[j] = lower, upper
	if !r.isMoved[j] {
		r.isMoved[j] = true
		r.moved = append(r.moved, j)
	}
	if k := r.colLocal[j]; k >= 0 {
		r.lp.SetBounds(k, lower, upper)
	} else if lower != r.space.lower[j] {
		r.bring(j)
	}
}

// reset takes the box back to the root's.
func (r *relaxation) reset() {
	for _, j := range r.moved {
		r.isMoved[j] = false
		r.lower[j], r.upper[j] = r.space.lower[j], r.space.upper[j]
		if k := r.colLocal[j]; k >= 0 {
			r.lp.SetBounds(k, r.lower[j], r.upper[j])
		}
	}
	r.moved = r.moved[:0]
}

// rootMoved tells the relaxation that the root bounds of column j changed.
func (r *relaxation) rootMoved(j int) {
	if r.isMoved[j] {
		return // reset will pick it up
	}
	r.lower[j], r.upper[j] = r.space.lower[j], r.space.upper[j]
	if k := r.colLocal[j]; k >= 0 {
		r.lp.SetBounds(k, r.lower[j], r.upper[j])
	}
}

// bring brings a column that was left out into the relaxation, with its block
// if it is in one.
func (r *relaxation) bring(j int) {
	if r.blockOf != nil && r.blockOf[j] >= 0 {
		r.bringBlock(r.blockOf[j])
	}
	if r.colLocal[j] < 0 {
		r.appendColumn(j)
	}
}

// appendColumn brings a column that was left out into the relaxation.
func (r *relaxation) appendColumn(j int) {
	c := linear.Col{Cost: r.cost[j], Lower: r.lower[j], Upper: r.upper[j]}
	for k, i := range r.rowGlobal { // ascending k
		terms, _, _ := r.rowTerms(i)
		if v := coefficientOf(terms, j); v != 0 {
			c.Entries = append(c.Entries, linear.Entry{Row: k, Value: v})
		}
	}
	k, err := r.lp.AddCol(c)
	if err != nil {
		return // the numbers were checked when the first relaxation was built
	}
	r.entries += len(c.Entries)
	r.colLocal[j] = k
	r.colGlobal = append(r.colGlobal, j)
}

// appendRow brings a row of the space into the relaxation, or a new cut.
func (r *relaxation) appendRow(i int) {
	if slices.Contains(r.blocks, i) {
		r.bringBlock(i)
		return
	}
	terms, lo, up := r.rowTerms(i)
	var cols []int
	var values []float64
	shift := 0.0
	for _, t := range terms {
		if k := r.colLocal[t.col]; k >= 0 {
			cols = append(cols, k)
			values = append(values, t.value)
		} else {
			shift += t.value * r.space.lower[t.col]
		}
	}
	r.entries += len(cols)
	for len(r.rowLocal) <= i {
		r.rowLocal = append(r.rowLocal, -1)
	}
	r.rowLocal[i] = r.lp.AddRow(lo-shift, up-shift, cols, values)
	r.rowGlobal = append(r.rowGlobal, i)
}

// solve solves the relaxation over the box in hand, bringing in what is
// missing. It stops early once the bound passes cutoff (+Inf: never) or after
// limit iterations (0: never).
func (r *relaxation) solve(ctx context.Context, cutoff float64, limit int) outcome {
	used := 0
	for {
		lim := simplex.Limits{Iterations: limit}
		if limit > 0 {
			lim.Iterations = max(1, limit-used)
		}
		if !math.IsInf(cutoff, 1) {
			lim.Cutoff, lim.HasCutoff = cutoff, true
		}
		res := r.lp.Solve(ctx, lim)
		used += res.Iterations
		r.work += int64(res.Iterations)
		r.effort += r.effortOf(res.Iterations)
		out := outcome{status: res.Status, bound: math.Inf(-1), rows: r.rowGlobal}
		switch res.Status {
		case simplex.Infeasible:
			out.duals = res.Ray
			r.price(out.rows, out.duals, true, r.reduced)
			r.chooseMultipliers(&out)
			if r.sumUp(out.rows, out.duals, r.lower, r.upper, r.reduced) > 0 {
				out.bound = math.Inf(1)
				return out
			}
			if r.priceIn(true) {
				continue
			}
			out.status = simplex.Numerical
			return out
		case simplex.Optimal:
			r.spread(res.X)
			if r.rowsIn() {
				continue
			}
			out.value, out.x = res.Value, r.x
		case simplex.Limit:
		default:
			return out
		}
		if len(res.Dual) == len(out.rows) {
			out.duals = res.Dual
			r.price(out.rows, out.duals, false, r.reduced)
			r.chooseMultipliers(&out)
			out.bound = r.sumUp(out.rows, out.duals, r.lower, r.upper, r.reduced)
			out.reduced = r.reduced
			out.inside = out.bound
			if res.HasBound {
				out.inside = res.Bound
			}
			// Duals of a solve that was cut short price nothing reliably, unless
			// they seem to prove the cutoff.
			if (res.Status == simplex.Optimal || out.inside >= cutoff && out.bound < cutoff) && r.priceIn(false) {
				continue
			}
		}
		return out
	}
}

// effortOf estimates the time of one solve from the size of the relaxation, in
// units of about 25 ns: what two workers do side by side should take equally
// long, and it must not depend on a clock. An iteration solves with the factor
// a few times, prices a row and updates vectors; each solve also sets up and
// certifies.
func (r *relaxation) effortOf(iterations int) int64 {
	m, n := len(r.rowGlobal), len(r.colGlobal)
	return int64(iterations*(3*m+n+r.entries/4) + 2*r.entries + 4*(m+n))
}

// spread writes the solution of lp into x, with the columns left out at their
// root lower bounds.
func (r *relaxation) spread(local []float64) {
	if len(r.colGlobal) < r.n {
		copy(r.x, r.space.lower)
	}
	for k, j := range r.colGlobal {
		r.x[j] = local[k]
	}
}

// priceIn appends the columns left out whose reduced cost takes from the
// bound, and says whether there were any.
func (r *relaxation) priceIn(ray bool) bool {
	if len(r.colGlobal) == r.n {
		return false
	}
	any := false
	for j, d := range r.reduced {
		if r.colLocal[j] >= 0 || r.upper[j] <= r.lower[j] {
			continue
		}
		if d < -priceTol*(1+math.Abs(r.cost[j])) || ray && d < 0 {
			r.bring(j)
			any = true
		}
	}
	return any
}

// rowsIn appends the rows left out that x breaks, and says whether there were
// any. Most columns are at zero: adding up the others for all rows at once costs
// a tenth of going through row after row.
func (r *relaxation) rowsIn() bool {
	sums := r.activity
	if sums == nil {
		sums = make([]float64, r.m)
		r.activity = sums
	}
	clear(sums)
	for j, v := range r.x {
		if v != 0 {
			for _, e := range r.cols[j] {
				sums[e.Row] += e.Value * v
			}
		}
	}
	any := false
	for i, k := range r.rowLocal {
		if k >= 0 {
			continue
		}
		terms, lo, up := r.rowTerms(i)
		if math.IsInf(lo, -1) && math.IsInf(up, 1) || i < r.m && sums[i] >= lo && sums[i] <= up {
			continue
		}
		var sum rowSum
		for _, t := range terms {
			sum.add(t.value, r.x[t.col], false)
		}
		if !sum.within(lo, up, lazyShare) {
			r.appendRow(i)
			any = true
		}
	}
	return any
}

package branch

import (
	"math"
	"slices"

	"rationwright/solver/linear"
)

// term is one non-zero coefficient of a row.
type term struct {
	col   int
	value float64
}

// program is a linear.Problem in the shape the search works on: always a
// minimisation, held by column and by row, with bounds and coefficients that
// presolve may tighten. Columns and rows keep the indices of the original, so
// that every dual, leaf and cut can be traced back to it.
type program struct {
	orig  *linear.Problem
	sign  float64 // +1 when orig minimises, −1 when it maximises
	n, m  int
	cost  []float64 // sign · Cost
	lower []float64
	upper []float64
	// impliedLower and impliedUpper also hold what the rows imply for
	// continuous columns. The relaxation does not get them as bounds; they only
	// close the box over which a dual bound is taken.
	impliedLower []float64
	impliedUpper []float64
	integer      []bool
	integers     []int // indices of the integer columns, ascending
	rowLower     []float64
	rowUpper     []float64
	rows         [][]term
	cols         [][]linear.Entry
	// upLocked and downLocked say that some row may break when the column moves
	// that way.
	upLocked, downLocked []bool
	held                 [][]int // see findVariableBounds
	// step > 0: the objective of every integer-feasible point is a multiple of
	// step, so that bounds round up.
	step float64
	log  []reduction // what presolve did, in order
}

// newProgram copies p. It does not change p and keeps a pointer to it.
func newProgram(p *linear.Problem) *program {
	g := &program{orig: p, sign: 1, n: len(p.Cols), m: len(p.Rows)}
	if p.Maximize {
		g.sign = -1
	}
	g.cost = make([]float64, g.n)
	g.lower = make([]float64, g.n)
	g.upper = make([]float64, g.n)
	g.impliedLower = make([]float64, g.n)
	g.impliedUpper = make([]float64, g.n)
	g.integer = make([]bool, g.n)
	g.cols = make([][]linear.Entry, g.n)
	g.rows = make([][]term, g.m)
	g.rowLower = make([]float64, g.m)
	g.rowUpper = make([]float64, g.m)
	count := make([]int, g.m)
	for j := range p.Cols {
		c := &p.Cols[j]
		g.cost[j] = g.sign * c.Cost
		g.lower[j], g.upper[j] = c.Lower, c.Upper
		g.impliedLower[j], g.impliedUpper[j] = c.Lower, c.Upper
		g.integer[j] = c.Integer
		if c.Integer {
			g.integers = append(g.integers, j)
		}
		g.cols[j] = append([]linear.Entry(nil), c.Entries...)
		for _, e := range c.Entries {
			count[e.Row]++
		}
	}
	for i := range p.Rows {
		g.rows[i] = make([]term, 0, count[i])
		g.rowLower[i], g.rowUpper[i] = p.Rows[i].Lower, p.Rows[i].Upper
	}
	for j := range g.cols {
		for _, e := range g.cols[j] {
			g.rows[e.Row] = append(g.rows[e.Row], term{j, e.Value})
		}
	}
	return g
}

// setCoefficient changes one coefficient in both views.
func (g *program) setCoefficient(row, col int, value float64) {
	if k, ok := find(g.rows[row], col); ok {
		g.rows[row][k].value = value
	}
	for k := range g.cols[col] {
		if g.cols[col][k].Row == row {
			g.cols[col][k].Value = value
			break
		}
	}
}

// fixed says whether column j has one value left.
func (g *program) fixed(j int) bool { return g.upper[j] <= g.lower[j] }

// outside turns a search value into the original objective.
func (g *program) outside(v float64) float64 { return g.sign*v + g.orig.Offset }

// inside turns an original objective into a search value.
func (g *program) inside(v float64) float64 { return g.sign * (v - g.orig.Offset) }

// findStep looks for a step that every integer-feasible objective is a multiple
// of: all columns with a cost are integer and their costs are multiples of one
// number. Costs with up to four decimals are recognised.
func (g *program) findStep() {
	const scale = 1e4
	var gcd int64
	for j, c := range g.cost {
		if math.Abs(c) < 1e-12 {
			continue
		}
		if g.fixed(j) {
			return // its constant would shift the multiples
		}
		if !g.integer[j] {
			return
		}
		s := math.Abs(c) * scale
		r := math.Round(s)
		if r < 1 || r > 1e12 || math.Abs(s-r) > 1e-7*math.Max(1, s)*1e-3 {
			return
		}
		a, b := int64(r), gcd
		for b != 0 {
			a, b = b, a%b
		}
		gcd = a
	}
	if gcd > 0 {
		g.step = float64(gcd) / scale
	}
}

// roundUp raises a bound to the next objective value that an integer-feasible
// point can have.
func (g *program) roundUp(bound float64) float64 {
	if g.step <= 0 || math.IsInf(bound, 0) {
		return bound
	}
	up := math.Ceil(bound/g.step-stepTol) * g.step
	return math.Max(bound, up)
}

// find returns where column j is in terms that ascend by column.
func find(terms []term, j int) (int, bool) {
	return slices.BinarySearchFunc(terms, j, func(t term, j int) int { return t.col - j })
}

// coefficientOf returns the coefficient of column j in such terms.
func coefficientOf(terms []term, j int) float64 {
	if k, ok := find(terms, j); ok {
		return terms[k].value
	}
	return 0
}

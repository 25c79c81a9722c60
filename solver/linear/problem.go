package linear

import "math"

// Inf is the bound that stands for "none".
var Inf = math.Inf(1)

// Problem is a linear or mixed-integer program as plain data:
//
//	minimise (or maximise)  Offset + Σ_j Cols[j].Cost · x_j
//	subject to              Rows[i].Lower ≤ Σ_j a_ij x_j ≤ Rows[i].Upper
//	                        Cols[j].Lower ≤ x_j ≤ Cols[j].Upper
//	                        x_j integer where Cols[j].Integer
//
// The coefficients live with their column, sorted by row. A Problem knows rows
// and columns only, never what they stand for.
type Problem struct {
	Name     string
	Maximize bool
	Offset   float64
	Cols     []Col
	Rows     []Row
}

// Col is one column: a variable with its objective coefficient, its bounds
// (±Inf for none) and its non-zero coefficients, ascending by row.
type Col struct {
	Name         string
	Cost         float64
	Lower, Upper float64
	Integer      bool
	Entries      []Entry
}

// Row is one constraint row; ±Inf stands for no bound on that side.
type Row struct {
	Name         string
	Lower, Upper float64

	// Lazy is a hint that the row seldom binds: a solver may keep it out of its
	// relaxations until a point violates it. It changes no answer, and no file
	// format carries it.
	Lazy bool
}

// Entry is one non-zero coefficient of a column.
type Entry struct {
	Row   int
	Value float64
}

// AddRow appends a row and returns its index.
func (p *Problem) AddRow(name string, lower, upper float64) int {
	p.Rows = append(p.Rows, Row{Name: name, Lower: lower, Upper: upper})
	return len(p.Rows) - 1
}

// AddCol appends a column without coefficients and returns its index.
func (p *Problem) AddCol(name string, cost, lower, upper float64, integer bool) int {
	p.Cols = append(p.Cols, Col{Name: name, Cost: cost, Lower: lower, Upper: upper, Integer: integer})
	return len(p.Cols) - 1
}

// ClearCosts takes the objective away: every point is as good as another.
func (p *Problem) ClearCosts() {
	for j := range p.Cols {
		p.Cols[j].Cost = 0
	}
}

// CostAt returns Σ_j Cols[j].Cost · x_j, without the offset.
func (p *Problem) CostAt(x []float64) float64 {
	total := 0.0
	for j := range p.Cols {
		total += p.Cols[j].Cost * x[j]
	}
	return total
}

// Set appends the coefficient of column col in row row. Rows of one column
// must be added in ascending order; a zero value is dropped.
func (p *Problem) Set(row, col int, value float64) {
	if value == 0 {
		return
	}
	p.Cols[col].Entries = append(p.Cols[col].Entries, Entry{Row: row, Value: value})
}

package linear

import (
	"fmt"
	"math"
	"strings"
)

// Huge is the size from which a finite bound is refused: other programs, and
// the MPS format, take 1e30 for "none", so a bound of that size is a slip for
// [Inf].
const Huge = 1e30

// A Finding is one thing wrong with a [Problem]. Row and Col are the indices it
// is about, −1 where it is about neither.
type Finding struct {
	Row, Col int
	Where    string // `row 3 "iron"`, `column 7 "rice"`, `column 7 "rice", row 3 "iron"`
	What     string // what is wrong; what to do
}

// Error returns the finding as "where: what".
func (f Finding) Error() string { return f.Where + ": " + f.What }

// Findings is the error of [Problem.Validate]: everything that is wrong, rows
// before columns, each in index order.
type Findings []Finding

// Error returns one finding a line.
func (fs Findings) Error() string { return lines(fs) }

// Unwrap lets [errors.As] reach each [Finding].
func (fs Findings) Unwrap() []error { return each(fs) }

// Validate returns nil if p is well formed and [Findings] with all that is
// wrong otherwise: NaN anywhere, an infinite cost, coefficient or offset, a
// bound on the wrong side of infinity or of [Huge] size, crossed bounds, empty
// or repeated names, and coefficients that are zero, repeated, out of row order
// or in no row. A program that no point can satisfy may still be valid.
func (p *Problem) Validate() error {
	v := validator{p: p}
	if !finite(p.Offset) {
		v.add(-1, -1, "offset is %v; it must be a finite number", p.Offset)
	}
	seen := make(map[string]int, len(p.Rows))
	for i, r := range p.Rows {
		v.name(i, -1, "row", r.Name, seen, i)
		v.bounds(i, -1, r.Lower, r.Upper)
	}
	seen = make(map[string]int, len(p.Cols))
	for j := range p.Cols {
		c := &p.Cols[j]
		v.name(-1, j, "column", c.Name, seen, j)
		if !finite(c.Cost) {
			v.add(-1, j, "cost is %v; it must be a finite number", c.Cost)
		}
		v.bounds(-1, j, c.Lower, c.Upper)
		v.entries(j)
	}
	if len(v.found) == 0 {
		return nil
	}
	return v.found
}

type validator struct {
	p     *Problem
	found Findings
}

func (v *validator) add(row, col int, format string, args ...any) {
	v.found = append(v.found, Finding{Row: row, Col: col, Where: v.where(row, col), What: fmt.Sprintf(format, args...)})
}

// where names a row, a column, or a row of a column.
func (v *validator) where(row, col int) string {
	var parts []string
	if col >= 0 {
		parts = append(parts, fmt.Sprintf("column %d %q", col, v.p.Cols[col].Name))
	}
	if row >= 0 {
		parts = append(parts, fmt.Sprintf("row %d %q", row, v.p.Rows[row].Name))
	}
	if len(parts) == 0 {
		return "objective"
	}
	return strings.Join(parts, ", ")
}

func (v *validator) name(row, col int, kind, name string, seen map[string]int, index int) {
	if name == "" {
		v.add(row, col, "has no name; every %s needs one", kind)
		return
	}
	if first, ok := seen[name]; ok {
		v.add(row, col, "has the name of %s %d; names must differ", kind, first)
		return
	}
	seen[name] = index
}

func (v *validator) bounds(row, col int, lower, upper float64) {
	side := func(name, none string, bound, wrong float64) {
		switch {
		case math.IsNaN(bound):
			v.add(row, col, "%s bound is NaN; give a number, or %s for none", name, none)
		case bound == wrong:
			v.add(row, col, "%s bound is %v; give a number, or %s for none", name, wrong, none)
		case !math.IsInf(bound, 0) && math.Abs(bound) >= Huge:
			v.add(row, col, "%s bound is %g; give %s for none", name, bound, none)
		}
	}
	side("lower", "-Inf", lower, Inf)
	side("upper", "+Inf", upper, -Inf)
	if lower > upper {
		v.add(row, col, "bounds cross: lower %g is above upper %g", lower, upper)
	}
}

func (v *validator) entries(j int) {
	last := -1
	var in map[int]bool // rows seen, made only once the order breaks
	entries := v.p.Cols[j].Entries
	for k, e := range entries {
		if e.Row < 0 || e.Row >= len(v.p.Rows) {
			v.found = append(v.found, Finding{Row: -1, Col: j, Where: fmt.Sprintf("%s, row %d", v.where(-1, j), e.Row),
				What: fmt.Sprintf("there is no such row; there are %d", len(v.p.Rows))})
			continue
		}
		switch {
		case !finite(e.Value):
			v.add(e.Row, j, "coefficient is %v; it must be a finite number", e.Value)
		case e.Value == 0:
			v.add(e.Row, j, "coefficient is zero; leave it out")
		}
		if e.Row > last && in == nil {
			last = e.Row
			continue
		}
		if in == nil {
			in = make(map[int]bool)
			for _, before := range entries[:k] {
				in[before.Row] = true
			}
		}
		switch {
		case in[e.Row]:
			v.add(e.Row, j, "has a second coefficient; add them up")
		case e.Row < last:
			v.add(e.Row, j, "comes after row %d; sort a column's coefficients by row", last)
		}
		in[e.Row] = true
		last = max(last, e.Row)
	}
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

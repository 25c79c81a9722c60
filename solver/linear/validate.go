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
func (fs Findings) Error() string {
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = f.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap lets [errors.As] reach each [Finding].
func (fs Findings) Unwrap() []error {
	errs := make([]error, len(fs))
	for i, f := range fs {
		errs[i] = f
	}
	return errs
}

// Validate returns nil if p is well formed and [Findings] with all that is
// wrong otherwise: NaN anywhere, an infinite cost, coefficient or offset, a
// bound on the wrong side of infinity or of [Huge] size, crossed bounds, empty
// or repeated names, and coefficients that are zero, repeated, out of row order
// or in no row. A program that no point can satisfy may still be valid.
func (p *Problem) Validate() error {
	var v validator
	if !finite(p.Offset) {
		v.add(-1, -1, "objective", "offset is %v; it must be a finite number", p.Offset)
	}
	seen := make(map[string]int, len(p.Rows))
	for i, r := range p.Rows {
		where := fmt.Sprintf("row %d %q", i, r.Name)
		v.name(i, -1, where, "row", r.Name, seen, i)
		v.bounds(i, -1, where, r.Lower, r.Upper)
	}
	seen = make(map[string]int, len(p.Cols))
	for j := range p.Cols {
		c := &p.Cols[j]
		where := fmt.Sprintf("column %d %q", j, c.Name)
		v.name(-1, j, where, "column", c.Name, seen, j)
		if !finite(c.Cost) {
			v.add(-1, j, where, "cost is %v; it must be a finite number", c.Cost)
		}
		v.bounds(-1, j, where, c.Lower, c.Upper)
		v.entries(p, j, where)
	}
	if len(v.found) == 0 {
		return nil
	}
	return v.found
}

type validator struct{ found Findings }

func (v *validator) add(row, col int, where, format string, args ...any) {
	v.found = append(v.found, Finding{Row: row, Col: col, Where: where, What: fmt.Sprintf(format, args...)})
}

func (v *validator) name(row, col int, where, kind, name string, seen map[string]int, index int) {
	if name == "" {
		v.add(row, col, where, "has no name; every %s needs one", kind)
		return
	}
	if first, ok := seen[name]; ok {
		v.add(row, col, where, "has the name of %s %d; names must differ", kind, first)
		return
	}
	seen[name] = index
}

func (v *validator) bounds(row, col int, where string, lower, upper float64) {
	switch {
	case math.IsNaN(lower):
		v.add(row, col, where, "lower bound is NaN; give a number, or -Inf for none")
	case lower == Inf:
		v.add(row, col, where, "lower bound is +Inf; give a number, or -Inf for none")
	case !math.IsInf(lower, 0) && math.Abs(lower) >= Huge:
		v.add(row, col, where, "lower bound is %g; give -Inf for none", lower)
	}
	switch {
	case math.IsNaN(upper):
		v.add(row, col, where, "upper bound is NaN; give a number, or +Inf for none")
	case upper == -Inf:
		v.add(row, col, where, "upper bound is -Inf; give a number, or +Inf for none")
	case !math.IsInf(upper, 0) && math.Abs(upper) >= Huge:
		v.add(row, col, where, "upper bound is %g; give +Inf for none", upper)
	}
	if lower > upper {
		v.add(row, col, where, "bounds cross: lower %g is above upper %g", lower, upper)
	}
}

func (v *validator) entries(p *Problem, j int, where string) {
	last := -1
	var in map[int]bool // rows seen, made only once the order breaks
	for k, e := range p.Cols[j].Entries {
		at := fmt.Sprintf("%s, row %d", where, e.Row)
		if e.Row < 0 || e.Row >= len(p.Rows) {
			v.add(-1, j, at, "there is no such row; there are %d", len(p.Rows))
			continue
		}
		at = fmt.Sprintf("%s %q", at, p.Rows[e.Row].Name)
		switch {
		case !finite(e.Value):
			v.add(e.Row, j, at, "coefficient is %v; it must be a finite number", e.Value)
		case e.Value == 0:
			v.add(e.Row, j, at, "coefficient is zero; leave it out")
		}
		if e.Row > last && in == nil {
			last = e.Row
			continue
		}
		if in == nil {
			in = make(map[int]bool)
			for _, before := range p.Cols[j].Entries[:k] {
				in[before.Row] = true
			}
		}
		switch {
		case in[e.Row]:
			v.add(e.Row, j, at, "has a second coefficient; add them up")
		case e.Row < last:
			v.add(e.Row, j, at, "comes after row %d; sort a column's coefficients by row", last)
		}
		in[e.Row] = true
		last = max(last, e.Row)
	}
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

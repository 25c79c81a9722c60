package linear

import (
	"fmt"
	"math"
	"math/big"
	"slices"
	"strings"
)

// rightHandSide takes the right-hand sides of a line.
func (r *mpsReader) rightHandSide(rec record) {
	for _, pr := range rec.pairs {
		i, ok := r.rowOf(pr.name)
		v, isNumber := r.number(pr.value, "right-hand side")
		if !ok || !isNumber || i == droppedRow {
			continue
		}
		given := &r.offsetLine
		if i >= 0 {
			given = &r.rowData[i].rhsLine
		}
		if *given > 0 {
			r.fail(pr.name, "right-hand side", fmt.Sprintf("the row has one already, on line %d", *given), "keep one")
			continue
		}
		*given = r.line
		if i == objectiveRow {
			r.p.Offset = 0 - v // the convention: minus the constant
		} else {
			r.rowData[i].rhs = v
		}
	}
}

// span takes the ranges of a line.
func (r *mpsReader) span(rec record) {
	for _, pr := range rec.pairs {
		i, ok := r.rowOf(pr.name)
		v, isNumber := r.number(pr.value, "range")
		switch {
		case !ok || !isNumber || i == droppedRow:
		case i == objectiveRow:
			r.fail(pr.name, "range", "the objective row has no bounds", "delete the range")
		case r.rowData[i].spanLine > 0:
			r.fail(pr.name, "range", fmt.Sprintf("the row has one already, on line %d", r.rowData[i].spanLine), "keep one")
		default:
			d := &r.rowData[i]
			d.span, d.spanField, d.spanLine = v, pr.value, r.line
		}
	}
}

// bound takes the bound of a line.
func (r *mpsReader) bound(rec record) {
	kind := strings.ToUpper(rec.code.text)
	at := rec.pairs[0]
	j, ok := r.cols[r.unescape(at.name.text)]
	if !ok {
		r.fail(at.name, "column", "there is no such column", "declare it in COLUMNS, or correct the name")
	}
	switch kind {
	case "UP", "LO", "FX", "FR", "MI", "PL", "BV", "LI", "UI":
	case "SC", "SI":
		r.fail(rec.code, "bound type", "semi-continuous columns are not supported",
			"model it with a binary column z and a row x <= upper z")
		return
	default:
		r.fail(rec.code, "bound type", "not a bound type", "write UP, LO, FX, FR, MI, PL, BV, LI or UI")
		return
	}
	var v float64
	if !takesNoValue[kind] {
		var isNumber bool
		if v, isNumber = r.number(at.value, "bound"); !isNumber {
			return
		}
	}
	if !ok {
		return
	}
	d := &r.colData[j]
	if slices.Contains(d.types, kind) {
		r.fail(at.name, "bound", "the column has a bound "+kind+" already", "keep one")
		return
	}
	d.types = append(d.types, kind)
	d.boundLine = r.line
	r.setBound(j, kind, v, at.value)
}

func (r *mpsReader) setBound(j int, kind string, v float64, at field) {
	c, d := &r.p.Cols[j], &r.colData[j]
	whole := kind == "LI" || kind == "UI"
	c.Integer = c.Integer || whole || kind == "BV"
	if whole && v != math.Trunc(v) {
		r.fail(at, "bound", "not a whole number, as "+kind+" asks", "round it, or use LO or UP")
	}
	switch kind {
	case "LO", "LI":
		if v >= Huge {
			r.fail(at, "bound", "a lower bound of plus infinity", "write the smallest value of the column")
		}
		c.Lower = endless(v)
	case "UP", "UI":
		if v <= -Huge {
			r.fail(at, "bound", "an upper bound of minus infinity", "write the largest value of the column")
		}
		c.Upper = endless(v)
		if v < 0 && c.Lower == 0 && !d.lowerGiven {
			c.Lower = -Inf
			r.note(r.line, "column %q has a negative upper bound and no lower one: taken to have none", c.Name)
		}
	case "FX":
		if none(v) {
			r.fail(at, "bound", "fixed at infinity", "write the value of the column")
		}
		c.Lower, c.Upper = v, v
	case "FR":
		c.Lower, c.Upper = -Inf, Inf
	case "MI":
		c.Lower = -Inf
	case "PL":
		c.Upper = Inf
	case "BV":
		c.Lower, c.Upper = 0, 1
	}
	d.lowerGiven = d.lowerGiven || (kind != "UP" && kind != "UI" && kind != "PL")
}

// assemble turns kinds, right-hand sides and ranges into row bounds, and makes
// the checks that need the whole file.
func (r *mpsReader) assemble() {
	for i := range r.rowData {
		r.rowBounds(i)
	}
	for j := range r.p.Cols {
		c, d := &r.p.Cols[j], &r.colData[j]
		slices.SortFunc(c.Entries, func(a, b Entry) int { return a.Row - b.Row })
		if c.Lower > c.Upper {
			r.failAt(d.boundLine, field{c.Name, 1}, "bound",
				fmt.Sprintf("lower bound %g is above upper bound %g", c.Lower, c.Upper), "correct one of them")
		}
		if c.Integer && d.boundLine == 0 {
			r.note(d.line, "integer column %q has no bound: taken as 0 or more; some programs take 0 or 1, so give it one", c.Name)
		}
	}
	if r.objLine == 0 {
		r.note(r.seen["ROWS"], "there is no N row: the objective is zero")
	}
	if r.errors.count > 0 {
		return
	}
	// What is left to go wrong is a slip of this reader; say so rather than
	// hand on a broken problem.
	if err := r.p.Validate(); err != nil {
		r.errors.add(&SyntaxError{File: r.file, Line: r.line, Column: 1, Field: "model",
			Problem: "it is not well formed", Remedy: err.Error(), Err: err})
	}
}

func (r *mpsReader) rowBounds(i int) {
	row, d := &r.p.Rows[i], &r.rowData[i]
	// A right-hand side of 1e30 takes the bound of an L or G row away; nothing
	// else of that size makes sense.
	if none(d.rhs) && ((d.kind == 'L') != (d.rhs > 0) || d.kind == 'E' || d.spanLine > 0) {
		r.failAt(d.rhsLine, field{row.Name, 1}, "right-hand side",
			fmt.Sprintf("%g means none, which a row of type %c cannot have here", d.rhs, d.kind), "write a number")
		return
	}
	row.Lower, row.Upper = d.rhs, d.rhs
	up := d.kind == 'G' || (d.kind == 'E' && d.span >= 0)
	far := Inf
	if d.spanLine > 0 || d.kind == 'E' {
		far = math.Abs(d.span)
	}
	switch {
	case up && none(far):
		row.Upper = Inf
	case up:
		row.Upper = addSpan(d.rhs, far, d.spanField.text, 1)
	case none(far):
		row.Lower = -Inf
	default:
		row.Lower = addSpan(d.rhs, far, d.spanField.text, -1)
	}
	row.Lower, row.Upper = endless(row.Lower), endless(row.Upper)
}

// endless returns ±Inf for a bound that means none.
func endless(v float64) float64 {
	if none(v) {
		return math.Copysign(Inf, v)
	}
	return v
}

// addSpan returns base ± span. A span written with more digits than any float64
// needs is added as written and rounded once, so that [WriteMPS] can tell every
// pair of bounds exactly.
func addSpan(base, span float64, text string, sign float64) float64 {
	if significantDigits(text) > 17 {
		text = strings.NewReplacer("d", "e", "D", "e").Replace(strings.TrimLeft(text, "+-"))
		exact, _, err := big.ParseFloat(text, 10, spanPrecision, big.ToNearestEven)
		if err == nil {
			if sign < 0 {
				exact.Neg(exact)
			}
			v, _ := exact.Add(exact, big.NewFloat(base)).Float64()
			return v
		}
	}
	return base + sign*span
}

// spanPrecision is the precision, in bits, in which a long range is added: room
// for the sum of two bounds of like size with 75 bits to spare.
const spanPrecision = 128

func significantDigits(text string) int {
	mantissa, _, _ := strings.Cut(strings.ToLower(strings.ReplaceAll(strings.ToLower(text), "d", "e")), "e")
	n := 0
	for _, c := range mantissa {
		if c >= '1' && c <= '9' || (c == '0' && n > 0) {
			n++
		}
	}
	return n
}

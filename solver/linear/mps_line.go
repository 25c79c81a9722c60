package linear

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// A field is a stretch of an MPS line and the column, from 1, it starts in.
type field struct {
	text   string
	column int
}

// A record is one data line, whatever form it came in: a code (row type or
// bound type), a name (row, column, or vector; empty if the vector has none)
// and up to two pairs of a name and a number.
type record struct {
	code, name field
	pairs      []pair
}

type pair struct{ name, value field }

// fixedColumns are the first and last column of the six fields of fixed form.
var fixedColumns = [6][2]int{{2, 3}, {5, 12}, {15, 22}, {25, 36}, {40, 47}, {50, 61}}

// freeFields appends the fields of a free-form line to dst.
func freeFields(dst []field, line string) []field {
	for i := 0; i < len(line); {
		if line[i] == ' ' || line[i] == '\t' {
			i++
			continue
		}
		from := i
		for i < len(line) && line[i] != ' ' && line[i] != '\t' {
			i++
		}
		dst = append(dst, field{line[from:i], from + 1})
	}
	return dst
}

// fixedFields appends the six fields of a fixed-form line to dst, empty where
// the line has none. It returns the column of the first character that stands
// between two fields, 0 if none does.
func fixedFields(dst []field, line string) (fields []field, between int) {
	line = expandTabs(line)
	next := 1
	for k, c := range fixedColumns {
		for at := next; at < c[0] && at <= len(line); at++ {
			if line[at-1] != ' ' {
				return dst, at
			}
		}
		from, to := min(c[0]-1, len(line)), min(c[1], len(line))
		text := line[from:to]
		if (k == 2 || k == 4) && strings.HasPrefix(text, "$") {
			line, text = line[:from], "" // a comment fills the rest
		}
		lead := len(text) - len(strings.TrimLeft(text, " "))
		dst = append(dst, field{strings.Trim(text, " "), c[0] + lead})
		next = c[1] + 1
	}
	return dst, 0
}

// expandTabs puts each tab's text at the next multiple of eight columns.
func expandTabs(line string) string {
	if !strings.Contains(line, "\t") {
		return line
	}
	var b strings.Builder
	for i := 0; i < len(line); i++ {
		if line[i] != '\t' {
			b.WriteByte(line[i])
			continue
		}
		b.WriteString("        "[b.Len()%8:])
	}
	return b.String()
}

// takesNoValue lists the bound types that stand without a number.
var takesNoValue = map[string]bool{"FR": true, "MI": true, "PL": true, "BV": true}

// record reads line as one record of the reader's section.
func (r *mpsReader) record(line string) (rec record, ok bool) {
	if r.form == FixedForm {
		return r.fixedRecord(line)
	}
	r.fields = freeFields(r.fields[:0], line)
	fs := r.fields
	if r.section == "ROWS" || r.section == "BOUNDS" {
		rec.code, fs = fs[0], fs[1:]
	}
	switch r.section {
	case "ROWS":
		if len(fs) == 1 {
			rec.name = fs[0]
			return rec, true
		}
		return r.badCount(rec.code, "a row's type and its name")
	case "COLUMNS":
		if len(fs) == 3 || len(fs) == 5 {
			rec.name, rec.pairs = fs[0], r.pairsOf(fs[1:])
			return rec, true
		}
		return r.badCount(fs[0], "a column and one or two pairs of row and number")
	case "RHS", "RANGES":
		if len(fs) > 5 || len(fs) < 2 {
			return r.badCount(fs[0], "the vector's name and one or two pairs of row and number")
		}
		if len(fs)%2 == 1 {
			rec.name, fs = fs[0], fs[1:]
		}
		rec.pairs = r.pairsOf(fs)
		return rec, true
	}
	return r.freeBound(rec, fs)
}

// freeBound reads what follows the type of a bound: [vector] column [number].
func (r *mpsReader) freeBound(rec record, fs []field) (record, bool) {
	if takesNoValue[strings.ToUpper(rec.code.text)] {
		// The number may be missing, and so may the vector: of two fields, the
		// second is the column unless only the first can be.
		switch {
		case len(fs) == 1:
			fs = []field{{}, fs[0], {}}
		case len(fs) == 2 && r.hasColumn(fs[0]) && !r.hasColumn(fs[1]):
			fs = []field{{}, fs[0], fs[1]}
		case len(fs) == 2:
			fs = []field{fs[0], fs[1], {}}
		}
	} else if len(fs) == 2 {
		fs = []field{{}, fs[0], fs[1]}
	}
	if len(fs) != 3 {
		return r.badCount(rec.code, "a bound's type, the vector's name, a column and a number")
	}
	rec.name, rec.pairs = fs[0], r.pairsOf(fs[1:])
	return rec, true
}

func (r *mpsReader) fixedRecord(line string) (rec record, ok bool) {
	fs, between := fixedFields(r.fields[:0], line)
	r.fields = fs
	if between > 0 {
		r.fail(field{line, between}, "line", "a character stands between the columns of fixed form",
			"put fields into columns 2-3, 5-12, 15-22, 25-36, 40-47, 50-61, or use free form")
		return rec, false
	}
	rec.code, rec.name = fs[0], fs[1]
	switch {
	case r.section == "ROWS":
		return rec, true
	case fs[4].text == "" && fs[5].text == "":
		rec.pairs = r.pairsOf(fs[2:4])
	default:
		rec.pairs = r.pairsOf(fs[2:6])
	}
	return rec, true
}

// pairsOf returns fields as pairs; the slice is good until the next line.
func (r *mpsReader) pairsOf(fs []field) []pair {
	r.pairs = r.pairs[:0]
	for k := 0; k+1 < len(fs); k += 2 {
		r.pairs = append(r.pairs, pair{fs[k], fs[k+1]})
	}
	return r.pairs
}

func (r *mpsReader) badCount(at field, want string) (record, bool) {
	r.fail(field{column: at.column}, r.section, fmt.Sprintf("%d fields on the line", len(r.fields)), "write "+want)
	return record{}, false
}

// number reads a decimal number, with a Fortran exponent if it has one.
func (r *mpsReader) number(f field, what string) (float64, bool) {
	const remedy = "write a decimal number such as 12.5 or -3e-4"
	if f.text == "" {
		r.fail(f, what, "the number is missing", remedy)
		return 0, false
	}
	text := f.text
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case c >= '0' && c <= '9', c == '+', c == '-', c == '.', c == 'e', c == 'E':
		case (c == 'd' || c == 'D') && i > 0:
			text = text[:i] + "e" + text[i+1:]
		default:
			if (c == 'i' || c == 'I') && strings.HasPrefix(strings.ToLower(strings.TrimLeft(text, "+-")), "inf") {
				r.fail(f, what, "infinity is not a number", "write 1e30 for none, or the bound type MI, PL or FR")
				return 0, false
			}
			r.fail(f, what, "not a number", remedy)
			return 0, false
		}
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		problem := "not a number"
		if math.IsInf(v, 0) {
			problem = "too large for a number"
		}
		r.fail(f, what, problem, remedy)
		return 0, false
	}
	return v + 0, true // −0 becomes 0
}

package linear

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
)

// Where a row's name leads when it leads to no constraint row.
const (
	objectiveRow = -1
	droppedRow   = -2
)

// mpsSections are the headers, each with the one that must stand before it.
var mpsSections = map[string]string{
	"NAME": "", "OBJSENSE": "", "ROWS": "", "COLUMNS": "ROWS",
	"RHS": "COLUMNS", "RANGES": "COLUMNS", "BOUNDS": "COLUMNS", "ENDATA": "",
}

// mpsReader reads one file in one form.
type mpsReader struct {
	file    string
	form    Form
	errors  errorList
	notes   []countedNote
	noted   map[string]int // by wording: the note that has it
	escaped bool           // names carry escapes; see escapeComment

	line       int
	fields     []field
	pairs      []pair
	section    string         // the section the line is in; "" before the first and in an unknown one
	started    bool           // a section header has been read
	seen       map[string]int // line of each section's header
	complained bool           // the section's place is wrong, and that has been said

	p                   *Problem
	rows                map[string]int
	rowData             []mpsRow
	objLine             int // line of the objective row, 0 if there is none
	cols                map[string]int
	colData             []mpsCol
	current             int   // column being read, −1 none
	integer             bool  // between INTORG and INTEND
	filled              []int // per row: the last column with a coefficient there, plus one
	costed              int   // the last column with a cost, plus one
	rhs, ranges, bounds vector
	offsetLine          int
}

// mpsRow is what a file says of a row before it is put together.
type mpsRow struct {
	kind      byte
	rhs       float64
	rhsLine   int // 0: none given
	span      float64
	spanField field
	spanLine  int // 0: none given
}

// mpsCol is where a file speaks of a column's bounds.
type mpsCol struct {
	line       int
	boundLine  int // the last one; 0: none
	lowerGiven bool
	types      []string // bound types given
}

// A vector is the RHS, RANGES or BOUNDS vector in use.
type vector struct {
	used    bool
	name    string
	dropped string // the last one left out
}

func newMPSReader(file string, form Form) *mpsReader {
	return &mpsReader{file: file, form: form, seen: map[string]int{}, noted: map[string]int{}, p: &Problem{},
		rows: map[string]int{}, cols: map[string]int{}, current: -1}
}

// read goes through the lines of data up to ENDATA.
func (r *mpsReader) read(ctx context.Context, data []byte) {
	if len(bytes.TrimSpace(data)) == 0 {
		r.line = 1
		r.fail(field{column: 1}, "file", "it is empty", "give a model in MPS form")
		return
	}
	for len(data) > 0 && r.seen["ENDATA"] == 0 && r.errors.count < maxCounted {
		if r.line%pollEvery == 0 && ctx.Err() != nil {
			return
		}
		raw, rest, _ := bytes.Cut(data, []byte("\n"))
		data = rest
		r.line++
		line := strings.TrimRight(string(raw), " \t\r")
		switch {
		case line == "":
		case line[0] == '*':
			r.escaped = r.escaped || line == escapeComment
		case strings.ContainsFunc(line, isControl):
			at := strings.IndexFunc(line, isControl)
			r.fail(field{line[at : at+1], at + 1}, "line", "a control character",
				"give a text file, one record a line")
		case line[0] != ' ' && line[0] != '\t':
			r.header(line)
		case r.section == "" && !r.started:
			r.misplaced("before the first section header")
		case r.section != "" && !r.complained:
			r.data(line)
		}
	}
	switch {
	case r.errors.count >= maxCounted:
		return
	case r.seen["ENDATA"] == 0:
		r.fail(field{column: 1}, "ENDATA", "the file ends without it", "end the model with a line ENDATA; it may have been cut off")
	case len(bytes.TrimSpace(data)) > 0:
		r.note(r.line, "what follows ENDATA is not read")
	}
	for _, name := range []string{"ROWS", "COLUMNS"} {
		if r.seen[name] == 0 {
			r.fail(field{column: 1}, name, "the section is missing", "give the sections ROWS and COLUMNS")
		}
	}
}

// pollEvery is how often, in lines, reading looks whether it is to end.
const pollEvery = 1024

func isControl(c rune) bool { return (c < ' ' && c != '\t') || c == 0x7f }

// header starts a section.
func (r *mpsReader) header(line string) {
	r.fields = freeFields(r.fields[:0], line)
	word := r.fields[0]
	name := strings.ToUpper(word.text)
	before, known := mpsSections[name]
	r.started, r.section, r.complained, r.current = true, "", false, -1
	if !known {
		remedy := "the sections are NAME, OBJSENSE, ROWS, COLUMNS, RHS, RANGES, BOUNDS, ENDATA; data lines start with a blank"
		r.fail(word, "section", "there is no such section here", remedy)
		return
	}
	if first := r.seen[name]; first > 0 {
		r.fail(word, "section", fmt.Sprintf("comes a second time, first on line %d", first), "write each section once")
		return
	}
	r.seen[name] = r.line
	if before != "" && r.seen[before] == 0 {
		r.fail(word, "section", "comes before "+before, "write ROWS, then COLUMNS, then the rest")
		r.complained = true
	}
	r.section = name
	switch {
	case name == "NAME":
		r.p.Name = r.problemName(strings.TrimSpace(line[len("NAME"):]))
	case name == "OBJSENSE" && len(r.fields) > 1:
		r.sense(r.fields[1])
	case name == "BOUNDS" || name == "ENDATA":
		r.checkMarker()
	}
	if name != "NAME" && name != "OBJSENSE" && len(r.fields) > 1 {
		r.fail(r.fields[1], "section", "something follows "+name, "start a new line after a section header; data lines start with a blank")
	}
}

// problemName takes the mark of free form that some programs put after a name.
func (r *mpsReader) problemName(text string) string {
	if rest, ok := strings.CutSuffix(text, " FREE"); ok {
		text = strings.TrimSpace(rest)
	}
	return r.unescape(text)
}

// data reads a line of the section at hand.
func (r *mpsReader) data(line string) {
	switch r.section {
	case "NAME":
		r.misplaced("between NAME and the next section header")
		return
	case "OBJSENSE":
		r.fields = freeFields(r.fields[:0], line)
		r.sense(r.fields[0])
		return
	case "COLUMNS":
		if strings.Contains(line, "'MARKER'") && r.marker(line) {
			return
		}
	}
	rec, ok := r.record(line)
	if !ok {
		return
	}
	switch r.section {
	case "ROWS":
		r.row(rec)
	case "COLUMNS":
		r.column(rec)
	case "RHS":
		if r.use(&r.rhs, rec) {
			r.rightHandSide(rec)
		}
	case "RANGES":
		if r.use(&r.ranges, rec) {
			r.span(rec)
		}
	case "BOUNDS":
		if r.use(&r.bounds, rec) {
			r.bound(rec)
		}
	}
}

func (r *mpsReader) sense(f field) {
	switch strings.ToUpper(f.text) {
	case "MAX", "MAXIMIZE", "MAXIMISE":
		r.p.Maximize = true
	case "MIN", "MINIMIZE", "MINIMISE":
		r.p.Maximize = false
	default:
		r.fail(f, "OBJSENSE", "not a sense", "write MAX or MIN")
	}
}

// row declares a row.
func (r *mpsReader) row(rec record) {
	kind := strings.ToUpper(rec.code.text)
	if len(kind) != 1 || !strings.Contains("NLGE", kind) {
		r.fail(rec.code, "row type", "not a row type", "write N, L, G or E")
		return
	}
	name := r.unescape(rec.name.text)
	if name == "" {
		r.fail(rec.name, "row", "the name is missing", "name every row")
		return
	}
	if _, twice := r.rows[name]; twice {
		r.fail(rec.name, "row", "there is a row of this name already", "give each row its own name")
		return
	}
	if kind == "N" {
		if r.objLine == 0 {
			r.objLine, r.rows[name] = r.line, objectiveRow
			return
		}
		r.rows[name] = droppedRow
		r.note(r.line, "row %q is dropped: the first N row is the objective", name)
		return
	}
	if len(r.p.Rows) == MaxMPSRows {
		r.tooMany("row", MaxMPSRows)
		return
	}
	r.rows[name] = r.p.AddRow(name, 0, 0)
	r.rowData = append(r.rowData, mpsRow{kind: kind[0]})
	r.filled = append(r.filled, 0)
}

// marker reads a line that opens or closes a stretch of integer columns.
func (r *mpsReader) marker(line string) bool {
	r.fields = freeFields(r.fields[:0], line)
	fs := r.fields
	if len(fs) < 2 || fs[1].text != "'MARKER'" {
		return false
	}
	if len(fs) != 3 || (fs[2].text != "'INTORG'" && fs[2].text != "'INTEND'") {
		r.fail(fs[1], "marker", "not a marker this program knows", "write NAME 'MARKER' 'INTORG' or NAME 'MARKER' 'INTEND'")
		return true
	}
	open := fs[2].text == "'INTORG'"
	if open == r.integer {
		r.fail(fs[2], "marker", "the one before is the same", "close each 'INTORG' with one 'INTEND'")
	}
	r.integer, r.current = open, -1
	return true
}

// checkMarker tells of integer columns whose end the file does not mark.
func (r *mpsReader) checkMarker() {
	if r.integer {
		r.note(r.line, "no 'INTEND' closes the last 'INTORG'; the columns up to the end of COLUMNS are integer")
		r.integer = false
	}
}

// column adds the coefficients of a line to its column.
func (r *mpsReader) column(rec record) {
	name := r.unescape(rec.name.text)
	if name == "" {
		r.fail(rec.name, "column", "the name is missing", "name every column")
		return
	}
	if r.current < 0 || r.p.Cols[r.current].Name != name {
		if first, twice := r.cols[name]; twice {
			r.fail(rec.name, "column", fmt.Sprintf("the column has ended before, it starts on line %d", r.colData[first].line),
				"keep the lines of a column together")
			return
		}
		if len(r.p.Cols) == MaxMPSColumns {
			r.tooMany("column", MaxMPSColumns)
			return
		}
		r.current = r.p.AddCol(name, 0, 0, Inf, r.integer)
		r.cols[name] = r.current
		r.colData = append(r.colData, mpsCol{line: r.line})
	}
	for _, pr := range rec.pairs {
		i, ok := r.rowOf(pr.name)
		v, isNumber := r.number(pr.value, "coefficient")
		if !ok || !isNumber {
			continue
		}
		last := &r.costed
		switch {
		case i == droppedRow:
			continue
		case i >= 0:
			last = &r.filled[i]
		}
		if *last == r.current+1 {
			r.fail(pr.name, "coefficient", "the column has one in this row already", "add them up and write one")
			continue
		}
		*last = r.current + 1
		if i == objectiveRow {
			r.p.Cols[r.current].Cost = v
		} else {
			r.p.Set(i, r.current, v)
		}
	}
}

func (r *mpsReader) rowOf(f field) (int, bool) {
	i, ok := r.rows[r.unescape(f.text)]
	switch {
	case f.text == "":
		r.fail(f, "row", "the name is missing", "write pairs of row and number")
	case !ok:
		r.fail(f, "row", "there is no such row", "declare it in ROWS, or correct the name")
	}
	return i, ok
}

func (r *mpsReader) hasColumn(f field) bool {
	_, ok := r.cols[r.unescape(f.text)]
	return ok
}

// use says whether the record belongs to the vector in use.
func (r *mpsReader) use(v *vector, rec record) bool {
	name := rec.name.text
	switch {
	case !v.used:
		v.used, v.name = true, name
	case name != v.name && name != "" && v.name != "":
		if v.dropped != name {
			v.dropped = name
			r.note(r.line, "%s vector %q is dropped: %q came first", r.section, name, v.name)
		}
		return false
	}
	return true
}

// finish puts the problem together, or returns the errors.
func (r *mpsReader) finish() (*MPS, error) {
	if r.errors.count == 0 {
		r.assemble()
	}
	if r.errors.count > 0 {
		slices.SortStableFunc(r.errors.list, func(a, b *SyntaxError) int {
			return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
		})
		return nil, r.errors.all()
	}
	return &MPS{Problem: r.p, Form: r.form, Notes: r.allNotes()}, nil
}

func none(v float64) bool { return math.Abs(v) >= Huge }

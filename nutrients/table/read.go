package table

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"slices"
	"strings"

	"golang.org/x/text/unicode/norm"
)

// Limits of what is read, in time and memory that grow with the file and no faster.
// A household or food table of this size holds hundreds of thousands of rows; a
// larger file is another file.
const (
	MaxBytes   = 64 << 20
	MaxLine    = 1 << 20   // bytes of one line
	MaxRows    = 200_000   // rows below the header
	MaxCells   = 4_000_000 // cells of all rows
	MaxColumns = 1_000     // cells of the header
)

// Faults of a whole file, for [errors.Is].
var (
	ErrTooLarge  = errors.New("larger than 64 MiB")
	ErrTooMany   = errors.New("more than a table may hold")
	ErrNoRows    = errors.New("no rows")
	ErrColumn    = errors.New("missing column")
	ErrRagged    = errors.New("wrong number of cells")
	ErrSeparator = errors.New("cells are not separated by commas")
	ErrEncoding  = errors.New("not a UTF-8 text file")
	ErrQuote     = errors.New("misplaced quote")
)

// Presence says whether a column must be there.
type Presence int

// A column may be missing; must be there; must be there and filled in every
// row.
const (
	Optional Presence = iota
	Present
	Filled
)

// Column is one column of a [Format].
type Column struct {
	Name     string
	Presence Presence
}

// Columns are the columns of a list of names parted by blanks, all of them so present.
func (p Presence) Columns(names string) []Column {
	var columns []Column
	for name := range strings.FieldsSeq(names) {
		columns = append(columns, Column{name, p})
	}
	return columns
}

// Format is what a file must look like.
type Format struct {
	Columns    []Column
	Row        string // what one row is, for messages: "person"; "" means "row"
	AllowEmpty bool   // a header without rows is accepted
}

// Table is a file as read. Rows of empty cells are left out.
type Table struct {
	Name     string
	Rows     []*Row
	Warnings []string // located, one a line: unknown columns and the like

	format  Format
	header  []string       // as written
	columns map[string]int // column of each known name
	errs    Errors
}

// Read reads a CSV file with the given columns; see [Format.Read].
func Read(name string, r io.Reader, columns []Column) (*Table, error) {
	return Format{Columns: columns}.Read(name, r)
}

// Embedded reads data/name of the files of a package of the program, which errors call
// dir/data/name; see [Read]. The error is that of the file system where there is no
// such file.
func Embedded(files fs.FS, dir, name string, columns []Column) (*Table, error) {
	file, err := files.Open("data/" + name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	return Read(dir+"/data/"+name, file, columns)
}

// Read reads all of r, a CSV file that errors call name. The error is nil or
// an [*Errors] with everything found so far; the table is then still usable to
// find more unless it is nil: a file that is no table at all.
func (f Format) Read(name string, r io.Reader) (*Table, error) {
	text, err := readText(name, r)
	if err != nil {
		return nil, err
	}
	t := &Table{Name: name, format: f, columns: map[string]int{}}
	in := csv.NewReader(bytes.NewReader(text))
	in.FieldsPerRecord = -1
	if !t.readHeader(in) {
		return nil, t.Err()
	}
	t.readRows(in)
	if len(t.Rows) == 0 && len(t.errs.List) == 0 && !f.AllowEmpty {
		t.errs.add(&Error{File: name, Line: 1, Column: 1, Err: fmt.Errorf("%w below the header", ErrNoRows), Fix: "add a line for each " + cmp.Or(f.Row, "row")})
	}
	return t, t.Err()
}

// readText reads all of r as text in UTF-8.
func readText(name string, r io.Reader) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	if err != nil {
		return nil, Join(&Error{File: name, Err: fmt.Errorf("cannot be read: %w", err)})
	}
	if len(data) > MaxBytes {
		return nil, tooLarge(name)
	}
	text, fault := decode(name, data)
	if fault != nil {
		return nil, Join(fault)
	}
	return text, nil
}

func tooLarge(name string) error {
	return Join(&Error{File: name, Err: ErrTooLarge, Fix: "give a table that a person could have written"})
}

func tooMany(name string, line int, what string) *Error {
	return &Error{File: name, Line: line, Column: 1, Err: fmt.Errorf("%w: %s", ErrTooMany, what), Fix: "give a table that a person could have written"}
}

// Composed is s in Unicode's normal form C, in which a letter with an accent is one
// character however it was typed, so that names are compared by what is read.
func Composed(s string) string { return norm.NFC.String(s) }

// Err returns every fault recorded so far as an [*Errors], or nil.
func (t *Table) Err() error { return t.errs.orNil() }

// HasColumn reports whether the file has the column.
func (t *Table) HasColumn(name string) bool { _, ok := t.columns[name]; return ok }

// readHeader reads the header line and reports whether the rows below it can
// be understood.
func (t *Table) readHeader(in *csv.Reader) bool {
	record, err := in.Read()
	switch {
	case errors.Is(err, io.EOF):
		t.errs.add(&Error{File: t.Name, Line: 1, Column: 1, Err: errors.New("empty file"), Fix: "write a header line: " + t.wanted()})
		return false
	case err != nil:
		t.failCSV(err)
		return false
	case len(record) > MaxColumns:
		t.errs.add(tooMany(t.Name, 1, fmt.Sprintf("%d columns, at most %d", len(record), MaxColumns)))
		return false
	}
	t.header = slices.Clone(record)
	known := map[string]string{} // folded name → name of the column
	var names []string
	for _, c := range t.format.Columns {
		known[fold(c.Name)] = c.Name
		names = append(names, c.Name)
	}
	var unknown []int
	for i, written := range record {
		name, ok := known[fold(written)]
		line, column := in.FieldPos(i)
		switch _, twice := t.columns[name]; {
		case !ok:
			unknown = append(unknown, i)
		case twice:
			t.errs.add(&Error{File: t.Name, Line: line, Column: column, Err: fmt.Errorf("column %q is there twice", name), Fix: "leave one"})
		default:
			t.columns[name] = i
		}
	}
	if fault := t.wrongSeparator(record); fault != nil {
		t.errs.add(fault)
		return false
	}
	missing := 0
	for _, c := range t.format.Columns {
		if !t.HasColumn(c.Name) && c.Presence != Optional {
			t.errs.add(&Error{File: t.Name, Line: 1, Column: 1, Err: fmt.Errorf("%w %q", ErrColumn, c.Name), Fix: "the header needs: " + t.wanted()})
			missing++
		}
	}
	for _, i := range unknown {
		line, column := in.FieldPos(i)
		if strings.TrimSpace(record[i]) == "" {
			continue // the empty last column that spreadsheets leave
		}
		text := fmt.Sprintf("%s:%d:%d: column %q is not known and is not read", t.Name, line, column, shorten(record[i]))
		if near := Suggest(record[i], names); near != "" {
			text += "; " + near
		}
		t.Warnings = append(t.Warnings, text)
	}
	return missing == 0
}

// wanted lists the columns that a file must have.
func (t *Table) wanted() string {
	var needed, all []string
	for _, c := range t.format.Columns {
		if all = append(all, c.Name); c.Presence != Optional {
			needed = append(needed, c.Name)
		}
	}
	if needed == nil {
		needed = all
	}
	return strings.Join(needed, ",")
}

// wrongSeparator returns the fault of a header whose cells are separated by
// something else than commas.
func (t *Table) wrongSeparator(record []string) *Error {
	if len(t.columns) > 0 {
		return nil
	}
	line := strings.Join(record, ",")
	for _, sep := range []struct{ text, name string }{{";", "semicolons"}, {"\t", "tabs"}, {"|", "bars"}} {
		if !strings.Contains(line, sep.text) {
			continue
		}
		fix := "save the table with commas, and with decimal points"
		return &Error{File: t.Name, Line: 1, Column: 1 + strings.Index(line, sep.text), Err: fmt.Errorf("%w but by %s", ErrSeparator, sep.name), Fix: fix}
	}
	return nil
}

func (t *Table) readRows(in *csv.Reader) {
	cells := 0
	for {
		record, err := in.Read()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			t.failCSV(err)
			continue
		}
		if !slices.ContainsFunc(record, func(s string) bool { return strings.TrimSpace(s) != "" }) {
			continue
		}
		line, _ := in.FieldPos(0)
		if len(record) != len(t.header) {
			t.failRagged(record, line)
			continue
		}
		if cells += len(record); len(t.Rows) == MaxRows || cells > MaxCells {
			t.errs.add(tooMany(t.Name, line, fmt.Sprintf("at most %d rows and %d cells", MaxRows, MaxCells)))
			return
		}
		row := &Row{table: t, Line: line, cells: make([]cell, len(record))}
		for i, text := range record {
			l, c := in.FieldPos(i)
			row.cells[i] = cell{text: Composed(strings.TrimSpace(text)), line: l, column: c}
		}
		t.Rows = append(t.Rows, row)
		for _, c := range t.format.Columns {
			if c.Presence == Filled && t.HasColumn(c.Name) && !row.Has(c.Name) {
				row.Fail(c.Name, ErrEmpty, "every "+cmp.Or(t.format.Row, "row")+" needs it")
			}
		}
	}
}

func (t *Table) failRagged(record []string, line int) {
	fix := "write a comma for each empty cell"
	if len(record) > len(t.header) {
		fix = `put a cell that holds a comma in quotes: "a, b"`
		for i := 1; i < len(record); i++ {
			if joined := record[i-1] + "," + record[i]; commaNumber.MatchString(joined) {
				fix += "; if " + joined + " is one number, write it with a decimal point"
				break
			}
		}
	}
	t.errs.add(&Error{File: t.Name, Line: line, Column: 1, Err: fmt.Errorf("%w: %d where the header has %d", ErrRagged, len(record), len(t.header)), Fix: fix})
}

// failCSV records what encoding/csv could not parse.
func (t *Table) failCSV(err error) {
	fault := &Error{File: t.Name, Err: err}
	if parse := (*csv.ParseError)(nil); errors.As(err, &parse) {
		fault.Line, fault.Column = parse.Line, parse.Column
		fault.Err, fault.Fix = ErrQuote, `put the whole cell in quotes, and write a quote inside it twice: "a ""b"" c"`
		if errors.Is(parse.Err, csv.ErrQuote) && parse.Line > parse.StartLine {
			fault.Line, fault.Column = parse.StartLine, 1
			fault.Err = fmt.Errorf("%w: a cell that begins in this row is never closed", ErrQuote)
			fault.Fix = `close it with ", and write a quote inside a quoted cell twice`
		}
	}
	t.errs.add(fault)
}

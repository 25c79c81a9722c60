package register

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/nutrients/table"
)

// Limits of one household, beside those of its lines ([table.MaxLine]) and of what a
// plan may hold. They only catch what is no household.
const (
	MaxRows  = 1_000
	MaxBytes = table.MaxLine
	MaxID    = 200 // bytes of an id
)

// Column is the column of a CSV register that holds the id of the household.
const Column = "household"

// Household is one household of a register.
type Household struct {
	ID   string
	Line int // of the register where it begins, from 1

	name  string // of what text is, for errors
	text  []byte // household.csv
	shift int    // from the lines of text to those of name
	fault error  // why it cannot be read at all
	alone bool   // its columns are its own, and what is said of them too
}

// Refuse marks the household as one that cannot be planned.
func (h *Household) Refuse(fault error) { h.fault = errors.Join(h.fault, fault) }

// People returns the people of the household. Every name of food is checked with t.
// Warnings are located lines for the user. The error holds every fault with its place.
func (h *Household) People(t *foods.Table) (people []nutrients.Person, warnings []string, err error) {
	if h.fault != nil {
		return nil, nil, h.fault
	}
	people, warnings, err = nutrients.ReadHousehold(h.name, bytes.NewReader(h.text))
	if !h.alone {
		warnings = nil // said of the header
	}
	if err == nil {
		err = Words(h.name, h.text, t, func(string, string) {})
	}
	if err != nil {
		return nil, warnings, h.placed(err)
	}
	return people, warnings, nil
}

// placed moves the places of err from the text of the household to the register.
func (h *Household) placed(err error) error {
	faults := (*table.Errors)(nil)
	if !errors.As(err, &faults) {
		return err
	}
	for _, one := range faults.List {
		if one.Line > 0 {
			one.Line += h.shift
		}
	}
	return faults
}

// Reader reads the households of a register.
type Reader struct {
	name  string
	lines *lines
	next  func() (*Household, error)

	// Warnings are about the header: located lines for the user.
	Warnings []string

	header []string // of a CSV register, its cells
	plain  []byte   // the header without the id's column, as one line
	id     int      // column of the id
	row    line     // the first row of the next household
	rowID  string
	blank  []byte // empty lines before it
	has    bool   // there is one in row
}

// NewReader begins to read a register, which errors call name. What begins with a
// brace is NDJSON. The error, an [*table.Errors], says why it is no register.
func NewReader(name string, in io.Reader) (*Reader, error) {
	r := &Reader{name: name, lines: newLines(in)}
	first, err := r.lines.next()
	if err != nil && !errors.Is(err, io.EOF) {
		return nil, table.Join(&table.Error{File: name, Err: fmt.Errorf("cannot be read: %w", err), Fix: "check the file and give it again"})
	}
	text := bytes.TrimSpace(bytes.TrimPrefix(first.text, bom))
	if len(text) > 0 && text[0] == '{' {
		first.text = bytes.TrimPrefix(first.text, bom)
		r.lines.give([]line{first})
		r.next = r.nextObject
		return r, nil
	}
	r.next = r.nextRows
	return r, r.readHeader(first)
}

// bom is the mark that some programs begin a text file with.
var bom = []byte("\xef\xbb\xbf")

// Next returns the next household, or [io.EOF] behind the last. Another error ends
// the reading.
func (r *Reader) Next() (*Household, error) { return r.next() }

// fault is a fault of the register at the beginning of a line.
func (r *Reader) fault(line int, field, value string, what error, fix string) error {
	return table.Join(&table.Error{File: r.name, Line: line, Column: 1, Field: field, Value: value, Err: what, Fix: fix})
}

var (
	errNoID     = errors.New("no id")
	errLongID   = fmt.Errorf("longer than %d bytes", MaxID)
	errUnseenID = errors.New("it holds a line break or another character that cannot be printed")
)

// checkID returns what is wrong with an id.
func checkID(id string) error {
	switch {
	case id == "":
		return errNoID
	case len(id) > MaxID:
		return errLongID
	case strings.ContainsFunc(id, func(c rune) bool { return !unicode.IsPrint(c) || c == unicode.ReplacementChar }):
		return errUnseenID
	}
	return nil
}

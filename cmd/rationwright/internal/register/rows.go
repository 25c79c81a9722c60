package register

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"rationwright/nutrients"
	"rationwright/nutrients/table"
)

// mostLines is how many lines one row may take, where a cell holds line breaks.
const mostLines = 50

// readHeader reads the header of a CSV register, of which first is the beginning.
// All that can be wrong with it is found here, so that households are told of
// their own rows only.
func (r *Reader) readHeader(first line) error {
	raw := first
	if !first.long && len(first.text) > 0 {
		r.lines.give([]line{first})
		raw, _ = r.record()
	}
	cells, err := cellsOf(bytes.TrimPrefix(raw.text, bom))
	r.id = slices.IndexFunc(cells, func(c string) bool { return strings.EqualFold(strings.TrimSpace(c), Column) })
	if err != nil || r.id < 0 || raw.long {
		_, _, err := nutrients.ReadHousehold(r.name, bytes.NewReader(raw.text))
		faults := (*table.Errors)(nil)
		if errors.As(err, &faults) && !errors.Is(err, table.ErrNoRows) {
			return faults
		}
		return r.fault(1, "", "", fmt.Errorf("%w %q", table.ErrColumn, Column), "a register is household.csv with the id of the household in a column "+Column)
	}
	r.header = cells
	r.plain = bytes.TrimPrefix(slices.Clone(raw.text), bom)
	blank(r.plain, r.id)
	_, warnings, err := nutrients.ReadHousehold(r.name, bytes.NewReader(r.plain))
	r.Warnings = warnings
	if errors.Is(err, table.ErrNoRows) { // as they come below
		err = nil
	}
	if err != nil {
		return err
	}
	switch r.row, r.rowID, err = r.nextRow(); {
	case errors.Is(err, io.EOF):
		return r.fault(1, "", "", fmt.Errorf("%w below the header", table.ErrNoRows), "add a line for each person of each household")
	case err != nil:
		return err
	}
	r.has = true
	return nil
}

// blank puts spaces in place of a cell of a row, as an empty column is passed over.
func blank(row []byte, cell int) {
	in := csv.NewReader(bytes.NewReader(row))
	cells, err := in.Read()
	if err != nil {
		return // has been read before
	}
	at := 0
	line, column := in.FieldPos(cell)
	for ; line > 1; line-- {
		at += bytes.IndexByte(row[at:], '\n') + 1
	}
	at += column - 1
	at += bytes.Index(row[at:], []byte(cells[cell])) // behind a quote
	for k := range len(cells[cell]) {
		row[at+k] = ' '
	}
}

// nextRows returns the household of the next rows of a CSV register.
func (r *Reader) nextRows() (*Household, error) {
	if !r.has {
		return nil, io.EOF
	}
	h := &Household{ID: r.rowID, Line: r.row.number, name: r.name, text: slices.Clone(r.plain), shift: r.row.number - 1 - bytes.Count(r.plain, []byte{'\n'})}
	rows := 0
	for {
		rows++
		h.take(r, rows)
		row, id, err := r.nextRow()
		if errors.Is(err, io.EOF) {
			r.has = false
			break
		}
		if err != nil {
			return nil, err
		}
		r.row, r.rowID = row, id
		if id != "" && id != h.ID {
			break
		}
	}
	if what := checkID(h.ID); what != nil {
		fix := "write the id of the household in every row"
		if !errors.Is(what, errNoID) {
			fix = "give it a short id of letters and digits"
		}
		h.Refuse(r.fault(h.Line, Column, h.ID, what, fix))
	}
	return h, nil
}

// take adds the row that is next to the household.
func (h *Household) take(r *Reader, rows int) {
	switch {
	case r.row.long:
		h.Refuse(r.fault(r.row.number, "", "", fmt.Errorf("%w: a line of more than %d bytes", table.ErrTooMany, table.MaxLine), "give a table that a person could have written"))
	case rows > MaxRows || len(h.text)+len(r.row.text) > MaxBytes:
		if h.fault == nil {
			h.Refuse(r.fault(r.row.number, Column, h.ID, fmt.Errorf("%w: a household of more than %d rows or %d bytes", table.ErrTooMany, MaxRows, MaxBytes), "give each household its own id"))
		}
		h.text = nil
	case r.rowID == "" && h.ID != "":
		h.Refuse(r.fault(r.row.number, Column, "", table.ErrEmpty, "write the id of the household in every row"))
	}
	if h.fault == nil {
		if rows > 1 {
			h.text = append(h.text, r.blank...) // keeps its lines counted
		}
		h.text = append(h.text, r.row.text...)
	}
}

// nextRow returns the next row that is not empty, and its id; the ends of the empty lines
// before it are left in r.blank. A row that cannot be taken apart belongs to the household
// before it, which is better refused than left without one of its people, unless its
// first cell says otherwise.
func (r *Reader) nextRow() (line, string, error) {
	r.blank = r.blank[:0]
	for {
		row, err := r.record()
		if err != nil {
			return row, "", err
		}
		cells, fault := cellsOf(row.text)
		if fault == nil && !slices.ContainsFunc(cells, func(c string) bool { return strings.TrimSpace(c) != "" }) {
			if n := bytes.Count(row.text, []byte{'\n'}); len(r.blank)+n <= MaxBytes {
				r.blank = append(r.blank, bytes.Repeat([]byte{'\n'}, n)...)
			}
			continue
		}
		if fault != nil || row.long || r.id >= len(cells) {
			cells = nil
			if first, _, ok := bytes.Cut(row.text, []byte(",")); ok && r.id == 0 && len(first) <= MaxID && !bytes.ContainsRune(first, '"') {
				cells = []string{string(first)}
			}
		}
		id := ""
		if r.id < len(cells) {
			id = table.Composed(strings.TrimSpace(strings.ToValidUTF8(cells[r.id], "\ufffd")))
		}
		return row, id, nil
	}
}

// record returns the lines of the next row: more than one where a cell holds line
// breaks. A cell that is never closed, by the number of its quotes or the number of
// cells that come of it, is a row of one line.
func (r *Reader) record() (line, error) {
	first, err := r.lines.next()
	if err != nil || first.long || bytes.Count(first.text, []byte{'"'})%2 == 0 {
		return first, r.readable(err)
	}
	whole := first
	var more []line
	for len(more) < mostLines {
		l, err := r.lines.next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return first, r.readable(err)
		}
		more = append(more, l)
		if l.long || len(whole.text)+len(l.text) > table.MaxLine {
			break
		}
		whole.text = append(whole.text, l.text...)
		if bytes.Count(l.text, []byte{'"'})%2 == 1 {
			if cells, err := cellsOf(whole.text); err == nil && (r.header == nil || len(cells) == len(r.header)) {
				return whole, nil
			}
			break
		}
	}
	r.lines.give(more)
	return first, nil
}

// readable words an error of reading that is not the end of the file.
func (r *Reader) readable(err error) error {
	if err == nil || errors.Is(err, io.EOF) {
		return err
	}
	return table.Join(&table.Error{File: r.name, Line: r.lines.number + 1, Column: 1, Err: fmt.Errorf("cannot be read: %w", err), Fix: "check the file and give it again"})
}

// cellsOf takes one row apart; an empty line has no cells.
func cellsOf(row []byte) ([]string, error) {
	in := csv.NewReader(bytes.NewReader(row))
	in.FieldsPerRecord = -1
	cells, err := in.Read()
	if errors.Is(err, io.EOF) {
		return nil, nil
	}
	return cells, err
}

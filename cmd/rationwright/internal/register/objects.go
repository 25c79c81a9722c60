package register

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"

	"rationwright/nutrients"
	"rationwright/nutrients/table"
)

// nextObject returns the household of the next line of an NDJSON register.
func (r *Reader) nextObject() (*Household, error) {
	for {
		l, err := r.lines.next()
		if err != nil {
			return nil, r.readable(err)
		}
		if l.long {
			h := &Household{Line: l.number}
			h.Refuse(r.fault(l.number, "", "", fmt.Errorf("%w: a line of more than %d bytes", table.ErrTooMany, table.MaxLine), "give each household a line of its own"))
			return h, nil
		}
		if len(bytes.TrimSpace(l.text)) == 0 {
			continue
		}
		h := Parse(l.text)
		h.Line = l.number
		if located := (*table.Error)(nil); errors.As(h.fault, &located) {
			located.File, located.Line = r.name, l.number
		}
		return h, nil
	}
}

// Parse reads the household of one line of NDJSON: an object with the keys id and
// household, the rows of household.csv as lists of cells, header first, or as objects
// by column. Errors in its rows call it by its id and count its rows as lines, the
// header being the first.
func Parse(text []byte) *Household {
	var object struct {
		ID        json.RawMessage   `json:"id"`
		Household []json.RawMessage `json:"household"`
	}
	h := &Household{Line: 1, alone: true}
	fail := func(column int, field, value string, what error, fix string) *Household {
		h.fault = &table.Error{File: "line", Line: 1, Column: column, Field: field, Value: value, Err: what, Fix: fix}
		return h
	}
	const form = `write {"id":"…","household":[[header],[cells],…]} in one line`
	if err := json.Unmarshal(text, &object); err != nil {
		at := 1
		if syntax := (*json.SyntaxError)(nil); errors.As(err, &syntax) {
			at = int(syntax.Offset)
		}
		return fail(at, "", "", fmt.Errorf("no household in JSON: %w", err), form)
	}
	id, err := cellOf(object.ID)
	if h.ID = table.Composed(strings.TrimSpace(id)); err != nil {
		return fail(1, "id", string(object.ID), err, "write a short text")
	}
	if what := checkID(h.ID); what != nil {
		return fail(1, "id", h.ID, what, "give it a short id of letters and digits")
	}
	if len(object.Household) > MaxRows {
		return fail(1, "id", h.ID, fmt.Errorf("%w: a household of more than %d rows", table.ErrTooMany, MaxRows), "give each household its own id")
	}
	rows, err := rowsOf(object.Household)
	if err != nil {
		return fail(1, "id", h.ID, err, form)
	}
	h.name = "household " + h.ID
	var csv bytes.Buffer
	if len(rows) > 0 {
		if err := table.Write(&csv, rows[0], rows[1:]); err != nil {
			return fail(1, "id", h.ID, err, form)
		}
	}
	h.text = csv.Bytes()
	return h
}

// rowsOf returns rows of cells, header first, of lists or objects.
func rowsOf(list []json.RawMessage) ([][]string, error) {
	if len(list) == 0 {
		return nil, errors.New("no rows in household")
	}
	if bytes.HasPrefix(bytes.TrimSpace(list[0]), []byte("{")) {
		return rowsOfObjects(list)
	}
	var rows [][]string
	for i, text := range list {
		var cells []json.RawMessage
		if err := json.Unmarshal(text, &cells); err != nil || bytes.Equal(text, []byte("null")) {
			return nil, fmt.Errorf("row %d of household is no list of cells", i+1)
		}
		row := make([]string, len(cells))
		for k, cell := range cells {
			var err error
			if row[k], err = cellOf(cell); err != nil {
				return nil, fmt.Errorf("row %d of household, cell %d: %w", i+1, k+1, err)
			}
		}
		rows = append(rows, row)
	}
	return rows, nil
}

// rowsOfObjects puts objects into the columns of household.csv; keys that are no
// column are columns of their own, in order, which its reader passes over.
func rowsOfObjects(list []json.RawMessage) ([][]string, error) {
	header := slices.Clone(nutrients.HouseholdRows(nil)[0])
	objects := make([]map[string]json.RawMessage, len(list))
	var more []string
	for i, text := range list {
		if err := json.Unmarshal(text, &objects[i]); err != nil || objects[i] == nil {
			return nil, fmt.Errorf("person %d of household is no object", i+1)
		}
		for key := range objects[i] {
			if !slices.Contains(header, key) && !slices.Contains(more, key) {
				more = append(more, key)
			}
		}
	}
	slices.Sort(more)
	header = append(header, more...)
	rows := [][]string{header}
	for i, object := range objects {
		row := make([]string, len(header))
		for k, column := range header {
			var err error
			if row[k], err = cellOf(object[column]); err != nil {
				return nil, fmt.Errorf("person %d of household, %s: %w", i+1, column, err)
			}
		}
		rows = append(rows, row)
	}
	return rows, nil
}

// cellOf is the text of a JSON value as a cell of a table: a text, a number as it is
// written, or nothing.
func cellOf(value json.RawMessage) (string, error) {
	value = bytes.TrimSpace(value)
	if len(value) == 0 || bytes.Equal(value, []byte("null")) {
		return "", nil
	}
	switch c := value[0]; {
	case c == '"':
		var text string
		err := json.Unmarshal(value, &text)
		return text, err
	case c == '-' || c >= '0' && c <= '9':
		return string(value), nil
	}
	return "", errors.New("neither a text nor a number")
}

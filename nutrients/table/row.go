package table

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"
)

// Faults of a cell, for [errors.Is].
var (
	ErrEmpty       = errors.New("empty")
	ErrRange       = errors.New("out of range")
	ErrUnknownWord = errors.New("unknown word")
	ErrDate        = errors.New("not a date")
)

// Row is one record of a [Table]. Its getters take the name of a column of the
// table's [Format] and panic on another; a column that the file does not have
// reads as empty cells. A bad cell is recorded in the table and reads as
// absent, so that all of a file's faults are found in one pass: call
// [Table.Err] at the end.
type Row struct {
	table *Table
	Line  int // line where the row starts, from 1
	cells []cell
}

type cell struct {
	text         string // as written, without surrounding space
	line, column int
}

func (r *Row) cell(field string) cell {
	at, ok := r.table.columns[field]
	if !ok {
		if !slices.ContainsFunc(r.table.format.Columns, func(c Column) bool { return c.Name == field }) {
			panic("table: column " + field + " is not in the format of " + r.table.Name) // the caller's bug
		}
		return cell{line: r.Line, column: 1}
	}
	return r.cells[at]
}

// Has reports whether the cell is there and not empty.
func (r *Row) Has(field string) bool { return r.cell(field).text != "" }

// Text returns the cell without surrounding space, "" when it is empty.
func (r *Row) Text(field string) string { return r.cell(field).text }

// Position returns where the cell starts: file, line and column.
func (r *Row) Position(field string) (file string, line, column int) {
	c := r.cell(field)
	return r.table.Name, c.line, c.column
}

// Crowded reports whether so many faults are recorded that no more are printed:
// looking for words near a wrong one is then of no use.
func (r *Row) Crowded() bool { return len(r.table.errs.List) >= maxPrinted }

// Fail records a fault of the cell: what is wrong, and what to do.
func (r *Row) Fail(field string, what error, fix string) {
	r.FailValue(field, r.cell(field).text, what, fix)
}

// FailValue is [Row.Fail] for a part of the cell, such as one word of a list.
func (r *Row) FailValue(field, value string, what error, fix string) {
	c := r.cell(field)
	r.table.errs.add(&Error{File: r.table.Name, Line: c.line, Column: c.column, Field: field, Value: value, Err: what, Fix: fix})
}

// Float returns the number in the cell; ok is false when the cell is empty or
// when it is not a number from lo to hi, which is recorded.
func (r *Row) Float(field string, lo, hi float64) (value float64, ok bool) {
	return within(r, field, lo, hi, ParseFloat)
}

// SetFloat sets to to the number in the cell, see [Row.Float]; where there is none it
// leaves it.
func (r *Row) SetFloat(field string, lo, hi float64, to *float64) {
	if value, ok := r.Float(field, lo, hi); ok {
		*to = value
	}
}

// SetText sets to to the text of the cell; where it is empty it leaves it.
func (r *Row) SetText(field string, to *string) {
	if r.Has(field) {
		*to = r.Text(field)
	}
}

// Int returns the whole number in the cell, as [Row.Float] does.
func (r *Row) Int(field string, lo, hi int) (value int, ok bool) {
	return within(r, field, lo, hi, ParseInt)
}

// Date returns the ISO date (2026-01-31) in the cell, as [ParseDay]; ok is false when the
// cell is empty or holds none, which is recorded.
func (r *Row) Date(field string) (day time.Time, ok bool) {
	return parsed(r, field, ParseDay)
}

// parsed returns what parse makes of the cell; ok is false when the cell is empty or
// when parse fails, which is recorded.
func parsed[T any](r *Row, field string, parse func(string) (T, string, error)) (value T, ok bool) {
	if !r.Has(field) {
		return value, false
	}
	value, fix, err := parse(r.Text(field))
	if err != nil {
		r.Fail(field, err, fix)
	}
	return value, err == nil
}

// within is [parsed] of a number that must lie from lo to hi.
func within[T int | float64](r *Row, field string, lo, hi T, parse func(string) (T, string, error)) (value T, ok bool) {
	value, ok = parsed(r, field, parse)
	if !ok || value >= lo && value <= hi {
		return value, ok
	}
	what := ErrRange
	if value < 0 && lo >= 0 {
		what = fmt.Errorf("%w: negative", ErrRange)
	}
	r.Fail(field, what, fmt.Sprintf("write a number from %v to %v", lo, hi))
	return 0, false
}

// List returns the parts of the cell between semicolons, without surrounding
// space; empty parts are left out.
func (r *Row) List(field string) []string {
	var parts []string
	for part := range strings.SplitSeq(r.cell(field).text, ";") {
		if part = strings.TrimSpace(part); part != "" {
			parts = append(parts, part)
		}
	}
	return parts
}

// Choice returns the cell when it is one of words, in any case, and "" when it
// is empty or another word, which is recorded with the nearest words.
func (r *Row) Choice(field string, words ...string) string {
	if !r.Has(field) {
		return ""
	}
	word, _ := r.choose(field, r.Text(field), words)
	return word
}

// Yes reports whether the cell says yes; what is neither that nor no is recorded.
func (r *Row) Yes(field string) bool { return r.Choice(field, "yes", "no") == "yes" }

// Choices returns the words of a list cell, each as [Row.Choice]; a word
// written twice is recorded as a fault.
func (r *Row) Choices(field string, words ...string) []string {
	var chosen []string
	for _, part := range r.List(field) {
		word, ok := r.choose(field, part, words)
		switch {
		case !ok:
		case slices.Contains(chosen, word):
			r.FailValue(field, part, errors.New("written twice"), "leave one")
		default:
			chosen = append(chosen, word)
		}
	}
	return chosen
}

func (r *Row) choose(field, text string, words []string) (word string, ok bool) {
	for _, w := range words {
		if strings.EqualFold(w, text) {
			return w, true
		}
	}
	fix := ""
	if !r.Crowded() {
		fix = Suggest(text, words)
	}
	if fix == "" {
		fix = "write one of: " + strings.Join(words, " ")
	}
	r.FailValue(field, text, ErrUnknownWord, fix)
	return "", false
}

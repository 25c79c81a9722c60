package table

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Error is one fault of a file. Line and Column are 1-based, the column in
// bytes; 0 means that the fault is of the whole file.
type Error struct {
	File   string
	Line   int
	Column int
	Field  string // name of the column, "" when the fault is not of one cell
	Value  string // the cell as written
	Err    error  // what is wrong
	Fix    string // what to do, "" when Err says it
}

// shownValue is how much of a cell an error repeats, in bytes: enough to find
// it, never a whole pasted document.
const shownValue = 60

func (e *Error) Error() string {
	var b strings.Builder
	b.WriteString(e.File)
	if e.Line > 0 {
		fmt.Fprintf(&b, ":%d:%d", e.Line, e.Column)
	}
	b.WriteString(": ")
	if e.Field != "" {
		fmt.Fprintf(&b, "%s %q: ", e.Field, shorten(e.Value))
	}
	b.WriteString(e.Err.Error())
	if e.Fix != "" {
		b.WriteString("; ")
		b.WriteString(e.Fix)
	}
	return b.String()
}

// Unwrap returns what is wrong, for [errors.Is] and [errors.As].
func (e *Error) Unwrap() error { return e.Err }

// shorten cuts s to shownValue bytes at a character border.
func shorten(s string) string {
	if len(s) <= shownValue {
		return s
	}
	cut := 0
	for i := range s {
		if i > shownValue {
			break
		}
		cut = i
	}
	return s[:cut] + "…"
}

// Errors holds every fault of one or more files, sorted by file and position.
type Errors struct {
	List []*Error
	More int // faults beyond those kept in List
}

// Limits on what is kept and what is printed: a file with the wrong content in
// every cell must neither fill the memory nor the screen.
const (
	maxKept    = 10_000
	maxPrinted = 100
)

// Error prints one fault a line, at most 100 and then the number of the rest.
func (e *Errors) Error() string {
	var b strings.Builder
	for i, one := range e.List[:min(len(e.List), maxPrinted)] {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(one.Error())
	}
	if more := len(e.List) - maxPrinted + e.More; len(e.List) >= maxPrinted && more > 0 {
		fmt.Fprintf(&b, "\nand %d more", more)
	}
	return b.String()
}

// Unwrap returns the faults one by one.
func (e *Errors) Unwrap() []error {
	all := make([]error, len(e.List))
	for i, one := range e.List {
		all[i] = one
	}
	return all
}

// Join returns the faults of errs in one [*Errors], or nil when there are
// none. An error of another kind becomes a fault of a whole file of its own.
func Join(errs ...error) error {
	var all Errors
	for _, err := range errs {
		switch err := err.(type) {
		case nil:
		case *Errors:
			all.List = append(all.List, err.List...)
			all.More += err.More
		case *Error:
			all.List = append(all.List, err)
		default:
			all.List = append(all.List, &Error{Err: err})
		}
	}
	return all.orNil()
}

func (e *Errors) add(one *Error) {
	if len(e.List) >= maxKept {
		e.More++
		return
	}
	e.List = append(e.List, one)
}

// orNil sorts the faults and returns them, or nil when there are none.
func (e *Errors) orNil() error {
	if len(e.List) == 0 {
		return nil
	}
	slices.SortStableFunc(e.List, func(a, b *Error) int {
		return cmp.Or(strings.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	return e
}

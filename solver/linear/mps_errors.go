package linear

import (
	"errors"
	"fmt"
	"strings"
)

// MaxErrors is how many errors of one MPS file are told.
const MaxErrors = 20

// maxCounted is how many errors are counted before reading stops: what has that
// many is no MPS file.
const maxCounted = 1000

// ErrTooMany is the last of [SyntaxErrors] when there were more than
// [MaxErrors].
var ErrTooMany = errors.New("linear: more errors than are told")

// A SyntaxError is one thing wrong with an MPS file.
type SyntaxError struct {
	File         string
	Line, Column int    // from 1; Column in bytes
	Field        string // which field or section
	Value        string // what stands there, its first 40 bytes; may be empty
	Problem      string // what is wrong
	Remedy       string // what to do
	Err          error  // the cause, if it is one of this package's errors
}

// Error returns `file:line:column: field "value": problem; remedy`.
func (e *SyntaxError) Error() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s:%d:%d: %s", e.File, e.Line, e.Column, e.Field)
	if e.Value != "" {
		fmt.Fprintf(&b, " %q", e.Value)
	}
	fmt.Fprintf(&b, ": %s; %s", e.Problem, e.Remedy)
	return b.String()
}

// Unwrap returns the cause.
func (e *SyntaxError) Unwrap() error { return e.Err }

// SyntaxErrors is what is wrong with an MPS file, in the order of its lines.
type SyntaxErrors []*SyntaxError

// Error returns one error a line.
func (es SyntaxErrors) Error() string { return lines(es) }

// Unwrap lets [errors.As] and [errors.Is] reach each error.
func (es SyntaxErrors) Unwrap() []error { return each(es) }

// each is a list of errors of one type as errors.
func each[E error](list []E) []error {
	errs := make([]error, len(list))
	for i, e := range list {
		errs[i] = e
	}
	return errs
}

// lines is a list of errors in words, one a line.
func lines[E error](list []E) string {
	words := make([]string, len(list))
	for i, e := range list {
		words[i] = e.Error()
	}
	return strings.Join(words, "\n")
}

// shorten keeps an error readable, and small, when the value is a page of
// garbage.
func shorten(s string) string {
	const most = 40
	if len(s) <= most {
		return s
	}
	return strings.ToValidUTF8(s[:most], "") + "…"
}

// errorList keeps the first MaxErrors errors and counts them all.
type errorList struct {
	list  SyntaxErrors
	count int
}

func (l *errorList) add(e *SyntaxError) {
	l.count++
	if len(l.list) < MaxErrors {
		l.list = append(l.list, e)
	}
}

func (l *errorList) all() SyntaxErrors {
	if l.count <= len(l.list) {
		return l.list
	}
	last := l.list[len(l.list)-1]
	problem := fmt.Sprintf("%d errors more are not told", l.count-len(l.list))
	if l.count-len(l.list) == 1 {
		problem = "1 error more is not told"
	}
	if l.count >= maxCounted {
		problem = "there are so many errors that reading stopped; is it an MPS file?"
	}
	return append(l.list, &SyntaxError{File: last.File, Line: last.Line, Column: last.Column, Field: "file",
		Problem: problem, Remedy: "correct these first", Err: ErrTooMany})
}

// tooMany ends reading: the model is larger than is taken.
func (r *mpsReader) tooMany(what string, most int) {
	r.fail(field{column: 1}, what, fmt.Sprintf("more than %d of them", most), "split the model, or leave out what is not needed")
	r.errors.count = maxCounted
}

func (r *mpsReader) misplaced(where string) {
	if !r.complained {
		r.fail(field{column: 1}, "line", "data "+where, "start with NAME or ROWS in the first column")
		r.complained = true
	}
}

func (r *mpsReader) fail(at field, what, problem, remedy string) {
	r.failAt(r.line, at, what, problem, remedy)
}

func (r *mpsReader) failAt(line int, at field, what, problem, remedy string) {
	r.errors.add(&SyntaxError{File: r.file, Line: line, Column: at.column, Field: what, Value: shorten(at.text), Problem: problem, Remedy: remedy})
}

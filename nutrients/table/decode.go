package table

import (
	"bytes"
	"errors"
	"fmt"
	"unicode/utf8"
)

// decode returns data without its byte order mark, or the fault of data that
// is no UTF-8 text.
func decode(name string, data []byte) ([]byte, *Error) {
	const save = `save it as "CSV UTF-8"`
	whole := func(what error, fix string) *Error { return &Error{File: name, Err: what, Fix: fix} }
	switch {
	case bytes.HasPrefix(data, []byte("\xff\xfe")), bytes.HasPrefix(data, []byte("\xfe\xff")):
		return nil, whole(fmt.Errorf("%w: it is UTF-16", ErrEncoding), save)
	case bytes.HasPrefix(data, []byte("PK\x03\x04")), bytes.HasPrefix(data, []byte("\xd0\xcf\x11\xe0")):
		return nil, whole(fmt.Errorf("%w: it is a spreadsheet or an archive", ErrEncoding), save)
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	if at := bytes.IndexByte(data, 0); at >= 0 {
		line, column := position(data, at)
		return nil, &Error{File: name, Line: line, Column: column, Err: fmt.Errorf("%w: it holds a NUL byte (UTF-16, or no text at all)", ErrEncoding), Fix: save}
	}
	if !utf8.Valid(data) {
		at := 0
		for at < len(data) {
			r, size := utf8.DecodeRune(data[at:])
			if r == utf8.RuneError && size == 1 {
				break
			}
			at += size
		}
		line, column := position(data, at)
		return nil, &Error{File: name, Line: line, Column: column, Err: fmt.Errorf("%w: byte %#02x is not UTF-8 (perhaps Latin-1 or Windows-1252)", ErrEncoding, data[at]), Fix: save}
	}
	if at := bytes.IndexAny(data, otherEnds); at >= 0 {
		line, column := position(data, at)
		r, _ := utf8.DecodeRune(data[at:])
		return nil, &Error{File: name, Line: line, Column: column, Err: fmt.Errorf("holds %U, which ends no line and belongs in no cell", r), Fix: "save it with line feeds (LF or CRLF)"}
	}
	if bytes.IndexByte(data, '\n') < 0 && bytes.Count(bytes.TrimRight(data, "\r"), []byte("\r")) > 0 {
		return nil, whole(errors.New("lines end in carriage returns alone"), "save it with line feeds (LF or CRLF)")
	}
	if line, column, ok := longLine(data); ok {
		return nil, &Error{File: name, Line: line, Column: column, Err: fmt.Errorf("%w: a line of more than %d bytes", ErrTooMany, MaxLine), Fix: "give a table that a person could have written"}
	}
	return data, nil
}

// otherEnds are the characters that end a line elsewhere and not in CSV: vertical
// tab, form feed, next line, and Unicode's separators of lines and paragraphs.
const otherEnds = "\v\f\u0085\u2028\u2029"

// longLine finds the first line longer than [MaxLine].
func longLine(data []byte) (line, column int, found bool) {
	for start := 0; start < len(data); {
		line++
		end := bytes.IndexByte(data[start:], '\n')
		if end < 0 {
			end = len(data) - start
		}
		if end > MaxLine {
			return line, MaxLine + 1, true
		}
		start += end + 1
	}
	return 0, 0, false
}

// position returns the 1-based line and column, in bytes, of data[at].
func position(data []byte, at int) (line, column int) {
	line = 1 + bytes.Count(data[:at], []byte("\n"))
	return line, at - bytes.LastIndexByte(data[:at], '\n')
}

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
	at := func(i int, what error, fix string) *Error {
		line := 1 + bytes.Count(data[:i], []byte("\n"))
		return &Error{File: name, Line: line, Column: i - bytes.LastIndexByte(data[:i], '\n'), Err: what, Fix: fix} // in bytes, from 1
	}
	switch {
	case bytes.HasPrefix(data, []byte("\xff\xfe")), bytes.HasPrefix(data, []byte("\xfe\xff")):
		return nil, whole(fmt.Errorf("%w: it is UTF-16", ErrEncoding), save)
	case bytes.HasPrefix(data, []byte("PK\x03\x04")), bytes.HasPrefix(data, []byte("\xd0\xcf\x11\xe0")):
		return nil, whole(fmt.Errorf("%w: it is a spreadsheet or an archive", ErrEncoding), save)
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	if i := bytes.IndexByte(data, 0); i >= 0 {
		return nil, at(i, fmt.Errorf("%w: it holds a NUL byte (UTF-16, or no text at all)", ErrEncoding), save)
	}
	valid := utf8.Valid(data)
	for i := 0; !valid; {
		r, size := utf8.DecodeRune(data[i:])
		if r == utf8.RuneError && size == 1 {
			return nil, at(i, fmt.Errorf("%w: byte %#02x is not UTF-8 (perhaps Latin-1 or Windows-1252)", ErrEncoding, data[i]), save)
		}
		i += size
	}
	if i := firstOf(data, otherEnds); i >= 0 {
		r, _ := utf8.DecodeRune(data[i:])
		return nil, at(i, fmt.Errorf("holds %U, which ends no line and belongs in no cell", r), "save it with line feeds (LF or CRLF)")
	}
	if bytes.IndexByte(data, '\n') < 0 && bytes.Count(bytes.TrimRight(data, "\r"), []byte("\r")) > 0 {
		return nil, whole(errors.New("lines end in carriage returns alone"), "save it with line feeds (LF or CRLF)")
	}
	start := 0
	for line := range bytes.Lines(data) {
		if len(bytes.TrimSuffix(line, []byte("\n"))) > MaxLine {
			return nil, at(start+MaxLine, fmt.Errorf("%w: a line of more than %d bytes", ErrTooMany, MaxLine), "give a table that a person could have written")
		}
		start += len(line)
	}
	return data, nil
}

// firstOf is the place of the first of the characters in data, -1 where it has none: as
// [bytes.IndexAny], which looks at each character of a text by itself.
func firstOf(data []byte, chars string) int {
	first := -1
	for _, r := range chars {
		if i := bytes.IndexRune(data, r); i >= 0 && (first < 0 || i < first) {
			first = i
		}
	}
	return first
}

// otherEnds are the characters that end a line elsewhere and not in CSV: vertical
// tab, form feed, next line, and Unicode's separators of lines and paragraphs.
const otherEnds = "\v\f\u0085\u2028\u2029"

package register

import (
	"bufio"
	"bytes"
	"errors"
	"io"

	"rationwright/nutrients/table"
)

// line is one line of a register with its end.
type line struct {
	text   []byte
	number int  // from 1
	long   bool // more than [table.MaxLine] bytes; text is its beginning
}

// lines reads a file line by line, in memory that no line exceeds. Lines that were
// read can be given back.
type lines struct {
	in     *bufio.Reader
	number int
	back   []line // the next first
}

func newLines(r io.Reader) *lines { return &lines{in: bufio.NewReaderSize(r, 1<<16)} }

// next returns the next line, or [io.EOF].
func (l *lines) next() (line, error) {
	if len(l.back) > 0 {
		first := l.back[0]
		l.back = l.back[1:]
		return first, nil
	}
	var text []byte
	long := false
	for {
		part, err := l.in.ReadSlice('\n')
		if room := table.MaxLine + 2 - len(text); len(part) <= room {
			text = append(text, part...)
		} else {
			text, long = append(text, part[:room]...), true
		}
		switch {
		case errors.Is(err, bufio.ErrBufferFull):
			continue
		case errors.Is(err, io.EOF) && len(text) == 0:
			return line{}, io.EOF
		case err != nil && !errors.Is(err, io.EOF):
			return line{}, err
		}
		l.number++
		return line{text: text, number: l.number, long: long || len(bytes.TrimRight(text, "\r\n")) > table.MaxLine}, nil
	}
}

// give puts lines back in front of those to come.
func (l *lines) give(list []line) { l.back = append(list, l.back...) }

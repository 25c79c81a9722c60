package linear

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
)

// chunk is how much is read at a time, in bytes.
const chunk = 1 << 16

// readText reads all of r, without a byte order mark, up to the first line or
// byte that is too much for an MPS file.
func readText(ctx context.Context, file string, r io.Reader) ([]byte, error) {
	var data []byte
	line, lineStart := 1, 0
	tooMuch := func(field, problem, remedy string) error {
		return SyntaxErrors{{File: file, Line: line, Column: 1, Field: field, Problem: problem, Remedy: remedy}}
	}
	for ctx.Err() == nil {
		if cap(data)-len(data) < chunk {
			data = append(make([]byte, 0, 2*cap(data)+chunk), data...)
		}
		n, err := r.Read(data[len(data) : len(data)+chunk])
		fresh := data[len(data) : len(data)+n]
		for {
			end := bytes.IndexByte(fresh, '\n')
			at := len(data) + max(end, 0)
			if end < 0 {
				at = len(data) + len(fresh)
			}
			if at-lineStart > MaxMPSLine {
				return nil, tooMuch("line", fmt.Sprintf("longer than %d bytes", MaxMPSLine), "give a text file, one record a line")
			}
			data = data[:at]
			if end < 0 {
				break
			}
			data, fresh = data[:at+1], fresh[end+1:]
			line, lineStart = line+1, at+1
		}
		switch {
		case len(data) > MaxMPSBytes:
			line = 1
			return nil, tooMuch("file", fmt.Sprintf("larger than %d MB", MaxMPSBytes>>20), "split the model, or leave out what is not needed")
		case errors.Is(err, io.EOF):
			return bytes.TrimPrefix(data, []byte("\ufeff")), nil
		case err != nil:
			return nil, fmt.Errorf("%s: %w", file, err)
		}
	}
	return nil, fmt.Errorf("%s: %w", file, ctx.Err())
}

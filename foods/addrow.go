package foods

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"slices"
	"strings"
)

// Cell is one cell of a row that is added to a file of foods.
type Cell struct{ Column, Text string }

// AddRow returns the CSV file with one row more. The cells go under the columns of
// the file's own header, in its order; a column that it lacks is added at the end,
// with empty cells in the rows that are there. Empty content becomes a file with
// these columns. What is there is kept: byte by byte where no column is added, else
// cell by cell.
func AddRow(content []byte, cells []Cell) ([]byte, error) {
	const mark = "\ufeff"
	text := strings.TrimPrefix(string(content), mark)
	prefix := string(content)[:len(content)-len(text)]
	crlf := strings.Contains(text, "\r\n")
	in := csv.NewReader(strings.NewReader(text))
	in.FieldsPerRecord = -1
	header, err := in.Read()
	if err != nil && !errors.Is(err, io.EOF) {
		return nil, err
	}
	has := len(header)
	row := make([]string, has)
	for _, c := range cells {
		if c.Text == "" {
			continue
		}
		at := slices.IndexFunc(header, func(name string) bool { return fold(name) == c.Column })
		if at < 0 {
			at = len(header)
			header, row = append(header, c.Column), append(row, "")
		}
		row[at] = c.Text
	}
	var b bytes.Buffer
	b.WriteString(prefix)
	out := csv.NewWriter(&b)
	out.UseCRLF = crlf
	if len(header) == has {
		b.WriteString(text)
		if !strings.HasSuffix(text, "\n") {
			b.WriteString(map[bool]string{true: "\r\n", false: "\n"}[crlf])
		}
		err := out.WriteAll([][]string{row})
		return b.Bytes(), err
	}
	records := [][]string{header}
	for {
		record, err := in.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, err
		}
		records = append(records, append(record, make([]string, max(0, len(header)-len(record)))...))
	}
	err = out.WriteAll(append(records, row)) // flushes
	return b.Bytes(), err
}

package table

import (
	"fmt"
	"io"
	"strings"
)

// ReadLines reads all of r, a list of one row a line, as a table of the format's
// first column alone. Blank lines and lines that begin with # are left out. The
// errors are as those of [Format.Read].
func (f Format) ReadLines(name string, r io.Reader) (*Table, error) {
	text, err := readText(name, r)
	if err != nil {
		return nil, err
	}
	column := f.Columns[0].Name
	t := &Table{Name: name, format: f, header: []string{column}, columns: map[string]int{column: 0}}
	number := 0
	for line := range strings.Lines(string(text)) {
		number++
		trimmed := strings.TrimSpace(line)
		if trimmed == "" || strings.HasPrefix(trimmed, "#") {
			continue
		}
		if len(t.Rows) == MaxRows {
			t.errs.add(tooMany(name, number, fmt.Sprintf("at most %d rows", MaxRows)))
			break
		}
		at := 1 + len(line) - len(strings.TrimLeft(line, " \t"))
		t.Rows = append(t.Rows, &Row{table: t, Line: number, cells: []cell{{text: Composed(trimmed), line: number, column: at}}})
	}
	return t, t.Err()
}

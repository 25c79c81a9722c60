package table

import (
	"encoding/csv"
	"io"
)

// Write writes a header and rows of cells as CSV that [Read] reads back: UTF-8,
// commas, LF line ends, quotes only where needed.
func Write(w io.Writer, header []string, rows [][]string) error {
	out := csv.NewWriter(w)
	if err := out.Write(header); err != nil {
		return err
	}
	return out.WriteAll(rows) // flushes
}

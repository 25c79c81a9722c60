package foods

import (
	"bytes"
	"encoding/csv"
	"io"

	"rationwright/nutrients/table"
)

// rowsOf returns the rows of a file as a plan carries them: a header of those
// columns of the format that the file has, in the format's order, then the
// cells of each row.
func rowsOf(in *table.Table, format []table.Column) [][]string {
	var header []string
	for _, c := range format {
		if in.HasColumn(c.Name) {
			header = append(header, c.Name)
		}
	}
	rows := [][]string{header}
	for _, row := range in.Rows {
		cells := make([]string, len(header))
		for i, name := range header {
			cells[i] = row.Text(name)
		}
		rows = append(rows, cells)
	}
	return rows
}

// FromRows returns rows, header first, as a file for [Table.ReadFoods],
// [Table.ReadPrices] or [Table.ReadStock]: the way back from a plan that
// carries what they read.
func FromRows(rows [][]string) io.Reader {
	var b bytes.Buffer
	csv.NewWriter(&b).WriteAll(rows) // a buffer takes every write; csv fails only on an odd delimiter
	return &b
}

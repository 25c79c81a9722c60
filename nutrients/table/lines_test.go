package table_test

import (
	"errors"
	"strings"
	"testing"

	"rationwright/nutrients/table"
)

// A list has one row a line, where the line begins; blank lines and those that begin with # are
// counted and left out.
func TestReadLines(t *testing.T) {
	format := table.Format{Columns: table.Filled.Columns("line")}
	read, err := format.ReadLines("list.txt", strings.NewReader("\ufeff# a list\nrice, 1 kg\r\n\n \t A\u030ase  \n  # no more\n\"tea\n80 g"))
	if err != nil {
		t.Fatal(err)
	}
	want := []struct {
		text         string
		line, column int
	}{{"rice, 1 kg", 2, 1}, {"\u00c5se", 4, 4}, {`"tea`, 6, 1}, {"80 g", 7, 1}}
	if len(read.Rows) != len(want) {
		t.Fatalf("%d rows, want %d", len(read.Rows), len(want))
	}
	for i, w := range want {
		row := read.Rows[i]
		file, line, column := row.Position("line")
		if row.Text("line") != w.text || row.Line != w.line || file != "list.txt" || line != w.line || column != w.column {
			t.Errorf("row %d: %q in line %d at %s:%d:%d, want %q at %d:%d", i, row.Text("line"), row.Line, file, line, column, w.text, w.line, w.column)
		}
	}
	if _, err := format.ReadLines("list.txt", strings.NewReader("rice\npur\xe9e\n")); !errors.Is(err, table.ErrEncoding) || !strings.HasPrefix(err.Error(), "list.txt:2:4: ") {
		t.Errorf("a line that is no UTF-8: %v", err)
	}
	full, err := format.ReadLines("list.txt", strings.NewReader("#\n"+strings.Repeat("x\n", table.MaxRows)+"\n#\n"))
	if err != nil || len(full.Rows) != table.MaxRows {
		t.Errorf("%d rows, %v", len(full.Rows), err)
	}
	over, err := format.ReadLines("list.txt", strings.NewReader("#\n"+strings.Repeat("x\n", table.MaxRows+3)))
	if !errors.Is(err, table.ErrTooMany) || !strings.HasPrefix(err.Error(), "list.txt:200002:1: ") || strings.Contains(err.Error(), "\n") || len(over.Rows) != table.MaxRows {
		t.Errorf("three rows more than are read: %v", err)
	}
}

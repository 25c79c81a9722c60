package facts

import (
	"encoding/csv"
	"fmt"
	"io"
	"maps"
	"reflect"
	"slices"
	"strconv"
	"strings"
)

// Table is an answer as one flat table. The first column says of which kind a row
// is.
type Table struct {
	columns []string
	rows    [][]string
}

// Row is the cells of one row by column. A cell is a string, a number, a bool, a
// list of strings, or a pointer to one of these; a nil pointer is an absent value.
type Row map[string]any

// New returns a table with the columns named, which stand in one string between
// spaces.
func New(columns string) *Table { return &Table{columns: strings.Fields(columns)} }

// Add appends a row of the kind section. A column that the table does not have is
// a fault of the caller and panics.
func (t *Table) Add(section string, row Row) {
	cells := make([]string, len(t.columns))
	cells[0] = Cell(section)
	for name, v := range row {
		cells[t.column(name)] = cell(reflect.ValueOf(v))
	}
	t.rows = append(t.rows, cells)
}

// AddIf is [Table.Add] where it holds.
func (t *Table) AddIf(holds bool, section string, row Row) {
	if holds {
		t.Add(section, row)
	}
}

// Each appends a row for every element of list, a slice of structs. Fields says
// which JSON keys of an element go where, between spaces: "cost" fills the column
// cost, "amount=net_g" the column amount from the key net_g. More are cells that
// all rows share. Keys and columns are looked up in an empty list as well.
func (t *Table) Each(section string, list any, fields string, more Row) {
	items := reflect.ValueOf(list)
	type source struct {
		column string
		field  []int
	}
	var from []source
	for f := range strings.FieldsSeq(fields) {
		column, key, renamed := strings.Cut(f, "=")
		if !renamed {
			key = column
		}
		t.column(column)
		from = append(from, source{column, fieldOf(items.Type().Elem(), key)})
	}
	for i := range items.Len() {
		row := Row{}
		maps.Copy(row, more)
		for _, s := range from {
			row[s.column] = items.Index(i).FieldByIndex(s.field).Interface()
		}
		t.Add(section, row)
	}
}

// Write writes the table as CSV, its header first.
func (t *Table) Write(w io.Writer) error {
	return csv.NewWriter(w).WriteAll(slices.Concat([][]string{t.columns}, t.rows))
}

// Has reports whether the table has a column of that name.
func (t *Table) Has(column string) bool { return slices.Contains(t.columns, column) }

func (t *Table) column(name string) int {
	c := slices.Index(t.columns, name)
	if c < 0 {
		panic(fmt.Sprintf("facts: no column %q", name))
	}
	return c
}

// fieldOf finds the field that JSON knows by key, through embedded structs.
func fieldOf(of reflect.Type, key string) []int {
	for _, f := range reflect.VisibleFields(of) {
		if name, _, _ := strings.Cut(f.Tag.Get("json"), ","); name == key {
			return f.Index
		}
	}
	panic(fmt.Sprintf("facts: %v has no key %q", of, key))
}

// cell writes one value.
func cell(v reflect.Value) string {
	switch v.Kind() {
	case reflect.Invalid:
		return ""
	case reflect.Pointer:
		if v.IsNil() {
			return ""
		}
		return cell(v.Elem())
	case reflect.String:
		return Cell(v.String())
	case reflect.Bool:
		return strconv.FormatBool(v.Bool())
	case reflect.Int:
		return strconv.FormatInt(v.Int(), 10)
	case reflect.Float64:
		return Number(v.Float())
	case reflect.Slice:
		return Cell(strings.Join(v.Interface().([]string), "; "))
	}
	panic(fmt.Sprintf("facts: a cell cannot hold %v", v.Type()))
}

package foods

import (
	"embed"
	"errors"
	"strings"

	"rationwright/nutrients/table"
)

// DataFile returns one of the embedded tables as it is written, for a check that
// reads the rows on its own. The error is that of the file system for a name that
// the tables lack.
func DataFile(name string) ([]byte, error) { return data.ReadFile("data/" + name) }

//go:embed data/*.csv
var data embed.FS

// embedded reads one of the embedded tables; errors call it foods/data/name.
func embedded(name string, columns []table.Column) (*table.Table, error) {
	return table.Embedded(data, "foods", name, columns)
}

// keyed reads one of the embedded tables, by the key that read makes of a row and what
// it makes of the row; a second row with a key is recorded as a fault of the column.
func keyed[K comparable, V any](name string, cols []table.Column, column string, read func(*table.Row) (K, V)) (map[K]V, error) {
	in, err := embedded(name, cols)
	if err != nil {
		return nil, err
	}
	all := map[K]V{}
	for _, row := range in.Rows {
		k, v := read(row)
		if _, twice := all[k]; twice {
			row.Fail(column, ErrTwice, "leave one row")
		}
		all[k] = v
	}
	return all, in.Err()
}

// columns makes optional columns of a list of names parted by blanks, filled those that
// every row must fill.
var columns, filled = table.Optional.Columns, table.Filled.Columns

// Largest figures that a cell may hold: what is above is a slip of the unit or
// of the decimal point, not a food.
const (
	mostPer100g = 1e5 // in any unit of the table; vitamin A of cod liver oil, the largest, is 1e5 IU
	mostGrams   = 1e5 // g of a pack, a sitting or a day
)

// ErrTwice is wrapped by errors about a second row with the same key.
var ErrTwice = errors.New("there twice")

// ErrUnknown is wrapped by every error about a name that the table lacks.
var ErrUnknown = errors.New("not in the food table")

// fold is s for comparing names: case, outer blanks and how an accent was typed do
// not matter.
func fold(s string) string { return strings.ToLower(strings.TrimSpace(table.Composed(s))) }

// Bounds of pack cells: what lies beyond is a slip.
const (
	leastNetG = 0.1 // g, less than a pinch of spice
	mostPrice = 1e5 // in any currency
)

package web

import (
	"reflect"
	"testing"
)

// TestColumnsInAnyOrder: a table is brought into the columns of the form by their names, in
// whatever order they come; what it does not have is empty, what the form does not have is
// left, and a row that ends early is filled up.
func TestColumnsInAnyOrder(t *testing.T) {
	form := []string{"pack", "price", "currency"}
	for _, c := range []struct {
		name       string
		rows, want [][]string
	}{
		{"nothing", nil, nil},
		{"the header alone", [][]string{{"price", "pack"}}, nil},
		{"in order", [][]string{{"pack", "price", "currency"}, {"rice", "2", "TSD"}}, [][]string{{"rice", "2", "TSD"}}},
		{"two changed over", [][]string{{"price", "pack", "currency"}, {"2", "rice", "TSD"}, {"3", "beans", ""}}, [][]string{{"rice", "2", "TSD"}, {"beans", "3", ""}}},
		{"backwards", [][]string{{"currency", "price", "pack"}, {"TSD", "2", "rice"}}, [][]string{{"rice", "2", "TSD"}}},
		{"one is lacking", [][]string{{"currency", "pack"}, {"TSD", "rice"}}, [][]string{{"rice", "", "TSD"}}},
		{"one more", [][]string{{"note", "pack", "price"}, {"cheap", "rice", "2"}}, [][]string{{"rice", "2", ""}}},
		{"a short row", [][]string{{"price", "pack", "currency"}, {"2"}, {}}, [][]string{{"", "2", ""}, {"", "", ""}}},
	} {
		if got := fitted(c.rows, form); !reflect.DeepEqual(got, append([][]string{form}, c.want...)) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	// The tables of the form itself, each with its columns backwards.
	for _, columns := range [][]string{personColumns, stockColumns, priceColumns, shelfColumns} {
		var back, row []string
		for i := range columns {
			back, row = append(back, columns[len(columns)-1-i]), append(row, "of "+columns[len(columns)-1-i])
		}
		for i, cell := range fitted([][]string{back, row}, columns)[1] {
			if cell != "of "+columns[i] {
				t.Errorf("column %s has %q", columns[i], cell)
			}
		}
	}
}

package stores

import (
	"bytes"
	"embed"
	"encoding/csv"
	"fmt"
	"math"
	"strings"
	"sync"

	"rationwright/nutrients/table"
)

//go:embed data/*.csv
var files embed.FS

// row is one row of an embedded table. The tables are part of the program: a
// cell that does not parse is a fault of the build, so the accessors panic
// with file, line and field, and a test loads every table.
type row struct{ *table.Row }

// rows reads the embedded table data/name.csv.
func rows(name string) []row {
	path := "data/" + name + ".csv"
	text, err := files.ReadFile(path)
	return parse(path, text, err)
}

// tableOf returns what read makes of each row of the embedded table data/name.csv, which
// is read once.
func tableOf[T any](name string, read func(row) T) func() []T {
	return sync.OnceValue(func() []T {
		var all []T
		for _, r := range rows(name) {
			all = append(all, read(r))
		}
		return all
	})
}

// withKey returns the row of data/name.csv with the key; a key that the table lacks is a
// fault of the build and panics.
func withKey[T any](all []T, name, key string, keyOf func(*T) string) T {
	for i := range all {
		if keyOf(&all[i]) == key {
			return all[i]
		}
	}
	panic("stores: data/" + name + ".csv: no key " + key)
}

// where returns those of all that are so, nil where none is.
func where[T any](all []T, is func(*T) bool) []T {
	var found []T
	for i := range all {
		if is(&all[i]) {
			found = append(found, all[i])
		}
	}
	return found
}

// parse reads a table of the program's own from its text.
func parse(path string, text []byte, err error) []row {
	if err != nil {
		panic(fmt.Sprintf("stores: %v", err))
	}
	header, err := csv.NewReader(bytes.NewReader(text)).Read()
	if err != nil {
		panic(fmt.Sprintf("stores: %s: %v", path, err))
	}
	var columns []table.Column
	for _, h := range header {
		columns = append(columns, table.Column{Name: h, Presence: table.Present})
	}
	t, err := table.Read(path, bytes.NewReader(text), columns)
	if err != nil {
		panic(fmt.Sprintf("stores: %v", err))
	}
	all := make([]row, len(t.Rows))
	for i, r := range t.Rows {
		all[i] = row{r}
	}
	return all
}

// tags returns the words of a list cell.
func (r row) tags(field string) []Tag {
	var tags []Tag
	for _, word := range r.List(field) {
		tags = append(tags, Tag(word))
	}
	return tags
}

// number returns the cell as a number; known is false when it is empty.
func (r row) number(field string) (v float64, known bool) {
	if !r.Has(field) {
		return 0, false
	}
	v, ok := r.Float(field, -math.MaxFloat64, math.MaxFloat64)
	if !ok {
		r.bad(field)
	}
	return v, true
}

// must returns the cell as a number; an empty cell is a fault of the table.
func (r row) must(field string) float64 {
	v, known := r.number(field)
	if !known {
		r.bad(field)
	}
	return v
}

func (r row) bad(field string) {
	file, line, column := r.Position(field)
	panic(fmt.Sprintf("stores: %s:%d:%d: %s %q: not a number", file, line, column, field, r.Text(field)))
}

// Ref is where a figure comes from: the publication, and whether an
// independent copy was seen ("yes: …", "from memory" or "common practice, no
// source").
type Ref struct {
	Source   string `json:"source"`
	Verified string `json:"verified"`
}

// FromMemory reports whether the figure was written down from memory; such a
// figure is printed with that mark.
func (r Ref) FromMemory() bool { return strings.HasPrefix(r.Verified, "from memory") }

// NoSource reports whether the figure is common practice without a source.
func (r Ref) NoSource() bool { return strings.HasPrefix(r.Verified, "common practice") }

func (r row) ref() Ref { return Ref{r.Text("source"), r.Text("verified")} }

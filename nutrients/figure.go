package nutrients

import (
	"embed"
	"math"
	"strings"

	"rationwright/nutrients/table"
)

//go:embed data/*.csv
var dataFiles embed.FS

// figure is one published value with its origin. Value is NaN where the
// publication sets none.
type figure struct {
	Value                  float64
	Unit                   string
	Source, Verified, Note string
}

// set reports whether the publication gives a value.
func (f figure) set() bool { return !math.IsNaN(f.Value) }

// limit returns the figure as a limit of the given kind.
func (f figure) limit(kind string) Limit {
	return Limit{Amount: f.Value, Kind: kind, Source: f.Source, Verified: f.Verified}
}

// readData reads an embedded table, every one of whose columns (names parted by blanks)
// must be there, and calls each for its rows.
func readData(name, columns string, each func(*table.Row)) error {
	t, err := table.Embedded(dataFiles, "nutrients", name, table.Present.Columns(columns))
	if t == nil {
		return err
	}
	for _, row := range t.Rows {
		each(row)
	}
	return t.Err()
}

// figureOf reads a value with its origin.
func figureOf(row *table.Row, field, unit string) figure {
	f := figure{
		Value:    math.NaN(),
		Unit:     unit,
		Source:   row.Text("source"),
		Verified: row.Text("verified"),
		Note:     row.Text("note"),
	}
	row.SetFloat(field, -1e6, 1e6, &f.Value)
	return f
}

// fromMemory reports whether a figure was not seen in a publication.
func fromMemory(verified string) bool { return !strings.HasPrefix(verified, "yes") }

package foods

import (
	"errors"
	"io"

	"rationwright/nutrients/table"
)

// patternRow is one row of data/pattern.csv: what the published pattern asks
// of a group at an energy level, and the share of it that a store without
// fresh food is held to.
type patternRow struct {
	pattern          string // us, vegetarian, toddler-us, toddler-vegetarian
	level            float64
	group, unit      string
	published, scale float64
	source, note     string
}

// patternNames are the patterns of data/pattern.csv.
var patternNames = []string{"us", "vegetarian", "toddler-us", "toddler-vegetarian"}

// readPattern reads a table in the columns of data/pattern.csv.
func readPattern(file string, r io.Reader) ([]patternRow, error) {
	in, err := table.Read(file, r, append(filled("pattern kcal_level group published_per_day scale unit source"), columns("verified note")...))
	if err != nil {
		return nil, err
	}
	type key struct {
		pattern, group string
		level          float64
	}
	seen := map[key]bool{}
	var rows []patternRow
	for _, row := range in.Rows {
		p := patternRow{
			pattern: row.Choice("pattern", patternNames...),
			unit:    row.Text("unit"),
			source:  row.Text("source"),
			note:    row.Text("note"),
		}
		p.group = row.Choice("group", patternGroupNames()...)
		if unit, ok := patternUnit(p.group); ok && unit != p.unit {
			row.Fail("unit", errors.New("not the unit of this group"), "write "+unit)
		}
		p.level, _ = row.Float("kcal_level", 100, 10_000)
		p.published, _ = row.Float("published_per_day", 0, 1000)
		p.scale, _ = row.Float("scale", 0, 2)
		k := key{p.pattern, p.group, p.level}
		if seen[k] {
			row.Fail("kcal_level", ErrTwice, "leave one row for each pattern, group and level")
		}
		seen[k] = true
		rows = append(rows, p)
	}
	return rows, in.Err()
}

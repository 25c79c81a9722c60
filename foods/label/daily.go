package label

import (
	"embed"
	"sync"

	"rationwright/nutrients"
	"rationwright/nutrients/table"
)

//go:embed data/daily_values.csv
var data embed.FS

// Bases of percentages: the EU's nutrient reference values and the daily values of
// the United States.
const (
	basisNRV = "NRV"
	basisDV  = "DV"
)

// daily is what 100 % of a nutrient is on a label.
type daily struct {
	amount   float64
	unit     string
	sameForm bool // the basis counts the form that the column of the table counts
	source   string
}

type dailyKey struct {
	nutrient nutrients.Nutrient
	basis    string
}

// dailyValues reads data/daily_values.csv, once.
var dailyValues = sync.OnceValues(func() (map[dailyKey]daily, error) {
	columns := table.Filled.Columns("nutrient basis amount unit same_form source verified")
	in, err := table.Embedded(data, "foods/label", "daily_values.csv", columns)
	if err != nil {
		return nil, err
	}
	all := map[dailyKey]daily{}
	for _, row := range in.Rows {
		n, ok := nutrients.ByName(row.Text("nutrient"))
		if !ok {
			row.Fail("nutrient", table.ErrUnknownWord, "write a nutrient of the food table")
		}
		d := daily{unit: row.Text("unit"), sameForm: row.Yes("same_form"), source: row.Text("source")}
		d.amount, _ = row.Float("amount", 0, 1e4)
		if row.Text("verified") == "from memory" {
			d.source += ", from memory"
		}
		all[dailyKey{n, row.Choice("basis", basisNRV, basisDV)}] = d
	}
	return all, in.Err()
})

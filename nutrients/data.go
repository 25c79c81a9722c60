package nutrients

import (
	"errors"
	"fmt"
	"math"
	"sync"

	"rationwright/nutrients/table"
)

// published holds every requirement table of data/.
type published struct {
	driTable
	shareTable
	energyTables
	bodyTable
	specialTable
	infantTables
	supplementTable
	medicineTable
}

// data reads the embedded tables once. Its error means that the program was
// built with a damaged table; the tests read every one.
var data = sync.OnceValues(func() (*published, error) {
	var d published
	for _, table := range []interface{ read() error }{
		&d.driTable, &d.shareTable, &d.energyTables, &d.bodyTable, &d.specialTable, &d.infantTables, &d.supplementTable, &d.medicineTable,
	} {
		if err := table.read(); err != nil {
			return nil, fmt.Errorf("nutrients: embedded table: %w", err)
		}
	}
	return &d, nil
})

// specialTable is special.csv, by group and rule.
type specialTable struct{ special map[string]figure }

func (d *specialTable) read() error {
	d.special = map[string]figure{}
	return readData("special.csv", "group rule quantity unit source verified note", func(row *table.Row) {
		d.special[row.Text("group")+": "+row.Text("rule")] = figureOf(row, "quantity", row.Text("unit"))
	})
}

// rule returns a row of special.csv. The tests look up every rule that the
// package names.
func (d *specialTable) rule(group, rule string) figure {
	f, ok := d.special[group+": "+rule]
	if !ok {
		panic("nutrients: special.csv has no rule " + group + ": " + rule) // the package's own bug
	}
	return f
}

// infantTables are the milk feeds and the median weights of infants.
type infantTables struct {
	infants []infantFigure
	weights []infantWeight
}

func (d *infantTables) read() error { return errors.Join(d.readFeeds(), d.readWeights()) }

// infantFigure is one row of infant_feeding.csv; High is NaN where the row has
// one value only.
type infantFigure struct {
	ages
	Topic, Item string
	figure
	High float64
}

func (d *infantTables) readFeeds() error {
	const columns = "topic age_min_months age_max_months item value value_max unit source verified note"
	return readData("infant_feeding.csv", columns, func(row *table.Row) {
		f := infantFigure{agesOf(row), row.Text("topic"), row.Text("item"), figureOf(row, "value", row.Text("unit")), math.NaN()}
		row.SetFloat("value_max", 0, 1e6, &f.High)
		d.infants = append(d.infants, f)
	})
}

// infant returns the row of infant_feeding.csv for an age in months.
func (d *infantTables) infant(topic, item string, months int) infantFigure {
	for _, f := range d.infants {
		if f.Topic == topic && f.Item == item && f.has(months) {
			return f
		}
	}
	panic(fmt.Sprintf("nutrients: infant_feeding.csv has no %s: %s at %d months", topic, item, months)) // the package's own bug
}

// infantWeight is one row of infant_weights.csv.
type infantWeight struct {
	Sex    string
	Months float64
	figure
}

func (d *infantTables) readWeights() error {
	return readData("infant_weights.csv", "sex age_months weight_kg source verified note", func(row *table.Row) {
		months, _ := row.Float("age_months", 0, infantBelow)
		d.weights = append(d.weights, infantWeight{row.Text("sex"), months, figureOf(row, "weight_kg", "kg")})
	})
}

// medianWeight returns the median weight at an age within the table, between
// two of its rows on the straight line, to the tenth of a kg.
func (d *infantTables) medianWeight(sex Sex, months float64) figure {
	var below, above infantWeight
	for _, w := range d.weights {
		switch {
		case w.Sex != string(sex):
		case w.Months <= months:
			below = w
		case above.Sex == "":
			above = w
		}
	}
	f := below.figure
	f.Value = tenths(below.Value + (months-below.Months)/(above.Months-below.Months)*(above.Value-below.Value))
	return f
}

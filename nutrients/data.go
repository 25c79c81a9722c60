package nutrients

import (
	"embed"
	"fmt"
	"math"
	"strings"
	"sync"

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

// ages is a range of ages in full months: from Min to under Max.
type ages struct{ Min, Max int }

func (a ages) has(months int) bool { return months >= a.Min && months < a.Max }

// published holds every requirement table of data/.
type published struct {
	stages  []stage
	dri     map[string]map[driKey]figure // by name of the life stage
	shares  []shareFigure
	terms   []energyTerm
	bodies  []body
	dga     []dgaFigure
	special map[string]figure // by group and rule
	infants []infantFigure
	weights []infantWeight

	supplements []supplementRow
	medicines   []medicine
}

// data reads the embedded tables once. Its error means that the program was
// built with a damaged table; the tests read every one.
var data = sync.OnceValues(func() (*published, error) {
	var d published
	for _, read := range []func(*published) error{
		readDRI, readShares, readEnergy, readBodies, readGuidelines, readSpecial, readInfants, readWeights, readSupplements, readMedicines,
	} {
		if err := read(&d); err != nil {
			return nil, fmt.Errorf("nutrients: embedded table: %w", err)
		}
	}
	return &d, nil
})

// readData reads an embedded table, every column of which must be there, and
// calls each for its rows.
func readData(name string, columns []string, each func(*table.Row)) error {
	file, err := dataFiles.Open("data/" + name)
	if err != nil {
		return err
	}
	defer file.Close()
	var format table.Format
	for _, c := range columns {
		format.Columns = append(format.Columns, table.Column{Name: c, Presence: table.Present})
	}
	t, err := format.Read(name, file)
	if t == nil {
		return err
	}
	for _, row := range t.Rows {
		each(row)
	}
	return t.Err()
}

// beyondAge is the upper end of an open range of ages, in months.
const beyondAge = 12 * 1000

// agesOf reads the columns age_min_months and age_max_months.
func agesOf(row *table.Row) ages { return agesFrom(row, "age_min_months", "age_max_months") }

// agesFrom reads a range of ages; an empty maximum means no upper bound.
func agesFrom(row *table.Row, from, under string) ages {
	lo, _ := row.Float(from, 0, beyondAge)
	hi, ok := row.Float(under, 0, beyondAge)
	if !ok {
		hi = beyondAge
	}
	return ages{int(lo), int(math.Ceil(hi))}
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
	if v, ok := row.Float(field, -1e6, 1e6); ok {
		f.Value = v
	}
	return f
}

// fromMemory reports whether a figure was not seen in a publication.
func fromMemory(verified string) bool { return !strings.HasPrefix(verified, "yes") }

func readSpecial(d *published) error {
	d.special = map[string]figure{}
	return readData("special.csv", []string{"group", "rule", "quantity", "unit", "source", "verified", "note"}, func(row *table.Row) {
		d.special[row.Text("group")+": "+row.Text("rule")] = figureOf(row, "quantity", row.Text("unit"))
	})
}

// rule returns a row of special.csv. The tests look up every rule that the
// package names.
func (d *published) rule(group, rule string) figure {
	f, ok := d.special[group+": "+rule]
	if !ok {
		panic("nutrients: special.csv has no rule " + group + ": " + rule) // the package's own bug
	}
	return f
}

// infantFigure is one row of infant_feeding.csv; High is NaN where the row has
// one value only.
type infantFigure struct {
	ages
	Topic, Item string
	figure
	High float64
}

func readInfants(d *published) error {
	columns := []string{"topic", "age_min_months", "age_max_months", "item", "value", "value_max", "unit", "source", "verified", "note"}
	return readData("infant_feeding.csv", columns, func(row *table.Row) {
		f := infantFigure{agesOf(row), row.Text("topic"), row.Text("item"), figureOf(row, "value", row.Text("unit")), math.NaN()}
		if v, ok := row.Float("value_max", 0, 1e6); ok {
			f.High = v
		}
		d.infants = append(d.infants, f)
	})
}

// infant returns the row of infant_feeding.csv for an age in months.
func (d *published) infant(topic, item string, months int) infantFigure {
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

func readWeights(d *published) error {
	return readData("infant_weights.csv", []string{"sex", "age_months", "weight_kg", "source", "verified", "note"}, func(row *table.Row) {
		months, _ := row.Float("age_months", 0, infantBelow)
		d.weights = append(d.weights, infantWeight{row.Text("sex"), months, figureOf(row, "weight_kg", "kg")})
	})
}

// medianWeight returns the median weight at an age within the table, between
// two of its rows on the straight line, to the tenth of a kg.
func (d *published) medianWeight(sex Sex, months float64) figure {
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

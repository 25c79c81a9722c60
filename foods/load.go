package foods

import (
	"fmt"
	"io"
	"sync"

	"rationwright/foods/kinds"
	"rationwright/nutrients/table"
)

// embeddedTable is the table as embedded, parsed once.
var embeddedTable = sync.OnceValues(func() (*Table, error) {
	t := &Table{}
	var errs []error
	keep := func(err error) { errs = append(errs, err) }
	var err error
	t.keeping, err = readKeeping()
	keep(err)
	t.forms = formNames(t.keeping)
	t.preparation, err = readPreparation()
	keep(err)
	t.containers, err = readContainers()
	keep(err)
	t.density, err = readDensity()
	keep(err)
	t.cups, err = readCups()
	keep(err)
	t.tags, err = readTags()
	keep(err)
	t.groups, err = readGroups()
	keep(err)
	file, err := data.Open("data/pattern.csv")
	if err != nil {
		return nil, fmt.Errorf("foods: %w", err)
	}
	defer file.Close()
	t.pattern, err = readPattern("foods/data/pattern.csv", file)
	keep(err)
	t.kinds, err = kinds.Load()
	keep(err)
	t.caps, err = kinds.LoadCaps()
	keep(err)
	keep(readComposition(t))
	keep(readPacks(t))
	keep(readSupplies(t))
	_, err = embeddedRules()
	keep(err)
	_, err = embeddedCaps()
	keep(err)
	if err := table.Join(errs...); err != nil {
		return nil, err
	}
	for _, f := range t.Foods {
		f.Kinds = names(t.kinds.Of(f.NDB))
	}
	t.Sell(SizesMetric)
	return t, nil
})

// Load returns the embedded food table: every food by NDB number, every pack
// by key, keeping and preparation attached. It is parsed once; each call
// returns a copy whose foods, packs and supplies the caller may change, while what they
// point to beyond that (slices, keeping, preparation) is shared and must not be
// changed in place.
//
// What may be bought is the sizes of metric countries, see [Table.Sell].
//
// An error means that the embedded data are broken, never that input is.
func Load() (*Table, error) {
	t, err := embeddedTable()
	if err != nil {
		return nil, err
	}
	return t.Clone(), nil
}

// ReadPattern replaces the daily pattern of food groups by the one in r, in
// the columns of data/pattern.csv. On an error the table is unchanged.
func (t *Table) ReadPattern(file string, r io.Reader) error {
	rows, err := readPattern(file, r)
	if err != nil {
		return err
	}
	t.pattern = rows
	return nil
}

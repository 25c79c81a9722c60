package foods

import (
	"bytes"
	"maps"
	"slices"
	"sync"

	"rationwright/foods/kinds"
	"rationwright/nutrients/table"
)

// embeddedTable is the table as embedded, parsed once.
var embeddedTable = sync.OnceValues(func() (*Table, error) {
	t := &Table{}
	var errs []error
	t.keeping = kept(&errs, readKeeping)
	t.forms = slices.Sorted(maps.Keys(t.keeping))
	t.preparation = kept(&errs, readPreparation)
	t.containers = kept(&errs, readContainers)
	t.density = kept(&errs, readDensity)
	t.cups = kept(&errs, readCups)
	t.tags = kept(&errs, func() ([]string, error) { return readWords("tags.csv", "tag", "meaning source") })
	t.groups = kept(&errs, func() ([]string, error) { return readWords("groups.csv", "group", "source") })
	t.pattern = kept(&errs, func() ([]patternRow, error) {
		text, err := DataFile("pattern.csv")
		if err != nil {
			return nil, err
		}
		return readPattern("foods/data/pattern.csv", bytes.NewReader(text))
	})
	t.kinds = kept(&errs, kinds.Load)
	t.caps = kept(&errs, kinds.LoadCaps)
	errs = append(errs, readComposition(t), readPacks(t), readSupplies(t))
	kept(&errs, embeddedRules)
	kept(&errs, embeddedCaps)
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

// kept returns what read reads, and adds its error to errs.
func kept[T any](errs *[]error, read func() (T, error)) T {
	value, err := read()
	*errs = append(*errs, err)
	return value
}

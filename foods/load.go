package foods

import (
	"cmp"
	"embed"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync"

	"rationwright/foods/kinds"
	"rationwright/nutrients/table"
)

//go:embed data/*.csv
var data embed.FS

// embedded reads one of the embedded tables; errors call it foods/data/name.
func embedded(name string, columns []table.Column) (*table.Table, error) {
	file, err := data.Open("data/" + name)
	if err != nil {
		return nil, fmt.Errorf("foods: %w", err)
	}
	defer file.Close()
	return table.Read("foods/data/"+name, file, columns)
}

// columns makes optional columns of a list of names parted by blanks.
func columns(names string) []table.Column {
	var cols []table.Column
	for name := range strings.FieldsSeq(names) {
		cols = append(cols, table.Column{Name: name})
	}
	return cols
}

// filled makes columns that every row must fill.
func filled(names string) []table.Column {
	cols := columns(names)
	for i := range cols {
		cols[i].Presence = table.Filled
	}
	return cols
}

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
	keep(t.readComposition())
	keep(t.readPacks())
	keep(t.readSupplies())
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

// Clone returns a copy of the table with foods, packs and supplies of its own, see
// [Load].
func (t *Table) Clone() *Table {
	c := *t
	c.Foods = make([]*Food, len(t.Foods))
	c.Packs = make([]*Pack, len(t.Packs))
	foods := make(map[*Food]*Food, len(t.Foods))
	packs := make(map[*Pack]*Pack, len(t.Packs))
	for i, f := range t.Foods {
		copied := *f
		copied.Packs = nil
		c.Foods[i], foods[f] = &copied, &copied
	}
	for i, p := range t.Packs {
		copied := *p
		copied.Food = foods[p.Food]
		c.Packs[i], packs[p] = &copied, &copied
	}
	c.Supplies = make([]*Supply, len(t.Supplies))
	for i, s := range t.Supplies {
		copied := *s
		c.Supplies[i] = &copied
	}
	for _, f := range t.Foods {
		own := foods[f]
		for _, p := range f.Packs {
			own.Packs = append(own.Packs, packs[p])
		}
	}
	return &c
}

// sort puts foods in order of their keys, packs in order of theirs, and the
// packs of each food from the smallest to the largest.
func (t *Table) sort() {
	slices.SortStableFunc(t.Foods, func(a, b *Food) int { return strings.Compare(a.NDB, b.NDB) })
	slices.SortStableFunc(t.Packs, func(a, b *Pack) int { return strings.Compare(a.Key, b.Key) })
	for _, f := range t.Foods {
		f.folded = t.kinds.Fold(f.Name)
		slices.SortStableFunc(f.Packs, func(a, b *Pack) int {
			return cmp.Or(cmp.Compare(a.NetG, b.NetG), strings.Compare(a.Key, b.Key))
		})
	}
}

// byNDB returns the food with the key, nil when there is none.
func (t *Table) byNDB(ndb string) *Food {
	for _, f := range t.Foods {
		if strings.EqualFold(f.NDB, ndb) {
			return f
		}
	}
	return nil
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

package dishes

import (
	"bytes"
	"embed"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strconv"
	"strings"

	"rationwright/foods"
	"rationwright/foods/kinds"
	"rationwright/nutrients/table"
)

//go:embed data/*.csv
var data embed.FS

// Faults of a dish file, for [errors.Is].
var (
	ErrTwice   = errors.New("written twice")
	ErrUnknown = errors.New("no such kind or food")
	ErrNoDish  = errors.New("no such dish")
	ErrNoParts = errors.New("a dish without parts that it needs")
	ErrAmounts = errors.New("least, usual and most grams do not rise")
)

// Book is the dishes of one food table, by key. It does not change once read.
type Book struct {
	Dishes []*Dish

	table    *foods.Table
	kinds    *kinds.Table
	byNDB    map[string]*foods.Food
	measures map[string][]measure
}

// Load returns the embedded dishes, bound to t. An error means that the embedded
// data are broken or that t lacks foods of them.
func Load(t *foods.Table) (*Book, error) {
	k, err := kinds.Load()
	if err != nil {
		return nil, err
	}
	b := &Book{table: t, kinds: k, byNDB: map[string]*foods.Food{}}
	for _, f := range t.Foods {
		b.byNDB[f.NDB] = f
	}
	if b.measures, err = readMeasures(); err != nil {
		return nil, err
	}
	list, err := data.ReadFile("data/dishes.csv")
	parts, errParts := data.ReadFile("data/dish_parts.csv")
	if err := errors.Join(err, errParts); err != nil {
		return nil, fmt.Errorf("dishes: %w", err)
	}
	_, err = b.read("foods/dishes/data/dishes.csv", bytes.NewReader(list),
		"foods/dishes/data/dish_parts.csv", bytes.NewReader(parts), false)
	return b, err
}

// Read adds the dishes of the user's own two files, in the columns of the embedded
// ones; the sources may be left out. A dish whose key
// the book has takes its place. The error is a [*table.Errors] with every fault of
// both files; the book is then unchanged.
func (b *Book) Read(listFile string, list io.Reader, partsFile string, parts io.Reader) (warnings []string, err error) {
	return b.read(listFile, list, partsFile, parts, true)
}

// Dish returns the dish with the key, nil when there is none.
func (b *Book) Dish(key string) *Dish {
	i, found := slices.BinarySearchFunc(b.Dishes, key, func(d *Dish, key string) int { return strings.Compare(d.Key, key) })
	if !found {
		return nil
	}
	return b.Dishes[i]
}

func (b *Book) read(listFile string, list io.Reader, partsFile string, parts io.Reader, own bool) ([]string, error) {
	ds, err := table.Format{Columns: fileColumns(dishFilled, dishOptional, own), Row: "dish"}.Read(listFile, list)
	if ds == nil {
		return nil, err
	}
	ps, err := table.Format{Columns: fileColumns(partFilled, partOptional, own), Row: "part"}.Read(partsFile, parts)
	if ps == nil {
		return nil, table.Join(ds.Err(), err)
	}
	found := map[string]*Dish{}
	at := map[string]*table.Row{}
	for _, row := range ds.Rows {
		d := readDish(row, own)
		if found[d.Key] != nil {
			row.Fail("dish", ErrTwice, "leave one row")
			continue
		}
		found[d.Key], at[d.Key] = d, row
	}
	for _, row := range ps.Rows {
		d := found[row.Text("dish")]
		if d == nil {
			row.Fail("dish", ErrNoDish, "write a dish of "+listFile)
			continue
		}
		if p := b.readPart(row); p != nil {
			d.Parts = append(d.Parts, p)
		}
	}
	keys := slices.Sorted(maps.Keys(found))
	for _, key := range keys {
		if len(found[key].Required()) == 0 {
			at[key].Fail("dish", ErrNoParts, "give it at least one part with optional no in "+partsFile)
		}
	}
	if err := table.Join(ds.Err(), ps.Err()); err != nil {
		return nil, err
	}
	all := slices.DeleteFunc(slices.Clone(b.Dishes), func(d *Dish) bool { return found[d.Key] != nil })
	for _, key := range keys {
		all = append(all, found[key])
	}
	slices.SortFunc(all, func(a, b *Dish) int { return strings.Compare(a.Key, b.Key) })
	b.Dishes = all
	return append(ds.Warnings, ps.Warnings...), nil
}

const (
	dishFilled   = "dish name slots from_months cooking minutes texture times_usual times_max how"
	dishOptional = "core under_months simmer_min stand_min soak_hours pots cold_only"
	partFilled   = "dish part_kind_or_food name role min_g usual_g max_g"
	partOptional = "part optional substitutes eaten_as water_ml_per_100g reckoned_as note"
)

// fileColumns are the columns of a file; that of the program itself names the source
// of every row.
func fileColumns(filled, optional string, own bool) []table.Column {
	sourced := table.Filled
	if own {
		sourced = table.Optional
	}
	return slices.Concat(table.Filled.Columns(filled), table.Optional.Columns(optional), sourced.Columns("source verified"))
}

// Bounds of dish cells: what lies beyond is a slip.
const (
	mostGrams   = 2000
	mostMinutes = 24 * 60
	mostMonths  = 120 * 12
	mostFigure  = 1e5
	mostTimes   = 10 * Fortnight // feeds
)

func readDish(row *table.Row, own bool) *Dish {
	d := &Dish{
		Key: row.Text("dish"), Name: row.Text("name"), How: row.Text("how"),
		Cooking: row.Choice("cooking", "none", "warm", "boil", "simmer"),
		Texture: row.Choice("texture", "puree", "soft", "regular", "hard"),
		Core:    row.Yes("core"), ColdOnly: row.Yes("cold_only"), Own: own,
	}
	for _, s := range row.Choices("slots", string(Breakfast), string(Midday), string(Evening), string(Snack), string(Drink)) {
		d.Slots = append(d.Slots, Slot(s))
	}
	d.FromMonths, _ = row.Int("from_months", 0, mostMonths)
	d.UnderMonths, _ = row.Int("under_months", 0, mostMonths)
	d.TimesUsual, _ = row.Int("times_usual", 1, mostTimes)
	d.TimesMax, _ = row.Int("times_max", 1, mostTimes)
	if d.TimesMax < d.TimesUsual {
		row.Fail("times_max", errors.New("less than times_usual"), "write at least "+strconv.Itoa(d.TimesUsual))
	}
	d.Pots, _ = row.Int("pots", 0, 4)
	row.SetFloat("simmer_min", 0, mostMinutes, &d.SimmerMin)
	row.SetFloat("stand_min", 0, mostMinutes, &d.StandMin)
	row.SetFloat("soak_hours", 0, mostMinutes, &d.SoakHours)
	row.SetFloat("minutes", 0, mostMinutes, &d.Minutes)
	return d
}

func (b *Book) readPart(row *table.Row) *Part {
	p := &Part{
		Ref: row.Text("part_kind_or_food"), Name: row.Text("name"),
		Role:    row.Choice("role", "base", "protein", "vegetable", "fat", "flavour", "liquid"),
		EatenAs: row.Text("eaten_as"), Note: row.Text("note"), Optional: row.Yes("optional"),
	}
	p.MinG, _ = row.Float("min_g", 0.05, mostGrams)
	p.UsualG, _ = row.Float("usual_g", 0.05, mostGrams)
	p.MaxG, _ = row.Float("max_g", 0.05, mostGrams)
	if p.MinG > p.UsualG || p.UsualG > p.MaxG {
		row.Fail("usual_g", ErrAmounts, "write min_g ≤ usual_g ≤ max_g")
	}
	if ml, ok := row.Float("water_ml_per_100g", 0, mostFigure); ok {
		p.WaterML = &ml
	}
	fix := "write a kind (see foods list --format csv, column kinds), a food's name or its NDB number"
	add := func(list []*foods.Food, factor float64, substitute bool) {
		for _, f := range list {
			if _, twice := p.Makes(f); !twice {
				p.Options = append(p.Options, Option{f, factor, substitute})
			}
		}
	}
	list := b.named(p.Ref)
	if list == nil {
		row.Fail("part_kind_or_food", ErrUnknown, fix)
		return nil
	}
	add(list, 1, false)
	for _, text := range row.List("substitutes") {
		name, times, _ := strings.Cut(text, "*")
		factor, err := strconv.ParseFloat(times, 64)
		more := b.named(name)
		switch {
		case err != nil || !(factor > 0 && factor <= 1000):
			row.FailValue("substitutes", text, errors.New("no factor"), "write KIND*FACTOR, as dry milk*0.1")
		case more == nil:
			row.FailValue("substitutes", name, ErrUnknown, fix)
		default:
			add(more, factor, true)
		}
	}
	p.ReckonedAs = p.Options[0].Food
	if row.Has("reckoned_as") {
		f := b.byNDB[row.Text("reckoned_as")]
		if _, ok := p.Makes(f); f == nil || !ok {
			row.Fail("reckoned_as", ErrUnknown, "write the NDB number of a food of the part")
			return nil
		}
		p.ReckonedAs = f
	}
	return p
}

// named returns the foods of a kind, or the food of an NDB number or of a name; nil
// where there is none in the table.
func (b *Book) named(ref string) []*foods.Food {
	if f := b.byNDB[ref]; f != nil {
		return []*foods.Food{f}
	}
	var list []*foods.Food
	if k := b.kinds.Kind(ref); k != nil {
		for _, ndb := range k.Foods {
			if f := b.byNDB[ndb]; f != nil {
				list = append(list, f)
			}
		}
		return list
	}
	for _, f := range b.table.Foods {
		if f.Name == ref {
			return []*foods.Food{f}
		}
	}
	return nil
}

package foods

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"rationwright/nutrients"
	"rationwright/nutrients/table"
)

// FoodChanges says what a file of the user's own foods did to a table.
type FoodChanges struct {
	Added    []*Food // new foods
	Changed  []*Food // foods of the table with figures from the user's label
	Packs    []*Pack // new packs, and packs with figures from the user's label
	Rows     [][]string
	Warnings []string // located, and what Verify says of the foods
}

// userColumns are the columns of composition.csv, foods.csv and packs.csv.
var userColumns = func() []table.Column {
	var cols []table.Column
	add := func(more []table.Column) {
		for _, c := range more {
			if !slices.ContainsFunc(cols, func(have table.Column) bool { return have.Name == c.Name }) {
				cols = append(cols, table.Column{Name: c.Name})
			}
		}
	}
	add(filled("ndb name pack"))
	add(columns(foodFilled + " " + foodOptional))
	add(columns(packFilled + " " + packOptional))
	add(compositionColumns())
	return cols
}()

// neededOfFood are the cells that a row for a new food must fill: what every
// label carries, and what decides who may eat it. "none" stands for an empty
// list.
const neededOfFood = "ndb name group form allergens tags texture energy_kcal protein_g fat_g carbohydrate_g"

// noneWord in a list cell says that the list is known to be empty.
const noneWord = "none"

// ReadFoods adds the foods and packs of r, a file with any of the columns of
// the embedded tables composition.csv, foods.csv and packs.csv. A row whose ndb
// (or name, where ndb is empty) the table has is about that food: its filled
// nutrient and other cells replace the table's, as the label of an infant
// formula should, and its pack cells add a pack or correct one. Another ndb
// (U001, or the NDB number of a food that the table lacks) makes a new food;
// nutrients left empty are unknown, not zero. A second row with the same ndb
// adds another pack.
//
// The most eaten at a sitting and in a day, where empty, is the largest of the
// foods of the same form, else of the same group.
//
// The error is a [*table.Errors] with every fault of the file; the table is
// then unchanged.
func (t *Table) ReadFoods(file string, r io.Reader) (*FoodChanges, error) {
	in, err := table.Format{Columns: userColumns, Row: "food or pack"}.Read(file, r)
	if in == nil {
		return nil, err
	}
	next := t.Clone()
	changes := &FoodChanges{}
	lines := map[string]int{} // first line of each pack key
	for _, row := range in.Rows {
		next.userRow(row, changes, lines)
	}
	if err := in.Err(); err != nil {
		return nil, err
	}
	for _, f := range changes.Added {
		next.fillCaps(f)
		next.fillKinds(f)
	}
	next.sort()
	changes.Rows, changes.Warnings = rowsOf(in, userColumns), in.Warnings
	changes.verify(next, file)
	*t = *next
	return changes, nil
}

// verify adds to the warnings what the checks say of the user's foods and packs.
func (c *FoodChanges) verify(t *Table, file string) {
	foods := append(slices.Clone(c.Added), c.Changed...)
	for _, p := range c.Packs {
		if !slices.Contains(foods, p.Food) {
			foods = append(foods, p.Food)
		}
	}
	for _, f := range verify(t, foods) {
		if f.Severity == Info || f.Food == nil || !f.Food.Own && (f.Pack == nil || !f.Pack.Own) {
			continue
		}
		name := f.Food.Name
		if f.Pack != nil {
			name = f.Pack.Key
		}
		c.Warnings = append(c.Warnings, fmt.Sprintf("%s: %s: %s", file, name, f.Text))
	}
}

// userRow reads one row into t and changes.
func (t *Table) userRow(row *table.Row, changes *FoodChanges, lines map[string]int) {
	f := t.byNDB(row.Text("ndb"))
	if f == nil && !row.Has("ndb") && row.Has("name") {
		f, _ = t.Food(row.Text("name"))
	}
	isNew := f == nil
	if isNew {
		for column := range strings.FieldsSeq(neededOfFood) {
			if !row.Has(column) {
				row.Fail(column, fmt.Errorf("%w, and this food is new to the table", table.ErrEmpty), needHint(column))
			}
		}
		f = &Food{NDB: row.Text("ndb"), Per100g: nutrients.Unknown(), Class: "ready to eat", AddedRule: "as the user gave it"}
		f.Computed = isComputed(f.NDB)
	}
	if name := row.Text("name"); name != "" {
		if other, err := t.Food(name); err == nil && other != f {
			row.Fail("name", fmt.Errorf("%w: %s is called that", ErrTwice, other.NDB), "give the food a name of its own")
		}
	}
	set := t.applyUserFood(row, f)
	if set > 0 || isNew {
		f.Own = true
		if f.Source = row.Text("source"); f.Source == "" {
			f.Source = "the user's label"
		}
		f.Verified = "as the user gave it"
		f.Description = orElse(row.Text("description"), orElse(f.Description, f.Name))
		f.Basis = orElse(f.Basis, "as packed")
		switch {
		case isNew:
			t.Foods = append(t.Foods, f)
			changes.Added = append(changes.Added, f)
		case !slices.Contains(changes.Added, f) && !slices.Contains(changes.Changed, f):
			changes.Changed = append(changes.Changed, f)
		}
	}
	t.attach(f)
	for column := range strings.FieldsSeq("net_g label_net_g tare_g volume_l container price easy_open") {
		if row.Has(column) && !row.Has("pack") {
			row.Fail("pack", table.ErrEmpty, "write the key of the pack that "+column+" is about")
			break
		}
	}
	packed := row.Has("pack") && t.userPack(row, f, changes, lines)
	if set == 0 && !isNew && !packed && !saysMore(row) {
		row.Fail("ndb", errors.New("this row changes nothing"), "fill a pack or a figure")
	}
}

// saysMore reports whether the row fills a cell beyond those that name the food.
func saysMore(row *table.Row) bool {
	return slices.ContainsFunc(userColumns, func(c table.Column) bool {
		return c.Name != "ndb" && c.Name != "name" && row.Has(c.Name)
	})
}

func orElse(s, other string) string {
	if s != "" {
		return s
	}
	return other
}

func needHint(column string) string {
	switch column {
	case "ndb":
		return "write a key of your own, such as U001"
	case "allergens":
		return "write the allergens on the label, parted by semicolons, or none"
	case "tags":
		return "write the tags that apply (see foods/data/tags.csv), or none"
	case "texture":
		return "write one of " + strings.Join(Textures, " ")
	case "form":
		return "write a form of foods/data/keeping.csv, such as canned_beans"
	}
	return "write it as on the label, per 100 g"
}

// applyUserFood sets what the row's cells about the food give, and returns how
// many it set. Wheat brings the gluten tag with it.
func (t *Table) applyUserFood(row *table.Row, f *Food) (set int) {
	set = f.applyAmounts(row)
	for column := range strings.FieldsSeq("name group form basis allergens may_contain tags texture mercury companions serves class occasion_g day_g added_sugars_g lactose_g gi gi_class") {
		if column == "name" && strings.EqualFold(row.Text("name"), f.Name) || column == "basis" && row.Has("pack") && f.Basis != "" {
			continue
		}
		if row.Has(column) {
			set++
		}
	}
	if set == 0 && f.Name != "" {
		return 0
	}
	basis := f.Basis
	t.applyWords(row, f, true)
	if basis != "" && row.Has("pack") {
		f.Basis = basis // the cell is the pack's
	}
	if row.Has("may_contain") || row.Has("allergens") {
		f.MayContain = slices.DeleteFunc(slices.Clone(f.MayContain), func(a string) bool { return slices.Contains(f.Allergens, a) })
	}
	if slices.Contains(f.Allergens, "wheat") && !f.HasTag("gluten") {
		f.Tags = append(slices.Clone(f.Tags), "gluten")
	}
	return set
}

// userPack adds or corrects a pack of f; it reports whether the row had a
// usable one.
func (t *Table) userPack(row *table.Row, f *Food, changes *FoodChanges, lines map[string]int) bool {
	key := row.Text("pack")
	if first, twice := lines[fold(key)]; twice {
		row.Fail("pack", fmt.Errorf("%w: already in line %d", ErrTwice, first), "give each pack a key of its own")
		return false
	}
	lines[fold(key)] = row.Line
	p := t.pack(fold(key))
	if p != nil && p.Food != f {
		row.Fail("pack", fmt.Errorf("%w: it is a pack of %s", ErrTwice, p.Food.Name), "give the pack a key of its own")
		return false
	}
	isNew := p == nil
	if isNew {
		p = &Pack{Key: key, Food: f, Basis: f.Basis}
		if row.Has("container") {
			c, ok := t.containers[row.Text("container")]
			if !ok && !(row.Has("tare_g") && row.Has("volume_l")) {
				row.Fail("container", ErrUnknown, "write an id of foods/data/packages.csv, or give tare_g and volume_l")
			}
			p.TareG, p.VolumeL = c.tareG, c.boxL
			p.Source = "container: " + c.source
		}
	}
	if row.Has("net_g") && !row.Has("label_net_g") {
		p.LabelG = 0 // the label says the net weight then
	}
	p.applyCells(row)
	p.Own = true
	if row.Has("price") {
		p.Invented = false
	}
	if isNew {
		for column := range strings.FieldsSeq("net_g tare_g volume_l") {
			needless := column != "net_g" && row.Has("container")
			if !row.Has(column) && !needless {
				row.Fail(column, table.ErrEmpty, "a new pack needs it, or a container of foods/data/packages.csv for tare and litres")
			}
		}
		t.addPack(p)
	}
	if p.NetG > p.LabelG {
		row.Fail("net_g", table.ErrRange, "write at most the net weight of the label")
	}
	changes.Packs = append(changes.Packs, p)
	return true
}

// fillCaps gives a food without amounts at a sitting and in a day those of the
// foods most like it.
func (t *Table) fillCaps(f *Food) {
	if f.OccasionG > 0 || f.DayG > 0 {
		f.CapSource = orElse(f.CapSource, "the user's file")
		return
	}
	for _, like := range []struct {
		what string
		is   func(*Food) bool
	}{
		{"form", func(o *Food) bool { return o.Form == f.Form }},
		{"group", func(o *Food) bool { return o.Group == f.Group }},
	} {
		for _, o := range t.Foods {
			if o != f && !o.Own && like.is(o) {
				f.OccasionG, f.DayG = max(f.OccasionG, o.OccasionG), max(f.DayG, o.DayG)
			}
		}
		if f.OccasionG > 0 {
			f.CapSource = "the largest of the foods of the same " + like.what
			return
		}
	}
}

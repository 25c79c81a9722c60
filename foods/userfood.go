package foods

import (
	"cmp"
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
	Packs    []*Pack // new packs
	Rows     [][]string
	Notes    []string // how each food was understood, one a line
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
	add(columns("like label grams kinds"))
	add(columns(foodFilled + " " + foodOptional))
	add(columns(packFilled + " " + packOptional))
	add(compositionColumns())
	return cols
}()

// neededOfFood are the cells that a row for a new food must fill: what every
// label carries, and what decides who may eat it. "none" stands for an empty
// list.
const neededOfFood = "ndb name group form allergens tags texture energy_kcal protein_g fat_g carbohydrate_g"

// ReadFoods adds the foods and packs of r, a file with any of the columns of
// the embedded tables composition.csv, foods.csv and packs.csv. Each food gets
// a key (U001) and a name of its own; nutrients left empty are unknown, not
// zero. A second row with the same ndb adds another pack. A row with the ndb or
// name of a built-in food adds a pack of one's own to it and may say nothing
// else: what the table says of a food, its allergens first, no file changes.
//
// The most eaten at a sitting and in a day, where empty, is the largest of the
// foods of the same form, else of the same group.
//
// A row may be as short as name, grams, price, allergens and like: a food of the
// table that this one is most like, see [userReading.like]. Its figures are then
// those of that food, or those of label, a nutrition label as printed (package
// label); ndb and pack are given where they are empty. Such a row without a name
// is a pack of the food that it is like.
//
// The error is a [*table.Errors] with every fault of the file, those that
// [Verify] calls an error among them; the table is then unchanged.
func (t *Table) ReadFoods(file string, r io.Reader) (*FoodChanges, error) {
	in, err := table.Format{Columns: userColumns, Row: "food or pack"}.Read(file, r)
	if in == nil {
		return nil, err
	}
	next := t.Clone()
	reading := userReading{Table: next, rows: map[*Food]*table.Row{}, packRows: map[string]*table.Row{}, written: map[string]bool{}}
	for _, row := range in.Rows {
		reading.written[fold(row.Text("ndb"))] = true
	}
	for _, row := range in.Rows {
		reading.row(row)
	}
	if err := in.Err(); err != nil {
		return nil, err
	}
	changes := &reading.changes
	for _, f := range changes.Added {
		f.fillCaps(t.Foods)
		f.fillKinds(t.Foods)
	}
	next.sort()
	changes.Rows, changes.Warnings = rowsOf(in, userColumns), append(changes.Warnings, in.Warnings...)
	reading.verify(file)
	if err := in.Err(); err != nil {
		return nil, err
	}
	*t = *next
	return changes, nil
}

// userReading is a table while the rows of a user's file are put into it.
type userReading struct {
	*Table
	changes  FoodChanges
	rows     map[*Food]*table.Row
	packRows map[string]*table.Row // by folded key
	written  map[string]bool       // the folded keys of foods that the file gives
	known    foodIndex
}

// verify fails the rows of which the checks say that they are wrong, and adds
// to the warnings what else they say of the user's foods and packs.
func (t *userReading) verify(file string) {
	foods := slices.Clone(t.changes.Added)
	for _, p := range t.changes.Packs {
		if !slices.Contains(foods, p.Food) {
			foods = append(foods, p.Food)
		}
	}
	for _, f := range verify(t.Table, foods) {
		if f.Severity == Info || f.Food == nil || !f.Food.Own && (f.Pack == nil || !f.Pack.Own) {
			continue
		}
		name, row := f.Food.Name, t.rows[f.Food]
		if f.Pack != nil {
			name, row = f.Pack.Key, t.packRows[fold(f.Pack.Key)]
		}
		if f.Severity == Error {
			where := cureOf(f.Check)
			row.Fail(where.column, errors.New(f.Text), where.fix)
			continue
		}
		t.changes.Warnings = append(t.changes.Warnings, fmt.Sprintf("%s: %s: %s", file, name, f.Text))
	}
}

// errBuiltIn is the fault of a row that would change what the table says.
var errBuiltIn = errors.New("a food of the table is not changed by a file")

// row reads one row.
func (t *userReading) row(row *table.Row) {
	like, ok := t.like(row)
	if !ok {
		(&Pack{}).applyCells(row) // for their faults
		row.Float("grams", leastNetG, mostGrams)
		row.Choices("allergens", append(slices.Clone(Allergens), noneWord)...)
		return
	}
	f := t.byNDB(row.Text("ndb"))
	switch {
	case f != nil || row.Has("ndb"):
	case row.Has("name"):
		f = t.called(row.Text("name"))
	default:
		f = like // a pack of it
	}
	if f != nil && !f.Own {
		t.builtInPack(row, f)
		return
	}
	isNew := f == nil
	if isNew && like == nil && !row.Has("ndb") && (row.Has("grams") || row.Has("label")) {
		row.Fail("like", table.ErrEmpty, "write the food of the table that it is most like: group, cooking and keeping are taken from it")
		return
	}
	if isNew {
		f = &Food{NDB: row.Text("ndb"), Per100g: nutrients.Unknown(), Class: "ready to eat", AddedRule: "as the user gave it"}
		needed := neededOfFood
		if like != nil {
			f.take(like, row.Has("label"))
			needed = neededBeside
			if f.NDB == "" {
				f.NDB = t.freeKey()
			}
		}
		for column := range strings.FieldsSeq(needed) {
			if !row.Has(column) {
				hint := cmp.Or(needHints[column], "write it as on the label, per 100 g")
				row.Fail(column, fmt.Errorf("%w, and this food is new to the table", table.ErrEmpty), hint)
			}
		}
		f.Computed, f.Own, f.Verified = isComputed(f.NDB), true, "as the user gave it"
		t.rows[f] = row
	}
	if other := t.called(row.Text("name")); row.Has("name") && other != nil && other != f {
		row.Fail("name", fmt.Errorf("%w: %s is called that", ErrTwice, other.NDB), "give the food a name of its own")
	}
	t.applyLabel(row, f, like)
	t.applyUserFood(row, f)
	f.Source = cmp.Or(row.Text("source"), f.Source, "the user's label")
	f.Description = cmp.Or(row.Text("description"), f.Description, f.Name)
	f.Basis = cmp.Or(f.Basis, "as packed")
	if isNew {
		t.heldByTheLike(row, f, like)
		t.Foods = append(t.Foods, f)
		t.changes.Added = append(t.changes.Added, f)
	}
	attach(t.Table, f)
	t.packOf(row, f)
}

// called returns the food of exactly this name, nil when there is none.
func (t *userReading) called(name string) *Food { return t.index().names[fold(name)] }

// byNDB is [Table.byNDB] in constant time.
func (t *userReading) byNDB(ndb string) *Food { return t.index().numbers[fold(ndb)] }

// foodIndex finds foods by name and by NDB number.
type foodIndex struct {
	names, numbers map[string]*Food
	so             int // how many foods of the table are in it
}

// index returns the index with every food read so far.
func (t *userReading) index() *foodIndex {
	x := &t.known
	if x.names == nil {
		x.names, x.numbers = map[string]*Food{}, map[string]*Food{}
	}
	for ; x.so < len(t.Foods); x.so++ {
		f := t.Foods[x.so]
		x.names[fold(f.Name)], x.numbers[fold(f.NDB)] = f, f
	}
	return x
}

// packCells are the columns of a file of foods that are about a pack.
const packCells = "grams net_g label_net_g tare_g volume_l container price currency easy_open"

// builtInPack reads a row with the ndb or name of a built-in food: a pack of
// the user's, nothing else.
func (t *userReading) builtInPack(row *table.Row, f *Food) {
	changes := false
	own := append(strings.Fields(packCells), "ndb", "name", "like", "pack", "basis", "source", "verified", "note")
	for _, c := range userColumns {
		if row.Has(c.Name) && !slices.Contains(own, c.Name) || c.Name == "name" && row.Has("name") && fold(row.Text("name")) != fold(f.Name) {
			row.Fail(c.Name, errBuiltIn, fmt.Sprintf("for a food of your own write an ndb such as U001 and a name of its own; %s stays as it is", f.NDB))
			changes = true
		}
	}
	if !t.packOf(row, f) && !changes {
		row.Fail("ndb", errors.New("this row changes nothing"), "fill a pack")
	}
}

// packOf reads the pack cells of a row, if it has any; it reports whether there
// were any.
func (t *userReading) packOf(row *table.Row, f *Food) bool {
	if row.Has("pack") || row.Has("grams") {
		t.userPack(row, f)
		return true
	}
	for column := range strings.FieldsSeq(packCells) {
		if row.Has(column) {
			row.Fail("pack", table.ErrEmpty, "write the key of the pack that "+column+" is about")
			return true
		}
	}
	return false
}

// needHints say what to write in a column that a new food needs, where it is not a
// figure of the label.
var needHints = map[string]string{
	"ndb":       "write a key of your own, such as U001",
	"allergens": "write the allergens on the label, parted by semicolons, or none",
	"tags":      "write the tags that apply (see foods/data/tags.csv), or none",
	"texture":   "write one of " + strings.Join(Textures, " "),
	"form":      "write a form of foods/data/keeping.csv, such as canned_beans",
}

// applyUserFood sets what the row's cells about the food give, and the tags
// that follow from them: gluten from wheat, animal from milk or meat, salt and
// sugar from their figures, and for canned food, on the safe side, pieces that
// are mashed for small children.
func (t *userReading) applyUserFood(row *table.Row, f *Food) {
	f.applyAmounts(row)
	basis := f.Basis
	t.applyWords(row, f, true)
	t.kindsOf(row, f)
	if basis != "" && row.Has("pack") {
		f.Basis = basis // the cell is the pack's
	}
	f.MayContain = slices.DeleteFunc(slices.Clone(f.MayContain), func(a string) bool { return slices.Contains(f.Allergens, a) })
	add := func(tag string, follows bool) {
		if follows && !f.HasTag(tag) {
			f.Tags = append(slices.Clone(f.Tags), tag)
		}
	}
	add("gluten", slices.Contains(f.Allergens, "wheat"))
	add("animal", f.holdsAnimal())
	sodium, known := f.Per100g.Get(nutrients.Sodium)
	if known && sodium < lowSodiumMg && f.Like != "" && !f.Copied {
		f.Tags = slices.DeleteFunc(slices.Clone(f.Tags), func(tag string) bool { return tag == "added-salt" })
	}
	add("added-salt", known && sodium >= lowSodiumMg && !f.feed() && !f.naturallySalty())
	added, known := f.Per100g.Get(nutrients.AddedSugars)
	add("added-sugar", known && added >= countedSugarsG && !f.feed())
	add("whole-pieces", slices.Contains(pieceGroups, f.Group) && f.Texture != "puree")
}

// userPack adds a pack of f.
func (t *userReading) userPack(row *table.Row, f *Food) {
	sized := &Pack{}
	written := row.Text("pack")
	if grams, ok := row.Float("grams", leastNetG, mostGrams); ok {
		sized = sizedPack(t.Table, f, grams, row.Text("container"))
		written = cmp.Or(written, sized.Key)
	}
	key := fold(written)
	if first := t.packRows[key]; first != nil {
		row.Fail("pack", fmt.Errorf("%w: already in line %d", ErrTwice, first.Line), "give each pack a key of its own")
		return
	}
	t.packRows[key] = row
	if p := t.pack(key); p != nil {
		row.Fail("pack", fmt.Errorf("%w: it is a pack of %s", ErrTwice, p.Food.Name), "give the pack a key of its own; a price of yours goes into the file of prices")
		return
	}
	p := &Pack{
		Key: written, Food: f, Basis: cmp.Or(sized.Basis, f.Basis), Own: true, Source: "the user's file", Note: sized.Note,
		LabelG: sized.LabelG, NetG: sized.NetG, TareG: sized.TareG, VolumeL: sized.VolumeL, EasyOpen: sized.EasyOpen,
	}
	if row.Has("container") && !isContainerWord(row.Text("container")) {
		c, ok := t.containers[row.Text("container")]
		if !ok && !(row.Has("tare_g") && row.Has("volume_l")) {
			row.Fail("container", ErrUnknown, "write an id of foods/data/packages.csv, or give tare_g and volume_l")
		}
		p.TareG, p.VolumeL = c.tareG, c.boxL
		p.Source = "container: " + c.source
	}
	p.applyCells(row)
	if isContainerWord(p.Container) {
		p.Container = "" // no id of foods/data/packages.csv
	}
	for column := range strings.FieldsSeq("net_g tare_g volume_l") {
		if !row.Has(column) && !row.Has("grams") && (column == "net_g" || !row.Has("container")) {
			row.Fail(column, table.ErrEmpty, "a new pack needs it, or a container of foods/data/packages.csv for tare and litres")
		}
	}
	t.addPack(p)
	if p.NetG > p.LabelG {
		row.Fail("net_g", table.ErrRange, "write at most the net weight of the label")
	}
	t.changes.Packs = append(t.changes.Packs, p)
}

// fillCaps gives a food without amounts at a sitting and in a day those of the
// foods most like it.
func (f *Food) fillCaps(others []*Food) {
	if f.OccasionG > 0 || f.DayG > 0 {
		f.CapSource = cmp.Or(f.CapSource, "the user's file")
		return
	}
	for _, like := range []struct {
		what string
		is   func(*Food) bool
	}{
		{"form", func(o *Food) bool { return o.Form == f.Form }},
		{"group", func(o *Food) bool { return o.Group == f.Group }},
	} {
		for _, o := range others {
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

package foods

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"rationwright/foods/kinds"
	"rationwright/foods/label"
	"rationwright/nutrients"
	"rationwright/nutrients/table"
)

// neededBeside are the cells that a row for a new food must fill beside like.
const neededBeside = "name allergens"

// labelNeeds are the figures that every label carries and that the energy of a
// food is checked by.
var labelNeeds = []nutrients.Nutrient{nutrients.Energy, nutrients.Protein, nutrients.Fat, nutrients.Carbohydrate}

// like returns the food that the row says it is most like, nil without the cell; ok
// is false where the cell is faulty. What no other food is like is refused: infant
// formula and human milk are fed by rules of their own.
func (t *userReading) like(row *table.Row) (like *Food, ok bool) {
	if !row.Has("like") {
		return nil, true
	}
	like, err := t.Food(row.Text("like"))
	if err != nil {
		if what, fix, named := NameFault(err); named {
			row.Fail("like", errors.New(what), fix)
		} else {
			row.Fail("like", err, "")
		}
		return nil, false
	}
	if like.feed() && row.Has("name") {
		row.Fail("like", errors.New("an infant's feed is like no other: its label is for the feed as made up"), "fill the columns of the table for it, or leave name and label out: the row is then a pack of it")
		return nil, false
	}
	return like, true
}

// take gives f what it shares with the food that it is most like: group, form (and
// with it keeping and preparation), texture, tags, kinds, amounts at a sitting and
// in a day, servings; without a label of its own also the figures. With a label
// nothing stays that would let someone eat f who might not eat it by its label.
func (f *Food) take(like *Food, labelled bool) {
	own := *f
	*f = *like
	f.NDB, f.Name, f.Description, f.Short, f.Source, f.Verified, f.Packs, f.folded = own.NDB, "", "", "", "", "", nil, ""
	f.Note = "like " + like.Name
	f.Like, f.Copied = like.NDB, !labelled
	f.CapSource = "as " + like.Name
	f.MayContain = slices.Concat(like.MayContain, like.Allergens) // until the row says what it holds
	if f.Copied {
		f.Source = "the user's row, with the figures of " + like.NDB + " " + like.Name
		return
	}
	f.Per100g, f.Factors, f.GI, f.GIClass = nutrients.Unknown(), Factors{}, 0, ""
	f.LactoseG, f.HasLactose = 0, false
	f.AddedRule = "as the user gave it"
	f.Tags = slices.DeleteFunc(slices.Clone(like.Tags), func(tag string) bool { return tag == TagLowGI || tag == TagFortifiedSoy })
}

// applyLabel sets the figures that the label of the row gives.
func (t *userReading) applyLabel(row *table.Row, f, like *Food) {
	if !row.Has("label") {
		return
	}
	read, faults := label.Parse(row.Text("label"))
	for _, fault := range faults {
		row.FailValue("label", fault.Value, fault.Err, fault.Fix)
	}
	if read == nil {
		return
	}
	density, known := t.looseDensity(cmp.Or(like, f), "")
	if read.ML && !known {
		row.Fail("label", errors.New("figures by volume, and the table does not know what a litre of it weighs"), "write the figures per 100 g")
		return
	}
	per := read.Per100g(density)
	for n, v := range per {
		if !math.IsNaN(v) {
			f.Per100g[n] = v
		}
	}
	for _, n := range labelNeeds {
		if _, given := per.Get(n); !given && !row.Has(n.Column()) {
			row.Fail("label", fmt.Errorf("%s is not on it", n), "write the whole label: every label gives energy, fat, carbohydrate and protein")
		}
	}
	name := cmp.Or(row.Text("name"), f.Name)
	for _, note := range read.Notes {
		t.changes.Notes = append(t.changes.Notes, name+": "+note)
	}
	if read.ML {
		t.changes.Notes = append(t.changes.Notes, fmt.Sprintf("%s: 1 L is taken to weigh %.2f kg, as %s", name, density, cmp.Or(like, f).Name))
	}
}

// heldByTheLike warns where the row does not name an allergen that the food holds
// which it is most like.
func (t *userReading) heldByTheLike(row *table.Row, f, like *Food) {
	if like == nil {
		return
	}
	for _, a := range like.Allergens {
		if row.Has("allergens") && !slices.Contains(f.Allergens, a) {
			file, line, column := row.Position("allergens")
			t.changes.Warnings = append(t.changes.Warnings, fmt.Sprintf("%s:%d:%d: %s holds %s, and %s is said to hold none; look at the label once more", file, line, column, like.Name, a, f.Name))
		}
	}
}

// freeKey is the first key U001, U002 … that no food has.
func (t *userReading) freeKey() string {
	for i := 1; ; i++ {
		key := fmt.Sprintf("U%03d", i)
		if !t.written[fold(key)] && t.byNDB(key) == nil {
			t.written[fold(key)] = true
			return key
		}
	}
}

// kindsOf reads the kinds of a row, each by any word for it.
func (t *userReading) kindsOf(row *table.Row, f *Food) {
	if !row.Has("kinds") {
		return
	}
	f.Kinds = nil
	add := func(k *kinds.Kind) {
		if !slices.Contains(f.Kinds, k.Name) {
			f.Kinds = append(f.Kinds, k.Name)
		}
	}
	for _, word := range row.List("kinds") {
		kind, _ := t.kinds.Find(word)
		if kind == nil {
			row.FailValue("kinds", word, errors.New("no such kind of food"), "write a word of \"rationwright foods show FOOD\", such as "+strings.Join(names(t.kinds.Kinds[:2]), " or "))
			continue
		}
		add(kind)
		for _, wide := range kind.Inside(t.kinds) {
			add(wide)
		}
	}
}

package foods

import (
	"errors"
	"math"
	"slices"
	"strings"

	"rationwright/nutrients"
	"rationwright/nutrients/table"
)

// compositionColumns are the columns of data/composition.csv.
func compositionColumns() []table.Column {
	cols := append(filled("ndb description source"), columns("short_description protein_factor fat_factor carbohydrate_factor")...)
	for n := range nutrients.Count {
		if n != nutrients.AddedSugars {
			cols = append(cols, table.Column{Name: n.Column(), Presence: table.Present})
		}
	}
	return cols
}

const (
	foodFilled   = "ndb name group form basis texture class added_sugars_rule cap_source source verified"
	foodOptional = "allergens may_contain tags mercury companions occasion_g day_g serves added_sugars_g lactose_g gi gi_class note"
)

// readComposition fills t.Foods from data/composition.csv and data/foods.csv,
// which hold the same keys.
func readComposition(t *Table) error {
	comp, err := embedded("composition.csv", compositionColumns())
	if err != nil {
		return err
	}
	desc, err := embedded("foods.csv", append(filled(foodFilled), columns(foodOptional)...))
	if err != nil {
		return err
	}
	return t.joinComposition(comp, desc)
}

// joinComposition fills t.Foods from rows of composition and rows of words, one of each
// for every key.
func (t *Table) joinComposition(comp, desc *table.Table) error {
	byKey := map[string]*Food{}
	for _, row := range comp.Rows {
		f := &Food{NDB: row.Text("ndb"), Per100g: nutrients.Unknown()}
		if byKey[f.NDB] != nil {
			row.Fail("ndb", ErrTwice, "leave one row")
			continue
		}
		f.Computed = isComputed(f.NDB)
		f.applyAmounts(row)
		f.Description, f.Short = row.Text("description"), row.Text("short_description")
		byKey[f.NDB] = f
		t.Foods = append(t.Foods, f)
	}
	described := map[string]bool{}
	for _, row := range desc.Rows {
		key := row.Text("ndb")
		f := byKey[key]
		if f == nil {
			row.Fail("ndb", errors.New("no composition has this key"), "add it to composition.csv")
			continue
		}
		if described[key] {
			row.Fail("ndb", ErrTwice, "leave one row")
			continue
		}
		described[key] = true
		t.applyWords(row, f, false)
		attach(t, f)
	}
	for _, row := range comp.Rows {
		if key := row.Text("ndb"); !described[key] {
			row.Fail("ndb", errors.New("no row of foods.csv has this key"), "add it to foods.csv")
		}
	}
	return table.Join(comp.Err(), desc.Err())
}

// isComputed reports whether a key is not an NDB number (five digits).
func isComputed(key string) bool {
	return len(key) != 5 || strings.Trim(key, "0123456789") != ""
}

// applyAmounts sets what the row's nutrient and factor cells give, per 100 g;
// empty cells change nothing.
func (f *Food) applyAmounts(row *table.Row) {
	for n := range nutrients.Count {
		if n == nutrients.AddedSugars {
			continue // a column of the other table
		}
		row.SetFloat(n.Column(), 0, mostPer100g, &f.Per100g[n])
	}
	row.SetFloat("protein_factor", 0, 10, &f.Factors.Protein)
	row.SetFloat("fat_factor", 0, 10, &f.Factors.Fat)
	row.SetFloat("carbohydrate_factor", 0, 10, &f.Factors.Carbohydrate)
}

// applyWords sets what the row's cells about use give: names, groups, tags,
// amounts at a sitting; empty cells change nothing. With strict every word must
// be one that the table knows; without it [Verify] reports those that are not,
// so that a slip in the embedded data is a finding and not a dead program.
func (t *Table) applyWords(row *table.Row, f *Food, strict bool) {
	word := func(column string, to *string, words []string) {
		if !strict {
			row.SetText(column, to)
		} else if w := row.Choice(column, words...); w != "" {
			*to = w
		}
	}
	list := func(column string, to *[]string, words []string) {
		if !row.Has(column) {
			return
		}
		switch {
		case row.Text(column) == noneWord:
			*to = nil
		case strict:
			*to = row.Choices(column, words...)
		default:
			*to = row.List(column)
		}
	}
	row.SetText("name", &f.Name)
	row.SetText("basis", &f.Basis)
	row.SetText("class", &f.Class)
	row.SetText("gi_class", &f.GIClass)
	row.SetText("added_sugars_rule", &f.AddedRule)
	row.SetText("cap_source", &f.CapSource)
	row.SetText("source", &f.Source)
	row.SetText("verified", &f.Verified)
	row.SetText("note", &f.Note)
	word("group", &f.Group, t.groups)
	word("form", &f.Form, t.forms)
	word("texture", &f.Texture, Textures)
	word("mercury", &f.Mercury, MercuryClasses)
	list("allergens", &f.Allergens, Allergens)
	list("may_contain", &f.MayContain, Allergens)
	list("tags", &f.Tags, t.tags)
	if row.Has("companions") {
		f.Companions = row.List("companions")
	}
	if row.Has("serves") {
		f.Serves = readServes(row)
	}
	row.SetFloat("occasion_g", 0, mostGrams, &f.OccasionG)
	row.SetFloat("day_g", 0, mostGrams, &f.DayG)
	row.SetFloat("gi", 0, 200, &f.GI)
	row.SetFloat("added_sugars_g", 0, 100, &f.Per100g[nutrients.AddedSugars])
	if v, ok := row.Float("lactose_g", 0, 100); ok {
		f.LactoseG, f.HasLactose = v, true
	} else if !slices.Contains(f.Allergens, "milk") {
		f.LactoseG, f.HasLactose = 0, true
	}
}

// readServes reads "group:equivalents per 100 g;…".
func readServes(row *table.Row) []Serving {
	var serves []Serving
	for _, part := range row.List("serves") {
		group, amount, ok := strings.Cut(part, ":")
		group = strings.TrimSpace(group)
		if _, known := patternUnit(group); !known || !ok {
			row.FailValue("serves", part, errors.New("no amount of a pattern group"), "write group:equivalents per 100 g, with one of "+strings.Join(patternGroupNames(), " "))
			continue
		}
		v, fix, err := table.ParseFloat(strings.TrimSpace(amount))
		if err != nil || v < 0 || v > 100 {
			if err == nil {
				err, fix = table.ErrRange, "write equivalents per 100 g from 0 to 100"
			}
			row.FailValue("serves", part, err, fix)
			continue
		}
		if slices.ContainsFunc(serves, func(s Serving) bool { return s.Group == group }) {
			row.FailValue("serves", part, ErrTwice, "leave one")
			continue
		}
		serves = append(serves, Serving{Group: group, Per100g: v})
	}
	return serves
}

func patternGroupNames() []string {
	return table.Words(PatternGroups, func(g struct{ Name, Unit string }) string { return g.Name })
}

// attach gives f the keeping and preparation of its form.
func attach(t *Table, f *Food) {
	f.Keeping, f.Preparation = t.keeping[f.Form], t.preparation[f.Form]
}

// known reports whether every one of ns is known in f.
func (f *Food) known(ns ...nutrients.Nutrient) bool {
	return !slices.ContainsFunc(ns, func(n nutrients.Nutrient) bool { return math.IsNaN(f.Per100g[n]) })
}

// noneWord in a list cell says that the list is known to be empty.
const noneWord = "none"

package foods

import (
	"cmp"
	"errors"

	"rationwright/nutrients/table"
)

// packFilled and packOptional are the columns of data/packs.csv.
const (
	packFilled   = "pack ndb net_g tare_g volume_l"
	packOptional = "market container label_net_g basis price currency easy_open source verified note"
)

// readPacks fills t.Packs and the packs of each food from data/packs.csv. The
// prices of the embedded table are invented for the demo.
func readPacks(t *Table) error {
	in, err := embedded("packs.csv", append(filled(packFilled), columns(packOptional)...))
	if err != nil {
		return err
	}
	seen := map[string]bool{}
	foods := make(map[string]*Food, len(t.Foods))
	for _, f := range t.Foods {
		foods[f.NDB] = f
	}
	for _, row := range in.Rows {
		p := &Pack{Key: row.Text("pack"), Food: foods[row.Text("ndb")], Invented: true}
		if p.Food == nil {
			row.Fail("ndb", ErrUnknown, "add the food to composition.csv and foods.csv")
			continue
		}
		if seen[fold(p.Key)] {
			row.Fail("pack", ErrTwice, "give each pack a key of its own")
			continue
		}
		seen[fold(p.Key)] = true
		p.applyCells(row)
		t.addPack(p)
	}
	return in.Err()
}

func (t *Table) addPack(p *Pack) {
	t.Packs = append(t.Packs, p)
	p.Food.Packs = append(p.Food.Packs, p)
}

// applyCells sets what the row's cells give; empty cells change nothing. The
// label weight is the net weight where only that is given.
func (p *Pack) applyCells(row *table.Row) {
	for _, amount := range []struct {
		column      string
		to          *float64
		least, most float64
	}{
		{"net_g", &p.NetG, leastNetG, mostGrams},
		{"label_net_g", &p.LabelG, leastNetG, mostGrams},
		{"tare_g", &p.TareG, 0, mostGrams},
		{"volume_l", &p.VolumeL, 0.001, 1000},
	} {
		if v, ok := row.Float(amount.column, amount.least, amount.most); ok {
			*amount.to = v
		}
	}
	if p.LabelG <= 0 {
		p.LabelG = p.NetG
	}
	p.GrossG = p.LabelG + p.TareG
	if v, ok := row.Float("price", 0, mostPrice); ok {
		p.Price, p.HasPrice = v, true
	}
	for _, text := range []struct {
		column string
		to     *string
	}{
		{"container", &p.Container}, {"basis", &p.Basis}, {"currency", &p.Currency},
		{"source", &p.Source}, {"verified", &p.Verified}, {"note", &p.Note},
	} {
		if row.Has(text.column) {
			*text.to = row.Text(text.column)
		}
	}
	if row.Has("market") {
		p.Market = row.Choice("market", SizesMetric, SizesUS, "both")
	}
	if row.Has("easy_open") {
		p.EasyOpen = row.Choice("easy_open", "yes", "no") == "yes"
	}
}

// looseDensity returns the g/mL of f as it lies in a cup, or in the container
// where data/cups.csv has a row for that: from its own row, else by its form.
// A wet food has none: its can or jar is filled up.
func (t *Table) looseDensity(f *Food, container string) (perML float64, ok bool) {
	weighed := cmp.Or(f.Like, f.NDB)
	if d, ok := t.cups[cupKey{weighed, container}]; ok {
		return d, true
	}
	if d, ok := t.cups[cupKey{weighed, ""}]; ok {
		return d, true
	}
	d, ok := t.density[f.Form]
	return d, ok
}

// readTags returns the eligibility tags of data/tags.csv.
func readTags() ([]string, error) {
	return readWords("tags.csv", "tag", "meaning source")
}

// readGroups returns the shop groups of data/groups.csv in shelf order.
func readGroups() ([]string, error) {
	return readWords("groups.csv", "group", "source")
}

func readWords(file, column, others string) ([]string, error) {
	in, err := embedded(file, append(filled(column), columns(others)...))
	if err != nil {
		return nil, err
	}
	var words []string
	seen := map[string]bool{}
	for _, row := range in.Rows {
		w := row.Text(column)
		if seen[w] {
			row.Fail(column, errors.New("written twice"), "leave one row")
			continue
		}
		seen[w] = true
		words = append(words, w)
	}
	return words, in.Err()
}

package foods

import (
	"cmp"
	"errors"
	"slices"

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
	row.SetFloat("net_g", leastNetG, mostGrams, &p.NetG)
	row.SetFloat("label_net_g", leastNetG, mostGrams, &p.LabelG)
	row.SetFloat("tare_g", 0, mostGrams, &p.TareG)
	row.SetFloat("volume_l", 0.001, 1000, &p.VolumeL)
	if p.LabelG <= 0 {
		p.LabelG = p.NetG
	}
	p.GrossG = p.LabelG + p.TareG
	if v, ok := row.Float("price", 0, mostPrice); ok {
		p.Price, p.HasPrice = v, true
	}
	row.SetText("container", &p.Container)
	row.SetText("basis", &p.Basis)
	row.SetText("currency", &p.Currency)
	row.SetText("source", &p.Source)
	row.SetText("verified", &p.Verified)
	row.SetText("note", &p.Note)
	if row.Has("market") {
		p.Market = row.Choice("market", SizesMetric, SizesUS, "both")
	}
	if row.Has("easy_open") {
		p.EasyOpen = row.Yes("easy_open")
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

// readWords returns the words of a column of an embedded table, in its order: the
// eligibility tags, the shop groups as on the shelves.
func readWords(file, column, others string) ([]string, error) {
	in, err := embedded(file, append(filled(column), columns(others)...))
	if err != nil {
		return nil, err
	}
	var words []string
	for _, row := range in.Rows {
		w := row.Text(column)
		if slices.Contains(words, w) {
			row.Fail(column, errors.New("written twice"), "leave one row")
			continue
		}
		words = append(words, w)
	}
	return words, in.Err()
}

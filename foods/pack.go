package foods

import (
	"errors"
	"strings"

	"rationwright/nutrients/table"
)

// packFilled and packOptional are the columns of data/packs.csv.
const (
	packFilled   = "pack ndb net_g tare_g volume_l"
	packOptional = "market container label_net_g basis price currency easy_open source verified note"
)

// readPacks fills t.Packs and the packs of each food from data/packs.csv. The
// prices of the embedded table are invented for the demo.
func (t *Table) readPacks() error {
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

// Bounds of pack cells: what lies beyond is a slip.
const (
	leastNetG = 0.1 // g, less than a pinch of spice
	mostPrice = 1e5 // in any currency
)

// mostDrumG bounds a container: a drum of water holds 208 kg.
const mostDrumG = 1e6

// container is one row of data/packages.csv: a kind of can, jar, box or bag.
type container struct {
	netG, tareG float64
	boxL        float64 // litres of the upright box around it
	source      string
}

func readContainers() (map[string]container, error) {
	in, err := embedded("packages.csv", append(filled("id"), columns("kind name code material shape diameter_mm length_mm width_mm height_mm capacity_ml outer_volume_ml shelf_box_ml fill_of_box net_g net_ml tare_g tare_low_g tare_high_g tare_source gross_g storage_l_per_kg_net typical_contents note source verified")...))
	if err != nil {
		return nil, err
	}
	all := map[string]container{}
	for _, row := range in.Rows {
		id := row.Text("id")
		if _, twice := all[id]; twice {
			row.Fail("id", ErrTwice, "leave one row")
			continue
		}
		c := container{source: row.Text("source")}
		c.netG, _ = row.Float("net_g", 0, mostDrumG)
		c.tareG, _ = row.Float("tare_g", 0, mostGrams)
		if ml, ok := row.Float("shelf_box_ml", 0, 1e6); ok {
			c.boxL = ml / 1000
		}
		all[id] = c
	}
	return all, in.Err()
}

// readDensity returns the bulk density in g/mL of each form of
// data/density.csv, the lowest where it has several.
func readDensity() (map[string]float64, error) {
	in, err := embedded("density.csv", append(filled("food form bulk_density_g_per_ml source"), columns("g_per_us_cup litres_per_kg note verified")...))
	if err != nil {
		return nil, err
	}
	all := map[string]float64{}
	for _, row := range in.Rows {
		form := row.Text("form")
		v, ok := row.Float("bulk_density_g_per_ml", 0.01, 3)
		if least, twice := all[form]; ok && (!twice || v < least) {
			all[form] = v
		}
	}
	return all, in.Err()
}

// cupKey names a row of data/cups.csv: a food, and a container where the food
// packs closer in it than loose.
type cupKey struct{ ndb, container string }

// millilitres of the measures of data/cups.csv. Source: USDA measures are US
// customary: 1 cup = 236.588 mL = 16 tbsp = 48 tsp = 8 fl oz.
var millilitres = map[string]float64{"cup": usCupML, "tbsp": usCupML / 16, "tsp": usCupML / 48, "fl oz": usCupML / 8, "L": 1000}

const usCupML = 236.588

// readCups returns the loose density in g/mL of the foods of data/cups.csv.
func readCups() (map[cupKey]float64, error) {
	in, err := embedded("cups.csv", append(filled("ndb of_ndb amount measure grams source verified"), columns("container note")...))
	if err != nil {
		return nil, err
	}
	all := map[cupKey]float64{}
	for _, row := range in.Rows {
		k := cupKey{row.Text("ndb"), row.Text("container")}
		if all[k] > 0 {
			row.Fail("ndb", ErrTwice, "leave one row")
		}
		amount, _ := row.Float("amount", 0.1, 100)
		grams, _ := row.Float("grams", 0.1, 1000)
		unit, _, _ := strings.Cut(row.Text("measure"), ",")
		ml := 0.0
		for name, v := range millilitres {
			if unit == name || strings.HasPrefix(unit, name+" ") {
				ml = v
			}
		}
		if ml <= 0 {
			row.Fail("measure", ErrUnknown, "write a measure of volume: cup, tbsp, tsp, fl oz or L")
			continue
		}
		all[k] = grams / (amount * ml)
	}
	return all, in.Err()
}

// looseDensity returns the g/mL of f as it lies in a cup, or in the container
// where data/cups.csv has a row for that: from its own row, else by its form.
// A wet food has none: its can or jar is filled up.
func (t *Table) looseDensity(f *Food, container string) (perML float64, ok bool) {
	if d, ok := t.cups[cupKey{f.NDB, container}]; ok {
		return d, true
	}
	if d, ok := t.cups[cupKey{f.NDB, ""}]; ok {
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

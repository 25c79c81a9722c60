package foods

import (
	"strings"

	"rationwright/nutrients/table"
)

// mostDrumG bounds a container: a drum of water holds 208 kg.
const mostDrumG = 1e6

// container is one row of data/packages.csv: a kind of can, jar, box or bag.
type container struct {
	tareG  float64
	boxL   float64 // litres of the upright box around it
	source string
}

func readContainers() (map[string]container, error) {
	cols := append(filled("id"), columns("kind name code material shape diameter_mm length_mm width_mm height_mm capacity_ml outer_volume_ml shelf_box_ml fill_of_box net_g net_ml tare_g tare_low_g tare_high_g tare_source gross_g storage_l_per_kg_net typical_contents note source verified")...)
	return keyed("packages.csv", cols, "id", func(row *table.Row) (string, container) {
		row.Float("net_g", 0, mostDrumG) // for its faults
		tareG, _ := row.Float("tare_g", 0, mostGrams)
		ml, _ := row.Float("shelf_box_ml", 0, 1e6)
		return row.Text("id"), container{tareG, ml / 1000, row.Text("source")}
	})
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
	cols := append(filled("ndb of_ndb amount measure grams source verified"), columns("container note")...)
	return keyed("cups.csv", cols, "ndb", func(row *table.Row) (cupKey, float64) {
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
		}
		return cupKey{row.Text("ndb"), row.Text("container")}, grams / (amount * ml)
	})
}

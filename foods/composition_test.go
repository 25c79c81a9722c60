package foods

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"rationwright/nutrients"
	"rationwright/nutrients/table"
)

// usdaColumns are the nutrient columns of the abbreviated table.
func usdaColumns() []nutrients.Nutrient {
	var ns []nutrients.Nutrient
	for n := range nutrients.Count {
		if n != nutrients.AddedSugars {
			ns = append(ns, n)
		}
	}
	return ns
}

// Every cell of every food equals the extract of USDA National Nutrient
// Database for Standard Reference, Release 28, abbreviated table
// (testdata/usda): same figure, and unknown where the release has none.
func TestCompositionIsUSDA(t *testing.T) {
	extract := map[string]map[string]string{}
	for _, row := range readCSV(t, "../testdata/usda/extract.csv") {
		extract[row["ndb"]] = row
	}
	cells, usda := 0, 0
	for _, f := range load(t).Foods {
		if f.Computed {
			continue
		}
		usda++
		row, ok := extract[f.NDB]
		if !ok {
			t.Errorf("%s %s is not in the extract", f.NDB, f.Name)
			continue
		}
		if f.Short != row["short_description"] {
			t.Errorf("%s: short description %q, want %q (SR28)", f.NDB, f.Short, row["short_description"])
		}
		for _, n := range usdaColumns() {
			text, has := row[n.Column()]
			if !has {
				t.Fatalf("the extract has no column %s", n.Column())
			}
			cells++
			got, known := f.Per100g.Get(n)
			if text == "" {
				if known {
					t.Errorf("%s %s: %s = %g, want unknown (SR28)", f.NDB, f.Name, n, got)
				}
				continue
			}
			want, err := strconv.ParseFloat(text, 64)
			if err != nil {
				t.Fatal(err)
			}
			if !known || math.Abs(got-want) > 1e-9*math.Max(1, want) {
				t.Errorf("%s %s: %s = %g (known %v), want %s (SR28)", f.NDB, f.Name, n, got, known, text)
			}
		}
	}
	if want := usda * len(usdaColumns()); cells != want || usda < 100 {
		t.Errorf("compared %d cells of %d foods, want %d cells", cells, usda, want)
	}
}

// Powdered formula is the median of the rows of the release (testdata/usda); ready to feed,
// it is 13.0 g of milk-based or 13.2 g of soy-based powder in 100 mL, of 30.5 g a fluid ounce
// of 29.5735 mL, and water for the rest.
func TestFormulaIsTheMedian(t *testing.T) {
	tab := load(t)
	of := map[string]struct {
		powder, ready string
		grams         float64
	}{"milk_based": {"C0001", "C0003", 13.0}, "soy_based": {"C0002", "C0004", 13.2}}
	cells := 0
	for _, row := range readCSV(t, "../testdata/usda/infant_formula_median.csv") {
		c := of[row["set"]]
		powder, ready := food(t, tab, c.powder), food(t, tab, c.ready)
		share := c.grams / 100 / (30.5 / 29.5735)
		for _, n := range usdaColumns() {
			if row[n.Column()] == "" {
				continue
			}
			cells++
			median := number(t, row[n.Column()])
			if got := powder.Per100g[n]; got != median {
				t.Errorf("%s: %s = %g, the median is %g", powder.NDB, n, got, median)
			}
			want := share * median
			if n == nutrients.Water {
				want = 100 - share*(100-median)
			}
			if got := ready.Per100g[n]; math.Abs(got-want) > 0.006*want+0.0006 {
				t.Errorf("%s: %s = %g, by the median %g", ready.NDB, n, got, want)
			}
		}
	}
	if cells < 80 {
		t.Errorf("only %d cells were compared", cells)
	}
}

// The spot values are read off the printed release, so that an error in the
// extract itself would show: USDA SR28, NDB numbers beside them.
func TestSpotValues(t *testing.T) {
	tab := load(t)
	for _, test := range []struct {
		ndb  string
		n    nutrients.Nutrient
		want float64
	}{
		// requirements and portions quote these: infant_feeding.csv (NDB 03194),
		// allergens.csv (NDB 01090, 01092), usda README (vitamin D IU ÷ 40).
		{"03194", nutrients.Iron, 53.01},
		{"03189", nutrients.Iron, 64.1},
		{"01090", nutrients.Sugars, 38.42},
		{"01092", nutrients.Sugars, 52.19},
		{"01096", nutrients.Sugars, 10.04},
	} {
		f := tab.byNDB(test.ndb)
		if f == nil {
			t.Errorf("NDB %s is not in the table", test.ndb)
			continue
		}
		if got, known := f.Per100g.Get(test.n); !known || math.Abs(got-test.want) > 0.005 {
			t.Errorf("NDB %s: %s = %g, want %g", test.ndb, test.n, got, test.want)
		}
	}
}

// The computed formula rows lie within the limits of 21 CFR 107.100(a) per
// 100 kcal (testdata/reference/infant_feeding.csv, topic formula_nutrient_per_100kcal).
func TestFormulaWithinRegulation(t *testing.T) {
	units := map[string]float64{"g": 1, "mg": 1, "ug": 1}
	column := map[string]nutrients.Nutrient{
		"protein": nutrients.Protein, "fat": nutrients.Fat, "vitamin C": nutrients.VitaminC,
		"calcium": nutrients.Calcium, "phosphorus": nutrients.Phosphorus, "magnesium": nutrients.Magnesium,
		"iron": nutrients.Iron, "zinc": nutrients.Zinc, "selenium": nutrients.Selenium,
		"sodium": nutrients.Sodium, "potassium": nutrients.Potassium, "vitamin K": nutrients.VitaminK,
		"vitamin B12": nutrients.VitaminB12, "pantothenic acid": nutrients.PantothenicAcid,
		"thiamin": nutrients.Thiamin, "riboflavin": nutrients.Riboflavin, "niacin": nutrients.Niacin,
		"vitamin B6": nutrients.VitaminB6, "copper": nutrients.Copper,
	}
	// The regulation counts these in µg, the table in mg.
	milli := map[string]bool{"pantothenic acid": true, "thiamin": true, "riboflavin": true, "niacin": true, "vitamin B6": true, "copper": true}
	checked := 0
	for _, f := range load(t).Foods {
		if !f.HasTag(TagInfantFormula) || f.Form != "infant_formula_powder" {
			continue
		}
		kcal := f.Per100g[nutrients.Energy]
		for _, row := range readCSV(t, "../testdata/reference/infant_feeding.csv") {
			n, ok := column[row["item"]]
			if row["topic"] != "formula_nutrient_per_100kcal" || !ok || units[row["unit"]] == 0 {
				continue
			}
			amount, known := f.Per100g.Get(n)
			if !known {
				continue
			}
			if milli[row["item"]] {
				amount *= 1000
			}
			amount *= 100 / kcal
			checked++
			if low, _ := strconv.ParseFloat(row["value"], 64); amount < low {
				t.Errorf("%s: %s %.3g %s per 100 kcal, at least %s (21 CFR 107.100)", f.Name, n, amount, row["unit"], row["value"])
			}
			if high, err := strconv.ParseFloat(row["value_max"], 64); err == nil && amount > high {
				t.Errorf("%s: %s %.3g %s per 100 kcal, at most %s (21 CFR 107.100)", f.Name, n, amount, row["unit"], row["value_max"])
			}
		}
	}
	if checked < 30 {
		t.Errorf("only %d figures were checked", checked)
	}
}

// TestEachFoodHasBothRows: a food without its row of words would be one without allergens,
// so that a key stands once in each of the two tables, and what does not is told by its place.
func TestEachFoodHasBothRows(t *testing.T) {
	for name, test := range map[string]struct {
		comp, desc func([]*table.Row) []*table.Row
		at         string
		twice      bool
	}{
		"as they are":        {at: ""},
		"no words":           {desc: func(r []*table.Row) []*table.Row { return r[1:] }, at: "composition.csv:2:"},
		"no words, the last": {desc: func(r []*table.Row) []*table.Row { return r[:len(r)-1] }, at: "composition.csv:"},
		"no composition":     {comp: func(r []*table.Row) []*table.Row { return r[1:] }, at: "foods.csv:2:"},
		"words twice":        {desc: func(r []*table.Row) []*table.Row { return append(r, r[0]) }, at: "foods.csv:2:", twice: true},
		"composition twice":  {comp: func(r []*table.Row) []*table.Row { return append(r, r[0]) }, at: "composition.csv:2:", twice: true},
	} {
		comp, err := embedded("composition.csv", compositionColumns())
		if err != nil {
			t.Fatal(err)
		}
		desc, err := embedded("foods.csv", append(filled(foodFilled), columns(foodOptional)...))
		if err != nil {
			t.Fatal(err)
		}
		if test.comp != nil {
			comp.Rows = test.comp(comp.Rows)
		}
		if test.desc != nil {
			desc.Rows = test.desc(desc.Rows)
		}
		err = new(Table).joinComposition(comp, desc)
		switch {
		case test.at == "" && err != nil:
			t.Errorf("%s: %v", name, err)
		case test.at != "" && (err == nil || !strings.Contains(err.Error(), test.at) || errors.Is(err, ErrTwice) != test.twice || strings.Count(err.Error(), "\n") > 0):
			t.Errorf("%s: %v, want one fault at %s", name, err, test.at)
		}
	}
}

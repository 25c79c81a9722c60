package dishes

import (
	"encoding/csv"
	"io/fs"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"rationwright/foods"
)

// embeddedBook returns the embedded dishes on the embedded food table.
func embeddedBook(t *testing.T) *Book {
	t.Helper()
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	b, err := Load(table)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// rawRows reads a CSV file without the program's own reader.
func rawRows(t *testing.T, name string) []map[string]string {
	t.Helper()
	var file fs.File
	var err error
	if strings.HasPrefix(name, "data/") {
		file, err = data.Open(name) // what the program reads
	} else {
		file, err = os.Open(name)
	}
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	all, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []map[string]string
	for _, r := range all[1:] {
		m := map[string]string{}
		for i, name := range all[0] {
			m[name] = r[i]
		}
		rows = append(rows, m)
	}
	return rows
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	if s == "" {
		return 0
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// TestFiguresRecomputed adds up what each dish holds from the USDA rows of the
// composition table, straight from the files: the loader and its arithmetic take no
// part in it.
func TestFiguresRecomputed(t *testing.T) {
	usda := map[string]map[string]string{}
	for _, r := range rawRows(t, "../data/composition.csv") {
		usda[r["ndb"]] = r
	}
	own := map[string]map[string]string{}
	for _, r := range rawRows(t, "../data/foods.csv") {
		own[r["ndb"]] = r
	}
	total := map[string]map[string]float64{}
	for _, p := range rawRows(t, "data/dish_parts.csv") {
		d := total[p["dish"]]
		if d == nil {
			d = map[string]float64{}
			total[p["dish"]] = d
		}
		row := usda[p["reckoned_as"]]
		d["kcal_max"] += number(t, p["max_g"]) * number(t, row["energy_kcal"]) / 100
		if p["optional"] == "yes" {
			continue
		}
		usual := number(t, p["usual_g"])
		d["kcal_min"] += number(t, p["min_g"]) * number(t, row["energy_kcal"]) / 100
		d["grams"] += usual
		for _, c := range []string{"energy_kcal", "protein_g", "fat_g", "carbohydrate_g", "fibre_g", "sodium_mg"} {
			d[c] += usual * number(t, row[c]) / 100
		}
		for _, c := range []string{"added_sugars_g", "lactose_g"} {
			d[c] += usual * number(t, own[p["reckoned_as"]][c]) / 100
		}
	}
	b := embeddedBook(t)
	if len(b.Dishes) != len(total) {
		t.Errorf("%d dishes, the files have %d", len(b.Dishes), len(total))
	}
	for _, d := range b.Dishes {
		f := reckon(d)
		for c, got := range map[string]float64{
			"grams": f.Grams, "energy_kcal": f.Kcal, "kcal_min": f.KcalMin, "kcal_max": f.KcalMax, "protein_g": f.ProteinG, "fat_g": f.FatG,
			"carbohydrate_g": f.CarbohydrateG, "fibre_g": f.FibreG, "sodium_mg": f.SodiumMg, "added_sugars_g": f.AddedSugarsG, "lactose_g": f.LactoseG,
		} {
			if want := total[d.Key][c]; math.Abs(got-want) > 1e-6*math.Max(1, want) {
				t.Errorf("%s: %s %g, the USDA rows give %g", d.Key, c, got, want)
			}
		}
	}
}

func TestVerifyFindsNothing(t *testing.T) {
	for _, f := range embeddedBook(t).Verify() {
		t.Error(f)
	}
}

// TestVerifyFinds: a fault of each sort is found.
func TestVerifyFinds(t *testing.T) {
	for _, c := range []struct {
		name  string
		spoil func(d *Dish)
		want  string
	}{
		{"sitting", func(d *Dish) { d.Parts[0].UsualG *= 4 }, "sitting"},
		{"cooking", func(d *Dish) { d.Parts[0].ReckonedAs = riceOf(d, t) }, "needs boil"},
		{"pots", func(d *Dish) { d.Pots++ }, "pots"},
		{"simmer", func(d *Dish) { d.Cooking, d.Pots, d.SimmerMin = "boil", 1, 20 }, "simmers"},
		{"nothing makes it", func(d *Dish) { d.Parts[0].Role, d.Parts[1].Role = "vegetable", "liquid" }, "neither base nor protein"},
		{"stands", func(d *Dish) { d.SoakHours = 8; d.Parts[1].EatenAs = "soaked" }, "stands"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := embeddedBook(t)
			d := b.Dish("soaked-oats-raisins") // oats soaked with dry milk
			c.spoil(d)
			found := b.Verify()
			if len(found) == 0 || !strings.HasPrefix(found[0].Text, d.Key) || !strings.Contains(found[0].Text, c.want) {
				t.Errorf("verify = %v, want a finding of %s with %q", found, d.Key, c.want)
			}
		})
	}
}

// riceOf is a food that cannot be eaten without boiling.
func riceOf(d *Dish, t *testing.T) *foods.Food {
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range table.Foods {
		if f.NDB == "20044" {
			return f
		}
	}
	t.Fatal("no white rice")
	return nil
}

// sameMeasures is the share of household measures that must be the very same words
// as another program wrote from the same USDA table: the two choose differently
// between cups and pieces, and this one has no measure for foods that the table gives
// by the ounce only.
const sameMeasures = 0.75

// TestMeasures compares household measures with those that another program wrote from
// the USDA table of weights.
func TestMeasures(t *testing.T) {
	b := embeddedBook(t)
	same, all := 0, 0
	for _, r := range rawRows(t, "testdata/measures.csv") {
		f := b.byNDB[r["ndb"]]
		if f == nil {
			t.Errorf("no food %s", r["ndb"])
			continue
		}
		all++
		got := b.Measure(f, number(t, r["grams"]), nil)
		if got == r["measure"] {
			same++
			continue
		}
		gotUnit, gotN := measureUnit(got)
		wantUnit, wantN := measureUnit(r["measure"])
		if f.NDB == "01048" { // the other program weighs a cup of cheese spread as dice
			continue
		}
		if gotUnit == wantUnit && math.Abs(gotN/wantN-1) > 0.35 { // a quarter cup is the coarsest step
			t.Errorf("%s %s g: %q, another program has %q", f.Name, r["grams"], got, r["measure"])
		}
	}
	without := 0
	for _, f := range b.byNDB { // of what no cup, spoon or piece is known only a share of its pack is said
		if len(b.measures[f.NDB]) > 0 {
			continue
		}
		without++
		pack := &foods.Pack{NetG: 400}
		for grams, want := range map[float64]string{100: "1/4 of a pack", 200: "1/2 of a pack", 800: "2 packs", 10: ""} {
			if got := b.Measure(f, grams, pack); got != want {
				t.Errorf("%s %g g of a pack of 400: %q, want %q", f.Name, grams, got, want)
			}
		}
		if got := b.Measure(f, 100, nil); got != "" {
			t.Errorf("%s 100 g: %q, want nothing", f.Name, got)
		}
	}
	if without == 0 {
		t.Error("every food has a measure: the share of a pack is not tried")
	}
	if float64(same) < sameMeasures*float64(all) {
		t.Errorf("%d of %d measures are the same words, want %.0f %%", same, all, 100*sameMeasures)
	}
}

// tableRow is a row of the USDA table of weights as measures.csv quotes it.
var tableRow = regexp.MustCompile(`^([0-9.]+) ?(.*?)= ([0-9.]+) g(?: \(NDB ([0-9]+), alike\))?$`)

// Every weight of a measure is that of the row of the USDA table of weights that it
// quotes (testdata/usda), for one of the measure.
func TestMeasuresAreOfTheUSDATable(t *testing.T) {
	type weight struct {
		ndb           string
		amount, grams float64
	}
	usda := map[weight]bool{}
	for _, r := range rawRows(t, "../../testdata/usda/measures.csv") {
		usda[weight{r["ndb"], number(t, r["amount"]), number(t, r["grams"])}] = true
	}
	rows := rawRows(t, "data/measures.csv")
	for _, r := range rows {
		m := tableRow.FindStringSubmatch(r["table_row"])
		if m == nil {
			t.Errorf("%s: %q quotes no row", r["ndb"], r["table_row"])
			continue
		}
		ndb := r["ndb"]
		if m[4] != "" {
			ndb = m[4]
		}
		amount, grams := number(t, m[1]), number(t, m[3])
		if !usda[weight{ndb, amount, grams}] {
			t.Errorf("the USDA table has no %s for NDB %s", r["table_row"], ndb)
		}
		one := grams / amount
		for inside, times := range map[string]float64{"serving 1/2 cup": 2, "fl oz": 8, "serving 2 TBSP": 0.5} { // of a cup, of a spoon
			if strings.Contains(m[2], inside) {
				one *= times
			}
		}
		if have := number(t, r["grams"]); math.Abs(have-one) > 0.06 {
			t.Errorf("%s: a %s of %g g, %s makes %.1f g", ndb, r["measure"], have, r["table_row"], one)
		}
	}
	if len(rows) < 300 {
		t.Errorf("only %d measures", len(rows))
	}
}

// measureUnit splits "1 1/2 cups" into cup and 1.5.
func measureUnit(text string) (unit string, n float64) {
	for word := range strings.FieldsSeq(text) {
		over, under, isShare := strings.Cut(word, "/")
		a, err := strconv.ParseFloat(over, 64)
		if err != nil {
			unit = strings.TrimSuffix(word, "s")
			break
		}
		if b, err := strconv.ParseFloat(under, 64); isShare && err == nil {
			a /= b
		}
		n += a
	}
	return unit, n
}

// A dish makes ready what takes no more cooking than it: rice is boiled and dry beans
// are simmered, canned beans are safe as they are, and so need none.
func TestDishesCookWhatTheyCan(t *testing.T) {
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		food    string
		cooking string
		want    bool
	}{
		{"white rice, long grain, enriched", "none", false}, {"white rice, long grain, enriched", "warm", false},
		{"white rice, long grain, enriched", "boil", true}, {"white rice, long grain, enriched", "simmer", true},
		{"black beans, dry", "boil", false}, {"black beans, dry", "simmer", true},
		{"black beans, canned", "none", true}, {"rye crispbread", "none", true},
	} {
		f, err := table.Food(c.food)
		if err != nil {
			t.Fatal(err)
		}
		if got := (&Part{}).Cooks(&Dish{Cooking: c.cooking}, f); got != c.want {
			t.Errorf("%s in a dish of %s: %v, want %v", c.food, c.cooking, got, c.want)
		}
	}
}

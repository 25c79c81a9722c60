package foods

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"rationwright/nutrients"
	"rationwright/nutrients/table"
)

// rowOf reads one row of cells under the columns of a header; faults returns what is
// recorded of it.
func rowOf(t *testing.T, header, cells string) (row *table.Row, faults func() error) {
	t.Helper()
	in, err := table.Read("f.csv", strings.NewReader(header+"\n"+cells+"\n"), userColumns)
	if err != nil || len(in.Rows) != 1 {
		t.Fatalf("%s: %v", cells, err)
	}
	return in.Rows[0], in.Err
}

// Every cell of a pack is read into its own place, and an empty one changes nothing.
func TestCellsOfAPack(t *testing.T) {
	const header = "net_g,label_net_g,tare_g,volume_l,price,container,basis,currency,source,verified,note,market,easy_open"
	row, faults := rowOf(t, header, "231,400,51,0.5,1.25,can_300,drained,TSD,a,b,c,both,yes")
	p := &Pack{}
	p.applyCells(row)
	want := Pack{NetG: 231, LabelG: 400, TareG: 51, GrossG: 451, VolumeL: 0.5, Price: 1.25, HasPrice: true, Container: "can_300",
		Basis: "drained", Currency: "TSD", Source: "a", Verified: "b", Note: "c", Market: "both", EasyOpen: true}
	if err := faults(); err != nil || *p != want {
		t.Errorf("%+v, %v, want %+v", *p, err, want)
	}
	row, faults = rowOf(t, header+",pack", ",,,,,,,,,,,,,p")
	p.applyCells(row)
	if err := faults(); err != nil || *p != want {
		t.Errorf("empty cells made %+v, %v of %+v", *p, err, want)
	}
	row, _ = rowOf(t, header, ",,,,,,,,,,,,no")
	if p.applyCells(row); p.EasyOpen || p.Market != "both" {
		t.Errorf("no did not close the pack: %+v", *p)
	}
	// Half a gram on the label is a label; without one it is the net weight.
	row, _ = rowOf(t, "net_g,label_net_g,tare_g", "0.4,0.5,2")
	small := &Pack{}
	if small.applyCells(row); small.LabelG != 0.5 || small.GrossG != 2.5 || small.HasPrice {
		t.Errorf("%+v, want 0.5 g on the label", *small)
	}
	row, _ = rowOf(t, "net_g,tare_g", "300,20")
	bare := &Pack{}
	if bare.applyCells(row); bare.LabelG != 300 || bare.GrossG != 320 {
		t.Errorf("%+v, want 300 g on the label", *bare)
	}
	// The bounds of each cell: datafile.go, and 1 L to a cubic metre.
	for _, test := range []struct {
		column, cell string
		sound        bool
	}{
		{"net_g", "0.1", true}, {"net_g", "0.09", false}, {"net_g", "100000", true}, {"net_g", "100001", false},
		{"label_net_g", "0.1", true}, {"label_net_g", "0.09", false}, {"label_net_g", "100001", false},
		{"tare_g", "0", true}, {"tare_g", "-1", false}, {"tare_g", "0.5", true}, {"tare_g", "100001", false},
		{"volume_l", "0.001", true}, {"volume_l", "0.0009", false}, {"volume_l", "1000", true}, {"volume_l", "1001", false},
		{"price", "0", true}, {"price", "0.5", true}, {"price", "100000", true}, {"price", "100001", false}, {"price", "-1", false},
		{"market", "metric", true}, {"market", "us", true}, {"market", "both", true}, {"market", "all", false}, {"easy_open", "perhaps", false},
	} {
		row, faults := rowOf(t, test.column, test.cell)
		(&Pack{}).applyCells(row)
		if err := faults(); (err == nil) != test.sound {
			t.Errorf("%s of %s: %v", test.column, test.cell, err)
		}
	}
}

// Every cell of a food's words and amounts is read into its own place.
func TestCellsOfAFood(t *testing.T) {
	tab := load(t)
	row, faults := rowOf(t, "name,basis,class,gi_class,added_sugars_rule,cap_source,source,verified,note,group,form,texture,mercury,allergens,may_contain,tags,companions,serves,occasion_g,day_g,gi,added_sugars_g,lactose_g",
		"rusks,dry,ready to eat,low,none,kitchen,a,b,c,bread and crackers,crackers,hard,best,milk;wheat,soy,gluten,grains,grains:3.5; fruits : 0.5,40,80,55,2.5,1.5")
	f := &Food{Per100g: nutrients.Unknown()}
	tab.applyWords(row, f, true)
	if err := faults(); err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct{ what, got, want string }{
		{"name", f.Name, "rusks"}, {"basis", f.Basis, "dry"}, {"class", f.Class, "ready to eat"}, {"class of the index", f.GIClass, "low"},
		{"rule", f.AddedRule, "none"}, {"source of the cap", f.CapSource, "kitchen"}, {"source", f.Source, "a"}, {"verified", f.Verified, "b"}, {"note", f.Note, "c"},
		{"group", f.Group, "bread and crackers"}, {"form", f.Form, "crackers"}, {"texture", f.Texture, "hard"}, {"mercury", f.Mercury, "best"},
		{"allergens", strings.Join(f.Allergens, " "), "milk wheat"}, {"traces", strings.Join(f.MayContain, " "), "soy"},
		{"tags", strings.Join(f.Tags, " "), "gluten"}, {"companions", strings.Join(f.Companions, " "), "grains"},
	} {
		if test.got != test.want {
			t.Errorf("%s %q, want %q", test.what, test.got, test.want)
		}
	}
	if !slices.Equal(f.Serves, []Serving{{"grains", 3.5}, {"fruits", 0.5}}) {
		t.Errorf("serves %v", f.Serves)
	}
	if f.OccasionG != 40 || f.DayG != 80 || f.GI != 55 || f.Per100g[nutrients.AddedSugars] != 2.5 || f.LactoseG != 1.5 || !f.HasLactose {
		t.Errorf("%g g at a sitting, %g a day, index %g, %g g added sugars, %g g lactose", f.OccasionG, f.DayG, f.GI, f.Per100g[nutrients.AddedSugars], f.LactoseG)
	}
	// Nothing is said: nothing changes, and the lactose of what holds milk is not known.
	row, faults = rowOf(t, "name,lactose_g,allergens", ",,milk")
	f.LactoseG, f.HasLactose = 0, false
	tab.applyWords(row, f, true)
	if err := faults(); err != nil || f.Name != "rusks" || f.HasLactose || len(f.Serves) != 2 || f.Texture != "hard" || f.Mercury != "best" {
		t.Errorf("empty cells: %+v, %v", f, err)
	}
	row, _ = rowOf(t, "allergens,tags,may_contain", "none,none,none")
	tab.applyWords(row, f, true)
	if f.Allergens != nil || f.Tags != nil || f.MayContain != nil || !f.HasLactose || f.LactoseG != 0 {
		t.Errorf("none: %+v", f)
	}
	for _, test := range []struct {
		column, cell string
		sound        bool
	}{
		{"gi", "0", true}, {"gi", "200", true}, {"gi", "201", false}, {"gi", "-1", false},
		{"added_sugars_g", "0", true}, {"added_sugars_g", "100", true}, {"added_sugars_g", "101", false}, {"added_sugars_g", "-1", false},
		{"lactose_g", "0", true}, {"lactose_g", "0.5", true}, {"lactose_g", "100", true}, {"lactose_g", "101", false},
		{"occasion_g", "0", true}, {"occasion_g", "0.5", true}, {"occasion_g", "100000", true}, {"occasion_g", "100001", false},
		{"day_g", "0", true}, {"day_g", "0.5", true}, {"day_g", "100000", true}, {"day_g", "100001", false},
		{"texture", "puree", true}, {"texture", "chewy", false}, {"mercury", "good", true}, {"mercury", "some", false},
		{"allergens", "egg", true}, {"allergens", "nuts", false}, {"may_contain", "nuts", false}, {"tags", "tasty", false}, {"group", "grian", false}, {"form", "rice_wite", false},
	} {
		row, faults := rowOf(t, test.column, test.cell)
		tab.applyWords(row, &Food{}, true)
		if err := faults(); (err == nil) != test.sound {
			t.Errorf("%s of %s: %v", test.column, test.cell, err)
		}
	}
	for _, test := range []struct {
		column string
		most   string
		over   string
	}{{"water_g", "100000", "100001"}, {"protein_factor", "10", "10.1"}, {"fat_factor", "10", "10.1"}, {"carbohydrate_factor", "10", "10.1"}} {
		for cell, sound := range map[string]bool{"0": true, "0.5": true, test.most: true, test.over: false, "-1": false} {
			row, faults := rowOf(t, test.column, cell)
			(&Food{}).applyAmounts(row)
			if err := faults(); (err == nil) != sound {
				t.Errorf("%s of %s: %v", test.column, cell, err)
			}
		}
	}
}

// A serving is an amount of a group of the pattern, each group once; the faulty one is
// told, with what is wrong, and the others are read.
func TestCellOfServings(t *testing.T) {
	for _, test := range []struct {
		cell  string
		want  []Serving
		fault string
		is    error
	}{
		{"grains:0", []Serving{{"grains", 0}}, "", nil},
		{"grains:100;beans:1", []Serving{{"grains", 100}, {"beans", 1}}, "", nil},
		{"grains:100.1;beans:1", []Serving{{"beans", 1}}, `serves "grains:100.1": out of range; write equivalents per 100 g from 0 to 100`, table.ErrRange},
		{"grains:-1", nil, `serves "grains:-1": `, nil},
		{"grains:1,5", nil, `serves "grains:1,5": not a number`, table.ErrNumber},
		{"grains:1;grains:2;beans:1", []Serving{{"grains", 1}, {"beans", 1}}, `serves "grains:2": there twice; leave one`, ErrTwice},
		{"grains;beans:1", []Serving{{"beans", 1}}, `serves "grains": no amount of a pattern group`, nil},
		{"starch:1;beans:1", []Serving{{"beans", 1}}, `serves "starch:1": no amount of a pattern group`, nil},
	} {
		row, faults := rowOf(t, "serves", `"`+test.cell+`"`)
		got := readServes(row)
		err := faults()
		if !slices.Equal(got, test.want) || (err == nil) != (test.fault == "") {
			t.Errorf("%s: %v, %v, want %v and %q", test.cell, got, err, test.want, test.fault)
			continue
		}
		if err != nil && (!strings.Contains(err.Error(), test.fault) || strings.Contains(err.Error(), "\n") || test.is != nil && !errors.Is(err, test.is)) {
			t.Errorf("%s: %v, want %s", test.cell, err, test.fault)
		}
	}
}

// Every row of the tables that go with a food is read as it stands: keeping times,
// preparation, containers, densities, cups and supplies, cell by cell beside the file.
func TestTablesAreTheirRows(t *testing.T) {
	tab := load(t)
	num := func(row map[string]string, column string) float64 {
		if row[column] == "" {
			return 0
		}
		return number(t, row[column])
	}
	same := func(what string, got, want any) {
		t.Helper()
		if g, ok := got.(float64); ok && math.Abs(g-want.(float64)) <= 1e-12*math.Abs(g) {
			return
		}
		if got != want {
			t.Errorf("%s: %v, want %v", what, got, want)
		}
	}
	for _, row := range readCSV(t, "data/keeping.csv") {
		want := Keeping{row["form"], num(row, "use_by_months"), num(row, "after_open_hours_no_fridge"), row["after_open_basis"],
			row["label_date_binding"] == "yes", num(row, "max_storage_c"), row["source"], row["verified"]}
		same("keeping of "+row["form"], *tab.keeping[row["form"]], want)
	}
	for _, row := range readCSV(t, "data/preparation.csv") {
		p := tab.preparation[row["form"]]
		soaked := 0.0 // thrown away before it is heated
		if row["soak_water_discarded"] == "yes" {
			soaked = num(row, "soak_water_ml_per_100g")
		}
		same(row["form"]+" water", p.WaterML, num(row, "water_ml_per_100g")+soaked)
		same(row["form"]+" discarded", p.DiscardedML, num(row, "water_discarded_ml_per_100g")+soaked)
		same(row["form"]+" eaten", p.EatenML, num(row, "water_eaten_ml_per_100g"))
		same(row["form"]+" steam", p.SteamML, num(row, "water_lost_steam_ml_per_100g"))
		same(row["form"]+" simmering", p.SimmerMin, num(row, "simmer_min"))
		same(row["form"]+" standing", p.StandMin, num(row, "stand_min"))
		same(row["form"]+" soaking", p.SoakHours, num(row, "soak_hours"))
		same(row["form"]+" cold", p.ColdOK, strings.HasPrefix(row["cold_ok"], "yes"))
		same(row["form"]+" form", p.Form, row["form"])
		same(row["form"]+" source", p.Source, row["source"])
		same(row["form"]+" verified", p.Verified, row["verified"])
		same(row["form"]+" heat", p.HeatMJ, usefulHeatMJ(row["prep_class"], num(row, "water_ml_per_100g"), num(row, "water_lost_steam_ml_per_100g"), num(row, "simmer_min")))
	}
	for _, row := range readCSV(t, "data/packages.csv") {
		c := tab.containers[row["id"]]
		same(row["id"]+" tare", c.tareG, num(row, "tare_g"))
		same(row["id"]+" box", c.boxL, num(row, "shelf_box_ml")/1000)
		same(row["id"]+" source", c.source, row["source"])
	}
	least := map[string]float64{}
	for _, row := range readCSV(t, "data/density.csv") {
		if d, ok := least[row["form"]]; !ok || number(t, row["bulk_density_g_per_ml"]) < d {
			least[row["form"]] = number(t, row["bulk_density_g_per_ml"])
		}
	}
	if len(least) == 0 || len(tab.density) != len(least) {
		t.Errorf("%d densities, want %d", len(tab.density), len(least))
	}
	for form, d := range least {
		same("density of "+form, tab.density[form], d)
	}
	// 1 US cup is 236.588 mL, 16 tbsp, 48 tsp, 8 fl oz.
	ml := map[string]float64{"cup": 236.588, "tbsp": 236.588 / 16, "tsp": 236.588 / 48, "fl oz": 236.588 / 8, "L": 1000}
	for _, row := range readCSV(t, "data/cups.csv") {
		measure := strings.FieldsFunc(row["measure"], func(r rune) bool { return r == ',' })[0]
		for name := range ml {
			if strings.HasPrefix(measure, name+" ") {
				measure = name
			}
		}
		same("cup of "+row["ndb"], tab.cups[cupKey{row["ndb"], row["container"]}], num(row, "grams")/num(row, "amount")/ml[measure])
	}
	rows := readCSV(t, "data/supplies.csv")
	same("supplies", len(tab.Supplies), len(rows))
	for i, row := range rows {
		want := Supply{row["supply"], row["what"], row["unit"], num(row, "price"), row["price"] != "", row["currency"], true, row["source"], row["verified"]}
		same("supply", *tab.Supplies[i], want)
	}
}

// A weight a cup as it lies in a container goes before that of the cup, that of the food
// or of the one that it is like before that of its form; wet food has none.
func TestLooseDensity(t *testing.T) {
	tab := &Table{
		cups:    map[cupKey]float64{{"1", ""}: 0.5, {"1", "bag"}: 0.6, {"2", ""}: 0.7},
		density: map[string]float64{"flour": 0.4},
	}
	for _, test := range []struct {
		f         Food
		container string
		want      float64
	}{
		{Food{NDB: "1", Form: "flour"}, "", 0.5}, {Food{NDB: "1", Form: "flour"}, "bag", 0.6}, {Food{NDB: "1", Form: "flour"}, "box", 0.5},
		{Food{NDB: "3", Form: "flour"}, "bag", 0.4}, {Food{NDB: "3", Form: "canned_fish"}, "", 0},
		{Food{NDB: "U001", Like: "1"}, "bag", 0.6}, {Food{NDB: "1", Like: "2"}, "", 0.7},
	} {
		if got, ok := tab.looseDensity(&test.f, test.container); got != test.want || ok != (test.want > 0) {
			t.Errorf("%+v in %q: %g, %v, want %g", test.f, test.container, got, ok, test.want)
		}
	}
}

// A pack of one's own by hand. Of a food with a can of 400 g (231 g drained, 50 g of tin,
// 0.5 L) a can of 800 g is twice the food and the box and 2^(2/3) × 50 = 79 g of tin; of
// flour at 0.5 g/mL it takes no less than 1.6 L; without any pack of the food it is the box
// around a round jar, 0.9 × 0.84 × 0.7854 full, as dense as water where nothing is known.
func TestPackOfOnesOwnByHand(t *testing.T) {
	beans := &Food{NDB: "1", Name: "White Beans, dry", Form: "beans", Basis: "drained"}
	flour := &Food{NDB: "2", Name: "flour", Form: "flour", Basis: "dry"}
	like := &Food{NDB: "U001", Name: "Our Beans", Form: "beans", Basis: "mine", Like: "1"}
	bare := &Food{NDB: "4", Name: "Crème & rusks", Form: "none", Basis: "as packed"}
	small := &Food{NDB: "5", Name: "spice", Form: "flour", Basis: "dry"}
	tab := &Table{Foods: []*Food{beans, flour, like, bare, small}, density: map[string]float64{"flour": 0.5}}
	tab.Packs = []*Pack{
		{Key: "white-beans-400g-can", Food: beans, LabelG: 400, NetG: 231, TareG: 50, VolumeL: 0.5, Basis: "drained of label", EasyOpen: true},
		{Key: "white-beans-500g-bag", Food: beans, LabelG: 500, NetG: 500, TareG: 5, VolumeL: 0.7, Basis: "dry"},
		{Key: "flour-100g-box", Food: flour, LabelG: 100, NetG: 100, TareG: 10, VolumeL: 0.15},
	}
	const jar = 1 / (0.9 * 0.84 * 0.7854)
	for _, test := range []struct {
		f         *Food
		g         float64
		container string
		want      Pack // Food, LabelG, Own and GrossG apart
	}{
		{beans, 800, "tin", Pack{Key: "white-beans-800g-can-own", NetG: 462, TareG: 79, VolumeL: 1, Basis: "drained of label", EasyOpen: true, Note: "share eaten, box and tare from white-beans-400g-can"}},
		{beans, 800, "", Pack{Key: "white-beans-800g-bag-own", NetG: 800, TareG: 7, VolumeL: 1.12, Basis: "dry", Note: "share eaten, box and tare from white-beans-500g-bag"}},
		{beans, 420, "", Pack{Key: "white-beans-420g-can-own", NetG: 242.55, TareG: 52, VolumeL: 0.525, Basis: "drained of label", EasyOpen: true, Note: "share eaten, box and tare from white-beans-400g-can"}},
		// Nobody sells it in a jar: the nearest pack of any kind.
		{beans, 420, "jar", Pack{Key: "white-beans-420g-jar-own", NetG: 242.55, TareG: 52, VolumeL: 0.525, Basis: "drained of label", EasyOpen: true, Note: "share eaten, box and tare from white-beans-400g-can"}},
		{flour, 800, "", Pack{Key: "flour-800g-box-own", NetG: 800, TareG: 40, VolumeL: 1.6, Note: "share eaten, box and tare from flour-100g-box"}},
		{like, 800, "can", Pack{Key: "our-beans-800g-can-own", NetG: 462, TareG: 79, VolumeL: 1, Basis: "drained of label", EasyOpen: true, Note: "share eaten, box and tare from white-beans-400g-can"}},
		{bare, 500, "", Pack{Key: "crème-rusks-500g-pack-own", NetG: 500, VolumeL: 0.5 * jar, Basis: "as packed"}},
		{bare, 99.96, "tin", Pack{Key: "crème-rusks-100g-can-own", NetG: 99.96, VolumeL: 0.09996 * jar, Basis: "as packed"}},
		{small, 12.5, "jar", Pack{Key: "spice-12.5g-jar-own", NetG: 12.5, VolumeL: 0.025 * jar, Basis: "dry"}},
	} {
		p := *sizedPack(tab, test.f, test.g, test.container)
		want := test.want
		want.Food, want.LabelG, want.Own, want.GrossG = test.f, test.g, true, test.g+want.TareG
		if want.Note == "" {
			want.Note = p.Note
			if !strings.Contains(p.Note, "not weighed") {
				t.Errorf("%s: %s", p.Key, p.Note)
			}
		}
		if math.Abs(p.VolumeL-want.VolumeL) > 1e-9 || math.Abs(p.NetG-want.NetG) > 1e-9 {
			t.Errorf("%s: %g L, %g g eaten, want %g and %g", p.Key, p.VolumeL, p.NetG, want.VolumeL, want.NetG)
		}
		p.VolumeL, p.NetG = want.VolumeL, want.NetG
		if p != want {
			t.Errorf("%g g of %s in %q: %+v\nwant %+v", test.g, test.f.Name, test.container, p, want)
		}
	}
	for key, want := range map[string]string{
		"white-rice-1000g-bag": "white-rice", "milk-1.5l-carton": "milk", "oil-500ml-bottle": "oil", "500g-bag": "500g-bag", "rice": "rice", "a-1000g-2g": "a",
	} {
		if got := keyStem(&Pack{Key: key}); got != want {
			t.Errorf("stem of %s: %s, want %s", key, got, want)
		}
	}
	for g, want := range map[float64]string{12: "12", 12.34: "12.3", 99.9: "99.9", 100: "100", 100.4: "100", 1000: "1000"} {
		if got := plainGrams(g); got != want {
			t.Errorf("%s g: %s, want %s", strconv.FormatFloat(g, 'g', -1, 64), got, want)
		}
	}
}

// Companions by hand: of 20 g of an ingredient at a sitting with 100 g of bread 0.2 g a
// gram; where one has no figure, its own weight. Neither itself nor what has the same
// companions is one.
func TestCompanionsByHand(t *testing.T) {
	bread := &Food{NDB: "1", Name: "bread", Group: "bread", OccasionG: 100}
	soup := &Food{NDB: "2", Name: "soup", Group: "soups"}
	cereal := &Food{NDB: "3", Name: "flakes", Group: "cereal", OccasionG: 50, Serves: []Serving{{"grains", 1}}}
	oil := &Food{NDB: "4", Name: "oil", Group: "bread", OccasionG: 20, Companions: []string{"bread", "soup", "grains"}}
	ghee := &Food{NDB: "5", Name: "ghee", Group: "bread", OccasionG: 10, Companions: []string{"bread", "soup", "grains"}}
	formula := &Food{NDB: "6", Name: "formula", Companions: []string{"bread"}}
	tab := &Table{Foods: []*Food{bread, soup, cereal, oil, ghee, formula}}
	for _, test := range []struct {
		f    *Food
		want []Companion
	}{
		{bread, nil},
		{oil, []Companion{{bread, 0.2}, {soup, 1}, {cereal, 0.4}}},
		{ghee, []Companion{{bread, 0.1}, {soup, 1}, {cereal, 0.2}}},
		{formula, []Companion{{bread, 1}, {oil, 1}, {ghee, 1}}},
		{&Food{Name: "lonely", Companions: []string{"wine"}}, nil},
	} {
		if got := tab.Companions(test.f); !slices.Equal(got, test.want) {
			t.Errorf("%s: %v, want %v", test.f.Name, got, test.want)
		}
	}
	// 50 g of sugars in 100 g are half a gram a gram, of what is quick sugar only.
	sweet := figures(map[nutrients.Nutrient]float64{nutrients.Sugars: 50})
	if got := sweet.FastSugarG(); got != 0 {
		t.Errorf("not quick: %g", got)
	}
	sweet.Tags = []string{TagFastSugar}
	if got := sweet.FastSugarG(); got != 0.5 {
		t.Errorf("quick sugar: %g g a gram, want 0.5", got)
	}
	sweet.Per100g[nutrients.Sugars] = math.NaN()
	if got := sweet.FastSugarG(); got != 0 {
		t.Errorf("sugars not known: %g", got)
	}
}

// Between two levels of a pattern in proportion, amount and scale alike; held at its ends;
// the rows of another pattern or group do not count, in whatever order they stand.
func TestInterpolate(t *testing.T) {
	rows := []patternRow{
		{pattern: "us", level: 2000, group: "grains", unit: "oz-eq", published: 6, scale: 0.6, source: "b", note: "n"},
		{pattern: "us", level: 1000, group: "grains", unit: "oz-eq", published: 3, scale: 0.4, source: "a"},
		{pattern: "us", level: 3000, group: "grains", unit: "oz-eq", published: 10, scale: 0.7, source: "c"},
		{pattern: "us", level: 1500, group: "dairy", published: 99}, {pattern: "vegetarian", level: 1500, group: "grains", published: 99},
	}
	for _, test := range []struct{ kcal, published, scale float64 }{
		{500, 3, 0.4}, {1000, 3, 0.4}, {1250, 3.75, 0.45}, {2000, 6, 0.6}, {2500, 8, 0.65}, {3000, 10, 0.7}, {3100, 10, 0.7}, {9000, 10, 0.7},
	} {
		got, ok := interpolate(rows, "us", "grains", test.kcal)
		if !ok || math.Abs(got.Published-test.published) > 1e-12 || math.Abs(got.Scale-test.scale) > 1e-12 || got.Group != "grains" || got.Unit != "oz-eq" || got.PerDay != 0 {
			t.Errorf("%g kcal: %+v, %v, want %g × %g", test.kcal, got, ok, test.published, test.scale)
		}
	}
	if got, ok := interpolate(rows, "us", "fruits", 2000); ok {
		t.Errorf("fruits: %+v", got)
	}
	if got, _ := interpolate(rows, "us", "grains", 1500); got.Source != "b" || got.Note != "n" {
		t.Errorf("the row above gives source and note: %+v", got)
	}
}

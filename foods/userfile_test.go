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

// lines checks that an error is exactly these lines.
func lines(t *testing.T, err error, want ...string) {
	t.Helper()
	var all *table.Errors
	if !errors.As(err, &all) {
		t.Fatalf("error %v (%T), want *table.Errors", err, err)
	}
	got := strings.Split(err.Error(), "\n")
	for i := range max(len(got), len(want)) {
		switch {
		case i >= len(got):
			t.Errorf("missing: %s", want[i])
		case i >= len(want):
			t.Errorf("too much: %s", got[i])
		case got[i] != want[i]:
			t.Errorf("line %d:\n got %s\nwant %s", i+1, got[i], want[i])
		}
	}
}

func TestReadPrices(t *testing.T) {
	tab := load(t)
	in := "pack,price,currency\n" + tab.Packs[3].Key + ",2.50,NOK\n" + strings.ToUpper(tab.Packs[0].Key) + ",1,NOK\n"
	changes, err := tab.ReadPrices("prices.csv", strings.NewReader(in))
	if err != nil {
		t.Fatal(err)
	}
	if changes.Priced != 2 || changes.Invented != len(tab.Packs)-2 || changes.Currency != "NOK" {
		t.Errorf("changes %+v, want 2 priced, %d invented, NOK", changes, len(tab.Packs)-2)
	}
	for i, p := range tab.Packs {
		own := i == 0 || i == 3
		if p.Invented == own || p.Currency != "NOK" || !p.HasPrice {
			t.Errorf("%s: invented %v, currency %q", p.Key, p.Invented, p.Currency)
		}
	}
	if tab.Packs[3].Price != 2.5 || tab.Packs[0].Price != 1 {
		t.Errorf("prices %g and %g, want 2.5 and 1", tab.Packs[3].Price, tab.Packs[0].Price)
	}
	// What a plan carries does the same again.
	again := load(t)
	if _, err := again.ReadPrices("plan", FromRows(changes.Rows)); err != nil {
		t.Fatal(err)
	}
	for i := range again.Packs {
		if again.Packs[i].Price != tab.Packs[i].Price || again.Packs[i].Invented != tab.Packs[i].Invented {
			t.Errorf("%s has another price when read from the rows", again.Packs[i].Key)
		}
	}
}

func TestReadPricesErrors(t *testing.T) {
	tab := load(t)
	before := tab.Packs[0].Price
	a, b := tab.Packs[0].Key, tab.Packs[1].Key
	_, err := tab.ReadPrices("prices.csv", strings.NewReader(
		"pack,price,currency\n"+
			a+",1.5,TSD\n"+
			a+",1.5,TSD\n"+
			"salt-740g-canistr,1,TSD\n"+
			b+",\"1,5\",EUR\n"+
			tab.Packs[2].Key+",-2,TSD\n"+
			tab.Packs[3].Key+",0,TSD\n"+
			tab.Packs[4].Key+",NaN,TSD\n"+
			tab.Packs[5].Key+",,TSD\n"))
	at := func(i int) string { return strconv.Itoa(len(tab.Packs[i].Key) + 2) }
	lines(t, err,
		`prices.csv:3:1: pack "`+a+`": there twice: already in line 2; leave one price`,
		`prices.csv:4:1: pack "salt-740g-canistr": no such pack: not in the food table; did you mean `+quoted(t, tab, "salt-740g-canistr")+`?`,
		`prices.csv:5:`+at(1)+`: price "1,5": not a number: it has a decimal comma; write 1.5`,
		`prices.csv:5:`+strconv.Itoa(len(b)+8)+`: currency "EUR": not the currency of the first row; give all prices in one currency`,
		`prices.csv:6:`+at(2)+`: price "-2": out of range: negative; write a number from 0 to 100000`,
		`prices.csv:7:`+at(3)+`: price "0": out of range; write a price above 0; what you own already goes into the stock file`,
		`prices.csv:8:`+at(4)+`: price "NaN": not a number; write digits and a decimal point, such as 12.5`,
		`prices.csv:9:`+at(5)+`: price "": empty; every pack needs it`,
	)
	if tab.Packs[0].Price != before || !tab.Packs[0].Invented {
		t.Error("a faulty price file changed the table")
	}
}

// quoted returns the nearest pack keys as an error lists them.
func quoted(t *testing.T, tab *Table, key string) string {
	t.Helper()
	unknown := (*UnknownError)(nil)
	if _, err := tab.Pack(key); !errors.As(err, &unknown) || len(unknown.Nearest()) == 0 {
		t.Fatalf("no pack is near %q", key)
	}
	return table.OrList(unknown.Nearest())
}

func TestReadStock(t *testing.T) {
	tab := load(t)
	rice := food(t, tab, "20044")
	key := rice.Packs[0].Key
	s, err := tab.ReadStock("stock.csv", strings.NewReader(
		"pack,count,best_before,place,opened,food,grams\n"+
			key+",3,2027-05-31,cellar,,,\n"+
			key+",1,2026-12-01,cellar,,,\n"+
			",2,,shelf,,20044,750\n"+
			"water,12.5,,,,,\nwater,10,,,,,\nheat,4,,,,,\n"))
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Lines) != 3 || s.Lines[0].Pack != rice.Packs[0] || s.Lines[0].Count != 3 || s.Lines[0].BestBefore != "2027-05-31" || s.Lines[0].Place != "cellar" {
		t.Errorf("lines %+v", s.Lines)
	}
	jar := s.Lines[2]
	if jar.Pack.Food != rice || jar.Pack.NetG != 750 || jar.Count != 2 || jar.Pack.HasPrice || !jar.Pack.Own {
		t.Errorf("the jar is %+v", jar.Pack)
	}
	// USDA SR26: a cup of white rice weighs 185 g, 236.588 mL; packing.csv: a round jar is
	// filled to 0.9, holds 0.84 of its outside, and fills 0.7854 of its box.
	if want := 0.750 / (185 / 236.588) / 0.9 / 0.84 / 0.7854; math.Abs(jar.Pack.VolumeL-want) > 0.001 {
		t.Errorf("the jar takes %.3f L, want %.3f", jar.Pack.VolumeL, want)
	}
	if slices.Contains(rice.Packs, jar.Pack) || slices.Contains(tab.Packs, jar.Pack) {
		t.Error("a jar filled at home can be bought")
	}
	if s.WaterL == nil || *s.WaterL != 22.5 || s.HeatMJ == nil || *s.HeatMJ != 4 {
		t.Errorf("water %v, heat %v, want 22.5 L and 4 MJ", s.WaterL, s.HeatMJ)
	}
	again, err := tab.ReadStock("plan", FromRows(s.Rows))
	if err != nil || len(again.Lines) != 3 || again.Lines[2].Pack.Key != jar.Pack.Key || *again.WaterL != 22.5 {
		t.Errorf("read from its rows the stock is %+v, %v", again, err)
	}
	none, err := tab.ReadStock("stock.csv", strings.NewReader("pack,count\n"+key+",1\n"))
	if err != nil || none.WaterL != nil || none.HeatMJ != nil {
		t.Errorf("without rows for them water is %v and heat %v (%v), want nil", none.WaterL, none.HeatMJ, err)
	}
}

func TestReadStockErrors(t *testing.T) {
	tab := load(t)
	key := food(t, tab, "20044").Packs[0].Key
	n := func(extra int) string { return strconv.Itoa(len(key) + extra) }
	_, err := tab.ReadStock("stock.csv", strings.NewReader(
		"pack,count,best_before,food,grams\n"+
			key+",3,2027-02-30,,\n"+ // no such day
			key+",1.5,2027-03-01,,\n"+
			key+",2,2027-04-01,,\n"+
			key+",2,2027-04-01,,\n"+
			key+",,2027-05-01,,\n"+
			key+",1,1066-10-14,,\n"+
			key+",1,01/02/2027,,\n"+
			"nosuch,1,,,\n"+
			",,,ric,100\n"+
			",,,20044,\n"+
			",,,20044,-5\n"+
			key+",1,,20044,100\n"+
			",1,,,\n"+
			key+",-1,2027-06-01,,\n"))
	lines(t, err,
		`stock.csv:2:`+n(4)+`: best_before "2027-02-30": not a date; write year-month-day, such as 2026-01-31`,
		`stock.csv:3:`+n(2)+`: count "1.5": not a number: it is not whole; count full packs, and write food and grams for the rest of an open one`,
		`stock.csv:5:1: pack "`+key+`": there twice: line 4 has the same pack, dates and place; add the counts up in one row`,
		`stock.csv:6:`+n(2)+`: count "": empty; write how many there are`,
		`stock.csv:7:`+n(4)+`: best_before "1066-10-14": out of range; write a year from 1980 to 2100`,
		`stock.csv:8:`+n(4)+`: best_before "01/02/2027": not a date; write year-month-day, such as 2026-01-31`,
		`stock.csv:9:1: pack "nosuch": no such pack: not in the food table; see foods list for what there is`,
		`stock.csv:10:4: food "ric": no such food: not in the food table; `+remedy(tab, "ric"),
		`stock.csv:11:10: grams "": empty; write the grams of food in it, without the jar`,
		`stock.csv:12:10: grams "-5": out of range: negative; write a number from 0.1 to 100000`,
		`stock.csv:13:`+n(5)+`: food "20044": this row has a pack too; write either pack and count, or food and grams`,
		`stock.csv:14:1: pack "": empty; write the key of a pack, or food and grams for what was packed at home`,
		`stock.csv:15:`+n(2)+`: count "-1": out of range: negative; write a number from 0 to 100000`,
	)
	_, err = tab.ReadStock("stock.csv", strings.NewReader("name,count\nx,1\n"))
	lines(t, err, `stock.csv:1:1: no column "pack"; the header needs pack,count or food,grams`)
}

func remedy(tab *Table, name string) string {
	if near := tab.Nearest(name); len(near) > 0 {
		return "did you mean " + table.OrList(near) + "?"
	}
	return "see foods list for what there is"
}

const userHeader = "ndb,name,group,form,allergens,tags,texture,energy_kcal,protein_g,fat_g,carbohydrate_g,water_g,ash_g,pack,net_g,container,price,serves\n"

func TestReadFoodsAdds(t *testing.T) {
	tab := load(t)
	changes, err := tab.ReadFoods("foods.csv", strings.NewReader(userHeader+
		"U001,barley porridge in a can,canned and boxed meals,canned_low_acid_vegetable,wheat,none,soft,100,4,2,16.5,77,0.5,U001-400g,400,can_300,1.80,grains:0.9\n"+
		"U001,,,,,,,,,,,,,U001-235g,235,can_8z_tall,,\n"))
	if err != nil {
		t.Fatal(err)
	}
	f := food(t, tab, "U001")
	if !slices.Contains(changes.Added, f) || len(changes.Added) != 1 || len(changes.Packs) != 2 || !f.Own || !f.Computed {
		t.Errorf("changes %+v, food %+v", changes, f)
	}
	if len(f.Packs) != 2 || f.Packs[0].NetG != 235 || f.Packs[1].Price != 1.8 || f.Packs[1].Invented || f.Packs[0].HasPrice {
		t.Errorf("packs %+v", f.Packs)
	}
	if f.Packs[1].TareG <= 0 || f.Packs[1].VolumeL <= 0 || math.Abs(f.Packs[1].GrossG-400-f.Packs[1].TareG) > 1e-9 {
		t.Errorf("the pack took no tare and litres from its container: %+v", f.Packs[1])
	}
	if _, known := f.Per100g.Get(nutrients.Iron); known {
		t.Error("an empty cell became a known amount")
	}
	if kcal, known := f.Per100g.Get(nutrients.Energy); !known || kcal != 100 {
		t.Errorf("energy %g, %v", kcal, known)
	}
	if !f.HasTag("gluten") {
		t.Error("wheat did not bring the gluten tag")
	}
	if f.Keeping == nil || f.Preparation == nil || f.OccasionG <= 0 || f.CapSource == "" {
		t.Errorf("keeping %v, preparation %v, %g g at a sitting (%s)", f.Keeping, f.Preparation, f.OccasionG, f.CapSource)
	}
	if len(changes.Warnings) != 1 || !strings.Contains(changes.Warnings[0], "U001-235g: no price") {
		t.Errorf("warnings %q, want the pack without a price", changes.Warnings)
	}
	if f.LactoseG != 0 || !f.HasLactose {
		t.Error("a food without milk has unknown lactose")
	}

	again := load(t)
	if _, err := again.ReadFoods("plan", FromRows(changes.Rows)); err != nil {
		t.Fatal(err)
	}
	g := food(t, again, "U001")
	if g.Name != f.Name || len(g.Packs) != 2 || g.OccasionG != f.OccasionG {
		t.Errorf("read from its rows the food is %+v", g)
	}
	if fresh := load(t); fresh.byNDB("U001") != nil {
		t.Error("the user's food got into the embedded table")
	}
}

// A row with the number or name of a built-in food adds a pack of one's own
// and changes nothing else: no allergen, no figure, no pack of the table.
func TestReadFoodsLeavesTheTable(t *testing.T) {
	tab := load(t)
	before := *food(t, tab, "C0001")
	in := "ndb,source,pack,net_g,label_net_g,tare_g,volume_l\nC0001,label of our tin,tin-900g,900,900,120,2.1\n"
	changes, err := tab.ReadFoods("foods.csv", strings.NewReader(in))
	if err != nil {
		t.Fatal(err)
	}
	f := food(t, tab, "C0001")
	if len(f.Packs) != len(before.Packs)+1 || len(changes.Added) != 0 || len(changes.Packs) != 1 || f.Own || f.Source != before.Source {
		t.Errorf("the pack was not added alone: %+v", changes)
	}
	ghee := food(t, load(t), "01003")
	for _, in := range []string{
		"ndb,allergens\n01003,none\n", "name,allergens\nbutter oil (ghee),none\n", "ndb,name\n01003,oil\n",
		"ndb,tags\n01003,none\n", "ndb,energy_kcal\n01003,880\n", "ndb,may_contain\n01003,none\n", "ndb,texture\n01003,puree\n",
		"ndb,pack,net_g\n01003," + ghee.Packs[0].Key + ",300\n", "ndb,pack,price\n01003," + ghee.Packs[0].Key + ",1\n",
	} {
		tab := load(t)
		_, err := tab.ReadFoods("foods.csv", strings.NewReader(in))
		if err == nil || !strings.Contains(err.Error(), "foods.csv:2:") {
			t.Errorf("%q: error %v, want a located one", in, err)
		}
		if got := food(t, tab, "01003"); !slices.Equal(got.Allergens, ghee.Allergens) || got.Packs[0].NetG != ghee.Packs[0].NetG {
			t.Errorf("%q changed the table", in)
		}
	}
}

// What foods verify calls an error stops the reading, with place and remedy; a
// sound food without a source is read, and verify finds no error in it.
func TestReadFoodsRefusesWhatVerifyCallsAnError(t *testing.T) {
	const header = "ndb,name,group,form,allergens,tags,texture,energy_kcal,protein_g,fat_g,carbohydrate_g,pack,net_g,label_net_g,tare_g,volume_l,price\n"
	for _, test := range []struct{ row, want string }{
		{"U1,bar,sweets and spreads,granola_bars,none,none,soft,99999,10,10,60,,,,,,", `foods.csv:2:55: energy_kcal "99999": 99999 kcal in 100 g, but general factors give`},
		{"U1,bar,sweets and spreads,granola_bars,none,none,soft,391,10,10,160,,,,,,", `carbohydrate_g "160": `},
		{"U1,bar,sweets and spreads,granola_bars,none,none,soft,370,10,10,60,p,500,500,5,0.2,1", `volume_l "0.2": 500 g take`},
		{"U1,beef stew,canned meat and poultry,canned_meat_poultry,none,none,soft,370,10,10,60,,,,,,", `tags "none": "beef" is in the description`},
		{"U1,milk bar,sweets and spreads,granola_bars,none,none,soft,370,10,10,60,,,,,,", `allergens "none": "milk" in the description`},
		{"U1,bar,sweets and spreads,granola_bars,none,none,soft,370,10,10,60,p,500,500,5,2,1", ""},
		{"U1,ACME bar,sweets and spreads,granola_bars,none,none,soft,370,10,10,60,p,500,500,5,2,1", ""},
	} {
		tab := load(t)
		_, err := tab.ReadFoods("foods.csv", strings.NewReader(header+test.row+"\n"))
		switch {
		case test.want != "" && (err == nil || !strings.Contains(err.Error(), test.want)):
			t.Errorf("%s\n got %v\nwant %s", test.row, err, test.want)
		case test.want != "" && tab.byNDB("U1") != nil:
			t.Errorf("%s: refused and read", test.row)
		case test.want == "" && err != nil:
			t.Errorf("%s: %v", test.row, err)
		}
		for _, f := range Verify(tab) {
			if f.Severity == Error {
				t.Errorf("%s: %v", test.row, f)
			}
		}
	}
}

func TestReadFoodsErrors(t *testing.T) {
	tab := load(t)
	count := len(tab.Foods)
	taken := food(t, tab, "20044")
	_, err := tab.ReadFoods("foods.csv", strings.NewReader(
		"ndb,name,group,form,allergens,tags,texture,energy_kcal,protein_g,fat_g,carbohydrate_g,pack,net_g,serves\n"+
			"U1,a,grains,rice_white,,none,soft,350,7,1,79,,,\n"+ // allergens not said
			"U2,b,grian,rice_wite,nuts,none,chewy,350,7,1,79,,,starch:1\n"+
			"U3,"+quote(taken.Name)+",grains,rice_white,none,none,soft,350,7,1,79,,,\n"+
			"20044,,,,,,,,,,,,,\n"+
			"20044,,,,,,,,,,,"+food(t, tab, "20120").Packs[0].Key+",100,\n"+
			"20044,,,,,,,,,,,p1,0,\n"+
			"20044,,,,,,,,,,,p1,5,\n"+
			"U4,d,grains,rice_white,none,none,soft,\"3,5\",7,1,79,,,\n"+
			"U5,e,grains,rice_white,none,none,soft,-3,7,1,79,,,\n"+
			"20044,,,,,,,,,,,,500,\n"))
	got := err.Error()
	for _, want := range []string{
		`foods.csv:2:24: allergens "": empty, and this food is new to the table; write the allergens on the label, parted by semicolons, or none`,
		`foods.csv:3:6: group "grian": unknown word; did you mean "grains"?`,
		`form "rice_wite": unknown word; did you mean "rice_white"`,
		`allergens "nuts": unknown word; `,
		`texture "chewy": unknown word; write one of: puree soft regular hard`,
		`serves "starch:1": no amount of a pattern group; write group:equivalents per 100 g, with one of grains whole-grains`,
		`foods.csv:4:4: name "` + taken.Name + `": there twice: 20044 is called that; give the food a name of its own`,
		`foods.csv:5:1: ndb "20044": this row changes nothing; fill a pack`,
		`there twice: it is a pack of ` + food(t, tab, "20120").Name,
		`net_g "0": out of range; write a number from 0.1 to 100000`,
		`foods.csv:7:1: tare_g "": empty; a new pack needs it, or a container of foods/data/packages.csv for tare and litres`,
		`pack "p1": there twice: already in line 7`,
		`energy_kcal "3,5": not a number: it has a decimal comma; write 3.5`,
		`energy_kcal "-3": out of range: negative`,
		`foods.csv:11:17: pack "": empty; write the key of the pack that net_g is about`,
	} {
		if !strings.Contains(got, want) {
			t.Errorf("the errors lack %s\n%s", want, got)
		}
	}
	if len(tab.Foods) != count || tab.byNDB("U1") != nil {
		t.Error("a faulty file changed the table")
	}
}

func quote(s string) string { return `"` + s + `"` }

// What every CSV may suffer from: the seeds of the fuzz tests, and nothing may
// panic, nor read otherwise from its own rows.
var seeds = []string{
	"", "\n", "pack,count\n", "pack,price\n", "pack;price\nx;1\n", "\xef\xbb\xbfpack,price\r\nx,1\r\n",
	"pack,price\nx,\"1,5\"\n", "pack,price\nx,1,2\n", "pack,price\nx,NaN\nx,inf\nx,0x1p-2\nx,1_000\n",
	"pack,price\n\"x,1\n", "ndb,name\nU1,x\nU1,x\n", "pack,count,best_before\nwater,1,2026-02-31\nheat,9,\n",
	"food,grams\n20044,100\n", "ndb,pack,net_g\n20044,p,5\n", "pack,price,currency\nsalt-737g-canister,1,X\n",
	"ndb,energy_kcal,serves\n20044,300,grains:3;grains:4\n", "\xff\xfe\x00p", "pack\tprice\n",
}

func FuzzReadStock(f *testing.F) {
	tab := load(f)
	fuzz(f, func(t *testing.T, text string) ([][]string, error) {
		s, err := tab.ReadStock("f", strings.NewReader(text))
		if err != nil {
			return nil, err
		}
		return s.Rows, nil
	})
}

func FuzzReadPrices(f *testing.F) {
	tab := load(f)
	fuzz(f, func(t *testing.T, text string) ([][]string, error) {
		c, err := tab.ReadPrices("f", strings.NewReader(text))
		if err != nil {
			return nil, err
		}
		for _, p := range tab.Packs {
			if p.HasPrice && !(p.Price > 0) {
				t.Errorf("%s costs %g", p.Key, p.Price)
			}
		}
		return c.Rows, nil
	})
}

func FuzzReadFoods(f *testing.F) {
	fresh := load(f)
	fuzz(f, func(t *testing.T, text string) ([][]string, error) {
		tab := fresh.Clone()
		c, err := tab.ReadFoods("f", strings.NewReader(text))
		if err != nil {
			if len(tab.Foods) != len(fresh.Foods) {
				t.Error("a faulty file changed the table")
			}
			return nil, err
		}
		for _, p := range tab.Packs {
			if p.Food == nil || p.NetG <= 0 || p.VolumeL <= 0 {
				t.Errorf("pack %+v", p)
			}
		}
		return c.Rows, nil
	})
}

// fuzz adds the seeds and checks that what is read reads the same again.
func fuzz(f *testing.F, read func(t *testing.T, text string) ([][]string, error)) {
	for _, s := range seeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		rows, err := read(t, text)
		if err != nil {
			var all *table.Errors
			if !errors.As(err, &all) {
				t.Errorf("error %v is of type %T", err, err)
			}
			return
		}
		var b strings.Builder
		buf := make([]byte, 1<<20)
		for r := FromRows(rows); ; {
			n, err := r.Read(buf)
			b.Write(buf[:n])
			if err != nil {
				break
			}
		}
		again, err := read(t, b.String())
		if err != nil {
			t.Fatalf("its own rows are refused: %v\n%q", err, b.String())
		}
		if len(again) != len(rows) {
			t.Fatalf("%d rows, then %d", len(rows), len(again))
		}
		for i := range rows {
			if !slices.Equal(rows[i], again[i]) {
				t.Errorf("row %d: %q, then %q", i, rows[i], again[i])
			}
		}
	})
}

// A pack may have been opened before the day from which is counted and on it, not
// after it.
func TestPacksOpenedByTheDay(t *testing.T) {
	tab := load(t)
	key := food(t, tab, "20044").Packs[0].Key
	for opened, want := range map[string]bool{"2026-01-04": true, "2026-01-05": true, "2026-01-06": false} {
		s, err := tab.ReadStockOn("2026-01-05", "stock.csv", strings.NewReader("pack,count,opened\n"+key+",1,"+opened+"\n"))
		if !want && (err == nil || !strings.Contains(err.Error(), "after 2026-01-05, the day from which is counted")) {
			t.Errorf("opened on %s: %v, want it refused", opened, err)
		}
		if read := err == nil && len(s.Lines) == 1; read != want {
			t.Errorf("opened on %s: read %v, want %v (%v)", opened, read, want, err)
		}
	}
}

package foods

import (
	"math"
	"slices"
	"strings"
	"testing"

	"rationwright/nutrients"
	"rationwright/nutrients/table"
)

// readingOf is the reading of a user's file into a table, before its first row.
func readingOf(tab *Table) *userReading {
	return &userReading{Table: tab, rows: map[*Food]*table.Row{}, packRows: map[string]*table.Row{}, written: map[string]bool{}}
}

// A row about a food of the table may fill the cells of a pack and what names it, and no
// other: each of these is refused by its name.
func TestNoFileChangesAFoodOfTheTable(t *testing.T) {
	tab := load(t)
	pack := strings.Fields("ndb pack grams net_g label_net_g tare_g volume_l container price currency easy_open like basis source verified note name")
	refused := 0
	for _, c := range userColumns {
		if slices.Contains(pack, c.Name) {
			continue
		}
		refused++
		_, err := tab.Clone().ReadFoods("own.csv", strings.NewReader("ndb,pack,net_g,tare_g,volume_l,price,"+c.Name+"\n20044,p-own,700,9,1,2,1\n"))
		if err == nil || !strings.Contains(err.Error(), c.Name+` "1": a food of the table is not changed by a file`) {
			t.Errorf("%s: %v", c.Name, err)
		}
	}
	if refused < 60 {
		t.Errorf("only %d columns were tried", refused)
	}
	rice := food(t, tab, "20044")
	for cells, sound := range map[string]bool{
		"ndb,name,pack,net_g,tare_g,volume_l,price\n20044," + quote(strings.ToUpper(rice.Name)) + ",p-own,700,9,1,2\n": true,
		"ndb,name,pack,net_g,tare_g,volume_l,price\n20044,our rice,p-own,700,9,1,2\n":                                  false,
		"ndb,grams,price,note,source,verified,basis,easy_open,currency\n20044,700,2,n,s,yes,dry,yes,TSD\n":             true,
		"name,grams,price\n" + quote(rice.Name) + ",700,2\n":                                                           true,
		"like,grams,price\n" + quote(rice.Name) + ",700,2\n":                                                           true,
	} {
		changes, err := tab.Clone().ReadFoods("own.csv", strings.NewReader(cells))
		if (err == nil) != sound || err == nil && (len(changes.Packs) != 1 || len(changes.Added) != 0 || changes.Packs[0].Food.NDB != "20044") {
			t.Errorf("%s%+v, %v, want a pack: %v", cells, changes, err, sound)
		}
	}
	for column := range strings.FieldsSeq("net_g label_net_g tare_g volume_l container price currency easy_open") {
		_, err := tab.Clone().ReadFoods("own.csv", strings.NewReader("ndb,pack,"+column+"\n20044,,1\n"))
		if err == nil || !strings.Contains(err.Error(), "write the key of the pack that "+column+" is about") {
			t.Errorf("%s without a pack: %v", column, err)
		}
	}
}

// The tags that follow from the figures of one's own food, on both sides of each limit; the
// limits are those of tags.csv.
func TestTagsThatFollow(t *testing.T) {
	tab := load(t)
	const header = "name,allergens,tags,sodium_mg,added_sugars_g,group,texture,form,may_contain"
	for _, test := range []struct {
		cells string
		like  string // an own label beside it, "" none
		want  string
	}{
		{"a,none,none,139.9,2.4,soups,soft,crackers,", "", ""},
		{"a,none,none,140,2.5,soups,soft,crackers,", "", "added-salt added-sugar"},
		{"a,none,added-salt,140,,soups,soft,crackers,", "", "added-salt"},
		{"a,none,none,,,soups,soft,crackers,", "", ""},
		{"a,none,none,500,,soups,soft,egg_powder,", "", ""}, // its own sodium
		{"a,none,infant-formula,500,9,soups,soft,crackers,", "", "infant-formula"},
		{"a,wheat,none,,,soups,soft,crackers,", "", "gluten"},
		{"a,milk,none,,,soups,soft,crackers,", "", "animal"},
		{"a,none,honey,,,soups,soft,crackers,", "", "honey animal"},
		{"a,none,none,,,canned beans,soft,canned_beans,", "", "whole-pieces"},
		{"a,none,none,,,canned beans,puree,canned_beans,", "", ""},
		{"a,none,none,,,canned fruit,regular,canned_beans,", "", "whole-pieces"},
		// By its own label it is not salted, whatever the food is that it is like.
		{"a,none,added-salt,139.9,,soups,soft,crackers,", "20044", ""},
		{"a,none,added-salt,,,soups,soft,crackers,", "20044", "added-salt"},
		{"a,soy,none,,,soups,soft,crackers,soy;egg", "", ""},
	} {
		row, faults := rowOf(t, header, test.cells)
		f := &Food{Per100g: nutrients.Unknown(), Like: test.like}
		readingOf(tab).applyUserFood(row, f)
		if err := faults(); err != nil || strings.Join(f.Tags, " ") != test.want {
			t.Errorf("%s: %v, %v, want %s", test.cells, f.Tags, err, test.want)
		}
		if slices.Contains(f.Allergens, "soy") && !slices.Equal(f.MayContain, []string{"egg"}) {
			t.Errorf("what is held is no trace: %v", f.MayContain)
		}
	}
	// A copy keeps the marks of what it is a copy of.
	row, _ := rowOf(t, header, "a,none,added-salt,5,,soups,soft,crackers,")
	f := &Food{Per100g: nutrients.Unknown(), Like: "20044", Copied: true}
	if readingOf(tab).applyUserFood(row, f); !f.HasTag("added-salt") {
		t.Error("a copy lost its mark")
	}
}

// What a food takes of the one that it is like, with a label of its own and without.
func TestTakesOfTheLike(t *testing.T) {
	like := &Food{NDB: "20044", Name: "rice", Description: "Rice", Short: "RICE", Group: "grains", Form: "rice_white", Source: "USDA", Verified: "yes", folded: "rice",
		Tags: []string{TagLowGI, "gluten"}, Allergens: []string{"wheat"}, MayContain: []string{"soy"}, GI: 50, GIClass: "low", LactoseG: 1, HasLactose: true,
		OccasionG: 100, DayG: 200, Factors: Factors{4, 9, 4}, Packs: []*Pack{{}}, AddedRule: "none", CapSource: "kitchen", Note: "n", Kinds: []string{"rice"}}
	like.Per100g = nutrients.Unknown()
	like.Per100g[nutrients.Iron] = 3
	for _, labelled := range []bool{false, true} {
		f := &Food{NDB: "U001", Name: "x", Packs: nil}
		f.take(like, labelled)
		iron, known := f.Per100g.Get(nutrients.Iron)
		if f.NDB != "U001" || f.Name != "" || f.Description != "" || f.Short != "" || f.Verified != "" || f.Packs != nil || f.folded != "" || f.Like != "20044" ||
			f.Note != "like rice" || f.CapSource != "as rice" || f.Group != "grains" || f.Form != "rice_white" || f.OccasionG != 100 || f.DayG != 200 ||
			!slices.Equal(f.MayContain, []string{"soy", "wheat"}) || !slices.Equal(f.Kinds, like.Kinds) || f.Copied == labelled {
			t.Errorf("label %v: %+v", labelled, f)
		}
		if labelled && (known || f.GI != 0 || f.GIClass != "" || f.HasLactose || f.LactoseG != 0 || f.Factors != (Factors{}) || f.AddedRule != "as the user gave it" || !slices.Equal(f.Tags, []string{"gluten"})) {
			t.Errorf("with a label it keeps figures: %+v", f)
		}
		if !labelled && (iron != 3 || f.GI != 50 || !f.HasLactose || f.Factors != like.Factors || f.AddedRule != "none" || len(f.Tags) != 2 || f.Source != "the user's row, with the figures of 20044 rice") {
			t.Errorf("without a label it has other figures: %+v", f)
		}
	}
	if len(like.Tags) != 2 || len(like.MayContain) != 1 {
		t.Errorf("the like is changed: %+v", like)
	}
}

// The amounts at a sitting and in a day of a food without any: the largest of each of the
// foods of its form, else of its group; not of the user's own, nor its own.
func TestAmountsOfFoodsAlike(t *testing.T) {
	others := []*Food{
		{Form: "soup", Group: "soups", OccasionG: 300, DayG: 400}, {Form: "soup", Group: "meals", OccasionG: 250, DayG: 900}, {Form: "soup", Own: true, OccasionG: 999, DayG: 999},
		{Form: "broth", Group: "soups", OccasionG: 100, DayG: 700}, {Form: "dry", Group: "meals", DayG: 50},
	}
	for _, test := range []struct {
		f             Food
		sitting, dayG float64
		source        string
	}{
		{Food{Form: "soup", Group: "meals"}, 300, 900, "the largest of the foods of the same form"},
		{Food{Form: "stew", Group: "soups"}, 300, 700, "the largest of the foods of the same group"},
		{Food{Form: "stew", Group: "wine"}, 0, 0, ""},
		{Food{Form: "dry", Group: "soups"}, 300, 700, "the largest of the foods of the same group"}, // its form has no sitting
		{Food{Form: "soup", OccasionG: 50}, 50, 0, "the user's file"},
		{Food{Form: "soup", DayG: 50}, 0, 50, "the user's file"},
		{Food{Form: "soup", DayG: 50, CapSource: "a book"}, 0, 50, "a book"},
	} {
		f := test.f
		f.fillCaps(append(others, &f))
		if f.OccasionG != test.sitting || f.DayG != test.dayG || f.CapSource != test.source {
			t.Errorf("%+v: %g and %g by %q, want %g and %g by %q", test.f, f.OccasionG, f.DayG, f.CapSource, test.sitting, test.dayG, test.source)
		}
	}
	// And the kinds in which all of the same form and group lie, else all of the group.
	kinds := func(form, group string, own bool, kinds ...string) *Food {
		return &Food{Form: form, Group: group, Own: own, Kinds: kinds}
	}
	others = []*Food{
		kinds("soup", "soups", false, "bean soups", "soups", "meals"), kinds("soup", "soups", false, "soups", "meals"), kinds("soup", "meals", false, "stews"),
		kinds("broth", "soups", false, "meals", "broths"), kinds("soup", "soups", true, "own"), kinds("x", "odd", false, "a"), kinds("y", "odd", false, "b"),
	}
	for _, test := range []struct {
		f    *Food
		want []string
	}{
		{kinds("soup", "soups", true), []string{"soups", "meals"}}, {kinds("paste", "soups", true), []string{"meals"}}, {kinds("soup", "soups", true, "chosen"), []string{"chosen"}},
		{kinds("z", "odd", true), nil}, {kinds("x", "odd", true), []string{"a"}}, {kinds("z", "wine", true), nil},
	} {
		if test.f.fillKinds(others); !slices.Equal(test.f.Kinds, test.want) {
			t.Errorf("%s of %s: %v, want %v", test.f.Form, test.f.Group, test.f.Kinds, test.want)
		}
	}
	if !slices.Equal(others[0].Kinds, []string{"bean soups", "soups", "meals"}) {
		t.Errorf("the table's kinds are changed: %v", others[0].Kinds)
	}
}

// Keys that are made are the first that no food and no row has, whatever their capitals.
func TestFreeKeys(t *testing.T) {
	r := readingOf(&Table{Foods: []*Food{{NDB: "u002", Name: "a"}, {NDB: "20044", Name: "b"}}})
	r.written["u001"] = true
	for _, want := range []string{"U003", "U004"} {
		if got := r.freeKey(); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
	r.Foods = append(r.Foods, &Food{NDB: "U005", Name: "C"})
	if got := r.freeKey(); got != "U006" || r.called(" c ") != r.Foods[2] || r.byNDB("u005") != r.Foods[2] || r.called("d") != nil {
		t.Errorf("after a food more: %s", got)
	}
}

// A pack of one's own: its container is one of the table, or a word for one, or both tare
// and litres are given; it holds no more than its label says.
func TestOwnPacks(t *testing.T) {
	tab := load(t)
	can := tab.containers["can_300"]
	for _, test := range []struct {
		name, header, cells string
		tare, litres        float64 // of the pack
		fault               string
	}{
		{"by hand", "net_g,tare_g,volume_l", "700,9,1", 9, 1, ""},
		{"a container of the table", "net_g,container", "300,can_300", can.tareG, can.boxL, ""},
		{"one, and its own tare", "net_g,container,tare_g", "300,can_300,70", 70, can.boxL, ""},
		{"one that is not in it", "net_g,container", "300,barrel", 0, 0, "write an id of foods/data/packages.csv, or give tare_g and volume_l"},
		{"one that is not in it, with tare alone", "net_g,container,tare_g", "300,barrel,9", 0, 0, "write an id of foods/data/packages.csv"},
		{"no net", "tare_g,volume_l", "9,1", 0, 0, `net_g "": empty; a new pack needs it`},
		{"no net in a container", "container", "can_300", 0, 0, `net_g "": empty; a new pack needs it`},
		{"no tare", "net_g,volume_l", "700,1", 0, 0, `tare_g "": empty; a new pack needs it`},
		{"no litres", "net_g,tare_g", "700,9", 0, 0, `volume_l "": empty; a new pack needs it`},
		{"as much as on the label", "net_g,label_net_g,tare_g,volume_l", "700,700,9,1", 9, 1, ""},
		{"more than on the label", "net_g,label_net_g,tare_g,volume_l", "700.1,700,9,1", 0, 0, "write at most the net weight of the label"},
		{"grams", "grams", "1000", -1, -1, ""},
		{"grams in a bag", "grams,container", "1000,bag", -1, -1, ""},
	} {
		table := tab.Clone()
		changes, err := table.ReadFoods("own.csv", strings.NewReader("ndb,pack,price,"+test.header+"\n20044,Ours,2,"+test.cells+"\n"))
		if test.fault != "" {
			if err == nil || !strings.Contains(err.Error(), test.fault) {
				t.Errorf("%s: %v, want %s", test.name, err, test.fault)
			}
			continue
		}
		if err != nil || len(changes.Packs) != 1 {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		p := changes.Packs[0]
		if p.Key != "Ours" || !p.Own || p.Price != 2 || !p.HasPrice || test.tare >= 0 && (p.TareG != test.tare || p.VolumeL != test.litres) || p.GrossG != p.LabelG+p.TareG ||
			p.Container != "" && p.Container != "can_300" || !slices.Contains(p.Food.Packs, p) {
			t.Errorf("%s: %+v", test.name, p)
		}
		if strings.Contains(test.header, "container") && !strings.Contains(test.header, "grams") && p.Source != "container: "+can.source {
			t.Errorf("%s: source %q", test.name, p.Source)
		}
	}
	for _, key := range []string{"ours", "OURS"} {
		_, err := tab.Clone().ReadFoods("own.csv", strings.NewReader("ndb,pack,net_g,tare_g,volume_l\n20044,ours,700,9,1\n20044,"+key+",700,9,1\n"))
		if err == nil || !strings.Contains(err.Error(), "there twice: already in line 2") {
			t.Errorf("%s twice: %v", key, err)
		}
	}
}

// Every check sends its reader to a column that a user's file has.
func TestCures(t *testing.T) {
	for check, c := range cures {
		if !slices.ContainsFunc(userColumns, func(u table.Column) bool { return u.Name == c.column }) || c.fix == "" {
			t.Errorf("%s: %+v", check, c)
		}
		if cureOf(check) != c {
			t.Errorf("%s: %+v", check, cureOf(check))
		}
	}
	if got := cureOf("keys"); got.column != "ndb" {
		t.Errorf("another check: %+v", got)
	}
	for i, c := range userColumns {
		if slices.ContainsFunc(userColumns[:i], func(u table.Column) bool { return u.Name == c.Name }) {
			t.Errorf("column %s is there twice", c.Name)
		}
	}
}

// Lines of stock are one where pack, dates and place are; what differs in one of them is
// another line.
func TestLinesOfStock(t *testing.T) {
	tab := load(t)
	rice := food(t, tab, "20044")
	a, b := rice.Packs[0].Key, rice.Packs[1].Key
	const header = "pack,count,best_before,place,opened\n"
	first := a + ",1,2027-01-01,attic,2026-01-01\n"
	for line, sound := range map[string]bool{
		b + ",1,2027-01-01,attic,2026-01-01\n": true, a + ",1,2027-01-02,attic,2026-01-01\n": true, a + ",1,2027-01-01,cellar,2026-01-01\n": true,
		a + ",1,2027-01-01,attic,2026-01-02\n": true, a + ",1,2027-01-01,attic,\n": true, a + ",9,2027-01-01,attic,2026-01-01\n": false, strings.ToUpper(a) + ",1,2027-01-01,attic,2026-01-01\n": false,
	} {
		s, err := tab.ReadStock("stock.csv", strings.NewReader(header+first+line))
		if (err == nil) != sound || err == nil && len(s.Lines) != 2 {
			t.Errorf("%s: %+v, %v", line, s, err)
		}
	}
	for cells, want := range map[string]string{
		"water,2,,,2026-01-01":    "only packs of food have a day of opening",
		a + ",100001,,,":          "count \"100001\"",
		a + ",0.5,,,":             "it is not whole",
		a + ",1,2027-13-01,,":     "best_before \"2027-13-01\"",
		a + ",1,,,2026-02-30":     "opened \"2026-02-30\"",
		"water,2,2027-13-01,,":    "best_before \"2027-13-01\"",
		a + ",100000,,,":          "",
		a + ",0,,,":               "",
		"water,0.5,2027-01-01,x,": "",
	} {
		s, err := tab.ReadStock("stock.csv", strings.NewReader(header+cells+"\n"))
		if (err == nil) != (want == "") || err != nil && (!strings.Contains(err.Error(), want) || strings.Contains(err.Error(), "\n")) {
			t.Errorf("%s: %+v, %v, want %q", cells, s, err, want)
		}
		if err == nil && strings.HasPrefix(cells, "water") && (len(s.Goods) != 1 || s.Goods[0].Count != 0.5 || s.Goods[0].BestBefore != "2027-01-01" || s.Goods[0].Place != "x") {
			t.Errorf("%s: %+v", cells, s.Goods)
		}
	}
	for _, test := range []struct {
		s    Supply
		want bool
	}{{Supply{Key: "water", Unit: "L"}, true}, {Supply{Key: "water-bottled", Unit: "L"}, true}, {Supply{Key: "water-tablets", Unit: "piece"}, false}, {Supply{Key: "waterproof", Unit: "L"}, false}, {Supply{Key: "oil", Unit: "L"}, false}} {
		if test.s.holdsWater() != test.want {
			t.Errorf("%+v is water: %v", test.s, !test.want)
		}
	}
}

// A jar filled at home: one where nothing else is said, as dense as its food, or as water
// where that is not known; 700 g of tuna in a round jar, 0.9 × 0.84 × 0.7854 full.
func TestFilledAtHome(t *testing.T) {
	tab := load(t)
	tuna := food(t, tab, "15121")
	for cells, count := range map[string]float64{"15121,700,": 1, "15121,700,3": 3, "15121,700,0": 0} {
		s, err := tab.ReadStock("stock.csv", strings.NewReader("food,grams,count\n"+cells+"\n"))
		if err != nil || len(s.Lines) != 1 || s.Lines[0].Count != count {
			t.Errorf("%s: %+v, %v", cells, s, err)
			continue
		}
		p := s.Lines[0].Pack
		if want := 0.7 / (0.9 * 0.84 * 0.7854); math.Abs(p.VolumeL-want) > 1e-9 || p.Food != tuna || p.LabelG != 700 || p.NetG != 700 || p.GrossG != 700 || p.TareG != 0 ||
			p.Key != "15121-700g-own" || p.Basis != tuna.Basis || !p.Own || p.HasPrice || p.Source == "" || p.Note == "" {
			t.Errorf("%s: %+v, want %g L", cells, p, want)
		}
	}
	for cells, want := range map[string]string{
		"15121,0.09,": `grams "0.09"`, "15121,100001,": `grams "100001"`, "15121,700,x": `count "x"`, "15121,700,1.5": "it is not whole", "15121,,1": `grams "": empty`, "wine of the moon,700,": "no such food",
	} {
		_, err := tab.ReadStock("stock.csv", strings.NewReader("food,grams,count\n"+cells+"\n"))
		if err == nil || !strings.Contains(err.Error(), want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v, want %s", cells, err, want)
		}
	}
	for grams, sound := range map[string]bool{"0.1": true, "100000": true} {
		if _, err := tab.ReadStock("stock.csv", strings.NewReader("food,grams\n15121,"+grams+"\n")); (err == nil) != sound {
			t.Errorf("%s g: %v", grams, err)
		}
	}
}

// A copy of a table may be changed without the table: its foods, packs and supplies are its
// own, and belong to one another as there.
func TestCloneIsApart(t *testing.T) {
	tab := load(t)
	c := tab.Clone()
	if len(c.Foods) != len(tab.Foods) || len(c.Packs) != len(tab.Packs) || len(c.Supplies) != len(tab.Supplies) || c.Sizes() != tab.Sizes() {
		t.Fatal("the copy has not as many")
	}
	for i, f := range tab.Foods {
		if c.Foods[i] == f || c.Foods[i].NDB != f.NDB || len(c.Foods[i].Packs) != len(f.Packs) {
			t.Fatalf("%s: %+v", f.NDB, c.Foods[i])
		}
		for j, p := range f.Packs {
			if q := c.Foods[i].Packs[j]; q == p || q.Key != p.Key || q.Food != c.Foods[i] || !slices.Contains(c.Packs, q) {
				t.Errorf("%s: %+v", p.Key, q)
			}
		}
	}
	for i, p := range tab.Packs {
		if q := c.Packs[i]; q == p || q.Key != p.Key || q.Food.NDB != p.Food.NDB || q.Food == p.Food {
			t.Errorf("%s: %+v", p.Key, q)
		}
	}
	for i, s := range tab.Supplies {
		if c.Supplies[i] == s || *c.Supplies[i] != *s {
			t.Errorf("%s: %+v", s.Key, c.Supplies[i])
		}
	}
	// In order: foods and packs by key, the packs of a food from the smallest.
	for _, table := range []*Table{tab, c} {
		sorted := slices.IsSortedFunc(table.Foods, func(a, b *Food) int { return strings.Compare(a.NDB, b.NDB) }) &&
			slices.IsSortedFunc(table.Packs, func(a, b *Pack) int { return strings.Compare(a.Key, b.Key) })
		for _, f := range table.Foods {
			sorted = sorted && slices.IsSortedFunc(f.Packs, func(a, b *Pack) int { return int(math.Copysign(1, a.NetG-b.NetG)) })
		}
		if !sorted {
			t.Error("a table is not in order")
		}
	}
	for sizes, markets := range map[string][]string{SizesMetric: {"metric", "both"}, SizesUS: {"us", "both"}, SizesAll: {"metric", "us", "both"}} {
		c.Sell(sizes)
		sold := 0
		for _, f := range c.Foods {
			sold += len(f.Packs)
		}
		want := 0
		for _, row := range readCSV(t, "data/packs.csv") {
			if slices.Contains(markets, row["market"]) {
				want++
			}
		}
		if sold != want || c.Sizes() != sizes {
			t.Errorf("%s: %d packs are sold, want %d", sizes, sold, want)
		}
	}
}

// One's own foods take their places among the others by key; a key that is made is none that
// a later row of the file has; the rows of a plan stand in the order of the format; and a
// pack of one's own of a food of the table is checked as one's own foods are.
func TestOwnFoodsInTheirPlaces(t *testing.T) {
	tab := load(t)
	changes, err := tab.ReadFoods("own.csv", strings.NewReader("allergens,name,like,grams,price,ndb\nwheat,first rusks,rye crispbread,250,1,\nwheat,second rusks,rye crispbread,250,1,U001\nwheat,third rusks,rye crispbread,250,1,00000\n"))
	if err != nil {
		t.Fatal(err)
	}
	var keys []string
	for _, f := range changes.Added {
		keys = append(keys, f.NDB)
	}
	if !slices.Equal(keys, []string{"U002", "U001", "00000"}) || tab.Foods[0].NDB != "00000" || tab.Foods[len(tab.Foods)-1].NDB != "U002" || tab.Foods[len(tab.Foods)-2].NDB != "U001" {
		t.Errorf("keys %v, the table from %s to %s", keys, tab.Foods[0].NDB, tab.Foods[len(tab.Foods)-1].NDB)
	}
	if !slices.Equal(changes.Rows[0], []string{"ndb", "name", "like", "grams", "allergens", "price"}) || !slices.Equal(changes.Rows[2], []string{"U001", "second rusks", "rye crispbread", "250", "wheat", "1"}) {
		t.Errorf("rows %q", changes.Rows)
	}
	plain, err := load(t).ReadFoods("own.csv", strings.NewReader("ndb,name,group,form,allergens,tags,texture,energy_kcal,protein_g,fat_g,carbohydrate_g\nU001,island oats,breakfast cereals,oats_rolled,none,gluten;oats,soft,370,13,7,60\n"))
	if err != nil || plain.Added[0].Basis != "as packed" || plain.Added[0].Source != "the user's label" || plain.Added[0].Description != "island oats" || plain.Added[0].Class != "ready to eat" || plain.Added[0].Verified != "as the user gave it" {
		t.Errorf("%+v, %v", plain, err)
	}
	// 700 g of rice take no less than 700 ÷ (185 g a cup of 236.588 mL) ÷ 1.15 = 0.778 L.
	for litres, sound := range map[string]bool{"0.78": true, "0.77": false} {
		_, err := load(t).ReadFoods("own.csv", strings.NewReader("ndb,pack,net_g,tare_g,volume_l,price\n20044,ours,700,9,"+litres+",2\n"))
		if (err == nil) != sound || err != nil && !strings.Contains(err.Error(), `own.csv:2:18: volume_l "0.77"`) {
			t.Errorf("rice in %s L: %v", litres, err)
		}
	}
	priceless, err := load(t).ReadFoods("own.csv", strings.NewReader("ndb,pack,net_g,tare_g,volume_l\n20044,ours,700,9,1\n"))
	if err != nil || !slices.Equal(priceless.Warnings, []string{"own.csv: ours: no price: it cannot be bought"}) {
		t.Errorf("a pack without a price: %+v, %v", priceless, err)
	}
}

// What 100 g of a food are is said by the row that brings it or by one without a pack; beside
// a pack the cell is the pack's, which else is measured as the pack nearest to it.
func TestBasisOfFoodAndPack(t *testing.T) {
	tab := load(t)
	for _, test := range []struct{ have, header, cells, want string }{
		{"drained", "name,basis,pack", "a,dry,p", "drained"}, {"drained", "name,basis", "a,dry", "dry"}, {"", "name,basis,pack", "a,dry,p", "dry"}, {"drained", "name,pack", "a,p", "drained"},
	} {
		row, _ := rowOf(t, test.header, test.cells)
		f := &Food{Basis: test.have, Per100g: nutrients.Unknown()}
		if readingOf(tab).applyUserFood(row, f); f.Basis != test.want {
			t.Errorf("%q and %s: %q, want %q", test.have, test.cells, f.Basis, test.want)
		}
	}
	near, err := tab.Pack("canned-chickpeas-400g-can")
	if err != nil {
		t.Fatal(err)
	}
	near.Basis = "poured off"
	changes, err := tab.ReadFoods("own.csv", strings.NewReader("ndb,grams,price,basis\n16359,410,1,\n16359,411,1,as we say\n"))
	if err != nil || changes.Packs[0].Basis != "poured off" || changes.Packs[1].Basis != "as we say" {
		t.Errorf("%+v, %v, want the basis of the nearest pack", changes, err)
	}
	// A row that would change the table is told so, and nothing else of it.
	_, err = tab.ReadFoods("own.csv", strings.NewReader("ndb,allergens\n20044,none\n"))
	if err == nil || strings.Contains(err.Error(), "changes nothing") || strings.Contains(err.Error(), "\n") {
		t.Errorf("%v", err)
	}
}

// A label by volume is counted by what a litre of the food weighs, which is said; where
// nobody knows it, it is refused, as is one that lacks what every label gives. USDA SR26:
// a teaspoon of 236.588 ÷ 48 mL of the oil weighs 4.5 g, so that 90 g of fat in 100 mL are
// 98.6 in 100 g.
func TestLabelsByVolume(t *testing.T) {
	const header = "name,grams,price,allergens,like,label\n"
	density := 4.5 / (236.588 / 48)
	changes, err := load(t).ReadFoods("own.csv", strings.NewReader(header+`Ternsund oil,920,3,none,04044,"per 100 ml: 3330 kJ, fat 90 g, carbohydrate 0 g, protein 0 g"`+"\n"))
	if err != nil {
		t.Fatal(err)
	}
	f := changes.Added[0]
	if fat := f.Per100g[nutrients.Fat]; math.Abs(fat-90/density) > 0.05 {
		t.Errorf("%g g of fat, want %g", fat, 90/density)
	}
	if !slices.ContainsFunc(changes.Notes, func(n string) bool {
		return strings.HasPrefix(n, "Ternsund oil: 1 L is taken to weigh 0.91 kg, as ")
	}) {
		t.Errorf("notes %q", changes.Notes)
	}
	for label, want := range map[string]string{
		"per 100 ml: 500 kJ, fat 1 g, carbohydrate 1 g, protein 26 g": "figures by volume, and the table does not know what a litre of it weighs",
		"per 100 g: 500 kJ, fat 1 g, carbohydrate 1 g":                "protein is not on it",
		"per 100 g: 500 kJ, carbohydrate 1 g, protein 26 g":           "fat is not on it",
		"per 100 g: 500 kJ, fat 1 g, protein 26 g":                    "carbohydrate is not on it",
		"per 100 g: fat 1 g, carbohydrate 1 g, protein 26 g":          "energy is not on it",
	} {
		_, err := load(t).ReadFoods("own.csv", strings.NewReader(header+"Ternsund tuna,150,3,fish,15121,\""+label+"\"\n"))
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %s", label, err, want)
		}
	}
}

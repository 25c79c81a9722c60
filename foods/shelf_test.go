package foods

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"rationwright/foods/shelflist"
)

// What people write is taken for the packs of the table where it has the size, else
// for one of their own; and what a plan carries is read the same again.
func TestShelfList(t *testing.T) {
	tab := load(t)
	s, err := tab.ReadStock("shelf.txt", strings.NewReader("\ufeff# the cupboard\r\n\r\n- 6 tins of sardines, 150 g\r\n2 x rice 1kg, best before 2027-03\r\nhalf a 1 kg bag of oats\r\n4 x 5 l water\r\n"))
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Lines) != 3 || s.WaterL == nil || *s.WaterL != 20 || len(s.Taken) != 4 {
		t.Fatalf("%+v", s)
	}
	sardines, rice, oats := s.Lines[0], s.Lines[1], s.Lines[2]
	if rice.Pack.Key != "white-rice-1000g-bag" || rice.Count != 2 || rice.BestBefore != "2027-03-31" || rice.Pack.Own {
		t.Errorf("rice %+v", rice)
	}
	p := sardines.Pack
	near, err := tab.Pack("sardines-oil-120g-can")
	if err != nil {
		t.Fatal(err)
	}
	// Another size than the table's: the drained share and the box in proportion to the
	// nearest can, the tare by the two-thirds power.
	scale := 150 / near.LabelG
	if !p.Own || p.HasPrice || p.LabelG != 150 || math.Abs(p.NetG-near.NetG*scale) > 1e-9 || math.Abs(p.VolumeL-near.VolumeL*scale) > 1e-9 ||
		math.Abs(p.TareG-near.TareG*math.Pow(scale, 2.0/3)) > 0.5 || p.GrossG != p.LabelG+p.TareG || sardines.Count != 6 {
		t.Errorf("sardines %+v of %+v", p, near)
	}
	if full, err := tab.Pack("rolled-oats-1000g-bag"); err != nil || oats.Pack.NetG != full.NetG/2 || oats.Pack.VolumeL != full.VolumeL || oats.Pack.GrossG != 500+full.TareG {
		t.Errorf("oats %+v, %v", oats.Pack, err)
	}
	if !strings.Contains(s.Taken[0], `"sardines in tomato sauce, drained"`) {
		t.Errorf("not said what else sardines are: %s", s.Taken[0])
	}
	for _, l := range s.Lines {
		if l.Pack.Own && slices.Contains(tab.Packs, l.Pack) {
			t.Errorf("%s can be bought", l.Pack.Key)
		}
	}
	again, err := load(t).ReadStock("plan", FromRows(s.Rows))
	if err != nil || len(again.Lines) != 3 || again.Lines[0].Pack.Key != p.Key || again.Lines[0].Pack.VolumeL != p.VolumeL || again.Lines[1].BestBefore != "2027-03-31" || *again.WaterL != 20 {
		t.Errorf("read from its rows it is %+v, %v", again, err)
	}
}

// The container narrows what a word can mean.
func TestContainerNarrows(t *testing.T) {
	tab := load(t)
	s, err := tab.ReadStock("stock.csv", strings.NewReader("pack,count\n\"tins of chickpeas, 400 g\",2\n\"bag of chickpeas, 500 g\",1\nwhite-rice-1000g-bag,1\n"))
	if err != nil {
		t.Fatal(err)
	}
	if a, b := s.Lines[0], s.Lines[1]; a.Pack.Food.NDB != "16359" || a.Count != 2 || b.Pack.Food.NDB != "16056" || b.Count != 1 || len(s.Lines) != 3 {
		t.Errorf("%+v, %+v", a, b)
	}
}

// What is left of an open pack is that part of what is eaten of it and of what its label says,
// in the whole container: of a 400 g can with 231 g of chickpeas and 51 g of tin (packs.csv) a
// half is 115.5 g in 200 g, 251 g with its tin.
func TestPartOfAPack(t *testing.T) {
	tab := load(t)
	read := func(line string) *Pack {
		t.Helper()
		s, err := tab.ReadStock("shelf.txt", strings.NewReader("# a list\n"+line+"\n"))
		if err != nil || len(s.Lines) != 1 {
			t.Fatalf("%s: %+v, %v", line, s, err)
		}
		if want := fmt.Sprintf("%.0f g eaten of each", s.Lines[0].Pack.NetG); !strings.Contains(s.Taken[0], want) {
			t.Errorf("%s: %s, want %s", line, s.Taken[0], want)
		}
		return s.Lines[0].Pack
	}
	for _, full := range []string{
		"400 g tin of chickpeas", "tin of chickpeas, 500 g", "231 g drained tin of chickpeas", "120 g tin of sardines", "1 kg bag of white rice", "454 g jar of honey",
	} {
		whole := read(full)
		for said, part := range map[string]float64{"half a ": 0.5, "a quarter of a ": 0.25, "three quarters of a ": 0.75, "a third of a ": 1.0 / 3} {
			left := read(said + full)
			if math.Abs(left.NetG-part*whole.NetG) > 1e-9 || math.Abs(left.LabelG-part*whole.LabelG) > 1e-9 || left.TareG != whole.TareG ||
				math.Abs(left.GrossG-part*whole.LabelG-whole.TareG) > 1e-9 || left.VolumeL != whole.VolumeL || !left.Own || left.HasPrice || left.Price != 0 {
				t.Errorf("%s%s: %+v of %+v", said, full, left, whole)
			}
		}
	}
	if left := read("half a 400 g tin of chickpeas"); left.NetG != 115.5 || left.LabelG != 200 || left.GrossG != 251 {
		t.Errorf("half a can of chickpeas: %g g eaten of %g g, %g g gross, want 115.5 of 200, 251", left.NetG, left.LabelG, left.GrossG)
	}
}

// A count beside a line in people's words multiplies what the line says, of packs, of water
// by its litres and of fuel by its pieces; a line that says its own count takes no other.
func TestCountBesideALine(t *testing.T) {
	const none = -1
	for _, c := range []struct {
		line, count string
		packs       float64 // none: not food
		litres      float64 // none: not water
		pieces      float64 // of the line itself
	}{
		{"5 l of water", "3", none, 15, 15}, // 3 × 5
		{"5 l of water", "1", none, 5, 5},
		{"5 l of water", "", none, 5, 5},
		{"500 ml water-bottled", "6", none, 3, 3},         // 6 × 0.5; water-bottled
		{"half a 5 l bottle of water", "4", none, 10, 10}, // 4 × 2.5
		{"4 x 5 l water", "", none, 20, 20},
		{"butane cartridge", "7", none, none, 7},
		{"butane cartridge", "", none, none, 1},
		{"3 x butane cartridge", "", none, none, 3},
		{"white rice 1 kg", "4", 4, none, none},
		{"white rice 1 kg", "", 1, none, none},
	} {
		name := c.line + " × " + c.count
		s, err := load(t).ReadStock("stock.csv", strings.NewReader("pack,count\n\""+c.line+"\","+c.count+"\n"))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if c.packs != none {
			if len(s.Lines) != 1 || s.Lines[0].Count != c.packs || len(s.Goods) != 0 {
				t.Errorf("%s: %+v, want %g packs", name, s.Lines, c.packs)
			}
			continue
		}
		if len(s.Goods) != 1 || len(s.Lines) != 0 || math.Abs(s.Goods[0].Count-c.pieces) > 1e-9 || !strings.Contains(s.Taken[0], fmt.Sprintf("taken for %g ", c.pieces)) {
			t.Errorf("%s: %+v, %q, want %g", name, s.Goods, s.Taken, c.pieces)
		}
		if c.litres == none != (s.WaterL == nil) || s.WaterL != nil && math.Abs(*s.WaterL-c.litres) > 1e-9 {
			t.Errorf("%s: water %v, want %g L", name, s.WaterL, c.litres)
		}
	}
	for _, line := range []string{"4 x 5 l water", "3 x butane cartridge", "2 x rice 1 kg"} {
		if _, err := load(t).ReadStock("stock.csv", strings.NewReader("pack,count\n"+line+",2\n")); err == nil || !strings.Contains(err.Error(), "the line says a count too") {
			t.Errorf("%s with a count of 2: %v", line, err)
		}
	}
}

// What is ambiguous is refused with the choices, all lines at once, where they stand.
func TestShelfFaults(t *testing.T) {
	_, err := load(t).ReadStock("shelf.txt", strings.NewReader("5 tins of baked beans 415 g\n2 x rice 1kg\n  bags of rice\n3 boxes of unicorn, 1 kg\nrice 1 kg, best before 03/04/2027\n4 bottles of water\n"))
	if err == nil {
		t.Fatal("no fault")
	}
	got := strings.Split(err.Error(), "\n")
	want := []string{
		`shelf.txt:1:1: pack "5 tins of baked beans 415 g": "baked beans" could mean "baked beans, canned, vegetarian", "baked beans with pork`,
		`shelf.txt:3:3: pack "bags of rice": not said how much is in a pack of white rice, long grain, enriched; shops sell 500 g, 1000 g`,
		`shelf.txt:4:1: pack "3 boxes of unicorn, 1 kg": no food or kind is called "unicorn"`,
		`shelf.txt:5:1: pack "rice 1 kg, best before 03/04/2027": not clear: the date`,
		`shelf.txt:6:1: pack "4 bottles of water": not said how many litres; write the litres`,
	}
	if len(got) != len(want) {
		t.Fatalf("%d faults, want %d:\n%v", len(got), len(want), err)
	}
	for i := range want {
		if !strings.HasPrefix(got[i], want[i]) {
			t.Errorf("got  %s\nwant %s…", got[i], want[i])
		}
	}
}

// A plain form never stands for a food that someone must leave who may eat it: none of
// the table's holds an allergen or bears a mark that the plain form does not. Nor is it
// itself one of which less may be eaten than of another that the word could mean: tuna alone
// is light tuna, since albacore holds more mercury (EPA and FDA, Advice about Eating Fish).
func TestUsualFoods(t *testing.T) {
	tab := load(t)
	all, err := usualFoods()
	if err != nil || len(all) == 0 {
		t.Fatal(err)
	}
	for kind, ndb := range all {
		m, err := tab.Resolve(kind)
		if err != nil || m.Kind == nil || m.Kind.Name != kind {
			t.Errorf("%q is no kind: %v", kind, err)
			continue
		}
		if !slices.ContainsFunc(m.Foods, func(f *Food) bool { return f.NDB == ndb }) {
			t.Errorf("%s is no food of %s", ndb, kind)
		}
	}
	for kind, ndb := range all {
		usual := food(t, tab, ndb)
		for _, word := range []string{
			"no salt", "low sodium", "reduced sodium", "fortified", "decaffeinated", "gluten-free", "whole grain", "whole wheat", "fat-free",
			"brown", "parboiled", "instant", "crushed", "cream style", "sauce", "mix", "rice flour", "masa", "cornmeal",
		} {
			plain := slices.ContainsFunc(tab.ofKind(kind), func(f *Food) bool { return !strings.Contains(f.Name, word) })
			if plain && strings.Contains(usual.Name, word) {
				t.Errorf("%s alone stands for %s, which is not the plain form", kind, usual.Name)
			}
		}
		for _, other := range tab.ofKind(kind) {
			for _, r := range tab.caps.Rows {
				if r.Safety && slices.Contains(usual.Kinds, r.Kind) && !slices.Contains(other.Kinds, r.Kind) {
					t.Errorf("%s alone stands for %s, which is held to %s of %s for safety; %s is not", kind, usual.Name, r.Measure, r.Kind, other.Name)
				}
			}
			if other.Mercury == "best" && usual.Mercury != "best" {
				t.Errorf("%s alone stands for %s, of which the EPA and FDA's list says %q; %s is a best choice", kind, usual.Name, usual.Mercury, other.Name)
			}
		}
	}
	bread := food(t, tab, "20044")
	wheaty := *bread
	wheaty.NDB, wheaty.Allergens = "U001", []string{"wheat"}
	if usualOf("rice", []*Food{bread}) != bread || usualOf("rice", []*Food{bread, &wheaty}) != nil {
		t.Error("rice is taken for white rice though another rice holds wheat")
	}
}

// FuzzShelfList: whatever the list, it is read or refused; what is read is packs of
// sound weights that read back the same from the rows of a plan.
func FuzzShelfList(f *testing.F) {
	for _, seed := range []string{"6 tins of sardines, 120 g\n2 x rice 1kg", "½ bag of oats 1 kg bb 2027-03", "food\nrice 1 kg", "#\n\tjar of honey 454 g", "4 x 5 l water\nwater 3 l", "pack,count\n2 x rice 1 kg,", "\"rice 1 kg\""} {
		f.Add(seed)
	}
	tab, err := Load()
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := tab.ReadStock("shelf.txt", strings.NewReader(text))
		if err != nil {
			return
		}
		for _, l := range s.Lines {
			p := l.Pack
			if !(p.NetG > 0 && p.NetG <= p.LabelG+0.6 && p.GrossG >= p.LabelG && p.VolumeL > 0) || l.Count < 0 {
				t.Fatalf("%+v", p)
			}
		}
		back, err := tab.ReadStock("plan", FromRows(s.Rows))
		if err != nil || len(back.Lines) != len(s.Lines) {
			t.Fatalf("read from its rows it is %+v, %v", back, err)
		}
	})
}

// Which pack a line means, by hand: that of the table within 1 % of the size on the label or
// drained, a liquid by its litres, else one of its own; without a size the only one that
// shops sell, or it is asked. The fish has 0.4 of its cans drained; oil weighs 0.92 g/mL.
func TestPackOfALine(t *testing.T) {
	fish := &Food{NDB: "1", Name: "fish", Form: "fish"}
	oil := &Food{NDB: "2", Name: "oil", Form: "oil"}
	juice := &Food{NDB: "3", Name: "juice", Form: "juice"}
	jam := &Food{NDB: "4", Name: "jam", Form: "jam"}
	tab := &Table{Foods: []*Food{fish, oil, juice, jam}, density: map[string]float64{"oil": 0.92}}
	pack := func(key string, f *Food, label, net float64, sold bool) *Pack {
		p := &Pack{Key: key, Food: f, LabelG: label, NetG: net, TareG: 10, VolumeL: label / 500}
		tab.Packs = append(tab.Packs, p)
		if sold {
			f.Packs = append(f.Packs, p)
		}
		return p
	}
	large := pack("fish-400g-can", fish, 400, 160, true)
	small := pack("fish-120g-can", fish, 120, 48, true)
	pack("fish-113g-can", fish, 113, 45, false)
	peas := &Food{NDB: "5", Name: "peas", Form: "peas"}
	pack("peas-125g-can", peas, 125, 60, true)
	pack("peas-120g-can", peas, 120, 119, true)
	litre := pack("oil-1l-bottle", oil, 920, 920, true)
	carton := pack("juice-1l-carton", juice, 1050, 1050, true)
	foreign := pack("jam-340g-jar", jam, 340, 340, false)
	for _, test := range []struct {
		name string
		f    *Food
		item shelflist.Item
		want *Pack   // of the table, else nil
		g    float64 // on the label of one's own, or 0
		says string  // of the fault
	}{
		{"its size", fish, shelflist.Item{Size: 400, Unit: "g"}, large, 0, ""},
		{"1 % more", fish, shelflist.Item{Size: 404, Unit: "g"}, large, 0, ""},
		{"1 % less", fish, shelflist.Item{Size: 396.1, Unit: "g"}, large, 0, ""},
		{"more than 1 % more", fish, shelflist.Item{Size: 404.5, Unit: "g"}, nil, 404.5, ""},
		{"more than 1 % less", fish, shelflist.Item{Size: 396, Unit: "g"}, nil, 396, ""},
		{"drained", fish, shelflist.Item{Size: 48, Unit: "g", Drained: true}, small, 0, ""},
		{"drained, of no pack: 100 of 250 g", fish, shelflist.Item{Size: 100, Unit: "g", Drained: true}, nil, 250, ""},
		{"a litre of oil", oil, shelflist.Item{Size: 1000, Unit: "mL"}, litre, 0, ""},
		{"half a litre of oil", oil, shelflist.Item{Size: 500, Unit: "mL"}, nil, 460, ""},
		{"a litre of juice, of unknown weight", juice, shelflist.Item{Size: 1000, Unit: "mL"}, carton, 0, ""},
		{"as dense as wet food may be", juice, shelflist.Item{Size: 937.5, Unit: "mL"}, carton, 0, ""},
		{"denser than that", juice, shelflist.Item{Size: 937, Unit: "mL"}, nil, 0, "what a litre of juice weighs is not in the table"},
		{"as light as water", juice, shelflist.Item{Size: 1050, Unit: "mL"}, carton, 0, ""},
		{"lighter", juice, shelflist.Item{Size: 1051, Unit: "mL"}, nil, 0, "what a litre of juice weighs"},
		{"no size, one sold", oil, shelflist.Item{}, litre, 0, ""},
		{"no size, one of another market", jam, shelflist.Item{}, foreign, 0, ""},
		{"no size, two sold", fish, shelflist.Item{}, nil, 0, "not said how much is in a pack of fish; shops sell 120 g, 400 g"},
		{"no size, sizes as on the label", peas, shelflist.Item{}, nil, 0, "in a pack of peas; shops sell 120 g, 125 g"},
		{"no size and no pack", &Food{Name: "wine"}, shelflist.Item{}, nil, 0, "not said how much is in a pack of wine; write the grams of one pack"},
	} {
		p, err := (&shelfItem{Item: test.item}).packOf(tab, test.f)
		switch {
		case test.says != "":
			if err == nil || !strings.Contains(err.Error(), test.says) {
				t.Errorf("%s: %+v, %v, want %q", test.name, p, err, test.says)
			}
		case err != nil || test.want != nil && p != test.want:
			t.Errorf("%s: %+v, %v, want %+v", test.name, p, err, test.want)
		case test.want == nil && (!p.Own || math.Abs(p.LabelG-test.g) > 1e-9):
			t.Errorf("%s: %+v, want %g g of one's own", test.name, p, test.g)
		}
	}
	left := partOfPack(&Pack{Key: "fish-400g-can-own", Food: fish, LabelG: 400, NetG: 160, TareG: 50, GrossG: 450, VolumeL: 0.5, Price: 3, HasPrice: true, Note: "ours"}, 0.25)
	if want := (Pack{Key: "fish-400g-can-100g-left-own", Food: fish, LabelG: 100, NetG: 40, TareG: 50, GrossG: 150, VolumeL: 0.5, Own: true, Note: "what is left of an open pack; ours"}); *left != want {
		t.Errorf("a quarter left: %+v, want %+v", *left, want)
	}
	if left := partOfPack(small, 0.5); left.Key != "fish-120g-can-60g-left-own" || left.Note != "what is left of an open pack; of fish-120g-can" || small.LabelG != 120 {
		t.Errorf("half left: %+v of %+v", left, small)
	}
}

// What a line of goods measures: litres of water by the size, the rest by the piece.
func TestGoodsOfALine(t *testing.T) {
	water, cells := &Supply{Key: "water", What: "water", Unit: "L"}, &Supply{Key: "batteries", What: "batteries", Unit: "piece"}
	for _, test := range []struct {
		s      *Supply
		item   shelflist.Item
		amount float64
		says   string
	}{
		{water, shelflist.Item{Count: 4, Part: 1, Size: 5000, Unit: "mL"}, 20, ""},
		{water, shelflist.Item{Count: 1, Part: 0.5, Size: 5000, Unit: "mL"}, 2.5, ""},
		{water, shelflist.Item{Count: 1, Part: 1, Size: 5000, Unit: "g"}, 0, "not said how many litres"},
		{water, shelflist.Item{Count: 3, Part: 1}, 0, "not said how many litres"},
		{cells, shelflist.Item{Count: 12, Part: 1}, 12, ""},
		{cells, shelflist.Item{Count: 12, Part: 1, Size: 20, Unit: "g"}, 0, "batteries is counted in piece"},
	} {
		it := &shelfItem{Item: test.item, supply: test.s}
		err := it.goods()
		if test.says == "" && (err != nil || it.amount != test.amount) || test.says != "" && (err == nil || !strings.Contains(err.Error(), test.says)) {
			t.Errorf("%+v of %s: %g, %v, want %g, %q", test.item, test.s.Key, it.amount, err, test.amount, test.says)
		}
	}
}

// What is said of a line: what else it could be, and the allergens to look for on the label.
func TestWordsOfALine(t *testing.T) {
	p := &Pack{Key: "oats-500g-bag", Food: &Food{Name: "rolled oats"}, NetG: 499.6}
	it := &shelfItem{Item: shelflist.Item{Count: 3}, pack: p}
	const said = `"oats" is taken for 3 × oats-500g-bag: rolled oats, 500 g eaten of each`
	if got := it.said("oats"); got != said {
		t.Errorf("%s", got)
	}
	it.other, it.traces = []string{"oat bran", "oat flakes"}, []string{"wheat"}
	if got := it.said("oats"); got != said+`; it could also be "oat bran" or "oat flakes"; look at the label for wheat` {
		t.Errorf("%s", got)
	}
	it.traces = []string{"wheat", "soy"}
	if got := it.said("oats"); !strings.HasSuffix(got, "; look at the label for wheat and soy") {
		t.Errorf("%s", got)
	}
	goods := &shelfItem{supply: &Supply{What: "stored water", Unit: "L"}, amount: 2.5}
	if got := goods.said("half a bottle"); got != `"half a bottle" is taken for 2.5 L of stored water` {
		t.Errorf("%s", got)
	}
}

// The plain form stands for a word where no other food that it could mean holds an allergen
// or bears a mark that keeps it from someone which the plain one does not; traces of the
// others are looked for, each once.
func TestUsualOf(t *testing.T) {
	plain := func() *Food {
		return &Food{NDB: "20044", Allergens: []string{"soy"}, Tags: []string{"animal", "tasty"}}
	}
	for _, test := range []struct {
		name  string
		other Food
		want  bool
	}{
		{"alike", Food{NDB: "1"}, true},
		{"an allergen of both", Food{NDB: "1", Allergens: []string{"soy"}}, true},
		{"another allergen", Food{NDB: "1", Allergens: []string{"soy", "milk"}}, false},
		{"a trace", Food{NDB: "1", MayContain: []string{"milk"}}, true},
		{"a mark of both", Food{NDB: "1", Tags: []string{"animal"}}, true},
		{"another mark", Food{NDB: "1", Tags: []string{"gluten"}}, false},
		{"a mark that keeps it from nobody", Food{NDB: "1", Tags: []string{"low-gi"}}, true},
	} {
		f := plain()
		for _, among := range [][]*Food{{f, &test.other}, {&test.other, f}} {
			if got := usualOf("rice", among); (got == f) != test.want || got != nil && got != f {
				t.Errorf("%s: %v, want it to stand for rice: %v", test.name, got, test.want)
			}
			if got := usualOf("nothing of the table", among); got != nil {
				t.Errorf("%s: %v stands for what has no plain form", test.name, got)
			}
		}
	}
	if got := usualOf("rice", []*Food{{NDB: "1"}}); got != nil {
		t.Errorf("%v stands for rice", got)
	}
	f := plain()
	f.MayContain = []string{"egg"}
	got := tracesBeyond(f, []*Food{f, {MayContain: []string{"egg", "soy", "milk"}}, {MayContain: []string{"milk", "wheat"}}, {Allergens: []string{"fish"}}})
	if !slices.Equal(got, []string{"milk", "wheat"}) {
		t.Errorf("traces %v, want milk and wheat", got)
	}
}

// A line that says its own date or count takes no other beside it, one that does not takes
// it; a place and a day of opening stand beside it too.
func TestCellsBesideALine(t *testing.T) {
	const header = "pack,count,best_before,place,opened\n"
	for cells, want := range map[string]string{
		"\"white rice 1 kg, best before 2027-03\",1,2027-01-01,,": "the line says a date too",
		"\"2 x white rice 1 kg\",1,,,":                            "the line says a count too",
		"white rice 1 kg,1.5,,,":                                  "it is not whole",
		"white rice 1 kg,x,,,":                                    `count "x"`,
		"white rice 1 kg,1,2027-13-01,,":                          `best_before "2027-13-01"`,
	} {
		if _, err := load(t).ReadStock("stock.csv", strings.NewReader(header+cells+"\n")); err == nil || !strings.Contains(err.Error(), want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v, want %s", cells, err, want)
		}
	}
	s, err := load(t).ReadStock("stock.csv", strings.NewReader(header+"white rice 1 kg,3,2027-01-01,attic,2026-01-02\n\"white rice 1 kg, best before 2027-03\",2,,,\nwater 5 l,2,2027-02-01,cellar,\n"))
	if err != nil || len(s.Lines) != 2 || len(s.Goods) != 1 {
		t.Fatalf("%+v, %v", s, err)
	}
	a, b, water := s.Lines[0], s.Lines[1], s.Goods[0]
	if a.Count != 3 || a.BestBefore != "2027-01-01" || a.Place != "attic" || a.Opened != "2026-01-02" || b.Count != 2 || b.BestBefore != "2027-03-31" ||
		water.Count != 10 || water.BestBefore != "2027-02-01" || water.Place != "cellar" || a.Taken != s.Taken[0] || len(s.Taken) != 3 {
		t.Errorf("%+v, %+v, %+v", a, b, water)
	}
}

// A container leaves so few of what a word means that the plain form of what is left stands
// for it (usual.csv): of sweeteners only sugars are sold in bags. What makers of the others
// may put in beyond the plain form is looked for on the label (may_contain of foods.csv).
func TestWhatAContainerLeaves(t *testing.T) {
	tab := load(t)
	if m, err := tab.Resolve("sweeteners"); err != nil || usualOf("sweeteners", m.Foods) != nil {
		t.Fatalf("sweeteners have a plain form: %+v, %v", m, err)
	}
	it, err := onShelf(tab, "1 kg bag of sweeteners")
	if err != nil || it.pack.Food.Name != "sugar, white" || !slices.Equal(it.other, []string{"sugar, brown"}) || it.traces != nil {
		t.Errorf("a bag of sweeteners: %+v, %v, want white sugar, or brown", it, err)
	}
	written := map[string]map[string]string{}
	for _, row := range readCSV(t, "data/foods.csv") {
		written[row["name"]] = row
	}
	it, err = onShelf(tab, "120 g tin of sardines")
	if err != nil || it.pack.Food.Name != "sardines in oil, drained" || !slices.Equal(it.other, []string{"sardines in tomato sauce, drained"}) ||
		len(it.traces) == 0 {
		t.Fatalf("sardines: %+v, %v, want those in oil, and what to look for", it, err)
	}
	plain, other := written[it.pack.Food.Name], written[it.other[0]]
	for a := range strings.SplitSeq(other["may_contain"], ";") {
		known := strings.Contains(plain["allergens"]+";"+plain["may_contain"], a)
		if slices.Contains(it.traces, a) == known {
			t.Errorf("sardines: to look for %v, those in tomato sauce may hold %s, those in oil %s", it.traces, other["may_contain"], plain["allergens"])
		}
	}
}

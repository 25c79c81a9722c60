package report

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods"
	"rationwright/nutrients"
)

// fish is a food made up for these tests, each of its figures another one; of its
// composition energy, protein and iron are known.
func fish() *foods.Food {
	f := &foods.Food{
		NDB: "15001", Name: "ling, canned", Description: "Ling, canned in brine", Group: "canned fish", Form: "canned-fish", Basis: "drained",
		Per100g: nutrients.Unknown(), Allergens: []string{"fish", "soy"}, MayContain: []string{"milk"}, Tags: []string{"salty", "high-k"}, Texture: "soft", Mercury: "good",
		GI: 12.4, GIClass: "low", Companions: []string{"grains", "rice"}, OccasionG: 140.4, DayG: 210, Serves: []foods.Serving{{Group: "protein", Per100g: 3.527}, {Group: "oils", Per100g: 0.5}},
		AddedRule: "none is added", CapSource: "survey", Note: "bones are soft", Source: "USDA", Verified: "from memory", Kinds: []string{"ling", "white fish"},
		Keeping:     &foods.Keeping{UseByMonths: 36, AfterOpenHours: 36.5, AfterOpenBasis: "safety", LabelDateBinds: true, MaxStorageC: 30, Source: "K", Verified: "from memory"},
		Preparation: &foods.Preparation{Class: "warm", ColdOK: true, WaterML: 50, EatenML: 20, SimmerMin: 7, HeatMJ: 0.0256, Source: "P", Verified: "from memory"},
	}
	f.Per100g[nutrients.Energy], f.Per100g[nutrients.Protein], f.Per100g[nutrients.Iron] = 110, 24.27, 0
	f.Packs = []*foods.Pack{
		{Key: "ling-200g-can", Food: f, Container: "can_200", LabelG: 200, NetG: 140, TareG: 41, GrossG: 241, VolumeL: 0.316, Price: 2.5, HasPrice: true, Currency: "TSD", Invented: true, Basis: "drained of label", Source: "maker", Verified: "from memory"},
		{Key: "ling-1600g-can", Food: f, Container: "can_1600", LabelG: 1600, NetG: 1100, TareG: 190, GrossG: 1790, VolumeL: 2, Basis: "drained", EasyOpen: true, Own: true, Source: "maker"},
	}
	return f
}

// gruel is a food that no table has, without packs, limits or marks.
func gruel() *foods.Food {
	return &foods.Food{NDB: "gruel", Computed: true, Name: "gruel", Description: "gruel", Group: "cereal", Basis: "dry", Source: "S"}
}

// TestFoodListByHand: group by group, a food named once whatever its packs, one without a
// pack listed all the same; a price is shown where there is one, and that it is invented is
// said where one shown is.
func TestFoodListByHand(t *testing.T) {
	list := []*foods.Food{gruel(), fish()}
	sec := FoodList(list, []string{"canned fish", "cereal"}, sheet.Metric).Sections[0]
	lines(t, "the list", barred(sec.Table),
		"canned fish: ling, canned|15001|ling-200g-can|140 g|2.50|fish; soy", "canned fish: ||ling-1600g-can|1.10 kg||", "cereal: gruel|||||")
	if len(sec.Notes) != 2 || !strings.Contains(sec.Notes[0], "invented") || !strings.Contains(sec.Notes[1], "the label rules") {
		t.Errorf("the notes are %q", sec.Notes)
	}
	list[1].Packs[0].Invented, list[1].Packs[1].Invented = false, true // of a pack without a price
	if notes := FoodList(list, []string{"canned fish"}, sheet.Metric).Sections[0].Notes; len(notes) != 1 {
		t.Errorf("no price shown is invented, and the notes are %q", notes)
	}
	lines(t, "the facts", filled(t, FoodListCSV([]*foods.Food{gruel(), fish()})),
		"ling, canned ndb=15001 group=canned fish pack=ling-200g-can net_g=140 price=2.5 allergens=fish;soy kinds=ling;white fish currency=TSD price_invented=true label_g=200 gross_g=241 volume_l=0.316 container=can_200 form=canned-fish basis=drained texture=soft",
		"ling, canned ndb=15001 group=canned fish pack=ling-1600g-can net_g=1100 allergens=fish;soy kinds=ling;white fish label_g=1600 gross_g=1790 volume_l=2 container=can_1600 form=canned-fish basis=drained texture=soft")
}

// TestFoodByHand: all that is known of a food, each figure in its place and unit; what is
// not known, or does not hold, is not said.
func TestFoodByHand(t *testing.T) {
	sections := map[string]sheet.Section{}
	for _, sec := range Food(fish(), sheet.Metric).Sections {
		sections[sec.Title] = sec
	}
	lines(t, "what it is", sections["ling, canned, NDB 15001"].Lead,
		"Ling, canned in brine.", "Shop group: canned fish. All figures are for 100 g drained.", "Kinds: ling, white fish.", "Allergens: fish, soy.", "Some makers' packs also hold: milk.", "Texture: soft.",
		"Mercury class of the fish: good.", "Eaten only with: grains, rice.", "Marks that decide who may eat it: salty, high-k.", "Glycaemic index 12 (low).",
		"Counts 3.53 towards protein.", "Counts 0.50 towards oils.", "An adult eats at most 140 g at a time and 210 g a day (survey).", "Bones are soft.")
	table := barred(sections["Composition"].Table)
	has(t, "the composition", strings.Join(table, "\n"), []string{"energy|110|kcal", "protein|24.27|g", "iron|0|mg", "vitamin B12|unknown|µg"})
	if len(table) != int(nutrients.Count) {
		t.Errorf("%d rows of composition, want one each of %d", len(table), nutrients.Count)
	}
	if notes := sections["Composition"].Notes; len(notes) != 2 || !strings.HasPrefix(notes[0], "Unknown is not zero") || notes[1] != "Added sugars: none is added." {
		t.Errorf("the notes of the composition are %q", notes)
	}
	lines(t, "the packs", barred(sections["Packs"].Table), "ling-200g-can|200 g|140 g|241 g|0.32 L|2.50 TSD (invented)|drained of label", "ling-1600g-can|1.60 kg|1.10 kg|1.79 kg|2.00 L||drained")
	lines(t, "keeping", sections["Keeping"].Lead, "Unopened: use within 36 months at 21 °C.", "The date on the label binds.", "Opened, without refrigeration: 36.5 hours (safety).", "Store below 30 °C.")
	lines(t, "preparation", sections["Preparation"].Lead, "Cooking: warm.", "May be eaten cold.", "For 100 g: 50 mL water, of which 20 mL is eaten or drunk.", "Simmers for 7 minutes.", "Takes 0.026 MJ of useful heat for 100 g.")
	lines(t, "the sources", sections["Sources"].Lead, "- Composition (USDA (from memory)).", "- Keeping (K (from memory)).", "- Preparation (P (from memory)).", "- Pack can_200 (maker (from memory)).", "- Pack can_1600 (maker).")

	plain := gruel()
	plain.Keeping, plain.Preparation = &foods.Keeping{}, &foods.Preparation{Class: "none"}
	got := Food(plain, sheet.Metric).Sections
	lines(t, "what gruel is", got[0].Lead, "Gruel.", "Shop group: cereal. All figures are for 100 g dry.", "This is not a USDA row: put the figures of your own label in a file for --foods.")
	if got[0].Title != "gruel" || len(got[1].Notes) != 0 {
		t.Errorf("of a food that no table has, all known: %q, %q", got[0].Title, got[1].Notes)
	}
	lines(t, "keeping of gruel", got[2].Lead, "Unopened: the date on the label rules.")
	lines(t, "preparation of gruel", got[3].Lead, "Cooking: none.")
	plain.Own, plain.Keeping, plain.Preparation = true, nil, nil
	got = Food(plain, sheet.Metric).Sections
	if len(got) != 3 || len(got[0].Lead) != 2 {
		t.Errorf("of the user's own, which says no more: %+v", got)
	}
	plain.Companions, plain.OccasionG, plain.DayG, plain.CapSource, plain.GI, plain.GIClass = []string{"rice"}, 1, 1, "S", 1, "low"
	plain.Keeping, plain.Preparation = &foods.Keeping{UseByMonths: 1, AfterOpenHours: 1, AfterOpenBasis: "quality"}, &foods.Preparation{Class: "boil", WaterML: 1, SimmerMin: 1, HeatMJ: 1}
	got = Food(plain, sheet.Metric).Sections
	lines(t, "little of each", got[0].Lead[2:], "Eaten only with: rice.", "Glycaemic index 1 (low).", "An adult eats at most 1 g at a time and 1 g a day (S).")
	lines(t, "keeping of little", got[2].Lead, "Unopened: use within 1 months at 21 °C.", "Opened, without refrigeration: 1 hours (quality).")
	lines(t, "preparation of little", got[3].Lead, "Cooking: boil.", "For 100 g: 1 mL water, of which 0 mL is eaten or drunk.", "Simmers for 1 minutes.", "Takes 1.000 MJ of useful heat for 100 g.")
	plain.Keeping = &foods.Keeping{MaxStorageC: 1}
	lines(t, "only where", keepingOf(plain).Lead, "Unopened: the date on the label rules.", "Store below 1 °C.")
	for hours, want := range map[float64]string{47.9: "47.9 hours", 48: "2 days", 96: "4 days", 2: "2 hours"} {
		if got := openTime(hours); got != want {
			t.Errorf("%g hours: %q, want %q", hours, got, want)
		}
	}
}

// TestFoodsAsJSON: composition only where it is asked for, what is unknown apart from what
// is zero, a price only where there is one.
func TestFoodsAsJSON(t *testing.T) {
	read := func(v any) (doc struct{ Foods []foodJSON }) {
		t.Helper()
		var out bytes.Buffer
		if err := JSON(&out, v); err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(out.Bytes(), &doc); err != nil {
			t.Fatal(err)
		}
		return doc
	}
	full := read(FoodsJSON([]*foods.Food{fish(), gruel()}, true)).Foods
	if len(full) != 2 || full[0].NDB != "15001" || full[1].NDB != "" || full[0].Source != "USDA (from memory)" || full[0].Description != "Ling, canned in brine" || full[0].Group != "canned fish" {
		t.Fatalf("%+v", full)
	}
	iron, known := full[0].Per100g["iron_mg"]
	if len(full[0].Per100g) != 3 || full[0].Per100g["protein_g"] != 24.27 || !known || iron != 0 || len(full[0].Unknown) != int(nutrients.Count)-3 || len(full[1].Unknown) != 0 {
		t.Errorf("composition %v, unknown %v", full[0].Per100g, full[0].Unknown)
	}
	packs := full[0].Packs
	if len(packs) != 2 || packs[0].Price == nil || *packs[0].Price != 2.5 || packs[0].Currency != "TSD" || !packs[0].Invented || packs[1].Price != nil || packs[1].Currency != "" {
		t.Fatalf("%+v", packs)
	}
	if p := packs[1]; p.Pack != "ling-1600g-can" || p.NetG != 1100 || p.LabelG != 1600 || p.GrossG != 1790 || p.VolumeL != 2 || p.Invented {
		t.Errorf("%+v", p)
	}
	own := fish()
	own.Packs[0].Invented, own.Packs[1].Invented = false, true
	if packs := read(FoodsJSON([]*foods.Food{own}, false)).Foods[0].Packs; packs[0].Price == nil || packs[0].Invented || packs[1].Price != nil || packs[1].Invented {
		t.Errorf("a price that is no invention, and none: %+v", packs)
	}
	if short := read(FoodsJSON([]*foods.Food{fish()}, false)).Foods[0]; short.Per100g != nil || short.Unknown != nil || len(short.Packs) != 2 {
		t.Errorf("composition was not asked for: %+v", short)
	}
	var out bytes.Buffer
	if err := JSON(&out, "Åse & <Knut>"); err != nil || out.String() != "\"Åse & <Knut>\"\n" {
		t.Errorf("%v, %q", err, out.String())
	}
}

// TestOwnPackByHand: what was understood of a pack stands with its figures; of a food of the
// table no more, of the user's own all that it says, what it leaves open named.
func TestOwnPackByHand(t *testing.T) {
	f := fish()
	got := OwnPack(f.Packs[0], nil, []string{"WARNED"}).Sections
	if len(got) != 2 || got[0].Lead[0] != "WARNED" || got[1].Title != "A pack of ling, canned" {
		t.Fatalf("%+v", got)
	}
	lines(t, "a pack of a food of the table", got[1].Lead, "Pack ling-200g-can: 200 g on the label, 140 g of it eaten (drained); with its container 241 g and 0.32 L; price 2.50.")
	f.Own, f.Packs[1].Note = true, "as on the label"
	got = OwnPack(f.Packs[1], []string{"a note"}, nil).Sections
	lines(t, "a pack of the user's own food", got[0].Lead[:3], "Pack ling-1600g-can: 1,600 g on the label, 1,100 g of it eaten (drained); with its container 1,790 g and 2.00 L; no price: it is used from stock, never bought.",
		"As on the label.", "Shop group: canned fish. All figures are for 100 g drained.")
	if got[0].Title != "ling, canned" || len(got[0].Notes) != 1 || len(got) != 4 {
		t.Fatalf("%+v", got)
	}
	lines(t, "its composition", barred(got[1].Table), "energy|110|kcal", "protein|24.3|g", "iron|0|mg")
	if n := len(got[1].Notes); n != 1 || !strings.Contains(got[1].Notes[0], "vitamin B12") || strings.Contains(got[1].Notes[0], "iron") {
		t.Errorf("what is unknown: %q", got[1].Notes)
	}
	for n := range f.Per100g { // one more is unknown, then none
		f.Per100g[n] = 1
	}
	f.Per100g[nutrients.Zinc] = math.NaN()
	if notes := OwnPack(f.Packs[1], nil, nil).Sections[1].Notes; len(notes) != 1 || notes[0] != "Unknown, which is not zero: zinc." {
		t.Errorf("only zinc is unknown: %q", notes)
	}
	f.Per100g[nutrients.Zinc] = 1
	if notes := OwnPack(f.Packs[1], nil, nil).Sections[1].Notes; len(notes) != 0 {
		t.Errorf("all is known: %q", notes)
	}
}

// TestFindingsByHand: the gravest first, each with what it is about, counted by sort.
func TestFindingsByHand(t *testing.T) {
	f := fish()
	table := &foods.Table{Foods: []*foods.Food{f}, Packs: f.Packs}
	found := []foods.Finding{
		{Severity: foods.Info, Food: f, Check: "kcal", Text: "a little off"},
		{Severity: foods.Error, Pack: f.Packs[0], Food: f, Check: "size", Text: "no such can"},
		{Severity: foods.Info, Check: "rows", Text: "one only"},
	}
	got := Findings(table, found).Sections
	if len(got) != 3 || got[1].Title != "Wrong" || got[2].Title != "Worth knowing" {
		t.Fatalf("%+v", got)
	}
	lines(t, "the head", got[0].Lead, "1 food, 2 packs checked: 1 check failed, 0 things to look at, 2 things worth knowing.")
	lines(t, "what is wrong", barred(got[1].Table), "ling-200g-can|size|no such can")
	lines(t, "what is worth knowing", barred(got[2].Table), "15001 ling, canned|kcal|a little off", "the whole table|rows|one only")
	var out bytes.Buffer
	if err := JSON(&out, FindingsJSON(table, found)); err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Foods, Packs int
		Findings     []findingJSON
	}
	if err := json.Unmarshal(out.Bytes(), &doc); err != nil {
		t.Fatal(err)
	}
	want := []findingJSON{
		{Severity: "info", Food: "ling, canned", NDB: "15001", Check: "kcal", Text: "a little off"},
		{Severity: "error", Food: "ling, canned", NDB: "15001", Pack: "ling-200g-can", Check: "size", Text: "no such can"},
		{Severity: "info", Check: "rows", Text: "one only"},
	}
	if doc.Foods != 1 || doc.Packs != 2 || len(doc.Findings) != 3 || doc.Findings[0] != want[0] || doc.Findings[1] != want[1] || doc.Findings[2] != want[2] {
		t.Errorf("%+v", doc)
	}
}

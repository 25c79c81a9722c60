package stores

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
)

func TestGoodsOfStock(t *testing.T) {
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	stock, err := table.ReadStock("stock.csv", strings.NewReader(
		"pack,count,best_before,place\nWater,20.5,2027-02-01,cellar\nbatteries,12,,drawer\nheat,4,,\nbutane-cartridge,2,,\nalcohol,1,,\n"))
	if err != nil {
		t.Fatal(err)
	}
	got := GoodsOfStock(stock.Goods)
	want := []Batch{
		{Renewal: "water-home-filled", Pack: "water", Name: "water you filled yourself", Count: 20.5, Unit: "L", BestBefore: "2027-02-01", Place: "cellar"},
		{Renewal: "batteries", Pack: "batteries", Name: "batteries in lamps and radio", Count: 12, Unit: "piece", Place: "drawer"},
	}
	if !slices.Equal(got, want) {
		t.Errorf("goods %+v, want %+v", got, want)
	}
	if GoodsOfStock(nil) != nil || HeatOfStock(nil) != nil || HeatOfStock(&foods.Stock{}) != nil {
		t.Error("goods or heat from nothing")
	}
	// fuel.csv: butane 10.37 MJ at 0.40, alcohol 21.17 MJ at 0.35.
	if heat := HeatOfStock(stock); heat == nil || !near(*heat, 4+2*10.37*0.40+21.17*0.35) {
		t.Errorf("heat of the stock %v, want the row of heat and the fuels at poor efficiency", heat)
	}
}

// What is renewed is found wherever its line stands, and so is fuel, whatever else is beside it:
// in each order of five lines, of which two are renewed and two are fuels (fuel.csv: butane
// 10.37 MJ at 0.40, alcohol 21.17 MJ at 0.35), and of each part of them.
func TestGoodsInAnyOrder(t *testing.T) {
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	lines := []struct {
		text    string
		renewed string  // the pack of its batch, "" none
		mj      float64 // useful heat
	}{{"water,20", "water", 0}, {"heat,4", "", 4}, {"batteries,12", "batteries", 0}, {"butane-cartridge,2", "", 2 * 10.37 * 0.40}, {"alcohol,1", "", 21.17 * 0.35}}
	var try func(order []int)
	tried := 0
	try = func(order []int) {
		if len(order) > 0 {
			tried++
			text, want, mj := "pack,count\n", []string(nil), 0.0
			for _, i := range order {
				text += lines[i].text + "\n"
				mj += lines[i].mj
				if lines[i].renewed != "" {
					want = append(want, lines[i].renewed)
				}
			}
			stock, err := table.ReadStock("stock.csv", strings.NewReader(text))
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			for _, b := range GoodsOfStock(stock.Goods) {
				got = append(got, b.Pack)
			}
			if !slices.Equal(got, want) {
				t.Errorf("renewed of %q: %q, want %q", text, got, want)
			}
			if heat := HeatOfStock(stock); (heat != nil) != (mj > 0) || heat != nil && !near(*heat, mj) {
				t.Errorf("heat of %q: %v, want %g MJ", text, heat, mj)
			}
		}
		for i := range lines {
			if !slices.Contains(order, i) {
				try(append(slices.Clone(order), i))
			}
		}
	}
	try(nil)
	if tried != 5+20+60+120+120 {
		t.Errorf("%d orders", tried)
	}
}

// What a price or stock file may name besides packs is what this package knows:
// every fuel, every renewal but that of formula, which is packs of food, water
// and heat.
func TestSuppliesAreKnown(t *testing.T) {
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	want := []string{foods.StoredWater, foods.StockHeat}
	want = append(want, StoveNames()...)
	for _, r := range renewals() {
		if r.Key != "formula" {
			want = append(want, r.Key)
		}
	}
	var got []string
	for _, s := range table.Supplies {
		got = append(got, s.Key)
		if _, err := StoveByName(s.Key); (err == nil || s.Key == foods.StoredWater) != s.HasPrice {
			t.Errorf("%s: has a price: %v; water and every fuel have one, nothing else", s.Key, s.HasPrice)
		}
	}
	slices.Sort(want)
	slices.Sort(got)
	if !slices.Equal(got, want) {
		t.Errorf("supplies %v, want %v", got, want)
	}
}

// Every row of kit_renewal.csv names a supply and a renewal, and a kit with
// lamps and a radio has their batteries in one batch.
func TestRenewedKit(t *testing.T) {
	for id, key := range kitRenewals() {
		if _, ok := RenewalByKey(key); !ok || !slices.ContainsFunc(kitItems(), func(k KitItem) bool { return k.ID == id }) {
			t.Errorf("%s, %s: no such supply or renewal", id, key)
		}
	}
	kit := []KitLine{
		{KitItem: KitItem{ID: "K22"}, Quantity: 11}, {KitItem: KitItem{ID: "K01"}, Quantity: 2},
		{KitItem: KitItem{ID: "K25"}, Quantity: 10}, {KitItem: KitItem{ID: "K43", Medicine: true}},
	}
	want := []RenewedGoods{{"batteries", 21}, {"medicine", 1}}
	if got := RenewedKit(kit); !slices.Equal(got, want) {
		t.Errorf("%+v, want %+v", got, want)
	}
}

// CDC: every 6 months; the usual practice: every three, without a source.
func TestRenewalDates(t *testing.T) {
	days, err := RenewalDates("water-home-filled", "2026-12-01", "2028-12-31")
	want := []string{"2027-06-01", "2027-11-30", "2028-05-30", "2028-11-28"} // every 182 days
	if err != nil || !slices.Equal(days, want) {
		t.Errorf("home-filled: %v, %v; want %v", days, err, want)
	}
	if days, err := RenewalDates("water-allowance", "2026-12-01", "2027-12-01"); err != nil || len(days) != 4 || days[0] != "2027-03-02" {
		t.Errorf("allowance: %v, %v; want four, the first after 91 days", days, err)
	}
	if days, err := RenewalDates("water-bottled", "2026-12-01", "2030-12-01"); err != nil || days != nil {
		t.Errorf("bottled: %v, %v; want none, the label rules", days, err)
	}
	if _, err := RenewalDates("water-home-filled", "x", "2030-12-01"); !errors.Is(err, ErrDay) {
		t.Errorf("bad day: %v", err)
	}
	if _, err := RenewalDates("wine", "2026-12-01", "2030-12-01"); err == nil || !strings.Contains(err.Error(), "bleach") {
		t.Errorf("wine: %v, want the keys", err)
	}
}

func TestItemsAndStock(t *testing.T) {
	beans := &foods.Pack{Key: "beans", Price: 2, HasPrice: true, Food: &foods.Food{Name: "beans", Form: "canned_beans", Keeping: &foods.Keeping{UseByMonths: 24}}}
	item := ItemOf(beans, 28, 14)
	if item.Target != 28 || item.KeepMonths != 24 || !near(item.EatPerMonth, 2*DaysPerMonth) || item.Price != 2 || item.Name != "beans" {
		t.Errorf("item %+v", item)
	}
	formula := &foods.Pack{Key: "f", Food: &foods.Food{Form: "infant_formula_powder", Keeping: &foods.Keeping{UseByMonths: 12}}}
	if item := ItemOf(formula, 3, 14); item.KeepMonths != 0 {
		t.Errorf("formula keeps %g months by a table; its printed date rules", item.KeepMonths)
	}
	dated, undated, err := StockOf([]Batch{
		{Pack: "beans", Count: 3, BestBefore: "2028-01-01"}, {Pack: "beans", Count: 2, BestBefore: "2027-01-01"},
		{Pack: "beans", Count: 4}, {Pack: "beans", Count: 1, BestBefore: "2028-01-01", Opened: "2026-11-30"},
	}, "2026-12-01", 21)
	if err != nil || undated != 4 || len(dated) != 2 || dated[0].Count != 2 || isoDay(dated[1].UseBy) != "2028-01-01" {
		t.Errorf("stock %+v, %d undated, %v", dated, undated, err)
	}
	if _, _, err := StockOf(nil, "x", 21); !errors.Is(err, ErrDay) {
		t.Errorf("bad start: %v", err)
	}
}

func TestSpaceOf(t *testing.T) {
	can, ok := ContainerByKey("can_water_20") // 345 × 165 × 465 mm, 21.2 kg
	if !ok {
		t.Fatal("no can of 20 L")
	}
	s := SpaceOf([]Load{LoadOfContainer(can, 2)})
	box := 2 * 0.345 * 0.165 * 0.465 * 1000
	if s.Packs != 2 || !near(s.Kg, 42.4) || !near(s.BoxL, box) || !near(s.ShelfL, box/0.85) {
		t.Errorf("space %+v, want 42.4 kg and %g L, %g L of shelf (packages.csv, packing.csv)", s, box, box/0.85)
	}
}

// Every pack of the food table can be put on a shelf, every food turned over,
// and no word of things.csv stands for nothing.
func TestWholeFoodTable(t *testing.T) {
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	forms, tags := map[string]bool{}, map[string]bool{}
	for _, f := range table.Foods {
		forms[f.Form] = true
		for _, tag := range f.Tags {
			tags[tag] = true
		}
	}
	for _, r := range rows("things") {
		for _, form := range r.List("forms") {
			if !forms[form] && form != "infant_formula_concentrate" && form != "nuts_bagged" && form != "popcorn_kernels" && form != "toddler_pouch_puree" {
				t.Errorf("%s: no food has the form %s", r.Text("thing"), form)
			}
		}
		for _, tag := range r.List("food_tags") {
			if !tags[tag] {
				t.Errorf("%s: no food has the tag %s", r.Text("thing"), tag)
			}
		}
	}
	var loads []Load
	for _, p := range table.Packs {
		l := LoadOfPack(p, 1)
		loads = append(loads, l)
		if l.LengthMM <= 0 || l.WidthMM <= 0 || l.HeightMM <= 0 || !(l.Kg > 0) || l.Name == "" {
			t.Errorf("%s: load %+v", p.Key, l)
		}
		// Sides rounded up to mm, by at most that much.
		grown := float64(l.LengthMM+1) * float64(l.WidthMM+1) * float64(l.HeightMM+1) / 1e6
		if l.BoxL() < p.VolumeL*(1-sameSize)-1e-3 || p.VolumeL < l.BoxL()*(1-sameSize)-(grown-l.BoxL())-1e-3 {
			t.Errorf("%s: box of %g L, pack of %g L", p.Key, l.BoxL(), p.VolumeL)
		}
	}
	shelves := []Shelf{{"low", 200, 60, 50, 400, 0}, {"middle", 200, 60, 40, 400, 50}, {"high", 200, 60, 40, 400, 90}}
	fit := FitShelves(shelves, loads)
	if faults := CheckFit(shelves, loads, fit); len(faults) > 0 {
		t.Errorf("one pack of each kind: %v", faults)
	}
	for _, f := range table.Foods {
		for _, p := range f.Packs {
			programme, err := SteadyProgramme([]StoreItem{ItemOf(p, 5, 14)}, "2026-12-01", 21)
			if err != nil {
				t.Fatalf("%s: %v", p.Key, err)
			}
			if l := programme.Lines[0]; l.NoWaste {
				s, err := Simulate(&l, "2026-12-01", fiveYears)
				if err != nil || s.Wasted > 0 || s.Tight > 0 || s.Least < 5 {
					t.Errorf("%s: %+v, %v", p.Key, s, err)
				}
			} else if l.Why == "" {
				t.Errorf("%s: cannot be held and says not why", p.Key)
			}
		}
	}
}

// A pack of a plan as an item to hold: its price, its keeping time but for infant food, whose
// printed date rules, and the plan's pace, 7 packs in 14 days or 15.22 a month of 30.4375.
func TestItemOfAPack(t *testing.T) {
	keeping := &foods.Keeping{UseByMonths: 24}
	for _, tt := range []struct {
		name string
		pack foods.Pack
		want StoreItem
	}{
		{"a can", foods.Pack{Key: "p", Price: 2, HasPrice: true, Food: &foods.Food{Name: "beans", Form: "canned_beans", Keeping: keeping}}, StoreItem{Name: "beans", KeepMonths: 24, Price: 2, HasPrice: true}},
		{"without a price", foods.Pack{Key: "p", EasyOpen: true, Food: &foods.Food{Name: "beans", Keeping: keeping}}, StoreItem{Name: "beans", KeepMonths: 24}},
		{"formula", foods.Pack{Key: "p", Food: &foods.Food{Name: "formula", Form: "infant_formula_powder", Keeping: keeping}}, StoreItem{Name: "formula"}},
		{"baby food", foods.Pack{Key: "p", Food: &foods.Food{Name: "pears", Form: "baby_food_jar", Keeping: keeping}}, StoreItem{Name: "pears"}},
		{"keeping not known", foods.Pack{Key: "p", Food: &foods.Food{Name: "x"}}, StoreItem{Name: "x"}},
		{"no food", foods.Pack{Key: "p"}, StoreItem{}},
	} {
		got := ItemOf(&tt.pack, 7, 14)
		if got.Pack != "p" || got.Target != 7 || !near(got.EatPerMonth, 30.4375/2) || got.Name != tt.want.Name || got.KeepMonths != tt.want.KeepMonths || got.Price != tt.want.Price || got.HasPrice != tt.want.HasPrice || got.Stock != nil {
			t.Errorf("%s: %+v, want %+v", tt.name, got, tt.want)
		}
	}
}

package foods

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// Every supply has a key of its own, and what has a price is marked invented.
func TestSupplies(t *testing.T) {
	tab := load(t)
	if len(tab.Supplies) == 0 {
		t.Fatal("no supplies")
	}
	for _, s := range tab.Supplies {
		if got, err := tab.Supply(" " + strings.ToUpper(s.Key)); err != nil || got != s {
			t.Errorf("Supply(%q) = %v, %v", s.Key, got, err)
		}
		if _, err := tab.Pack(s.Key); err == nil {
			t.Errorf("%s is a pack as well", s.Key)
		}
		if s.HasPrice && (s.Price <= 0 || s.Currency != "TSD" || !s.Invented || !strings.Contains(s.Source, "invented")) {
			t.Errorf("%s: price %g %s, invented %v, source %q: want an invented demo price that says so", s.Key, s.Price, s.Currency, s.Invented, s.Source)
		}
	}
	unknown := (*UnknownError)(nil)
	if _, err := tab.Supply("butane"); !errors.As(err, &unknown) || len(unknown.Nearest()) == 0 || unknown.Nearest()[0] != "butane-cartridge" {
		t.Errorf("Supply(butane): %v, want butane-cartridge as the nearest", err)
	}
}

// A price file prices water and fuels too, and only its own table.
func TestSupplyPrices(t *testing.T) {
	tab, other := load(t), load(t)
	in := "pack,price,currency\nWater,0.02,NOK\nbutane-cartridge,39,NOK\n"
	changes, err := tab.ReadPrices("prices.csv", strings.NewReader(in))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []struct {
		key   string
		price float64
	}{{"water", 0.02}, {"butane-cartridge", 39}} {
		s, err := tab.Supply(want.key)
		if err != nil || math.Abs(s.Price-want.price) > 1e-12 || s.Invented || s.Currency != "NOK" {
			t.Errorf("%s: %+v, %v, want %g NOK, not invented", want.key, s, err, want.price)
		}
	}
	if s, _ := tab.Supply("alcohol"); !s.Invented || s.Currency != "NOK" {
		t.Errorf("alcohol: %+v, want its invented price, marked", s)
	}
	if s, _ := other.Supply("water"); !s.Invented {
		t.Error("the price of water changed in another copy of the table")
	}
	again := load(t)
	if _, err := again.ReadPrices("plan", FromRows(changes.Rows)); err != nil {
		t.Fatal(err)
	}
	if s, _ := again.Supply("water"); math.Abs(s.Price-0.02) > 1e-12 {
		t.Errorf("read back from the plan's rows, water costs %g", s.Price)
	}

	_, err = load(t).ReadPrices("prices.csv", strings.NewReader("pack,price\nbatteries,2\nwater,1\nwater,2\nbutane,3\n"))
	for _, want := range []string{
		`prices.csv:2:1: pack "batteries": batteries has no price in a plan`,
		`prices.csv:4:1: pack "water": `, `already in line 3`,
		`prices.csv:5:1: pack "butane": `, `"butane-cartridge"`,
	} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("ReadPrices: %v, want %q", err, want)
		}
	}
}

// Stock lists hold what is no food under the keys of supplies.csv.
func TestStockGoods(t *testing.T) {
	in := "pack,count,best_before,place\nwater,40,,cellar\nwater-bottled,12,2027-03-01,\nheat,4.5,,\nbutane-cartridge,3,,shed\nbatteries,8,2028-01-01,\n"
	s, err := load(t).ReadStock("stock.csv", strings.NewReader(in))
	if err != nil {
		t.Fatal(err)
	}
	if s.WaterL == nil || math.Abs(*s.WaterL-52) > 1e-9 || s.HeatMJ == nil || math.Abs(*s.HeatMJ-4.5) > 1e-9 {
		t.Errorf("water %v L, heat %v MJ, want 52 and 4.5", s.WaterL, s.HeatMJ)
	}
	if len(s.Lines) != 0 || len(s.Goods) != 5 || s.Goods[3].Supply.Key != "butane-cartridge" || s.Goods[4].BestBefore != "2028-01-01" || s.Goods[0].Place != "cellar" {
		t.Errorf("lines %v, goods %+v", s.Lines, s.Goods)
	}
	_, err = load(t).ReadStock("stock.csv", strings.NewReader("pack,count,opened\nbatterys,3,\nwater,-1,\nwater,1,2026-01-01\n"))
	for _, want := range []string{`stock.csv:2:1: pack "batterys": `, `"batteries"`, `stock.csv:3:7: count "-1": `, `stock.csv:4:9: opened "2026-01-01": `} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("ReadStock: %v, want %q", err, want)
		}
	}
}

// A price file sets the prices that it names and no other, in its own currency; what has no
// price in a plan is given none, and keeps no currency.
func TestPricesOfSupplies(t *testing.T) {
	tab := load(t)
	before := tab.Clone()
	if _, err := tab.ReadPrices("p.csv", strings.NewReader("pack,price,currency\nwater,0.02,NOK\n")); err != nil {
		t.Fatal(err)
	}
	without := ""
	for i, s := range tab.Supplies {
		want := *before.Supplies[i]
		if want.HasPrice {
			want.Currency = "NOK"
		} else {
			without = s.Key
		}
		if s.Key == "water" {
			want.Price, want.Invented = 0.02, false
		}
		if *s != want {
			t.Errorf("%+v, want %+v", *s, want)
		}
	}
	for rows, want := range map[string]string{
		without + ",1,NOK\n":                  "has no price in a plan",
		"water,1,NOK\nWATER,2,NOK\n":          "there twice: already in line 2",
		"water,100001,NOK\n":                  "out of range",
		"water,1,NOK\nalcohol,1,\n":           "not the currency of the first row",
		"water,1,\nalcohol,1,NOK\n":           "not the currency of the first row",
		"water,100000,NOK\nalcohol,1,NOK\n":   "",
		"water,1,\nwhite-rice-1000g-bag,1,\n": "",
	} {
		_, err := load(t).ReadPrices("p.csv", strings.NewReader("pack,price,currency\n"+rows))
		if (err == nil) != (want == "") || err != nil && !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", rows, err, want)
		}
	}
	changes, err := load(t).ReadPrices("p.csv", strings.NewReader("pack,price\nwhite-rice-1000g-bag,1\n"))
	if err != nil || changes.Currency != "" || changes.Priced != 1 {
		t.Errorf("without a currency: %+v, %v", changes, err)
	}
}

// A second file of prices leaves those of the first, which are not invented any more.
func TestPricesOfTwoFiles(t *testing.T) {
	tab := load(t)
	for i, key := range []string{tab.Packs[0].Key, tab.Packs[1].Key, tab.Packs[1].Key} {
		changes, err := tab.ReadPrices("p.csv", strings.NewReader("pack,price\n"+key+",3\n"))
		if want := len(tab.Packs) - min(i+1, 2); err != nil || changes.Priced != 1 || changes.Invented != want {
			t.Errorf("file %d: %d priced, %d invented, %v, want 1 and %d", i+1, changes.Priced, changes.Invented, err, want)
		}
	}
	if a, b := tab.Packs[0], tab.Packs[1]; a.Price != 3 || b.Price != 3 || a.Invented || b.Invented {
		t.Errorf("%+v, %+v", a, b)
	}
}

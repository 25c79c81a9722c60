package foods

import (
	"slices"
	"strings"
	"testing"
)

// TestEveryFoodIsSold checks that each market has a pack of every food that is
// bought at all, and that a metric shop has none of the odd inch-pound sizes.
func TestEveryFoodIsSold(t *testing.T) {
	tab := load(t)
	tab.Sell(SizesAll)
	all := map[*Food]int{}
	for _, f := range tab.Foods {
		all[f] = len(f.Packs)
	}
	for _, sizes := range []string{SizesMetric, SizesUS} {
		tab.Sell(sizes)
		n := 0
		for _, f := range tab.Foods {
			n += len(f.Packs)
			if all[f] > 0 && len(f.Packs) == 0 {
				t.Errorf("no %s shop sells %s", sizes, f.Name)
			}
			if len(f.Packs) > all[f] {
				t.Errorf("a %s shop sells more packs of %s than there are", sizes, f.Name)
			}
		}
		if n == len(tab.Packs) {
			t.Errorf("a %s shop sells every pack", sizes)
		}
	}
	for _, p := range tab.Packs {
		if p.Container == "can_10" {
			t.Errorf("%s is a catering can", p.Key)
		}
		if p.Market == "" {
			t.Errorf("%s says no market", p.Key)
		}
	}
	if _, err := tab.Pack("white-rice-907g-bag"); err != nil {
		t.Error(err)
	}
	metric := load(t)
	rice := food(t, metric, "20044")
	if slices.ContainsFunc(rice.Packs, func(p *Pack) bool { return p.Key == "white-rice-907g-bag" }) {
		t.Error("Load lets a two-pound bag be bought in metric shops")
	}
}

// What the user's own file adds may be bought whatever the market, and stock may
// hold any size.
func TestOwnSizesAndStock(t *testing.T) {
	tab := load(t)
	if _, err := tab.ReadFoods("own.csv", strings.NewReader("ndb,pack,net_g,tare_g,volume_l,price\n20044,island-rice-700g,700,9,1,2\n")); err != nil {
		t.Fatal(err)
	}
	tab.Sell(SizesMetric)
	rice := food(t, tab, "20044")
	if !slices.ContainsFunc(rice.Packs, func(p *Pack) bool { return p.Key == "island-rice-700g" }) {
		t.Error("the user's own pack cannot be bought")
	}
	stock, err := tab.ReadStock("stock.csv", strings.NewReader("pack,count\nwhite-rice-907g-bag,2\n"))
	if err != nil || len(stock.Lines) != 1 {
		t.Errorf("stock of a two-pound bag: %v, %v", stock, err)
	}
}

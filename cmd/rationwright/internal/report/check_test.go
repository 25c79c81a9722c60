package report

import (
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/check"
	"rationwright/solver/ration"
)

// The title of what is set aside holds for every line below it: what is eaten
// stands before it.
func TestWhatIsSetAsideIsBoughtLast(t *testing.T) {
	c := &check.StockCheck{Horizon: 14, Currency: "TSD", BuyCost: ptr(8.0), Buy: []check.Buy{
		{Pack: "sugar-454g-bag", Food: "sugar, white", Count: 1, Cost: 0.8, Reserve: true},
		{Pack: "soy-drink-200ml-carton", Food: "soy drink", Count: 20, Cost: 6},
		{Pack: "water", Food: "stored water, litres", Count: 2, Cost: 1.2},
	}}
	got := text(t, &sheet.Sheet{Sections: []sheet.Section{stockBuy(c)}})
	title := strings.Index(got, "set aside, not part of the ration: fast sugar for low blood sugar:\n")
	if title < 0 {
		t.Fatalf("nothing is set aside in\n%s", got)
	}
	for word, aside := range map[string]bool{"soy drink": false, "stored water": false, "sugar, white": true} {
		if at := strings.Index(got, word); at < 0 || at > title != aside {
			t.Errorf("%q at %d, the title at %d, in\n%s", word, at, title, got)
		}
	}
}

// Heat is bought as packs of the plan's fuel: butane, 10.37 MJ in a cartridge, of
// which 40 % reach the pot at worst (fuel.csv), gives 4.148 MJ; 39 MJ take 9.4 of
// them, so 10.
func TestHeatIsBoughtAsFuel(t *testing.T) {
	c := &check.StockCheck{Horizon: 14, Currency: "TSD", BuyCost: ptr(22.57),
		Buy:   []check.Buy{{Pack: "heat", Food: "useful heat for cooking, MJ", Count: 39, Cost: 22.57}},
		TopUp: &ration.Plan{Request: &ration.RequestRecord{Options: map[string]string{"stove": "butane-cartridge"}}},
	}
	sec := stockBuy(c)
	row := sec.Table.Rows()[0]
	if row[0] != "10" || row[1] != "fuel for 39 MJ of useful heat for cooking" || !strings.HasPrefix(row[2], "butane, cartridge 227 g") {
		t.Errorf("heat is bought as %q", row)
	}
	if len(sec.Notes) != 2 || !strings.Contains(sec.Notes[1], "--stove") {
		t.Errorf("the notes do not say of which stove: %q", sec.Notes)
	}
	c.TopUp = nil
	if row := stockBuy(c).Table.Rows()[0]; row[0] != "" || row[1] != "fuel for 39 MJ of useful heat for cooking" {
		t.Errorf("without a stove heat is bought as %q", row)
	}
}

// An open pack is shown by a date, never by the number of a day.
func TestOpenPacksAreShownByDate(t *testing.T) {
	c := &check.StockCheck{
		TopUp: &ration.Plan{Request: &ration.RequestRecord{Start: "2026-01-30"}},
		EatBy: []check.EatBy{
			{Pack: "milk-1l-carton", Count: 1, Opened: "2026-01-01", Past: true},
			{Pack: "rice-907g-bag", Count: 1, Opened: "2026-01-29", Day: 4},
			{Pack: "beans-425g-can", Count: 1, BestBefore: "2026-02-03", Day: 5},
		},
	}
	for k, want := range []string{"already over", "2026-02-02", "2026-02-03"} {
		if got := stockEatBy(c).Table.Rows()[k][0]; got != want {
			t.Errorf("pack %d: until %q, want %q", k, got, want)
		}
	}
}

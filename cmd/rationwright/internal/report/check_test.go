package report

import (
	"strings"
	"testing"

	"rationwright/solver"
)

// The title of what is set aside holds for every line below it: what is eaten
// stands before it.
func TestWhatIsSetAsideIsBoughtLast(t *testing.T) {
	c := &solver.StockCheck{Horizon: 14, Currency: "TSD", BuyCost: ptr(8.0), Buy: []solver.Buy{
		{Pack: "sugar-454g-bag", Food: "sugar, white", Count: 1, Cost: 0.8, Reserve: true},
		{Pack: "soy-drink-200ml-carton", Food: "soy drink", Count: 20, Cost: 6},
		{Pack: "water", Food: "stored water, litres", Count: 2, Cost: 1.2},
	}}
	got := text(t, &Sheet{Sections: []Section{stockBuy(c)}})
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

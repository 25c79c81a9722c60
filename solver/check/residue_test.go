package check

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/rules"
)

// What the arithmetic leaves of nothing is written as nothing; what is little stays.
func TestResidueIsWrittenAsNothing(t *testing.T) {
	for _, c := range []struct{ v, want float64 }{{7.2e-17, 0}, {-6.3e-13, 0}, {2e-6, 2e-6}, {-2e-6, -2e-6}, {0.4, 0.4}} {
		if got := ration.NoResidue(c.v); got != c.want {
			t.Errorf("clean(%g) = %g, want %g", c.v, got, c.want)
		}
	}
	for _, v := range []any{
		[]ration.Shortfall{{Person: "Åse & Knut", Nutrient: "vitamin_b12", Amount: 7.2e-17, Target: 2.4}},
		[]StockShort{{Person: "Åse & Knut", Nutrient: "energy", Amount: 1.3e-12, Floor: 2000}},
	} {
		text, err := ration.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(string(text), `"amount":0,`) || !strings.Contains(string(text), "Åse & Knut") {
			t.Errorf("written as %s", text)
		}
		if !json.Valid(text) {
			t.Errorf("no JSON: %s", text)
		}
	}
	milk := rationtest.Table(t).Foods[0]
	need := nutrients.Need{Nutrient: nutrients.Energy}
	if got := rules.PersonNeed(need, []rules.Portion{{Food: milk, Grams: 1e-12}}, 14).Amount; got != 0 {
		t.Errorf("a picogram of %s gives %g kcal a day", milk.Name, got)
	}
	if got := rules.PersonNeed(need, []rules.Portion{{Food: milk, Grams: 100}}, 1).Amount; math.Abs(got-rationtest.Kcal(milk)) > 1e-9 || got <= 0 {
		t.Errorf("100 g of %s give %g kcal", milk.Name, got)
	}
}

package community

import (
	"math"
	"slices"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/rationtest"
)

// TestWhatAHouseholdCannotHave: where not all needs can be met whatever there is to share, since no food that is sold holds
// vitamin D, floors of what the body stores are given up, and no other; where that does not help the household is told so.
func TestWhatAHouseholdCannotHave(t *testing.T) {
	req := small(t, 1)[0]
	req.Table, req.Stock, req.Standard = rationtest.Table(t), nil, nutrients.StandardRDA
	req.Table.Foods = slices.DeleteFunc(req.Table.Foods, func(f *foods.Food) bool { return f.Per100g.Known(nutrients.VitaminD) > 0 })
	req.Table.Packs = slices.DeleteFunc(req.Table.Packs, func(k *foods.Pack) bool { return k.Food.Per100g.Known(nutrients.VitaminD) > 0 })
	p, uses, err := begin(t.Context(), req, true)
	if err != nil {
		t.Fatal(err)
	}
	given := map[string]bool{}
	for _, s := range p.eased {
		given[s.Nutrient] = true
		if s.Person != "Ola" || !slices.Contains([]string{"vitamin_a", "vitamin_d", "vitamin_b12"}, s.Nutrient) {
			t.Errorf("%+v is given up", s)
		}
	}
	if !given["vitamin_d"] || math.IsInf(p.dearest, 0) || p.dearest <= 0 || len(uses) != 1 || !p.rests || uses[0].level < 1-1e-6 {
		t.Errorf("%v given up, at least %g, %d points", given, p.dearest, len(uses))
	}
	poor := small(t, 1)[0]
	poor.Table, poor.Standard = rationtest.SmallTable(t, "rolled oats"), nutrients.StandardRDA
	if p, uses, err := begin(t.Context(), poor, false); err == nil || !rationtest.ContainsText(err.Error(), "no ration meets all needs") || p != nil || uses != nil {
		t.Errorf("%v", err)
	}
}

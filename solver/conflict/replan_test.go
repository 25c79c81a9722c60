package conflict

import (
	"slices"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestReplanGivesUpStoredVitaminsOnly: what fits is planned whole; where no food holds
// vitamin D, which the body stores, the plan is made and says so; where none holds vitamin
// C, which it does not, there is none.
func TestReplanGivesUpStoredVitaminsOnly(t *testing.T) {
	for _, c := range []struct {
		name    string
		without []nutrients.Nutrient
		ok      bool
		short   []string
	}{
		{"all there", nil, true, nil},
		{"no vitamin D", []nutrients.Nutrient{nutrients.VitaminD}, true, []string{nutrients.VitaminD.Name()}},
		{"no vitamin C", []nutrients.Nutrient{nutrients.VitaminC}, false, nil},
	} {
		req := ration.Filled(rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female)))
		gone := func(f *foods.Food) bool {
			return slices.ContainsFunc(c.without, func(n nutrients.Nutrient) bool { v, known := f.Per100g.Get(n); return !known || v > 0.05 })
		}
		req.Table.Foods = slices.DeleteFunc(req.Table.Foods, gone)
		req.Table.Packs = slices.DeleteFunc(req.Table.Packs, func(k *foods.Pack) bool { return gone(k.Food) })
		plan, ok := replan(t.Context(), req, nil)
		if ok != c.ok {
			t.Errorf("%s: planned %v, want %v", c.name, ok, c.ok)
		}
		if !ok {
			continue
		}
		var short []string
		for _, s := range plan.Shortfalls {
			short = append(short, s.Nutrient)
		}
		if !slices.Equal(short, c.short) {
			t.Errorf("%s: short of %q, want %q", c.name, short, c.short)
		}
		for _, n := range plan.People[0].Needs {
			if n.Floor != nil && n.Amount < *n.Floor*0.999 && !slices.Contains(c.short, n.Nutrient) {
				t.Errorf("%s: %g of %g %s", c.name, n.Amount, *n.Floor, n.Nutrient)
			}
		}
	}
}

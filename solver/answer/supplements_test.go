package answer

import (
	"fmt"
	"strings"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
)

// TestWhatSupplementsSave, by hand: what 10 µg of vitamin D a day of each who takes them
// save is the shadow price of their own row times the dose and the days; prices of other
// needs, of rows that are no need, and those of a ceiling count nothing.
func TestWhatSupplementsSave(t *testing.T) {
	signe, odd := rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Odd", 40, nutrients.Male)
	signe.Supplements = []string{"vitamin D 10 ug"}
	req := rationtest.Request(t, signe, odd)
	req.Days = 10
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name  string
		duals func(model.RowInfo) float64
		saved float64 // µg of a day times its price, ten days
	}{
		{"a price of 0.5 each µg", func(r model.RowInfo) float64 {
			if r.Kind == model.RowNutrient && r.Nutrient == nutrients.VitaminD && r.Eater == 0 {
				return 0.5
			}
			return 0
		}, 50},
		{"a price of his", func(r model.RowInfo) float64 {
			if r.Kind == model.RowNutrient && r.Nutrient == nutrients.VitaminD && r.Eater == 1 {
				return 0.5
			}
			return 0
		}, 0},
		{"prices of all other rows", func(r model.RowInfo) float64 {
			if r.Kind == model.RowNutrient && r.Nutrient == nutrients.VitaminD {
				return 0
			}
			return 0.5
		}, 0},
		{"a ceiling", func(r model.RowInfo) float64 {
			if r.Kind == model.RowNutrient && r.Nutrient == nutrients.VitaminD {
				return -0.5
			}
			return 0
		}, 0},
		{"next to nothing", func(r model.RowInfo) float64 {
			if r.Kind == model.RowNutrient && r.Nutrient == nutrients.VitaminD {
				return 0.5 * ration.SmallestStep(req.Least) / 100
			}
			return 0
		}, 0},
		{"no price", func(model.RowInfo) float64 { return 0 }, 0},
	} {
		result := search.Result{Value: 1000} // a ration that all of it is a part of
		for _, info := range m.Rows {
			result.RootDual = append(result.RootDual, c.duals(info))
		}
		want := ""
		if c.saved > 0 {
			want = fmt.Sprintf("at least about %.2f %s more", c.saved, m.Unit())
		}
		got := strings.Join(withoutSupplements(m, result), "")
		if (got == "") != (want == "") || !strings.Contains(got, want) {
			t.Errorf("%s: %q, want %q", c.name, got, want)
		}
	}
	if got := withoutSupplements(m, search.Result{}); got != nil {
		t.Errorf("of a search without prices: %q", got)
	}
}

package swap

import (
	"math"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/answer"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
)

// TestChangeOfTotals: beside the plan itself nothing changes; with a pack more it is what
// that pack costs, weighs and fills, with one fewer the same taken off.
func TestChangeOfTotals(t *testing.T) {
	req := rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female))
	m, err := model.Build(ration.Filled(req))
	if err != nil {
		t.Fatal(err)
	}
	found := search.SearchOnce(t.Context(), m, 0.1, 2000, nil)
	if found.X == nil {
		t.Fatal("no plan")
	}
	w := &replaceSearch{model: m, plan: answer.Write(m, found.X)}
	tried := 0
	for _, lf := range m.Larder {
		for _, k := range lf.Buy {
			if found.X[k.Col] < 1 || tried == 3 {
				continue
			}
			tried++
			for _, by := range []float64{0, 1, -1} {
				x := append([]float64(nil), found.X...)
				x[k.Col] += by
				r := w.write(x)
				if math.Abs(r.CostChange-by*k.Pack.Price) > 1e-6 || math.Abs(r.WeightChange-by*k.Pack.GrossG/1000) > 1e-6 || math.Abs(r.VolumeChange-by*k.Pack.VolumeL) > 1e-6 {
					t.Errorf("%+g of %s changes %g, %g kg and %g L", by, k.Pack.Key, r.CostChange, r.WeightChange, r.VolumeChange)
				}
				if by >= 0 && !r.Balanced {
					t.Errorf("%+g of %s: short of %v", by, k.Pack.Key, r.Short)
				}
			}
		}
	}
	if tried < 3 {
		t.Errorf("%d packs were tried", tried)
	}
}

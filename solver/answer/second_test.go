package answer

import (
	"math"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
	"rationwright/solver/verify"
)

// TestSecondBesideFirst: the plan of the second aim tells the part by which it costs more
// than the best found, and its gap is to the bound of that; where nothing gladder was
// found, or what was found does not pass the check, it is the first, which costs nothing
// more.
func TestSecondBesideFirst(t *testing.T) {
	req := rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female))
	req.Least = ration.LeastCost
	m, err := model.Build(ration.Filled(req))
	if err != nil {
		t.Fatal(err)
	}
	best := search.SearchOnce(t.Context(), m, 0.1, 2000, nil)
	if best.X == nil {
		t.Fatal("no plan")
	}
	write := func() *ration.Plan {
		p := Complete(m, Write(m, best.X))
		p.Judge(best.Bound, 0.5)
		return p
	}
	more := append([]float64(nil), best.X...) // a pack more of what is bought
	for _, lf := range m.Larder {
		for _, k := range lf.Buy {
			if more[k.Col] == best.X[k.Col] && more[k.Col] > 0 && m.ValueOf(more) == m.ValueOf(best.X) {
				more[k.Col]++
			}
		}
	}
	first := write()
	if len(verify.Check(m.Request, first)) > 0 || m.ValueOf(more) <= m.ValueOf(best.X) {
		t.Fatal("there is no plan to set another beside")
	}
	dearer := (m.ValueOf(more) - m.ValueOf(best.X)) / m.ValueOf(best.X)
	spoilt := make([]float64, len(best.X))
	for _, c := range []struct {
		name   string
		found  Gladder
		price  float64
		weight float64
	}{
		{"a pack more", Gladder{X: more, Value: 7, Before: 9, Bound: 5}, dearer, 7},
		{"nothing gladder", Gladder{Value: 9, Before: 9, Bound: math.Inf(-1)}, 0, 9},
		{"what does not pass", Gladder{X: spoilt, Value: 1, Before: 9, Bound: 0.5}, 0, 9},
	} {
		before := write()
		p := Second(m, before, c.found)
		if math.Abs(*p.Eatable.Price-c.price) > 1e-9 || *p.Eatable.Weight != c.weight {
			t.Errorf("%s: costs %g more, weighs %g, want %g and %g", c.name, *p.Eatable.Price, *p.Eatable.Weight, c.price, c.weight)
		}
		if p.First == nil || p.First.Value != m.ValueOf(best.X) && math.Abs(p.First.Value-m.ValueOf(best.X)) > 1e-6 || p.First.Gap == nil || math.Abs(*p.Gap-ration.GapOf(*p.Value, best.Bound, 0.01)) > 1e-9 || p.Status != before.Status {
			t.Errorf("%s: first %+v, gap %v, status %s", c.name, p.First, p.Gap, p.Status)
		}
		if (p.Eatable.Bound == nil) != math.IsInf(c.found.Bound, 0) {
			t.Errorf("%s: bound %v", c.name, p.Eatable.Bound)
		}
	}
}

// TestRowsOfANutrient: rows of a need over all days and of one after a date are about a
// nutrient; shares, limits and rows of other nutrients are not.
func TestRowsOfANutrient(t *testing.T) {
	for _, c := range []struct {
		info   model.RowInfo
		energy bool
		stored bool
	}{
		{model.RowInfo{Kind: model.RowNutrient, Nutrient: nutrients.Energy}, true, false}, {model.RowInfo{Kind: model.RowAfter, Nutrient: nutrients.Energy}, true, false},
		{model.RowInfo{Kind: model.RowNutrient, Nutrient: nutrients.Protein}, false, false}, {model.RowInfo{Kind: model.RowAfter, Nutrient: nutrients.Protein}, false, false},
		{model.RowInfo{Kind: model.RowShare, Nutrient: nutrients.Energy}, false, false}, {model.RowInfo{Kind: model.RowLimit, Nutrient: nutrients.Energy}, false, false}, {model.RowInfo{Kind: model.RowPattern, Nutrient: nutrients.Energy}, false, false},
		{model.RowInfo{Kind: model.RowNutrient, Nutrient: nutrients.VitaminD}, false, true}, {model.RowInfo{Kind: model.RowShare, Nutrient: nutrients.VitaminD}, false, false}, {model.RowInfo{Kind: model.RowNutrient, Nutrient: nutrients.VitaminC}, false, false},
	} {
		if got := c.info.IsOf(nutrients.Energy); got != c.energy {
			t.Errorf("%+v is about energy: %v", c.info, got)
		}
		if got, want := c.info.HasAmount(), c.info.Kind != model.RowShare; got != want {
			t.Errorf("%+v has an amount of its own: %v", c.info, got)
		}
		if got := c.info.Stored(); got != c.stored {
			t.Errorf("%+v is of a stored vitamin: %v", c.info, got)
		}
	}
}

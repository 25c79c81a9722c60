package answer

import (
	"math"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
)

// TestNoPriceOfSafety: a row of safety and one that a clinician ordered have no price,
// however much they cost; a need and a limit of one's own have. A price is per unit a
// day of one person.
func TestNoPriceOfSafety(t *testing.T) {
	m, err := model.Build(rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female)))
	if err != nil {
		t.Fatal(err)
	}
	m.Problem, m.Rows = &linear.Problem{}, nil
	for _, row := range []model.RowInfo{
		{Kind: model.RowNutrient, Class: model.Requirement, Text: "iron", PerDay: 14},
		{Kind: model.RowNutrient, Class: model.Safety, Text: "vitamin A", PerDay: 14},
		{Kind: model.RowNutrient, Class: model.Requirement, Ordered: true, Text: "sodium", PerDay: 14},
		{Kind: model.RowLimit, Class: model.UserLimit, Eater: -1, Text: "budget", PerDay: 1},
		{Kind: model.RowBalance, Class: model.Structural, Eater: -1, Text: "rice", PerDay: 1},
		{Kind: model.RowReserve, Class: model.Safety, Eater: -1, Text: "doses", PerDay: 1},
	} {
		m.Rows = append(m.Rows, row)
		m.Problem.AddRow(row.Text, 100, linear.Inf)
	}
	for i, want := range []float64{14 * 0.5, 0, 0, 0.5, 0, 0} {
		dual := make([]float64, len(m.Rows))
		dual[i] = 0.5
		got := ShadowPrices(m, search.Result{RootDual: dual})
		switch {
		case want == 0 && len(got) > 0:
			t.Errorf("%s has a price: %v", m.Rows[i].Text, got)
		case want != 0 && (len(got) != 1 || got[0].Marginal != want || got[0].Limit != m.Rows[i].Text+" at least"):
			t.Errorf("%s: %v, want %g", m.Rows[i].Text, got, want)
		}
		dual[i] = -0.5
		if got := ShadowPrices(m, search.Result{RootDual: dual}); want != 0 && (len(got) != 1 || got[0].Limit != m.Rows[i].Text+" at most") {
			t.Errorf("%s from above: %v", m.Rows[i].Text, got)
		}
		if dual[i] = DullPrice / 2; len(ShadowPrices(m, search.Result{RootDual: dual})) > 0 {
			t.Errorf("%s: a price of nothing is listed", m.Rows[i].Text)
		}
	}
	// The largest effect of a whole limit comes first: 100 of iron at 2, 100 of budget at 3.
	dual := make([]float64, len(m.Rows))
	dual[0], dual[3] = 2, 3
	if got := ShadowPrices(m, search.Result{RootDual: dual}); len(got) != 2 || got[0].Limit != "budget at least" {
		t.Errorf("%v: the budget weighs more", got)
	}
	m.Eaters[0].Count = 4 // the row is of one of four alike
	dual[3] = 0
	if got := ShadowPrices(m, search.Result{RootDual: dual}); len(got) != 1 || math.Abs(got[0].Marginal-2*14/4.) > 1e-12 || got[0].Person != "Signe" {
		t.Errorf("%v, want 7 for each of four", got)
	}
}

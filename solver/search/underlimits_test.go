package search

import (
	"context"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/branch"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestLimitBetweenBoundAndValue: where a plan of so much was once found, no search with
// little work says that there is none of as much; under what is proven it says so.
func TestLimitBetweenBoundAndValue(t *testing.T) {
	build := func(work int64) *model.Model {
		req := rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Arvid", 40, nutrients.Male))
		req.Least, req.Within, req.Work = ration.LeastCost, 0.001, work
		m, err := model.Build(ration.Filled(req))
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	long := SearchOnce(context.Background(), build(0), 0.001, 6000, nil)
	if long.X == nil {
		t.Fatal("no plan")
	}
	between := 0
	for _, work := range []int64{50, 400} {
		for _, most := range []float64{long.Value * (1 + 1e-9), long.Bound * 0.98} {
			m := build(work)
			m.Rows = append(m.Rows, model.RowInfo{Kind: model.RowLimit, Class: model.UserLimit, Eater: -1, Text: "budget", PerDay: 1})
			own := m.Problem.AddRow("budget", -linear.Inf, most)
			for j := range m.Cols {
				if c := m.Problem.Cols[j].Cost; c != 0 {
					m.Problem.Set(own, j, c)
				}
			}
			r := SolveUnderOwn(context.Background(), m, nil, own)
			if most > long.Bound && (r.Status == branch.Infeasible || m.ProvenEmpty) {
				t.Errorf("work %d: no plan within %g is proven, and one of %g is there", work, most, long.Value)
			}
			if most > long.Bound && r.X == nil {
				between++
				if m.NearMiss == "" {
					t.Errorf("work %d: nothing is said of the least that was found", work)
				}
			}
			if r.X != nil && m.ValueOf(r.X) > most*(1+LimitTolerance) {
				t.Errorf("work %d: a plan of %g passes for one within %g", work, m.ValueOf(r.X), most)
			}
			if most < long.Bound && (r.X != nil || r.Status == branch.Infeasible && !(r.Bound > most)) {
				t.Errorf("work %d: %v within %g, with the bound %g", work, r.Status, most, r.Bound)
			}
		}
	}
	if between == 0 {
		t.Error("every search finds the plan: the test shows nothing")
	}
}

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
			if most > long.Bound && (r.Status == branch.Infeasible || r.Empty) {
				t.Errorf("work %d: no plan within %g is proven, and one of %g is there", work, most, long.Value)
			}
			if most > long.Bound && r.X == nil {
				between++
				if r.NearMiss == "" {
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

// TestPointUnderALimit: under a limit on weight that a ration can keep, a point that keeps
// it is found although the least cost weighs more; under one that no ration keeps, none.
func TestPointUnderALimit(t *testing.T) {
	build := func(least ration.Least, kg float64) *model.Model {
		req := rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female))
		req.Least, req.Work = least, 4000
		if kg > 0 {
			req.Limits.WeightKg = &kg
		}
		m, err := model.Build(ration.Filled(req))
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	light := SearchOnce(context.Background(), build(ration.LeastWeight, 0), 0.01, 6000, nil)
	cheap := SearchOnce(context.Background(), build(ration.LeastCost, 0), 0.01, 6000, nil)
	if light.X == nil || cheap.X == nil {
		t.Fatal("no plan")
	}
	weight := func(m *model.Model, x []float64) float64 {
		kg := 0.0
		for j := range m.Cols {
			kg += m.Coefficient(j, ration.LeastWeight) * x[j]
		}
		return kg
	}
	most := 1.01 * light.Value
	if got := weight(build(ration.LeastCost, 0), cheap.X); got <= most {
		t.Fatalf("the cheapest plan weighs %g kg, the lightest %g: the test shows nothing", got, light.Value)
	}
	m := build(ration.LeastCost, most)
	x, _ := UnderLimits(context.Background(), m, true)
	if x == nil {
		t.Fatalf("nothing found within %g kg, and there is a plan of %g", most, light.Value)
	}
	if missed, err := m.Problem.Check(x, LimitTolerance); err != nil || len(missed) > 0 {
		t.Errorf("the point misses %v, %v", missed, err)
	}
	if got := weight(m, x); got > most*(1+LimitTolerance) {
		t.Errorf("%g kg, at most %g", got, most)
	}
	if x, _ := UnderLimits(context.Background(), build(ration.LeastCost, 0.95*light.Bound), true); x != nil {
		t.Errorf("a point of less than is proven: %g kg", weight(m, x))
	}
}

package withmenu

import (
	"math"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
)

// Two of the same needs eat the same: what one may eat the other may, every row of a person
// is a convex one, so that half of what both eat keeps them all. One of another size eats
// by that size where their needs allow it, and what all eat together, the packs and the
// cost stay what they are.
func TestThoseOfAPartyEatAlike(t *testing.T) {
	one, two := rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Astrid", 30, nutrients.Female)
	m, err := model.Build(rationtest.Request(t, one, two))
	if err != nil {
		t.Fatal(err)
	}
	r := search.Run(t.Context(), m.Problem, search.Options{Gap: 0.05, MinDenom: 1, Work: 20_000})
	if r.X == nil {
		t.Fatalf("no point: %s", r.Why)
	}
	party := &model.Party{}
	for _, e := range m.Eaters {
		party.Eaters = append(party.Eaters, e)
	}
	cost := r.Value
	x, err := alike(t.Context(), m, []*model.Party{party}, r.X, cost+1e-6)
	if err != nil {
		t.Fatal(err)
	}
	if broken, err := m.Problem.Check(x, ration.CheckTolerance); err != nil || len(broken) > 0 {
		t.Errorf("broken rows %v, %v", broken, err)
	}
	before, apart := 0.0, 0
	for li, lf := range m.Larder {
		a, inA := m.Eaters[0].Eating(li)
		b, inB := m.Eaters[1].Eating(li)
		if inA != inB {
			t.Fatalf("%s is for one of two alike", lf.Food.Name)
		}
		if !inA {
			continue
		}
		before += math.Abs(r.X[a.Col] - r.X[b.Col])
		if math.Abs(x[a.Col]-x[b.Col]) > 0.01 {
			apart++
			t.Errorf("%s: %.2f and %.2f g", lf.Food.Name, x[a.Col], x[b.Col])
		}
		if sum, was := x[a.Col]+x[b.Col], r.X[a.Col]+r.X[b.Col]; math.Abs(sum-was) > 0.01 {
			t.Errorf("%s: %.2f g together, %.2f before", lf.Food.Name, sum, was)
		}
	}
	if before < 10 {
		t.Errorf("they ate alike to %.1f g before: nothing was tried", before)
	}
	for j := range m.Cols {
		if m.Problem.Cols[j].Integer && math.Abs(x[j]-r.X[j]) > 1e-6 {
			t.Errorf("pack %d: %g, before %g", j, x[j], r.X[j])
		}
	}
}

package search

import (
	"context"
	"math"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/branch"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/simplex"
)

// The relaxation of a household has the same optimum from the bases of its people put
// side by side as from nothing, after a quarter of the iterations at most.
func TestCrash(t *testing.T) {
	for _, least := range []ration.Least{ration.LeastCost, ration.LeastWeight, ration.LeastVolume} {
		m, err := model.Build(&ration.Request{People: rationtest.Islanders(4), Table: rationtest.Table(t), Least: least, Start: "2026-11-25"})
		if err != nil {
			t.Fatal(err)
		}
		cold, err := Relax(m.Problem)
		if err != nil {
			t.Fatal(err)
		}
		want := cold.Solve(context.Background())
		basis, _ := Crash(context.Background(), m, m.Problem)
		if basis == nil {
			t.Fatal("no basis")
		}
		warm, err := Relax(m.Problem)
		if err != nil {
			t.Fatal(err)
		}
		warm.startFrom(basis)
		got := warm.Solve(context.Background())
		if want.Status != simplex.Optimal || got.Status != simplex.Optimal || math.Abs(got.Value-want.Value) > 1e-6*want.Value {
			t.Errorf("%s: %v %g, from nothing %v %g", least, got.Status, got.Value, want.Status, want.Value)
		}
		if 4*warm.Spent > cold.Spent {
			t.Errorf("%s: %d iterations, from nothing %d", least, warm.Spent, cold.Spent)
		}
	}
}

// Somebody whose needs no food of the table meets is found by their own program, and
// the program of all has no point then; whoever is only short of what all share is not.
func TestAloneWithoutPoint(t *testing.T) {
	elder := rationtest.Adult("Leif", 87, nutrients.Male)
	elder.Conditions = []nutrients.Condition{nutrients.Vegan, nutrients.LowSodium} // nothing vegan has so much vitamin D
	little := 20.0
	for _, c := range []struct {
		name   string
		people []nutrients.Person
		limits ration.Limits
		alone  string // "" nobody
	}{
		{"all can be fed", rationtest.Islanders(3), ration.Limits{}, ""},
		{"the last cannot", append(rationtest.Islanders(2), elder), ration.Limits{}, "Leif"},
		{"the first cannot", append([]nutrients.Person{elder}, rationtest.Islanders(2)...), ration.Limits{}, "Leif"},
		{"the budget is too small for all", rationtest.Islanders(3), ration.Limits{Budget: &little}, ""},
	} {
		m, err := model.Build(&ration.Request{People: c.people, Table: rationtest.Table(t), Limits: c.limits, Start: "2026-11-25", IgnoreEatable: true})
		if err != nil {
			t.Fatal(err)
		}
		_, alone := Crash(t.Context(), m, m.Problem)
		who := ""
		if alone >= 0 {
			who = m.Eaters[alone].Person.Name
		}
		if who != c.alone {
			t.Errorf("%s: %q alone has no point, want %q", c.name, who, c.alone)
		}
		if c.alone == "" {
			continue
		}
		all, err := Relax(m.Problem)
		if err != nil {
			t.Fatal(err)
		}
		if r := all.Solve(t.Context()); r.Status != simplex.Infeasible {
			t.Errorf("%s: the program of all is %v", c.name, r.Status)
		}
		m.Request.Time = time.Second
		if r := Solve(t.Context(), m, nil, nil); r.Status != branch.Infeasible || r.X != nil || r.Work > 0 {
			t.Errorf("%s: %v after %d iterations", c.name, r.Status, r.Work)
		}
	}
}

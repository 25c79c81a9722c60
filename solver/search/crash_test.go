package search

import (
	"context"
	"math"
	"testing"

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
		basis := Crash(context.Background(), m, m.Problem)
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

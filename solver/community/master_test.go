package community

import (
	"context"
	"math"
	"testing"

	"rationwright/solver/simplex"
)

// TestMasterByHand: two households and two points each, worked by hand. Each has one
// that takes no rice and little money at a low level, and one that takes a bag.
func TestMasterByHand(t *testing.T) {
	low, high := use{level: 0.7, money: 10, packs: []float64{0}}, use{level: 0.9, money: 30, packs: []float64{1}}
	found := [][]use{{low, high}, {low, high}}
	programs := []*program{{}, {}}
	for _, c := range []struct {
		name   string
		what   aim
		level  float64
		stock  float64
		budget float64
		want   float64
	}{
		{"all have enough", mostLevel, 0, 2, math.Inf(1), -0.9},
		{"one bag for two: half of it each", mostLevel, 0, 1, math.Inf(1), -0.8},
		{"money for one of them: half each", mostLevel, 0, 2, 40, -0.8},
		{"cheapest at no level", leastCost, 0, 2, math.Inf(1), 20},
		{"cheapest at 0.7", leastCost, 0.7, 2, math.Inf(1), 20},
		{"cheapest a little over 0.7", leastCost, 0.701, 2, math.Inf(1), 60},
		{"cheapest at 0.9", leastCost, 0.9, 2, math.Inf(1), 60},
		{"0.9 with one bag: the other is bought at a thousand-fold", leastCost, 0.9, 1, math.Inf(1), 60 + shortMoney},
	} {
		m, err := newMaster(c.what, c.level, []float64{c.stock}, c.budget, programs, found)
		if err != nil {
			t.Fatal(err)
		}
		r := m.solver.Solve(context.Background(), simplex.Limits{})
		if r.Status != simplex.Optimal || math.Abs(r.Value-c.want) > 1e-6 {
			t.Errorf("%s: %v %g, want %g", c.name, r.Status, r.Value, c.want)
		}
	}
}

// TestLagrangianByHand: 5 − 2·3 of stock at a price of 2 for 3 bags, and the budget of 100
// at a price that counts from one upwards where money is made least.
func TestLagrangianByHand(t *testing.T) {
	for _, c := range []struct {
		what   aim
		money  float64
		budget float64
		levels float64 // price of the level of each of two
		want   float64
	}{
		{leastCost, 1, math.Inf(1), 0, 5 - 6},
		{leastCost, 1.25, 100, 0, 5 - 6 - 25},
		{mostLevel, 0.25, 100, 0.5, 5 - 6 - 25},
		{mostLevel, 0, math.Inf(1), 0.4, 5 - 6 - 0.2}, // levels priced under one: τ = 1 is worth it
		{mostLevel, 0, math.Inf(1), 0.6, 5 - 6},
	} {
		m, err := newMaster(c.what, 0, []float64{3}, c.budget, []*program{{}, {}}, make([][]use, 2))
		if err != nil {
			t.Fatal(err)
		}
		at := price{packs: []float64{2}, money: c.money, level: c.levels}
		if got := m.lagrangian([]price{at, at}, []float64{2, 3}); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%+v: %g, want %g", c, got, c.want)
		}
	}
}

package aim

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/answer"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
)

// built makes the model of a household with its first aim solved; nil where nothing
// is found.
func built(t *testing.T, req *ration.Request) (*model.Model, search.Result) {
	t.Helper()
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	return m, search.SearchOnce(context.Background(), m, 0.03, 8000, nil)
}

// Whoever the household is: the point found is one of the model, costs no more than
// the slack, is no worse by the weights, and is not under the bound; no more is a
// crumb and no more sizes are bought than the weights say is better.
func TestSecondAim(t *testing.T) {
	rng := rand.New(rand.NewPCG(2026, 13))
	better, tried := 0, 0
	for range 2 * *rationtest.Campaign {
		req := &ration.Request{
			People: rationtest.RandomHousehold(rng), Table: rationtest.Table(t), Start: "2026-11-25", Slack: 0.03, Time: 10 * time.Second,
			Least: []ration.Least{ration.LeastCost, ration.LeastWeight, ration.LeastVolume}[rng.IntN(3)],
		}
		m, first := built(t, req)
		if first.X == nil || len(m.Eaters) == 0 {
			continue
		}
		tried++
		before := m.ValueOf(first.X)
		found, err := Seek(context.Background(), m, first.X, m.ValueOf(first.X), first)
		if err != nil {
			t.Fatal(err)
		}
		who := nutrients.HouseholdRows(req.People)
		if found.Bound > found.Value+1e-6 || found.SodiumLeast == nil && found.Value > found.Before { // less sodium goes before
			t.Errorf("%v: value %g, before %g, bound %g", who, found.Value, found.Before, found.Bound)
		}
		if found.X == nil {
			continue
		}
		better++
		if small, was := counted(m, found.X), counted(m, first.X); found.SodiumLeast == nil && small > was {
			t.Errorf("%v: %d amounts under a portion, %d before", who, small, was)
		}
		if missed, err := m.Problem.Check(found.X, 1e-6); err != nil || len(missed) > 0 {
			t.Errorf("%v: the point misses %v %v", who, missed, err)
		}
		if value := m.ValueOf(found.X); value > before+0.03*math.Abs(before)*(1+1e-9) {
			t.Errorf("%v: %s %g goes beyond the slack of %g", who, req.Least, value, before)
		}
	}
	if better == 0 {
		t.Errorf("of %d households none got a better plan: the test shows nothing", tried)
	}
}

// The bound holds for plans that other aims make: none within the slack weighs less.
func TestBoundHolds(t *testing.T) {
	rng := rand.New(rand.NewPCG(2026, 14))
	m, first := built(t, rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female)))
	if first.X == nil {
		t.Fatal("no plan")
	}
	weights, err := ration.DefaultWeights()
	if err != nil {
		t.Fatal(err)
	}
	const slack = 0.3
	p := newProgram(m, m.ValueOf(first.X), slack, weights)
	bound, _ := p.bound(context.Background(), slack)
	if math.IsInf(bound, 0) {
		t.Fatal("no bound")
	}
	within := 0
	for range 12 {
		q := m.Problem.Clone()
		for j := range q.Cols {
			q.Cols[j].Cost *= 0.5 + rng.Float64()
		}
		other := search.Run(context.Background(), q, search.Options{Gap: 0.05, Work: 3000, MinDenom: 1})
		if other.X == nil || m.ValueOf(other.X) > p.best*(1+slack) {
			continue
		}
		within++
		if missed, err := p.Check(p.point(other.X), 1e-6); err != nil || len(missed) > 0 {
			t.Errorf("what a plan comes to misses the second aim's own rows: %v %v", missed, err)
		}
		if weight := p.weigh(other.X); weight < bound {
			t.Errorf("a plan within the slack weighs %g, under the bound %g", weight, bound)
		}
	}
	if within < 3 {
		t.Errorf("only %d plans lie within the slack", within)
	}
}

// counted is how many amounts there are under the least portion of their food.
func counted(m *model.Model, x []float64) int {
	n := 0
	for _, e := range m.Eaters {
		for _, y := range e.Eats {
			if least := answer.LeastPortionG(&e.Person, m.Larder[y.Food].Food); e.Needs.Feed == nil && x[y.Col] > model.Dust && x[y.Col] < 0.999999*least {
				n++
			}
		}
	}
	return n
}

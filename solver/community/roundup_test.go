package community

import (
	"errors"
	"math"
	"testing"

	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// What is apportioned adds up to what the points take, in whole packs: by hand, two of
// the three bags that 0.5, 1 and 0.7 come to are in the parts of all but the first.
func TestApportionedByHand(t *testing.T) {
	takes := func(bags float64) []use { return []use{{level: 1, money: 1, packs: []float64{bags}}} }
	for _, c := range []struct {
		name  string
		stock float64
		takes []float64
		want  []float64
	}{
		{"parts of bags", 3, []float64{0.5, 1, 0.7}, []float64{0, 1, 1}},
		{"whole bags", 3, []float64{1, 2}, []float64{1, 2}},
		{"more than there are", 2, []float64{1, 2}, []float64{1, 1}},
	} {
		var found [][]use
		for _, bags := range c.takes {
			found = append(found, takes(bags))
		}
		m, err := newMaster(leastCost, 1, []float64{c.stock}, math.Inf(1), make([]*program, len(found)), found)
		if err != nil {
			t.Fatal(err)
		}
		for h, own := range m.apportioned(t.Context()) {
			if own[0] != c.want[h] {
				t.Errorf("%s: household %d has %g, want %g", c.name, h+1, own[0], c.want[h])
			}
		}
	}
}

// begun is the group of households after their first points.
func begun(t *testing.T, requests []*ration.Request, budget float64) *group {
	t.Helper()
	g := &group{stock: amounts(requests[0].Stock), budget: budget, whole: make([][]use, len(requests))}
	for h, r := range requests {
		p, points, err := begin(t.Context(), r, h > 0) // at rest and awake
		if err != nil {
			t.Fatal(err)
		}
		if points, err = p.ends(t.Context(), points); err != nil {
			t.Fatal(err)
		}
		g.of, g.programs, g.found = append(g.of, h), append(g.programs, p), append(g.found, points)
	}
	return g
}

// There is an answer as soon as there are prices, before any search in whole packs: it
// keeps to the stock and the budget, its plans pass the check, and its bound holds.
func TestFallBackNeedsNoSearch(t *testing.T) {
	budget := 20.0
	requests := small(t, 1, "white-rice-907g-bag,3,2028-01-01,,,", "canned-kidney-beans-439g-can,8,2028-01-01,,,")
	req := &Request{Households: requests, Budget: &budget}
	g := begun(t, requests, budget)
	m, r, err := g.cheapest(t.Context(), 0.7)
	if err != nil {
		t.Fatal(err)
	}
	s := &Share{}
	g.fallBack(t.Context(), m.apportioned(t.Context()), 0.7, s)
	if g.picked == nil {
		t.Fatalf("no answer at prices by which all cost %g of %g", r.value, budget)
	}
	for h, p := range g.programs {
		u := g.dealt[h][g.picked[h]]
		for j, c := range p.problem.Cols {
			if v := u.x[j]; c.Integer && math.Abs(v-math.Round(v)) > search.WholeTolerance {
				t.Errorf("household %d: %g of %s", h+1, v, c.Name)
			}
		}
	}
	s.Plans = make([]*ration.Plan, len(requests))
	if err := g.write(s); err != nil {
		t.Fatal(err)
	}
	checkShare(t, req, s)
	whole := exact(t, requests, budget, &s.Level)
	if s.Level <= 0 || s.Cost > budget+1e-6 || s.CostBound > whole.Value+0.01 || s.Cost < whole.Bound-0.01 {
		t.Errorf("level %g, cost %g of at least %g; the joint program has %g of at least %g", s.Level, s.Cost, s.CostBound, whole.Value, whole.Bound)
	}
	t.Logf("level %.3f, cost %.2f of at least %.2f; the joint program: %.2f", s.Level, s.Cost, s.CostBound, whole.Value)
}

// TestBetterTakesWhatCostsLess: whoever was given what costs a thousand finds less than that, and
// keeps to the stock; what costs next to nothing nobody betters.
func TestBetterTakesWhatCostsLess(t *testing.T) {
	requests := small(t, 1, "white-rice-907g-bag,3,2028-01-01,,,")[:2]
	g := begun(t, requests, math.Inf(1))
	dear, cheap := use{level: 0.7, money: 1000, packs: []float64{0}}, use{level: 0.7, money: 0.001, packs: []float64{0}}
	g.dealt, g.picked = [][]use{{dear}, {cheap}}, []int{0, 0}
	g.better(t.Context(), 0.7)
	first, second := g.dealt[0][g.picked[0]], g.dealt[1][g.picked[1]]
	if first.money >= dear.money || first.level < 0.7-1e-6 || first.x == nil || first.packs[0] > 3 {
		t.Errorf("money %g at level %g with %v of 3 bags, want less than %g", first.money, first.level, first.packs, dear.money)
	}
	if second.money != cheap.money {
		t.Errorf("money %g, want the %g that there was", second.money, cheap.money)
	}
}

// TestPlanningRulesNeedPlenty: this program's own planning rules stay where the budget reaches for
// all needs, and more; where it does not, they are given up.
func TestPlanningRulesNeedPlenty(t *testing.T) {
	for budget, plenty := range map[float64]bool{500: true, 20: false} {
		g := begun(t, small(t, 1)[:2], budget)
		g.planned = true
		if err := g.share(t.Context(), &Share{}); g.plenty != plenty || errors.Is(err, errScarce) == plenty || plenty && err != nil {
			t.Errorf("budget %g: plenty %v, want %v: %v", budget, g.plenty, plenty, err)
		}
	}
}

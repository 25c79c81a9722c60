package community

import (
	"math"
	"testing"
)

// The level found at given levels is that of the master in which the level is free, and
// what is proven of it is not under that.
func TestBracketAgreesWithMaster(t *testing.T) {
	for _, budget := range []float64{16, 20, 30, 45} {
		requests := small(t, 1, "white-rice-907g-bag,3,2028-01-01,,,", "canned-kidney-beans-439g-can,8,2028-01-01,,,")
		free := begun(t, requests, budget)
		m, err := newMaster(mostLevel, 0, free.stock, budget, free.programs, free.found)
		if err != nil {
			t.Fatal(err)
		}
		want, err := m.solve(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		g, s := begun(t, requests, budget), &Share{LevelBound: 1}
		own, err := g.bracket(t.Context(), s)
		if err != nil || own == nil {
			t.Fatalf("budget %g: %v, parts %v", budget, err, own)
		}
		t.Logf("budget %g: level %.4f of at most %.4f; free %.4f of at most %.4f", budget, g.level, s.LevelBound, want.value, want.bound)
		if math.Abs(g.level-want.value) > 0.01*want.value {
			t.Errorf("budget %g: level %g, with the level free %g", budget, g.level, want.value)
		}
		if s.LevelBound < want.value-1e-6 || s.LevelBound > want.value*1.04 {
			t.Errorf("budget %g: the level is at most %g, with the level free %g", budget, s.LevelBound, want.value)
		}
	}
}

// TestBracketEndsNearTheBudget: where 98 % of the money is there that everybody's needs cost, the
// first level tried is about 0.98, and costs within half a percent of the budget: no other level is
// tried but the one beyond, for the bound. Every level tried leaves two points of a household.
func TestBracketEndsNearTheBudget(t *testing.T) {
	g, s := begun(t, small(t, 1), 1), &Share{LevelBound: 1}
	g.budget = 0.98 * leastForAll(g.programs, shopPrice(g.programs[0].model.Request), g.stock)
	_, r, err := g.cheapest(t.Context(), 0.98)
	if err != nil || math.Abs(r.value-g.budget) > levelNear*g.budget {
		t.Fatalf("at the level 0.98 all cost %g of %g: the test shows nothing (%v)", r.value, g.budget, err)
	}
	before := len(g.found[0])
	if _, err := g.bracket(t.Context(), s); err != nil {
		t.Fatal(err)
	}
	if got := len(g.found[0]) - before; got != 4 {
		t.Errorf("%d points of levels tried, want 2 each of 2 levels", got)
	}
	if math.Abs(g.level-0.98) > 0.005 || s.LevelBound < g.level || s.LevelBound > 1.04*g.level {
		t.Errorf("level %g of at most %g, want about 0.98", g.level, s.LevelBound)
	}
}

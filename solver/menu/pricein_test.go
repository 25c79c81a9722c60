package menu

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/solver/plantest"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/simplex"
)

// planned are households with a plan, for tests.
func planned(t testing.TB, n int) []*Request {
	t.Helper()
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	book, err := dishes.Load(table)
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(7, 2026))
	var list []*Request
	for len(list) < n {
		req := &ration.Request{People: rationtest.Kitchen(rng), Table: table, Start: "2026-01-05", Within: 0.5, Work: 300, Time: time.Minute}
		list = append(list, &Request{Plan: plantest.MustMake(t, req), Of: req, Book: book})
	}
	return list
}

// TestPricedInAreEnough: the dishes that are priced in leave the relaxation of the choice
// within a hundredth of its value with all dishes, though they are fewer.
func TestPricedInAreEnough(t *testing.T) {
	fewer := 0
	for n, req := range planned(t, 4) {
		h := newHousehold(req)
		list := h.candidates()
		all := newChoosing(h, list)
		for i := range list {
			all.add(i)
		}
		for k, g := range all.diners {
			for _, c := range all.own[k] {
				g.addOwn(c, false)
			}
		}
		c := newChoosing(h, list)
		if _, err := c.priceIn(context.Background()); err != nil {
			t.Fatal(err)
		}
		want, got := relaxed(t, all.program), relaxed(t, c.program)
		if got < want-1e-6*math.Abs(want) || got > 1.01*want {
			t.Errorf("household %d: %g with the dishes priced in, %g with all", n, got, want)
		}
		t.Logf("household %d: %g of %d columns, %g of %d", n, got, len(c.Cols), want, len(all.Cols))
		fewer += len(all.Cols) - len(c.Cols)
	}
	if fewer <= 0 {
		t.Error("no dish was left out: the test shows nothing")
	}
}

// relaxed is the value of the relaxation of p.
func relaxed(t *testing.T, p *program) float64 {
	t.Helper()
	s, err := simplex.New(p.problem())
	if err != nil {
		t.Fatal(err)
	}
	r := s.Solve(context.Background(), simplex.Limits{})
	if r.Status != simplex.Optimal {
		t.Fatalf("%s %s", r.Status, r.Why)
	}
	return r.Value
}

// BenchmarkMake spreads the plans of four households.
func BenchmarkMake(b *testing.B) {
	list := planned(b, 4)
	for b.Loop() {
		for _, req := range list {
			if _, err := Make(context.Background(), req); err != nil {
				b.Fatal(err)
			}
		}
	}
}

package community

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
)

// small is a community of small households that shop in a small shop.
func small(t *testing.T, seed uint64, stock ...string) []*ration.Request {
	t.Helper()
	rng := rand.New(rand.NewPCG(seed, 3))
	larder := rationtest.SmallTable(t, rationtest.SmallShop...)
	lines := rationtest.StockOf(t, larder, stock...).Lines
	var all []*ration.Request
	for h := range 3 {
		person := rationtest.Adult("Ola", 25+rng.IntN(50), []nutrients.Sex{nutrients.Female, nutrients.Male}[h%2])
		all = append(all, &ration.Request{
			People: []nutrients.Person{person}, Table: larder, Stock: lines, Days: 7, Standard: nutrients.StandardBasic,
			IgnoreEatable: true, Start: "2026-11-25", Time: time.Second,
		})
	}
	return all
}

func amounts(lines []foods.StockLine) (stock []float64) {
	for _, l := range lines {
		stock = append(stock, l.Count)
	}
	return stock
}

// exact solves the joint program whole.
func exact(t *testing.T, requests []*ration.Request, budget float64, level *float64) search.Result {
	t.Helper()
	var programs []*program
	for _, req := range requests {
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		programs = append(programs, newProgram(m))
	}
	p := joint(programs, amounts(requests[0].Stock), budget, level)
	r := search.Run(t.Context(), p, search.Options{Gap: 1e-3, MinDenom: 0.01, Work: 100_000})
	if r.X == nil {
		t.Fatalf("the joint program: %s %s", r.Status, r.Why)
	}
	if missed, err := p.Check(r.X, 1e-6); err != nil || len(missed) > 0 {
		t.Fatalf("the point of the joint program misses %v (%v)", missed, err)
	}
	return r
}

// What is shared, by parts alone and as the product does, agrees with the joint
// program solved whole: the bound of neither passes the value of the other.
func TestAgreesWithTheWhole(t *testing.T) {
	stock := []string{"white-rice-907g-bag,3,2028-01-01,,,", "canned-kidney-beans-439g-can,8,2028-01-01,,,", "peanut-butter-454g-jar,2,2028-01-01,,,"}
	for _, c := range []struct {
		name   string
		budget float64
	}{{"no budget", math.Inf(1)}, {"tight budget", 20}} {
		for _, byParts := range []bool{true, false} {
			t.Run(fmt.Sprint(c.name, ", by parts ", byParts), func(t *testing.T) { agree(t, small(t, 1, stock...), c.budget, byParts) })
		}
	}
}

func agree(t *testing.T, requests []*ration.Request, budget float64, byParts bool) {
	t.Helper()
	req := &Request{Households: requests, byParts: byParts}
	if !math.IsInf(budget, 1) {
		req.Budget = &budget
	}
	s, err := Make(t.Context(), req)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("level %.4f of at most %.4f, cost %.2f of at least %.2f, left %v", s.Level, s.LevelBound, s.Cost, s.CostBound, s.Left)
	if req.Budget != nil {
		worst := exact(t, requests, budget, nil)
		t.Logf("whole: level %.4f of at most %.4f", -worst.Value, -worst.Bound)
		if s.Level > -worst.Bound+1e-6 || s.LevelBound < -worst.Value-1e-6 {
			t.Errorf("level %g of at most %g, the joint program says %g of at most %g", s.Level, s.LevelBound, -worst.Value, -worst.Bound)
		}
		if s.Level > 0.999 {
			t.Error("the budget is not tight: the test shows nothing")
		}
		if byParts && s.Level < 0.75*-worst.Value || !byParts && s.LevelGap > 1e-2 {
			t.Errorf("level %g, the joint program has %g", s.Level, -worst.Value)
		}
		if s.Cost > budget+1e-6 {
			t.Errorf("costs %g of %g", s.Cost, budget)
		}
	}
	whole := exact(t, requests, budget, &s.Level)
	t.Logf("whole: cost %.2f of at least %.2f", whole.Value, whole.Bound)
	if s.Cost < whole.Bound-0.01 || s.CostBound > whole.Value+0.01 {
		t.Errorf("cost %g of at least %g, the joint program says %g of at least %g", s.Cost, s.CostBound, whole.Value, whole.Bound)
	}
	// Three who need a few packs each are the hardest for parts: one pack is a tenth of all.
	if most := map[bool]float64{true: 1.15, false: 1.005}[byParts]; s.Cost > most*whole.Value {
		t.Errorf("cost %g, the joint program has %g", s.Cost, whole.Value)
	}
	checkShare(t, req, s)
}

// checkShare adds up what is handed out and looks at every need of everyone.
func checkShare(t *testing.T, req *Request, s *Share) {
	t.Helper()
	handed := map[string]int{}
	cost := 0.0
	for h, p := range s.Plans {
		if p == nil {
			continue
		}
		for _, k := range p.Packs {
			handed[k.Pack] += k.FromStock
		}
		cost += p.Totals.Cost
		for _, e := range p.People {
			for _, n := range e.Needs {
				if n.Floor != nil && n.Amount < s.Level**n.Floor*(1-1e-6) {
					t.Errorf("household %d: %g of %s, %g of %g is its part", h+1, n.Amount, n.Nutrient, s.Level, *n.Floor)
				}
			}
		}
	}
	have := map[string]int{}
	for _, l := range req.Households[0].Stock {
		have[l.Pack.Key] += int(l.Count)
	}
	for key, n := range handed {
		if n > have[key] {
			t.Errorf("%d of %s handed out, %d are there", n, key, have[key])
		}
	}
	// The gaps are what the bounds leave open: of the level as a part of its bound, of the money as a part of it.
	if level, money := max(0, (s.LevelBound-s.Level)/s.LevelBound), max(0, (s.Cost-s.CostBound)/s.Cost); math.Abs(s.LevelGap-level) > 1e-9 || math.Abs(s.CostGap-money) > 1e-9 {
		t.Errorf("gaps of %g and %g, want %g and %g", s.LevelGap, s.CostGap, level, money)
	}
	if math.Abs(cost-s.Cost) > 1e-6*cost {
		t.Errorf("the plans cost %g, the share says %g", cost, s.Cost)
	}
}

// Rounds of prices that their time cuts off leave the points that are there with their
// prices, and a bound that nothing has been proven of: they do not end the share.
func TestPricesCutOff(t *testing.T) {
	requests := small(t, 1, "white-rice-907g-bag,3,2028-01-01,,,")
	stock := amounts(requests[0].Stock)
	var programs []*program
	var found [][]use
	for _, req := range requests {
		p, points, err := begin(t.Context(), req, false)
		if err != nil {
			t.Fatal(err)
		}
		if points, err = p.ends(t.Context(), points); err != nil {
			t.Fatal(err)
		}
		programs, found = append(programs, p), append(found, points)
	}
	over, stop := context.WithDeadline(t.Context(), time.Now())
	defer stop()
	for _, what := range []aim{mostLevel, leastCost} {
		m, err := newMaster(what, 0.5, stock, 20, programs, found)
		if err != nil {
			t.Fatal(err)
		}
		cut, err := m.solve(over)
		if err != nil {
			t.Fatalf("%v: %v", what, err)
		}
		whole, err := m.solve(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		if len(cut.prices) != len(programs) {
			t.Errorf("%v: prices of %d of %d households", what, len(cut.prices), len(programs))
		}
		switch what {
		case mostLevel:
			if cut.bound != 1 || cut.value <= 0 || cut.value > whole.bound+1e-6 {
				t.Errorf("cut off at a level of %g of at most %g; with all rounds %g of at most %g", cut.value, cut.bound, whole.value, whole.bound)
			}
		case leastCost:
			if !math.IsInf(cut.bound, -1) || cut.value < whole.bound-1e-6 {
				t.Errorf("cut off at a cost of %g of at least %g; with all rounds %g of at least %g", cut.value, cut.bound, whole.value, whole.bound)
			}
		}
	}
}

// However early the time is up, there is a share that passes the check, with its bounds,
// or it is said that the time was too short; and a time comes that is enough. What does
// not say that the time stopped it is what comes without a time.
func TestShareEndsByTime(t *testing.T) {
	budget := 20.0
	req := &Request{Households: small(t, 1, "white-rice-907g-bag,3,2028-01-01,,,", "canned-kidney-beans-439g-can,8,2028-01-01,,,"), Budget: &budget, byParts: true}
	worst := exact(t, req.Households, budget, nil)
	calm, err := Make(t.Context(), req)
	if err != nil {
		t.Fatal(err)
	}
	for allowed := 10 * time.Millisecond; ; allowed = allowed * 5 / 4 {
		ctx, stop := context.WithTimeout(t.Context(), allowed)
		s, err := Make(ctx, req)
		stop()
		if errors.Is(err, ration.ErrNoPlan) && allowed < time.Minute {
			continue
		}
		if err != nil {
			t.Fatalf("%v: %v", allowed, err)
		}
		t.Logf("%v: level %.4f of at most %.4f, cost %.2f of at least %.2f %s", allowed, s.Level, s.LevelBound, s.Cost, s.CostBound, s.Stopped)
		if s.Level > -worst.Bound+1e-6 || s.LevelBound < -worst.Value-1e-6 || s.CostBound > s.Cost+0.01 || s.Cost > budget+1e-6 {
			t.Errorf("%v: level %g of at most %g (the joint program: %g of at most %g), cost %g of at least %g", allowed, s.Level, s.LevelBound, -worst.Value, -worst.Bound, s.Cost, s.CostBound)
		}
		checkShare(t, req, s)
		allowed *= 3 // soon to a time that is enough
		if s.Stopped == "" {
			if s.Level != calm.Level || s.LevelBound != calm.LevelBound || s.Cost != calm.Cost || s.CostBound != calm.CostBound {
				t.Errorf("%v: level %g of at most %g, cost %g of at least %g; without a time %g, %g, %g, %g", allowed,
					s.Level, s.LevelBound, s.Cost, s.CostBound, calm.Level, calm.LevelBound, calm.Cost, calm.CostBound)
			}
			return
		}
	}
}

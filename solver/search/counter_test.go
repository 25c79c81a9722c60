package search

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/simplex"
)

// someCounter draws a counter of foods of which some part of what may be eaten is needed.
func someCounter(rng *rand.Rand, foods int) *rationtest.Counter {
	c := rationtest.NewCounter(ration.LeastCost)
	for range foods {
		net := 100 * float64(2+rng.IntN(9))
		c.Sell(1+float64(rng.IntN(900))/100, float64(3+rng.IntN(3)), net, net*float64(2+rng.IntN(3)), 1+float64(rng.IntN(40))/10, float64(rng.IntN(30))/100)
	}
	c.Need(0.4, 0.35)
	return c
}

// best is the least value of every way of buying.
func best(c *rationtest.Counter) float64 {
	least := math.Inf(1)
	c.Every(func(_ []int, value float64) { least = math.Min(least, value) })
	return least
}

// TestFoodsArePricedIn: whichever foods a master begins with, it has the optimum of all of them, the
// same as the whole program; the reduced costs that it gives for packs left outside are what they
// cost less what a gram is worth to her at the row prices, by hand, and none is worth buying. Put
// aside and woken again it needs no more than it had.
func TestFoodsArePricedIn(t *testing.T) {
	rng := rand.New(rand.NewPCG(29, 1))
	outside, infeasible := 0, 0
	for n := range 60 {
		c := someCounter(rng, 12)
		c.Problem.Rows[c.Energy].Lower *= 0.4
		c.Problem.Rows[c.Protein].Lower *= 0.5
		if n%6 == 0 {
			c.Problem.Rows[c.Protein].Lower *= 18
		}
		want := solved(t, c.Problem.Relaxation())
		in := make([]bool, 12)
		for li := range in {
			in[li] = rng.IntN(4) == 0
		}
		q, err := NewMaster(c.Model, c.Problem, in)
		if err != nil {
			t.Fatal(err)
		}
		got := q.Solve(t.Context())
		if got.Status != want.Status {
			t.Fatalf("counter %d: %v, want %v", n, got.Status, want.Status)
		}
		prices, costs := got.Dual, 1.0
		if got.Status == simplex.Infeasible {
			infeasible++
			prices, costs = got.Ray, 0
		} else if math.Abs(got.Value-want.Value) > 1e-6 || math.Abs(got.Bound-want.Value) > 1e-6 {
			t.Errorf("counter %d: %g with the bound %g, want %g", n, got.Value, got.Bound, want.Value)
		}
		reduced := q.ReducedAt(got)
		for li, lf := range c.Larder {
			price := func(j int) float64 { // less its balance row
				d := costs * c.Problem.Cols[j].Cost
				for _, e := range c.Problem.Cols[j].Entries {
					if e.Row != lf.Balance {
						d -= prices[e.Row] * e.Value
					}
				}
				return d
			}
			if q.in[li] {
				continue
			}
			outside++
			d := price(c.Pack(li)) - math.Max(0, -price(c.Eat(li)))*lf.Buy[0].Usable
			if math.Abs(d-reduced[c.Pack(li)]) > 1e-9 || costs > 0 && math.Abs(d-got.Reduced[c.Pack(li)]) > 1e-9 || d < -1e-6 {
				t.Errorf("counter %d: food %d stands outside at %g and %g, want %g", n, li, reduced[c.Pack(li)], got.Reduced[c.Pack(li)], d)
			}
			if reduced[c.Eat(li)] != 0 {
				t.Errorf("counter %d: eating has the reduced cost %g", n, reduced[c.Eat(li)])
			}
		}
		if got.Status != simplex.Optimal {
			continue
		}
		again, err := q.Rest().Wake(c.Model, c.Problem)
		if err != nil {
			t.Fatal(err)
		}
		if r := again.Solve(t.Context()); r.Status != simplex.Optimal || math.Abs(r.Value-want.Value) > 1e-6 || again.LP.Spent > 0 || !slices.Equal(again.in, q.in) {
			t.Errorf("counter %d: woken it comes to %g after %d iterations, want %g after none", n, r.Value, again.LP.Spent, want.Value)
		}
		rest := RestAt(c.Model, q.Rest().Basis())
		for li := range c.Larder {
			basic := rest.Basis().Cols[c.Pack(li)] == simplex.Basic || rest.Basis().Cols[c.Eat(li)] == simplex.Basic
			if rest.in[li] != basic {
				t.Errorf("counter %d: food %d is in %v, basic %v", n, li, rest.in[li], basic)
			}
		}
		var none *Rest
		if fresh, err := none.Wake(c.Model, c.Problem); err != nil || none.Basis() != nil || RestAt(c.Model, nil) != nil {
			t.Error("nothing put aside is something")
		} else if r := fresh.Solve(t.Context()); math.Abs(r.Value-want.Value) > 1e-6 {
			t.Errorf("counter %d: from no food it comes to %g, want %g", n, r.Value, want.Value)
		}
	}
	if outside < 60 || infeasible < 5 {
		t.Errorf("%d foods stood outside, %d had no point", outside, infeasible)
	}
}

// TestSearchOfAllWays: with work enough a search among the foods finds the least of every way of
// buying, and its bound is no more, as that of the whole relaxation says; where nothing feeds her it
// says that; a start is bettered, never lost.
func TestSearchOfAllWays(t *testing.T) {
	rng := rand.New(rand.NewPCG(29, 2))
	found := 0
	for n := range 10 {
		c := someCounter(rng, 5)
		want := best(c)
		relaxed := solved(t, c.Problem.Relaxation())
		if math.IsInf(want, 1) {
			continue
		}
		found++
		r := RestrictedSearch(t.Context(), c.Model, c.Problem, Options{MinDenom: 0.01, Work: 20000})
		if r.X == nil || math.Abs(r.Value-want) > 1e-6 || math.Abs(c.ValueOf(r.X)-want) > 1e-6 || math.Abs(r.Bound-relaxed.Value) > 1e-6 || math.Abs(r.RootBound-relaxed.Value) > 1e-6 || len(r.RootDual) != len(c.Problem.Rows) || len(r.RootReduced) != len(c.Problem.Cols) {
			t.Errorf("counter %d: %g at least %g, want %g at least %g", n, r.Value, r.Bound, want, relaxed.Value)
		}
		if dual, err := c.Problem.Relaxation().Dual(r.RootDual); err != nil || math.Abs(dual.Bound-relaxed.Value) > 1e-5 {
			t.Errorf("counter %d: the row prices prove %g, %v", n, dual.Bound, err)
		}
		if once := SearchOnce(t.Context(), c.Model, 0, 20000, nil); once.X == nil || math.Abs(once.Value-want) > 1e-6 {
			t.Errorf("counter %d: %g at once, want %g", n, once.Value, want)
		}
		if from := SearchOnce(t.Context(), c.Model, 0, 20000, r.X); from.X == nil || math.Abs(from.Value-want) > 1e-6 {
			t.Errorf("counter %d: %g from there, want %g", n, from.Value, want)
		}
		if all := Solve(t.Context(), c.Model, nil, nil); all.X == nil || all.Value > want*(1+1e-9)+1e-6 || all.Bound > want+1e-6 {
			t.Errorf("counter %d: %g at least %g, want %g", n, all.Value, all.Bound, want)
		}
		if ok, err := Feasible(t.Context(), c.Model, c.Problem); err != nil || !ok {
			t.Errorf("counter %d: feasible %v, %v", n, ok, err)
		}
		c.Problem.Rows[c.Energy].Lower *= 10
		if r := RestrictedSearch(t.Context(), c.Model, c.Problem, Options{MinDenom: 0.01, Work: 20000}); r.Status != Infeasible || r.X != nil || !math.IsInf(r.Bound, -1) || r.Why == "" {
			t.Errorf("counter %d: %v for what nobody can eat", n, r.Status)
		}
		if r := SearchOnce(t.Context(), c.Model, 0, 20000, nil); r.Status != Infeasible || r.X != nil {
			t.Errorf("counter %d: %v at once for what nobody can eat", n, r.Status)
		}
		if ok, err := Feasible(t.Context(), c.Model, c.Problem); err != nil || ok {
			t.Errorf("counter %d: what nobody can eat is feasible, %v", n, err)
		}
	}
	if found < 7 {
		t.Errorf("%d counters feed her", found)
	}
}

// TestNextInPrice: to what is in those come that are next by the reduced cost of a gram, 5/100, 4/200,
// 9/100, 3/300 and 1/50, until there are so many in all; no food is taken out.
func TestNextInPrice(t *testing.T) {
	c := rationtest.NewCounter(ration.LeastCost)
	reduced := make([]float64, 10)
	for li, v := range [][2]float64{{5, 100}, {4, 200}, {9, 100}, {3, 300}, {1, 50}} {
		c.Sell(1, 9, v[1], 1000, 1, 0)
		reduced[c.Pack(li)] = v[0]
	}
	for _, k := range []struct {
		in    []int
		count int
		want  []int
	}{
		{nil, 0, nil}, {nil, 1, []int{3}}, {nil, 3, []int{1, 3, 4}}, {nil, 9, []int{0, 1, 2, 3, 4}}, // 1/100, 1/50 twice, the first of them first
		{nil, 2, []int{1, 3}}, {[]int{2}, 1, []int{2}}, {[]int{2}, 2, []int{2, 3}}, {[]int{0, 2, 4}, 2, []int{0, 2, 4}}, {[]int{3}, 4, []int{0, 1, 3, 4}},
	} {
		in, want := make([]bool, 5), make([]bool, 5)
		for _, li := range k.in {
			in[li] = true
		}
		for _, li := range k.want {
			want[li] = true
		}
		if TakeNearest(c.Model, in, reduced, k.count); !slices.Equal(in, want) {
			t.Errorf("from %v to %d: %v, want %v", k.in, k.count, in, k.want)
		}
	}
}

// TestSearchAmongSome: 1100 kcal of packs of 1000 for 10, 100 for 3 and 100 for 4: at least 13. The
// relaxation buys 1.1 of the first; among this one food the best is 20, among two or three 13. Among
// one, with a start that has the dear small packs, those count too: 14. What is on hand is always in.
func TestSearchAmongSome(t *testing.T) {
	build := func() *rationtest.Counter {
		c := rationtest.NewCounter(ration.LeastCost)
		c.Problem.Rows[c.Energy].Lower = 1100
		c.Sell(10, 9, 1000, 5000, 1, 0)
		c.Sell(4, 9, 100, 5000, 1, 0)
		c.Sell(3, 9, 100, 5000, 1, 0)
		return c
	}
	c := build()
	start := make([]float64, len(c.Cols))
	start[c.Pack(0)], start[c.Pack(1)], start[c.Eat(0)], start[c.Eat(1)] = 1, 1, 1000, 100
	for _, k := range []struct {
		count int
		start []float64
		kept  bool // the second food is on hand
		want  float64
	}{{1, nil, false, 20}, {2, nil, false, 13}, {3, nil, false, 13}, {1, start, false, 14}, {1, nil, true, 14}, {3, start, false, 13}} {
		c := build()
		if k.kept {
			c.Larder[1].Stock = []model.PackCol{c.Larder[1].Buy[0]}
		}
		q, err := NewMaster(c.Model, c.Problem, allFoods(c.Model))
		if err != nil {
			t.Fatal(err)
		}
		r := q.SearchAmong(t.Context(), c.Problem, q.Solve(t.Context()), k.count, Options{MinDenom: 0.01, Work: 5000, Start: k.start})
		if r.X == nil || math.Abs(r.Value-k.want) > 1e-6 || math.Abs(c.ValueOf(r.X)-k.want) > 1e-6 {
			t.Errorf("among %d, start %v: %g, want %g", k.count, k.start != nil, r.Value, k.want)
		}
		if up := c.Problem.Cols[c.Pack(2)].Upper; up != 9 {
			t.Error("the program itself is changed")
		}
	}
}

// TestCrumbsByHand: of 1000, 2000 and 400 g in ten days a quarter of a day's most is 25, 50 and 10 g:
// what is under it is a crumb, what is as much is none, the smallest part first.
func TestCrumbsByHand(t *testing.T) {
	c := rationtest.NewCounter(ration.LeastCost)
	for _, most := range []float64{1000, 2000, 400, 1000, 1000} {
		c.Sell(1, 9, 100, most, 1, 0)
	}
	x := make([]float64, len(c.Cols))
	for li, g := range []float64{20, 10, 9, 25, 1e-7} { // 0.8, 0.2, 0.9, none, dust
		x[c.Eat(li)] = g
	}
	if got, want := crumbs(c.Model, x), []int{c.Eat(1), c.Eat(0), c.Eat(2)}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	x[c.Eat(3)] = 24.99
	if got, want := crumbs(c.Model, x), []int{c.Eat(1), c.Eat(0), c.Eat(2), c.Eat(3)}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

// TestCrumbsAreGivenUp: of one pack each of 510, 20 and 5 g, with 2, 1 and 1 kcal a gram, 490 g and all
// of the others are eaten, 1005 kcal. Without the crumbs 502.5 g of the first are as many. Of 1030 kcal
// 1020 are in the first, so that only the smaller is given up. Where a gram more of the first costs, the
// value, 10, may rise by a hundred thousandth: 12.5 g more at 0.78e-5 are 0.975e-4; at 0.85e-5 they are
// too dear, but not 2.5 g for the smaller crumb; at 4.5e-5 neither is given up. The packs stay.
func TestCrumbsAreGivenUp(t *testing.T) {
	for _, k := range []struct {
		name         string
		kcal, gram   float64 // needed; cost of a gram of the first
		first        float64 // g eaten of the first at the start
		second, last float64 // g in packs of the others, all eaten
		want         [3]float64
	}{
		{"all are given up", 1005, 0, 490, 20, 5, [3]float64{502.5, 0, 0}},
		{"one is needed", 1030, 0, 505, 20, 5, [3]float64{505, 20, 0}},
		{"at a small rise", 1005, 0.78e-5, 490, 20, 5, [3]float64{502.5, 0, 0}},
		{"one at a small rise", 1005, 0.85e-5, 490, 20, 5, [3]float64{492.5, 20, 0}},
		{"none at a larger", 1005, 4.5e-5, 490, 20, 5, [3]float64{490, 20, 5}},
		{"none is there", 1160, 0, 480, 100, 100, [3]float64{480, 100, 100}},
	} {
		c := rationtest.NewCounter(ration.LeastCost)
		c.Problem.Rows[c.Energy].Lower = k.kcal
		c.Sell(4, 9, 510, 2550, 2, 0)
		c.Sell(3, 9, k.second, 1000, 1, 0)
		c.Sell(3, 9, k.last, 1000, 1, 0)
		c.Problem.Cols[c.Eat(0)].Cost = k.gram
		x := make([]float64, len(c.Cols))
		for li, g := range []float64{k.first, k.second, k.last} {
			x[c.Pack(li)], x[c.Eat(li)] = 1, g
		}
		got := WithoutCrumbs(t.Context(), c.Model, x)
		for li, want := range k.want {
			eaten := got[c.Eat(li)]
			if k.gram == 0 && want > 0 && eaten >= want-20 { // no gram is dearer than another
				want = eaten
			}
			if math.Abs(eaten-want) > 1e-6 || got[c.Pack(li)] != 1 {
				t.Errorf("%s: %g g of food %d, %g packs, want %g of one", k.name, eaten, li, got[c.Pack(li)], want)
			}
		}
		if missed, err := c.Problem.Check(got, 1e-7); err != nil || len(missed) > 0 {
			t.Errorf("%s: %v, %v", k.name, missed, err)
		}
	}
}

// TestHardlyTouchedPacksGo: of two packs of 100 g of the first food 105 g are eaten and 95 left, of one
// of 500 g of the second 395: a pack of the first goes, since 5 more of the second are there. Where
// 110 g are eaten and nine tenths of a pack are left it goes too, where 111 g are it is not tried; where
// the rest is needed it stays.
func TestHardlyTouchedPacksGo(t *testing.T) {
	for _, k := range []struct {
		first, second, kcal, packs float64
	}{{105, 395, 500, 1}, {110, 390, 500, 1}, {111, 389, 500, 2}, {105, 500, 605, 2}, {0, 500, 500, 1}} {
		c := rationtest.NewCounter(ration.LeastCost)
		c.Problem.Rows[c.Energy].Lower = k.kcal
		c.Sell(4, 9, 100, 1000, 1, 0)
		c.Sell(3, 9, 500, 500, 1, 0)
		x := make([]float64, len(c.Cols))
		x[c.Pack(0)], x[c.Pack(1)], x[c.Eat(0)], x[c.Eat(1)] = 2, 1, k.first, k.second
		got := Tidied(t.Context(), c.Model, x)
		if got[c.Pack(0)] != k.packs || got[c.Pack(1)] != 1 {
			t.Errorf("%+v: %g and %g packs, want %g and 1", k, got[c.Pack(0)], got[c.Pack(1)], k.packs)
		}
		if missed, err := c.Problem.Check(got, 1e-7); err != nil || len(missed) > 0 {
			t.Errorf("%+v: %v, %v", k, missed, err)
		}
	}
	// Of two people, one of whom counts twice at half as much again, 35 g are 105 of packs.
	c := rationtest.NewCounter(ration.LeastCost)
	c.Sell(4, 9, 100, 1000, 1, 0)
	c.Sell(3, 9, 500, 500, 1, 0)
	c.Problem.Rows[c.Energy].Lower = 200
	c.Eaters[0].Count, c.Eaters[0].Eats[0].SpareFactor = 2, 1.5
	for i, e := range c.Problem.Cols[c.Eat(0)].Entries {
		if e.Row == c.Larder[0].Balance {
			c.Problem.Cols[c.Eat(0)].Entries[i].Value = 3
		}
	}
	x := make([]float64, len(c.Cols))
	x[c.Pack(0)], x[c.Pack(1)], x[c.Eat(0)], x[c.Eat(1)] = 2, 1, 35, 165
	if got := Tidied(t.Context(), c.Model, x); got[c.Pack(0)] != 1 {
		t.Errorf("for two: %g packs, want 1", got[c.Pack(0)])
	}
	x[c.Eat(0)] = 38 // 114 g: 86 are left
	if got := Tidied(t.Context(), c.Model, x); got[c.Pack(0)] != 2 {
		t.Errorf("for two who eat more: %g packs, want 2", got[c.Pack(0)])
	}
}

// TestFromOtherPacks: of packs with 100 kcal for 5 and with 300 for another price 1000 kcal are bought.
// Ten of the first bought before are enough, for 50; with one fewer, one of the second for 4 makes 49,
// for 10 it makes 55, no better. Five were for half as many kcal: of two at 10, 4 of the first and 2
// make 40, the best of what is tried. Under a limit on packs nothing is tried.
func TestFromOtherPacks(t *testing.T) {
	build := func(price float64) *rationtest.Counter {
		c := rationtest.NewCounter(ration.LeastCost)
		c.Problem.Rows[c.Energy].Lower = 1000
		c.Sell(5, 20, 100, 5000, 1, 0)
		c.Sell(price, 20, 300, 5000, 1, 0)
		return c
	}
	for _, k := range []struct {
		name  string
		price float64
		packs map[string]int
		want  [2]float64
	}{
		{"as before", 10, map[string]int{"pack 0": 10}, [2]float64{10, 0}},
		{"one fewer", 4, map[string]int{"pack 0": 10}, [2]float64{9, 1}},
		{"twice as many", 10, map[string]int{"pack 0": 5}, [2]float64{4, 2}},
		{"more than are sold", 10, map[string]int{"pack 0": 40}, [2]float64{20, 0}},
	} {
		c := build(k.price)
		x := FromPacks(t.Context(), c.Model, nil, k.packs)
		if k.name == "more than are sold" { // scaled down by 4, ten of them
			k.want = [2]float64{10, 0}
		}
		if x == nil || x[c.Pack(0)] != k.want[0] || x[c.Pack(1)] != k.want[1] {
			t.Errorf("%s: %v, want %v", k.name, x, k.want)
			continue
		}
		if missed, err := c.Problem.Check(x, 1e-7); err != nil || len(missed) > 0 {
			t.Errorf("%s: %v, %v", k.name, missed, err)
		}
	}
	c := build(10)
	row := c.Problem.AddRow("weight", math.Inf(-1), 9)
	c.Rows = append(c.Rows, model.RowInfo{Kind: model.RowLimit, Class: model.UserLimit, Eater: -1, Text: "weight", Total: ration.LeastWeight, PerDay: 1})
	c.Problem.Set(row, c.Pack(0), 1)
	if x := FromPacks(t.Context(), c.Model, nil, map[string]int{"pack 0": 10}); x != nil {
		t.Errorf("under a limit on packs: %v", x)
	}
}

// TestExactPacks: with the packs as they are and no others: enough or not.
func TestExactPacks(t *testing.T) {
	c := rationtest.NewCounter(ration.LeastCost)
	c.Problem.Rows[c.Energy].Lower = 1000
	c.Sell(5, 20, 100, 5000, 1, 0)
	c.Sell(10, 2, 300, 5000, 1, 0)
	q, err := NewMaster(c.Model, c.Problem, allFoods(c.Model))
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range []struct {
		first, second float64
		fits          bool
	}{{10, 0, true}, {9, 0, false}, {7, 1, true}, {4, 2, true}, {3, 2, false}, {1, 3, false}, {4, 3, true}} { // of the second two are sold
		x := q.exactly(t.Context(), map[int]float64{c.Pack(0): k.first, c.Pack(1): k.second})
		if (x != nil) != k.fits || x != nil && (x[c.Pack(0)] != k.first || x[c.Pack(1)] != math.Min(k.second, 2)) {
			t.Errorf("%+v: %v", k, x)
		}
		if lower, upper := q.LP.Bounds(c.Pack(0)); lower != 0 || upper != 20 {
			t.Errorf("%+v: left between %g and %g", k, lower, upper)
		}
	}
}

// weighted puts a limit on the packs of a counter, each weighing so much.
func weighted(c *rationtest.Counter, weights []float64, most float64, total ration.Least) int {
	row := c.Problem.AddRow("weight", math.Inf(-1), most)
	c.Rows = append(c.Rows, model.RowInfo{Kind: model.RowLimit, Class: model.UserLimit, Eater: -1, Text: "shelf", Unit: "kg", Total: total, PerDay: 1})
	for li := range c.Larder {
		c.Problem.Set(row, c.Pack(li), weights[li])
	}
	return row
}

// TestWithinALimitOnPacks: of every way of buying some keep a limit on the weight, or none does: where
// the lightest just does a point is found that does, where it is proven that none can, none, and
// nothing is said; without a limit there is nothing to find. With whole packs over it and parts of
// packs under it, the least that was found is told.
func TestWithinALimitOnPacks(t *testing.T) {
	rng := rand.New(rand.NewPCG(29, 3))
	kept := 0
	for n := range 8 {
		c := someCounter(rng, 5)
		weights := make([]float64, 5)
		for li := range weights {
			weights[li] = float64(1 + rng.IntN(20))
		}
		lightest, cheapest := math.Inf(1), math.Inf(1)
		weigh := func(packs []int) float64 {
			kg := 0.0
			for li, n := range packs {
				kg += float64(n) * weights[li]
			}
			return kg
		}
		c.Every(func(packs []int, _ float64) { lightest = math.Min(lightest, weigh(packs)) })
		if math.IsInf(lightest, 1) {
			continue
		}
		c.Every(func(packs []int, value float64) {
			if weigh(packs) <= lightest+1 {
				cheapest = math.Min(cheapest, value)
			}
		})
		if x, said := UnderLimits(t.Context(), c.Model, true); x != nil || said != "" {
			t.Errorf("counter %d: %v, %q without a limit", n, x, said)
		}
		total := []ration.Least{ration.LeastWeight, ""}[n%2]
		row := weighted(c, weights, lightest+1, total)
		if !c.HasTotals() {
			continue
		}
		kept++
		for _, long := range []bool{false, true} {
			if x, said := UnderLimits(t.Context(), c.Model, long); said != "" || x == nil {
				t.Errorf("counter %d: %v, %q within %g, and %g is there", n, x, said, lightest+1, lightest)
			} else if missed, err := c.Problem.Check(x, LimitTolerance); err != nil || len(missed) > 0 {
				t.Errorf("counter %d: %v, %v", n, missed, err)
			}
		}
		if x, said := StartUnderLimits(t.Context(), c.Model); said != "" || x == nil || math.Abs(c.ValueOf(x)-cheapest) > 1e-6 {
			t.Errorf("counter %d: %v, %q, want one for %g", n, x, said, cheapest)
		}
		if r := RestrictedSearch(t.Context(), c.Model, c.Problem, Options{MinDenom: 0.01, Work: 20000}); r.X == nil || math.Abs(r.Value-cheapest) > 1e-6 {
			t.Errorf("counter %d: %g under the limit, want %g", n, r.Value, cheapest)
		}
		aim := c.Problem.Relaxation()
		model.AimAtRow(aim, row)
		aim.Rows[row].Upper = math.Inf(1)
		least := solved(t, aim).Value
		if least >= lightest-0.5 {
			continue
		}
		c.Problem.Rows[row].Upper = (least + lightest) / 2 // nobody can, though parts of packs do
		x, said := UnderLimits(t.Context(), c.Model, true)
		what := "weight"
		if total == "" {
			what = "shelf"
		}
		if x != nil || said != "" && (!strings.Contains(said, "the least "+what+" found is ") || !strings.HasSuffix(said, " kg")) {
			t.Errorf("counter %d: %v, %q", n, x, said)
		}
		c.Problem.Rows[row].Upper = least * 0.9
		if x, said := UnderLimits(t.Context(), c.Model, true); x != nil || said != "" {
			t.Errorf("counter %d: %v, %q under what is proven", n, x, said)
		}
	}
	if kept < 5 {
		t.Errorf("%d limits were kept", kept)
	}
}

// TestUnderItsOwnLimit: where the value is limited to the least of every way of buying or a little
// more, a plan within it is found; under it none, and where that is proven it says so.
func TestUnderItsOwnLimit(t *testing.T) {
	rng := rand.New(rand.NewPCG(29, 4))
	tried := 0
	for n := range 15 {
		c := someCounter(rng, 5)
		least := best(c)
		if math.IsInf(least, 1) {
			continue
		}
		tried++
		prices := make([]float64, 5)
		for li := range prices {
			prices[li] = c.Problem.Cols[c.Pack(li)].Cost
		}
		c.Request.Within = 0.2
		own := weighted(c, prices, least+1e-4, ration.LeastCost)
		if r := SolveUnderOwn(t.Context(), c.Model, nil, own); r.X == nil || r.Value > least+1e-4 || r.Empty || r.NearMiss != "" || r.Status == Infeasible {
			t.Errorf("counter %d: %v %g within %g", n, r.Status, r.Value, least)
		}
		c.Problem.Rows[own].Upper = least - 0.01
		if r := SolveUnderOwn(t.Context(), c.Model, nil, own); r.X != nil || r.Status != Infeasible || !r.Empty || r.Why == "" {
			t.Errorf("counter %d: %v %g, empty %v, within a cent under %g", n, r.Status, r.Value, r.Empty, least)
		}
		if c.Problem.Rows[own].Upper != least-0.01 {
			t.Error("the program itself is changed")
		}
		c.Problem.Rows[c.Energy].Lower *= 20
		if r := SolveUnderOwn(t.Context(), c.Model, nil, own); r.X != nil || r.Status != Infeasible || r.Empty {
			t.Errorf("counter %d: %v, empty %v for what nobody can eat", n, r.Status, r.Empty)
		}
	}
	if tried < 10 {
		t.Errorf("%d limits were tried", tried)
	}
}

// TestFilled: of packs that are fixed what is eaten is found, where there is anything: nil where there
// is not.
func TestFilled(t *testing.T) {
	c := rationtest.NewCounter(ration.LeastCost)
	c.Problem.Rows[c.Energy].Lower = 250
	c.Sell(5, 20, 100, 5000, 1, 0)
	c.Sell(10, 20, 300, 5000, 1, 0)
	for _, k := range []struct {
		first float64
		fits  bool
	}{{2, false}, {3, true}} {
		p := c.Problem.Clone()
		p.Cols[c.Pack(0)].Lower, p.Cols[c.Pack(0)].Upper, p.Cols[c.Pack(1)].Upper = k.first, k.first, 0
		x := Fill(t.Context(), c.Model, p)
		if (x != nil) != k.fits || x != nil && (x[c.Pack(0)] != k.first || x[c.Eat(0)] < 250-1e-6 || len(x) != len(c.Cols)) {
			t.Errorf("%g packs: %v", k.first, x)
		}
	}
}

// TestWhatTheRequestAsks: of a search.
func TestWhatTheRequestAsks(t *testing.T) {
	told := false
	m := &model.Model{Request: &ration.Request{Within: 0.03, Work: 77, Least: ration.LeastWeight, Audit: true}, Problem: &linear.Problem{}}
	opt := OptionsOf(m, func(Progress) { told = true }, []float64{4})
	opt.Progress(Progress{})
	if opt.Gap != 0.03 || opt.MinDenom != 0.001 || opt.Work != 77 || !slices.Equal(opt.Start, []float64{4}) || !told || !opt.Audit || opt.Workers != 0 || opt.Until != nil {
		t.Errorf("%+v", opt)
	}
}

// TestSecondOpinionByHand: min 2x + 3y with x + y ≥ 10 and x ≤ 4, a row that seldom binds: both say 26.
// Without a point, or with more rows than the referee is given, that is said.
func TestSecondOpinionByHand(t *testing.T) {
	build := func(rows int, least float64) *linear.Problem {
		p := &linear.Problem{Name: "both", Offset: 1}
		need, most := p.AddRow("need", least, math.Inf(1)), p.AddRow("most", math.Inf(-1), 4)
		p.Rows[most].Lazy = true
		x, y := p.AddCol("x", 2, 0, 100, false), p.AddCol("y", 3, 0, 100, false)
		p.Set(need, x, 1)
		p.Set(most, x, 1)
		p.Set(need, y, 1)
		for len(p.Rows) <= rows {
			p.Set(p.AddRow(fmt.Sprint("more ", len(p.Rows)), math.Inf(-1), 1e6), y, 1)
		}
		return p
	}
	o, err := secondOpinion(t.Context(), "both", build(0, 10))
	if err != nil || o.What != "both" || !o.Agree || o.Remark != "" || math.Abs(o.Engine-27) > 1e-6 || math.Abs(o.Referee-27) > 1e-6 {
		t.Errorf("%+v, %v, want 27 of both", o, err)
	}
	for rows, few := range map[int]bool{refereeRows: true, refereeRows + 1: false} { // the row that seldom binds comes on top
		if o, err = secondOpinion(t.Context(), "both", build(rows, 4)); err != nil || o.Agree != few || (o.Remark == "") != few || !few && !strings.Contains(o.Remark, "150") {
			t.Errorf("%d rows: %+v, %v", rows, o, err)
		}
	}
	if o, err = secondOpinion(t.Context(), "both", build(0, 1000)); err != nil || o.Agree || !strings.Contains(o.Remark, "infeasible") {
		t.Errorf("%+v, %v, want that there is no point", o, err)
	}
}

// TestRowsInForce: of rows that were left out those are put into force that a point misses by more
// than a millionth of the larger of their sides, or of one; those in force stay.
func TestRowsInForce(t *testing.T) {
	inf := math.Inf(1)
	for _, k := range []struct {
		lower, upper, at float64
		forced           bool
	}{
		{10, inf, 10 - 0.95e-5, false}, {10, inf, 10 - 1.05e-5, true}, {-inf, 10, 10 + 0.95e-5, false}, {-inf, 10, 10 + 1.05e-5, true},
		{-inf, -10, -10 + 0.95e-5, false}, {-inf, -10, -10 + 1.05e-5, true}, {0.1, inf, 0.1 - 0.95e-6, false}, {0.1, inf, 0.1 - 1.05e-6, true},
		{1, 100, 1 - 0.95e-4, false}, {1, 100, 1 - 1.05e-4, true}, {-inf, inf, 1e9, false},
	} {
		p := &linear.Problem{}
		p.AddRow("first", 5, inf)
		p.AddRow("left out", k.lower, k.upper)
		p.Set(1, p.AddCol("a", 1, -inf, inf, false), 1)
		p.Set(1, p.AddCol("b", 1, -inf, inf, false), 2)
		in := []bool{true, false}
		if got := force(p, in, []float64{k.at - 4, 2}); got != k.forced || in[1] != k.forced || !in[0] {
			t.Errorf("%g to %g at %g: forced %v, in %v", k.lower, k.upper, k.at, got, in)
		}
		part := rowsOf(p, []bool{false, true})
		if len(part.Rows) != 1 || part.Rows[0].Name != "left out" || len(part.Cols) != 2 || part.Cols[1].Entries[0] != (linear.Entry{Row: 0, Value: 2}) {
			t.Errorf("the part is %+v", part)
		}
	}
}

// TestOneWithoutPacks: the relaxation of one person's own program, with the cheapest pack's price on
// each gram and no packs, comes to what that of the model with packs does; of the household's stock,
// its limits and the others nothing is left. Whom a clinician must plan for has none.
func TestOneWithoutPacks(t *testing.T) {
	signe, odd := rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Infant("Odd", 3, 6, nutrients.FormulaFed)
	ola := rationtest.Adult("Ola", 40, nutrients.Male)
	ola.Conditions = []nutrients.Condition{nutrients.TubeFeeding}
	shop := append(slices.Clone(rationtest.SmallShop), "formula-milk-powder-352g-can")
	req := func(people ...nutrients.Person) *ration.Request {
		return &ration.Request{People: people, Table: rationtest.SmallTable(t, shop...), Start: "2026-11-25", Days: 5, Standard: nutrients.StandardBasic, IgnoreEatable: true, Time: time.Minute}
	}
	all := req(signe, odd, ola)
	little := 0.5
	all.People[0].Count, all.Pets, all.Limits.WaterL = 3, 2, &little
	all.Stock = rationtest.StockOf(t, all.Table, "white-rice-907g-bag,9,,,,").Lines
	for _, person := range all.People[:2] {
		p, err := personProgram(all, person)
		if err != nil {
			t.Fatal(err)
		}
		alone := person
		alone.Count = 1
		m, err := model.Build(req(alone))
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range p.Cols {
			if c.Integer {
				t.Errorf("%s: %s is a pack", person.Name, c.Name)
			}
		}
		got, want := solved(t, p), solved(t, m.Problem.Relaxation())
		if got.Status != simplex.Optimal || math.Abs(got.Value-want.Value) > 1e-6*want.Value {
			t.Errorf("%s: %v %g without packs, want %g", person.Name, got.Status, got.Value, want.Value)
		}
	}
	if p, err := personProgram(all, ola); err != nil || p != nil {
		t.Errorf("Ola has a program: %v", err)
	}
	list, err := SecondOpinions(t.Context(), req(signe, ola))
	if err != nil || len(list) != 3 || list[0].What != "Signe" || list[1].What != "Ola" || list[2].What != "the whole household" {
		t.Fatalf("%+v, %v", list, err)
	}
	if !list[0].Agree || list[0].Remark != "" || !list[1].Agree || !strings.Contains(list[1].Remark, "clinician") || !list[2].Agree || list[2].Engine <= list[0].Engine || math.Abs(list[2].Referee-list[2].Engine) > 1e-6*list[2].Engine { // with water for Ola
		t.Errorf("%+v", list)
	}
	if _, err := SecondOpinions(t.Context(), &ration.Request{Table: all.Table}); !errors.Is(err, ration.ErrNobody) {
		t.Errorf("nobody: %v", err)
	}
	if !CanFit(t.Context(), req(signe)) {
		t.Error("a shop that feeds Signe does not")
	}
	none := req(signe)
	none.Limits.WaterL = new(float64)
	if CanFit(t.Context(), none) || CanFit(t.Context(), &ration.Request{Table: all.Table}) {
		t.Error("without water, or nobody, something fits")
	}
}

package swap

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
)

// randomKitchen draws five foods and what she needs, a plan of some packs of each, and the food that
// the swap is about, of which she may eat less than before.
func randomKitchen(rng *rand.Rand) (k *rationtest.Counter, w *swapSearch) {
	k = rationtest.NewCounter(ration.LeastCost)
	w = &swapSearch{model: k.Model, old: &ration.Plan{}, most: math.Inf(1), spread: []float64{0.02, 0.1, 0.4}[rng.IntN(3)]}
	for li := range 5 {
		net := 100 * float64(2+rng.IntN(9))
		k.Sell(1+float64(rng.IntN(900))/100, float64(3+rng.IntN(3)), net, net*float64(2+rng.IntN(3)), 1+float64(rng.IntN(40))/10, float64(rng.IntN(30))/100)
		f := k.Larder[li].Food
		if n := rng.IntN(4); n > 0 {
			w.old.Packs = append(w.old.Packs, ration.PlanPack{Pack: f.Packs[0].Key, Food: f.Name, Count: n})
		}
	}
	k.Need(0.45, 0.4)
	w.touched = map[*foods.Food]bool{k.Larder[rng.IntN(5)].Food: true}
	return k, w
}

// TestFewestOfAllWays: of five foods in at most five packs each every way of buying is tried: the best
// value, the fewest changes of packs at no more than the spread over it, and of those the least value
// are found; where the household's own ceiling is lower than the spread, that holds.
func TestFewestOfAllWays(t *testing.T) {
	rng := rand.New(rand.NewPCG(29, 4))
	tried, proven, changed, ceilings := 0, 0, 0, 0
	for n := range 24 {
		k, w := randomKitchen(rng)
		best := math.Inf(1)
		k.Every(func(_ []int, value float64) { best = math.Min(best, value) })
		if math.IsInf(best, 1) {
			continue
		}
		short, err := w.best(t.Context(), nil)
		if err != nil || len(short) > 0 {
			t.Fatal(err, short)
		}
		if w.x == nil || math.Abs(w.value-best) > 1e-6 || math.Abs(k.ValueOf(w.x)-best) > 1e-6 || w.least > best+1e-6 || w.least < best*0.4 {
			t.Fatalf("kitchen %d: the best is %g, at least %g, want %g", n, w.value, w.least, best)
		}
		ceiling := best * (1 + w.spread)
		if n%3 == 0 {
			w.most = best * 1.01
			ceiling = math.Min(ceiling, w.most)
			ceilings++
		}
		fewest, cheapest := math.MaxInt, math.Inf(1)
		k.Every(func(packs []int, value float64) {
			if value > ceiling+1e-9 {
				return
			}
			changes := 0
			for li, lf := range k.Larder {
				was := 0
				for _, line := range w.old.Packs {
					if line.Food == lf.Food.Name {
						was = line.Count
					}
				}
				if d := packs[li] - was; !w.touched[lf.Food] {
					changes += max(d, -d)
				}
			}
			if changes < fewest || changes == fewest && value < cheapest {
				fewest, cheapest = changes, value
			}
		})
		w.fewest(t.Context())
		tried++
		if w.changes != fewest || w.changesAt(w.x) != fewest || len(w.x) != len(k.Cols) || w.bound > fewest {
			t.Errorf("kitchen %d: %d changes, at least %d, want %d", n, w.changes, w.bound, fewest)
		}
		if got := k.ValueOf(w.x); math.Abs(got-cheapest) > 1e-6 {
			t.Errorf("kitchen %d: %d changes for %g, want for %g of at most %g", n, w.changes, got, cheapest, ceiling)
		}
		if missed, err := k.Problem.Check(w.x, 1e-6); err != nil || len(missed) > 0 {
			t.Errorf("kitchen %d: %v, %v", n, missed, err)
		}
		if w.bound == fewest {
			proven++
		}
		if fewest > 1 {
			changed++
		}
	}
	if tried < 18 || changed < 10 || ceilings < 5 || proven < tried*7/10 {
		t.Errorf("%d of %d kitchens proven, %d with two changes or more, %d with a ceiling", proven, tried, changed, ceilings)
	}
}

// TestAPriceOnTheValue: with a price on the value the changes and the value together are least, to a
// thousandth, of all ways of buying: without a price the changes alone.
func TestAPriceOnTheValue(t *testing.T) {
	rng := rand.New(rand.NewPCG(29, 5))
	tried := 0
	for n := range 6 {
		k, w := randomKitchen(rng)
		if _, err := w.best(t.Context(), nil); err != nil {
			t.Fatal(err)
		}
		if w.x == nil {
			continue
		}
		w.changes = w.changesAt(w.x)
		p := w.changesProgram(w.value * 1.1)
		for _, price := range []float64{0, 0.1, 1, 10} {
			want := math.Inf(1)
			k.Every(func(packs []int, value float64) {
				x := make([]float64, len(k.Cols))
				for li, lf := range k.Larder {
					x[lf.Buy[0].Col] = float64(packs[li])
				}
				want = math.Min(want, float64(w.changesAt(x))+price*value)
			})
			found := w.atPrice(t.Context(), p, price, nil)
			if found == nil {
				t.Fatalf("kitchen %d: nothing at the price %g", n, price)
			}
			tried++
			if got := float64(w.changesAt(found)) + price*k.ValueOf(found); got > want*1.002+1e-6 || got < want-1e-6 {
				t.Errorf("kitchen %d, price %g: changes and value come to %g, want %g", n, price, got, want)
			}
		}
		if p.Rows[w.spreadRow].Upper != w.value*1.1 {
			t.Error("the program itself is changed")
		}
	}
	if tried < 15 {
		t.Errorf("%d prices were tried", tried)
	}
}

// TestWorkOfASwap: as much more work as the request has more time than the default of ten seconds,
// and at least one step.
func TestWorkOfASwap(t *testing.T) {
	for _, c := range []struct {
		time time.Duration
		base float64
		want int64
	}{{10 * time.Second, 500, 500}, {20 * time.Second, 500, 1000}, {5 * time.Second, 3, 1}, {time.Millisecond, 500, 1}} {
		w := &swapSearch{model: &model.Model{Request: &ration.Request{Time: c.time}}}
		if got := w.work(c.base); got != c.want {
			t.Errorf("%g in %v: %d, want %d", c.base, c.time, got, c.want)
		}
	}
}

// TestWhatStaysIsKept: every pack of the old plan that may stay is kept, as many as are still sold,
// and what is missing bought for the least: 2 packs of food 0 stay, 3 of food 1 of which but 2 are
// sold, and food 2, which the swap is about, need not. Of the 1000 kcal 200 · 2 + 100 · 2 are there;
// food 3 is the cheapest for 400 more. Beforehand no more is asked of the solver than it was.
func TestWhatStaysIsKept(t *testing.T) {
	k := rationtest.NewCounter(ration.LeastCost)
	k.Problem.Rows[k.Energy].Lower = 1000
	k.Sell(5, 9, 100, 1000, 2, 0)  // 200 kcal
	k.Sell(9, 2, 100, 1000, 1, 0)  // 100 kcal
	k.Sell(6, 9, 100, 1000, 2, 0)  // 200 kcal
	k.Sell(1, 9, 100, 1000, 1, 0)  // 100 kcal
	k.Sell(20, 9, 100, 1000, 9, 0) // 900 kcal
	w := &swapSearch{model: k.Model, touched: map[*foods.Food]bool{k.Larder[2].Food: true}, old: &ration.Plan{Packs: []ration.PlanPack{
		{Pack: "pack 0", Food: "food 0", Count: 3, FromStock: 1}, {Pack: "pack 1", Food: "food 1", Count: 3}, {Pack: "pack 2", Food: "food 2", Count: 4},
	}}}
	q, err := newMaster(w)
	if err != nil {
		t.Fatal(err)
	}
	x := w.repaired(t.Context(), q)
	if x == nil {
		t.Fatal("nothing is found")
	}
	for li, want := range []float64{2, 2, 0, 4, 0} {
		if got := x[k.Larder[li].Buy[0].Col]; math.Abs(got-want) > 1e-6 {
			t.Errorf("%g packs of food %d, want %g", got, li, want)
		}
	}
	for li, lf := range k.Larder {
		if lower, upper := q.LP.Bounds(lf.Buy[0].Col); lower != 0 || upper != k.Problem.Cols[lf.Buy[0].Col].Upper {
			t.Errorf("food %d is held from %g to %g afterwards", li, lower, upper)
		}
	}
	// More than can be eaten: nothing.
	k.Problem.Rows[k.Energy].Lower = 1e6
	if q, err = newMaster(w); err != nil {
		t.Fatal(err)
	}
	if x := w.repaired(t.Context(), q); x != nil {
		t.Errorf("%v for what cannot be fed", x)
	}
}

// newMaster is the relaxation with all foods in.
func newMaster(w *swapSearch) (*search.Master, error) {
	all := make([]bool, len(w.model.Larder))
	for li := range all {
		all[li] = true
	}
	return search.NewMaster(w.model, w.model.Problem, all)
}

// TestCheapestAtAsManyChanges: one pack new to the plan holds the 300 kcal that are needed, for 9 or for
// 5, two do for 1 each: of the two ways with one change that for 5 is gone over to.
func TestCheapestAtAsManyChanges(t *testing.T) {
	for _, first := range []int{0, 1} {
		k := rationtest.NewCounter(ration.LeastCost)
		k.Problem.Rows[k.Energy].Lower = 300
		k.Sell(9, 9, 300, 3000, 1, 0)
		k.Sell(5, 9, 300, 3000, 1, 0)
		k.Sell(1, 9, 150, 3000, 1, 0)
		w := &swapSearch{model: k.Model, old: &ration.Plan{}, changes: 1, x: make([]float64, len(k.Cols))}
		w.x[k.Pack(first)], w.x[k.Eat(first)] = 1, 300
		p := w.changesProgram(20)
		q, err := search.NewMaster(k.Model, p, k.FoodsOf(w.old))
		if err != nil {
			t.Fatal(err)
		}
		w.cheapest(t.Context(), q, p, q.Solve(t.Context()), w.withChanges(p, w.x))
		if got := k.ValueOf(w.x); math.Abs(got-5) > 1e-9 || w.changesAt(w.x) != 1 || len(w.x) != len(k.Cols) {
			t.Errorf("from food %d: %d changes for %g, want one for 5", first, w.changesAt(w.x), got)
		}
	}
}

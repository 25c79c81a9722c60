package aim

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// criteria says which of the things that the second aim is for a point has, each
// counted here from the packs and the amounts.
func criteria(p *program, x []float64) map[string]bool {
	m := p.model
	has := map[string]bool{"one size": true, "no crumb": true, "no remnant": true, "no bare salt": true}
	sides, treats, fed := 0, 0, 0
	for _, e := range m.Eaters {
		if e.Needs.Feed == nil {
			fed++
		}
	}
	there := map[string]bool{} // kinds of which half of those who eat have portions
	for li, lf := range m.Larder {
		sizes, left := 0, 0.0
		smallest := math.Inf(1)
		for _, k := range lf.Buy {
			if n := math.Round(x[k.Col]); n > 0 {
				sizes++
				left += n * k.Usable
				smallest = math.Min(smallest, k.Usable)
			}
		}
		if sizes > 1 {
			has["one size"] = false
		}
		portions, may := 0, 0
		for ei, e := range m.Eaters {
			y, ok := e.Eating(li)
			if !ok {
				continue
			}
			left -= e.Count * y.SpareFactor * x[y.Col]
			least := p.leastOf(ei, li)
			if e.Needs.Feed != nil || least <= 0 {
				continue
			}
			may++
			switch {
			case x[y.Col] >= least*(1-1e-6):
				portions++
			case x[y.Col] > model.Dust:
				has["no crumb"] = false
			}
		}
		if sizes > 0 && len(lf.Stock) == 0 && left > unused*smallest*(1+1e-9) && !(lf.Food.Keeping != nil && lf.Food.Keeping.AfterOpenHours >= keepsYear) {
			has["no remnant"] = false
		}
		for _, kind := range lf.Food.Kinds {
			there[kind] = there[kind] || portions > 0 && 2*portions >= fed
		}
		if may == 0 || 2*portions < may {
			continue
		}
		if slices.Contains(lf.Food.Kinds, "side vegetables") {
			sides++
		}
		if slices.Contains(lf.Food.Kinds, "hot drinks") || slices.Contains(lf.Food.Kinds, "sweets") {
			treats++
		}
	}
	has["3 vegetables"], has["treat"] = sides >= 3, treats > 0
	has["7 mains"] = ration.DifferentMains(m.Request.Cook, func(kind string) bool { return there[kind] }) >= 7
	return has
}

// What the second aim is for is met by more households with it than without, each
// thing counted apart from the program, and none by fewer. Figures of the households
// come with -v: the share that meets each before and after, the price, the time.
func TestCriteriaOfTheSecondAim(t *testing.T) {
	rng := rand.New(rand.NewPCG(13, 41))
	before, after := map[string]int{}, map[string]int{}
	var prices, gaps, seconds []float64
	n, sumv := 0, 0.0
	for range 3 * *rationtest.Campaign {
		req := &ration.Request{
			People: rationtest.RandomHousehold(rng), Table: rationtest.Table(t), Start: "2026-11-25", Slack: 0.03, Time: 10 * time.Second,
		}
		m, first := built(t, req)
		if first.X == nil || len(m.Eaters) == 0 {
			continue
		}
		start := time.Now()
		found, err := Seek(context.Background(), m, first.X, first)
		if err != nil {
			t.Fatal(err)
		}
		seconds = append(seconds, time.Since(start).Seconds())
		x := found.X
		if x == nil {
			x = first.X
		}
		n++
		weights, err := ration.DefaultWeights()
		if err != nil {
			t.Fatal(err)
		}
		p := newProgram(m, m.ValueOf(first.X), req.Slack, weights)
		for k, ok := range criteria(p, first.X) {
			before[k] += one(ok)
		}
		for k, ok := range criteria(p, x) {
			after[k] += one(ok)
		}
		prices = append(prices, 100*(m.ValueOf(x)/m.ValueOf(first.X)-1))
		sumv += found.Value
		gaps = append(gaps, found.Value/math.Max(found.Bound, 1e-9))
		if testing.Verbose() {
			fmt.Printf("%d people: %.1f -> %.1f, bound %.1f, %.2f s\n", len(m.Eaters), found.Before, found.Value, found.Bound, seconds[len(seconds)-1])
		}
	}
	if n == 0 {
		t.Fatal("nothing was planned: the test shows nothing")
	}
	for _, k := range []string{"one size", "no crumb", "no remnant", "3 vegetables", "treat", "7 mains"} {
		t.Logf("%-14s %3.0f %% before, %3.0f %% after", k, 100*float64(before[k])/float64(n), 100*float64(after[k])/float64(n))
		if after[k] < before[k] {
			t.Errorf("%s: %d of %d households before, %d after", k, before[k], n, after[k])
		}
	}
	for _, list := range [][]float64{prices, gaps, seconds} {
		slices.Sort(list)
	}
	t.Logf("mean value %.2f", sumv/float64(n))
	t.Logf("%d households; price %.2f %% in the median, %.2f %% at worst; value over bound %.2f in the median; %.2f s in the median, %.2f at worst",
		n, prices[n/2], prices[n-1], gaps[n/2], seconds[n/2], seconds[n-1])
}

func one(ok bool) int {
	if ok {
		return 1
	}
	return 0
}

package aim

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/foods/kinds"
	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// tiny is a model of one person, few days and six foods, of which only energy,
// protein, water and heat are asked for: so small that every plan can be tried.
func tiny(t *testing.T, rng *rand.Rand) *model.Model {
	t.Helper()
	shop := []string{"pasta-454g-bag", "white-rice-907g-bag", "corn-432g-can", "green-peas-425g-can", "navy-beans-canned-439g-can", "saltines-113g-box", "peanut-butter-454g-jar", "hard-candy-198g-bag"}
	rng.Shuffle(len(shop), func(a, b int) { shop[a], shop[b] = shop[b], shop[a] })
	shop = shop[:6]
	small := rationtest.SmallTable(t, shop...)
	for _, f := range small.Foods {
		f.Packs = slices.DeleteFunc(f.Packs, func(k *foods.Pack) bool { return !slices.Contains(shop, k.Key) })
	}
	small.Packs = slices.DeleteFunc(small.Packs, func(k *foods.Pack) bool { return !slices.Contains(shop, k.Key) })
	m, err := model.Build(&ration.Request{
		People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female)}, Table: small, Start: "2026-11-25",
		Days: 4, Slack: 0.2, Time: 10 * time.Second, IgnoreEatable: true,
	})
	if err != nil {
		t.Fatal(err)
	}
	for i, info := range m.Rows {
		switch info.Kind {
		case model.RowBalance, model.RowOpened, model.RowWater, model.RowHeat, model.RowAllWater:
			continue
		case model.RowNutrient:
			if info.Nutrient == nutrients.Energy || info.Nutrient == nutrients.Protein {
				continue
			}
		case model.RowShare, model.RowPattern, model.RowGroupCap, model.RowCompanion, model.RowKindCap, model.RowKindShare:
		default:
			continue
		}
		m.Problem.Rows[i].Lower, m.Problem.Rows[i].Upper = math.Inf(-1), math.Inf(1)
	}
	return m
}

// mostTiny is the most packs of a food that are tried: no plan within the slack of
// these households has more.
const mostTiny = 8

// every is the least of the second aim over all plans within the slack, found by
// trying each number of packs, and for each food that is there none, a crumb or a
// portion, and a remnant or none: what is left is a linear program. It counts the
// weights by itself.
func every(t *testing.T, m *model.Model, weights ration.Weights, best, slack float64) (least float64, point []float64) {
	t.Helper()
	least = math.Inf(1)
	q := m.Problem.Clone()
	row := q.AddRow("slack", math.Inf(-1), best*(1+slack))
	e := m.Eaters[0]
	perUnit := 100 * weights.Of(ration.AimPrice) / best
	for j := range q.Cols {
		if c := q.Cols[j].Cost; c != 0 {
			q.Set(row, j, c)
			q.Cols[j].Cost = perUnit * c
		}
	}
	for _, y := range e.Eats {
		for _, w := range weights {
			if w.Part == ration.AimBare && slices.ContainsFunc(w.Kinds, func(k string) bool { return slices.Contains(m.Larder[y.Food].Food.Kinds, k) }) {
				q.Cols[y.Col].Cost += w.Value / 100
			}
		}
	}
	for _, y := range e.Eats { // sittings beyond every second day
		f := m.Larder[y.Food].Food
		for _, w := range weights {
			if w.Part == ration.AimOften && slices.ContainsFunc(w.Kinds, func(k string) bool { return slices.Contains(f.Kinds, k) }) {
				over := q.AddCol("over", w.Value, 0, math.Inf(1), false)
				r := q.AddRow("over", math.Inf(-1), m.Days()/2*f.OccasionG)
				q.Set(r, y.Col, 1)
				q.Set(r, over, -f.OccasionG)
				break
			}
		}
	}
	left := make([]int, len(m.Larder))
	for li, lf := range m.Larder {
		left[li] = q.AddRow("left", math.Inf(-1), math.Inf(1))
		q.Set(left[li], lf.Buy[0].Col, lf.Buy[0].Usable)
		if y, ok := e.Eating(li); ok {
			q.Set(left[li], y.Col, -1)
		}
	}
	for j := range q.Cols {
		q.Cols[j].Entries = model.Merged(q.Cols[j].Entries)
	}
	lp, err := search.Relax(q)
	if err != nil {
		t.Fatal(err)
	}
	solve := func() simplex.Result { return lp.Solve(context.Background()) }
	caps := m.Request.Table.HouseholdCaps(1)
	state := make([]int, len(m.Larder)) // 0 nothing bought; 1 none, 2 a crumb, 3 a portion eaten
	remnant := make([]bool, len(m.Larder))
	counted := func() float64 {
		total := -perUnit * best
		for li := range state {
			if state[li] > 0 {
				total += weights.Of(ration.AimProduct)
			}
			if state[li] == 2 {
				total += weights.Of(ration.AimCrumb)
			}
			if remnant[li] {
				total += weights.Of(ration.AimRemnant)
			}
		}
		of := func(names []string, want func(s int) bool) (foods, have float64) {
			for li, lf := range m.Larder {
				if slices.ContainsFunc(names, func(k string) bool { return slices.Contains(lf.Food.Kinds, k) }) {
					foods++
					if want(state[li]) {
						have++
					}
				}
			}
			return foods, have
		}
		for _, c := range caps {
			switch c.Measure {
			case kinds.FoodsMost:
				_, have := of([]string{c.Kind}, func(s int) bool { return s > 0 })
				total += weights.Of(ration.AimTwin) * math.Max(0, have-c.Value)
			case kinds.FoodsLeast:
				all, have := of([]string{c.Kind}, func(s int) bool { return s == 3 })
				want := math.Min(all, math.Round(c.Value*m.Days()/14))
				total += weights.OfKind(ration.AimVariety, c.Kind) * math.Max(0, want-have)
			}
		}
		for _, w := range weights {
			if w.Part == ration.AimTreat {
				if all, have := of(w.Kinds, func(s int) bool { return s == 3 }); all > 0 && have == 0 {
					total += w.Value
				}
			}
		}
		return total
	}
	var ways func(li int)
	ways = func(li int) {
		if li == len(m.Larder) {
			if base := counted(); base+perUnit*best*0.9 < least { // the price counts on top, and is no less than that
				if r := solve(); r.Status == simplex.Optimal && base+r.Value < least {
					least, point = base+r.Value, slices.Clone(r.X)
				}
			}
			return
		}
		k := m.Larder[li].Buy[0]
		y, ok := e.Eating(li)
		if !ok {
			t.Fatal("nobody eats ", m.Larder[li].Food.Name)
		}
		lower, upper := lp.Bounds(y.Col)
		defer lp.SetBounds(y.Col, lower, upper)
		defer lp.SetRowBounds(left[li], math.Inf(-1), math.Inf(1))
		if _, n := lp.Bounds(k.Col); n == 0 {
			state[li], remnant[li] = 0, false
			lp.SetBounds(y.Col, 0, 0)
			ways(li + 1)
			return
		}
		portion := math.Min(m.Larder[li].Food.OccasionG, y.CapG)
		for s, bounds := range [][2]float64{1: {0, 0}, 2: {0, portion}, 3: {portion, y.CapG}} {
			if s == 0 {
				continue
			}
			lp.SetBounds(y.Col, bounds[0], bounds[1])
			for _, r := range []bool{false, true} {
				keeps := m.Larder[li].Food.Keeping != nil && m.Larder[li].Food.Keeping.AfterOpenHours >= keepsYear
				if r && keeps {
					continue
				}
				state[li], remnant[li] = s, r
				most := math.Inf(1)
				if !r && !keeps {
					most = unused * k.Usable
				}
				lp.SetRowBounds(left[li], math.Inf(-1), most)
				if r := solve(); r.Status == simplex.Optimal { // or nothing comes of it
					ways(li + 1)
				}
			}
		}
	}
	var packs func(li int, spent float64)
	packs = func(li int, spent float64) {
		if li == len(m.Larder) {
			if r := solve(); r.Status == simplex.Optimal {
				ways(0)
			}
			return
		}
		k := m.Larder[li].Buy[0]
		lower, upper := lp.Bounds(k.Col)
		for n := range mostTiny + 1 {
			if cost := spent + float64(n)*m.Problem.Cols[k.Col].Cost; cost <= best*(1+slack) {
				lp.SetBounds(k.Col, float64(n), float64(n))
				if r := solve(); r.Status == simplex.Optimal {
					packs(li+1, cost)
				}
			}
		}
		lp.SetBounds(k.Col, lower, upper)
	}
	packs(0, 0)
	return least, point
}

// On households so small that every plan can be tried, the second aim's weights are
// counted as here by hand, its bound is under the least there is, and the plan found
// is it or near.
func TestTinyAgainstEveryPlan(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 13))
	weights, err := ration.DefaultWeights()
	if err != nil {
		t.Fatal(err)
	}
	exact, n := 0, 0
	for range 8 * *rationtest.Campaign {
		m := tiny(t, rng)
		first := search.Run(context.Background(), m.Problem, search.Options{Gap: 1e-6, MinDenom: 1})
		if first.Status != search.Optimal {
			continue
		}
		n++
		slack := 0.05 + 0.1*rng.Float64()
		req := *m.Request
		req.Slack = slack
		m.Request = &req
		best := m.ValueOf(first.X)
		least, point := every(t, m, weights, best, slack)
		if point == nil {
			t.Fatal("no plan of all is within the slack")
		}
		p := newProgram(m, best, slack, weights)
		if got := p.weigh(point[:len(m.Cols)]); math.Abs(got-least) > 1e-6 {
			t.Errorf("the least plan counts %g by hand, %g in the program", least, got)
		}
		found, err := Seek(context.Background(), m, first.X, m.ValueOf(first.X), first)
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%d foods, slack %.3f: before %.3f, found %.3f, least of all plans %.3f, bound %.3f", len(m.Larder), slack, found.Before, found.Value, least, found.Bound)
		if found.Value < least-1e-6 {
			t.Errorf("found %g, under the least of all plans, %g", found.Value, least)
		}
		if found.Bound > least+1e-6 {
			t.Errorf("a bound of %g is proven, a plan has %g", found.Bound, least)
		}
		if found.Value <= least+1e-6 {
			exact++
		}
	}
	t.Logf("%d of %d are the least there is", exact, n)
	if n < 4 || 4*exact < 3*n {
		t.Errorf("only %d of %d households have the least there is", exact, n)
	}
}

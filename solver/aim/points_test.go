package aim

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/foods/kinds"
	"rationwright/nutrients"
	"rationwright/solver/answer"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
)

// plates is the second aim of three rows of people over ten days, the second of two alike, the third
// to have little sodium, with foods of many kinds in one size and more.
func plates(t *testing.T, weights ration.Weights) *program {
	t.Helper()
	old := rationtest.Adult("Gudrun", 68, nutrients.Female)
	old.Conditions = []nutrients.Condition{nutrients.LowSodium}
	two := rationtest.Adult("Arvid", 39, nutrients.Male)
	two.Count = 2
	m, err := model.Build(ration.Filled(&ration.Request{
		People: []nutrients.Person{rationtest.Adult("Signe", 36, nutrients.Female), two, old}, Start: "2026-11-25", Days: 10, IgnoreEatable: true, Cook: ration.CookBoil,
		Table: rationtest.SmallTable(t, "white-rice-907g-bag", "pasta-454g-bag", "canned-kidney-beans-439g-can", "canned-chickpeas-439g-can", "navy-beans-canned-439g-can", "light-tuna-oil-142g-can",
			"sardines-oil-106g-can", "corn-432g-can", "green-peas-425g-can", "tomatoes-411g-can", "sunflower-oil-0.5l-bottle", "sugar-454g-bag", "salt-737g-canister", "hard-candy-198g-bag",
			"peaches-juice-425g-can", "saltines-454g-box", "canned-chicken-354g-can", "whole-wheat-crackers-255g-box", "peanut-butter-454g-jar"),
	}))
	if err != nil {
		t.Fatal(err)
	}
	return newProgram(m, 150, 0.1, weights)
}

// somePoint draws packs and what is eaten of those foods: nothing, a crumb, about a portion, or more.
func somePoint(rng *rand.Rand, p *program) []float64 {
	m := p.model
	x := make([]float64, len(m.Cols))
	for li, lf := range m.Larder {
		if len(lf.Buy) == 0 || rng.IntN(4) == 0 {
			continue
		}
		for n, k := range lf.Buy {
			if n == 0 || rng.IntN(2) == 0 {
				x[k.Col] = math.Min(float64(1+rng.IntN(3)), m.Problem.Cols[k.Col].Upper)
			}
		}
		for ei, e := range m.Eaters {
			if y, ok := e.Eating(li); ok {
				least := p.leastOf(ei, li)
				x[y.Col] = math.Min([]float64{0, 0.3 * least, 0.99 * least, least, 1.5 * least, y.CapG}[rng.IntN(6)], y.CapG)
			}
		}
	}
	return x
}

// counts is what the weights count at a point, each part by its words in the table of the weights.
func counts(m *model.Model, weights ration.Weights, best float64, x []float64) float64 {
	total := 100 * weights.Of(ration.AimPrice) * (m.ValueOf(x) - best) / best
	of := func(f *foods.Food, names []string) bool {
		return slices.ContainsFunc(names, func(k string) bool { return slices.Contains(f.Kinds, k) })
	}
	least := func(e *model.Eater, li int) (g, has float64, may bool) {
		y, ok := e.Eating(li)
		if !ok {
			return 0, 0, false
		}
		return math.Min(answer.LeastPortionG(&e.Person, m.Larder[li].Food), y.CapG), x[y.Col], true
	}
	there, varied, served := make([]bool, len(m.Larder)), make([]bool, len(m.Larder)), make([]bool, len(m.Larder))
	for li, lf := range m.Larder {
		sizes, left, smallest := 0.0, 0.0, math.Inf(1)
		for _, k := range lf.Buy {
			if x[k.Col] > 0 {
				sizes++
				left += k.Usable * x[k.Col]
				smallest = math.Min(smallest, k.Usable)
			}
		}
		if there[li] = sizes > 0; sizes > 0 {
			total += weights.Of(ration.AimProduct) + weights.Of(ration.AimSize)*(sizes-1)
		}
		may, portions := 0, 0
		for _, e := range m.Eaters {
			g, has, ok := least(e, li)
			if !ok {
				continue
			}
			y, _ := e.Eating(li)
			left -= e.Count * y.SpareFactor * has
			may++
			switch {
			case has >= g:
				portions++
			case has > 0:
				total += weights.Of(ration.AimCrumb) * e.Count
			}
			sitting, _, _ := foods.Cap(&e.Person, lf.Food)
			often := 0.0
			for _, w := range weights {
				if w.Part == ration.AimOften && of(lf.Food, w.Kinds) {
					often = math.Max(often, w.Value)
				}
				if w.Part == ration.AimBare && of(lf.Food, w.Kinds) {
					total += e.Count * w.Value * has / 100
				}
			}
			total += e.Count * often * math.Max(0, has-m.Days()/2*sitting) / sitting
			if e.Person.Has(nutrients.LowSodium) {
				total += e.Count * weights.Of(ration.AimSodium) * has * lf.Food.Per100g.Known(nutrients.Sodium) / 100 / 1000 / m.Days()
			}
		}
		varied[li] = may > 0 && 2*portions >= may
		served[li] = 2*portions >= len(m.Eaters)
		keeps := lf.Food.Keeping != nil && lf.Food.Keeping.AfterOpenHours >= 365*24
		if sizes > 0 && !keeps && left > 0.75*smallest*(1+1e-6) {
			total += weights.Of(ration.AimRemnant)
		}
	}
	number := func(names []string, is []bool) (all, n float64) {
		for li, lf := range m.Larder {
			if of(lf.Food, names) && len(lf.Buy) > 0 {
				all++
				if is[li] {
					n++
				}
			}
		}
		return all, n
	}
	for _, c := range m.Request.Table.HouseholdCaps(4) {
		switch c.Measure {
		case kinds.FoodsMost:
			_, n := number([]string{c.Kind}, there)
			total += weights.Of(ration.AimTwin) * math.Max(0, n-c.Value)
		case kinds.FoodsLeast:
			all, n := number([]string{c.Kind}, varied)
			total += weights.OfKind(ration.AimVariety, c.Kind) * math.Max(0, math.Min(all, math.Round(c.Value*m.Days()/14))-n)
		}
	}
	for _, w := range weights {
		if all, n := number(w.Kinds, varied); w.Part == ration.AimTreat && all > 0 && n == 0 {
			total += w.Value
		}
	}
	possible, made := 0.0, 0.0
	for _, one := range ration.Mains(m.Request.Cook) {
		bases, base := number([]string{one.Base}, served)
		proteins, protein := number([]string{one.Protein}, served)
		if bases > 0 && proteins > 0 {
			possible++
			if base > 0 && protein > 0 {
				made++
			}
		}
	}
	return total + weights.Of(ration.AimMain)*math.Max(0, math.Min(possible, math.Round(7*m.Days()/14))-made)
}

// TestWeightsAreCounted: whatever is bought and eaten, by whomever, counts what the table of the
// weights says, and without its crumbs as much less as those count. The columns of the program say so
// in its own rows, and no other say of one or two of them is allowed that would count less.
func TestWeightsAreCounted(t *testing.T) {
	weights, err := ration.DefaultWeights()
	if err != nil {
		t.Fatal(err)
	}
	p := plates(t, weights)
	m := p.model
	own := map[string]bool{"slack": true} // rows of the model, which a point drawn by chance need not keep
	for _, row := range m.Problem.Rows {
		own[row.Name] = true
	}
	noCrumbs := slices.Clone(weights)
	for i := range noCrumbs {
		if noCrumbs[i].Part == ration.AimCrumb {
			noCrumbs[i].Value = 0
		}
	}
	rng := rand.New(rand.NewPCG(29, 13))
	for n := range 30 {
		x := somePoint(rng, p)
		if got, want := p.weigh(x), counts(m, weights, 150, x); math.Abs(got-want) > 1e-6 {
			t.Fatalf("point %d counts %g, want %g", n, got, want)
		}
		if got, want := p.value(x, false), counts(m, noCrumbs, 150, x); math.Abs(got-want) > 1e-6 {
			t.Fatalf("point %d counts %g without crumbs, want %g", n, got, want)
		}
		if n > 1 {
			continue
		}
		full := p.point(x)
		activity := make([]float64, len(p.Rows))
		for j, v := range full {
			for _, e := range p.Cols[j].Entries {
				activity[e.Row] += e.Value * v
			}
		}
		for i, row := range p.Rows { // of packs drawn by chance more is left than of any plan's
			if !own[row.Name] && !strings.HasPrefix(row.Name, "remnant[") && activity[i] > row.Upper+1e-6 {
				t.Errorf("point %d: %s is %g, at most %g", n, row.Name, activity[i], row.Upper)
			}
		}
		other := func(j int) float64 { // what else a column may say
			if c := p.Cols[j]; !c.Integer {
				return -math.Min(1, full[j])
			}
			return 1 - 2*full[j]
		}
		for a := len(m.Cols); a < len(p.Cols); a++ {
			for b := a; b < len(p.Cols); b++ {
				by := map[int]float64{a: other(a)}
				if b != a {
					by[b] = other(b)
				}
				saved := 0.0
				change := map[int]float64{}
				for j, d := range by {
					saved -= p.Cols[j].Cost * d
					for _, e := range p.Cols[j].Entries {
						change[e.Row] += e.Value * d
					}
				}
				if saved < 1e-6 {
					continue
				}
				allowed := true
				for i, d := range change {
					allowed = allowed && (own[p.Rows[i].Name] || activity[i]+d <= p.Rows[i].Upper+1e-7)
				}
				if allowed {
					t.Fatalf("point %d: with %s and %s otherwise it counts %g less", n, p.Cols[a].Name, p.Cols[b].Name, saved)
				}
			}
		}
	}
}

// TestGainsOfMoves: what a move is said to gain is what the point counts less for it: a food less, one
// size in place of all or one less, portions of a food for half of those who may where variety or a
// main is missing, a food that is had too often had less. The price is apart.
func TestGainsOfMoves(t *testing.T) {
	weights, err := ration.DefaultWeights()
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(29, 14))
	for _, c := range []struct {
		name  string
		parts []ration.AimPart
		least int // moves that are compared
	}{
		{"foods and sizes", []ration.AimPart{ration.AimProduct, ration.AimSize}, 100},
		{"too often", []ration.AimPart{ration.AimOften}, 5},
		{"variety", []ration.AimPart{ration.AimVariety, ration.AimProduct, ration.AimSize}, 10},
		{"mains", []ration.AimPart{ration.AimMain, ration.AimProduct, ration.AimSize}, 5},
	} {
		some := slices.DeleteFunc(slices.Clone(weights), func(w ration.Weight) bool { return !slices.Contains(c.parts, w.Part) })
		for i := range some {
			if c.parts[0] == ration.AimVariety || c.parts[0] == ration.AimMain {
				if some[i].Part == ration.AimSize {
					some[i].Value = 0.25
				}
			}
		}
		p := plates(t, some)
		m := p.model
		seen := 0
		for range 8 {
			x := somePoint(rng, p)
			all := make([]int, len(m.Larder))
			for li := range all {
				all[li] = li
			}
			d, err := newDescent(p, x, 1e9, all, 1000)
			if err != nil {
				t.Fatal(err)
			}
			if d.score != p.value(x, false) {
				t.Errorf("%s: begins at %g, want %g", c.name, d.score, p.value(x, false))
			}
			for _, v := range d.moves() {
				if (v.food >= 0) != (c.parts[0] != ration.AimProduct) || (v.rare >= 0) != (c.parts[0] == ration.AimOften) {
					continue // about something else, besides
				}
				y := slices.Clone(x)
				open := -1
				packs := map[int]float64{}
				for k, j := range v.cols {
					y[j] = math.Min(math.Max(y[j], v.lower[k]), v.upper[k])
					if m.Cols[j].Kind == model.ColBuy {
						packs[m.Cols[j].Larder] += y[j]
						if v.upper[k] > 0 && (open < 0 || y[j] == 0 && v.food >= 0) && m.Cols[j].Larder == m.Cols[v.cols[len(v.cols)-1]].Larder {
							open = j
						}
					}
				}
				if v.rare < 0 && open >= 0 && packs[m.Cols[open].Larder] == 0 { // a pack of what comes in
					y[open] = 1
				}
				if v.food >= 0 && v.rare < 0 {
					got := 0.0
					for _, k := range m.Larder[v.food].Buy {
						got += y[k.Col]
					}
					if got == 0 {
						t.Errorf("%s: portions of %s without a pack", c.name, m.Larder[v.food].Food.Name)
					}
				}
				if want := p.value(x, false) - p.value(y, false); math.Abs(v.gain-want) > 1e-6 {
					var names []string
					for _, j := range v.cols {
						names = append(names, m.Problem.Cols[j].Name)
					}
					t.Fatalf("%s: food %d, rare %d, %q gains %g, want %g", c.name, v.food, v.rare, names, v.gain, want)
				}
				seen++
			}
		}
		if seen < c.least {
			t.Errorf("%s: %d moves were compared", c.name, seen)
		}
	}
}

// TestHalfHavePortions: of three who may eat a food two are to have a portion of it, those first who
// have most of one; each from the least portion on to what they may have.
func TestHalfHavePortions(t *testing.T) {
	weights, err := ration.DefaultWeights()
	if err != nil {
		t.Fatal(err)
	}
	p := plates(t, weights)
	m := p.model
	li := slices.IndexFunc(m.Larder, func(lf *model.LarderFood) bool { return slices.Contains(lf.Food.Kinds, "rice") })
	y := make([]struct{ col, least, most float64 }, 3)
	for ei, e := range m.Eaters {
		eat, ok := e.Eating(li)
		if !ok {
			t.Fatal("somebody eats no rice")
		}
		y[ei].col, y[ei].least, y[ei].most = float64(eat.Col), p.leastOf(ei, li), eat.CapG
	}
	for _, c := range []struct {
		parts [3]float64 // of a least portion
		want  []int
	}{{[3]float64{0, 0.5, 1}, []int{2, 1}}, {[3]float64{1, 0, 2}, []int{0, 2}}, {[3]float64{0.9, 1.2, 0.1}, []int{1, 0}}} {
		x := make([]float64, len(m.Cols))
		for ei, part := range c.parts {
			x[int(y[ei].col)] = part * y[ei].least
		}
		var v move
		p.serve(&v, x, li)
		if len(v.cols) != 2 {
			t.Fatalf("%v: %+v", c.parts, v)
		}
		for k, ei := range c.want {
			if v.cols[k] != int(y[ei].col) || v.lower[k] != y[ei].least || v.upper[k] != y[ei].most {
				t.Errorf("%v: %+v, want %v, each from a portion on", c.parts, v, c.want)
			}
		}
	}
}

// TestPortionOrNothing: what somebody has is a portion, kept from the least or what it is under that
// by rounding, or nothing, and kept so; what lies between is a crumb, of which there is an end by none
// or by a portion, with all others as they are and by itself, for the weight of all who have it.
func TestPortionOrNothing(t *testing.T) {
	one := share{col: 3, least: 100, cap: 400, count: 2}
	for _, c := range []struct {
		has          float64
		lower, upper float64
		decided      bool
	}{{0, 0, 0, true}, {model.Dust, 0, 0, true}, {1, 0, 0, false}, {99.9, 0, 0, false}, {100 * (1 - search.PortionTolerance), 100 * (1 - search.PortionTolerance), 400, true}, {100, 100, 400, true}, {250, 100, 400, true}} {
		var v move
		if got := v.decide(one, c.has); got != c.decided || (len(v.cols) == 1) != c.decided || c.decided && (v.cols[0] != 3 || v.lower[0] != c.lower || v.upper[0] != c.upper) {
			t.Errorf("%g g: decided %v, %+v, want %+v", c.has, got, v, c)
		}
	}
	weights, err := ration.DefaultWeights()
	if err != nil {
		t.Fatal(err)
	}
	p := plates(t, weights)
	rng := rand.New(rand.NewPCG(29, 15))
	for range 5 {
		x := somePoint(rng, p)
		all := make([]int, len(p.model.Larder))
		for li := range all {
			all[li] = li
		}
		d, err := newDescent(p, x, 1e9, all, 1000)
		if err != nil {
			t.Fatal(err)
		}
		crumbs, shares := map[int]float64{}, 0
		at := map[int]int{}
		keep := p.decided(x)
		for k, j := range keep.cols {
			at[j] = k
		}
		for ei, e := range p.model.Eaters {
			for _, y := range e.Eats {
				least := p.leastOf(ei, y.Food)
				if least <= 0 {
					continue
				}
				shares++
				k, ok := at[y.Col]
				want := [2]float64{least, y.CapG}
				switch has := x[y.Col]; {
				case has == 0:
					want = [2]float64{}
				case has < least:
					crumbs[y.Col] = e.Count * weights.Of(ration.AimCrumb)
					want = [2]float64{0, y.CapG}
				}
				if !ok || keep.lower[k] != want[0] || keep.upper[k] != want[1] {
					t.Errorf("%g g of at least %g are held from %g to %g", x[y.Col], least, keep.lower[k], keep.upper[k])
				}
			}
		}
		if len(p.sharesAt(x)) != shares || len(keep.cols) != shares || d.crumbs(x) != (len(crumbs) > 0) {
			t.Errorf("%d shares, %d held, want %d", len(p.sharesAt(x)), len(keep.cols), shares)
		}
		heaviest := 0.0
		for _, w := range crumbs {
			heaviest = math.Max(heaviest, w)
		}
		list := d.crumbMoves(x)
		if len(list) != 4*len(crumbs) {
			t.Fatalf("%d moves for %d crumbs", len(list), len(crumbs))
		}
		for n, v := range list {
			last := len(v.cols) - 1
			j := v.cols[last]
			weight, ok := crumbs[j]
			count := weight / weights.Of(ration.AimCrumb)
			least, most := 0.0, 0.0
			if n%4 >= 2 { // none with the others held and by itself, then a portion likewise
				for _, one := range p.sharesAt(x) {
					if one.col == j {
						least, most = one.least, one.cap
					}
				}
			}
			held := shares - len(crumbs)
			if n%2 == 1 {
				held = 0
			}
			if !ok || last != held || v.lower[last] != least || v.upper[last] != most || math.Abs(v.gain-2*weights.Of(ration.AimCrumb)*count) > 1e-9 || v.food != -1 || v.rare != -1 {
				t.Errorf("move %d: %d columns before it, want %d; from %g to %g, want %g to %g; gains %g", n, last, held, v.lower[last], v.upper[last], least, most, v.gain)
			}
		}
	}
}

// TestFoodsThatMayComeIn: of each kind that variety asks for, and of the proteins of mains, the cheapest
// by the reduced costs of a pack may come in, under nothing counting as nothing; by their prices where
// there are none. No food twice.
func TestFoodsThatMayComeIn(t *testing.T) {
	weights, err := ration.DefaultWeights()
	if err != nil {
		t.Fatal(err)
	}
	p := plates(t, weights)
	reduced := make([]float64, len(p.model.Cols))
	rng := rand.New(rand.NewPCG(29, 16))
	for j := range reduced {
		reduced[j] = float64(rng.IntN(900) - 100)
	}
	for _, first := range []search.Result{{}, {RootReduced: reduced}} {
		near := func(li int) float64 {
			best := math.Inf(1)
			for _, k := range p.model.Larder[li].Buy {
				cost := p.model.Problem.Cols[k.Col].Cost
				if first.RootReduced != nil {
					cost = math.Max(0, reduced[k.Col])
				}
				best = math.Min(best, cost)
			}
			return best
		}
		got := p.additions(first)
		of := [][]int{p.mains.proteins()}
		for _, v := range p.varieties {
			of = append(of, v.foods)
		}
		want := map[int]bool{}
		for _, list := range of {
			for _, li := range list {
				before := 0
				for at, other := range list {
					if near(other) < near(li) || near(other) == near(li) && at < slices.Index(list, li) {
						before++
					}
				}
				if before < addedOfKind {
					want[li] = true
				}
			}
		}
		for _, li := range got {
			if !want[li] {
				t.Errorf("%s comes in", p.model.Larder[li].Food.Name)
			}
			delete(want, li)
		}
		if len(want) > 0 || len(got) < 5 {
			t.Errorf("%d foods come in, without %v", len(got), want)
		}
	}
}

// TestSodiumOfOne: of three rows of people that one counts who is to have little: what she eats of each
// food times what a gram holds. Kept is a fiftieth more than there is, and no more than was allowed.
func TestSodiumOfOne(t *testing.T) {
	weights, err := ration.DefaultWeights()
	if err != nil {
		t.Fatal(err)
	}
	p := plates(t, weights)
	rng := rand.New(rand.NewPCG(29, 17))
	if !Harmed(p.model) || len(p.sodium) != 1 {
		t.Fatalf("%d rows of sodium", len(p.sodium))
	}
	r := &p.sodium[0]
	info := p.model.Rows[r.row]
	allowed := p.model.Problem.Rows[r.row].Upper
	if info.Eater != 2 || info.Nutrient != nutrients.Sodium || r.count != 1 || r.most != allowed {
		t.Errorf("%+v, %+v", r, info)
	}
	for range 4 {
		x := somePoint(rng, p)
		mg := 0.0
		for _, y := range p.model.Eaters[2].Eats {
			mg += x[y.Col] * p.model.Larder[y.Food].Food.Per100g.Known(nutrients.Sodium) / 100
		}
		if math.Abs(r.at(x)-mg) > 1e-6*mg || math.Abs(p.sodiumAt(x)-mg) > 1e-6*mg {
			t.Errorf("%g mg, want %g", r.at(x), mg)
		}
		for _, part := range []float64{0.1, 0.99, 5} {
			for j := range x {
				x[j] *= part * allowed / r.at(x)
			}
			p.keepSodium(x)
			if want := math.Min(allowed, 1.02*r.at(x)); math.Abs(r.most-want) > 1e-9*want {
				t.Errorf("of %g mg %g are kept, want %g", r.at(x), r.most, want)
			}
		}
	}
	r.count = 3
	x := somePoint(rng, p)
	if math.Abs(p.sodiumAt(x)-3*r.at(x)) > 1e-6 {
		t.Errorf("three alike have %g mg, each %g", p.sodiumAt(x), r.at(x))
	}
}

package menu

import (
	"context"
	"math"
	"slices"
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
	"rationwright/solver/simplex"
)

// TestWholePacks: the packs of two days are opened whole, each once, and to take none of them to
// another of its meals brings a ten-thousandth of what all costs.
func TestWholePacks(t *testing.T) {
	c := newTwoDays(t)
	h := c.h
	p := &hosting{program: &program{}, h: h, l: c.l, content: map[*stocked]map[int]int{}, needs: map[need]int{}}
	p.addOpenings(h.of[c.beans])
	p.addOpenings(h.of[c.fish])
	p.addDays(c.ida)
	p.addDays(c.leif)
	x, err := p.whole(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	s, err := simplex.New(p.problem())
	if err != nil {
		t.Fatal(err)
	}
	packs := make([]float64, len(p.opens))
	sums := map[int]float64{}
	for i, v := range p.opens {
		packs[i] = math.Round(x[v.col])
		if math.Abs(x[v.col]-packs[i]) > 1e-6 {
			t.Errorf("%g packs at %d", x[v.col], v.t)
		}
		sums[v.all] += packs[i]
	}
	for row, n := range sums {
		if n != p.Rows[row].Upper {
			t.Errorf("%g packs are opened of %g", n, p.Rows[row].Upper)
		}
	}
	value := func() float64 {
		for i, v := range p.opens {
			s.SetBounds(v.col, packs[i], packs[i])
		}
		r := s.Solve(context.Background(), simplex.Limits{})
		if r.Status != simplex.Optimal {
			return math.Inf(1)
		}
		return r.Value
	}
	all := value()
	if cost := p.CostAt(x); math.Abs(cost-all) > 1e-6*all {
		t.Errorf("a point that costs %g, with these packs %g is the least", cost, all)
	}
	moves := 0
	for from, a := range p.opens {
		for to, b := range p.opens {
			if from == to || a.all != b.all || packs[from] < 1 {
				continue
			}
			packs[from]--
			packs[to]++
			if other := value(); other < all*(1-1e-4)-1e-6 {
				t.Errorf("a pack of %s from %d to %d brings %g of %g", a.food.food.Name, a.t, b.t, all-other, all)
			}
			packs[from]++
			packs[to]--
			moves++
		}
	}
	if moves < 12 { // of 3, 5, 5 and 2 meals
		t.Errorf("%d moves: the test shows little", moves)
	}

	// The openings of the household are those: each pack once, at one of the meals where it may be.
	if err := h.host(context.Background(), c.l); err != nil {
		t.Fatal(err)
	}
	for _, f := range []struct {
		food  *foods.Food
		grams float64
		at    map[int]int // last meal, by first
	}{{c.beans, 150, map[int]int{1: 1, 2: 2, 3: 3, 6: 6, 8: 8}}, {c.fish, 140, map[int]int{0: 4, 5: 9}}} {
		all := 0.0
		before := -1
		for _, o := range h.of[f.food].openings {
			if last, ok := f.at[o.from]; !ok || o.last != last || o.from <= before {
				t.Errorf("%s is open from %d to %d", f.food.Name, o.from, o.last)
			}
			before = o.from
			all += o.grams
			if contentOf(o.packs) != o.grams {
				t.Errorf("%g g of %s in %g g of packs", o.grams, f.food.Name, contentOf(o.packs))
			}
		}
		if all != f.grams {
			t.Errorf("%g g of %s are opened of %g", all, f.food.Name, f.grams)
		}
	}
}

// TestPartsForWhichNothingIsOpen: of a dish at midday of the second day, whose beans are opened
// on the first and whose oil is open on the second evening alone, Ida has rice only; her goals
// of the other parts stand.
func TestPartsForWhichNothingIsOpen(t *testing.T) {
	c := newTwoDays(t)
	h := c.h
	c.ida.may = nil
	h.of[c.oil].openings = []*opening{{from: 9, last: 9}}
	stew := dishOf("stew", "boil", 20, nil, "base", c.rice, "vegetable", c.beans, "fat?", c.oil, "more?", c.fish)
	l := make(layout, 2*meals)
	l[7].main = stew
	p := &hosting{program: &program{}, h: h, l: l, content: map[*stocked]map[int]int{h.of[c.beans]: {2: p0}}, needs: map[need]int{}}
	h.eaters = h.eaters[:1]
	h.of[c.fish].openings = []*opening{{from: 5, last: 9}}
	p.row(-inf, 0)
	var served []*stocked
	p.addChoice(c.ida, 7, stew, func(y int, s *stocked, at int) {
		if at != 7 {
			t.Errorf("%s at %d", s.food.Name, at)
		}
		served = append(served, s)
	})
	w := &wanted{t: t}
	w.row("beans of the first day", -inf, 0)
	w.row("rice", 50, 200)
	w.over("rice", 80, 3.6, 21.6)
	w.col("thin", 21.6, inf, at{"rice": 1})
	w.row("rice bare", 27.5, inf)
	w.col("bare", 21.6, inf, at{"rice bare": 1})
	w.col("rice", 0, 1000, at{"rice": 1, "rice bare": 1})
	w.row("beans", 50, 200)
	w.over("beans", 80, 1, 6)
	w.col("thin", 6, inf, at{"beans": 1})
	w.missed("need", 1, inf, 1000)
	w.row("oil", -inf, 200)
	w.over("oil", 80, 9, 54)
	w.row("fish", -inf, 200)
	w.over("fish", 80, 2, 12)
	w.col("fish", 0, 150, at{"fish": 1})
	w.compare(p.program)
	if want := []*stocked{h.of[c.rice], h.of[c.fish]}; !slices.Equal(served, want) {
		t.Errorf("%d foods are had, want rice and fish", len(served))
	}
}

// p0 is the first row of a program.
const p0 = 0

// TestOpenUntil: what is opened stands open for the meals of its day that begin within the hours
// that it keeps: at half past 7, half past 10, 13, 16 and 19; what is finished at its meal for
// that.
func TestOpenUntil(t *testing.T) {
	for _, c := range []struct {
		hours    float64
		at, last int // from 0
		meal     bool
	}{
		{2.9, 0, 0, false}, {3, 0, 1, false}, {5.4, 0, 1, false}, {5.5, 0, 2, false}, {11.5, 0, 4, false}, {5, 2, 3, false}, {6, 2, 4, false}, {24, 4, 4, false}, {24, 3, 4, false},
		{5, 7, 8, false}, {24, 6, 9, false}, {2, 7, 7, true}, {24, 7, 7, true},
	} {
		f := &foods.Food{Keeping: &foods.Keeping{AfterOpenHours: c.hours}}
		large, small := opened{&foods.Pack{NetG: 300}, noDate}, opened{&foods.Pack{NetG: 100}, "2026-01-05"}
		s := &stocked{food: f, meal: c.meal, packs: []opened{small, large, large}}
		p := &hosting{program: &program{}, opens: []packsAt{{food: s, kind: large, t: c.at, col: 0}, {food: &stocked{}, kind: small, t: c.at, col: 1}, {food: s, kind: small, t: c.at, col: 2}, {food: s, kind: large, t: c.at + 5, col: 3}}}
		p.open(s, []float64{1, 1, 1, 1})
		if len(s.openings) != 2 {
			t.Fatalf("%+v: %d openings", c, len(s.openings))
		}
		if o := s.openings[0]; o.from != c.at || o.last != c.last || o.grams != 400 || !slices.Equal(o.packs, []opened{large, small}) {
			t.Errorf("%+v: %+v", c, *o)
		}
		if o := s.openings[1]; o.from != c.at+5 || o.last != c.last+5 || o.grams != 300 || !slices.Equal(o.packs, []opened{large}) {
			t.Errorf("%+v: %+v", c, *o)
		}
	}
}

// TestOpenedAtEachServing: a can of what is finished at its meal is opened at each serving of a
// part that nothing else makes: two of Ida's 200 g and Leif's twice 50 g of three cans, of 300
// g, are a hundredth a gram. A part that can be left, or that something else makes that keeps,
// needs none.
func TestOpenedAtEachServing(t *testing.T) {
	for _, c := range []struct {
		name string
		role string
		rice bool // may be had in place of it
		want bool
	}{{"beans", "protein", false, true}, {"beans or rice", "protein", true, false}, {"beans that can be left", "protein?", false, false}} {
		two := newTwoDays(t)
		h := two.h
		two.ida.may, two.ida.grams, two.leif.grams = nil, map[*foods.Food]float64{two.beans: 200, two.rice: 10}, map[*foods.Food]float64{two.beans: 50, two.rice: 10}
		s := h.of[two.beans]
		s.grams, s.packs, h.heads, h.book = 300, s.packs[:3], 2, &dishes.Book{}
		soup := dishOf("soup", "boil", 20, []dishes.Slot{dishes.Evening, dishes.Drink}, c.role, two.beans)
		if c.rice {
			soup.parts[0].options = append(soup.parts[0].options, dishes.Option{Food: two.rice, Factor: 1})
		}
		g := newChoosing(h, []*candidate{soup.candidate})
		g.add(0)
		row := len(g.Rows) - 1
		got := map[int]float64{}
		for j := range g.Cols {
			for _, y := range g.Cols[j].Entries {
				if y.Row == row {
					got[j] = y.Value
				}
			}
		}
		want := map[int]float64{g.n[0][atMains]: -1, g.n[0][atDrinks]: -1, g.diners[0].plates[0][0].col: 0.01, g.diners[1].plates[0][0].col: 0.02}
		same := len(got) == len(want) && g.Rows[row].Lower == 0 && math.IsInf(g.Rows[row].Upper, 1)
		for j, v := range want {
			same = same && math.Abs(got[j]-v) < 1e-12
		}
		if same != c.want {
			t.Errorf("%s: the last row is %v, that of the cans %v: %v", c.name, got, want, c.want)
		}
	}
}

// TestSmallLimits: a limit of 0.5 of what a gram counts whole holds as any other, each week of
// one of seven days apart; one of nothing is none, and neither is one that all there is cannot
// pass.
func TestSmallLimits(t *testing.T) {
	table := newTable(t)
	seed, rice := table.add("seed", 500), table.add("rice", 360)
	counts := func(each float64) func(*foods.Food) float64 {
		return func(f *foods.Food) float64 { return map[*foods.Food]float64{seed: each}[f] }
	}
	e := &eater{grams: map[*foods.Food]float64{seed: 30, rice: 900}, limits: []rules.Limit{
		{Most: 0.5, Days: 1, Counts: counts(0.2)}, {Most: 0, Days: 1, Counts: counts(1)}, {Most: 30, Days: 1, Counts: counts(1)}, {Most: 29, Days: 7, Counts: counts(1)},
	}}
	p := &program{}
	list := p.limit(e, 8, 3, func(*foods.Food) float64 { return 1000 })
	j := p.col(0, 30)
	list.add(p, 6, j, seed)
	list.add(p, 7, j, seed)
	list.add(p, 7, j, rice)
	w := &wanted{t: t}
	for d := range 8 { // 0.45 of what it costs not to eat a gram, for a fifth of one
		name := string(rune('0' + d))
		w.row(name, -inf, 0.5)
		w.over(name, 0.5, 3*2250, 6*2250)
	}
	for _, week := range []string{"first", "second"} {
		w.row(week, -inf, 29)
		w.over(week, 29, 3*450, 6*450)
	}
	w.col("seed", 0, 30, at{"6": 0.2, "7": 0.2, "first": 1, "second": 1})
	w.compare(p)
	if got := e.dayMost(seed); got != 0 { // of the strictest of a day: that of nothing
		t.Errorf("%g g a day", got)
	}
	e.limits = e.limits[:1]
	if got := e.dayMost(seed); got != 2.5 || !math.IsInf(e.dayMost(rice), 1) {
		t.Errorf("%g g a day, want 2.5", got)
	}
}

// TestSidesAndChildren: a side repeats a dish that it makes the base or the protein of, no
// vegetable of it and no drink; dishes for those under any age are none of the household's.
func TestSidesAndChildren(t *testing.T) {
	table := newTable(t)
	beans, rice := table.add("beans", 100), table.add("rice", 360)
	drink := []dishes.Slot{dishes.Drink}
	for _, c := range []struct {
		name       string
		side, main *choice
		want       bool
	}{
		{"the protein", dishOf("side", "none", 1, nil, "base", beans), dishOf("main", "none", 1, nil, "base", rice, "protein", beans), true},
		{"the base", dishOf("side", "none", 1, nil, "base", beans), dishOf("main", "none", 1, nil, "base", beans), true},
		{"a vegetable of it", dishOf("side", "none", 1, nil, "base", beans), dishOf("main", "none", 1, nil, "base", rice, "vegetable", beans), false},
		{"what can be left", dishOf("side", "none", 1, nil, "base", beans), dishOf("main", "none", 1, nil, "base", rice, "protein?", beans), false},
		{"not its base", dishOf("side", "none", 1, nil, "base", rice, "protein", beans), dishOf("main", "none", 1, nil, "protein", beans), false},
		{"a drink", dishOf("side", "none", 1, nil, "base", beans), dishOf("main", "none", 1, drink, "base", beans), false},
	} {
		if got := sameMain(c.side.dish, c.main.dish); got != c.want {
			t.Errorf("%s: the same %v, want %v", c.name, got, c.want)
		}
	}
	e := &eater{count: 1, size: 1, person: &nutrients.Person{AgeMonths: 0}, grams: map[*foods.Food]float64{rice: 1}}
	h := &household{days: 2, heads: 1, cook: ration.CookBoil, foods: table.foods, of: table.of, eaters: []*eater{e}, book: &dishes.Book{}}
	for _, under := range []int{0, 1, 2} {
		d := dishOf("bowl", "none", 1, nil, "base", rice).dish
		d.UnderMonths = under
		h.book.Dishes = []*dishes.Dish{d}
		if got, want := len(h.candidates()), map[int]int{0: 1}[under]; got != want {
			t.Errorf("under %d months: %d dishes of the household, want %d", under, got, want)
		}
	}
}

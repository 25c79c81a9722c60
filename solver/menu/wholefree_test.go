package menu

import (
	"maps"
	"math"
	"slices"
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/rules"
	"rationwright/solver/search"
)

// modelByHand is a model of a plan of one bag of 450 g of rice for Una and for Leif, who are
// two, at the point at which Una eats 150 g of rice, 160 g of beans, of which 155 g are the
// least, 40 g of fish and 20 g of oil, of which 50 g were the least, and Leif 150 g of rice
// each, milk that he is fed, jam that is on no plate, more fish than he may and a trace of peas
// for which there is no pack.
func modelByHand(c *twoDays) *freeGrams {
	m := &model.Model{Problem: &linear.Problem{}}
	p := m.Problem
	jam, peas, milk := &foods.Food{Name: "jam"}, &foods.Food{Name: "peas"}, &foods.Food{Name: "formula", Tags: []string{foods.TagInfantFormula}}
	c.h.of[peas], c.h.of[milk] = &stocked{food: peas}, &stocked{food: milk, feed: true}
	for li, f := range []*foods.Food{c.rice, c.beans, c.fish, c.oil, milk, jam, peas} {
		food := &model.LarderFood{Food: f, Balance: -1}
		switch li {
		case 0:
			food.Balance, food.Buy = 0, []model.PackCol{{Col: 0}}
		case 6:
			food.Balance = 0
		}
		m.Larder = append(m.Larder, food)
	}
	balance, stored, least := p.AddRow("rice", -inf, 0), p.AddRow("stored", -inf, 0), p.AddRow("beans", 0.16, inf)
	p.Rows[0].Lazy, p.Rows[2].Lazy = true, true
	p.AddCol("bags", 5, 0, 10, true)
	p.Set(balance, 0, -450)
	eaters := []*model.Eater{{Person: nutrients.Person{Name: "Una"}}, {Person: nutrients.Person{Name: "Leif"}}}
	m.Eaters = eaters
	eats := func(e *model.Eater, food int, cost, lower, upper float64) int {
		j := p.AddCol("", cost, lower, upper, false)
		n := len(e.Eats)
		e.Eats = slices.Grow(e.Eats, 1)[:n+1]
		e.Eats[n].Food, e.Eats[n].Col = food, j
		return j
	}
	una, leif := eaters[0], eaters[1]
	rice, beans := eats(una, 0, 0.1, 0, 500), eats(una, 1, 0.2, 155, 300)
	p.Set(balance, rice, 1)
	p.Set(stored, rice, 0.002)
	p.Set(least, beans, 0.001)
	eats(una, 2, 0, 0, 80)
	eats(una, 3, 0.3, 50, 100)
	p.Set(balance, eats(leif, 0, 0.4, 0, 400), 2)
	eats(leif, 4, 0.5, 0, 200)
	eats(leif, 5, 0.6, 0, 100)
	eats(leif, 6, 0, 0, 100)
	eats(leif, 2, 0, 0, 80)
	dated, litres := p.AddCol("dated", 0.7, 0, 300, false), p.AddCol("litres", 2, 0, inf, false)
	p.Set(stored, litres, -1)
	m.Cols = slices.Grow(m.Cols, len(p.Cols))[:len(p.Cols)]
	m.ByDate = slices.Grow(m.ByDate, 1)[:1]
	m.ByDate[0].Col = dated
	point := []float64{0.9999999, 150, 160, 40, 20, 150, 50, 5, 1e-10, 90, 30, 0.5}
	return &freeGrams{model: m, point: point, foods: c.h.of, most: 1000, stored: stored}
}

// between writes down a column of a model.
func (w *wanted) between(name string, cost, lower, upper float64, in at) {
	w.cols = append(w.cols, colWanted{name, cost, lower, upper, false, in})
}

// modelled is what stands for the model in a program whose grams are free. The rows that bind
// get a thousand-millionth of what is added up in them, or of 1: of rice 150 + 300 + 450 g, of
// beans 0.16.
func modelled(t *testing.T) *wanted {
	w := &wanted{t: t}
	w.row("balance", -inf, 9e-7)
	w.row("stored", -inf, 0)
	w.row("least", 0.16-1e-9, inf)
	w.cols = append(w.cols, colWanted{"bags", 5, 1, 1, true, at{"balance": -450, "most": 5}})
	w.between("Una's rice", 0.1, 150, 150, at{"balance": 1, "stored": 0.002, "most": 0.1})
	w.between("Una's beans", 0.2, 160, 160, at{"least": 0.001, "most": 0.2})
	w.between("Una's fish", 0, 40, 40, nil)
	w.between("Una's oil", 0.3, 50, 100, at{"most": 0.3}) // the point is under it
	w.between("Leif's rice", 0.4, 150, 150, at{"balance": 2, "most": 0.4})
	w.between("Leif's milk", 0.5, 50, 50, at{"most": 0.5})
	w.between("Leif's jam", 0.6, 0, 0, at{"most": 0.6})
	w.between("Leif's peas", 0, 0, 0, nil)
	w.between("Leif's fish", 0, 0, 80, nil)
	w.between("dated", 0.7, 30, 30, at{"most": 0.7})
	w.between("litres", 2, 0, inf, at{"stored": -1, "most": 2})
	w.between("less of Una's rice", -0.1, 0, 0, at{"balance": -1, "stored": -0.002, "most": -0.1})
	w.between("less of Una's beans", -0.2, 0, 0, at{"least": -0.001, "most": -0.2})
	w.between("less of Una's fish", 0, 0, 0, nil)
	w.between("less of Leif's rice", -0.4, 0, 0, at{"balance": -2, "most": -0.4})
	w.row("most", -inf, 1000)
	return w
}

// TestModelOfFreeGrams: the model of a plan with its packs, milk and dated food as they are, each
// place by hand, and what loosening it lets.
func TestModelOfFreeGrams(t *testing.T) {
	c := newTwoDays(t)
	free := modelByHand(c)
	p := &program{Problem: *free.problem()}
	modelled(t).compare(p)
	for i, r := range p.Rows {
		if r.Lazy {
			t.Errorf("row %d is kept only where it is missed", i)
		}
	}
	if free.point[8] != 0 { // the trace of peas
		t.Errorf("%g g of peas at the point", free.point[8])
	}
	if got, want := free.less, (map[int]int{1: 12, 2: 13, 3: 14, 5: 15}); !maps.Equal(got, want) {
		t.Errorf("less of %v, want %v", got, want)
	}
	for _, v := range []struct {
		who  string
		food *foods.Food
		want int
	}{{"Una", c.rice, 1}, {"Una", c.oil, 4}, {"Leif", c.rice, 5}, {"Leif", c.fish, 9}, {"Leif", c.beans, -1}, {"nobody", c.rice, -1}} {
		if got := free.column(&eater{name: v.who}, v.food); got != v.want {
			t.Errorf("%s of %s is column %d, want %d", v.food.Name, v.who, got, v.want)
		}
	}
	s, err := search.Relax(p.problem())
	if err != nil {
		t.Fatal(err)
	}
	bounds := func(said string, want map[int][2]float64) {
		t.Helper()
		for j, b := range want {
			if lower, upper := s.Solver.Bounds(j); lower != b[0] || upper != b[1] {
				t.Errorf("%s: column %d from %g to %g, want %v", said, j, lower, upper, b)
			}
		}
	}
	free.loosen(s, p)
	// no less than at the point but by the other column: down to nothing, beans to their 155 g
	bounds("loosened", map[int][2]float64{1: {150, 500}, 12: {0, 150}, 2: {160, 300}, 13: {0, 5}, 3: {40, 80}, 14: {0, 40}, 5: {150, 400}, 15: {0, 150}, 4: {50, 100}})
	free.fix(s)
	bounds("fixed", map[int][2]float64{1: {150, 150}, 12: {0, 0}, 2: {160, 160}, 13: {0, 0}, 3: {40, 40}, 14: {0, 0}, 5: {150, 150}, 15: {0, 0}, 4: {50, 100}})
	x := slices.Clone(free.point)
	x = append(x, 30, 20, 10, 5)
	free.takeLess(x)
	if want := []float64{0.9999999, 120, 140, 30, 20, 145}; !slices.Equal(x[:6], want) {
		t.Errorf("%v are eaten, want %v", x[:6], want)
	}
}

// TestRoomAtThePoint: of a row that adds up to 100, a limit within a thousand-millionth of that or
// missed by less than a ten-millionth, 1e-7 and 1e-5, is moved to 1e-7 beyond the 100; of one that
// adds up to a half these are parts of 1.
func TestRoomAtThePoint(t *testing.T) {
	for _, c := range []struct{ x, lower, upper, wantLower, wantUpper float64 }{
		{100, 100, 200, 100 - 1e-7, 200}, {100, 100 - 9e-8, 200, 100 - 1e-7, 200}, {100, 100 - 2e-7, 200, 100 - 2e-7, 200},
		{100, 100 + 9e-6, 200, 100 - 1e-7, 200}, {100, 100 + 2e-5, 200, 100 + 2e-5, 200},
		{100, 0, 100, 0, 100 + 1e-7}, {100, 0, 100 + 9e-8, 0, 100 + 1e-7}, {100, 0, 100 + 2e-7, 0, 100 + 2e-7},
		{100, 0, 100 - 9e-6, 0, 100 + 1e-7}, {100, 0, 100 - 2e-5, 0, 100 - 2e-5},
		{0.5, 0.5 - 9e-10, 1, 0.5 - 1e-9, 1}, {0.5, 0.5 - 2e-9, 1, 0.5 - 2e-9, 1}, {0.5, 0, 0.5 - 9e-8, 0, 0.5 + 1e-9}, {0.5, 0, 0.5 - 2e-7, 0, 0.5 - 2e-7},
	} {
		p := &linear.Problem{}
		p.AddRow("", c.lower, c.upper)
		p.Set(0, p.AddCol("", 0, 0, c.x, false), 1)
		g := &freeGrams{point: []float64{c.x + 7}} // beyond the column's end
		g.roomAt(p)
		if r := p.Rows[0]; math.Abs(r.Lower-c.wantLower) > 1e-12*c.x || math.Abs(r.Upper-c.wantUpper) > 1e-12*c.x {
			t.Errorf("%g from %.10f to %.10f: now %.10f to %.10f, want %.10f to %.10f", c.x, c.lower, c.upper, r.Lower, r.Upper, c.wantLower, c.wantUpper)
		}
	}
}

// TestProgramOfFreeServings: the program of who gets what where what Una eats is free within the
// model, each place of it by hand, with the stew at midday alone. What its rice takes more is
// stored with the spare that water.csv gives.
func TestProgramOfFreeServings(t *testing.T) {
	c := newTwoDays(t)
	h := c.h
	free := modelByHand(c)
	una := c.ida
	una.name, una.steady = "Una", nil
	water := 150.0
	c.stew.parts[0].part.WaterML = &water
	l := make(layout, 2*meals)
	l[2].main = c.stew
	now, day := &opening{grams: 150, from: 2, last: 2}, &opening{grams: 40, from: 0, last: 4}
	h.of[c.beans].openings, h.of[c.fish].openings = []*opening{now}, []*opening{day}
	servings, p := h.shareProgram(l, []*eater{una}, h.openings(), free)

	w := modelled(t)
	w.row("beans open", -inf, 150)
	w.row("fish open", -inf, 40)
	w.missed("water", -inf, 0, 10000)
	for _, f := range []string{"rice", "beans", "fish", "oil"} {
		w.row("Una "+f, 0, 0)
		w.add("Una's "+f, at{"Una " + f: -1})
		if f != "oil" {
			w.add("less of Una's "+f, at{"Una " + f: 1})
		}
	}
	w.col("Una kcal", 0, inf, at{"energy all": -2})
	w.row("energy all", 0, 0)
	w.col("Una mean protein", 0, inf, at{"protein all": -2})
	w.row("protein all", 0, 0)
	unaDay := func(day string) {
		low, high := "Una energy low"+day, "Una energy high"+day
		w.row(low, 0, inf)
		w.row(high, -inf, 0)
		w.col("a little under", 18, 2.375, at{low: 1}) // 0.5 % of 475 kcal at three times 6, then 40
		w.col("a little over", 18, 2.375, at{high: -1})
		w.col("far under", 40, inf, at{low: 1})
		w.col("far over", 40, inf, at{high: -1})
		w.add("Una kcal", at{low: -0.91, high: -1.09})
		w.near("Una protein", "Una mean protein", 0, 0.18, 180, day)
		w.near("Una far", "Una mean protein", 0, 0.315, 720, day)
	}
	open, day0 := at{"fish open": 1}, at{"Una fish day": 1}
	unaDay(" 0")
	w.beside("Una", 0, "rice", 1000, nil, nil)
	w.beside("Una", 0, "fish", 150, day0, open)
	w.beside("Una", 0, "oil", 1000, nil, nil)
	w.serve("Una", 2, "stew/rice", "rice", 0, 1000, at{"stored": -0.0015 * rules.WaterFigure().SpillFactor, "stew rice": 1, "stew rice bare": 1, "rice at 2": 1, "oil with rice": -1. / 50})
	w.partFree("stew rice", 50, 200, 3.6, true, 4)
	w.serve("Una", 2, "stew/beans", "beans", 0, 100, at{"beans open": 1, "stew beans": 1, "stew beans bare": 1, "beans at 2": 1})
	w.serve("Una", 2, "stew/beans", "fish", 0.02, 150, open, day0, at{"stew beans": 2, "stew beans bare": 2})
	w.serve("Una", 2, "stew/beans", "rice", 0.02, 1000, at{"stew beans": 1.25, "stew beans bare": 1.25, "rice at 2": 1})
	w.partFree("stew beans", 50, 200, 1, true, 4)
	w.serve("Una", 2, "stew/oil", "oil", 0, 1000, at{"stew oil": 1, "oil with rice": 1. / 200})
	w.row("stew oil", -inf, 200)
	w.over("stew oil", 80, 9, 54)
	w.row("oil with rice", -inf, 0)
	w.beside("Una", 2, "beans", 100, at{"beans at 2": 1}, at{"beans open": 1})
	w.beside("Una", 4, "fish", 150, day0, open)
	unaDay(" 1")
	w.beside("Una", 5, "rice", 1000, nil, nil)
	w.beside("Una", 5, "oil", 1000, nil, nil)
	w.sitting("Una fish day", 150, 60)
	w.sitting("rice at 2", 1000, 108)
	w.sitting("beans at 2", 100, 30)
	w.compare(p)
	if len(servings) != w.served || len(p.uneaten) != 0 {
		t.Errorf("%d servings, want %d, %d columns of what is not eaten, want none", len(servings), w.served, len(p.uneaten))
	}
}

// TestBesideOnColdDays: what is not eaten cold is not had beside the dishes where nothing is
// heated, an infant has what keeps at each main meal, and what an own dish leaves open is where
// it is open.
func TestBesideOnColdDays(t *testing.T) {
	c := newTwoDays(t)
	h := c.h
	h.cold[1] = true
	c.rice.Preparation = &foods.Preparation{Class: "boil"}
	h.of[c.beans].openings, h.of[c.fish].openings = []*opening{{grams: 150, from: 1, last: 1}}, []*opening{{grams: 140, from: 6, last: 9}}
	bo := &eater{name: "Bo", count: 1, size: 0.4, infant: true, person: &nutrients.Person{AgeMonths: 9}, grams: map[*foods.Food]float64{c.rice: 30, c.fish: 10}}
	ida := &eater{name: "Ida", count: 1, size: 1, person: c.ida.person, grams: c.ida.grams}
	for _, v := range []struct {
		e    *eater
		want map[string][]int // meals, by food
	}{
		// fish is for the evening and where it is opened; rice and oil for breakfast
		{ida, map[string][]int{"rice": {0}, "beans": {1}, "fish": {6, 9}, "oil": {0, 5}}},
		{bo, map[string][]int{"rice": {0, 2, 4}, "fish": {6, 7, 9}}},
	} {
		got := map[string][]int{}
		for at := range 2 * meals {
			h.addBeside(v.e, at, nil, func(s serving, cost, upper float64) int {
				if s.eater != v.e || s.t != at || s.of != nil || s.part != nil {
					t.Errorf("%+v", s)
				}
				if name := s.food.food.Name; !math.IsInf(upper, 1) {
					got[name] = append(got[name], at)
				}
				return 0
			})
		}
		for name := range also(atOf(got), atOf(v.want)) {
			if !slices.Equal(got[name], v.want[name]) {
				t.Errorf("%s has %s beside the dishes at %v, want %v", v.e.name, name, got[name], v.want[name])
			}
		}
	}
	// Rice is eaten with oil at the last meal of a day whose dish is of it, heated or not.
	c.rice.Companions, c.oil.Companions = []string{"oil"}, []string{"fish"}
	ida.infant, ida.band = false, nil
	l := make(layout, 2*meals)
	l[0].main, l[2].main, l[4].main = dishOf("a", "none", 1, nil, "fat", c.oil), dishOf("b", "none", 1, nil, "fat?", c.oil), dishOf("c", "none", 1, nil, "base", c.beans)
	l[7].main, l[6].own = dishOf("d", "none", 1, nil, "fat", c.oil, "protein", c.fish), []ownDish{{ida, dishOf("e", "none", 1, []dishes.Slot{dishes.Snack}, "protein", c.fish)}}
	with := l.companionMeals(h, ida)
	for _, v := range []struct {
		food *foods.Food
		want []int
	}{{c.rice, []int{2}}, {c.oil, []int{7}}} { // rice on no cold day, oil on the one where fish is at midday
		var got []int
		for at := range l {
			if with[h.of[v.food]][at] {
				got = append(got, at)
			}
		}
		if !slices.Equal(got, v.want) {
			t.Errorf("%s is eaten with others at %v, want %v", v.food.Name, got, v.want)
		}
	}
	if len(with) != 2 || len(l.companionMeals(h, bo)) != 0 {
		t.Errorf("%d foods of Ida and %d of Bo are eaten with others", len(with), len(l.companionMeals(h, bo)))
	}
}

func atOf(m map[string][]int) at {
	all := at{}
	for name := range m {
		all[name] = 1
	}
	return all
}

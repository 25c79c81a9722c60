package menu

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// ownPlaces are the positions at which e has d as a dish of their own.
func ownPlaces(l layout, e *eater, d *dishes.Dish) []int {
	var list []int
	for at := range l {
		for _, o := range l[at].own {
			if o.eater == e && o.dish == d {
				list = append(list, at)
			}
		}
	}
	return list
}

// TestPlacesOfSnacks: a cup of 100 g of what is open is had where it is, in the afternoon, in
// the forenoon, in the evening, at breakfast and at midday; what keeps is had once a day at each
// meal in turn, what is cooked, of which a quarter counts, while the stove is lit, and of beans
// not for breakfast.
func TestPlacesOfSnacks(t *testing.T) {
	for _, c := range []struct {
		name    string
		cooking string
		group   string
		days    int
		grams   float64
		open    [][2]int // nil: keeps
		want    []int
	}{
		{"open for a day", "none", "", 1, 100, [][2]int{{0, 4}}, []int{3}}, {"two", "none", "", 1, 101, [][2]int{{0, 4}}, []int{1, 3}}, {"three", "none", "", 1, 300, [][2]int{{0, 4}}, []int{1, 3, 4}},
		{"four", "none", "", 1, 400, [][2]int{{0, 4}}, []int{0, 1, 3, 4}}, {"five", "none", "", 1, 500, [][2]int{{0, 4}}, []int{0, 1, 2, 3, 4}},
		{"over two openings", "none", "", 2, 200, [][2]int{{0, 4}, {5, 9}}, []int{3, 8}}, {"a little more", "none", "", 2, 201, [][2]int{{0, 4}, {5, 9}}, []int{1, 3, 6, 8}},
		{"in part of a day", "none", "", 1, 200, [][2]int{{2, 4}}, []int{3, 4}}, {"at one meal", "none", "", 1, 200, [][2]int{{2, 2}}, []int{2}}, {"not open yet", "none", "", 1, 200, [][2]int{{-1, -1}}, nil},
		{"keeps", "none", "", 2, 100, nil, []int{3}}, {"both days", "none", "", 2, 200, nil, []int{3, 8}}, {"three times", "none", "", 2, 201, nil, []int{1, 3, 8}}, {"five times", "none", "", 2, 500, nil, []int{1, 3, 4, 6, 8}},
		{"seven", "none", "", 2, 700, nil, []int{0, 1, 3, 4, 6, 8, 9}}, {"nine", "none", "", 2, 900, nil, []int{0, 1, 2, 3, 4, 5, 6, 8, 9}},
		{"cooked", "boil", "", 1, 25, nil, []int{4}}, {"cooked twice", "boil", "", 1, 26, nil, []int{2, 4}}, {"cooked, three", "boil", "", 1, 75, nil, []int{0, 2, 4}}, {"cooked, four", "boil", "", 1, 100, nil, []int{0, 2, 4}},
		{"beans", "boil", "canned beans", 1, 75, nil, []int{2, 4}},
	} {
		table := newTable(t)
		f := table.add("food", 100)
		f.Group = c.group
		s := table.of[f]
		for _, o := range c.open {
			s.openings = append(s.openings, &opening{from: o[0], last: o[1]})
		}
		e := &eater{name: "Ida", size: 1, count: 1, person: &nutrients.Person{AgeMonths: 400}, grams: map[*foods.Food]float64{f: 500}}
		cup := dishOf("cup", c.cooking, 5, []dishes.Slot{dishes.Drink}, "base", f)
		h := &household{days: c.days, eaters: []*eater{e}, foods: table.foods, of: table.of}
		l := make(layout, c.days*meals)
		h.snack(l, e, s, []*choice{dishOf("meal", "none", 5, []dishes.Slot{dishes.Midday}, "base", f), cup}, c.grams)
		if got := ownPlaces(l, e, cup.dish); !slices.Equal(got, c.want) {
			t.Errorf("%s: at %v, want %v", c.name, got, c.want)
		}
		h.snack(l, e, s, nil, c.grams) // of which no dish is made
	}
}

// TestOwnOfWhatIsBeside: of what somebody of full size eats beside the dishes in two days that
// is a snack of their own which gives 12 kcal or more, of which a gram counts half a kcal at
// least; what gives most comes first, and two at most are at a place. What is in a dish, or
// another's, is none.
func TestOwnOfWhatIsBeside(t *testing.T) {
	type eats struct {
		food  string
		grams float64
	}
	for _, c := range []struct {
		name string
		eats []eats
		want []string
	}{
		{"12 kcal", []eats{{"nuts", 2}}, []string{"nuts"}}, {"less", []eats{{"nuts", 1.99}}, nil}, {"in two parts", []eats{{"nuts", 1}, {"nuts", 1}}, []string{"nuts"}},
		{"as half a kcal a gram", []eats{{"tea", 24}}, []string{"tea"}}, {"less of that", []eats{{"tea", 23.9}}, nil},
		{"most first", []eats{{"tea", 100}, {"nuts", 20}, {"plums", 100}}, []string{"nuts", "plums"}}, {"more tea", []eats{{"tea", 2000}, {"nuts", 20}, {"plums", 100}}, []string{"tea", "nuts"}},
	} {
		table := newTable(t)
		food := map[string]*foods.Food{"tea": table.add("tea", 10), "plums": table.add("plums", 60), "nuts": table.add("nuts", 600)}
		e := &eater{name: "Ida", size: 1, count: 1, person: &nutrients.Person{AgeMonths: 400}, grams: map[*foods.Food]float64{}}
		other := &eater{name: "Leif", size: 1, count: 1, person: e.person, grams: e.grams}
		h := &household{days: 2, cook: ration.CookBoil, eaters: []*eater{other, e}, foods: table.foods, of: table.of, cold: map[int]bool{}, book: &dishes.Book{}}
		for name, f := range food {
			e.grams[f] = 1
			table.of[f].openings = []*opening{{from: 8, last: 8}}
			h.book.Dishes = append(h.book.Dishes, dishOf(name, "none", 5, []dishes.Slot{dishes.Snack}, "base", f).dish)
		}
		l := make(layout, 2*meals)
		main := dishOf("main", "none", 5, nil, "vegetable", food["nuts"])
		servings := []serving{{eater: e, t: 2, of: main, part: &main.parts[0], food: table.of[food["nuts"]], grams: 500}}
		for _, v := range c.eats {
			servings = append(servings, serving{eater: e, t: 0, food: table.of[food[v.food]], grams: v.grams})
		}
		h.addOwn(l, servings)
		var got []string
		for at := range l {
			for _, o := range l[at].own {
				if at != 8 || o.eater != e {
					t.Errorf("%s: %s of %s at %d", c.name, o.dish.Key, o.eater.name, at)
				}
				got = append(got, o.dish.Key)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// TestSnacksOfColdDays: on a cold day whoever is no infant may have what keeps, is eaten cold
// and has 3 kcal a gram, between meals and beside the evening's.
func TestSnacksOfColdDays(t *testing.T) {
	for _, c := range []struct {
		name string
		kcal float64
		set  func(s *stocked, e *eater, cup *dishes.Dish)
		want []int
	}{
		{"nut butter", 300, nil, []int{6, 8, 9}}, {"too little energy", 299, nil, nil},
		{"an infant", 300, func(_ *stocked, e *eater, _ *dishes.Dish) { e.infant = true }, nil},
		{"does not keep", 300, func(s *stocked, _ *eater, _ *dishes.Dish) { s.openings = []*opening{{from: 5, last: 9}} }, nil},
		{"is cooked", 300, func(_ *stocked, _ *eater, cup *dishes.Dish) { cup.Cooking = "boil" }, nil},
		{"is not eaten cold", 300, func(s *stocked, _ *eater, _ *dishes.Dish) { s.food.Preparation = &foods.Preparation{Class: "boil"} }, nil},
		{"has none", 300, func(s *stocked, e *eater, _ *dishes.Dish) { delete(e.grams, s.food) }, nil},
		{"is for breakfast too", 300, func(_ *stocked, _ *eater, cup *dishes.Dish) { cup.Slots = append(cup.Slots, dishes.Breakfast) }, []int{6, 8}},
		{"no cold day", 300, nil, nil},
	} {
		table := newTable(t)
		f := table.add("nut butter", c.kcal)
		e := &eater{name: "Ida", size: 1, count: 1, person: &nutrients.Person{AgeMonths: 400}, grams: map[*foods.Food]float64{f: 100}}
		cup := dishOf("spoon", "none", 1, []dishes.Slot{dishes.Snack}, "base", f).dish
		if c.set != nil {
			c.set(table.of[f], e, cup)
		}
		h := &household{days: 2, cook: ration.CookBoil, eaters: []*eater{e}, foods: table.foods, of: table.of, cold: map[int]bool{1: true}, book: &dishes.Book{Dishes: []*dishes.Dish{cup}}}
		if c.name == "no cold day" {
			h.cold = map[int]bool{}
		}
		l := make(layout, 2*meals)
		coldSnacks(h, l)
		if got := ownPlaces(l, e, cup); !slices.Equal(got, c.want) {
			t.Errorf("%s: at %v, want %v", c.name, got, c.want)
		}
	}
}

// TestPlacesOfOpenings: packs may be opened at the meals of the dishes that take them, where
// somebody has of both, once a day for what keeps the day, and where no dish does in the
// evenings; on a cold day only what is eaten cold. What a medicine asks to keep alike is opened
// on the other days too. Nothing is opened after its date but at the first of the places.
func TestPlacesOfOpenings(t *testing.T) {
	for _, c := range []struct {
		name   string
		keepsH float64
		dishes []int // positions
		set    func(c *household, s *stocked)
		want   []int // positions; of days their first
	}{
		{"at its dish", 2, []int{2}, nil, []int{2}}, {"at both", 2, []int{2, 7}, nil, []int{2, 7}}, {"twice on a day", 2, []int{2, 4}, nil, []int{2, 4}},
		{"no dish", 2, nil, nil, []int{4, 9}}, {"of the day", 24, []int{2, 4}, nil, []int{0}}, {"for some hours", 5, []int{2, 4}, nil, []int{2}}, {"on both days", 24, []int{4, 7}, nil, []int{0, 5}},
		{"none eats it", 2, []int{2}, func(h *household, s *stocked) { h.eaters[0].grams = map[*foods.Food]float64{} }, []int{4, 9}},
		{"a cold day", 2, []int{2, 7}, func(h *household, s *stocked) { h.cold[1] = true }, []int{2}}, {"no dish, a cold day", 2, nil, func(h *household, s *stocked) { h.cold[1] = true }, []int{4}},
		{"eaten cold", 2, []int{2, 7}, func(h *household, s *stocked) { h.cold[1], s.food.Preparation = true, nil }, []int{2, 7}}, {"no dish, eaten cold", 2, nil, func(h *household, s *stocked) { h.cold[1], s.food.Preparation = true, nil }, []int{4, 9}},
		{"kept alike", 2, []int{2}, func(h *household, s *stocked) { h.eaters[0].steady = []evened{{nutrients.Energy, 10}} }, []int{2, 9}},
		{"too much for a sitting", 2, []int{2}, func(h *household, s *stocked) { s.food.OccasionG = 99 }, []int{1, 2, 3, 6, 8}},
		{"past its date", 2, []int{2, 7}, func(h *household, s *stocked) { s.packs[0].bestBefore = "2026-01-05" }, []int{2}}, {"within it", 2, []int{2, 7}, func(h *household, s *stocked) { s.packs[0].bestBefore = "2026-01-06" }, []int{2, 7}},
		{"long past", 2, []int{7}, func(h *household, s *stocked) { s.packs[0].bestBefore = "2026-01-01" }, []int{7}},
	} {
		table := newTable(t)
		f := table.add("beans", 100)
		f.Keeping, f.Preparation = &foods.Keeping{AfterOpenHours: c.keepsH}, &foods.Preparation{Class: "boil"}
		s := table.of[f]
		s.meal, s.grams, s.packs = c.keepsH < 3, 100, []opened{{&foods.Pack{NetG: 100, Food: f}, noDate}}
		e := &eater{name: "Ida", size: 1, count: 1, person: &nutrients.Person{AgeMonths: 400, Sex: nutrients.Female}, grams: map[*foods.Food]float64{f: 100}}
		h := &household{days: 2, eaters: []*eater{e}, foods: table.foods, of: table.of, cold: map[int]bool{}, start: time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC)}
		if c.set != nil {
			c.set(h, s)
		}
		l := make(layout, 2*meals)
		for _, at := range c.dishes {
			l[at].main = dishOf("stew", "boil", 5, nil, "vegetable", f)
		}
		p := &hosting{program: &program{}, h: h, l: l, content: map[*stocked]map[int]int{}, needs: map[need]int{}}
		p.addOpenings(s)
		var got []int
		for _, v := range p.opens {
			got = append(got, v.t)
			if v.food != s || v.kind != s.packs[0] || p.Cols[v.col].Upper != 1 || p.Rows[v.all].Lower != 1 {
				t.Errorf("%s: %+v", c.name, v)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: opened at %v, want %v", c.name, got, c.want)
		}
	}
}

// TestPartsOfMany: more than eight rows of people are in as few parties of eight as may be, of
// like size.
func TestPartsOfMany(t *testing.T) {
	for n, want := range map[int][]int{1: {1}, 8: {8}, 9: {4, 5}, 16: {8, 8}, 17: {5, 6, 6}} {
		h := &household{}
		for i := range n {
			h.eaters = append(h.eaters, &eater{name: fmt.Sprint(i)})
		}
		var got []int
		next := 0
		for _, party := range h.parties() {
			got = append(got, len(party))
			for _, e := range party {
				if e != h.eaters[next] {
					t.Errorf("of %d: %s stands where %d should", n, e.name, next)
				}
				next++
			}
		}
		if !slices.Equal(got, want) {
			t.Errorf("%d people in %v, want %v", n, got, want)
		}
	}
}

// TestOrderOfPacks: of packs without a date the smaller is opened first, whatever it costs and
// wherever it stands; packs opened at one meal are named in order.
func TestOrderOfPacks(t *testing.T) {
	rice := &foods.Food{NDB: "20044", Name: "rice", Per100g: nutrients.Unknown()}
	large, small := &foods.Pack{Key: "a-large", Food: rice, NetG: 800, Price: 1}, &foods.Pack{Key: "b-small", Food: rice, NetG: 400, Price: 2}
	s := &stocked{food: rice, days: 1, grams: 1200}
	h := &household{days: 1, foods: []*stocked{s}, of: map[*foods.Food]*stocked{rice: s}}
	h.addPacks(&Request{
		Of:   &ration.Request{Table: &foods.Table{Packs: []*foods.Pack{large, small}}},
		Plan: &ration.Plan{Packs: []ration.PlanPack{{Pack: "a-large", Count: 1}, {Pack: "b-small", Count: 1}}},
	})
	if want := []opened{{small, noDate}, {large, noDate}}; !slices.Equal(s.packs, want) {
		t.Errorf("%v, want %v", s.packs, want)
	}
	w := &writer{h: h, layout: make(layout, meals), menu: &Menu{}}
	at := w.opens([]serving{{eater: &eater{count: 1}, t: 2, food: s, grams: 1200}})
	if want := []opened{{large, noDate}, {small, noDate}}; !slices.Equal(at[2], want) || len(at) != 1 {
		t.Errorf("%v, want %v at midday", at, want)
	}
}

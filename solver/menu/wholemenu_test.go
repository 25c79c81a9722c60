package menu

import (
	"context"
	"math"
	"slices"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// TestWrittenMenu: all that is said of a menu of two days from the third of a plan on, the
// second of them cold. Two women who are Ida have 100 g of rice in a stew and 50 g in a soup, of
// bags of 200 g, and 250 g of a loaf of 500 g beside; Bo is fed 75 g a day of bottles that keep
// for one. A gram of rice takes 2 mL and 0.006 MJ; rice gives 540 kcal of the 1165, bread 312.5
// a day.
func TestWrittenMenu(t *testing.T) {
	rice := &foods.Food{NDB: "20044", Name: "rice", Per100g: nutrients.Unknown(), Preparation: &foods.Preparation{Class: "boil", WaterML: 200, HeatMJ: 0.6}}
	bread := &foods.Food{NDB: "18069", Name: "bread", Per100g: nutrients.Unknown()}
	ready := &foods.Food{NDB: "03002", Name: "ready", Per100g: nutrients.Unknown(), Tags: []string{foods.TagInfantFormula}, Keeping: &foods.Keeping{AfterOpenHours: 20, AfterOpenBasis: "safety"}}
	rice.Per100g[nutrients.Energy], bread.Per100g[nutrients.Energy] = 360, 250
	packs := func(key string, f *foods.Food, netG float64, n int) []opened {
		return slices.Repeat([]opened{{&foods.Pack{Key: key, Food: f, NetG: netG}, noDate}}, n)
	}
	h := &household{
		days: 2, book: &dishes.Book{}, start: time.Date(2026, 1, 7, 0, 0, 0, 0, time.UTC), cold: map[int]bool{1: true}, closed: []Left{{Pack: "jar", Count: 1}}, milkless: []string{"ask for milk"},
		of: map[*foods.Food]*stocked{}, byName: map[string]*stocked{},
		foods: []*stocked{
			{food: rice, grams: 300, days: 2, packs: packs("rice-bag", rice, 200, 3)}, {food: bread, grams: 500, days: 2, packs: packs("loaf", bread, 500, 1)},
			{food: ready, grams: 150, days: 2, feed: true, packs: packs("bottle", ready, 100, 2)},
		},
	}
	for _, s := range h.foods {
		h.of[s.food], h.byName[s.food.Name] = s, s
	}
	ida := &eater{name: "Ida", count: 2, size: 1, person: &nutrients.Person{AgeMonths: 400}}
	bo := &eater{name: "Bo", count: 1, infant: true, person: &nutrients.Person{AgeMonths: 4}, feeds: []feed{{ready, 150}}}
	h.eaters = []*eater{ida, bo}
	stew, soup := dishOf("stew", "boil", 20, nil, "base", rice), dishOf("soup", "boil", 30, nil, "base", rice)
	stew.dish.How, soup.dish.How, soup.dish.SoakHours = "stir", "wait", 8
	l := make(layout, 2*meals)
	l[2].main, l[7].main = stew, soup
	got := written(h, &Request{FromDay: 3, Of: &ration.Request{Start: "2026-01-05"}}, l, []serving{
		{eater: ida, t: 2, of: stew, part: &stew.parts[0], food: h.of[rice], grams: 100},
		{eater: ida, t: 7, of: soup, part: &soup.parts[0], food: h.of[rice], grams: 50},
		{eater: ida, t: 6, food: h.of[bread], grams: 250},
	})
	feeds := Meal{
		Meal: "feeds", Opens: []string{"bottle"}, People: []Served{{Name: "Bo", Count: 1, Foods: []Amount{{Food: "ready", NDB: "03002", Dish: "feed", Grams: 75, Measure: "8 feeds"}}}},
		Dishes: []Dish{{Key: "feed", Name: "milk feed", How: "As the feeding rules and the tin say.", For: []string{"Bo"}}},
	}
	want := &Menu{
		Start: "2026-01-05", FromDay: 3, WaterL: 0.6, HeatMJ: 1.8, InDishes: 540. / 1165, Leftovers: []Left{{Pack: "jar", Count: 1}, {Pack: "rice-bag", Count: 1}},
		Misfits:  []Misfit{{Person: "Ida", Text: "each day beside the dishes, since none of them takes it: bread 125 g", Kcal: 312.5}},
		Cautions: append([]string{"ask for milk"}, kitchenRules...),
		Days: []Day{
			{Day: 3, Date: "2026-01-07", WaterL: 0.4, HeatMJ: 1.2, Tonight: []string{"soak for soup tomorrow midday"}, Meals: []Meal{feeds, {
				Meal: "midday", Hour: 13, Opens: []string{"rice-bag"}, WaterL: 0.4, HeatMJ: 1.2,
				Dishes: []Dish{{Key: "stew", Name: "stew", How: "stir", Minutes: 20, Cooking: "boil", WaterML: 400}},
				People: []Served{{Name: "Ida", Count: 2, Foods: []Amount{{Food: "rice", NDB: "20044", Dish: "stew", Grams: 100, Measure: "1/2 of a pack"}}}},
			}}},
			{Day: 4, Date: "2026-01-08", Cold: true, WaterL: 0.2, HeatMJ: 0.6, Meals: []Meal{feeds, {
				Meal: "morning snack", Hour: 10.5, Opens: []string{"loaf"},
				People: []Served{{Name: "Ida", Count: 2, Foods: []Amount{{Food: "bread", NDB: "18069", Grams: 250, Measure: "1/2 of a pack"}}}},
			}, {
				Meal: "midday", Hour: 13, Opens: []string{"rice-bag"}, WaterL: 0.2, HeatMJ: 0.6,
				Dishes: []Dish{{Key: "soup", Name: "soup", How: "wait", Minutes: 30, Cooking: "boil", WaterML: 200}},
				People: []Served{{Name: "Ida", Count: 2, Foods: []Amount{{Food: "rice", NDB: "20044", Dish: "soup", Grams: 50, Measure: "1/4 of a pack"}}}},
			}}},
		},
	}
	for _, v := range []*float64{&got.WaterL, &got.HeatMJ, &got.Days[0].WaterL, &got.Days[1].WaterL, &got.Days[0].HeatMJ, &got.Days[1].HeatMJ} {
		*v = math.Round(*v*1e9) / 1e9
	}
	for i := range got.Days {
		for j := range got.Days[i].Meals {
			m := &got.Days[i].Meals[j]
			m.WaterL, m.HeatMJ = math.Round(m.WaterL*1e9)/1e9, math.Round(m.HeatMJ*1e9)/1e9
		}
	}
	if said, wanted := text(t, got), text(t, want); said != wanted {
		t.Errorf("%s\nwant\n%s", said, wanted)
	}
}

// TestDaysOfMilk: packs of 100 g over the days. Of 150 g in two days each has a bottle, and the
// third is opened on the first day; of 330 g in three days a day needs 110 g, a bottle and a
// tenth: four bottles are one, one and two, of which 100, 100 and 130 g are fed; of three
// bottles, too few, each day has one. Milk that does not keep until the next day is dealt so.
func TestDaysOfMilk(t *testing.T) {
	for _, c := range []struct {
		days, packs int
		grams       float64
		bottles     []int
		fed         []float64
	}{
		{2, 3, 150, []int{2, 1}, []float64{75, 75}}, {2, 2, 200, []int{1, 1}, []float64{100, 100}}, {2, 6, 150, []int{3, 3}, []float64{75, 75}},
		{3, 4, 330, []int{1, 1, 2}, []float64{100, 100, 130}}, {3, 3, 330, []int{1, 1, 1}, []float64{110, 110, 110}},
	} {
		s := &stocked{food: &foods.Food{}, grams: c.grams, feed: true}
		for i := range c.packs {
			s.packs = append(s.packs, opened{&foods.Pack{Key: string(rune('a' + i)), NetG: 100}, noDate})
		}
		seen := map[string]bool{}
		for d, day := range s.feedDays(c.days) {
			if len(day.packs) != c.bottles[d] || math.Abs(day.part*c.grams-c.fed[d]) > 1e-9 {
				t.Errorf("%+v: day %d has %d bottles, %g g", c, d, len(day.packs), day.part*c.grams)
			}
			for _, k := range day.packs {
				if seen[k.pack.Key] {
					t.Errorf("%+v: %s is opened twice", c, k.pack.Key)
				}
				seen[k.pack.Key] = true
			}
		}
	}
	for _, c := range []struct {
		s    stocked
		want bool
	}{
		{stocked{feed: true, food: &foods.Food{}}, true}, {stocked{food: &foods.Food{}}, false},
		{stocked{feed: true, food: &foods.Food{Keeping: &foods.Keeping{AfterOpenHours: 23.9}}}, true}, {stocked{feed: true, food: &foods.Food{Keeping: &foods.Keeping{AfterOpenHours: 24}}}, false},
	} {
		if got := c.s.fresh(); got != c.want {
			t.Errorf("%+v: fresh %v", c.s, got)
		}
	}
}

// TestOpeningsOfPacks: packs in their order in openings of like content: a further one while
// half of it stays under an even part of what is left.
func TestOpeningsOfPacks(t *testing.T) {
	for _, c := range []struct {
		packs []float64
		n     int
		want  [][]float64
	}{
		{[]float64{100, 300, 200, 250, 50}, 3, [][]float64{{100, 300}, {200}, {250, 50}}}, // 250 of 300; 325 of 250
		{[]float64{100, 100, 100}, 2, [][]float64{{100}, {100, 100}}},                     // 150 of 150
		{[]float64{10, 10, 10, 500}, 3, [][]float64{{10, 10}, {10}, {500}}},               // each later one has one
		{[]float64{40, 60}, 1, [][]float64{{40, 60}}},
	} {
		s := &stocked{food: &foods.Food{}}
		for _, g := range c.packs {
			s.packs = append(s.packs, opened{&foods.Pack{NetG: g}, noDate})
		}
		s.group(c.n)
		if len(s.openings) != len(c.want) {
			t.Fatalf("%v: %d openings, want %v", c.packs, len(s.openings), c.want)
		}
		for i, o := range s.openings {
			var got []float64
			all := 0.0
			for _, k := range o.packs {
				got, all = append(got, k.pack.NetG), all+k.pack.NetG
			}
			if !slices.Equal(got, c.want[i]) || o.grams != all || o.from != -1 || o.last != -1 {
				t.Errorf("%v: opening %d of %v, %g g, from %d to %d, want %v", c.packs, i, got, o.grams, o.from, o.last, c.want[i])
			}
		}
	}
	for _, c := range []struct {
		days, packs, keeps int
		want               [][2]int // days from and to
	}{
		{14, 3, 3, [][2]int{{0, 3}, {4, 7}, {9, 12}}}, {7, 2, 4, [][2]int{{0, 3}, {3, 7}}}, {6, 5, 3, [][2]int{{0, 3}, {3, 6}}}, {5, 9, 1, [][2]int{{0, 1}, {1, 2}, {2, 3}, {3, 4}, {4, 5}}},
	} {
		h, s := &household{days: c.days}, &stocked{food: &foods.Food{}, days: c.keeps}
		for range c.packs {
			s.packs = append(s.packs, opened{&foods.Pack{NetG: 100}, noDate})
		}
		h.openInTurn(s)
		var got [][2]int
		for _, o := range s.openings {
			got = append(got, [2]int{o.from / meals, (o.last + 1) / meals})
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%+v: open on days %v", c, got)
		}
	}
}

// TestPouredByHand: drinks stand beside breakfast, the evening meal, in the afternoon, at midday
// and in the forenoon, on the day with least energy first, each once at a meal and about as
// often on each day, two at most at a meal, hot ones on no cold day and where the stove has
// time, and none beside itself.
func TestPouredByHand(t *testing.T) {
	type poured struct {
		drink string
		at    []int
	}
	for _, c := range []struct {
		name  string
		kcal  []float64 // of the dishes of the days
		times map[string]int
		set   func(h *household, l layout, tea, cup *choice)
		want  []poured
	}{
		{"all of a day", []float64{900}, map[string]int{"cup": 4}, nil, []poured{{"cup", []int{0, 2, 3, 4}}}},
		{"a fifth, and one too many", []float64{900}, map[string]int{"cup": 6}, nil, []poured{{"cup", []int{0, 1, 2, 3, 4}}}},
		{"where least is first", []float64{900, 700}, map[string]int{"cup": 1}, nil, []poured{{"cup", []int{5}}}},
		{"then the other day", []float64{900, 800}, map[string]int{"cup": 2}, nil, []poured{{"cup", []int{0, 5}}}}, // 950 after the first
		{"as often as an even part and once more", []float64{900, 100}, map[string]int{"cup": 3}, nil, []poured{{"cup", []int{0, 5, 9}}}},
		{"two at a meal", []float64{900}, map[string]int{"tea": 1, "cup": 1, "juice": 1}, nil, []poured{{"tea", []int{0}}, {"cup", []int{0}}, {"juice", []int{4}}}},
		{"hot on a cold day", []float64{100, 900}, map[string]int{"tea": 1, "cup": 1}, func(h *household, _ layout, _, _ *choice) { h.cold[0] = true }, []poured{{"tea", []int{5}}, {"cup", []int{0}}}},
		{"no time", []float64{900}, map[string]int{"tea": 1, "cup": 1}, func(_ *household, l layout, _, _ *choice) {
			l[0].main = dishOf("x", "boil", 86, nil, "base", &foods.Food{})
		}, []poured{{"tea", []int{4}}, {"cup", []int{0}}}},
		{"just time", []float64{900}, map[string]int{"tea": 1}, func(_ *household, l layout, _, _ *choice) {
			l[0].main = dishOf("x", "boil", 85, nil, "base", &foods.Food{})
		}, []poured{{"tea", []int{0}}}},
		{"beside itself", []float64{900}, map[string]int{"cup": 1}, func(_ *household, l layout, _, cup *choice) { l[0].main = cup }, []poured{{"cup", []int{4}}}},
	} {
		h := &household{days: len(c.kcal), cold: map[int]bool{}}
		l := make(layout, h.days*meals)
		for d, kcal := range c.kcal {
			main := dishOf("main", "none", 0, nil, "base", &foods.Food{})
			main.kcal = kcal
			l[d*meals+atMorning].main = main // a dish of the day
		}
		var chosen []*choice
		drink := func(name, cooking string, kcal float64) *choice {
			d := dishOf(name, cooking, 5, []dishes.Slot{dishes.Drink}, "liquid", &foods.Food{})
			d.times[atDrinks], d.kcal = c.times[name], kcal
			chosen = append(chosen, d)
			return d
		}
		tea, cup := drink("tea", "boil", 10), drink("cup", "none", 150)
		drink("juice", "none", 50)
		if c.set != nil {
			c.set(h, l, tea, cup)
		}
		h.pour(l, chosen)
		for _, d := range chosen {
			var got, want []int
			for at := range l {
				for _, o := range l[at].drinks {
					if o == d {
						got = append(got, at)
					}
				}
			}
			if i := slices.IndexFunc(c.want, func(p poured) bool { return p.drink == d.dish.Key }); i >= 0 {
				want = c.want[i].at
			}
			if !slices.Equal(got, want) {
				t.Errorf("%s: %s at %v, want %v", c.name, d.dish.Key, got, want)
			}
		}
	}
}

// TestBetweenInOrder: servings of a drink of one's own are in the afternoon, the forenoon,
// beside the evening meal, breakfast and midday; cooked ones while the stove is lit. A twentieth
// over a whole serving is none.
func TestBetweenInOrder(t *testing.T) {
	for _, c := range []struct {
		cooking string
		n       float64
		want    []int
	}{
		{"none", 0.05, nil}, {"none", 1.05, []int{3}}, {"none", 1.06, []int{1, 3}}, {"none", 3, []int{1, 3, 4}}, {"none", 4, []int{0, 1, 3, 4}}, {"none", 5, []int{0, 1, 2, 3, 4}}, {"none", 9, []int{0, 1, 2, 3, 4}},
		{"boil", 1, []int{4}}, {"boil", 2, []int{2, 4}}, {"boil", 3, []int{0, 2, 4}}, {"boil", 4, []int{0, 2, 3, 4}}, {"boil", 5, []int{0, 1, 2, 3, 4}},
	} {
		table := newTable(t)
		milk := table.add("milk", 60)
		d := dishOf("cup", c.cooking, 5, []dishes.Slot{dishes.Drink}, "liquid", milk).dish
		e := &eater{name: "Ida", size: 1, count: 1, person: &nutrients.Person{AgeMonths: 400}, grams: map[*foods.Food]float64{milk: 500}}
		h := &household{days: 1, eaters: []*eater{e}, foods: table.foods, of: table.of}
		l := make(layout, meals)
		h.between(l, e, d, c.n)
		var got []int
		for at := range l {
			for _, o := range l[at].own {
				if o.eater != e || o.dish != d || len(o.parts) != 1 {
					t.Errorf("%s of %s at %d", o.dish.Key, o.eater.name, at)
				}
				got = append(got, at)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%g servings, %s: at %v, want %v", c.n, c.cooking, got, c.want)
		}
	}
}

// TestCandidateByHand: what a dish for the household is made of: of the foods of the plan, with
// how many servings those are who have any of them. Two of half size who are Ida have rice and
// fish, Leif rice and beans, an infant counts for none. A part for one of two is enough, one for
// none that can be left is left out. Warmed it can be made on a cold day where nothing in it
// must be.
func TestCandidateByHand(t *testing.T) {
	table := newTable(t)
	rice, beans, fish, oil, egg := table.add("rice", 360), table.add("beans", 100), table.add("fish", 200), table.add("oil", 900), &foods.Food{Name: "egg"}
	table.add("salt", 0)
	person := &nutrients.Person{AgeMonths: 400}
	h := &household{days: 2, cook: ration.CookBoil, foods: table.foods, of: table.of, heads: 2, eaters: []*eater{
		{name: "Ida", count: 2, size: 0.5, person: person, grams: map[*foods.Food]float64{rice: 1, fish: 1}},
		{name: "Leif", count: 1, size: 1, person: person, grams: map[*foods.Food]float64{rice: 1, beans: 1}},
		{name: "Bo", count: 1, size: 0.4, infant: true, person: &nutrients.Person{AgeMonths: 8}, grams: map[*foods.Food]float64{rice: 1, oil: 1}},
	}}
	d := dishOf("stew", "boil", 20, nil, "base", rice, "protein", beans, "vegetable", fish, "fat?", oil, "extra?", egg, "more?", fish).dish
	d.Parts[1].Options = append(d.Parts[1].Options, dishes.Option{Food: egg, Factor: 1}, dishes.Option{Food: fish, Factor: 0.5})
	c := h.candidate(d)
	if c == nil || c.dish != d {
		t.Fatal("no candidate")
	}
	want := []struct {
		part    int
		heads   float64
		options []dishes.Option
	}{
		{0, 2, []dishes.Option{{Food: rice, Factor: 1}}}, {1, 2, []dishes.Option{{Food: beans, Factor: 1}, {Food: fish, Factor: 0.5}}},
		{2, 1, []dishes.Option{{Food: fish, Factor: 1}}}, {5, 1, []dishes.Option{{Food: fish, Factor: 1}}},
	}
	if len(c.parts) != len(want) {
		t.Fatalf("%d parts, want %d", len(c.parts), len(want))
	}
	for i, w := range want {
		if got := c.parts[i]; got.part != d.Parts[w.part] || got.heads != w.heads || !slices.Equal(got.options, w.options) {
			t.Errorf("part %d: %s for %g of %v, want %s for %g of %v", i, got.part.Name, got.heads, got.options, d.Parts[w.part].Name, w.heads, w.options)
		}
	}
	for _, v := range []struct {
		cooking string
		rice    *foods.Preparation
		want    bool
	}{
		{"none", &foods.Preparation{Class: "warm", ColdOK: true}, true}, {"boil", nil, false}, {"warm", nil, true}, {"warm", &foods.Preparation{Class: "warm"}, false},
		{"warm", &foods.Preparation{Class: "warm", ColdOK: true}, true}, {"warm", &foods.Preparation{Class: "none"}, true},
	} {
		rice.Preparation = v.rice
		d := dishOf("bowl", v.cooking, 5, nil, "base", rice).dish
		if c := h.candidate(d); c == nil || c.cold != v.want {
			t.Errorf("%s, rice %+v: %+v, cold %v wanted", v.cooking, v.rice, c, v.want)
		}
	}
	h.heads = 2 / model.LeastAtTable * 0.5 * 1.01 // now one of them is too few
	if h.candidate(dishOf("x", "boil", 5, nil, "base", fish).dish) != nil {
		t.Error("a dish of what too few have")
	}
}

// TestRepairedAfterTheDays: who is found to lack what makes the dish at midday has one of pasta,
// where that leaves no more lacking than before; else all stays as it was, and so it does where
// nothing lacks. Who has nothing of a carton of which a child has too much is drawn in though
// that makes no meal better.
func TestRepairedAfterTheDays(t *testing.T) {
	mains := []dishes.Slot{dishes.Midday, dishes.Evening}
	for _, c := range []struct {
		name          string
		said, bread   float64 // g of rice said at midday; of bread for two other meals, in the plan
		want          string
		had, nowBread float64 // servings of bread that are handed back
	}{
		{"better", 20, 100, "pasta", 2, 100}, {"nothing lacks", 30, 100, "rice", 2, 200}, {"as many lack", 20, 35, "rice", 2, 200}, {"more lack", 20, 20, "rice", 2, 200},
	} {
		table := newTable(t)
		rice, pasta, bread := table.add("rice", 360), table.add("pasta", 360), table.add("bread", 360)
		bowl, bake, toast := dishOf("rice", "none", 5, mains, "base", rice), dishOf("pasta", "none", 5, mains, "base", pasta), dishOf("toast", "none", 5, nil, "base", bread)
		e := &eater{name: "Ida", size: 1, count: 1, person: &nutrients.Person{AgeMonths: 400, Sex: nutrients.Female}, grams: map[*foods.Food]float64{pasta: 60, bread: c.bread}}
		h := &household{days: 1, cook: ration.CookNone, foods: table.foods, of: table.of, byName: map[string]*stocked{}, eaters: []*eater{e}, cold: map[int]bool{}, book: &dishes.Book{Dishes: []*dishes.Dish{bake.dish}}}
		for _, s := range h.foods {
			s.days, s.grams = 1, e.grams[s.food]
		}
		l := make(layout, meals)
		l[0].main, l[2].main, l[4].main = toast, bowl, toast
		before := []serving{ // as they are said to be
			{eater: e, t: 0, of: toast, part: &toast.parts[0], food: table.of[bread], grams: 100}, {eater: e, t: 4, of: toast, part: &toast.parts[0], food: table.of[bread], grams: 100},
			{eater: e, t: 2, of: bowl, part: &bowl.parts[0], food: table.of[rice], grams: c.said}, {eater: e, t: 0, food: table.of[pasta], grams: 60},
		}
		other, servings, _ := repaired(context.Background(), h, l, before, nil, nil)
		if got := other[2].mainOf(e).dish.Key; got != c.want || l[2].instead[e] != nil {
			t.Errorf("%s: %s at midday, want %s", c.name, got, c.want)
		}
		all := 0.0
		for _, v := range servings {
			if v.food.food == bread {
				all += v.grams
			}
		}
		if math.Abs(all-c.nowBread) > 1e-6 {
			t.Errorf("%s: %g g of bread are served, want %g", c.name, all, c.nowBread)
		}
	}
	table := newTable(t)
	juice := table.add("juice", 40)
	juice.Group, juice.OccasionG = "juice", 500
	cup := dishOf("cup", "none", 1, []dishes.Slot{dishes.Drink}, "liquid", juice)
	counts := func(*foods.Food) float64 { return 1 }
	child := &eater{name: "Tuva", count: 1, size: 1, person: &nutrients.Person{AgeMonths: 400, Sex: nutrients.Female}, grams: map[*foods.Food]float64{juice: 500}, glasses: []rules.Limit{{Most: 150, Days: 1, Counts: counts}}}
	grown := &eater{name: "Ida", count: 1, size: 1, person: child.person, grams: map[*foods.Food]float64{juice: 500}}
	s := table.of[juice]
	s.meal, s.grams, s.openings = true, 1000, []*opening{{from: 3, last: 3, grams: 1000}}
	h := &household{days: 1, cook: ration.CookNone, foods: table.foods, of: table.of, byName: map[string]*stocked{}, eaters: []*eater{child, grown}, book: &dishes.Book{Dishes: []*dishes.Dish{cup.dish}}}
	for grams, want := range map[float64]int{210: 0, 211: 1} { // 40 % over the glass of 150 g
		l := make(layout, meals)
		other, _, _ := repaired(context.Background(), h, l, []serving{{eater: child, t: 3, food: s, grams: grams}}, nil, nil)
		if got := other.owns(3, grown); got != want || other.owns(3, child) != 0 {
			t.Errorf("%g g for the child: %d cups for Ida, want %d", grams, got, want)
		}
	}
}

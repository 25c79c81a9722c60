package menu

import (
	"math"
	"slices"
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/solver/ration"
	"rationwright/solver/simplex"
)

// sixteenDays are the two rows of people of twoDays with 16 days, four of them cold, and a choice
// of a stew, a cold porridge for breakfasts and between meals, and a soup of beans for evenings and
// as a drink; of one's own a plate of rice, cooked, and toast, cold. Counts of a fortnight stand
// twice in the days; less than every other of 16 days are 7.
func sixteenDays(t *testing.T) (*twoDays, []*candidate) {
	t.Helper()
	c := newTwoDays(t)
	h := c.h
	h.days, h.cook, h.heads, h.cold = 16, ration.CookBoil, 2, map[int]bool{3: true, 4: true, 5: true, 9: true}
	c.ida.may, c.ida.grams = nil, map[*foods.Food]float64{c.rice: 800, c.beans: 400, c.fish: 100, c.oil: 50}
	c.leif.grams = map[*foods.Food]float64{c.rice: 600, c.fish: 60}
	c.oil.Companions = []string{"rice"}
	h.of[c.beans].grams, h.of[c.fish].grams = 400, 220
	h.of[c.rice].days, h.of[c.oil].days = 16, 16
	water := 150.0
	c.stew.parts[0].part.WaterML = &water
	c.stew.dish.TimesMax, c.stew.dish.TimesUsual = 4, 1
	porridge := dishOf("porridge", "none", 5, []dishes.Slot{dishes.Breakfast, dishes.Snack}, "base", c.rice)
	porridge.dish.TimesMax, porridge.dish.TimesUsual = 3, 1
	soup := dishOf("soup", "boil", 20, []dishes.Slot{dishes.Evening, dishes.Drink}, "protein", c.beans)
	soup.dish.TimesMax, soup.dish.TimesUsual = 1, 1
	plate := dishOf("plate", "boil", 20, []dishes.Slot{dishes.Breakfast, dishes.Midday}, "base", c.rice)
	toast := dishOf("toast", "none", 5, []dishes.Slot{dishes.Breakfast}, "base", c.rice)
	sip := dishOf("sip", "none", 5, []dishes.Slot{dishes.Snack}, "base", c.rice)
	h.book = &dishes.Book{Dishes: []*dishes.Dish{plate.dish, sip.dish, toast.dish}}
	return c, []*candidate{c.stew.candidate, porridge.candidate, soup.candidate}
}

// beforeChoice is the program of the choice before any dish has its columns.
func beforeChoice(t *testing.T) *wanted {
	w := &wanted{t: t}
	w.row("breakfasts", 0, 16)
	w.row("mains", 0, 32)
	w.row("snacks", 0, 32)
	w.row("drinks", 0, 64)
	w.row("midday", 0, 16)
	w.row("evening", 0, 16)
	w.missed("cold breakfasts", 4, inf, 1600) // 800 a head
	w.missed("cold mains", 8, inf, 1600)
	w.missed("water", -inf, 0, 1500)
	for _, who := range []string{"Ida", "Leif"} { // one of full and two of half size: 500 a head
		w.row(who+" breakfasts", 16, 16)
		w.col("none", 500, inf, at{who + " breakfasts": 1})
		w.row(who+" mains", 32, 32)
		w.col("none", 500, inf, at{who + " mains": 1})
		if who == "Ida" {
			w.row("Ida rice", 800, 800)
			w.col("beside", 3.6, inf, at{"Ida rice": 1})
			w.row("Ida beans", 400, 400)
			w.col("beside", 1, inf, at{"Ida beans": 1})
			w.row("Ida fish", 100, 100)
			w.col("beside", 2, inf, at{"Ida fish": 1})
			w.row("Ida oil", 50, 50)
			w.col("beside", 4.5, inf, at{"Ida oil": 1}) // a seasoning: half
		} else {
			w.row("Leif rice", 600, 600)
			w.col("beside", 7.2, inf, at{"Leif rice": 1})
			w.row("Leif fish", 60, 60)
			w.col("beside", 4, inf, at{"Leif fish": 1})
		}
	}
	return w
}

// eaten begins a part of a dish: what servings of it may be over and under, and what they need.
func (w *wanted) eaten(name string, weigh, size float64, required, makes, opens bool, servings ...string) {
	of := at{name + " most": -200 * size}
	w.row(name+" most", -inf, 0)
	w.col("large", weigh, inf, at{name + " most": -1})
	if required {
		w.row(name+" least", 0, inf)
		w.col("thin", 1.5*weigh, inf, at{name + " least": 1})
		of[name+" least"] = -50 * size
	}
	if makes {
		w.row(name+" bare", 0, inf)
		of[name+" bare"] = -25 * size
	}
	if opens {
		w.row(name+" open", 0, inf)
		of[name+" open"] = -1
	}
	for _, s := range servings {
		w.add(s, of)
	}
}

// dish begins a dish of the household: how often it may be served, and is gladly.
func (w *wanted) dish(name string, most, usual float64) {
	w.row(name+" all", 0, most)
	w.row(name+" often", -inf, usual)
	w.col("often", 50, inf, at{name + " often": -1}) // 25 a head
	w.row(name+" table", 0, 7)
	w.row(name+" on cold", -inf, 3) // days 4, 6 and 10: not two running
}

// not is how much less is shared than served.
func (w *wanted) not(shared, served string) {
	w.row(shared+" within", -inf, 0)
	w.add(shared, at{shared + " within": 1})
	w.add(served, at{shared + " within": -1})
}

// TestProgramOfTheChoice: the program of how often which dish is eaten, each place of it by
// hand. A can of beans is for one meal: four cans of 400 g for four, a hundredth a gram; one tin
// of fish is for the three main meals of a day, of Ida's 100 g and of Leif's 60.
func TestProgramOfTheChoice(t *testing.T) {
	h, list := sixteenDays(t)
	c := newChoosing(h.h, list)
	w := beforeChoice(t)
	w.compare(c.program)

	c.add(0)
	w.dish("stew", 8, 2)
	w.wholeCol("stew", 16, 7, at{"stew table": 1, "mains": 1, "stew all": 1, "stew often": 1}) // 8 a head
	w.col("Ida stew", 0, 32, at{"Ida mains": 1, "Ida stew often": 1})
	w.row("Ida stew often", 0, 7)
	w.eaten("Ida stew rice", 3.6, 1, true, true, false, "Ida stew")
	w.col("Ida rice in the stew", 0, inf, at{"Ida rice": 1, "water": 0.0015, "Ida stew rice most": 1, "Ida stew rice least": 1, "Ida stew rice bare": 1})
	w.eaten("Ida stew beans", 1, 1, true, true, true, "Ida stew")
	w.col("Ida beans in the stew", 0, inf, at{"Ida beans": 1, "Ida stew beans most": 1, "Ida stew beans least": 1, "Ida stew beans bare": 1, "Ida stew beans open": 0.01})
	w.col("Ida fish for them", 0, inf, at{"Ida fish": 1, "Ida stew beans most": 2, "Ida stew beans least": 2, "Ida stew beans bare": 2, "Ida stew beans open": 0.03})
	w.col("Ida rice for them", 0, inf, at{"Ida rice": 1, "Ida stew beans most": 1.25, "Ida stew beans least": 1.25, "Ida stew beans bare": 1.25, "Ida stew beans open": 0.05}) // 0.8 of 25 g
	w.eaten("Ida stew oil", 9, 1, false, false, false, "Ida stew")
	w.col("Ida oil in the stew", 0, inf, at{"Ida oil": 1, "Ida stew oil most": 1})
	w.not("Ida stew", "stew")
	w.col("Leif stew", 0, 32, at{"Leif mains": 1, "Leif stew often": 1})
	w.row("Leif stew often", 0, 7)
	w.eaten("Leif stew rice", 7.2, 0.5, true, true, false, "Leif stew")
	w.col("Leif rice in the stew", 0, inf, at{"Leif rice": 1, "water": 0.003, "Leif stew rice most": 1, "Leif stew rice least": 1, "Leif stew rice bare": 1})
	w.eaten("Leif stew beans", 2, 0.5, true, true, true, "Leif stew")
	w.col("Leif fish for them", 0, inf, at{"Leif fish": 1, "Leif stew beans most": 2, "Leif stew beans least": 2, "Leif stew beans bare": 2, "Leif stew beans open": 0.05})
	w.col("Leif rice for them", 0, inf, at{"Leif rice": 1, "Leif stew beans most": 1.25, "Leif stew beans least": 1.25, "Leif stew beans bare": 1.25, "Leif stew beans open": 0.1})
	w.not("Leif stew", "stew")
	w.compare(c.program)

	c.add(1)
	w.dish("porridge", 6, 2)
	w.wholeCol("porridge", 16, 6, at{"porridge table": 1, "breakfasts": 1, "porridge all": 1, "porridge often": 1, "porridge served": -1})
	w.row("porridge served", -inf, 0)
	w.col("porridge on cold days", 0, inf, at{"porridge served": 1, "porridge on cold": 1, "cold breakfasts": 1})
	w.col("porridge between", 8, 6, at{"snacks": 1, "porridge all": 1, "porridge often": 1}) // 4 a head
	for _, who := range []string{"Ida", "Leif"} {
		size, weigh := 1.0, 3.6
		if who == "Leif" {
			size, weigh = 0.5, 7.2
		}
		w.col(who+" porridge", 0, 32, at{who + " breakfasts": 1, who + " porridge often": 1})
		w.row(who+" porridge often", 0, 6)
		w.col(who+" porridge between", 0, inf, at{})
		name := who + " porridge rice"
		w.eaten(name, weigh, size, true, true, false, who+" porridge", who+" porridge between")
		w.col(name, 0, inf, at{who + " rice": 1, name + " most": 1, name + " least": 1, name + " bare": 1})
		w.not(who+" porridge", "porridge")
		w.not(who+" porridge between", "porridge between")
	}
	w.compare(c.program)

	c.add(2)
	w.dish("soup", 2, 2)
	w.wholeCol("soup", 16, 2, at{"soup table": 1, "mains": 1, "evening": 1, "soup all": 1, "soup often": 1, "soup opened": -1})
	w.col("soup drunk", 96, 2, at{"drinks": 1, "soup all": 1, "soup often": 1, "soup opened": -1}) // twelve times that, from a pot
	w.col("Ida soup", 0, 32, at{"Ida mains": 1, "Ida soup often": 1})
	w.row("Ida soup often", 0, 2)
	w.col("Ida soup drunk", 0, inf, at{})
	w.eaten("Ida soup beans", 1, 1, true, true, true, "Ida soup", "Ida soup drunk")
	w.col("Ida beans in the soup", 0, inf, at{"Ida beans": 1, "Ida soup beans most": 1, "Ida soup beans least": 1, "Ida soup beans bare": 1, "Ida soup beans open": 0.01, "soup opened": 0.01})
	w.not("Ida soup", "soup")
	w.not("Ida soup drunk", "soup drunk")
	w.row("soup opened", 0, inf) // a can each
	w.compare(c.program)
	if c.diners[1].shares[2] != noColumns || !slices.Equal(c.in, []bool{true, true, true}) {
		t.Errorf("Leif, who has no beans, shares %v of the soup", c.diners[1].shares[2])
	}

	ida, leif := c.diners[0], c.diners[1]
	if len(c.own[0]) != 2 || len(c.own[1]) != 2 { // plate and toast; the sip is no dish of a meal
		t.Fatalf("%d and %d dishes of their own, want 2 each", len(c.own[0]), len(c.own[1]))
	}
	ida.addOwn(c.own[0][0], false)
	w.col("Ida plate", 160, 16, at{"Ida breakfasts": 1, "Ida plate often": 1})
	w.row("Ida plate often", 0, 7)
	w.col("Ida plate at midday", 160, 16, at{"Ida mains": 1, "Ida plate often": 1})
	w.eaten("Ida plate rice", 3.6, 1, true, true, false, "Ida plate", "Ida plate at midday")
	w.col("Ida rice on the plate", 0, inf, at{"Ida rice": 1, "Ida plate rice most": 1, "Ida plate rice least": 1, "Ida plate rice bare": 1})
	leif.addOwn(c.own[1][1], true)
	w.wholeCol("Leif toast", 60, 16, at{"Leif breakfasts": 1, "Leif toast often": 1})
	w.row("Leif toast often", 0, 7)
	w.eaten("Leif toast rice", 7.2, 0.5, true, true, false, "Leif toast")
	w.col("Leif rice on the toast", 0, inf, at{"Leif rice": 1, "Leif toast rice most": 1, "Leif toast rice least": 1, "Leif toast rice bare": 1})
	w.compare(c.program)

	// A point of three stews, two porridges and one between meals, and no soup to speak of.
	x := make([]float64, len(c.Cols))
	for name, v := range map[string]float64{
		"stew": 3, "porridge": 2, "porridge between": 1, "soup": 0.4,
		"Ida rice in the stew": 300, "Ida beans in the stew": 60, "Leif rice in the stew": 100, "Ida porridge rice": 150, "Ida beans in the soup": 9,
	} {
		x[slices.IndexFunc(w.cols, func(c colWanted) bool { return c.name == name })] = v
	}
	chosen := c.chosen(x)
	if len(chosen) != 2 {
		t.Fatalf("%d dishes are chosen, want 2", len(chosen))
	}
	for i, want := range []struct {
		times         [kinds]int
		kcal, protein float64 // of all, at one serving
	}{
		{[kinds]int{atMains: 3}, (300*3.6 + 60 + 2*100*3.6) / 3, (300*0.09 + 60*0.025 + 2*100*0.09) / 3},
		{[kinds]int{atBreakfasts: 2, atSnacks: 1}, 150 * 3.6 / 3, 150 * 0.09 / 3},
	} {
		got := chosen[i]
		if got.candidate != list[i] || got.times != want.times || math.Abs(got.kcal-want.kcal) > 1e-9 || math.Abs(got.protein-want.protein) > 1e-9 {
			t.Errorf("%s: %v, %g kcal, %g g, want %+v", got.dish.Key, got.times, got.kcal, got.protein, want)
		}
	}
}

// TestPricesByHand: what dishes are worth at prices of a gram, of a litre and of meals.
//
// Ida: a gram of rice 2, of beans 4, of fish 5, and 1 is got for a gram of oil; a litre 100. In
// the stew the rice takes 1.5 mL more: 2.15 a gram, of which the least of 50 g is cheapest,
// 107.5: half of it lacks 25 g at 5.4. In place of beans rice at 0.8 · 2 is cheapest, and half
// of the least, 25 · 1.6 and 25 · 1.5 for what lacks. Of the oil the most is worth 200. A stew
// comes to −15, porridge to 100, soup to 25 · 4 + 25 · 1.5.
//
// Leif, two of half size: rice 1, in the stew 1.3, and fish 8: 25 · 1.3 and 25 · 0.8, and
// porridge 25.
func TestPricesByHand(t *testing.T) {
	prices := map[string]float64{
		"breakfasts": 6, "mains": 5, "snacks": 3, "drinks": 100, "evening": 20, "cold breakfasts": 12, "cold mains": 1000, "water": -100,
		"Ida breakfasts": 300, "Ida mains": 90, "Ida rice": -2, "Ida beans": -4, "Ida fish": -5, "Ida oil": 1,
		"Leif breakfasts": 100, "Leif mains": 40, "Leif rice": -1, "Leif fish": -8,
	}
	set := func(c *choosing, w *wanted) []float64 {
		dual := make([]float64, len(c.Rows))
		for i, name := range w.name {
			dual[i] = prices[name]
		}
		return dual
	}
	h, list := sixteenDays(t)
	c, w := newChoosing(h.h, list), beforeChoice(t)
	dual := set(c, w)
	for _, v := range []struct {
		name string
		got  float64
		want float64
	}{
		{"Ida's stew", c.diners[0].plate(list[0], dual), 107.5 + 40 + 37.5 - 200},
		{"Leif's stew", c.diners[1].plate(list[0], dual), 32.5 + 20},
		{"Ida's porridge", c.diners[0].plate(list[1], dual), 100},
		{"Leif's porridge", c.diners[1].plate(list[1], dual), 25},
		{"Ida's soup", c.diners[0].plate(list[2], dual), 137.5},
		{"Leif's soup, of which he has nothing", c.diners[1].plate(list[2], dual), 0},
		{"a stew: Leif has rather none", c.worth(0, dual), -(16 - 5 + (-15 - 90))},
		{"a porridge", c.worth(1, dual), -(16 - 6 - 12 + (100 - 300) + (25 - 100))},
		{"a soup in the evening, that none eats", c.worth(2, dual), -(16 - 5 - 20)},
		{"Ida's plate at breakfast", c.diners[0].worth(c.own[0][0], dual), 300 - 160 - 100},
		{"Ida's toast", c.diners[0].worth(c.own[0][1], dual), 300 - 60 - 100},
		{"Leif's plate", c.diners[1].worth(c.own[1][0], dual), 0},
		{"Leif's toast", c.diners[1].worth(c.own[1][1], dual), 100 - 60 - 25},
	} {
		if math.Abs(v.got-v.want) > 1e-9 {
			t.Errorf("%s: %g, want %g", v.name, v.got, v.want)
		}
	}
	prices["drinks"], prices["cold breakfasts"] = 120, -12 // what is too much on cold days is no loss
	dual = set(c, w)
	if soup, porridge := c.worth(2, dual), c.worth(1, dual); math.Abs(soup-(120-96)) > 1e-9 || math.Abs(porridge-(277-12)) > 1e-9 {
		t.Errorf("a soup to drink %g, porridge %g, want 24 and 265", soup, porridge)
	}
	prices["drinks"], prices["cold breakfasts"] = 100, 12
	dual = set(c, w)
	for _, v := range []struct {
		least float64
		in    []bool
		own   [][]string // in the order of their worth
	}{
		{9, []bool{true, true, false}, [][]string{{"toast", "plate"}, {"toast"}}}, // the soup is worth 9, no more
		{8.9, []bool{true, true, true}, [][]string{{"toast", "plate"}, {"toast"}}},
		{15, []bool{true, true, false}, [][]string{{"toast", "plate"}, nil}},
		{100, []bool{false, true, false}, [][]string{{"toast"}, nil}},
		{277, []bool{false, false, false}, [][]string{nil, nil}},
	} {
		c := newChoosing(h.h, list)
		taken := c.takeIn(dual, v.least)
		if !slices.Equal(c.in, v.in) || taken != (v.least < 277) {
			t.Errorf("worth more than %g: in %v, want %v, any %v", v.least, c.in, v.in, taken)
		}
		if v.in[0] && c.n[1][atBreakfasts] > c.n[0][atMains] {
			t.Errorf("worth more than %g: the stew comes before the porridge", v.least)
		}
		for k, g := range c.diners {
			var own []string
			for _, d := range g.own {
				own = append(own, d.dish.Key)
			}
			if !slices.Equal(own, v.own[k]) {
				t.Errorf("worth more than %g: %s has %q of their own, want %q", v.least, g.eater.name, own, v.own[k])
			}
			for i, d := range c.own[k] {
				if c.ownIn[k][i] != slices.Contains(own, d.dish.Key) {
					t.Errorf("worth more than %g: %s of %s is in %v", v.least, d.dish.Key, g.eater.name, c.ownIn[k][i])
				}
			}
		}
		if v.least != 8.9 {
			continue
		}
		long := append(slices.Clone(dual), make([]float64, len(c.Rows)-len(dual))...)
		long[c.diners[0].often[list[0].dish]] = -30
		if got := c.diners[0].meal(list[0], atMains, long); got != 60 || c.diners[0].meal(list[0], atDrinks, long) != 0 {
			t.Errorf("a meal of Ida's with a stew that is eaten often: %g, want 60", got)
		}
		own := len(c.diners[1].own)
		if !c.takeIn(slices.Repeat([]float64{500}, len(c.Rows)), 1) || len(c.diners[1].own) != own+1 {
			t.Error("Leif's plate comes in once it is worth it")
		}
		if c.takeIn(slices.Repeat([]float64{500}, len(c.Rows)), 1) {
			t.Error("what is in comes in again")
		}
	}
}

// TestGrown: a basis of two columns and a row, of a program that now has four and three.
func TestGrown(t *testing.T) {
	got := grown(simplex.Basis{simplex.AtUpper, simplex.Basic, simplex.AtUpper}, 2, 1, 4, 3)
	if want := (simplex.Basis{simplex.AtUpper, simplex.Basic, simplex.AtLower, simplex.AtLower, simplex.AtUpper, simplex.Basic, simplex.Basic}); !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

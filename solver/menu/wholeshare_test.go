package menu

import (
	"fmt"
	"testing"

	"rationwright/foods/dishes"
	"rationwright/solver/ration"
)

// eatsAs is what a gram of a food adds to the day and the meal of somebody.
type eatsAs struct{ kcal, protein, carbohydrate, vitaminK float64 }

var handFoods = map[string]eatsAs{"rice": {3.6, 0.09, 0.45, 0}, "beans": {1, 0.025, 0.125, 0}, "fish": {2, 0.05, 0.25, 0.5}, "oil": {9, 0.225, 1.125, 0}}

// serve writes down the column of a serving and what it adds.
func (w *wanted) serve(who string, t int, where, food string, cost, upper float64, more ...at) {
	f, day := handFoods[food], fmt.Sprint(" ", t/meals)
	in := at{who + " " + food: 1}
	for _, row := range []struct {
		name string
		each float64
	}{{"energy", f.kcal}, {"protein", f.protein}, {"far", f.protein}} {
		in[who+" "+row.name+" low"+day], in[who+" "+row.name+" high"+day] = row.each, row.each
	}
	switch {
	case who == "Ida":
		in["K low"+day], in["K high"+day] = f.vitaminK, f.vitaminK
	case who == "Una":
		in["energy all"], in["protein all"] = f.kcal, f.protein
	case !isSnack(mealOf(t)):
		in[fmt.Sprint("low ", t)], in[fmt.Sprint("high ", t)], in["carbohydrate all"] = f.carbohydrate, f.carbohydrate, f.carbohydrate
	}
	for _, m := range more {
		in = also(in, m)
	}
	w.col(fmt.Sprintf("%s %d %s %s", who, t, where, food), cost, upper, in)
	w.served++
}

// beside writes down both columns of what is eaten beside the dishes: up to a sitting, and over
// it at 30 a kcal more; where the grams are free, four times that and 30.
func (w *wanted) beside(who string, t int, food string, most float64, within, more at) {
	kcal, times := handFoods[food].kcal, 1.0
	if who == "Una" {
		times = 4
	}
	w.serve(who, t, "beside", food, times*kcal, most, within, more)
	w.serve(who, t, "beside", food, (times+30)*kcal, inf, more)
}

// near are the two rows of a day near a fixed mean.
func (w *wanted) near(name, mean string, fed, room, cost float64, day string) {
	w.missed(name+" low"+day, -fed, inf, cost)
	w.missed(name+" high"+day, -inf, -fed, cost)
	w.add(mean, at{name + " low" + day: -(1 - room), name + " high" + day: -(1 + room)})
}

// day are those of energy, within 9 %, and protein, within 18 % and 31.5 %.
func (w *wanted) day(who, day string, fedKcal, fedProtein float64) {
	w.near(who+" energy", who+" kcal", fedKcal, 0.09, 6, day)
	w.near(who+" protein", who+" mean protein", fedProtein, 0.18, 60, day)
	w.near(who+" far", who+" mean protein", fedProtein, 0.315, 240, day)
}

// part is the row of a part of a dish of the household after its columns, with what it costs
// to be over it, under it and bare.
func (w *wanted) part(name string, least, most, kcal float64, bare bool) {
	w.partFree(name, least, most, kcal, bare, 1)
}

func (w *wanted) partFree(name string, least, most, kcal float64, bare bool, times float64) {
	w.row(name, least, most)
	w.over(name, 0.4*most, kcal, 6*kcal)
	w.col("thin", 1.5*times*kcal, inf, at{name: 1})
	if bare {
		w.row(name+" bare", 0.55*least, inf)
		w.col("bare", 6*kcal, inf, at{name + " bare": 1})
	}
}

// TestProgramOfServings: the program of who gets what at each meal, each place of it by hand, of
// the household of two days, whose grams are fixed here. Beans are open at 1, though not for these
// two, and 2, fish from 0 to 4 and from 5 to 9. Oil is eaten with rice. The stew's rice takes
// 150 mL for 100 g more than it does alone. Ida has, in place of the cup, a snack of rice, fish and
// oil, and a dish of beans for which nothing is open then; of Leif's rice 60 g are eaten on the
// first day.
func TestProgramOfServings(t *testing.T) {
	c := newTwoDays(t)
	h := c.h
	c.ida.may = nil
	c.oil.Companions = []string{"rice"}
	water := 150.0
	c.stew.parts[0].part.WaterML = &water
	c.leif.byDate = []ration.DatedFood{{Food: "rice", Day: 1, Grams: 60}, {Food: "beans", Day: 1, Grams: 60}} // he has no beans
	snack := dishOf("snack", "none", 5, []dishes.Slot{dishes.Snack}, "base", c.rice, "vegetable", c.fish, "fat?", c.oil)
	c.l[3].own = []ownDish{{c.ida, dishOf("none open", "none", 5, nil, "base", c.rice, "protein", c.beans)}, {c.ida, snack}}
	others, now := &opening{grams: 40, from: 1, last: 1}, &opening{grams: 110, from: 2, last: 2}
	first, second := &opening{grams: 100, from: 0, last: 4}, &opening{grams: 40, from: 5, last: 9}
	h.of[c.beans].openings, h.of[c.fish].openings = []*opening{others, now}, []*opening{first, second}
	content := h.openings()
	delete(content, others)
	servings, p := h.shareProgram(c.l, h.eaters, content, nil)

	w := &wanted{t: t}
	w.row("beans open", -inf, 110)
	w.row("fish open 0", -inf, 100)
	w.row("fish open 1", -inf, 40)
	w.missed("water", -inf, 0, 10000)

	// Ida. Not to eat a gram costs 500 a kcal, of which it counts as 9.
	for _, f := range []string{"rice", "beans", "fish", "oil"} {
		grams := map[string]float64{"rice": 150, "beans": 150, "fish": 40, "oil": 20}[f]
		w.row("Ida "+f, grams, grams)
		w.col("uneaten", 4500, inf, at{"Ida " + f: 1})
	}
	w.fixed("Ida kcal", 475, nil)
	w.fixed("Ida mean protein", 11.875, nil)
	w.fixed("K mean", 10, nil)
	idaDay := func(day string) {
		w.day("Ida", day, 0, 0)
		w.near("K", "K mean", 0, 0.27, 1200, day)
	}
	open0, open1 := at{"fish open 0": 1}, at{"fish open 1": 1}
	day0, day1 := at{"Ida fish day 0": 1}, at{"Ida fish day 1": 1}
	idaDay(" 0")
	w.beside("Ida", 0, "rice", 1000, nil, nil)
	w.beside("Ida", 0, "fish", 150, day0, open0)
	w.beside("Ida", 1, "beans", 100, nil, nil) // what is open then holds others
	w.serve("Ida", 2, "stew/rice", "rice", 0, 1000, at{"water": 0.0015, "stew rice": 1, "stew rice bare": 1, "rice at 2": 1, "oil with rice": -1. / 50})
	w.part("stew rice", 50, 200, 3.6, true)
	w.serve("Ida", 2, "stew/beans", "beans", 0, 100, at{"beans open": 1, "stew beans": 1, "stew beans bare": 1, "beans at 2": 1})
	w.serve("Ida", 2, "stew/beans", "fish", 0.02, 150, open0, day0, at{"stew beans": 2, "stew beans bare": 2})
	w.serve("Ida", 2, "stew/beans", "rice", 0.02, 1000, at{"stew beans": 1.25, "stew beans bare": 1.25, "rice at 2": 1})
	w.part("stew beans", 50, 200, 1, true)
	w.serve("Ida", 2, "stew/oil", "oil", 0, 1000, at{"stew oil": 1, "oil at 2": 1, "oil with rice": 1. / 200})
	w.row("stew oil", -inf, 200)
	w.over("stew oil", 80, 9, 54)
	w.row("oil with rice", -inf, 0)
	w.beside("Ida", 2, "beans", 100, at{"beans at 2": 1}, at{"beans open": 1})
	w.beside("Ida", 2, "oil", 1000, at{"oil at 2": 1}, nil)
	w.serve("Ida", 3, "snack/rice", "rice", 0, 1000, at{"snack rice": 1, "fish with rice": -1. / 50, "rice's fish": -1. / 200, "oil with both": -1. / 50})
	w.row("snack rice", -inf, 200)
	w.over("snack rice", 80, 3.6, 21.6)
	w.serve("Ida", 3, "snack/fish", "fish", 0, 150, open0, day0, at{"snack fish": 1, "fish with rice": 1. / 200, "rice's fish": 1. / 50})
	w.row("snack fish", -inf, 200)
	w.over("snack fish", 80, 2, 12)
	w.row("fish with rice", -inf, 0)
	w.missed("rice's fish", 0, inf, 150) // 1.5 times 2 kcal of 50 g
	w.serve("Ida", 3, "snack/oil", "oil", 0, 1000, at{"snack oil": 1, "oil with both": 1. / 200})
	w.row("snack oil", -inf, 200)
	w.over("snack oil", 80, 9, 54)
	w.row("oil with both", -inf, 0)
	w.beside("Ida", 4, "fish", 150, day0, open0)
	idaDay(" 1")
	w.beside("Ida", 5, "rice", 1000, nil, nil)
	w.beside("Ida", 5, "fish", 150, day1, open1)
	w.serve("Ida", 9, "bowl/rice", "rice", 0, 1000, at{"bowl": 1, "bowl bare": 1})
	w.part("bowl", 50, 200, 3.6, true)
	w.beside("Ida", 9, "fish", 150, day1, open1)
	w.beside("Ida", 9, "oil", 1000, nil, nil)
	w.sitting("Ida fish day 0", 150, 60)
	w.sitting("rice at 2", 1000, 108)
	w.sitting("beans at 2", 100, 30)
	w.sitting("oil at 2", 1000, 270)
	w.sitting("Ida fish day 1", 150, 60)

	// Leif, two of half size.
	for _, f := range []string{"rice", "fish", "oil"} {
		grams := map[string]float64{"rice": 100, "fish": 50, "oil": 10}[f]
		w.row("Leif "+f, grams, grams)
		w.col("uneaten", 4500, inf, at{"Leif " + f: 1})
	}
	w.missed("dated", 60, inf, 180) // 50 a kcal
	w.col("carbohydrate mean", 0, inf, at{"carbohydrate all": -6})
	w.row("carbohydrate all", 0, 0)
	w.fixed("Leif kcal", 305, nil)
	w.fixed("Leif mean protein", 7.625, nil)
	for _, day := range []string{" 0", " 1"} {
		w.row("limit"+day, -inf, 30)
		w.over("limit"+day, 30, 50000./30, 100000./30)
	}
	dated := at{"dated": 1}
	w.day("Leif", " 0", 30, 0.75)
	leifs := func(t int, opening string, more at) { // what he may have at a main meal: it is to be alike
		day := fmt.Sprint(" ", t/meals)
		open, within := at{opening: 2, "limit" + day: 1}, at{"Leif fish day" + day: 1}
		inRice, inFish, inOil := at(nil), within, at(nil)
		switch t {
		case 2:
			inRice, inFish, inOil = at{"Leif rice at 2": 1}, also(within, at{"Leif fish at 2": 1}), at{"Leif oil at 2": 1}
		case 9:
			inFish = also(within, at{"Leif fish at 9": 1})
		}
		if !isSnack(mealOf(t)) {
			w.beside("Leif", t, "rice", 1000, inRice, more)
		}
		w.beside("Leif", t, "fish", 30, inFish, open)
		if !isSnack(mealOf(t)) {
			w.beside("Leif", t, "oil", 1000, inOil, nil)
		}
	}
	w.carbohydrate("0", 90)
	leifs(0, "fish open 0", dated)
	leifs(1, "fish open 0", dated)
	w.carbohydrate("2", 90)
	w.serve("Leif", 2, "stew/rice", "rice", 0, 1000, dated, at{"water": 0.003, "Leif stew rice": 1, "Leif stew rice bare": 1, "Leif rice at 2": 1, "Leif oil with rice": -1. / 25})
	w.part("Leif stew rice", 25, 100, 3.6, true)
	w.serve("Leif", 2, "stew/beans", "fish", 0.02, 30, at{"fish open 0": 2, "limit 0": 1, "Leif fish day 0": 1, "Leif fish at 2": 1, "Leif stew beans": 2, "Leif stew beans bare": 2})
	w.serve("Leif", 2, "stew/beans", "rice", 0.02, 1000, dated, at{"Leif stew beans": 1.25, "Leif stew beans bare": 1.25, "Leif rice at 2": 1})
	w.part("Leif stew beans", 25, 100, 1, true)
	w.serve("Leif", 2, "stew/oil", "oil", 0, 1000, at{"Leif stew oil": 1, "Leif oil at 2": 1, "Leif oil with rice": 1. / 100})
	w.row("Leif stew oil", -inf, 100)
	w.over("Leif stew oil", 40, 9, 54)
	w.row("Leif oil with rice", -inf, 0)
	leifs(2, "fish open 0", dated)
	leifs(3, "fish open 0", dated)
	w.carbohydrate("4", 90)
	leifs(4, "fish open 0", dated)
	w.day("Leif", " 1", 30, 0.75)
	w.carbohydrate("5", 90)
	leifs(5, "fish open 1", nil)
	leifs(6, "fish open 1", nil)
	w.carbohydrate("7", 90)
	leifs(7, "fish open 1", nil)
	leifs(8, "fish open 1", nil)
	w.carbohydrate("9", 90)
	w.serve("Leif", 9, "pot/fish", "fish", 0, 30, at{"fish open 1": 2, "limit 1": 1, "Leif fish day 1": 1, "Leif fish at 9": 1, "pot": 1})
	w.part("pot", 25, 100, 2, false)
	leifs(9, "fish open 1", nil)
	w.sitting("Leif fish day 0", 150, 120)
	w.sitting("Leif rice at 2", 1000, 216)
	w.sitting("Leif fish at 2", 100, 120)
	w.sitting("Leif oil at 2", 1000, 540)
	w.sitting("Leif fish day 1", 150, 120)
	w.sitting("Leif fish at 9", 100, 120)
	w.compare(p)

	if len(servings) != w.served {
		t.Errorf("%d servings, want %d", len(servings), w.served)
	}
	for _, v := range servings {
		where := "beside"
		if v.of != nil {
			where = v.of.dish.Key + "/" + v.part.part.Name
		}
		if got := fmt.Sprintf("%s %d %s %s", v.eater.name, v.t, where, v.food.food.Name); got != w.cols[v.col].name {
			t.Errorf("a serving %q is column %d, of %q", got, v.col, w.cols[v.col].name)
		}
	}
	if want := 7; len(p.uneaten) != want { // four foods and three
		t.Errorf("%d columns of what is not eaten, want %d", len(p.uneaten), want)
	}
	for _, j := range p.uneaten {
		if w.cols[j].name != "uneaten" {
			t.Errorf("column %d, of %q, is said to be what is not eaten", j, w.cols[j].name)
		}
	}
	x := make([]float64, len(p.Cols)) // at which 3 g and 2 g are left
	x[p.uneaten[0]], x[p.uneaten[6]] = 3, 2
	if got := p.left(x); got != 5 {
		t.Errorf("%g g are left, want 5", got)
	}
}

// sitting is the row of what somebody may get at a meal or in a day of what is eaten alike.
func (w *wanted) sitting(name string, most, cost float64) {
	w.row(name, -inf, most)
	w.col("over "+name, cost, inf, at{name: -1})
}

// TestLeaving: not to eat a gram costs 500 for each kcal of it, and for 9 at least.
func TestLeaving(t *testing.T) {
	table := newTable(t)
	for kcal, want := range map[float64]float64{0: 4500, 360: 4500, 900: 4500, 1000: 5000} {
		if got := leaving(table.add(fmt.Sprint(kcal), kcal)); got != want {
			t.Errorf("%g kcal in 100 g: %g, want %g", kcal, got, want)
		}
	}
}

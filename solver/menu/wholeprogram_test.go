package menu

import (
	"math"
	"slices"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// wanted is a program written down by hand: its rows by name, then its columns, each in order.
type wanted struct {
	t      *testing.T
	name   []string // of the rows
	rows   []rowWanted
	cols   []colWanted
	served int // columns of servings
}

type rowWanted struct{ lower, upper float64 }

type colWanted struct {
	name               string
	cost, lower, upper float64
	whole              bool
	in                 at
}

// at is coefficients by the name of their row.
type at map[string]float64

func (w *wanted) row(name string, lower, upper float64) {
	w.name, w.rows = append(w.name, name), append(w.rows, rowWanted{lower, upper})
}

func (w *wanted) col(name string, cost, upper float64, in at) {
	w.cols = append(w.cols, colWanted{name, cost, 0, upper, false, in})
}

func (w *wanted) wholeCol(name string, cost, upper float64, in at) {
	w.cols = append(w.cols, colWanted{name, cost, 0, upper, true, in})
}

func (w *wanted) fixed(name string, value float64, in at) {
	w.cols = append(w.cols, colWanted{name, 0, value, value, false, in})
}

// missed is a row that may be missed under its least and over its most, at a cost a unit.
func (w *wanted) missed(name string, lower, upper, cost float64) {
	w.row(name, lower, upper)
	if !math.IsInf(lower, -1) {
		w.col("under "+name, cost, inf, at{name: 1})
	}
	if !math.IsInf(upper, 1) {
		w.col("over "+name, cost, inf, at{name: -1})
	}
}

// over are the two columns by which a row may be over its most.
func (w *wanted) over(name string, near, cost, far float64) {
	w.col("a little over "+name, cost, near, at{name: -1})
	w.col("far over "+name, far, inf, at{name: -1})
}

// also puts coefficients of several columns together.
func also(list ...at) at {
	all := at{}
	for _, in := range list {
		for name, v := range in {
			all[name] += v
		}
	}
	return all
}

// add gives what is written of the columns so far a coefficient more, by name of the column.
func (w *wanted) add(col string, in at) {
	w.t.Helper()
	for i := range w.cols {
		if w.cols[i].name == col {
			w.cols[i].in = also(w.cols[i].in, in)
			return
		}
	}
	w.t.Fatalf("no column %q is written", col)
}

// compare holds a program to what is written, place by place.
func (w *wanted) compare(p *program) {
	w.t.Helper()
	near := func(a, b float64) bool { return a == b || math.Abs(a-b) <= 1e-12*math.Max(1, math.Abs(b)) }
	if len(p.Rows) != len(w.rows) || len(p.Cols) != len(w.cols) {
		w.t.Errorf("%d rows and %d columns, want %d and %d", len(p.Rows), len(p.Cols), len(w.rows), len(w.cols))
	}
	for i := range min(len(p.Rows), len(w.rows)) {
		if r, want := p.Rows[i], w.rows[i]; !near(r.Lower, want.lower) || !near(r.Upper, want.upper) {
			w.t.Errorf("row %d, %s: from %g to %g, want %g to %g", i, w.name[i], r.Lower, r.Upper, want.lower, want.upper)
		}
	}
	for j := range min(len(p.Cols), len(w.cols)) {
		c, want := p.Cols[j], w.cols[j]
		if !near(c.Cost, want.cost) || !near(c.Lower, want.lower) || !near(c.Upper, want.upper) || c.Integer != want.whole {
			w.t.Errorf("column %d, %s: costs %g, from %g to %g, whole %v, want %g, %g to %g, %v", j, want.name, c.Cost, c.Lower, c.Upper, c.Integer, want.cost, want.lower, want.upper, want.whole)
		}
		got := at{}
		for _, y := range c.Entries {
			if y.Row < len(w.name) {
				got[w.name[y.Row]] += y.Value
			} else {
				got["a row too many"] += y.Value
			}
		}
		for name := range also(got, want.in) {
			if !near(got[name], want.in[name]) {
				w.t.Errorf("column %d, %s, in row %s: %g, want %g", j, want.name, name, got[name], want.in[name])
			}
		}
	}
}

// twoDays is a household of two rows of people for two days: Ida, whose grams are free and whose
// medicine asks for vitamin K alike, and two of half size who are Leif, who has no beans, counts
// carbohydrate, is let 30 g of fish a day and is fed milk beside. Rice and oil keep, beans are
// finished at their meal, fish on its day. On the first day all have a stew of rice and of beans,
// fish or rice, Ida a cup of fish in the afternoon; on the second evening Ida has a bowl of rice,
// Leif a pot of fish instead.
type twoDays struct {
	h                                     *household
	l                                     layout
	ida, leif                             *eater
	rice, beans, fish, oil                *foods.Food
	stew, cup, bowl, pot                  *choice
	beansEarly, beansNext, beansAny, tins opened
}

func newTwoDays(t *testing.T) *twoDays {
	t.Helper()
	w := &twoDays{}
	table := newTable(t)
	w.rice, w.beans, w.fish, w.oil = table.add("rice", 360), table.add("beans", 100), table.add("fish", 200), table.add("oil", 900)
	milk := table.add("milk", 60)
	table.foods = table.foods[:4] // the milk is opened elsewhere
	w.beans.Group, w.beans.OccasionG, w.beans.DayG, w.beans.Keeping = "canned beans", 100, 300, &foods.Keeping{AfterOpenHours: 2}
	w.fish.Group, w.fish.OccasionG, w.fish.DayG, w.fish.Keeping = "canned fish", 100, 150, &foods.Keeping{AfterOpenHours: 24}
	w.fish.Per100g[nutrients.VitaminK] = 50
	person := &nutrients.Person{AgeMonths: 400, Sex: nutrients.Female}
	w.ida = &eater{
		name: "Ida", count: 1, size: 1, person: person, grams: map[*foods.Food]float64{w.rice: 150, w.beans: 150, w.fish: 40, w.oil: 20},
		may: map[*foods.Food]bool{w.rice: true, w.beans: true, w.fish: true, w.oil: true}, steady: []evened{{nutrients.VitaminK, 10}}, kcal: 475, protein: 11.875,
	}
	w.leif = &eater{
		name: "Leif", count: 2, size: 0.5, person: person, grams: map[*foods.Food]float64{w.rice: 100, w.fish: 50, w.oil: 10}, band: &ration.MealRange{},
		limits: []rules.Limit{{Most: 30, Days: 1, Counts: func(f *foods.Food) float64 {
			if f == w.fish {
				return 1
			}
			return 0
		}}},
		feeds: []feed{{milk, 100}}, kcal: 305, protein: 7.625,
	}
	w.h = &household{days: 2, eaters: []*eater{w.ida, w.leif}, foods: table.foods, of: table.of, byName: map[string]*stocked{}, cold: map[int]bool{}, start: time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC)}
	pack := func(f *foods.Food, netG float64, date string) opened {
		return opened{&foods.Pack{Key: f.Name + " " + date, Food: f, NetG: netG}, date}
	}
	w.beansEarly, w.beansNext, w.beansAny = pack(w.beans, 40, "2026-01-05"), pack(w.beans, 50, "2026-01-06"), pack(w.beans, 30, noDate)
	w.tins = pack(w.fish, 140, noDate)
	for _, s := range w.h.foods {
		w.h.byName[s.food.Name] = s
		for _, e := range w.h.eaters {
			s.grams += e.count * e.grams[s.food]
		}
	}
	unplaced := func() *opening { return &opening{from: -1, last: -1} }
	beans, fish := table.of[w.beans], table.of[w.fish]
	beans.meal, beans.packs, beans.openings = true, []opened{w.beansEarly, w.beansNext, w.beansAny, w.beansAny}, []*opening{unplaced(), unplaced()}
	fish.packs, fish.openings = []opened{w.tins}, []*opening{unplaced()}
	table.of[w.rice].days, table.of[w.oil].days = 2, 2

	mains := []dishes.Slot{dishes.Midday, dishes.Evening}
	w.stew = dishOf("stew", "boil", 20, mains, "base", w.rice, "protein", w.beans, "fat?", w.oil)
	made := []dishes.Option{{Food: w.beans, Factor: 1}, {Food: w.fish, Factor: 0.5, Substitute: true}, {Food: w.rice, Factor: 0.8, Substitute: true}}
	w.stew.parts[1].options, w.stew.parts[1].part.Options = made, made
	w.cup = dishOf("cup", "none", 5, []dishes.Slot{dishes.Snack}, "base", w.fish)
	w.bowl, w.pot = dishOf("bowl", "boil", 20, mains, "base", w.rice), dishOf("pot", "boil", 20, mains, "vegetable", w.fish)
	w.l = make(layout, 2*meals)
	w.l[2].main, w.l[3].own = w.stew, []ownDish{{w.ida, w.cup}}
	w.l[9].main, w.l[9].instead = w.bowl, map[*eater]*choice{w.leif: w.pot}
	return w
}

// TestProgramOfOpenings: the program of where packs are opened, each place of it by hand.
//
// Beans are eaten in the stew, at position 2 of the days, and since one sitting of 100 g is not
// enough for 150 g, between meals at 1, 3, 6 and 8. Those of the first day's date are opened on
// it, those of the second's by a thousandth of a kcal a day later. Fish counts by its day.
//
// A gram has of rice 3.6 kcal, 0.09 g of protein and 0.45 g of carbohydrate, of beans 1, 0.025
// and 0.125, of fish 2, 0.05 and 0.25 and 0.5 µg of vitamin K, of oil 9, 0.225 and 1.125.
func TestProgramOfOpenings(t *testing.T) {
	c := newTwoDays(t)
	h := c.h
	p := &hosting{program: &program{}, h: h, l: c.l, content: map[*stocked]map[int]int{}, needs: map[need]int{}}
	p.addOpenings(h.of[c.beans])
	p.addOpenings(h.of[c.fish])
	p.addDays(c.ida)
	p.addDays(c.leif)

	w := &wanted{t: t}
	w.row("beans 1", -inf, 0)
	w.row("beans 2", -inf, 0)
	w.row("beans 3", -inf, 0)
	w.row("beans 6", -inf, 0)
	w.row("beans 8", -inf, 0)
	w.row("early", 1, 1)
	w.col("early 1", 0, 1, at{"early": 1, "beans 1": -40})
	w.col("early 2", 0, 1, at{"early": 1, "beans 2": -40, "need": 0.4}) // of the least of 50 g of two servings
	w.col("early 3", 0, 1, at{"early": 1, "beans 3": -40})
	w.row("next", 1, 1)
	w.col("next 1", 0, 1, at{"next": 1, "beans 1": -50})
	w.col("next 2", 0, 1, at{"next": 1, "beans 2": -50, "need": 0.5})
	w.col("next 3", 0, 1, at{"next": 1, "beans 3": -50})
	w.col("next 6", 0.05, 1, at{"next": 1, "beans 6": -50}) // 50 g of a kcal, a day later
	w.col("next 8", 0.05, 1, at{"next": 1, "beans 8": -50})
	w.row("any", 2, 2)
	w.col("any 1", 0, 2, at{"any": 1, "beans 1": -30})
	w.col("any 2", 0, 2, at{"any": 1, "beans 2": -30, "need": 0.3})
	w.col("any 3", 0, 2, at{"any": 1, "beans 3": -30})
	w.col("any 6", 0, 2, at{"any": 1, "beans 6": -30})
	w.col("any 8", 0, 2, at{"any": 1, "beans 8": -30})
	w.row("fish of day 0", -inf, 0)
	w.row("fish of day 1", -inf, 0)
	w.row("tins", 1, 1)
	w.col("tins 0", 0, 1, at{"tins": 1, "fish of day 0": -140, "need": 1, "need of Leif": 1})
	w.col("tins 5", 0, 1, at{"tins": 1, "fish of day 1": -140, "need of the pot": 1})

	// Ida: 475 kcal and 11.875 g of protein a day; her grams are free: another may have more, at
	// half the cost, and her days count three times. What is opened is left at 100 times.
	for _, f := range []struct {
		name        string
		grams, cost float64
	}{{"rice", 150, 3.6}, {"beans", 150, 100}, {"fish", 40, 200}, {"oil", 20, 9}} {
		w.row("Ida "+f.name, f.grams, f.grams)
		w.col("Ida less "+f.name, f.cost, inf, at{"Ida " + f.name: 1})
		w.col("Ida more "+f.name, f.cost/2, inf, at{"Ida " + f.name: -1})
	}
	w.col("K mean", 0, inf, at{"K all": -2})
	w.row("K all", 0, 0)
	rice := func(day string) at {
		return at{"Ida rice": 1, "Ida energy" + day: 3.6, "Ida protein" + day: 0.09, "Ida far" + day: 0.09}
	}
	beans := func(day, meal string) at {
		return at{"Ida beans": 1, "Ida energy" + day: 1, "Ida protein" + day: 0.025, "Ida far" + day: 0.025, "beans " + meal: 1}
	}
	fish := func(day string) at {
		return at{"Ida fish": 1, "Ida energy" + day: 2, "Ida protein" + day: 0.05, "Ida far" + day: 0.05, "fish of day" + day: 1, "K low" + day: 0.5, "K high" + day: 0.5, "K all": 0.5}
	}
	idaDay := func(day string) {
		w.missed("K low"+day, 0, inf, 3600) // 12000 for a mean of 10 µg, three times
		w.missed("K high"+day, -inf, 0, 3600)
		w.add("K mean", at{"K low" + day: -0.73, "K high" + day: -1.27}) // nine tenths of 30 %
		w.missed("Ida energy"+day, 0.91*475, 1.09*475, 18)
		w.missed("Ida protein"+day, 0.82*11.875, 1.18*11.875, 180)
		w.missed("Ida far"+day, 0.685*11.875, 1.315*11.875, 720)
	}
	idaDay(" 0")
	w.col("Ida fish beside", 2, 150, also(fish(" 0"), at{"Ida fish day": 1}))
	w.col("Ida beans beside at 1", 1, 100, beans(" 0", "1"))
	w.row("Ida stew rice", 50, 200)
	w.over("Ida stew rice", 80, 3.6, 21.6)
	w.col("thin", 21.6, inf, at{"Ida stew rice": 1}) // 1.5, four times
	w.row("Ida stew rice bare", 27.5, inf)
	w.col("bare", 21.6, inf, at{"Ida stew rice bare": 1})
	w.col("Ida rice in the stew", 0, 1000, also(rice(" 0"), at{"Ida stew rice": 1, "Ida stew rice bare": 1}))
	w.row("Ida stew beans", 50, 200)
	w.over("Ida stew beans", 80, 1, 6)
	w.col("thin", 6, inf, at{"Ida stew beans": 1})
	w.missed("need", 1, inf, 2000) // 20 a kcal of 100 g
	w.row("Ida stew beans bare", 27.5, inf)
	w.col("bare", 6, inf, at{"Ida stew beans bare": 1})
	w.col("Ida beans in the stew", 0, 100, also(beans(" 0", "2"), at{"Ida stew beans": 1, "Ida stew beans bare": 1, "Ida beans at 2": 1}))
	w.col("Ida fish for them", 0, 150, also(fish(" 0"), at{"Ida stew beans": 2, "Ida stew beans bare": 2, "Ida fish day": 1}))
	w.col("Ida rice for them", 0, 1000, also(rice(" 0"), at{"Ida stew beans": 1.25, "Ida stew beans bare": 1.25, "need": 0.0125})) // of 0.8 · 50 g · 2
	w.row("Ida stew oil", -inf, 200)
	w.over("Ida stew oil", 80, 9, 54)
	w.col("Ida oil in the stew", 0, 1000, at{"Ida stew oil": 1, "Ida oil": 1, "Ida energy 0": 9, "Ida protein 0": 0.225, "Ida far 0": 0.225})
	w.col("Ida beans beside at 2", 1, 100, also(beans(" 0", "2"), at{"Ida beans at 2": 1}))
	w.row("Ida cup", -inf, 200) // which she may leave
	w.over("Ida cup", 80, 2, 12)
	w.col("Ida fish in the cup", 0, 150, also(fish(" 0"), at{"Ida cup": 1, "Ida fish day": 1}))
	w.col("Ida beans beside at 3", 1, 100, beans(" 0", "3"))
	idaDay(" 1")
	w.col("Ida fish beside", 2, 150, fish(" 1"))
	w.col("Ida beans beside at 6", 1, 100, beans(" 1", "6"))
	w.col("Ida beans beside at 8", 1, 100, beans(" 1", "8"))
	w.row("Ida bowl", 50, 200)
	w.over("Ida bowl", 80, 3.6, 21.6)
	w.col("thin", 21.6, inf, at{"Ida bowl": 1})
	w.row("Ida bowl bare", 27.5, inf)
	w.col("bare", 21.6, inf, at{"Ida bowl bare": 1})
	w.col("Ida rice in the bowl", 0, 1000, also(rice(" 1"), at{"Ida bowl": 1, "Ida bowl bare": 1}))
	w.row("Ida fish day", -inf, 150) // over it 30 a kcal
	w.col("over", 60, inf, at{"Ida fish day": -1})
	w.row("Ida beans at 2", -inf, 100)
	w.col("over", 30, inf, at{"Ida beans at 2": -1})

	// Leif, twice: 305 kcal and 7.625 g of protein a day, of which the milk gives 30 and 0.75.
	for _, f := range []struct {
		name        string
		grams, cost float64
	}{{"rice", 100, 7.2}, {"fish", 50, 400}, {"oil", 10, 18}} {
		w.row("Leif "+f.name, f.grams, f.grams)
		w.col("Leif less "+f.name, f.cost, inf, at{"Leif " + f.name: 1})
	}
	w.col("carbohydrate mean", 0, inf, at{"carbohydrate all": -6})
	w.row("carbohydrate all", 0, 0)
	for _, day := range []string{" 0", " 1"} { // 50,000 for the whole, each of two, is less than 0.45 of 500 times 9 kcal a gram
		w.row("limit"+day, -inf, 30)
		w.over("limit"+day, 30, 2*50000./30, 4*50000./30)
	}
	leifDay := func(day string, at ...string) {
		w.missed("Leif energy"+day, 0.91*305-30, 1.09*305-30, 12)
		w.missed("Leif protein"+day, 0.82*7.625-0.75, 1.18*7.625-0.75, 120)
		w.missed("Leif far"+day, 0.685*7.625-0.75, 1.315*7.625-0.75, 480)
		for _, meal := range at {
			w.carbohydrate(meal, 90)
		}
	}
	eaten := func(food string, kcal, protein, carbohydrate float64, day, meal string) at {
		return at{"Leif " + food: 1, "Leif energy" + day: kcal, "Leif protein" + day: protein, "Leif far" + day: protein, "carbohydrate all": carbohydrate, "low " + meal: carbohydrate, "high " + meal: carbohydrate}
	}
	leifFish := func(day, meal string) at {
		return also(eaten("fish", 2, 0.05, 0.25, day, meal), at{"fish of day" + day: 2, "limit" + day: 1, "Leif fish day" + day: 1})
	}
	leifDay(" 0", "0", "2", "4")
	w.col("Leif fish beside", 4, 30, leifFish(" 0", "0"))
	w.row("Leif stew rice", 25, 100)
	w.over("Leif stew rice", 40, 7.2, 43.2)
	w.col("thin", 43.2, inf, at{"Leif stew rice": 1})
	w.row("Leif stew rice bare", 13.75, inf)
	w.col("bare", 43.2, inf, at{"Leif stew rice bare": 1})
	w.col("Leif rice in the stew", 0, 1000, also(eaten("rice", 3.6, 0.09, 0.45, " 0", "2"), at{"Leif stew rice": 1, "Leif stew rice bare": 1}))
	w.row("Leif stew beans", 25, 100)
	w.over("Leif stew beans", 40, 2, 12)
	w.col("thin", 12, inf, at{"Leif stew beans": 1})
	w.missed("need of Leif", 1, inf, 1000)
	w.row("Leif stew beans bare", 13.75, inf)
	w.col("bare", 12, inf, at{"Leif stew beans bare": 1})
	w.col("Leif fish for them", 0, 30, also(leifFish(" 0", "2"), at{"Leif stew beans": 2, "Leif stew beans bare": 2}))
	w.col("Leif rice for them", 0, 1000, also(eaten("rice", 3.6, 0.09, 0.45, " 0", "2"), at{"Leif stew beans": 1.25, "Leif stew beans bare": 1.25, "need": 0.025, "need of Leif": 0.05}))
	w.row("Leif stew oil", -inf, 100)
	w.over("Leif stew oil", 40, 18, 108)
	w.col("Leif oil in the stew", 0, 1000, also(eaten("oil", 9, 0.225, 1.125, " 0", "2"), at{"Leif stew oil": 1}))
	leifDay(" 1", "5", "7", "9")
	w.col("Leif fish beside", 4, 30, leifFish(" 1", "5"))
	w.row("Leif pot", 25, 100)
	w.over("Leif pot", 40, 4, 24)
	w.col("thin", 24, inf, at{"Leif pot": 1})
	w.missed("need of the pot", 1, inf, 2000)
	w.col("Leif fish in the pot", 0, 30, also(leifFish(" 1", "9"), at{"Leif pot": 1}))
	for _, day := range []string{" 0", " 1"} {
		w.row("Leif fish day"+day, -inf, 150)
		w.col("over", 120, inf, at{"Leif fish day" + day: -1})
	}
	w.compare(p.program)

	// A point opens the early beans at 1, the rest in the stew, and the fish on the second day.
	x := make([]float64, len(p.Cols))
	x[0], x[4], x[9], x[14] = 1, 1, 2, 1
	p.open(h.of[c.beans], x)
	p.open(h.of[c.fish], x)
	type said struct {
		grams      float64
		from, last int
		packs      []opened
	}
	for _, v := range []struct {
		food *foods.Food
		want []said
	}{
		{c.beans, []said{{40, 1, 1, []opened{c.beansEarly}}, {110, 2, 2, []opened{c.beansNext, c.beansAny, c.beansAny}}}},
		{c.fish, []said{{140, 5, 9, []opened{c.tins}}}},
	} {
		openings := h.of[v.food].openings
		if len(openings) != len(v.want) {
			t.Fatalf("%s: %d openings, want %+v", v.food.Name, len(openings), v.want)
		}
		for i, o := range openings {
			if want := v.want[i]; o.grams != want.grams || o.from != want.from || o.last != want.last || !slices.Equal(o.packs, want.packs) {
				t.Errorf("%s: opened %+v, want %+v", v.food.Name, *o, want)
			}
		}
	}
}

// carbohydrate are the rows of a meal 9 g about the mean, 5 g at a cost and beyond at four
// times that.
func (w *wanted) carbohydrate(meal string, cost float64) {
	low, high := "low "+meal, "high "+meal
	w.row(low, -9, inf)
	w.row(high, -inf, 9)
	w.col("a little under "+low, cost, 5, at{low: 1})
	w.col("a little over "+high, cost, 5, at{high: -1})
	w.col("far under "+low, 4*cost, inf, at{low: 1})
	w.col("far over "+high, 4*cost, inf, at{high: -1})
	w.add("carbohydrate mean", at{low: -1, high: -1})
}

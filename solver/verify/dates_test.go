package verify

import (
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// larder is a check of ten days from the 25th of November with rice in packs of 100 g, of which two
// people eat 1000 g each in all, and as many packs of oats; day n is the last on which a pack of
// dated rice may be eaten.
type larder struct {
	check      *checker
	eater      *diner
	rice, oats *foods.Food
	pack       *foods.Pack
}

func larderOf(t *testing.T, count float64, date string) *larder {
	t.Helper()
	l := &larder{rice: food("rice", nil), oats: food("oats", nil)}
	l.pack = &foods.Pack{Key: "rice", Food: l.rice, NetG: 100, EasyOpen: true, GrossG: 110}
	grain := &foods.Pack{Key: "oats", Food: l.oats, NetG: 100, EasyOpen: true, GrossG: 110}
	l.rice.Packs, l.oats.Packs = []*foods.Pack{l.pack}, []*foods.Pack{grain}
	for _, f := range []*foods.Food{l.rice, l.oats} {
		f.Per100g[nutrients.Energy], f.Per100g[nutrients.Protein], f.Per100g[nutrients.Fat] = 350, 8, 1
	}
	l.check = checkerOf(t, &ration.Request{Days: 10, Start: "2026-11-25", Table: &foods.Table{Foods: []*foods.Food{l.rice, l.oats}, Packs: []*foods.Pack{l.pack, grain}}})
	if count > 0 {
		l.check.req.Stock = []foods.StockLine{{Pack: l.pack, Count: count, BestBefore: date}}
	}
	l.eater = dinerOf(400)
	l.eater.heads = 2
	l.eater.may = map[*foods.Food]amount{l.rice: {most: 1000, window: 1000}, l.oats: {most: 1000, window: 1000}}
	l.check.diners = []*diner{l.eater}
	return l
}

func (l *larder) eats(rice, oats float64, dated ...ration.DatedFood) {
	l.eater.eaten = []helping{{l.rice, rice}, {l.oats, oats}}
	l.eater.plan = &ration.PlanPerson{Name: "Signe", ByDate: dated}
}

// TestPacksHeld: each line of the packs is of a size that is known, counted and sold or in stock,
// and can be opened; what all eat of a food comes out of its packs, what is set aside not; and what
// one person eats of what spoils once open takes a pack for each time.
func TestPacksHeld(t *testing.T) {
	line := func(key string, counts ...int) ration.PlanPack {
		p := ration.PlanPack{Pack: key, Count: counts[0]}
		if len(counts) > 1 {
			p.FromStock = counts[1]
		}
		return p
	}
	aside := line("rice", 5)
	aside.Reserve = true
	for _, c := range []struct {
		name   string
		packs  []ration.PlanPack
		rice   float64 // g that each of two eats
		window float64
		change func(*larder)
		want   string
		amount float64 // of the finding
	}{
		{"three packs", []ration.PlanPack{line("rice", 3)}, 150, 1000, nil, "", 0},
		{"in two lines", []ration.PlanPack{line("rice", 1), line("rice", 2)}, 150, 1000, nil, "", 0},
		{"a gram more", []ration.PlanPack{line("rice", 3)}, 150.5, 1000, nil, "packs of rice", 301},
		{"none", nil, 1, 1000, nil, "packs of rice", 2},
		{"set aside", []ration.PlanPack{line("rice", 3), aside}, 151, 1000, nil, "packs of rice", 302},
		{"unknown", []ration.PlanPack{line("moon", 3)}, 0, 1000, nil, "pack moon is unknown or not counted", 3},
		{"none of them", []ration.PlanPack{line("rice", 0)}, 0, 1000, nil, "pack rice is unknown or not counted", 0},
		{"less than none in stock", []ration.PlanPack{line("rice", 3, -1)}, 0, 1000, nil, "pack rice is unknown or not counted", 3},
		{"of a size that is not sold", []ration.PlanPack{line("rice", 3)}, 0, 1000, func(l *larder) { l.rice.Packs = nil }, "pack rice is of a size that is not sold", 3},
		{"more than the stock has of it", []ration.PlanPack{line("rice", 3, 1)}, 0, 1000, func(l *larder) { l.rice.Packs = nil }, "pack rice is of a size that is not sold", 2},
		{"all from stock", []ration.PlanPack{line("rice", 3, 3)}, 0, 1000, func(l *larder) { l.rice.Packs = nil }, "", 0},
		{"easy for weak hands", []ration.PlanPack{line("rice", 3)}, 0, 1000, func(l *larder) { l.check.req.EasyOpen = true }, "", 0},
		{"hard for weak hands", []ration.PlanPack{line("rice", 3, 1)}, 0, 1000, func(l *larder) { l.check.req.EasyOpen, l.pack.EasyOpen = true, false }, "pack rice is hard to open", 3},
		{"hard to open", []ration.PlanPack{line("rice", 3)}, 0, 1000, func(l *larder) { l.pack.EasyOpen = false }, "", 0},
		{"50 g of each, both share a pack", []ration.PlanPack{line("rice", 3)}, 150, 50, nil, "", 0},
		{"more than 50 g out of each of three", []ration.PlanPack{line("rice", 4)}, 201, 50, nil, "Signe: opened packs of rice\npacks of rice", 201},
		{"30 g of each: the rest of a pack spoils", []ration.PlanPack{line("rice", 5)}, 150, 30, nil, "", 0},
		{"more than 30 g out of each", []ration.PlanPack{line("rice", 5)}, 151, 30, nil, "Signe: opened packs of rice\npacks of rice", 151},
		{"from stock they are opened too", []ration.PlanPack{line("rice", 2), line("rice", 3, 3)}, 150, 30, func(l *larder) { l.check.req.Stock = []foods.StockLine{{Pack: l.pack, Count: 3}} }, "", 0},
		{"one from a larger stock and two bought", []ration.PlanPack{line("rice", 3, 1)}, 150.5, 1000, func(l *larder) { l.check.req.Stock = []foods.StockLine{{Pack: l.pack, Count: 5}} }, "packs of rice", 301},
		{"bought with a tenth more", []ration.PlanPack{line("rice", 4)}, 182, 1000, func(l *larder) {
			l.rice.Tags, l.eater.needs.Feed = []string{foods.TagInfantFormula}, &nutrients.Feed{SpareFactor: 1.1}
		}, "packs of rice", 400.4},
		{"a mother's milk has none", nil, 500, 1000, func(l *larder) { l.rice.Tags = []string{foods.TagHumanMilk} }, "", 0},
		{"out of a pack no more than all may eat", []ration.PlanPack{line("rice", 2)}, 30, 1000, func(l *larder) { l.eater.may[l.rice] = amount{most: 20, window: 20} }, "", 0},
		{"which they eat", []ration.PlanPack{line("rice", 1)}, 30, 1000, func(l *larder) { l.eater.may[l.rice] = amount{most: 20, window: 20} }, "packs of rice", 60},
	} {
		l := larderOf(t, 0, "")
		l.eater.may[l.rice] = amount{most: 1000, window: c.window}
		l.eats(c.rice, 0)
		if c.change != nil {
			c.change(l)
		}
		l.check.plan.Packs = c.packs
		if (stored{l.check}).packs(); told(l.check) != c.want {
			t.Errorf("%s: %v, want %q", c.name, l.check.found, c.want)
		} else if c.want != "" && !near(l.check.found[0].Amount, c.amount) {
			t.Errorf("%s: %v, want %g", c.name, l.check.found[0], c.amount)
		}
	}
}

// TestUsableOfAPack: what can be eaten of one pack: its net, what all eat of it before it spoils, or
// what all may eat in all; who is barred eats none of it.
func TestUsableOfAPack(t *testing.T) {
	for _, c := range []struct {
		net, window, most float64
		want              float64
	}{{100, 1000, 1000, 100}, {100, 30, 1000, 60}, {100, 40, 45, 80}, {1000, 400, 300, 600}, {50, 30, 1000, 50}} {
		l := larderOf(t, 0, "")
		l.pack.NetG, l.eater.may[l.rice] = c.net, amount{most: c.most, window: c.window}
		barred := dinerOf(400)
		barred.may[l.rice] = amount{most: 5000, window: 5000, bar: "an allergy"}
		l.check.diners = []*diner{barred, l.eater}
		if got := l.check.usableG(l.pack); got != c.want {
			t.Errorf("%+v: %g g", c, got)
		}
		third := dinerOf(400)
		third.may[l.rice] = amount{most: 1, window: 1}
		l.check.diners = append(l.check.diners, third)
		if got, want := l.check.usableG(l.pack), min(c.net, c.want+1); got != want {
			t.Errorf("%+v and a gram more of a third: %g g, want %g", c, got, want)
		}
	}
}

// TestStockHeld: no more is taken of a pack than there is of it whole, in all lines together, than
// the line has, and nothing is bought of the stock alone.
func TestStockHeld(t *testing.T) {
	line := func(count, stock int) ration.PlanPack {
		return ration.PlanPack{Pack: "rice", Count: count, FromStock: stock}
	}
	for _, c := range []struct {
		name  string
		lines []float64
		packs []ration.PlanPack
		alone bool
		want  string
	}{
		{"all", []float64{3}, []ration.PlanPack{line(3, 3)}, false, ""},
		{"of two lines", []float64{1, 2}, []ration.PlanPack{line(3, 3)}, false, ""},
		{"one more", []float64{3}, []ration.PlanPack{line(4, 4)}, false, "stock of rice"},
		{"the part of a pack", []float64{3.9}, []ration.PlanPack{line(4, 4)}, false, "stock of rice"},
		{"twice", []float64{3}, []ration.PlanPack{line(2, 2), line(2, 2)}, false, "stock of rice"},
		{"and bought", []float64{3}, []ration.PlanPack{line(2, 2), line(4, 1)}, false, ""},
		{"bought in the line before", []float64{3}, []ration.PlanPack{line(4, 1), line(2, 2)}, false, ""},
		{"more than the line has", []float64{3}, []ration.PlanPack{line(1, 2)}, false, "stock of rice"},
		{"of the stock alone", []float64{3}, []ration.PlanPack{line(3, 3)}, true, ""},
		{"and one bought", []float64{3}, []ration.PlanPack{line(3, 2)}, true, "bought rice"},
	} {
		l := larderOf(t, 0, "")
		l.check.req.StockOnly = c.alone
		for _, n := range c.lines {
			l.check.req.Stock = append(l.check.req.Stock, foods.StockLine{Pack: l.pack, Count: n})
		}
		l.check.plan.Packs = c.packs
		if (stored{l.check}).stock(); told(l.check) != c.want {
			t.Errorf("%s: %v, want %q", c.name, l.check.found, c.want)
		}
		for _, v := range l.check.found {
			if v.Limit == "bought rice" && v.Amount != 1 {
				t.Errorf("%s: %v", c.name, v)
			}
		}
	}
}

// TestDatesHeld: six packs of rice good until day 4 of ten, of which two people eat 100 g a day and
// head at most: what they say to eat out of these is there, is not ahead of the days, is no more
// than they eat; the rest comes out of packs that keep.
func TestDatesHeld(t *testing.T) {
	const day4 = "2026-11-28"
	dated := func(food string, day int, grams float64) ration.DatedFood {
		return ration.DatedFood{Food: food, Day: day, Grams: grams}
	}
	pack := func(count, stock int) ration.PlanPack {
		return ration.PlanPack{Pack: "rice", Food: "rice", Count: count, FromStock: stock}
	}
	aside := pack(9, 0)
	aside.Reserve = true
	taken := pack(6, 6)
	taken.Reserve = true
	for _, c := range []struct {
		name   string
		rice   float64 // g that each of the two eats
		packs  []ration.PlanPack
		dates  []ration.DatedFood
		change func(*larder)
		want   string
	}{
		{"300 g each", 300, []ration.PlanPack{pack(6, 6)}, []ration.DatedFood{dated("rice", 4, 300)}, nil, ""},
		{"more than there is", 310, []ration.PlanPack{pack(7, 6)}, []ration.DatedFood{dated("rice", 4, 301)}, nil, "rice of day 4"},
		{"more than is taken", 300, []ration.PlanPack{pack(6, 5)}, []ration.DatedFood{dated("rice", 4, 251)}, nil, "rice of day 4"},
		{"all that is taken", 300, []ration.PlanPack{pack(6, 5)}, []ration.DatedFood{dated("rice", 4, 250)}, nil, ""},
		{"in two lines of the plan", 300, []ration.PlanPack{pack(5, 3), pack(3, 3)}, []ration.DatedFood{dated("rice", 4, 300)}, nil, ""},
		{"set aside of it", 250, []ration.PlanPack{pack(5, 0), taken}, []ration.DatedFood{dated("rice", 4, 100)}, nil, "rice of day 4"},
		{"of another day", 300, []ration.PlanPack{pack(6, 6)}, []ration.DatedFood{dated("rice", 5, 300)}, nil, "rice of day 5"},
		{"of another food", 300, []ration.PlanPack{pack(6, 0)}, []ration.DatedFood{dated("oats", 4, 100)}, func(l *larder) { l.eater.eaten[1].grams = 100 }, "oats of day 4"},
		{"in two helpings", 300, []ration.PlanPack{pack(6, 6)}, []ration.DatedFood{dated("rice", 4, 150), dated("rice", 4, 150)}, nil, ""},
		{"in two helpings, more than there is", 310, []ration.PlanPack{pack(7, 6)}, []ration.DatedFood{dated("rice", 4, 150), dated("rice", 4, 151)}, nil, "rice of day 4"},
		{"a part of a pack is none", 330, []ration.PlanPack{pack(7, 6)}, []ration.DatedFood{dated("rice", 4, 310)}, func(l *larder) { l.check.req.Stock[0].Count = 6.9 }, "rice of day 4"},
		{"ahead of the days", 500, []ration.PlanPack{pack(11, 9)}, []ration.DatedFood{dated("rice", 4, 401)}, func(l *larder) { l.check.req.Stock[0].Count = 9 },
			"Signe: most of rice by day 4"},
		{"just the days", 400, []ration.PlanPack{pack(8, 8)}, []ration.DatedFood{dated("rice", 4, 400)}, func(l *larder) { l.check.req.Stock[0].Count = 9 }, ""},
		{"of two dates together", 500, []ration.PlanPack{pack(10, 10)}, []ration.DatedFood{dated("rice", 2, 160), dated("rice", 4, 250)}, func(l *larder) {
			l.check.req.Stock = []foods.StockLine{{Pack: l.pack, Count: 5, BestBefore: "2026-11-26"}, {Pack: l.pack, Count: 5, BestBefore: day4}}
		}, "rice of packs that keep\nSigne: most of rice by day 4"}, // 410 of 400; and 90 g each of none
		{"of what is eaten", 250, []ration.PlanPack{pack(6, 6)}, []ration.DatedFood{dated("rice", 4, 260)}, nil, "Signe: dated rice"},
		{"the day before the first", 0, nil, []ration.DatedFood{dated("rice", 0, 0)}, nil, "Signe: dated rice, day 0"},
		{"the last day", 100, []ration.PlanPack{pack(2, 0)}, []ration.DatedFood{dated("rice", 10, 0)}, nil, "Signe: dated rice, day 10"},
		{"the first day", 100, []ration.PlanPack{pack(2, 2)}, []ration.DatedFood{dated("rice", 1, 100)}, func(l *larder) { l.check.req.Stock[0].BestBefore = "2026-11-25" }, ""},
		{"the last day but one", 100, []ration.PlanPack{pack(2, 2)}, []ration.DatedFood{dated("rice", 9, 100)}, func(l *larder) { l.check.req.Stock[0].BestBefore = "2026-12-03" }, ""},
		{"less than nothing", 100, []ration.PlanPack{pack(2, 0)}, []ration.DatedFood{dated("rice", 4, -1)}, nil, "rice of packs that keep\nSigne: dated rice, day 4"},
		{"what there is not", 0, nil, []ration.DatedFood{dated("moon", 4, 1)}, nil, "Signe: dated moon, day 4"},
		{"the rest is bought", 400, []ration.PlanPack{pack(8, 6)}, []ration.DatedFood{dated("rice", 4, 300)}, nil, ""},
		{"the rest is bought in two lines", 400, []ration.PlanPack{pack(7, 6), pack(1, 0)}, []ration.DatedFood{dated("rice", 4, 300)}, nil, ""},
		{"too little is bought", 401, []ration.PlanPack{pack(8, 6)}, []ration.DatedFood{dated("rice", 4, 300)}, nil, "rice of packs that keep"},
		{"and set aside", 401, []ration.PlanPack{pack(8, 6), aside}, []ration.DatedFood{dated("rice", 4, 300)}, nil, "rice of packs that keep"},
		{"the rest is of a stock that keeps", 400, []ration.PlanPack{pack(8, 8)}, []ration.DatedFood{dated("rice", 4, 300)}, func(l *larder) {
			l.check.req.Stock = append(l.check.req.Stock, foods.StockLine{Pack: l.pack, Count: 2})
		}, ""},
		{"of two stocks that keep", 400, []ration.PlanPack{pack(8, 8)}, []ration.DatedFood{dated("rice", 4, 300)}, func(l *larder) {
			l.check.req.Stock = append(l.check.req.Stock, foods.StockLine{Pack: l.pack, Count: 1.9}, foods.StockLine{Pack: l.pack, Count: 1.9, BestBefore: "2026-12-04"})
		}, ""},
		{"the rest is of a stock that is too small", 401, []ration.PlanPack{pack(8, 8)}, []ration.DatedFood{dated("rice", 4, 300)}, func(l *larder) {
			l.check.req.Stock = append(l.check.req.Stock, foods.StockLine{Pack: l.pack, Count: 2.9})
		}, "rice of packs that keep"},
		{"oats without a date are no matter", 300, []ration.PlanPack{pack(6, 6)}, []ration.DatedFood{dated("rice", 4, 300)}, func(l *larder) { l.eater.eaten[1].grams = 900 }, ""},
		{"a feed is bought with a tenth more", 275, []ration.PlanPack{pack(6, 6)}, []ration.DatedFood{dated("rice", 4, 273)}, func(l *larder) {
			l.rice.Tags, l.eater.needs.Feed = []string{foods.TagInfantFormula}, &nutrients.Feed{SpareFactor: 1.1}
		}, "rice of day 4\nrice of packs that keep"}, // 2 × 1.1 × 273 of 600, and 2 g each of none
	} {
		l := larderOf(t, 6, day4)
		l.eats(c.rice, 0, c.dates...)
		if c.change != nil {
			c.change(l)
		}
		l.check.plan.Packs = c.packs
		if (stored{l.check}).dates(); told(l.check) != c.want {
			t.Errorf("%s: %v, want %q", c.name, l.check.found, c.want)
		}
		for _, v := range l.check.found {
			if strings.Contains(v.Limit, ", day ") && v.Bound != 0 {
				t.Errorf("%s: %v", c.name, v)
			}
		}
	}
}

// TestDaysAfterADate: of 350 kcal and 8 g of protein in 100 g, 1000 g in ten days are 350 kcal and 8 g
// a day. Eating 500 of them by day 4 leaves 500 g for six days (291.67 kcal, 6.67 g a day) and is
// 125 g a day (437.5 kcal) till then; a milk of 67 kcal in 100 g is a mL a gram.
func TestDaysAfterADate(t *testing.T) {
	floor := func(n nutrients.Nutrient, l float64) nutrients.Need {
		return nutrients.Need{Nutrient: n, Floor: limitOf(l)}
	}
	ceiling := func(n nutrients.Nutrient, l float64) nutrients.Need {
		return nutrients.Need{Nutrient: n, Ceiling: limitOf(l)}
	}
	shown := floor(nutrients.Energy, 9000)
	shown.Shown = true
	for _, c := range []struct {
		name  string
		need  nutrients.Need
		soon  float64 // g eaten by day 4
		later float64 // and by day 6, which is another matter
		short []ration.Shortfall
		feed  *nutrients.Feed
		want  string
	}{
		{"the energy that is left", floor(nutrients.Energy, 291.6), 500, 0, nil, nil, ""},
		{"less than is asked for", floor(nutrients.Energy, 291.7), 500, 0, nil, nil, "Signe: energy after day 4"},
		{"what goes by day 6 is left", floor(nutrients.Energy, 291.6), 500, 200, nil, nil, ""},
		{"as declared", floor(nutrients.Energy, 350), 500, 0, []ration.Shortfall{{Person: "Signe", Nutrient: "energy after day 4", Unit: "kcal", Amount: 291.6}}, nil, ""},
		{"less than declared", floor(nutrients.Energy, 350), 500, 0, []ration.Shortfall{{Person: "Signe", Nutrient: "energy after day 4", Unit: "kcal", Amount: 291.7}}, nil, "Signe: energy after day 4"},
		{"the protein that is left", floor(nutrients.Protein, 6.66), 500, 0, nil, nil, ""},
		{"less protein", floor(nutrients.Protein, 6.67), 500, 0, nil, nil, "Signe: protein after day 4"},
		{"fat is no matter", floor(nutrients.Fat, 90), 500, 0, nil, nil, ""},
		{"energy till then", ceiling(nutrients.Energy, 437.5), 500, 0, nil, nil, ""},
		{"more till then", ceiling(nutrients.Energy, 437), 500, 0, nil, nil, "Signe: energy by day 4"},
		{"only shown", shown, 500, 0, nil, nil, ""},
		{"none by a date", floor(nutrients.Energy, 9000), 0, 0, nil, nil, ""},
		{"all by a date", floor(nutrients.Energy, 1), 1000, 0, nil, nil, "Signe: energy after day 4"},
		{"the milk that is left", nutrients.Need{}, 500, 0, nil, &nutrients.Feed{FormulaML: limitOf(83.3)}, ""},
		{"less milk", nutrients.Need{}, 500, 0, nil, &nutrients.Feed{FormulaML: limitOf(83.4)}, "Signe: infant formula feed after day 4"},
	} {
		l := larderOf(t, 0, "")
		var dates []ration.DatedFood
		if c.soon > 0 {
			dates = append(dates, ration.DatedFood{Food: "moon", Day: 4, Grams: 9000}, ration.DatedFood{Food: "rice", Day: 4, Grams: c.soon})
		}
		if c.later > 0 {
			dates = append(dates, ration.DatedFood{Food: "rice", Day: 6, Grams: c.later})
		}
		l.eats(1000, 0, dates...)
		l.eater.needs.List, l.eater.needs.Feed, l.check.plan.Shortfalls = []nutrients.Need{c.need}, c.feed, c.short
		if c.feed != nil {
			l.rice.Tags, l.rice.Per100g[nutrients.Energy] = []string{foods.TagInfantFormula}, 67
		}
		if (stored{l.check}).daysAfter(l.eater, 4); told(l.check) != c.want {
			t.Errorf("%s: %v, want %q", c.name, l.check.found, c.want)
		}
	}
}

// TestDatesInOrder: of two dates what is about each is told, and findings are by person and limit.
func TestDatesInOrder(t *testing.T) {
	l := larderOf(t, 9, "2026-11-28")
	l.check.req.Stock = append(l.check.req.Stock, foods.StockLine{Pack: l.pack, Count: 9, BestBefore: "2026-11-26"})
	l.eats(400, 0, ration.DatedFood{Food: "rice", Day: 4, Grams: 200}, ration.DatedFood{Food: "rice", Day: 2, Grams: 200})
	l.eater.needs.List = []nutrients.Need{{Nutrient: nutrients.Energy, Floor: limitOf(9000)}}
	l.check.report("Signe", "zeal", 1, 1)
	l.check.report("Odd", "zeal", 1, 1)
	l.check.plan.Packs = []ration.PlanPack{{Pack: "rice", Count: 9, FromStock: 9}}
	(stored{l.check}).dates()
	if want := "Odd: zeal\nSigne: energy after day 2\nSigne: energy after day 4\nSigne: zeal"; told(l.check) != want {
		t.Errorf("%q, want %q", told(l.check), want)
	}
}

// TestPortionsCounted: what a plan says of its products, sizes, mains and amounts under a portion is
// counted again: a portion is a sitting's amount (two of half a sitting) of 80 g.
func TestPortionsCounted(t *testing.T) {
	of := func(name string, kinds ...string) *foods.Food {
		return food(name, func(f *foods.Food) { f.Kinds, f.OccasionG, f.DayG = kinds, 80, 160 })
	}
	rice, beans, tuna := of("rice", "rice"), of("beans", "plain canned beans"), of("tuna", "fish in portions")
	line := func(food, pack string) ration.PlanPack { return ration.PlanPack{Food: food, Pack: pack, Count: 1} }
	aside := line("sweets", "sweets")
	aside.Reserve = true
	packs := []ration.PlanPack{line("rice", "rice-1"), line("rice", "rice-2"), line("rice", "rice-1"), line("beans", "beans-1"), aside}
	for _, c := range []struct {
		name   string
		said   *ration.Eatable
		change func(*checker, []*diner)
		want   string
	}{
		// Signe eats rice, beans and a crumb of tuna, Odd rice and beans, Liv, an infant, a crumb:
		// rice with beans is the one main.
		{"as it is", &ration.Eatable{Products: 2, MostSizes: 2, Crumbs: 1, Mains: 1}, nil, ""},
		{"nothing said", nil, nil, ""},
		{"a product more", &ration.Eatable{Products: 3, MostSizes: 2, Crumbs: 1, Mains: 1}, nil, "different foods as printed"},
		{"a product less", &ration.Eatable{Products: 1, MostSizes: 2, Crumbs: 1, Mains: 1}, nil, "different foods as printed"},
		{"a size less", &ration.Eatable{Products: 2, MostSizes: 1, Crumbs: 1, Mains: 1}, nil, "most sizes of a food as printed"},
		{"no crumb", &ration.Eatable{Products: 2, MostSizes: 2, Mains: 1}, nil, "amounts under a portion as printed"},
		{"two crumbs", &ration.Eatable{Products: 2, MostSizes: 2, Crumbs: 2, Mains: 1}, nil, "amounts under a portion as printed"},
		{"no main", &ration.Eatable{Products: 2, MostSizes: 2, Crumbs: 1}, nil, "different mains as printed"},
		{"two mains", &ration.Eatable{Products: 2, MostSizes: 2, Crumbs: 1, Mains: 2}, nil, "different mains as printed"},
		{"a closest ration", &ration.Eatable{}, func(c *checker, _ []*diner) { c.closest = true }, ""},
		{"just a portion of tuna, of one of two", &ration.Eatable{Products: 2, MostSizes: 2, Mains: 2}, func(_ *checker, d []*diner) { d[0].eaten[2].grams = 80 }, ""},
		{"under a portion of beans, of both", &ration.Eatable{Products: 2, MostSizes: 2, Crumbs: 3}, func(_ *checker, d []*diner) { d[0].eaten[1].grams, d[1].eaten[1].grams = 79.9, 79.9 }, ""},
		{"beans of one of three", &ration.Eatable{Products: 2, MostSizes: 2, Crumbs: 1}, func(_ *checker, d []*diner) { d[1].eaten, d[2].eaten, d[2].needs.Feed = d[1].eaten[:1], nil, nil }, ""},
		{"beans of two of three", &ration.Eatable{Products: 2, MostSizes: 2, Crumbs: 1, Mains: 1}, func(_ *checker, d []*diner) { d[2].eaten, d[2].needs.Feed = nil, nil }, ""},
		{"nothing bought", &ration.Eatable{Crumbs: 1, Mains: 1}, func(c *checker, _ []*diner) { c.plan.Packs = nil }, ""},
	} {
		check := checkerOf(t, &ration.Request{Days: 10, Cook: ration.CookNone})
		check.plan.Eatable, check.plan.Packs = c.said, packs
		signe, odd, liv := dinerOf(400, helping{rice, 800}, helping{beans, 80}, helping{tuna, 79.9}), dinerOf(400, helping{rice, 80}, helping{beans, 90}), dinerOf(8, helping{tuna, 1})
		liv.needs.Feed = &nutrients.Feed{}
		check.diners = []*diner{signe, odd, liv}
		if c.change != nil {
			c.change(check, check.diners)
		}
		if check.eatable(); told(check) != c.want {
			t.Errorf("%s: %v, want %q", c.name, check.found, c.want)
		}
	}
}

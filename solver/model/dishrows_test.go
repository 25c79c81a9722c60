package model

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/ration"
)

// laid is a small household with its larder and book of dishes, all invented: what is worked
// out of it by hand stands in the tests.
type laid struct {
	*Model
	book *dishes.Book
	in   []bool
}

// lay makes the table for so many days. Of a gram oats have 4 kcal and take 1 mL of water, rice
// has 3.5 kcal, takes 2 mL and must be boiled; fresh milk and tuna are finished on the day.
func lay(days int) *laid {
	food := func(name string, kcal float64, tags ...string) *foods.Food {
		f := &foods.Food{Name: name, Form: name, Tags: tags}
		f.Per100g[nutrients.Energy] = kcal
		return f
	}
	list := []*foods.Food{
		food("oats", 400), food("milk powder", 360), food("fresh milk", 60), food("tuna", 120), food("salmon", 200), food("rice", 350),
		food("salt", 0, "ingredient"), food("pickles", 30), food("sauce", 5), food("puree", 50, foods.TagInfantFood),
		food("meat jar", 100, foods.TagInfantFood, foods.TagMeat), food("formula", 500, foods.TagInfantFormula), food("candy", 380),
	}
	at := map[string]*foods.Food{}
	for _, f := range list {
		at[f.Name] = f
	}
	at["oats"].Preparation = &foods.Preparation{Class: "boil", ColdOK: true, WaterML: 100}
	at["rice"].Preparation = &foods.Preparation{Class: "boil", WaterML: 200}
	at["pickles"].Companions = []string{"rice"}
	at["meat jar"].Serves = []foods.Serving{{Group: "protein", Per100g: 3.5}}
	for name, hours := range map[string]float64{"oats": 1000, "fresh milk": 24, "tuna": 24, "salmon": 25, "puree": 24} {
		at[name].Keeping = &foods.Keeping{AfterOpenHours: hours}
	}

	m := &Model{Request: &ration.Request{Days: days, Cook: ration.CookBoil}, Problem: &linear.Problem{}}
	m.addRow("another", 0, Inf, RowInfo{Kind: RowHeat})
	m.addRow("water-stored", 0, Inf, RowInfo{Kind: RowAllWater})
	m.addRow("another still", 0, Inf, RowInfo{Kind: RowHeat})
	for _, f := range list {
		m.Larder = append(m.Larder, &LarderFood{Food: f})
	}
	pack := func(kind colKind, food, key string, net float64, line int) {
		li := slices.Index(list, at[food])
		k := m.packColumn(kind, key, li, line, &foods.Pack{Key: key, Food: at[food], NetG: net}, net, 99)
		if lf := m.Larder[li]; kind == colStock {
			lf.Stock = append(lf.Stock, k)
		} else {
			lf.Buy = append(lf.Buy, k)
		}
	}
	pack(ColBuy, "candy", "candy-bag", 100, -1)
	pack(ColBuy, "fresh milk", "milk-carton", 150, -1)
	pack(ColBuy, "tuna", "tuna-can", 120, -1)
	pack(colStock, "tuna", "tuna-tin", 160, 0)
	pack(colStock, "candy", "candy-box", 100, 1)
	pack(ColBuy, "salmon", "salmon-can", 200, -1)
	pack(ColBuy, "meat jar", "jar-60", 60, -1)
	pack(ColBuy, "meat jar", "jar-80", 80, -1)
	pack(ColBuy, "meat jar", "jar-70", 70, -1)
	eater := func(name string, months int, count, kcal float64, eats string) *Eater {
		e := &Eater{Person: nutrients.Person{Name: name, AgeMonths: months}, Count: count}
		e.Needs.List = []nutrients.Need{{Nutrient: nutrients.Protein, Floor: &nutrients.Limit{Amount: 50}}, {Nutrient: nutrients.Energy, Floor: &nutrients.Limit{Amount: kcal}}}
		for li, f := range list {
			if !slices.Contains(strings.Split(eats, ";"), f.Name) {
				continue
			}
			col := m.addCol(fmt.Sprintf("eat[%s,%s]", name, f.Name), 0, 9999, false, colInfo{Kind: ColEat, Eater: len(m.Eaters), Larder: li})
			e.Eats = append(e.Eats, eatCol{Food: li, Col: col})
		}
		m.Eaters = append(m.Eaters, e)
		return e
	}
	const adults = "oats;milk powder;tuna;salmon;rice;salt;pickles;sauce"
	eater("Signe", 400, 2, 2050, adults+";candy")
	eater("Odd", 500, 1, 2460, adults)
	eater("Siri", 20, 2, 512.5, "oats;milk powder;fresh milk;tuna;rice")
	eater("Liv", 8, 2, 615, "puree;meat jar;formula").Needs.Feed = &nutrients.Feed{}
	eater("Lev", 3, 1, 500, "formula").Needs.Feed = &nutrients.Feed{Only: true}
	eater("Maja", 400, 1, 1640, "oats;milk powder;fresh milk;rice;salt;candy")

	part := func(least, most float64, optional bool, made ...dishes.Option) *dishes.Part {
		return &dishes.Part{MinG: least, MaxG: most, Optional: optional, Options: made, ReckonedAs: made[0].Food}
	}
	of := func(name string, factor float64) dishes.Option {
		return dishes.Option{Food: at[name], Factor: factor}
	}
	wet := func(mL float64, p *dishes.Part) *dishes.Part { p.WaterML = &mL; return p }
	dish := func(key string, from, under, times int, cooking, slots string, parts ...*dishes.Part) *dishes.Dish {
		d := &dishes.Dish{Key: key, FromMonths: from, UnderMonths: under, TimesMax: times, Cooking: cooking, Parts: parts}
		for _, s := range strings.Split(slots, ";") {
			d.Slots = append(d.Slots, dishes.Slot(s))
		}
		return d
	}
	book := &dishes.Book{Dishes: []*dishes.Dish{
		dish("bowl", 12, 0, 2, "boil", "breakfast;evening", part(50, 100, false, of("rice", 1)), part(40, 80, false, of("tuna", 1), of("salmon", 1.25)), part(5, 10, true, of("sauce", 1))),
		dish("drink", 12, 0, 14, "none", "drink", part(100, 200, false, of("fresh milk", 1))),
		dish("mash", 12, 36, 3, "boil", "midday", part(20, 30, false, of("oats", 1))),
		dish("milk-soup", 12, 0, 1, "boil", "evening", part(200, 300, false, of("fresh milk", 1))),
		dish("porridge", 12, 0, 5, "boil", "breakfast", wet(300, part(40, 80, false, of("oats", 1))), part(15, 30, false, of("milk powder", 1), of("fresh milk", 10)), part(0.2, 1, true, of("salt", 1))),
		dish("puree-meal", 6, 12, 14, "none", "midday;snack", part(50, 100, false, of("puree", 1)), part(20, 40, true, of("meat jar", 1))),
		dish("rice", 12, 0, 3, "boil", "midday;evening", part(60, 120, false, of("rice", 1))),
		dish("salmon-plate", 12, 0, 1, "boil", "evening", part(100, 150, false, of("salmon", 1))),
		dish("soup", 12, 0, 4, "boil", "midday", wet(50, part(20, 40, false, of("rice", 1)))),
		dish("stew", 12, 0, 4, "simmer", "midday;snack", part(20, 40, false, of("rice", 1))),
		dish("toast", 12, 0, 2, "none", "breakfast;snack", part(30, 60, false, of("oats", 1), of("rice", 1))),
	}}
	in := slices.Repeat([]bool{true}, len(list))
	in[slices.Index(list, at["candy"])] = false
	return &laid{Model: m, book: book, in: in}
}

// menu lets all but the toast be on the table and some be eaten beside it.
func (l *laid) menu() Menu {
	return Menu{
		Book: l.book, Foods: l.in, Between: 1.5, Beside: 0.1,
		Table: func(d *dishes.Dish) bool { return d.Key != "toast" },
		Own:   func(d *dishes.Dish) bool { return !slices.Contains([]string{"bowl", "rice", "soup"}, d.Key) },
	}
}

// within is a row's or a column's bounds.
func within(lower, upper float64) string {
	text := ""
	if !math.IsInf(lower, -1) {
		text = fmt.Sprintf("%.6g", lower)
	}
	text += ".."
	if !math.IsInf(upper, 1) {
		text += fmt.Sprintf("%.6g", upper)
	}
	return text
}

// rowsFrom are the rows of a program from one on, a line each: name, bounds, terms in the order of
// their columns' names.
func rowsFrom(p *linear.Problem, first int) []string {
	terms := make([][]string, len(p.Rows))
	for j := range p.Cols {
		for _, e := range p.Cols[j].Entries {
			terms[e.Row] = append(terms[e.Row], fmt.Sprintf("%s %.6g", p.Cols[j].Name, e.Value))
		}
	}
	var list []string
	for i := first; i < len(p.Rows); i++ {
		r := p.Rows[i]
		slices.Sort(terms[i])
		if len(terms[i]) == 0 {
			terms[i] = []string{"none of a dish"}
		}
		lazy := map[bool]string{true: " lazy"}[r.Lazy]
		list = append(list, fmt.Sprintf("%s %s%s: %s", r.Name, within(r.Lower, r.Upper), lazy, strings.Join(terms[i], ", ")))
	}
	return list
}

// sameLines compares two lists of lines, whatever their order; equal lines count as often as they
// stand there. Of a wanted line what is parted by commas is put in order.
func sameLines(t *testing.T, what string, got []string, want string) {
	t.Helper()
	rest := slices.Clone(got)
	for _, line := range strings.Split(strings.TrimSpace(want), "\n") {
		head, tail, _ := strings.Cut(strings.TrimSpace(line), ": ")
		terms := strings.Split(tail, ", ") // the commas within names have no space behind them
		slices.Sort(terms)
		if line = head + ": " + strings.Join(terms, ", "); head == "" {
			continue
		}
		if i := slices.Index(rest, line); i >= 0 {
			rest = slices.Delete(rest, i, i+1)
		} else {
			t.Errorf("%s: missing %s", what, line)
		}
	}
	for _, line := range rest {
		t.Errorf("%s: not wanted %s", what, line)
	}
}

// TestDishRowsByHand: for fifteen days, all rows of dishes and their figures, worked by hand.
//
// Parties: Signe (two, 2050 of 2050 kcal) and Odd (2460/2050 = 1.2) are 2 + 1.2 = 3.2 servings;
// Siri, two of 20 months, 2·512.5/2050 = 0.5; Maja, who eats no fish, 1640/2050 = 0.8; Liv, two of
// 8 months, 2·615/2050 = 0.6; Lev has milk alone. Of the 4.5 at table half is 2.25: the bowl has
// 3.7, salmon 3.2, porridge, rice and soup 4.5, milk soup 1.3, which is no dish of the household.
// Each is eaten twice its times of a fortnight (fifteen days reach into a second) and at most on
// ⌊0.45·15⌋ = 6 days.
//
// The parts have their most and least for a serving, 0.55 of the least under three years, times the
// servings. Oats in porridge take 3 mL where they take 1 by themselves: 1.1·2 mL more are stored;
// rice in soup takes less, which saves none.
//
// Tuna opened for a bowl: the 3.2 of Signe's have at least 40·3.2 = 128 g, of which a can of 120 g is
// 0.9375 and a tin of 160 g all; Siri's 20 g; all 3.7 together 148 g, of which the can is 120/148 and
// salmon, which keeps, 1/(1.25·148) a gram. Fresh milk for porridge is 10·15 g a serving: 120 g of
// Maja's, 75 of Siri's, 675 of all with Signe's, of which the carton of 150 g is 2/9; powder is
// 1/(15·0.8), 1/(15·0.5), 1/(15·4.5) a gram. Maja's meal of her own is 0.8 servings of a dish.
func TestDishRowsByHand(t *testing.T) {
	l := lay(15)
	rows, cols := len(l.Problem.Rows), len(l.Problem.Cols)
	seating := l.AddDishes(l.menu())
	sameLines(t, "rows", rowsFrom(l.Problem, rows), `
breakfasts 15..15: breakfast[bowl] 1, breakfast[porridge] 1
main-meals 30..30: main[bowl] 1, main[rice] 1, main[salmon-plate] 1, main[soup] 1
only-midday ..15: main[soup] 1
only-evening ..15: main[bowl] 1, main[salmon-plate] 1
times[bowl] ..4: breakfast[bowl] 1, main[bowl] 1
times[porridge] ..6: breakfast[porridge] 1
times[rice] ..6: main[rice] 1
times[salmon-plate] ..2: main[salmon-plate] 1
times[soup] ..6: main[soup] 1

between[Signe] ..72: between[Signe,toast] 1
in-dishes[Signe,oats] 0..0: eat[Signe,oats] -2, eat[Odd,oats] -1, beside[Signe,oats] 1, part[Signe,porridge,1,oats] 1, part[Signe,toast,1,oats] 1
in-dishes[Signe,milk powder] 0..0: eat[Signe,milk powder] -2, eat[Odd,milk powder] -1, beside[Signe,milk powder] 1, part[Signe,porridge,2,milk powder] 1
in-dishes[Signe,tuna] 0..0: eat[Signe,tuna] -2, eat[Odd,tuna] -1, beside[Signe,tuna] 1, part[Signe,bowl,2,tuna] 1
in-dishes[Signe,salmon] 0..0: eat[Signe,salmon] -2, eat[Odd,salmon] -1, beside[Signe,salmon] 1, part[Signe,bowl,2,salmon] 1, part[Signe,salmon-plate,1,salmon] 1
in-dishes[Signe,rice] 0..0: eat[Signe,rice] -2, eat[Odd,rice] -1, beside[Signe,rice] 1, part[Signe,bowl,1,rice] 1, part[Signe,rice,1,rice] 1, part[Signe,soup,1,rice] 1
in-dishes[Signe,salt] 0..0: eat[Signe,salt] -2, eat[Odd,salt] -1, part[Signe,porridge,3,salt] 1
in-dishes[Signe,pickles] 0..0: eat[Signe,pickles] -2, eat[Odd,pickles] -1
in-dishes[Signe,sauce] 0..0: eat[Signe,sauce] -2, eat[Odd,sauce] -1, beside[Signe,sauce] 1, part[Signe,bowl,3,sauce] 1
beside[Signe] ..9840: beside[Signe,oats] 4, beside[Signe,milk powder] 3.6, beside[Signe,tuna] 1.2, beside[Signe,salmon] 2, beside[Signe,rice] 3.5, beside[Signe,sauce] 0.1
often[Signe,bowl] ..12.8 lazy: breakfast[bowl] 3.2, main[bowl] 3.2
most[Signe,bowl,1] ..0 lazy: part[Signe,bowl,1,rice] 1, breakfast[bowl] -320, main[bowl] -320
least[Signe,bowl,1] 0.. lazy: part[Signe,bowl,1,rice] 1, breakfast[bowl] -160, main[bowl] -160
most[Signe,bowl,2] ..0 lazy: part[Signe,bowl,2,tuna] 1, part[Signe,bowl,2,salmon] 0.8, breakfast[bowl] -256, main[bowl] -256
least[Signe,bowl,2] 0.. lazy: part[Signe,bowl,2,tuna] 1, part[Signe,bowl,2,salmon] 0.8, breakfast[bowl] -128, main[bowl] -128
most[Signe,bowl,3] ..0 lazy: part[Signe,bowl,3,sauce] 1, breakfast[bowl] -32, main[bowl] -32
most[Signe,porridge,1] ..0 lazy: part[Signe,porridge,1,oats] 1, breakfast[porridge] -256
least[Signe,porridge,1] 0.. lazy: part[Signe,porridge,1,oats] 1, breakfast[porridge] -128
most[Signe,porridge,2] ..0 lazy: part[Signe,porridge,2,milk powder] 1, breakfast[porridge] -96
least[Signe,porridge,2] 0.. lazy: part[Signe,porridge,2,milk powder] 1, breakfast[porridge] -48
most[Signe,porridge,3] ..0 lazy: part[Signe,porridge,3,salt] 1, breakfast[porridge] -3.2
most[Signe,rice,1] ..0 lazy: part[Signe,rice,1,rice] 1, main[rice] -384
least[Signe,rice,1] 0.. lazy: part[Signe,rice,1,rice] 1, main[rice] -192
most[Signe,salmon-plate,1] ..0 lazy: part[Signe,salmon-plate,1,salmon] 1, main[salmon-plate] -480
least[Signe,salmon-plate,1] 0.. lazy: part[Signe,salmon-plate,1,salmon] 1, main[salmon-plate] -320
most[Signe,soup,1] ..0 lazy: part[Signe,soup,1,rice] 1, main[soup] -128
least[Signe,soup,1] 0.. lazy: part[Signe,soup,1,rice] 1, main[soup] -64
most[Signe,toast,1] ..0 lazy: part[Signe,toast,1,oats] 1, between[Signe,toast] -60
least[Signe,toast,1] 0.. lazy: part[Signe,toast,1,oats] 1, between[Signe,toast] -30

between[Siri] ..11.25: between[Siri,drink] 1, between[Siri,toast] 1
own-mains[Siri] 0..0: main[salmon-plate] -0.5, own-main[Siri,mash] 0.25, own-main[Siri,milk-soup] 1
in-dishes[Siri,oats] 0..0: eat[Siri,oats] -2, beside[Siri,oats] 1, part[Siri,mash,1,oats] 1, part[Siri,porridge,1,oats] 1, part[Siri,toast,1,oats] 1
in-dishes[Siri,milk powder] 0..0: eat[Siri,milk powder] -2, beside[Siri,milk powder] 1, part[Siri,porridge,2,milk powder] 1
in-dishes[Siri,fresh milk] 0..0: eat[Siri,fresh milk] -2, beside[Siri,fresh milk] 1, part[Siri,drink,1,fresh milk] 1, part[Siri,milk-soup,1,fresh milk] 1, part[Siri,porridge,2,fresh milk] 1
in-dishes[Siri,tuna] 0..0: eat[Siri,tuna] -2, beside[Siri,tuna] 1, part[Siri,bowl,2,tuna] 1
in-dishes[Siri,rice] 0..0: eat[Siri,rice] -2, beside[Siri,rice] 1, part[Siri,bowl,1,rice] 1, part[Siri,rice,1,rice] 1, part[Siri,soup,1,rice] 1
beside[Siri] ..1537.5: beside[Siri,oats] 4, beside[Siri,milk powder] 3.6, beside[Siri,fresh milk] 0.6, beside[Siri,tuna] 1.2, beside[Siri,rice] 3.5
often[Siri,bowl] ..2 lazy: breakfast[bowl] 0.5, main[bowl] 0.5
most[Siri,bowl,1] ..0 lazy: part[Siri,bowl,1,rice] 1, breakfast[bowl] -50, main[bowl] -50
least[Siri,bowl,1] 0.. lazy: part[Siri,bowl,1,rice] 1, breakfast[bowl] -13.75, main[bowl] -13.75
most[Siri,bowl,2] ..0 lazy: part[Siri,bowl,2,tuna] 1, breakfast[bowl] -40, main[bowl] -40
least[Siri,bowl,2] 0.. lazy: part[Siri,bowl,2,tuna] 1, breakfast[bowl] -11, main[bowl] -11
most[Siri,drink,1] ..0 lazy: part[Siri,drink,1,fresh milk] 1, between[Siri,drink] -200
least[Siri,drink,1] 0.. lazy: part[Siri,drink,1,fresh milk] 1, between[Siri,drink] -55
most[Siri,mash,1] ..0 lazy: part[Siri,mash,1,oats] 1, own-main[Siri,mash] -30
least[Siri,mash,1] 0.. lazy: part[Siri,mash,1,oats] 1, own-main[Siri,mash] -11
most[Siri,milk-soup,1] ..0 lazy: part[Siri,milk-soup,1,fresh milk] 1, own-main[Siri,milk-soup] -300
least[Siri,milk-soup,1] 0.. lazy: part[Siri,milk-soup,1,fresh milk] 1, own-main[Siri,milk-soup] -110
most[Siri,porridge,1] ..0 lazy: part[Siri,porridge,1,oats] 1, breakfast[porridge] -40
least[Siri,porridge,1] 0.. lazy: part[Siri,porridge,1,oats] 1, breakfast[porridge] -11
most[Siri,porridge,2] ..0 lazy: part[Siri,porridge,2,milk powder] 1, part[Siri,porridge,2,fresh milk] 0.1, breakfast[porridge] -15
least[Siri,porridge,2] 0.. lazy: part[Siri,porridge,2,milk powder] 1, part[Siri,porridge,2,fresh milk] 0.1, breakfast[porridge] -4.125
most[Siri,rice,1] ..0 lazy: part[Siri,rice,1,rice] 1, main[rice] -60
least[Siri,rice,1] 0.. lazy: part[Siri,rice,1,rice] 1, main[rice] -16.5
most[Siri,soup,1] ..0 lazy: part[Siri,soup,1,rice] 1, main[soup] -20
least[Siri,soup,1] 0.. lazy: part[Siri,soup,1,rice] 1, main[soup] -5.5
most[Siri,toast,1] ..0 lazy: part[Siri,toast,1,oats] 1, between[Siri,toast] -60
least[Siri,toast,1] 0.. lazy: part[Siri,toast,1,oats] 1, between[Siri,toast] -16.5

between[Maja] ..18: between[Maja,drink] 1, between[Maja,toast] 1
own-breakfasts[Maja] 0..0: breakfast[bowl] -0.8, own-breakfast[Maja,porridge] 1, own-breakfast[Maja,toast] 1
own-mains[Maja] 0..0: main[bowl] -0.8, main[salmon-plate] -0.8, own-main[Maja,milk-soup] 1
in-dishes[Maja,oats] 0..0: eat[Maja,oats] -1, beside[Maja,oats] 1, part[Maja,porridge,1,oats] 1, part[Maja,toast,1,oats] 1
in-dishes[Maja,milk powder] 0..0: eat[Maja,milk powder] -1, beside[Maja,milk powder] 1, part[Maja,porridge,2,milk powder] 1
in-dishes[Maja,fresh milk] 0..0: eat[Maja,fresh milk] -1, beside[Maja,fresh milk] 1, part[Maja,drink,1,fresh milk] 1, part[Maja,milk-soup,1,fresh milk] 1, part[Maja,porridge,2,fresh milk] 1
in-dishes[Maja,rice] 0..0: eat[Maja,rice] -1, beside[Maja,rice] 1, part[Maja,rice,1,rice] 1, part[Maja,soup,1,rice] 1
in-dishes[Maja,salt] 0..0: eat[Maja,salt] -1, part[Maja,porridge,3,salt] 1
beside[Maja] ..2460: beside[Maja,oats] 4, beside[Maja,milk powder] 3.6, beside[Maja,fresh milk] 0.6, beside[Maja,rice] 3.5
most[Maja,drink,1] ..0 lazy: part[Maja,drink,1,fresh milk] 1, between[Maja,drink] -200
least[Maja,drink,1] 0.. lazy: part[Maja,drink,1,fresh milk] 1, between[Maja,drink] -100
most[Maja,milk-soup,1] ..0 lazy: part[Maja,milk-soup,1,fresh milk] 1, own-main[Maja,milk-soup] -300
least[Maja,milk-soup,1] 0.. lazy: part[Maja,milk-soup,1,fresh milk] 1, own-main[Maja,milk-soup] -200
often[Maja,porridge] ..8 lazy: breakfast[porridge] 0.8, own-breakfast[Maja,porridge] 1
most[Maja,porridge,1] ..0 lazy: part[Maja,porridge,1,oats] 1, breakfast[porridge] -64, own-breakfast[Maja,porridge] -80
least[Maja,porridge,1] 0.. lazy: part[Maja,porridge,1,oats] 1, breakfast[porridge] -32, own-breakfast[Maja,porridge] -40
most[Maja,porridge,2] ..0 lazy: part[Maja,porridge,2,milk powder] 1, part[Maja,porridge,2,fresh milk] 0.1, breakfast[porridge] -24, own-breakfast[Maja,porridge] -30
least[Maja,porridge,2] 0.. lazy: part[Maja,porridge,2,milk powder] 1, part[Maja,porridge,2,fresh milk] 0.1, breakfast[porridge] -12, own-breakfast[Maja,porridge] -15
most[Maja,porridge,3] ..0 lazy: part[Maja,porridge,3,salt] 1, breakfast[porridge] -0.8, own-breakfast[Maja,porridge] -1
most[Maja,rice,1] ..0 lazy: part[Maja,rice,1,rice] 1, main[rice] -96
least[Maja,rice,1] 0.. lazy: part[Maja,rice,1,rice] 1, main[rice] -48
most[Maja,soup,1] ..0 lazy: part[Maja,soup,1,rice] 1, main[soup] -32
least[Maja,soup,1] 0.. lazy: part[Maja,soup,1,rice] 1, main[soup] -16
often[Maja,toast] ..3.2 lazy: own-breakfast[Maja,toast] 1, between[Maja,toast] 1
most[Maja,toast,1] ..0 lazy: part[Maja,toast,1,oats] 1, own-breakfast[Maja,toast] -60, between[Maja,toast] -60
least[Maja,toast,1] 0.. lazy: part[Maja,toast,1,oats] 1, own-breakfast[Maja,toast] -30, between[Maja,toast] -30

between[Liv] ..13.5: between[Liv,puree-meal] 0.3
own-breakfasts[Liv] ..0: breakfast[bowl] -0.6, breakfast[porridge] -0.6
own-mains[Liv] ..0: main[bowl] -0.6, main[rice] -0.6, main[salmon-plate] -0.6, main[soup] -0.6, own-main[Liv,puree-meal] 0.3
in-dishes[Liv,puree] 0..0: eat[Liv,puree] -2, beside[Liv,puree] 1, part[Liv,puree-meal,1,puree] 1
in-dishes[Liv,meat jar] 0..0: eat[Liv,meat jar] -2, beside[Liv,meat jar] 1, part[Liv,puree-meal,2,meat jar] 1
beside[Liv] ..1845: beside[Liv,puree] 0.5, beside[Liv,meat jar] 1
often[Liv,puree-meal] ..56 lazy: own-main[Liv,puree-meal] 1, between[Liv,puree-meal] 1
most[Liv,puree-meal,1] ..0 lazy: part[Liv,puree-meal,1,puree] 1, own-main[Liv,puree-meal] -100, between[Liv,puree-meal] -100
least[Liv,puree-meal,1] 0.. lazy: part[Liv,puree-meal,1,puree] 1, own-main[Liv,puree-meal] -27.5, between[Liv,puree-meal] -27.5
most[Liv,puree-meal,2] ..0 lazy: part[Liv,puree-meal,2,meat jar] 1, own-main[Liv,puree-meal] -40, between[Liv,puree-meal] -40
jars-least[Liv] 0..: eat[Liv,meat jar] 1, jar-a-day[Liv] -1080
jars-most[Liv] ..0: eat[Liv,meat jar] 1, jar-a-day[Liv] -1200

openings[bowl,2] 0..: breakfast[bowl] -1, main[bowl] -1, openings[bowl,2,tuna-can] 0.9375, openings[bowl,2,tuna-tin] 1, part[Signe,bowl,2,salmon] 0.00625
openings[bowl,2] 0..: breakfast[bowl] -1, main[bowl] -1, openings[bowl,2,tuna-can] 1, openings[bowl,2,tuna-tin] 1
openings[bowl,2] 0..: breakfast[bowl] -1, main[bowl] -1, openings[bowl,2,tuna-can] 0.810811, openings[bowl,2,tuna-tin] 1, part[Signe,bowl,2,salmon] 0.00540541
openings[milk-soup,1] 0..: own-main[Siri,milk-soup] -2, openings[milk-soup,1,milk-carton] 1
openings[milk-soup,1] 0..: own-main[Maja,milk-soup] -1.25, openings[milk-soup,1,milk-carton] 0.9375
openings[porridge,2] 0..: breakfast[porridge] -1, openings[porridge,2,milk-carton] 1, part[Siri,porridge,2,milk powder] 0.133333
openings[porridge,2] 0..: breakfast[porridge] -1, own-breakfast[Maja,porridge] -1.25, openings[porridge,2,milk-carton] 1, part[Maja,porridge,2,milk powder] 0.0833333
openings[porridge,2] 0..: breakfast[porridge] -1, openings[porridge,2,milk-carton] 0.222222, part[Signe,porridge,2,milk powder] 0.0148148, part[Siri,porridge,2,milk powder] 0.0148148, part[Maja,porridge,2,milk powder] 0.0148148
openings[tuna-can] ..0: tuna-can -1, openings[bowl,2,tuna-can] 1
openings[tuna-tin] ..0: tuna-tin -1, openings[bowl,2,tuna-tin] 1
openings[milk-carton] ..0: milk-carton -1, openings[milk-soup,1,milk-carton] 1, openings[porridge,2,milk-carton] 1
`)
	sameLines(t, "stored water", rowsFrom(l.Problem, 0)[:rows], `
another 0..: none of a dish
water-stored 0..: part[Signe,porridge,1,oats] -0.0022, part[Siri,porridge,1,oats] -0.0022, part[Maja,porridge,1,oats] -0.0022
another still 0..: none of a dish
`)
	var bounds []string
	for _, c := range l.Problem.Cols {
		if c.Lower != 0 || !math.IsInf(c.Upper, 1) && c.Upper != 9999 && c.Upper != 99 {
			bounds = append(bounds, fmt.Sprintf("%s: %s%s", c.Name, within(c.Lower, c.Upper), map[bool]string{true: " whole"}[c.Integer]))
		}
	}
	// Candy is in no dish: nobody, the first or the last, buys or eats it, though its box stays.
	sameLines(t, "columns", bounds, `
candy-bag: 0..0 whole
eat[Signe,candy]: 0..0
eat[Maja,candy]: 0..0
breakfast[bowl]: 0..4 whole
main[bowl]: 0..4 whole
breakfast[porridge]: 0..6 whole
main[rice]: 0..6 whole
main[salmon-plate]: 0..2 whole
main[soup]: 0..6 whole
between[Signe,toast]: 0..12.8
between[Siri,drink]: 0..14
own-main[Siri,mash]: 0..12
own-main[Siri,milk-soup]: 0..1
between[Siri,toast]: 0..2
between[Maja,drink]: 0..22.4
own-main[Maja,milk-soup]: 0..1.6
own-breakfast[Maja,porridge]: 0..8
own-breakfast[Maja,toast]: 0..3.2
between[Maja,toast]: 0..3.2
own-main[Liv,puree-meal]: 0..56
between[Liv,puree-meal]: 0..56
jar-a-day[Liv]: 0..1 whole
`)
	l.checkWhatTheyAreOf(t, rows, cols)
	sameLines(t, "seating", l.seats(seating), `
bowl: breakfast[bowl] main[bowl]
porridge: breakfast[porridge] -
rice: - main[rice]
salmon-plate: - main[salmon-plate]
soup: - main[soup]
party Signe Odd 3.2 servings 3 people jars -: toast - - between[Signe,toast]
party Siri 0.5 servings 2 people jars -: drink - - between[Siri,drink], mash - own-main[Siri,mash] -, milk-soup - own-main[Siri,milk-soup] -, toast - - between[Siri,toast]
party Maja 0.8 servings 1 people jars -: drink - - between[Maja,drink], milk-soup - own-main[Maja,milk-soup] -, porridge own-breakfast[Maja,porridge] - -, toast own-breakfast[Maja,toast] - between[Maja,toast]
party Liv 0.6 servings 2 people jars jar-a-day[Liv]: puree-meal - own-main[Liv,puree-meal] between[Liv,puree-meal]
`)
}

// checkWhatTheyAreOf checks what rows and columns from so many on are said to stand for: all rows
// are about nobody and bind whoever plans; a part's column names its food.
func (l *laid) checkWhatTheyAreOf(t *testing.T, rows, cols int) {
	t.Helper()
	for i := rows; i < len(l.Problem.Rows); i++ {
		name := l.Problem.Rows[i].Name
		want := RowInfo{Kind: RowDish, Class: Structural, Eater: -1, Text: name, Unit: "servings", PerDay: 1}
		switch {
		case strings.HasPrefix(name, "in-dishes"):
			want.Text, want.Unit = "every gram in a dish", "g"
		case strings.HasPrefix(name, "beside"):
			want.Text, want.Unit = "beside the dishes", "kcal"
		}
		if l.Rows[i] != want {
			t.Errorf("%s: %+v, want %+v", name, l.Rows[i], want)
		}
	}
	for j := cols; j < len(l.Problem.Cols); j++ {
		name := l.Problem.Cols[j].Name
		want := colInfo{Kind: colServings, Eater: -1, Larder: -1}
		if strings.HasPrefix(name, "part") || strings.HasPrefix(name, "beside") {
			food := strings.TrimSuffix(name[strings.LastIndex(name, ",")+1:], "]")
			want = colInfo{Kind: colPart, Eater: -1, Larder: slices.IndexFunc(l.Larder, func(lf *LarderFood) bool { return lf.Food.Name == food })}
		}
		whole := strings.HasPrefix(name, "breakfast[") || strings.HasPrefix(name, "main[") || strings.HasPrefix(name, "jar-a-day[") // meals and days; servings and grams are not
		if l.Cols[j] != want || l.Problem.Cols[j].Integer != whole || l.Problem.Cols[j].Cost != 0 {
			t.Errorf("%s: %+v %+v, want %+v, whole %v", name, l.Cols[j], l.Problem.Cols[j], want, whole)
		}
	}
}

// seats are lines of a seating: dishes with their columns, parties with those of their own.
func (l *laid) seats(s *Seating) []string {
	name := func(col int) string {
		if col < 0 {
			return "-"
		}
		return l.Problem.Cols[col].Name
	}
	var list []string
	for _, seat := range s.Seats {
		list = append(list, fmt.Sprintf("%s: %s %s", seat.Dish.Key, name(seat.Breakfast), name(seat.Main)))
	}
	for _, g := range s.Parties {
		var who, own []string
		for _, e := range g.Eaters {
			who = append(who, e.Person.Name)
		}
		for _, o := range g.Own {
			own = append(own, fmt.Sprintf("%s %s %s %s", o.Dish.Key, name(o.Breakfast), name(o.Main), name(o.Between)))
		}
		list = append(list, fmt.Sprintf("party %s %.6g servings %g people jars %s: %s", strings.Join(who, " "), g.Heads, g.Count, name(g.Jars), strings.Join(own, ", ")))
	}
	return list
}

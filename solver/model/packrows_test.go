package model

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// columns are those of a model from one on, a line each: name, bounds, whether whole, kind and food.
func columns(m *Model, first int) []string {
	var list []string
	for j := first; j < len(m.Cols); j++ {
		c, info := m.Problem.Cols[j], m.Cols[j]
		whole := map[bool]string{true: " whole"}[c.Integer]
		list = append(list, fmt.Sprintf("%s: %s%s kind %d of %d in %d", c.Name, within(c.Lower, c.Upper), whole, info.Kind, info.Eater, info.Larder))
	}
	return list
}

// kinds of columns as they are written in columns, so that the tests name them.
func lineOf(name, bounds string, kind colKind, eater, larder int) string {
	return fmt.Sprintf("%s: %s kind %d of %d in %d\n", name, bounds, kind, eater, larder)
}

// TestPackRowsByHand: two of Signe's and one Odd eat rice and tuna. Of a pack as much counts as is in it
// and all may eat: of a can of 500 g of tuna, finished on the day, what they eat in one opening, 2·100 +
// 150 = 350 g; rice keeps. Over fourteen days they have 3·1400 = 4200 g of rice, and of tuna 2·800 + 900 =
// 2500 g: ⌈4200/900⌉ = 5 bags and ⌈2500/350⌉ = 8 cans at most. One eats of rice what a pack gives and
// needs no row for it; of tuna each takes a can for each opening.
func TestPackRowsByHand(t *testing.T) {
	rice, tuna, milk, candy := &foods.Food{Name: "rice"}, &foods.Food{Name: "tuna"}, &foods.Food{Name: "mother's milk", Tags: []string{foods.TagHumanMilk}}, &foods.Food{Name: "candy", Tags: []string{foods.TagFastSugar}}
	candy.Per100g[nutrients.Sugars] = 90
	candy.Keeping = &foods.Keeping{AfterOpenHours: 1000}
	pack := func(f *foods.Food, key string, net float64) *foods.Pack {
		k := &foods.Pack{Key: key, Food: f, NetG: net, GrossG: net + 50, EasyOpen: true}
		f.Packs = append(f.Packs, k)
		return k
	}
	bag, _ := pack(rice, "bag", 900), pack(rice, "sack", 5000)
	can := pack(tuna, "can", 500)
	pack(milk, "none", 100)
	box := pack(candy, "box", 100) // 90 g of sugar are six doses of 15 g
	pack(candy, "drum", 1000)      // 60 doses: for the kitchen
	build := func(change func(r *ration.Request)) *Model {
		m := bare(14, rice, tuna, milk, candy)
		m.Request.Start = "2026-01-05"
		m.Request.Stock = []foods.StockLine{
			{Pack: bag, Count: 2.9}, {Pack: can, Count: 30}, {Pack: bag, Count: 0.9}, {Pack: can, Count: 4, BestBefore: "2026-01-09"}, // to day 5
			{Pack: can, Count: 2, BestBefore: "2026-01-04"}, {Pack: can, Count: 3, BestBefore: "2026-01-18"}, // past; to the last day
			{Pack: box, Count: 5.5}, {Pack: box, Count: 1, BestBefore: "2026-01-17"}, // keeps; to day 13, no reserve
		}
		if change != nil {
			change(m.Request)
		}
		signe, odd := seatOne(m, nutrients.Person{Name: "Signe"}, 2), seatOne(m, nutrients.Person{Name: "Odd"}, 1)
		eat := func(ei int, e *Eater, li int, window, cap, spare float64) {
			lf := m.Larder[li]
			col := m.addCol(fmt.Sprintf("eat[%s,%s]", e.Person.Name, lf.Food.Name), 0, cap, false, colInfo{Kind: ColEat, Eater: ei, Larder: li})
			e.Eats = append(e.Eats, eatCol{Food: li, Col: col, Window: window, CapG: cap, SpareFactor: spare})
			lf.Window += e.Count * window * spare
			lf.CapG += e.Count * cap * spare
			lf.opened = max(lf.opened, cap/window)
		}
		eat(0, signe, 0, 1400, 1400, 1)
		eat(0, signe, 1, 100, 800, 1)
		eat(0, signe, 2, 100, 800, 1)
		eat(1, odd, 0, 1400, 1400, 1)
		eat(1, odd, 1, 150, 900, 1)
		signe.Needs.Lows = &nutrients.LowReserve{Doses: 10, Days: 14}
		m.Larder[3].mayReserve = true
		return m
	}
	m := build(nil)
	first := len(m.Cols)
	if got := m.Doses(); got != 20 { // ten each of two
		t.Errorf("%g doses, want 20", got)
	}
	addPackColumns(m)
	// Of the stock of tuna as many count as are there, and as anybody may open: 8 times for the cans, Signe
	// 800/100 = 8 times, Odd 6. Twenty doses are four boxes.
	sameLines(t, "columns", columns(m, first), lineOf("buy[bag]", "0..5 whole", ColBuy, -1, 0)+lineOf("buy[sack]", "0..1 whole", ColBuy, -1, 0)+
		lineOf("stock[1:bag]", "0..2 whole", colStock, -1, 0)+lineOf("buy[can]", "0..8 whole", ColBuy, -1, 1)+lineOf("stock[2:can]", "0..8 whole", colStock, -1, 1)+
		lineOf("stock[4:can]", "0..4 whole", colStock, -1, 1)+lineOf("stock[6:can]", "0..3 whole", colStock, -1, 1)+
		lineOf("reserve[box]", "0..4 whole", ColReserve, -1, 3)+lineOf("reserve-stock[7:box]", "0..5 whole", colStock, -1, 3))
	what := func(list []PackCol) (out []string) {
		for _, k := range list {
			if m.Cols[k.Col].pack != k.Pack {
				t.Errorf("%s is of another pack", m.Problem.Cols[k.Col].Name)
			}
			out = append(out, fmt.Sprintf("%s %g %d %v %d", m.Problem.Cols[k.Col].Name, k.Usable, k.Line, k.dated, k.day))
		}
		return out
	}
	for li, want := range [][3][]string{
		{{"buy[bag] 900 -1 false 0", "buy[sack] 4200 -1 false 0"}, {"stock[1:bag] 900 0 false 0"}, nil},
		{{"buy[can] 350 -1 false 0"}, {"stock[2:can] 350 1 false 0", "stock[4:can] 350 3 true 5", "stock[6:can] 350 5 false 0"}, nil},
		{}, {nil, nil, {"reserve[box] 6 -1 false 0", "reserve-stock[7:box] 6 6 false 0"}},
	} {
		lf := m.Larder[li]
		for k, got := range [][]string{what(lf.Buy), what(lf.Stock), what(lf.Reserve)} {
			if !slices.Equal(got, want[k]) {
				t.Errorf("%s: %q, want %q", lf.Food.Name, got, want[k])
			}
		}
		if got := what(lf.Supply()); !slices.Equal(got, slices.Concat(want[0], want[1])) {
			t.Errorf("%s: supply %q", lf.Food.Name, got)
		}
	}
	if got := m.LarderOf(tuna); got != m.Larder[1] || m.LarderOf(candy) != nil || m.LarderOf(&foods.Food{Name: "tuna"}) != nil {
		t.Errorf("the line of tuna is %v", got)
	}
	addBalanceRows(m)
	addOpenedRows(m)
	addReserveRows(m)
	sameLines(t, "rows", rowsFrom(m.Problem, 0), `
packs[rice] ..0: eat[Signe,rice] 2, eat[Odd,rice] 1, buy[bag] -900, buy[sack] -4200, stock[1:bag] -900
packs[tuna] ..0: eat[Signe,tuna] 2, eat[Odd,tuna] 1, buy[can] -350, stock[2:can] -350, stock[6:can] -350
opened[Signe,tuna] ..0 lazy: eat[Signe,tuna] 1, buy[can] -100, stock[2:can] -100, stock[4:can] -100, stock[6:can] -100
opened[Odd,tuna] ..0 lazy: eat[Odd,tuna] 1, buy[can] -150, stock[2:can] -150, stock[4:can] -150, stock[6:can] -150
fast-sugar-reserve 20..: reserve[box] 6, reserve-stock[7:box] 6
`)
	sameInfos(t, m, map[string]RowInfo{
		"packs[tuna]": {Kind: RowBalance, Class: Structural, Eater: -1, Text: "tuna", Unit: "g", PerDay: 1}, "opened[Odd,tuna]": {Kind: RowOpened, Class: Structural, Eater: 1, Text: "tuna", Unit: "g", PerDay: 1},
		"fast-sugar-reserve": {Kind: RowReserve, Class: Safety, Eater: -1, Text: "doses of quick sugar set aside for a low", Unit: "doses", PerDay: 1},
	})
	if m.Larder[0].Balance < 0 || m.Larder[1].Balance < 0 || m.Larder[2].Balance != -1 || m.Larder[3].Balance != -1 {
		t.Error("what is eaten out of packs has their row, nothing else")
	}
	addStockDateRows(m)
	// To day 5 of 14 at most 800·5/14 = 285.714 g and 900·5/14 = 321.429 of it.
	sameLines(t, "dated", rowsFrom(m.Problem, 5), `
dated[tuna,day 5] ..0: by-date[Signe,tuna,day 5] 2, by-date[Odd,tuna,day 5] 1, stock[4:can] -350
dated-of[Signe,tuna] ..0: by-date[Signe,tuna,day 5] 1, eat[Signe,tuna] -1
dated-of[Odd,tuna] ..0: by-date[Odd,tuna,day 5] 1, eat[Odd,tuna] -1
`)
	sameLines(t, "dated columns", columns(m, first+9), lineOf("by-date[Signe,tuna,day 5]", "0..285.714", colByDate, 0, 1)+lineOf("by-date[Odd,tuna,day 5]", "0..321.429", colByDate, 1, 1))
	if got := rowsFrom(m.Problem, 1)[0]; got != "packs[tuna] ..0: buy[can] -350, by-date[Odd,tuna,day 5] -1, by-date[Signe,tuna,day 5] -2, eat[Odd,tuna] 1, eat[Signe,tuna] 2, stock[2:can] -350, stock[6:can] -350" {
		t.Errorf("packs that keep: %s", got)
	}

	// Of the stock alone nothing is bought, or set aside from the shop; weak hands open none of the packs.
	for _, c := range []struct {
		name   string
		change func(r *ration.Request)
		want   string
	}{
		{"the stock alone", func(r *ration.Request) { r.StockOnly = true }, lineOf("stock[1:bag]", "0..2 whole", colStock, -1, 0) + lineOf("stock[2:can]", "0..8 whole", colStock, -1, 1) +
			lineOf("stock[4:can]", "0..4 whole", colStock, -1, 1) + lineOf("stock[6:can]", "0..3 whole", colStock, -1, 1) + lineOf("reserve-stock[7:box]", "0..5 whole", colStock, -1, 3)},
	} {
		m := build(c.change)
		addPackColumns(m)
		sameLines(t, c.name, columns(m, first), c.want)
	}
	// Nobody with lows: nothing is set aside. Candy that nobody may keep for them: that is said.
	m = build(nil)
	m.Eaters[0].Needs.Lows = nil
	addPackColumns(m)
	addReserveRows(m)
	if len(m.Larder[3].Reserve) > 0 || len(m.Problem.Rows) > 0 || len(m.Notes) > 0 {
		t.Errorf("without lows: %v, %q", m.Larder[3].Reserve, m.Notes)
	}
	m = build(nil)
	m.Larder[3].mayReserve = false
	addPackColumns(m)
	addReserveRows(m)
	if len(m.Larder[3].Reserve) > 0 || len(m.Problem.Rows) > 0 || len(m.Notes) != 1 {
		t.Errorf("without sugar that may be kept: %v, %q", m.Larder[3].Reserve, m.Notes)
	}
	// One person alone eats out of whole openings by the packs' row.
	for _, heads := range []float64{1, 2} {
		m = build(nil)
		m.Eaters = m.Eaters[:1]
		m.Eaters[0].Count = heads
		addPackColumns(m)
		addBalanceRows(m)
		addOpenedRows(m)
		if got := len(m.Problem.Rows); got != 1+int(heads) { // rice and tuna; opened tuna of two
			t.Errorf("%g alike: %q", heads, rowsFrom(m.Problem, 0))
		}
	}
}

// TestSetAsideOrEaten: candy that the household may eat and keep against a low is in one column or the
// other, never more than there is; a pack that is opened and spoils holds one dose.
func TestSetAsideOrEaten(t *testing.T) {
	juice := &foods.Food{Name: "juice", Tags: []string{foods.TagFastSugar}, Keeping: &foods.Keeping{AfterOpenHours: 24}}
	juice.Per100g[nutrients.Sugars] = 10
	carton := &foods.Pack{Key: "carton", Food: juice, NetG: 1000}
	small := &foods.Pack{Key: "small", Food: juice, NetG: 149} // no dose
	m := bare(14, juice)
	m.Request.Stock = []foods.StockLine{{Pack: small, Count: 7}, {Pack: carton, Count: 3}, {Pack: carton, Count: 4}}
	e := seatOne(m, nutrients.Person{Name: "Signe"}, 1, 0)
	e.Needs.Lows = &nutrients.LowReserve{Doses: 3, Days: 14}
	m.Larder[0].Window, m.Larder[0].CapG, m.Larder[0].mayReserve = 400, 2600, true
	addPackColumns(m)
	// 2600 g are ⌈2600/400⌉ = 7 of a carton, ⌈2600/149⌉ = 18 of the small one.
	sameLines(t, "columns", columns(m, 1), lineOf("stock[1:small]", "0..7 whole", colStock, -1, 0)+lineOf("stock[2:carton]", "0..3 whole", colStock, -1, 0)+lineOf("reserve-stock[2:carton]", "0..3 whole", colStock, -1, 0)+
		lineOf("stock[3:carton]", "0..4 whole", colStock, -1, 0)+lineOf("reserve-stock[3:carton]", "0..4 whole", colStock, -1, 0))
	sameLines(t, "rows", rowsFrom(m.Problem, 0), `
on-hand[2:carton] ..3: stock[2:carton] 1, reserve-stock[2:carton] 1
on-hand[3:carton] ..4: stock[3:carton] 1, reserve-stock[3:carton] 1
`)
	sameInfos(t, m, map[string]RowInfo{"on-hand[2:carton]": {Kind: rowDated, Class: Structural, Eater: -1, Text: "juice", Unit: "packs", PerDay: 1}})
	if r := m.Larder[0].Reserve; len(r) != 2 || r[0].Usable != 1 || r[1].Usable != 1 {
		t.Errorf("%+v", r)
	}
}

// TestDatesByHand: of two dates, day 4 and day 7 of 14, the earlier first though it stands behind, two lines of
// the same date together; on day 7 both are under its part of the 1400 g of bread, 700; after each day the
// energy of the days that are left is there still, and by it no more than of the days until then.
func TestDatesByHand(t *testing.T) {
	bread := holding("bread", map[nutrients.Nutrient]float64{nutrients.Energy: 250, nutrients.Protein: 8, nutrients.Iron: 2})
	rice := holding("rice", map[nutrients.Nutrient]float64{nutrients.Energy: 350, nutrients.Protein: 7})
	m := bare(14, bread, rice)
	e := seatOne(m, nutrients.Person{Name: "Signe"}, 2, 0, 1)
	e.Eats[0].CapG, e.Eats[0].SpareFactor = 1400, 1.25
	e.Needs.List = []nutrients.Need{{Nutrient: nutrients.Energy, Floor: limit(2000), Ceiling: limit(2800)}, {Nutrient: nutrients.Protein, Floor: limit(50)}, {Nutrient: nutrients.Iron, Floor: limit(8)}}
	m.addRow("before", 0, Inf, RowInfo{Kind: RowHeat, Eater: -1})
	addNeedRows(m)
	m.Larder[0].CapG = 1400
	lf := m.Larder[0]
	lf.Balance = m.addRow("packs[bread]", -Inf, 0, RowInfo{Kind: RowBalance, Eater: -1})
	m.Larder[1].Balance = m.addRow("packs[rice]", -Inf, 0, RowInfo{Kind: RowBalance, Eater: -1})
	for line, k := range []PackCol{{Usable: 500, dated: true, day: 7}, {Usable: 400, day: 4}, {Usable: 300, dated: true, day: 4}, {Usable: 200, dated: true, day: 7}} {
		k.Line, k.Col = line, m.addCol(fmt.Sprintf("stock[%d]", line+1), 0, 9, true, colInfo{Kind: colStock, Eater: -1, Larder: 0})
		lf.Stock = append(lf.Stock, k)
	}
	first, cols := len(m.Problem.Rows), len(m.Cols)
	addStockDateRows(m)
	sameLines(t, "rows", rowsFrom(m.Problem, first), `
dated[bread,day 4] ..0: stock[3] -300, by-date[Signe,bread,day 4] 2.5
dated[bread,day 7] ..0: stock[1] -500, stock[4] -200, by-date[Signe,bread,day 7] 2.5
by-day-7[Signe,bread] ..700 lazy: by-date[Signe,bread,day 4] 1, by-date[Signe,bread,day 7] 1
dated-of[Signe,bread] ..0: by-date[Signe,bread,day 4] 1, by-date[Signe,bread,day 7] 1, eat[Signe,bread] -1
energy-after-4[Signe] 20000..: eat[Signe,bread] 2.5, eat[Signe,rice] 3.5, by-date[Signe,bread,day 4] -2.5
energy-by-4[Signe] ..11200: by-date[Signe,bread,day 4] 2.5
energy-after-7[Signe] 14000..: eat[Signe,bread] 2.5, eat[Signe,rice] 3.5, by-date[Signe,bread,day 4] -2.5, by-date[Signe,bread,day 7] -2.5
energy-by-7[Signe] ..19600: by-date[Signe,bread,day 4] 2.5, by-date[Signe,bread,day 7] 2.5
protein-after-4[Signe] 500..: eat[Signe,bread] 0.08, eat[Signe,rice] 0.07, by-date[Signe,bread,day 4] -0.08
protein-after-7[Signe] 350..: eat[Signe,bread] 0.08, eat[Signe,rice] 0.07, by-date[Signe,bread,day 4] -0.08, by-date[Signe,bread,day 7] -0.08
`)
	sameLines(t, "columns", columns(m, cols), lineOf("by-date[Signe,bread,day 4]", "0..400", colByDate, 0, 0)+lineOf("by-date[Signe,bread,day 7]", "0..700", colByDate, 0, 0))
	sameLines(t, "packs that keep", rowsFrom(m.Problem, lf.Balance)[:1], "packs[bread] ..0: by-date[Signe,bread,day 4] -2.5, by-date[Signe,bread,day 7] -2.5")
	after := RowInfo{Kind: RowAfter, Class: Requirement, Eater: 0, Nutrient: nutrients.Energy, Text: "energy after day 4", Unit: "kcal", PerDay: 10}
	by := after
	by.Text, by.PerDay = "energy by day 4", 4
	sameInfos(t, m, map[string]RowInfo{"energy-after-4[Signe]": after, "energy-by-4[Signe]": by, "dated[bread,day 4]": {Kind: rowDated, Class: Structural, Eater: -1, Text: "bread", Unit: "g", PerDay: 1}})
	for i, want := range []byDateCol{{cols, 0, 0, 4}, {cols + 1, 0, 0, 7}} {
		if len(m.ByDate) != 2 || m.ByDate[i] != want {
			t.Errorf("%+v, want %+v", m.ByDate, want)
		}
	}
	// Of an infant's milk, which may neither fall short nor be more: both after and by each day. A day over
	// which nothing is asked has no row.
	m = bare(10, bread)
	seatOne(m, nutrients.Person{Name: "Liv"}, 1, 0)
	seatOne(m, nutrients.Person{Name: "Odd"}, 1, 0)
	feed := m.addEatenRow(0, "feed", 800, 800, RowInfo{Kind: RowFeed, Class: Safety, Text: "feed", Unit: "mL"}, gram)
	m.addEatenRow(1, "energy", 0, 900, RowInfo{Kind: RowNutrient, Nutrient: nutrients.Energy, Text: "energy"}, gram)
	m.addEatenRow(1, "protein", 900, Inf, RowInfo{Kind: RowNutrient, Nutrient: nutrients.Protein, Text: "protein"}, gram)
	m.addRow("store", 1, 1, RowInfo{Kind: RowFeed, Eater: -1})
	for ei := range m.Eaters {
		m.ByDate = append(m.ByDate, byDateCol{m.addCol(fmt.Sprintf("by[%d]", ei), 0, 9, false, colInfo{Kind: colByDate, Eater: ei, Larder: 0}), ei, 0, 9})
	}
	first = len(m.Problem.Rows)
	addAfterRows(m)
	sameLines(t, "milk", rowsFrom(m.Problem, first), `
feed-after-9[Liv] 80..: eat[Liv,bread] 1, by[0] -1
feed-by-9[Liv] ..720: by[0] 1
energy-by-9[Odd] ..810: by[1] 1
protein-after-9[Odd] 90..: eat[Odd,bread] 1, by[1] -1
`)
	if got := m.Rows[feed]; got.PerDay != 10 || got.Kind != RowFeed {
		t.Errorf("the row itself is %+v", got)
	}
	m.ByDate = nil
	if n := len(m.Problem.Rows); addAfterRowsAdds(m) != 0 {
		t.Errorf("%d rows without dates", len(m.Problem.Rows)-n)
	}
}

// addAfterRowsAdds is how many rows addAfterRows adds.
func addAfterRowsAdds(m *Model) int {
	n := len(m.Problem.Rows)
	addAfterRows(m)
	return len(m.Problem.Rows) - n
}

// TestSupplyRowsByHand: what two of Signe's drink and eat of rice, which takes 2 mL a gram and 0.5 kJ of
// heat and gives 0.1 mL and 1.8 of what it took; a tenth more is stored, and a litre a head for ten days to wash.
// Aud, pregnant, has 2.839 L a day kept (CDC).
func TestSupplyRowsByHand(t *testing.T) {
	rice := holding("rice", map[nutrients.Nutrient]float64{nutrients.Water: 10})
	rice.Preparation = &foods.Preparation{Class: "boil", WaterML: 200, EatenML: 180, HeatMJ: 0.05}
	cold := holding("flakes", map[nutrients.Nutrient]float64{nutrients.Water: 10})
	cold.Preparation = &foods.Preparation{Class: "simmer", ColdOK: true, WaterML: 100, EatenML: 100, HeatMJ: 0.08}
	build := func(boil bool) *Model {
		m := bare(10, rice, cold, holding("jam", nil))
		water, heat, none := 30.0, 2.0, 0.0
		m.Request.StockWaterL, m.Request.StockHeatMJ, m.Request.BoilWater = &water, &heat, boil
		if boil {
			m.Request.StockHeatMJ = &none
		}
		for _, p := range []nutrients.Person{{Name: "Signe", AgeMonths: 400}, {Name: "Aud", AgeMonths: 400, State: nutrients.Pregnant2, Sex: nutrients.Female}} {
			e := seatOne(m, p, 2, 0, 1, 2)
			e.Eats[0].SpareFactor = 1.25
			e.Needs.Water.Total = limit(2.7)
			addDrinkColumn(m, len(m.Eaters)-1, e)
		}
		seatOne(m, nutrients.Person{Name: "Liv", AgeMonths: 8}, 1)
		addSupplyRows(m)
		return m
	}
	m := build(true)
	sameLines(t, "rows", rowsFrom(m.Problem, 0), `
water[Signe] 27..: drink[Signe] 1, eat[Signe,rice] 0.0019, eat[Signe,flakes] 0.0011
water[Aud] 27..: drink[Aud] 1, eat[Aud,rice] 0.0019, eat[Aud,flakes] 0.0011
own-water-used ..0: own-water 1, water -1
water-stored 50..: water 1, drink[Signe] -2.2, kept[Aud] -2.2, eat[Signe,rice] -0.0055, eat[Signe,flakes] -0.0022, eat[Aud,rice] -0.0055, eat[Aud,flakes] -0.0022
heat-used 0..: heat 1, drink[Signe] -0.72, drink[Aud] -0.72, eat[Signe,rice] -0.00125, eat[Aud,rice] -0.00125
kept[Aud] 0..: kept[Aud] 1, drink[Aud] -1
`)
	sameLines(t, "columns", slices.DeleteFunc(columns(m, 0), func(s string) bool { return s[:3] == "eat" }), lineOf("drink[Signe]", "0..", colDrink, 0, -1)+lineOf("drink[Aud]", "0..", colDrink, 1, -1)+
		lineOf("water", "0..", colWater, -1, -1)+lineOf("heat", "0..", colHeat, -1, -1)+lineOf("own-water", "0..30", colOwnWater, -1, -1)+lineOf("kept[Aud]", "28.39..", colKept, 1, -1))
	sameInfos(t, m, map[string]RowInfo{
		"water[Aud]": {Kind: RowWater, Class: Requirement, Eater: 1, Nutrient: nutrients.Water, Text: "water in food and drink", Unit: "L", PerDay: 10}, "own-water-used": {Kind: rowStored, Class: Structural, Eater: -1, Text: "own water", PerDay: 1},
		"water-stored": {Kind: RowAllWater, Class: Structural, Eater: -1, Text: "stored water", Unit: "L", PerDay: 1}, "heat-used": {Kind: RowHeat, Class: Structural, Eater: -1, Text: "useful heat", Unit: "MJ", PerDay: 1},
		"kept[Aud]": {Kind: rowStored, Class: Structural, Eater: 1, Text: "water kept to drink", Unit: "L", PerDay: 10},
	})
	sameLines(t, "without boiling", slices.DeleteFunc(rowsFrom(build(false).Problem, 0), func(s string) bool { return s[:3] != "hea" && s[:6] != "own-he" }), `
heat-used 0..: heat 1, eat[Signe,rice] -0.00125, eat[Aud,rice] -0.00125
own-heat-used ..0: own-heat 1, heat -1
`)
	if got := m.WashingL(); got != 50 {
		t.Errorf("%g L to wash, want 5 heads' of 10 days", got)
	}
	for _, c := range []struct {
		food *foods.Food
		cook ration.Cook
		want float64
	}{{rice, ration.CookBoil, 0.0005}, {cold, ration.CookBoil, 0}, {cold, ration.CookSimmer, 0.0008}, {holding("jam", nil), ration.CookBoil, 0}} {
		m.Request.Cook = c.cook
		if got := m.heatMJPerG(c.food); !(got <= c.want*1.000001 && got >= c.want*0.999999) {
			t.Errorf("%s by %s: %g MJ a gram, want %g", c.food.Name, c.cook, got, c.want)
		}
	}
}

// TestCostsByHand: what is bought or set aside costs, weighs and fills; stock weighs and fills; water and heat
// that are on hand are taken off the cost; what is eaten is nothing by itself.
func TestCostsByHand(t *testing.T) {
	k := &foods.Pack{Price: 3, GrossG: 500, VolumeL: 0.7}
	m := &Model{Supplies: rules.Supplies{Water: rules.Supply{Cost: 0.2, WeightKg: 1.05, VolumeL: 1.2}, Heat: rules.Supply{Cost: 0.5, WeightKg: 0.06, VolumeL: 0.1}}, Problem: &linear.Problem{}, Request: &ration.Request{}}
	want := map[colKind][3]float64{
		ColBuy: {3, 0.5, 0.7}, ColReserve: {3, 0.5, 0.7}, colStock: {0, 0.5, 0.7}, colWater: {0.2, 1.05, 1.2}, colHeat: {0.5, 0.06, 0.1}, colOwnWater: {-0.2, 0, 0}, colOwnHeat: {-0.5, 0, 0},
		ColEat: {}, colByDate: {}, colDrink: {}, colDish: {}, colKept: {}, colForm: {}, colEnergy: {}, colContainer: {}, colServings: {}, colPart: {},
	}
	for kind := ColBuy; kind <= colPart; kind++ {
		j := m.addCol("c", 0, 1, false, colInfo{Kind: kind, pack: k})
		for i, least := range []ration.Least{ration.LeastCost, ration.LeastWeight, ration.LeastVolume} {
			if got := m.Coefficient(j, least); got != want[kind][i] {
				t.Errorf("kind %d, least %s: %g, want %g", kind, least, got, want[kind][i])
			}
			if m.aim(least); m.Problem.Cols[j].Cost != want[kind][i] {
				t.Errorf("kind %d, aimed at least %s: %g, want %g", kind, least, m.Problem.Cols[j].Cost, want[kind][i])
			}
		}
	}
	if len(want) != len(m.Cols) {
		t.Errorf("%d kinds of columns, want %d", len(m.Cols), len(want))
	}
}

// TestPackLimitsByHand: a row limits whole packs where its upper end can be passed by a column of whole
// numbers that is free to rise in it. Totals come first.
func TestPackLimitsByHand(t *testing.T) {
	type col struct {
		value, lower, upper float64
		whole               bool
	}
	for _, c := range []struct {
		name  string
		upper float64
		kind  rowKind
		cols  []col
		want  bool
	}{
		{"packs beyond it", 9, RowLimit, []col{{2, 0, 5, true}}, true}, {"packs up to it", 10, RowLimit, []col{{2, 0, 5, true}}, false}, {"parts", 9, RowLimit, []col{{2, 0, 5, false}}, false},
		{"no end", Inf, RowLimit, []col{{2, 0, 5, true}}, false}, {"taken off", 9, RowLimit, []col{{-2, 0, 5, true}, {3, 0, 5, false}}, false}, {"fixed", 9, RowLimit, []col{{2, 5, 5, true}}, false},
		{"what stays", 9, RowKeep, []col{{2, 0, 5, true}}, false}, {"together", 9, RowLimit, []col{{1, 0, 5, true}, {1, 0, 5, false}}, true}, {"less what is there", 9, RowLimit, []col{{2, 0, 5, true}, {-1, 1, 9, false}}, false},
	} {
		m := bare(1)
		first := m.addRow("first", 0, 0, RowInfo{})
		row := m.addRow("row", -Inf, c.upper, RowInfo{Kind: c.kind})
		m.addRow("last", 0, 1e9, RowInfo{Total: ration.LeastCost})
		for _, k := range c.cols {
			j := m.addCol("c", k.lower, k.upper, k.whole, colInfo{})
			m.Problem.Set(row, j, k.value)
		}
		m.Problem.Set(first, m.addCol("other", 0, 0, true, colInfo{}), 1)
		p := m.Problem.Clone()
		p.Cols[0].Entries = append(p.Cols[0].Entries, linear.Entry{Row: p.AddRow("of others", -Inf, 0), Value: 1}) // no row of the model
		if got := m.PackLimits(p); slices.Contains(got, row) != c.want || len(got) > 1 {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	m := bare(1)
	for _, total := range []ration.Least{"", ration.LeastCost, "", ration.LeastWeight} {
		row := m.addRow("row", -Inf, 1, RowInfo{Kind: RowLimit, Total: total})
		m.Problem.Set(row, m.addCol("c", 0, 5, true, colInfo{}), 1)
	}
	if got := m.PackLimits(m.Problem); !slices.Equal(got, []int{1, 3, 0, 2}) || !m.HasTotals() || m.OwnLimit() != -1 {
		t.Errorf("%v, own %d", got, m.OwnLimit())
	}
	for j := range m.Problem.Cols {
		m.Problem.Cols[j].Upper = 0
	}
	m.Problem.Cols[3].Upper = 5
	for least, want := range map[ration.Least]int{ration.LeastWeight: 3, ration.LeastCost: -1} {
		if m.Request.Least = least; m.OwnLimit() != want {
			t.Errorf("least %s: own limit %d, want %d", least, m.OwnLimit(), want)
		}
	}
}

// TestColdIsNoted: of food that somebody eats, that takes heat by what is cooked here and may be eaten cold, it is said how it
// is counted: hot, or cold where heat is limited.
func TestColdIsNoted(t *testing.T) {
	soup := foods.Preparation{Class: "warm", ColdOK: true, HeatMJ: 0.1}
	heat := 5.0
	for _, c := range []struct {
		name    string
		change  func(p *foods.Preparation)
		cap     float64
		cook    ration.Cook
		limited bool
		want    string
	}{
		{"soup", nil, 9, ration.CookBoil, false, "What can be eaten hot or cold is counted as eaten hot"}, {"with little heat", nil, 9, ration.CookBoil, true, "Heat is limited: what can be eaten cold is counted as eaten cold."},
		{"by its own cooking", nil, 9, ration.CookWarm, false, "counted as eaten hot"}, {"without cooking", nil, 9, ration.CookNone, false, ""}, {"that nobody eats", nil, 0, ration.CookBoil, false, ""},
		{"only hot", func(p *foods.Preparation) { p.ColdOK = false }, 9, ration.CookBoil, false, ""}, {"only cold", func(p *foods.Preparation) { p.HeatMJ = 0 }, 9, ration.CookBoil, true, ""},
	} {
		p := soup
		if c.change != nil {
			c.change(&p)
		}
		m := bare(14, &foods.Food{Name: "bread"}, &foods.Food{Name: "soup", Preparation: &p})
		m.Larder[0].CapG, m.Larder[1].CapG, m.Request.Cook = 9, c.cap, c.cook
		if c.limited {
			m.Request.Limits.HeatMJ = &heat
		}
		noteCold(m)
		if said := strings.Join(m.Notes, "; "); len(m.Notes) > 1 || (said == "") != (c.want == "") || !strings.Contains(said, c.want) {
			t.Errorf("%s: %q, want %q", c.name, said, c.want)
		}
	}
}

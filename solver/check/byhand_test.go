package check

import (
	"encoding/json"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// Invented foods, in packs of 1000 g.
func food(name string, kcal, sodiumMg, proteinG float64) *foods.Food {
	f := &foods.Food{Name: name, Group: "grains", Texture: "regular"}
	f.Per100g[nutrients.Energy], f.Per100g[nutrients.Sodium], f.Per100g[nutrients.Protein] = kcal, sodiumMg, proteinG
	f.Packs = []*foods.Pack{{Key: name + "-bag", Food: f, NetG: 1000}}
	return f
}

// line is a line of the stock: so many bags of a food.
func line(f *foods.Food, count float64, bestBefore, opened string) foods.StockLine {
	return foods.StockLine{Pack: f.Packs[0], Count: count, BestBefore: bestBefore, Opened: opened}
}

// atHome is a model of a stock for Signe, who requires 2000 kcal a day, and two like Arvid, who
// require 3000 each, from the 25th of November on for ten days: 8000 kcal a day. Of each food
// in the larder all may eat capG, and windowG before an open pack spoils.
func atHome(stock ...foods.StockLine) *model.Model {
	m := &model.Model{Request: &ration.Request{Start: "2026-11-25", Days: 10, Stock: stock, Cook: ration.CookBoil}, Problem: &linear.Problem{}}
	for _, e := range []struct {
		name       string
		count, eer float64
	}{{"Signe", 1, 2000}, {"Arvid", 2, 3000}} {
		person := nutrients.Person{Name: e.name, AgeMonths: 480, Sex: nutrients.Female, Count: int(e.count)}
		m.Request.People = append(m.Request.People, person)
		m.Eaters = append(m.Eaters, &model.Eater{Person: person, Count: e.count, Drink: -1, Needs: nutrients.Needs{EER: nutrients.Limit{Amount: e.eer}}})
	}
	return m
}

func shelve(m *model.Model, f *foods.Food, windowG, capG float64) {
	m.Larder = append(m.Larder, &model.LarderFood{Food: f, Window: windowG, CapG: capG, Balance: -1})
}

func figure(v float64) *nutrients.Limit { return &nutrients.Limit{Amount: v} }

// TestExcessOfTwoByHand: 4 bags of crackers and 10 of beans are 20000 + 10000 kcal, 3000 a day of
// the 8000 that all require, 4000 mg of sodium and 40 + 200 = 240 g of protein a day. Signe has a
// quarter of it, 1000 mg and 60 g, each like Arvid three eighths, 1500 mg and 90 g. Four times as
// much is 12000 kcal a day: two thirds of it are eaten, 8/3 of the above. Salt is not counted.
func TestExcessOfTwoByHand(t *testing.T) {
	crackers, beans, salt := food("crackers", 500, 1000, 10), food("beans", 100, 0, 20), food("salt", 0, 40000, 0)
	salt.Group = seasoning
	excessOf := func(times, sodium float64) []StockShort {
		m := atHome(line(crackers, 4*times, "", ""), line(salt, 3, "", ""), line(beans, 10*times, "", ""))
		for _, f := range []*foods.Food{crackers, beans, salt} {
			shelve(m, f, 1e6, 1e6)
		}
		m.Eaters[0].Needs.List = []nutrients.Need{
			{Nutrient: nutrients.Energy, Ceiling: figure(1)},
			{Nutrient: nutrients.Sodium, Ceiling: figure(sodium)},
			{Nutrient: nutrients.Protein, Ceiling: figure(50)},
			{Nutrient: nutrients.Iron, Ceiling: figure(0)},
		}
		m.Eaters[1].Needs.List = []nutrients.Need{
			{Nutrient: nutrients.Sodium, Ceiling: figure(1000), Floor: figure(500)},
			{Nutrient: nutrients.Protein, Ceiling: figure(100), Shown: true},
			{Nutrient: nutrients.Protein, Floor: figure(30)},
		}
		return excess(m)
	}
	short := func(who, what, unit string, amount, ceiling float64) StockShort {
		return StockShort{Person: who, Nutrient: what, Unit: unit, Amount: amount, Ceiling: ceiling}
	}
	for _, c := range []struct {
		name          string
		times, sodium float64
		want          []StockShort
	}{
		{"protein first, then the furthest", 1, 800, []StockShort{short("Signe", "protein", "g", 60, 50), short("Arvid", "sodium", "mg", 1500, 1000), short("Signe", "sodium", "mg", 1000, 800)}},
		{"as much as the ceiling is not over", 1, 1000, []StockShort{short("Signe", "protein", "g", 60, 50), short("Arvid", "sodium", "mg", 1500, 1000)}},
		{"more than is eaten", 4, 500, []StockShort{short("Signe", "protein", "g", 160, 50), short("Signe", "sodium", "mg", 8000./3, 500), short("Arvid", "sodium", "mg", 4000, 1000)}},
	} {
		got := excessOf(c.times, c.sodium)
		for i := range got {
			got[i].Amount = math.Round(got[i].Amount*1e6) / 1e6
		}
		for i := range c.want {
			c.want[i].Amount = math.Round(c.want[i].Amount*1e6) / 1e6
		}
		if !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}

// TestPortionsOfAStock: of each food of the larder what is good, of all its lines together, and no
// more than all may eat; of what is past its date, or has no bag left, nothing.
func TestPortionsOfAStock(t *testing.T) {
	crackers, beans, rice, flour := food("crackers", 500, 0, 0), food("beans", 100, 0, 0), food("rice", 360, 0, 0), food("flour", 340, 0, 0)
	m := atHome(line(rice, 2, "", ""), line(crackers, 1, "", ""), line(beans, 5, "2026-11-24", ""), line(rice, 0.5, "2026-11-25", ""), line(flour, 0, "", ""))
	shelve(m, crackers, 1e6, 1000) // just as much
	shelve(m, rice, 1e6, 2400)     // of 2500
	shelve(m, beans, 1e6, 1e6)
	shelve(m, flour, 1e6, 1e6)
	want := []rules.Portion{{Food: crackers, Grams: 1000}, {Food: rice, Grams: 2400}}
	if got := stockPortions(m); !reflect.DeepEqual(got, want) {
		t.Errorf("%+v, want %+v", got, want)
	}
	m.Larder[1].CapG = 9000
	if got := stockPortions(m)[1].Grams; got != 2500 {
		t.Errorf("%g g of rice, want 2500", got)
	}
}

// TestCaloriesByHand: 2 bags of crackers and a half of rice are 10000 + 1800 kcal, of the 8000 a
// day that all require 1.475 days; what is past its date is not counted, and nobody's needs last
// no days.
func TestCaloriesByHand(t *testing.T) {
	crackers, rice := food("crackers", 500, 0, 0), food("rice", 360, 0, 0)
	m := atHome(line(crackers, 2, "", ""), line(rice, 7, "2026-11-24", ""), line(rice, 0.5, "", ""))
	shelve(m, crackers, 1e6, 1) // however little all may eat of it
	shelve(m, rice, 1e6, 1e6)
	if got := caloriesLast(m); math.Abs(got-1.475) > 1e-12 {
		t.Errorf("%g days, want 1.475", got)
	}
	m.Eaters = m.Eaters[:1]
	if got := caloriesLast(m); math.Abs(got-5.9) > 1e-12 {
		t.Errorf("Signe alone: %g days, want 5.9", got)
	}
	m.Eaters = nil
	if got := caloriesLast(m); got != 0 {
		t.Errorf("nobody: %g days", got)
	}
}

// TestWhyAStockIsUseless: past its date before the first day, not on it; open for longer than it
// keeps, two days where 48 hours are said; too large where less than a half of a pack is eaten
// before it spoils; else what all are kept from by a rule of their own, or by the cooking, or by
// what somebody wants.
func TestWhyAStockIsUseless(t *testing.T) {
	beans := food("beans", 100, 0, 20)
	beans.Keeping = &foods.Keeping{AfterOpenHours: 48}
	peanuts := food("peanuts", 600, 0, 25)
	peanuts.Allergens = []string{"peanut"}
	lentils := food("lentils", 350, 0, 24)
	lentils.Preparation = &foods.Preparation{Class: string(ration.CookSimmer)}
	const spoils = "too large: of 1000 g only 499 g can be eaten before an open pack spoils"
	for _, c := range []struct {
		name             string
		line             foods.StockLine
		windowG, capG    float64 // of the larder, 0 not in it
		allergic, nobody bool    // Signe to peanuts; nobody is fed
		both             bool    // Arvid needs soft food
		want             string
	}{
		{name: "good", line: line(beans, 1, "", ""), windowG: 1e6, capG: 1e6},
		{name: "good to the first day", line: line(beans, 1, "2026-11-25", ""), windowG: 1e6, capG: 1e6},
		{name: "good to the day before", line: line(beans, 1, "2026-11-24", ""), windowG: 1e6, capG: 1e6, want: "past its date"},
		{name: "opened the day before", line: line(beans, 1, "", "2026-11-24"), windowG: 1e6, capG: 1e6},
		{name: "opened two days before", line: line(beans, 1, "", "2026-11-23"), windowG: 1e6, capG: 1e6, want: "open for longer than it keeps"},
		{name: "opened two days before, with a date", line: line(beans, 1, "2027-01-01", "2026-11-23"), windowG: 1e6, capG: 1e6, want: "open for longer than it keeps"},
		{name: "opened two days before, dated on the first day", line: line(beans, 1, "2026-11-25", "2026-11-23"), windowG: 1e6, capG: 1e6, want: "open for longer than it keeps"},
		{name: "open and past its date", line: line(beans, 1, "2026-11-24", "2026-11-23"), windowG: 1e6, capG: 1e6, want: "past its date"},
		{name: "a half of a pack", line: line(beans, 1, "", ""), windowG: 500, capG: 1e6},
		{name: "under a half of a pack", line: line(beans, 1, "", ""), windowG: 499, capG: 1e6, want: spoils},
		{name: "little is eaten of what keeps", line: line(beans, 1, "", ""), windowG: 499, capG: 499},
		{name: "not in the larder", line: line(beans, 1, "", ""), want: "left out, or disliked by all who may eat it"},
		{name: "nobody is fed", line: line(beans, 1, "", ""), nobody: true, want: "nobody here is fed from it"},
		{name: "too much cooking", line: line(lentils, 1, "", ""), want: "takes more cooking than there is"},
		{name: "barred for all", line: line(peanuts, 1, "", ""), allergic: true, both: true, want: "nobody here may eat it: "},
		{name: "barred for one, disliked by the other", line: line(peanuts, 1, "", ""), allergic: true, want: "left out, or disliked by all who may eat it"},
	} {
		m := atHome(c.line)
		if c.capG > 0 {
			shelve(m, c.line.Pack.Food, c.windowG, c.capG)
		}
		for i, e := range m.Eaters {
			switch {
			case i == 0 && c.allergic:
				e.Person.Allergies = []nutrients.Allergy{{Allergen: "peanut"}}
			case i == 1 && c.both: // what the first is kept from it by is told
				e.Person.Conditions = []nutrients.Condition{nutrients.SoftFood}
			}
			m.Request.People[i] = e.Person
		}
		if c.nobody {
			m.Eaters = nil
		}
		got := uselessBecause(m, c.line)
		if c.both && strings.HasPrefix(got, c.want) && strings.Contains(got, "peanut") {
			continue
		}
		if got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
		listed := useless(m)
		if want := (Useless{Pack: c.line.Pack.Key, Food: c.line.Pack.Food.Name, Count: 1, Reason: c.want}); c.want != "" && !slices.Equal(listed, []Useless{want}) || c.want == "" && len(listed) > 0 {
			t.Errorf("%s: listed %+v, want %q", c.name, listed, c.want)
		}
	}
}

// TestPacksOverWhatIsEaten: all may eat 2500 g of rice in bags of 1000 g: 3 bags are used, of the
// first line both, of the second one of four, of the third none. Of beans all may eat 2000 g: two
// bags just do. Of 600 g that are good of a bag of flour 2500 g take 5 bags.
func TestPacksOverWhatIsEaten(t *testing.T) {
	rice, beans, flour := food("rice", 360, 0, 0), food("beans", 100, 0, 0), food("flour", 340, 0, 0)
	m := atHome(line(rice, 2, "", ""), line(beans, 3, "", ""), line(rice, 4, "2028-01-01", ""), line(rice, 1.5, "2029-01-01", ""), line(flour, 6, "", ""), line(beans, 1, "2029-01-01", ""))
	shelve(m, beans, 1e6, 2000)
	shelve(m, rice, 1e6, 2500)
	shelve(m, flour, 600, 2500)
	const over = "more than all here may eat of it in 10 days"
	want := []Useless{{"beans-bag", "beans", 1, over}, {"rice-bag", "rice", 3, over}, {"rice-bag", "rice", 1.5, over}, {"flour-bag", "flour", 1, over}, {"beans-bag", "beans", 1, over}}
	if got := useless(m); !slices.Equal(got, want) {
		t.Errorf("%+v, want %+v", got, want)
	}
}

// TestEatenByADate: of what must be eaten within ten days that with its last day, the earliest
// first; up to it all may eat of 5000 g of beans in ten days a tenth a day, and no more than is
// usable of the packs. Beans that are open keep two days from the day of opening.
func TestEatenByADate(t *testing.T) {
	beans, rice, flour := food("beans", 100, 0, 0), food("rice", 360, 0, 0), food("flour", 340, 0, 0)
	beans.Keeping = &foods.Keeping{AfterOpenHours: 48}
	m := atHome(
		line(beans, 3, "2026-12-03", ""), line(rice, 1, "2026-12-04", ""), line(rice, 2, "2026-12-03", ""), line(beans, 1, "", "2026-11-26"),
		line(beans, 1, "2026-11-20", ""), line(flour, 1, "2026-11-25", ""), line(rice, 2, "", ""), line(rice, 1, "2026-11-24", ""),
	)
	shelve(m, rice, 600, 90000)
	shelve(m, beans, 1e6, 5000)
	want := []EatBy{
		{Pack: "beans-bag", Food: "beans", Count: 1, BestBefore: "2026-11-20", Grams: 1000, Past: true},
		{Pack: "rice-bag", Food: "rice", Count: 1, BestBefore: "2026-11-24", Grams: 1000, Past: true},
		{Pack: "flour-bag", Food: "flour", Count: 1, BestBefore: "2026-11-25", Day: 1, Grams: 1000}, // nobody eats it
		{Pack: "beans-bag", Food: "beans", Count: 1, Opened: "2026-11-26", Day: 3, Grams: 1000, EatenG: 1000},
		{Pack: "beans-bag", Food: "beans", Count: 3, BestBefore: "2026-12-03", Day: 9, Grams: 3000, EatenG: 3000},
		{Pack: "rice-bag", Food: "rice", Count: 2, BestBefore: "2026-12-03", Day: 9, Grams: 2000, EatenG: 1200}, // 600 g of a bag are usable
	}
	if got := eatBy(m); !slices.Equal(got, want) {
		t.Errorf("%+v\nwant %+v", got, want)
	}
	m.Larder[1].CapG = 2000 // 200 g a day
	for i, grams := range map[int]float64{3: 600, 4: 1800} {
		if got := eatBy(m)[i]; got.EatenG != grams {
			t.Errorf("%+v, want %g g eaten", got, grams)
		}
	}
}

// TestDosesByHand: a bag of 1000 g of sugar that keeps holds 66 doses of 15 g (66.7), juice that
// does not keep once open one a pack. Whole packs count, those that keep for all ten days.
func TestDosesByHand(t *testing.T) {
	sugar, juice := food("sugar", 400, 0, 0), food("juice", 40, 0, 0)
	for f, per100 := range map[*foods.Food]float64{sugar: 100, juice: 10} {
		f.Tags, f.Per100g[nutrients.Sugars] = []string{foods.TagFastSugar}, per100
	}
	sugar.Keeping = &foods.Keeping{AfterOpenHours: 1000}
	m := atHome(line(sugar, 2.9, "", ""), line(juice, 3, "2026-12-04", ""), line(sugar, 5, "2026-12-03", ""), line(food("rice", 360, 0, 0), 9, "", ""))
	if got := dosesInStock(m); got != 2*66+3 {
		t.Errorf("%g doses, want 2 bags of 66 and 3 packs of one", got)
	}
}

// TestWhatAStockMayMiss: needs, an infant's milk over all days and after a date, the own least
// amounts, and the water and heat on hand may be missed by the closest ration of a stock; the
// arithmetic, what keeps people safe and how much of a food they eat may not.
func TestWhatAStockMayMiss(t *testing.T) {
	for _, c := range []struct {
		info model.RowInfo
		want bool
	}{
		{model.RowInfo{Kind: model.RowNutrient, Class: model.Requirement}, true},
		{model.RowInfo{Kind: model.RowFeed, Class: model.Safety}, true},
		{model.RowInfo{Kind: model.RowAfter, Class: model.Safety}, true},
		{model.RowInfo{Kind: model.RowUser, Class: model.UserLimit}, true},
		{model.RowInfo{Kind: model.RowLimit, Class: model.UserLimit}, true},
		{model.RowInfo{Kind: model.RowNutrient, Class: model.Safety}, false},
		{model.RowInfo{Kind: model.RowReserve, Class: model.Safety}, false},
		{model.RowInfo{Kind: model.RowKeep, Class: model.UserLimit}, false},
		{model.RowInfo{Kind: model.RowKindCap, Class: model.Planning}, false},
		{model.RowInfo{Kind: model.RowBalance, Class: model.Structural}, false},
	} {
		if got := inStockCheck(c.info); got != c.want {
			t.Errorf("%+v may be missed: %v, want %v", c.info, got, c.want)
		}
	}
}

// TestWhatStaysInForce: for the needs all stays but the sugar set aside; for the energy its floor,
// over all days and after a date, who may eat how much of what, and an infant's milk.
func TestWhatStaysInForce(t *testing.T) {
	inf := math.Inf(1)
	m := atHome()
	set := m.Problem.AddCol("reserve", 0, 0, 5, true)
	other := m.Problem.AddCol("buy", 0, 0, 7, true)
	m.Cols = slices.Grow(m.Cols, 2)[:2]
	shelve(m, food("sugar", 400, 0, 0), 1e6, 1e6)
	m.Larder[0].Reserve, m.Larder[0].Buy = []model.PackCol{{Col: set}}, []model.PackCol{{Col: other}}
	energy, iron := nutrients.Energy, nutrients.Iron
	type sides [2]float64
	rows := []struct {
		info         model.RowInfo
		needs, alone sides // what is left of 3 to 9
	}{
		{model.RowInfo{Kind: model.RowReserve}, sides{-inf, 9}, sides{-inf, 9}},
		{model.RowInfo{Kind: model.RowNutrient, Nutrient: energy, Class: model.Requirement}, sides{3, 9}, sides{3, inf}},
		{model.RowInfo{Kind: model.RowNutrient, Nutrient: iron, Class: model.Requirement}, sides{3, 9}, sides{-inf, inf}},
		{model.RowInfo{Kind: model.RowAfter, Nutrient: energy, Class: model.Requirement}, sides{3, 9}, sides{3, 9}},
		{model.RowInfo{Kind: model.RowAfter, Nutrient: iron, Class: model.Requirement}, sides{3, 9}, sides{-inf, 9}},
		{model.RowInfo{Kind: model.RowAfter, Nutrient: iron, Class: model.Safety}, sides{3, 9}, sides{3, 9}}, // an infant's milk
		{model.RowInfo{Kind: model.RowFeed, Class: model.Safety}, sides{3, 9}, sides{3, 9}},
		{model.RowInfo{Kind: model.RowBalance}, sides{3, 9}, sides{3, 9}},
		{model.RowInfo{Kind: model.RowGroupCap}, sides{3, 9}, sides{3, 9}},
	}
	for _, open := range []model.RowInfo{{Kind: model.RowShare}, {Kind: model.RowPattern}, {Kind: model.RowGlycaemic}, {Kind: model.RowCompanion}, {Kind: model.RowWater}, {Kind: model.RowLimit}, {Kind: model.RowUser}} {
		rows = append(rows, struct {
			info         model.RowInfo
			needs, alone sides
		}{open, sides{3, 9}, sides{-inf, inf}})
	}
	rows = append(rows, rows[0])
	for _, r := range rows {
		m.Rows = append(m.Rows, r.info)
		m.Problem.AddRow("", 3, 9)
	}
	for name, loose := range map[string]*model.Model{"needs": forNeeds(m), "energy": forEnergy(m)} {
		for i, r := range rows {
			want := r.needs
			if name == "energy" {
				want = r.alone
			}
			if row := loose.Problem.Rows[i]; (sides{row.Lower, row.Upper}) != want {
				t.Errorf("%s: row %d, %+v, from %g to %g, want %v", name, i, r.info, row.Lower, row.Upper, want)
			}
		}
		if cols := loose.Problem.Cols; cols[set].Upper != 0 || cols[other].Upper != 7 {
			t.Errorf("%s: up to %g packs are set aside and %g bought, want none and 7", name, cols[set].Upper, cols[other].Upper)
		}
	}
	if row := m.Problem.Rows[0]; row.Lower != 3 || m.Problem.Cols[set].Upper != 5 {
		t.Error("the model itself is changed")
	}
}

// TestWhatRunsOut: of needs of which a half, a fifth and a half is there the one that is a fifth
// runs out first, with whom; of two alike that which matters more, energy before iron; water or
// heat on hand where more of it alone would do, and no ceiling that is passed.
func TestWhatRunsOut(t *testing.T) {
	inf := math.Inf(1)
	need := func(eater int, n nutrients.Nutrient) model.RowInfo {
		return model.RowInfo{Kind: model.RowNutrient, Class: model.Requirement, Eater: eater, Nutrient: n, Text: n.Name(), Unit: "g", PerDay: 10}
	}
	water := model.RowInfo{Kind: model.RowLimit, Class: model.UserLimit, Eater: -1, Text: "stored water", Unit: "L", PerDay: 1}
	heat := water
	heat.Text = "heat"
	salt := need(0, nutrients.Sodium)
	salt.MayPass = true
	type row struct {
		info         model.RowInfo
		lower, upper float64
		gives        float64 // all of the food, of which there is one
	}
	for _, c := range []struct {
		name string
		rows []row
		want string
	}{
		{"the least of its floor", []row{{need(0, nutrients.Energy), 100, inf, 50}, {need(1, nutrients.Iron), 10, inf, 2}, {need(1, nutrients.Energy), 90, inf, 45}}, "iron (Arvid)"},
		{"of two alike what matters", []row{{need(1, nutrients.Iron), 10, inf, 5}, {need(0, nutrients.Energy), 100, inf, 50}}, "energy (Signe)"},
		{"of two alike what matters, in the other order", []row{{need(0, nutrients.Energy), 100, inf, 50}, {need(1, nutrients.Iron), 10, inf, 5}}, "energy (Signe)"},
		{"of two that matter alike the first", []row{{need(1, nutrients.Zinc), 10, inf, 5}, {need(0, nutrients.Iron), 100, inf, 50}}, "zinc (Arvid)"},
		{"the last of them", []row{{need(0, nutrients.Energy), 100, inf, 90}, {need(1, nutrients.Iron), 10, inf, 5}}, "iron (Arvid)"},
		{"water on hand", []row{{need(0, nutrients.Energy), 100, inf, 100}, {water, -inf, 3, 5}}, "stored water"},
		{"heat on hand", []row{{water, -inf, 6, 5}, {need(0, nutrients.Energy), 100, inf, 100}, {heat, -inf, 3, 5}}, "heat"},
		{"more water would not do", []row{{need(0, nutrients.Energy), 100, inf, 90}, {water, -inf, 5, 5}}, "energy (Signe)"},
		{"a ceiling is passed", []row{{salt, 0, 1, 40}, {need(1, nutrients.Energy), 100, inf, 90}}, "energy (Arvid)"},
		{"nothing", []row{{need(0, nutrients.Energy), 100, inf, 100}}, ""},
		{"hardly anything", []row{{need(0, nutrients.Energy), 100, inf, 100 - 0.9e-4}}, ""}, // a millionth is the play of the arithmetic
		{"a little", []row{{need(0, nutrients.Energy), 100, inf, 100 - 1.5e-4}}, "energy (Signe)"},
		{"a little more", []row{{need(0, nutrients.Energy), 100, inf, 100 - 50e-4}}, "energy (Signe)"},
	} {
		m := atHome()
		x := m.Problem.AddCol("eat", 0, 0, 1, false)
		m.Cols = slices.Grow(m.Cols, 1)[:1]
		m.Cols[x].Eater, m.Cols[x].Larder, m.Cols[x].Kind = -1, -1, model.ColEat
		for i, r := range c.rows {
			m.Rows = append(m.Rows, r.info)
			m.Problem.AddRow(r.info.Text, r.lower, r.upper)
			m.Problem.Set(i, x, r.gives)
		}
		if got, err := runsOut(t.Context(), m); err != nil || got != c.want {
			t.Errorf("%s: %q, %v, want %q", c.name, got, err, c.want)
		}
	}
}

// TestPurchases: of the packs of a plan those that are not in stock, at the cost of the line; of
// water and heat whole litres and MJ of what is not on hand: of 30.2 L and 20 on hand 11 L at
// 0.5, of 4 MJ and 3 on hand one at 2. Where the stock list does not count them they are none of
// the list.
func TestPurchases(t *testing.T) {
	made := &ration.Plan{
		Packs: []ration.PlanPack{
			{Pack: "rice-bag", Food: "rice", Count: 5, FromStock: 2, Cost: 9},
			{Pack: "beans-bag", Food: "beans", Count: 4, FromStock: 4},
			{Pack: "oil", Food: "oil", Count: 1, Cost: 4},
			{Pack: "sugar-bag", Food: "sugar", Count: 2, FromStock: 1, Cost: 3, Reserve: true},
		},
		Totals: &ration.Totals{WaterL: 30.2, OwnWaterL: 20, HeatMJ: 4, OwnHeatMJ: 3},
	}
	packs := []Buy{{Pack: "rice-bag", Food: "rice", Count: 3, Cost: 9}, {Pack: "oil", Food: "oil", Count: 1, Cost: 4}, {Pack: "sugar-bag", Food: "sugar", Count: 1, Cost: 3, Reserve: true}}
	litres := Buy{Pack: "water", Food: "stored water, litres", Count: 11, Cost: 5.5}
	heat := Buy{Pack: "heat", Food: "useful heat for cooking, MJ", Count: 1, Cost: 2}
	supplies := rules.Supplies{Water: rules.Supply{Cost: 0.5}, Heat: rules.Supply{Cost: 2}}
	have := 1.0
	for _, c := range []struct {
		name    string
		request ration.Request
		more    []Buy
	}{
		{"neither is counted", ration.Request{}, nil},
		{"water", ration.Request{StockWaterL: &have}, []Buy{litres}},
		{"heat", ration.Request{StockHeatMJ: &have}, []Buy{heat}},
		{"both", ration.Request{StockWaterL: &have, StockHeatMJ: &have}, []Buy{litres, heat}},
	} {
		if got, want := purchases(&c.request, made, supplies), append(slices.Clone(packs), c.more...); !slices.Equal(got, want) {
			t.Errorf("%s: %+v, want %+v", c.name, got, want)
		}
	}
	made.Packs = nil
	for lacks, want := range map[float64]int{0: 0, 0.9e-6: 0, 1e-3: 1, 1 + 0.9e-6: 1, 1.001: 2} { // a millionth is the play of the arithmetic
		made.Totals = &ration.Totals{WaterL: 7 + lacks, OwnWaterL: 7}
		got := purchases(&ration.Request{StockWaterL: &have}, made, supplies)
		if want == 0 && len(got) > 0 || want > 0 && (len(got) != 1 || got[0].Count != want || got[0].Cost != float64(want)*0.5) {
			t.Errorf("%g L are lacking: %+v, want %d", lacks, got, want)
		}
	}
}

// TestShortIsWrittenWithoutResidue: what is left of an amount by rounding is written as nothing.
func TestShortIsWrittenWithoutResidue(t *testing.T) {
	for amount, want := range map[float64]string{
		1e-15: `{"person":"Åse \u0026 Knut","nutrient":"iron","unit":"mg","amount":0,"floor":8}`, 2.5: `{"person":"Åse \u0026 Knut","nutrient":"iron","unit":"mg","amount":2.5,"floor":8}`,
	} {
		text, err := json.Marshal(StockShort{Person: "Åse & Knut", Nutrient: "iron", Unit: "mg", Amount: amount, Floor: 8})
		if err != nil || string(text) != want {
			t.Errorf("%g: %s, %v, want %s", amount, text, err, want)
		}
	}
}

package model

import (
	"maps"
	"slices"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// shop is a model with two packs to buy of rice, one of oats in stock, and water and heat.
func shop() *Model {
	rice, oats := &foods.Food{Name: "rice"}, &foods.Food{Name: "oats"}
	m := bare(10, rice, oats)
	m.Request.Table = &foods.Table{Packs: []*foods.Pack{{Key: "unpriced"}, {Key: "priced", Currency: "crowns"}, {Key: "other", Currency: "shells"}}}
	m.Supplies = rules.Supplies{Water: rules.Supply{Cost: 0.2, WeightKg: 1.05, VolumeL: 1.2}, Heat: rules.Supply{Cost: 0.5, WeightKg: 0.06, VolumeL: 0.1}}
	bag, sack, box := &foods.Pack{Key: "bag", Food: rice, Price: 3, GrossG: 1000, VolumeL: 1.1}, &foods.Pack{Key: "sack", Food: rice, Price: 12, GrossG: 5000, VolumeL: 5.5}, &foods.Pack{Key: "box", Food: oats, Price: 2, GrossG: 500, VolumeL: 2}
	m.Larder[0].Buy = []PackCol{m.packColumn(ColBuy, "bag", 0, -1, bag, 900, 9), m.packColumn(ColBuy, "sack", 0, -1, sack, 4000, 3)}
	m.Larder[1].Stock = []PackCol{m.packColumn(colStock, "box", 1, 0, box, 450, 4)}
	m.Water, m.Heat = m.addCol("water", 0, Inf, false, colInfo{Kind: colWater}), m.addCol("heat", 0, Inf, false, colInfo{Kind: colHeat})
	return m
}

// TestLimitRowsByHand: each limit of the household in its row, by itself and all together, with what packs, a litre and an
// MJ come to; the allowance is a gallon for two heads and day, 3.785411784 L, and one for a pet.
func TestLimitRowsByHand(t *testing.T) {
	v := func(x float64) *float64 { return &x }
	rows := map[string]string{
		"budget":          "budget ..90: bag 3, sack 12, water 0.2, heat 0.5",
		"weight":          "max-weight ..80: bag 1, sack 5, box 0.5, water 1.05, heat 0.06",
		"volume":          "max-litres ..70: bag 1.1, sack 5.5, box 2, water 1.2, heat 0.1",
		"water":           "max-water ..60: water 1",
		"heat":            "max-heat ..5: heat 1",
		"water allowance": "water-allowance 94.6353..: water 1", // (0.5·3 + 1)·3.785411784·10
	}
	set := map[string]func(r *ration.Request){
		"budget": func(r *ration.Request) { r.Limits.Budget = v(90) }, "weight": func(r *ration.Request) { r.Limits.WeightKg = v(80) }, "volume": func(r *ration.Request) { r.Limits.VolumeL = v(70) },
		"water": func(r *ration.Request) { r.Limits.WaterL = v(60) }, "heat": func(r *ration.Request) { r.Limits.HeatMJ = v(5) },
		"water allowance": func(r *ration.Request) {
			r.Allowance, r.Pets, r.People = true, 1, []nutrients.Person{{Count: 2}, {Count: 1}}
		},
	}
	together, all := shop(), ""
	for name, row := range rows {
		m := shop()
		set[name](m.Request)
		set[name](together.Request)
		addLimitRows(m)
		sameLines(t, name, rowsFrom(m.Problem, 0), row)
		all += row + "\n"
	}
	addLimitRows(together)
	sameLines(t, "all", rowsFrom(together.Problem, 0), all)
	info := func(on LimitOn, text, unit string, total ration.Least) RowInfo {
		return RowInfo{Kind: RowLimit, Class: UserLimit, Eater: -1, On: on, Text: text, Unit: unit, Total: total, PerDay: 1}
	}
	sameInfos(t, together, map[string]RowInfo{
		"budget": info(OnBudget, "budget", "crowns", ration.LeastCost), "max-weight": info(OnWeight, "weight", "kg", ration.LeastWeight), "max-litres": info(OnVolume, "shelf space", "L", ration.LeastVolume),
		"max-water": info(OnWater, "stored water", "L", ""), "max-heat": info(OnHeat, "heat for cooking", "MJ", ""), "water-allowance": info(OnAllowance, "the usual water allowance", "L", ""),
	})
	if m := shop(); m.Currency() != "crowns" || m.Unit() != "crowns" {
		t.Errorf("%q, %q", m.Currency(), m.Unit())
	}
	together.Request.Table = &foods.Table{Packs: []*foods.Pack{{Key: "unpriced"}}}
	if got := together.Currency(); got != "" {
		t.Errorf("without prices %q", got)
	}
}

// TestWishRowsByHand: at most 30 g a day of oats or rice and at least 5 g of oats, of who wishes it alone.
func TestWishRowsByHand(t *testing.T) {
	m := shop()
	rice, oats := m.Larder[0].Food, m.Larder[1].Food
	seatOne(m, nutrients.Person{Name: "Signe"}, 1, 0, 1)
	odd := seatOne(m, nutrients.Person{Name: "Odd"}, 2, 0, 1)
	odd.Wishes = &foods.Wishes{Most: []foods.Portion{{Text: "most grains 30 g/day", Foods: []*foods.Food{rice, oats}, GramsPerDay: 30}}, Least: []foods.Portion{{Text: "least oats 5 g/day", Foods: []*foods.Food{oats}, GramsPerDay: 5}}}
	addWishRows(m)
	sameLines(t, "wishes", rowsFrom(m.Problem, 0), `
rule-most grains 30 g/day[Odd] ..300: eat[Odd,rice] 1, eat[Odd,oats] 1
rule-least oats 5 g/day[Odd] 50..: eat[Odd,oats] 1
`)
	sameInfos(t, m, map[string]RowInfo{"rule-least oats 5 g/day[Odd]": {Kind: RowUser, Class: UserLimit, Eater: 1, Of: "least oats 5 g/day", Text: "rule: least oats 5 g/day", Unit: "g", PerDay: 10}})
}

// TestKeepRowsByHand: packs that are to stay as many are fixed, none of them as well; others are free.
func TestKeepRowsByHand(t *testing.T) {
	m := shop()
	m.Request.Keep = map[string]int{"sack": 2, "bag": 0, "box": 3} // a box is not bought
	addKeepRows(m)
	sameLines(t, "kept", rowsFrom(m.Problem, 0), "keep[bag] 0..0: bag 1\nkeep[sack] 2..2: sack 1")
	sameInfos(t, m, map[string]RowInfo{"keep[sack]": {Kind: RowKeep, Class: UserLimit, Eater: -1, Of: "rice", Text: "keep rice", Group: "sack", Unit: "packs", PerDay: 1}})
}

// TestPointsOfASmallShop: packs of a plan in their columns, bought and of the stock; what is fixed and
// what is closed; no more water than is asked.
func TestPointsOfASmallShop(t *testing.T) {
	m := shop()
	oats := m.Larder[1]
	old := &foods.Pack{Key: "box", Food: oats.Food}
	oats.Stock = append(oats.Stock, m.packColumn(colStock, "old box", 1, 1, old, 450, 2))
	oats.Buy = []PackCol{m.packColumn(ColBuy, "new box", 1, -1, old, 450, 9)}
	m.Larder[0].Reserve = []PackCol{m.packColumn(ColReserve, "bag aside", 0, -1, m.Larder[0].Buy[0].Pack, 1, 9)}
	of := func(lines ...ration.PlanPack) map[string]float64 {
		x := make([]float64, len(m.Cols))
		for _, line := range lines {
			m.PlacePacks(x, line)
		}
		got := map[string]float64{}
		for j, v := range x {
			if v != 0 {
				got[m.Problem.Cols[j].Name] = v
			}
		}
		return got
	}
	for _, c := range []struct {
		name string
		line ration.PlanPack
		want map[string]float64
	}{
		{"bought", ration.PlanPack{Pack: "sack", Food: "rice", Count: 3}, map[string]float64{"sack": 3}},
		{"by another case", ration.PlanPack{Pack: "bag", Food: "Rice", Count: 2}, map[string]float64{"bag": 2}},
		{"set aside", ration.PlanPack{Pack: "bag", Food: "rice", Count: 2, Reserve: true}, map[string]float64{"bag aside": 2}},
		{"of the stock and beyond", ration.PlanPack{Pack: "box", Food: "oats", Count: 9, FromStock: 5}, map[string]float64{"box": 4, "old box": 1, "new box": 4}},
		{"of the stock", ration.PlanPack{Pack: "box", Food: "oats", Count: 3, FromStock: 3}, map[string]float64{"box": 3}},
		{"of another food", ration.PlanPack{Pack: "bag", Food: "oats", Count: 2}, map[string]float64{}},
	} {
		if got := of(c.line); !maps.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	// Of a cost a pack a gram of a bag costs 1/900, of a sack 3/4000, which is less; nothing is to be had of the oats at no column.
	cost := map[string]float64{"bag": 1, "sack": 3}
	if least, col := m.Larder[0].GramCost(func(j int) float64 { return cost[m.Problem.Cols[j].Name] }); least != 3.0/4000 || m.Problem.Cols[col].Name != "sack" {
		t.Errorf("%g by column %d", least, col)
	}
	if least, col := (&LarderFood{}).GramCost(func(int) float64 { return 1 }); least != Inf || col != -1 {
		t.Errorf("%g by column %d", least, col)
	}
	// Packs are fixed at whole numbers, nothing else.
	p, x := m.Problem.Clone(), make([]float64, len(m.Cols))
	for j := range x {
		x[j] = 1.6
	}
	m.FixPacks(p, x)
	for j, c := range p.Cols {
		if c.Integer && (c.Lower != 2 || c.Upper != 2) || !c.Integer && (c.Lower != 0 || c.Upper != Inf) {
			t.Errorf("%s from %g to %g (column %d)", c.Name, c.Lower, c.Upper, j)
		}
	}
	// Of the water 12 L are asked with 2 for each bag of which there are 3, and 4 L or 9 L of rows
	// that ask for less; a row with no least asks for none.
	stored, second, most := m.addRow("stored", 12, Inf, RowInfo{}), m.addRow("second", 4, Inf, RowInfo{}), m.addRow("most", -Inf, 99, RowInfo{})
	m.Problem.Set(stored, m.Water, 1)
	m.Problem.Set(stored, m.Larder[0].Buy[0].Col, -2)
	m.Problem.Set(second, m.Water, 2)
	m.Problem.Set(most, m.Water, 1)
	m.Problem.Set(m.addRow("heat", 5, Inf, RowInfo{}), m.Heat, 1)
	x = make([]float64, len(m.Cols))
	x[m.Larder[0].Buy[0].Col], x[m.Water], x[m.Heat] = 3, 40, 4
	if got := m.Activities(x); !slices.Equal(got, []float64{34, 80, 40, 4}) {
		t.Errorf("activities %v", got)
	}
	tight := m.Tightened(x)
	if tight[m.Water] != 18 || tight[m.Heat] != 4 || x[m.Water] != 40 {
		t.Errorf("%g L and %g MJ, want 12 + 2·3 = 18 and the 4 that there are", tight[m.Water], tight[m.Heat])
	}
	for j := range m.Problem.Cols {
		m.Problem.Cols[j].Cost = float64(j + 1)
	}
	// 3 bags at 1, 40 L at 4 and 4 MJ at 5.
	if got := m.ValueOf(append(slices.Clone(x), 7)); got != 3+160+20 {
		t.Errorf("value %g, want 183", got)
	}
	AimAtRow(m.Problem, stored)
	for j, c := range m.Problem.Cols {
		if want := map[int]float64{m.Water: 1, m.Larder[0].Buy[0].Col: -2}[j]; c.Cost != want {
			t.Errorf("%s costs %g, want %g", c.Name, c.Cost, want)
		}
	}
	up := m.PacksUp([]float64{1.2, 3, 2 + 1e-11, 1.5, 0.2, 0, 1e-9, 0})
	if want := []float64{2, 3, 2, 1.5, 0.2, 0, 1, 0}; !slices.Equal(up, want) {
		t.Errorf("%v, want %v", up, want)
	}
}

// TestEntriesMerged: entries of a column in the order of their rows, those of one row added up, what comes to nothing left out.
func TestEntriesMerged(t *testing.T) {
	got := Merged([]linear.Entry{{Row: 4, Value: 1}, {Row: 1, Value: 2}, {Row: 4, Value: 3}, {Row: 2, Value: 5}, {Row: 1, Value: -2}, {Row: 4, Value: -1}})
	if want := []linear.Entry{{Row: 2, Value: 5}, {Row: 4, Value: 3}}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	p := &linear.Problem{Cols: []linear.Col{{Entries: []linear.Entry{{Row: 1, Value: 1}, {Row: 0, Value: 2}}}, {}, {Entries: []linear.Entry{{Row: 0, Value: 1}, {Row: 0, Value: 2}}}}}
	MergeAll(p)
	if !slices.Equal(p.Cols[0].Entries, []linear.Entry{{Row: 0, Value: 2}, {Row: 1, Value: 1}}) || len(p.Cols[1].Entries) != 0 || !slices.Equal(p.Cols[2].Entries, []linear.Entry{{Row: 0, Value: 3}}) {
		t.Errorf("%v", p.Cols)
	}
}

// TestVariantsByHand: each variant changes the ends that it is about, of the first row and of the last, and no other;
// the model stays. Signe's and Odd's vitamin D, iron, sodium and planning rule, water and shelves.
func TestVariantsByHand(t *testing.T) {
	m := bare(10)
	for _, name := range []string{"Signe", "Odd"} {
		seatOne(m, nutrients.Person{Name: name}, 1)
	}
	need := func(eater int, n nutrients.Nutrient) RowInfo {
		return RowInfo{Kind: RowNutrient, Class: Requirement, Eater: eater, Nutrient: n, PerDay: 10}
	}
	for _, r := range []struct {
		name  string
		lower float64
		info  RowInfo
	}{
		{"d0", 50, need(0, nutrients.VitaminD)}, {"iron", 80, need(0, nutrients.Iron)}, {"sodium0", 5, need(0, nutrients.Sodium)}, {"water", 30, RowInfo{Kind: RowAllWater}},
		{"room", 0, RowInfo{On: OnShelfRoom}}, {"load", 0, RowInfo{On: OnShelfLoad}}, {"size", 0, RowInfo{On: OnShelfSize}}, {"plan", 1, RowInfo{Class: Planning}},
		{"share", 1, RowInfo{Kind: RowShare, Nutrient: nutrients.VitaminD, Eater: 1, PerDay: 10}}, {"sodium1", 5, need(1, nutrients.Sodium)}, {"d1", 60, need(1, nutrients.VitaminD)},
	} {
		m.addRow(r.name, r.lower, 900, r.info)
	}
	from := m.With(func(p *linear.Problem) {
		for i := range p.Rows {
			p.Rows[i].Lower = 7 + float64(i)
		}
	})
	for _, c := range []struct {
		name string
		of   *Model
		want map[string][2]float64
	}{
		{"without stored vitamins", WithoutStoredVitamins(m), map[string][2]float64{"d0": {-Inf, 900}, "d1": {-Inf, 900}}},
		{"with shortfalls", WithShortfalls(m, []ration.Shortfall{{Person: "Odd", Nutrient: "vitamin_d", Amount: 4}, {Person: "Odd", Nutrient: "vitamin_d", Amount: 5}, {Person: "Signe", Nutrient: "vitamin_d", Amount: 6}, {Person: "Signe", Nutrient: "iron", Amount: 1}}),
			map[string][2]float64{"d1": {40 * (1 - ration.CheckTolerance), 900}}},
		{"with little sodium", WithSodium(m, map[string]float64{"Odd": 60, "Signe": 100}), map[string][2]float64{"sodium1": {5, 600}}},
		{"without planning", WithoutPlanningLimits(m), map[string][2]float64{"plan": {-Inf, Inf}}},
		{"with those of another", WithStoredOf(m, from), map[string][2]float64{"d0": {7, 900}, "d1": {17, 900}}},
		{"with more water", WithMoreWater(m, 4), map[string][2]float64{"water": {34, 900}}},
		{"with shelves", WithShelves(m, 11, 12), map[string][2]float64{"room": {0, 11}, "load": {0, 12}}},
		{"without the first limit", WithoutLimit(m, 0), map[string][2]float64{"d0": {50, Inf}}},
		{"without the last", WithoutLimit(m, 10), map[string][2]float64{"d1": {60, Inf}}},
	} {
		for i, r := range c.of.Problem.Rows {
			old := m.Problem.Rows[i]
			want, ok := c.want[r.Name]
			if !ok {
				want = [2]float64{old.Lower, old.Upper}
			}
			if got := [2]float64{r.Lower, r.Upper}; got != want {
				t.Errorf("%s: %s from %g to %g, want %g to %g", c.name, r.Name, got[0], got[1], want[0], want[1])
			}
		}
		if c.of == m || m.Problem.Rows[0].Lower != 50 || m.Problem.Rows[10].Upper != 900 {
			t.Fatalf("%s: the model itself is changed", c.name)
		}
	}
	if WithSodium(m, nil) != m {
		t.Error("nobody's sodium makes another model")
	}
}

// TestDrinkOfTheFirstColumn: who may eat nothing drinks by the first column of all, and is counted like others; of the 2.7 L that
// she needs no more is asked than the 2 that she may have by an order.
func TestDrinkOfTheFirstColumn(t *testing.T) {
	m := bare(10)
	e := seatOne(m, nutrients.Person{Name: "Una", AgeMonths: 400}, 3)
	e.Needs.Water = nutrients.WaterNeed{Total: limit(2.7), Most: ordered(2)}
	addDrinkColumn(m, 0, e)
	addSupplyRows(m)
	addFluidRows(m)
	if e.Drink != 0 {
		t.Fatalf("drinks by column %d", e.Drink)
	}
	sameLines(t, "rows", rowsFrom(m.Problem, 0), `
water[Una] 20..: drink[Una] 1
water-stored 30..: water 1, drink[Una] -3.3
heat-used 0..: heat 1
ordered-fluid-at-most[Una] ..20: drink[Una] 1
`)
	x := m.PointOf(&ration.Plan{People: []ration.PlanPerson{{Name: "Una", DrinkLPerDay: 1.5}}, Totals: &ration.Totals{WaterL: 80, HeatMJ: 2}})
	if want := []float64{15, 80, 2}; !slices.Equal(x, want) {
		t.Errorf("%v, want %v", x, want)
	}
}

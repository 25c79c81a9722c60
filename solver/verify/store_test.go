package verify

import (
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// TestWaterKept: what is kept for somebody to drink a day is what they drink, and no less than two
// quarts (1.893 L, FEMA and Red Cross) where no plan feeds them, three (2.839 L, CDC) in pregnancy
// and from the first birthday in heat, four (3.785 L, CDC) for the ill. An infant under six months
// gets what its feed takes and no more.
func TestWaterKept(t *testing.T) {
	for _, c := range []struct {
		name   string
		months int
		state  nutrients.State
		hot    bool
		ill    bool
		fed    bool
		drinks float64
		want   float64
	}{
		{"grown", 400, "", false, false, true, 1.5, 1.5},
		{"no plan feeds", 400, "", false, false, false, 1.5, 1.893},
		{"no plan feeds, drinks more", 400, "", false, false, false, 2, 2},
		{"pregnant", 400, nutrients.Pregnant1, false, false, true, 1.5, 2.839},
		{"pregnant, drinks more", 400, nutrients.Pregnant3, false, false, true, 3, 3},
		{"nursing", 400, nutrients.Lactating1, false, false, true, 1.5, 1.5},
		{"in heat", 400, "", true, false, true, 1.5, 2.839},
		{"in heat at 12 months", 12, "", true, false, true, 1.5, 2.839},
		{"in heat at 11 months", 11, "", true, false, true, 1.5, 1.5},
		{"ill", 400, "", false, true, true, 1.5, 3.785},
		{"ill in heat", 400, "", true, true, false, 1.5, 3.785},
		{"ill at 6 months", 6, "", false, true, true, 0.5, 3.785},
		{"ill at 5 months", 5, "", false, true, false, 0.5, 0.5},
		{"ill and drinks more", 400, "", false, true, true, 4, 4},
	} {
		check := checkerOf(t, &ration.Request{Hot: c.hot})
		if c.ill {
			check.req.Ill = []string{"Odd", "Signe"}
		} else {
			check.req.Ill = []string{"Odd"}
		}
		p := nutrients.Person{Name: "Signe", AgeMonths: c.months, State: c.state}
		if got := check.keptL(&p, c.drinks, c.fed); got != c.want {
			t.Errorf("%s: %g L, want %g", c.name, got, c.want)
		}
		if heat, want := check.heat(), map[bool]float64{false: 1, true: 2}[c.hot]; heat != want {
			t.Errorf("%s: need of drinks times %g, want %g", c.name, heat, want)
		}
	}
	if r := waterRow("FEMA/Red Cross", "person", "no such use"); r.Value == r.Value || r.ValueMax == r.ValueMax {
		t.Errorf("a row that there is not is %g", r.Value)
	}
}

// TestSuppliesByHand: the water and the heat of ten days by hand: a head washes with 1 L a day; what
// is drunk and what food takes has a tenth more (planning figures of water.csv); a pet takes
// 3.785411784 L; a litre that must be boiled 0.36 MJ. Two people drink 1.5 L each and eat 1000 g
// each of grain that takes 0.2 L and 0.5 MJ in 100 g: 20 + 1.1 × 30 + 1.1 × 4 = 57.4 L and 10 MJ.
func TestSuppliesByHand(t *testing.T) {
	none, two := 0.0, 2.0
	type change = func(*checker, *diner, *foods.Food)
	for _, c := range []struct {
		name        string
		change      change
		water, heat float64
	}{
		{"two people", nil, 57.4, 10},
		{"and a pet", func(c *checker, _ *diner, _ *foods.Food) { c.req.Pets = 1 }, 57.4 + 37.85411784, 10},
		{"without washing", func(c *checker, _ *diner, _ *foods.Food) { c.req.WashingL = &none }, 37.4, 10},
		{"washing with more", func(c *checker, _ *diner, _ *foods.Food) { c.req.WashingL = &two }, 77.4, 10},
		{"ill", func(c *checker, _ *diner, _ *foods.Food) { c.req.Ill = []string{"Signe"} }, 20 + 1.1*75.7 + 4.4, 10},
		{"water that must be boiled", func(c *checker, _ *diner, _ *foods.Food) { c.req.BoilWater = true }, 57.4, 20.8}, // 30 L
		{"eaten cold", func(c *checker, _ *diner, f *foods.Food) { f.Preparation.ColdOK = true }, 57.4, 0},
		{"formula is bought with a tenth more", func(c *checker, d *diner, f *foods.Food) {
			f.Tags, d.needs.Feed = []string{foods.TagInfantFormula}, &nutrients.Feed{SpareFactor: 1.1}
		}, 53 + 4.84, 11},
		{"two whom no plan feeds", func(c *checker, _ *diner, _ *foods.Food) { // 20 L of washing, 1.1 × 2 × 10 × 1.893
			c.refused = []nutrients.Needs{{Person: nutrients.Person{Name: "Ragna", AgeMonths: 800, Count: 2}}}
		}, 57.4 + 20 + 41.646, 10},
		{"whom no plan feeds, in need of 3 L", func(c *checker, _ *diner, _ *foods.Food) {
			c.refused = []nutrients.Needs{{Person: nutrients.Person{Name: "Ragna", AgeMonths: 800, Count: 1}, Water: nutrients.WaterNeed{Total: limitOf(3)}}}
		}, 57.4 + 10 + 33, 10},
		{"in heat, whom no plan feeds", func(c *checker, _ *diner, _ *foods.Food) { // 1.1 × 20 × 2.839 of those who are fed, 1.1 × 10 × 6
			c.req.Hot = true
			c.refused = []nutrients.Needs{{Person: nutrients.Person{Name: "Ragna", AgeMonths: 800, Count: 1}, Water: nutrients.WaterNeed{Total: limitOf(3)}}}
		}, 20 + 62.458 + 4.4 + 10 + 66, 10},
		{"less washing, as a closest ration says", func(c *checker, _ *diner, _ *foods.Food) { // 2 L a day less 0.5 L
			c.plan.Shortfalls = []ration.Shortfall{{Nutrient: "washing_water", Amount: 0.5, Target: 2}}
		}, 42.4, 10},
		{"no washing, and no more than that", func(c *checker, _ *diner, _ *foods.Food) {
			c.plan.Shortfalls = []ration.Shortfall{{Nutrient: "washing_water", Amount: -5, Target: 2}}
		}, 37.4, 10},
		{"a shortfall of somebody", func(c *checker, _ *diner, _ *foods.Food) {
			c.plan.Shortfalls = []ration.Shortfall{{Person: "Signe", Nutrient: "washing_water", Target: 2}, {Nutrient: "water", Target: 2}}
		}, 57.4, 10},
	} {
		for _, off := range []float64{-0.01, 0, 0.01} {
			for _, which := range []string{"stored water", "heat"} {
				check := checkerOf(t, &ration.Request{Days: 10, Cook: ration.CookNone})
				tables := *check.tables
				tables.making = map[string]making{"grain": {waterL: 0.2, eatenL: 0.1, usefulMJ: 0.5}}
				check.tables = &tables
				grain := food("grain", func(f *foods.Food) { f.Preparation = &foods.Preparation{Form: "grain", Class: "boil"} })
				d := dinerOf(400, helping{grain, 600}, helping{grain, 400}, helping{food("bread", nil), 500})
				d.heads, d.plan.DrinkLPerDay = 2, 1.5
				check.diners = []*diner{d}
				if c.change != nil {
					c.change(check, d, grain)
				}
				check.plan.Totals = &ration.Totals{WaterL: c.water, HeatMJ: c.heat}
				want := ""
				if which == "heat" {
					check.plan.Totals.HeatMJ += off
					if off != 0 {
						want = "heat"
					}
				} else if check.plan.Totals.WaterL += off; off < 0 {
					want = "stored water"
				}
				if (stored{check}).supplies(); told(check) != want {
					t.Errorf("%s, %g of %s: %v, want %q", c.name, off, which, check.found, want)
				}
			}
		}
	}
	check := checkerOf(t, &ration.Request{Days: 10})
	if (stored{check}).supplies(); told(check) != "the plan has no totals" || check.found[0].Amount != 0 || check.found[0].Bound != 1 {
		t.Errorf("without totals: %v", check.found)
	}
	(stored{check}).totals()
	(stored{check}).limits()
	if len(check.found) != 1 {
		t.Errorf("without totals: %v", check.found)
	}
}

// sweets are packs of quick sugar of 30 g of sugars, two doses (ADA: 15 g), each finished within a
// day or not.
func sweets(name string, hours float64, tags ...string) (*foods.Food, *foods.Pack) {
	f := food(name, func(f *foods.Food) {
		f.Tags = append(tags, foods.TagFastSugar)
		f.Per100g[nutrients.Sugars] = 100
		f.Keeping = &foods.Keeping{AfterOpenHours: hours, MaxStorageC: 20}
	})
	k := &foods.Pack{Key: name, Food: f, NetG: 30, EasyOpen: true, GrossG: 40}
	f.Packs = []*foods.Pack{k}
	return f, k
}

// TestDoses: a low takes 15 g of sugars (ADA). A pack holds whole doses, one where it is finished
// within a day of opening; the number for fourteen days is taken to the days of the plan, rounded up.
func TestDoses(t *testing.T) {
	for _, c := range []struct {
		net, sugars, hours float64
		want               float64
	}{
		{30, 100, 48, 2}, {29.9, 100, 48, 1}, {15, 100, 48, 1}, {14.9, 100, 48, 0}, {200, 75, 48, 10}, {200, 75, 25, 10},
		{200, 75, 24, 1}, {200, 75, 2, 1}, {14.9, 100, 2, 0}, {200, 0, 48, 0}, {200, 75, -1, 1}, {200, 75, 500, 10},
	} {
		f, k := sweets("sweets", c.hours)
		k.NetG, f.Per100g[nutrients.Sugars] = c.net, c.sugars
		if c.hours < 0 {
			f.Keeping = nil
		}
		if got := dosesOf(k); got != c.want {
			t.Errorf("%+v: %g doses", c, got)
		}
	}
	for _, c := range []struct {
		doses, days int // for so many days
		plan        int
		want        float64
	}{{14, 14, 14, 14}, {14, 14, 7, 7}, {10, 14, 7, 5}, {9, 14, 7, 5}, {10, 14, 1, 1}, {10, 14, 28, 20}, {10, 14, 15, 11}} {
		check := checkerOf(t, &ration.Request{Days: c.plan})
		d := dinerOf(400)
		if got := check.doses(d); got != 0 {
			t.Errorf("%g doses for somebody without lows", got)
		}
		d.needs.Lows = &nutrients.LowReserve{Doses: c.doses, Days: c.days, DoseG: 15}
		if got := check.doses(d); got != c.want {
			t.Errorf("%+v: %g doses", c, got)
		}
	}
}

// TestReserveHeld: two people with ten doses each for fourteen days have twenty set aside, out of
// packs of at most twenty that all may take; of a stock only what keeps to the last day.
func TestReserveHeld(t *testing.T) {
	type in struct {
		plan []ration.PlanPack
		req  func(*ration.Request, map[string]*foods.Pack)
		lows bool
		also *nutrients.Person // with lows too
	}
	ten := func(reserve bool, counts ...int) ration.PlanPack {
		p := ration.PlanPack{Pack: "sweets", Count: counts[0], Reserve: reserve}
		if len(counts) > 1 {
			p.FromStock = counts[1]
		}
		return p
	}
	stock := func(dates ...string) func(*ration.Request, map[string]*foods.Pack) {
		return func(r *ration.Request, packs map[string]*foods.Pack) {
			r.Stock = append(r.Stock, foods.StockLine{Pack: packs["big"], Count: 9})
			for _, date := range dates {
				r.Stock = append(r.Stock, foods.StockLine{Pack: packs["sweets"], Count: 3.9, BestBefore: date})
			}
		}
	}
	const doses = "doses of quick sugar set aside"
	for _, c := range []struct {
		name string
		in   in
		want string
	}{
		{"twenty", in{plan: []ration.PlanPack{ten(true, 10)}, lows: true}, ""},
		{"eighteen", in{plan: []ration.PlanPack{ten(true, 9)}, lows: true}, doses},
		{"in two lines", in{plan: []ration.PlanPack{ten(true, 4), ten(true, 6)}, lows: true}, ""},
		{"to eat", in{plan: []ration.PlanPack{ten(false, 10)}, lows: true}, doses},
		{"nobody in need", in{}, ""},
		{"of the stock alone none is asked", in{req: func(r *ration.Request, _ map[string]*foods.Pack) { r.StockOnly = true }, lows: true}, ""},
		{"none can be had", in{req: func(r *ration.Request, _ map[string]*foods.Pack) { r.Table = &foods.Table{} }, lows: true}, ""},
		{"none that weak hands open", in{req: func(r *ration.Request, packs map[string]*foods.Pack) {
			r.EasyOpen, packs["sweets"].EasyOpen = true, false
		}, lows: true}, ""},
		{"one that weak hands open", in{req: func(r *ration.Request, packs map[string]*foods.Pack) { r.EasyOpen = true }, lows: true}, doses},
		{"all is left out", in{req: func(r *ration.Request, packs map[string]*foods.Pack) { packs["sweets"].Food.Tags = nil }, lows: true}, ""},
		{"a pack of 21 doses bought", in{plan: []ration.PlanPack{{Pack: "big", Count: 1, Reserve: true}}, lows: true}, "big is no pack of doses"},
		{"a pack of 21 doses in stock", in{plan: []ration.PlanPack{{Pack: "big", Count: 1, FromStock: 1, Reserve: true}}, req: stock(), lows: true}, ""},
		{"bread", in{plan: []ration.PlanPack{ten(true, 10), {Pack: "bread", Count: 1, Reserve: true}}, lows: true}, "bread may not be set aside: it is no quick sugar"},
		{"three of the stock", in{plan: []ration.PlanPack{ten(true, 10, 3)}, req: stock(""), lows: true}, ""},
		{"a part of a pack is none", in{plan: []ration.PlanPack{ten(true, 10, 4)}, req: stock(""), lows: true}, "sweets set aside that keep to the last day"},
		{"of two lines", in{plan: []ration.PlanPack{ten(true, 10, 6)}, req: stock("", "2027-01-01"), lows: true}, ""},
		{"to the last day", in{plan: []ration.PlanPack{ten(true, 10, 3)}, req: stock("2026-12-08"), lows: true}, ""},
		{"to the last day but one", in{plan: []ration.PlanPack{ten(true, 10, 3)}, req: stock("2026-12-07"), lows: true}, "sweets set aside that keep to the last day"},
		{"unknown", in{plan: []ration.PlanPack{ten(true, 10), {Pack: "moon", Count: 1, Reserve: true}}, lows: true}, ""}, // told elsewhere
	} {
		f, k := sweets("sweets", 48)
		_, big := sweets("big", 48)
		big.NetG = 315
		loaf := bread()
		slices := &foods.Pack{Key: "bread", Food: loaf}
		req := &ration.Request{Days: 14, Start: "2026-11-25", Table: &foods.Table{Foods: []*foods.Food{loaf, f}, Packs: []*foods.Pack{k, big, slices}}}
		if c.in.req != nil {
			packs := req.Table
			c.in.req(req, map[string]*foods.Pack{"sweets": k, "big": big})
			if req.Table != packs {
				req.Table.Packs = packs.Packs
			}
		}
		check := checkerOf(t, req)
		check.plan.Packs = c.in.plan
		d, other := dinerOf(400), dinerOf(400)
		if d.heads = 2; c.in.lows {
			d.needs.Lows = &nutrients.LowReserve{Doses: 10, Days: 14}
		}
		check.diners = []*diner{d, other}
		if (stored{check}).reserve(); told(check) != c.want {
			t.Errorf("%s: %q, want %q", c.name, told(check), c.want)
		}
		for _, v := range check.found {
			if strings.Contains(v.Limit, "may not be set aside") && (v.Amount != 1 || v.Bound != 0) {
				t.Errorf("%s: %v", c.name, v)
			}
		}
	}
}

// TestReserveOfThoseInNeed: quick sugar is set aside that each who needs it may take, though they
// may not eat it between; what those do not stand who need none is no matter.
func TestReserveOfThoseInNeed(t *testing.T) {
	drink := food("lemonade", func(f *foods.Food) {
		f.Tags, f.Per100g[nutrients.Sugars] = []string{foods.TagFastSugar, foods.TagSugaryDrink}, 10
	})
	milky := food("milk sweets", func(f *foods.Food) {
		f.Tags, f.Per100g[nutrients.Sugars], f.Allergens = []string{foods.TagFastSugar}, 60, []string{"milk"}
	})
	in := func(allergic bool, lows bool) *diner {
		d := dinerOf(400)
		d.needs.Person.Conditions = []nutrients.Condition{nutrients.Diabetes1}
		if allergic {
			d.needs.Person.Allergies = []nutrients.Allergy{{Allergen: "milk", Level: nutrients.AllergyStrict}}
		}
		if lows {
			d.needs.Lows = &nutrients.LowReserve{Doses: 10, Days: 14}
		}
		return d
	}
	for _, c := range []struct {
		name string
		food *foods.Food
		who  []*diner
		may  bool
	}{
		{"a sweet drink, that treats a low", drink, []*diner{in(false, true)}, true},
		{"sweets with milk", milky, []*diner{in(false, true)}, true},
		{"sweets with milk, allergic", milky, []*diner{in(false, true), in(true, true)}, false},
		{"sweets with milk, allergic and in no need", milky, []*diner{in(true, false), in(false, true)}, true},
	} {
		check := checkerOf(t, &ration.Request{Days: 14})
		check.diners = c.who
		if why := (stored{check}).notReserve(c.food); (why == "") != c.may {
			t.Errorf("%s: %q", c.name, why)
		}
	}
	if ok, _ := foods.Eligible(in(false, true).needs.Person, nil, drink); ok {
		t.Error("the drink is barred by no rule, so that nothing is tested")
	}
}

// TestTotalsByHand: what a plan costs, weighs and fills: two packs bought and one from stock of
// 500 g full, 0.5 L and 3 of money; water by the 20 L canister (packages.csv: 20 kg of water in a
// canister of 1.2 kg, its sizes beside) at 0.15 a litre; heat by the canister of 230 g of gas
// (fuel.csv: 10.51 MJ of which 0.4 reach the pot, 380 g, 7.50 of money).
func TestTotalsByHand(t *testing.T) {
	table := loaded(t)
	box, ok := stores.ContainerByKey("can_water_20")
	gas, err := stores.StoveByName("canister-230")
	if !ok || err != nil {
		t.Fatal(err)
	}
	pack := &foods.Pack{Key: "rice", Food: food("rice", nil), GrossG: 500, VolumeL: 0.5, Price: 3}
	const mj = 10.51 * 0.4
	const food, kg, litres = 2 * 3, 3 * 0.5, 3 * 0.5
	have := func(v float64) *float64 { return &v }
	correct := func() ration.Totals {
		return ration.Totals{
			WaterL: 40, OwnWaterL: 10, HeatMJ: 8, OwnHeatMJ: 3, Food: ration.FoodTotals{Cost: food, WeightKg: kg, VolumeL: litres},
			Cost:     food + 30*0.15 + 5*7.5/mj,
			WeightKg: kg + 40*(box.NetG+box.TareG)/1000/(box.NetML/1000) + 8*0.38/mj,
			VolumeL:  litres + 40*box.LengthMM*box.WidthMM*box.HeightMM/1e6/(box.NetML/1000) + 8*gas.LengthMM*gas.WidthMM*gas.HeightMM/1e6/mj,
		}
	}
	for _, c := range []struct {
		name        string
		change      func(*ration.Totals)
		water, heat *float64 // on hand
		want        string
	}{
		{"as it is", func(t *ration.Totals) {}, have(10), have(3), ""},
		{"more on hand", func(t *ration.Totals) {}, have(100), have(30), ""},
		{"less water on hand", func(t *ration.Totals) {}, have(9), have(3), "water on hand"},
		{"less heat on hand", func(t *ration.Totals) {}, have(10), have(2), "heat on hand"},
		{"no water on hand", func(t *ration.Totals) {}, nil, have(3), "water on hand"},
		{"no heat on hand", func(t *ration.Totals) {}, have(10), nil, "heat on hand"},
		{"cost of food", func(t *ration.Totals) { t.Food.Cost += 0.1 }, have(10), have(3), "cost of food as printed"},
		{"weight of food", func(t *ration.Totals) { t.Food.WeightKg -= 0.1 }, have(10), have(3), "weight of food as printed"},
		{"volume of food", func(t *ration.Totals) { t.Food.VolumeL += 0.1 }, have(10), have(3), "volume of food as printed"},
		{"cost", func(t *ration.Totals) { t.Cost += 0.1 }, have(10), have(3), "cost as printed"},
		{"weight", func(t *ration.Totals) { t.WeightKg -= 0.1 }, have(10), have(3), "weight as printed"},
		{"volume", func(t *ration.Totals) { t.VolumeL += 0.1 }, have(10), have(3), "volume as printed"},
		{"less than no water on hand", func(t *ration.Totals) { t.OwnWaterL = -1; t.Cost += 11 * 0.15 }, have(10), have(3), "water on hand"},
		{"less than no heat on hand", func(t *ration.Totals) { t.OwnHeatMJ = -1; t.Cost += 4 * 7.5 / mj }, have(10), have(3), "heat on hand"},
		{"more on hand than is stored", func(t *ration.Totals) { t.OwnWaterL = 41; t.Cost -= 31 * 0.15 }, have(100), have(3), "water on hand"},
		{"more heat on hand than is used", func(t *ration.Totals) { t.OwnHeatMJ = 9; t.Cost -= 6 * 7.5 / mj }, have(10), have(30), "heat on hand"},
	} {
		for _, least := range []ration.Least{ration.LeastCost, ration.LeastWeight, ration.LeastVolume} {
			totals := correct()
			c.change(&totals)
			value := map[ration.Least]float64{ration.LeastCost: totals.Cost, ration.LeastWeight: totals.WeightKg, ration.LeastVolume: totals.VolumeL}[least]
			own := *table
			own.Packs = []*foods.Pack{pack}
			check := checkerOf(t, &ration.Request{Table: &own, Stove: "canister-230", Least: least, StockWaterL: c.water, StockHeatMJ: c.heat})
			check.plan = &ration.Plan{Totals: &totals, Value: &value, Packs: []ration.PlanPack{{Pack: "rice", Count: 2, FromStock: 1}, {Pack: "rice", Count: 1}, {Pack: "moon", Count: 1}}}
			if (stored{check}).totals(); told(check) != c.want {
				t.Errorf("%s: %v, want %q", c.name, check.found, c.want)
			}
			check.plan.Value, check.found = nil, nil
			if (stored{check}).totals(); told(check) != c.want {
				t.Errorf("%s without a value: %v, want %q", c.name, check.found, c.want)
			}
			value += 0.1
			check.plan.Value, check.found = &value, nil
			if (stored{check}).totals(); told(check) != strings.TrimPrefix(c.want+"\nvalue as printed", "\n") {
				t.Errorf("%s and another value: %v", c.name, check.found)
			}
		}
	}
	for _, change := range []func(*ration.Request){
		func(r *ration.Request) { r.Stove = "moonlight" },
		func(r *ration.Request) { r.Stove = "water" }, // a supply and no stove
		func(r *ration.Request) { r.Table = &foods.Table{} },
	} {
		req := &ration.Request{Table: table, Stove: "canister-230"}
		change(req)
		check := checkerOf(t, req)
		check.plan.Totals = &ration.Totals{Cost: 1}
		if (stored{check}).totals(); told(check) != "the supplies of water or fuel are unknown" || check.found[0].Amount != 0 || check.found[0].Bound != 0 {
			t.Errorf("unknown supplies: %v", check.found)
		}
	}
}

// TestLimitsHeld: the user's own limits from both sides, and the usual allowance: seven US gallons
// a head for a fortnight, a gallon a day for a pet.
func TestLimitsHeld(t *testing.T) {
	const gallon = 3.785411784
	limit := func(v float64) *float64 { return &v }
	totals := ration.Totals{Cost: 10, WeightKg: 20, VolumeL: 30, WaterL: 40, HeatMJ: 5, OwnWaterL: 1, OwnHeatMJ: 2}
	for _, c := range []struct {
		limits ration.Limits
		want   string
	}{
		{ration.Limits{}, ""},
		{ration.Limits{Budget: limit(10), WeightKg: limit(20), VolumeL: limit(30), WaterL: limit(40), HeatMJ: limit(5)}, ""},
		{ration.Limits{Budget: limit(9.99), WeightKg: limit(20), VolumeL: limit(30), WaterL: limit(40), HeatMJ: limit(5)}, "budget"},
		{ration.Limits{Budget: limit(10), WeightKg: limit(19.99)}, "weight"}, {ration.Limits{VolumeL: limit(29.99)}, "shelf space"},
		{ration.Limits{WaterL: limit(39.99)}, "stored water"}, {ration.Limits{HeatMJ: limit(4.99)}, "heat"}, {ration.Limits{HeatMJ: limit(0)}, "heat"},
	} {
		check := checkerOf(t, &ration.Request{Limits: c.limits})
		check.plan.Totals = &totals
		if (stored{check}).limits(); told(check) != c.want {
			t.Errorf("%+v: %q, want %q", c.limits, told(check), c.want)
		}
	}
	// Three people and a pet for ten days: 3 × 7 / 14 × 10 + 10 gallons.
	for _, off := range []float64{-0.001, 0} {
		check := checkerOf(t, &ration.Request{Days: 10, Allowance: true, Pets: 1, People: []nutrients.Person{{Name: "Signe", Count: 2, AgeMonths: 400}, {Name: "Odd", Count: 1, AgeMonths: 300}}})
		check.plan.Totals = &ration.Totals{WaterL: 25*gallon + off, Cost: 1e6}
		if (stored{check}).limits(); (told(check) == "water allowance") != (off < 0) {
			t.Errorf("%g L off the allowance: %v", off, check.found)
		}
		check.req.Allowance, check.found = false, nil
		if (stored{check}).limits(); len(check.found) > 0 {
			t.Errorf("without the allowance: %v", check.found)
		}
	}
}

// TestShelvesHeld: cubes of a litre and of 1 kg, in a store with a canister of water for every
// 20 L: their litres over the part of a shelf that can be used (packing.csv: 0.85), their weight,
// and that each stands somewhere.
func TestShelvesHeld(t *testing.T) {
	box, _ := stores.ContainerByKey("can_water_20")
	cube := &foods.Pack{Key: "cube", Food: food("rice", nil), GrossG: 1000, VolumeL: 1}
	tall := &foods.Pack{Key: "tall", Food: food("oats", nil), GrossG: 1000, VolumeL: 64} // 40 cm
	boxL := float64(int(box.LengthMM+0.999999)*int(box.WidthMM+0.999999)*int(box.HeightMM+0.999999)) / 1e6
	kg := (box.NetG + box.TareG) / 1000
	// 30 cubes in two lines and 41 L of water, three canisters.
	room, bears := (30+3*boxL)/0.85, 30+3*kg
	board := func(litres, kg float64) stores.Shelf { // 60 cm high
		return stores.Shelf{Name: "board", WidthCm: litres * 1000 / 60 / 60, DepthCm: 60, HeightCm: 60, LoadKg: kg, AboveFloorCm: 7}
	}
	low := func(litres float64) stores.Shelf {
		return stores.Shelf{Name: "low", WidthCm: litres * 1000 / 60 / 20, DepthCm: 60, HeightCm: 20, LoadKg: 1e4}
	}
	lines := []ration.PlanPack{{Pack: "cube", Count: 18, FromStock: 2}, {Pack: "cube", Count: 12, Reserve: true}, {Pack: "moon", Count: 1}}
	for _, c := range []struct {
		name    string
		shelves []stores.Shelf
		water   float64
		more    []ration.PlanPack
		want    string
	}{
		{"none", nil, 41, nil, ""},
		{"just the room", []stores.Shelf{board(room+0.001, 1e4)}, 41, nil, ""},
		{"too little room", []stores.Shelf{board(room-0.1, 1e4)}, 41, nil, "room on the shelves"},
		{"on two shelves", []stores.Shelf{board(room-10, 1e4), low(10.001)}, 41, nil, ""},
		{"just the load", []stores.Shelf{board(1e4, bears)}, 41, nil, ""},
		{"too little load", []stores.Shelf{board(1e4, bears-0.1)}, 41, nil, "load of the shelves"},
		{"load of two shelves", []stores.Shelf{board(1e4, bears-30), board(1e4, 30)}, 41, nil, ""},
		{"40 L are two canisters", []stores.Shelf{board(1e4, bears-kg)}, 40, nil, ""},
		{"40.1 L are three", []stores.Shelf{board(1e4, bears-kg)}, 40.1, nil, "load of the shelves"},
		{"no water", []stores.Shelf{{Name: "low", WidthCm: 1e4/0.85*3/1200 + 0.001, DepthCm: 60, HeightCm: 20, LoadKg: 30}}, 0, nil, ""},
		{"a pack that stands on none", []stores.Shelf{{Name: "low", WidthCm: 600, DepthCm: 60, HeightCm: 39.9, LoadKg: 1e4}}, 0, []ration.PlanPack{{Pack: "tall", Count: 2}}, "tall stands on none of the shelves"},
		{"a pack that stands on the other", []stores.Shelf{low(100), board(1e4, 1e4)}, 0, []ration.PlanPack{{Pack: "tall", Count: 2}}, ""},
	} {
		check := checkerOf(t, &ration.Request{Shelves: c.shelves, Table: &foods.Table{Packs: []*foods.Pack{cube, tall}}})
		check.plan.Packs, check.plan.Totals = append(lines[:3:3], c.more...), &ration.Totals{WaterL: c.water}
		if (stored{check}).shelves(); told(check) != c.want {
			t.Errorf("%s: %v, want %q", c.name, check.found, c.want)
		}
		for _, v := range check.found {
			if strings.HasPrefix(v.Limit, "tall") && (v.Amount != 2 || v.Bound != 0) {
				t.Errorf("%s: %v", c.name, v)
			}
		}
	}
	// An arrangement: a cube on a board; one that is said to stand and is left over; one forgotten.
	stack := stores.Stack{Load: 0, Shelf: 0, Count: 1, Width: 100, Depth: 100}
	for _, c := range []struct {
		name string
		fit  *ration.ShelfFit
		want string
	}{
		{"none", nil, ""},
		{"stands", &ration.ShelfFit{Stands: true, Fit: stores.Fit{Stacks: []stores.Stack{stack}}}, ""},
		{"left over", &ration.ShelfFit{Fit: stores.Fit{Left: []stores.LeftOver{{Pack: "cube", Count: 1}}}}, ""},
		{"left over and stands", &ration.ShelfFit{Stands: true, Fit: stores.Fit{Left: []stores.LeftOver{{Pack: "cube", Count: 1}}}}, "shelves: says that everything stands and leaves packs over"},
		{"stands and is said not to", &ration.ShelfFit{Fit: stores.Fit{Stacks: []stores.Stack{stack}}}, "shelves: says that everything stands and leaves packs over"},
		{"forgotten", &ration.ShelfFit{Stands: true}, "shelves: "},
	} {
		check := checkerOf(t, &ration.Request{Shelves: []stores.Shelf{board(100, 100)}, Table: &foods.Table{Packs: []*foods.Pack{cube}}})
		check.plan.Packs, check.plan.Totals, check.plan.Shelves = []ration.PlanPack{{Pack: "cube", Count: 1}}, &ration.Totals{}, c.fit
		(stored{check}).shelves()
		if got := told(check); !strings.HasPrefix(got, c.want) || (got == "") != (c.want == "") || len(check.found) > 1 {
			t.Errorf("%s: %v, want %q", c.name, check.found, c.want)
		}
		if c.name == "forgotten" && (check.found[0].Amount != 0 || check.found[0].Bound != 0) {
			t.Errorf("%s: %+v", c.name, check.found[0])
		}
	}
}

package menucheck_test

import (
	"math"
	"testing"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/solver/menucheck"
	"rationwright/solver/ration"
)

// TestColdDays: on a cold day nothing that must be heated is eaten, nor is a dish that is
// cooked made; what may be eaten cold, and a dish that is warmed at most, is not found, and an
// infant's feeds are apart. On a day that is not cold all is well.
func TestColdDays(t *testing.T) {
	for _, c := range []struct {
		name string
		cold bool
		hour float64
		pack string
		dish string
		want int
	}{
		{"rice", true, 13, rice, "", 1}, {"rice on another day", false, 13, rice, "", 0}, {"oats", true, 13, "rolled-oats-510g-canister", "", 0}, {"a feed", true, 0, rice, "", 0},
		{"a cooked dish", true, 13, "sugar-454g-bag", "plain-rice-beans", 1}, {"a cold dish", true, 13, "sugar-454g-bag", "soaked-oats-raisins", 0}, {"rice in a cooked dish", true, 13, rice, "plain-rice-beans", 2},
		{"a feed in a cooked dish", true, 0, rice, "plain-rice-beans", 0}, {"a cooked dish on another day", false, 13, rice, "plain-rice-beans", 0},
	} {
		s := newSmall(t, 1)
		s.days[0]["cold"] = c.cold
		var keys []string
		if c.dish != "" {
			keys = append(keys, c.dish)
		}
		s.meal(1, "midday", c.hour, keys, nil, s.eats(c.pack, 50, c.dish))
		if got := s.found(menucheck.Cold); len(got) != c.want {
			t.Errorf("%s: %v, want %d", c.name, got, c.want)
		}
	}
	// No heat is said of a cold day, whatever is eaten on it, but that of the feeds.
	for hour, want := range map[float64]int{13: 1, 0: 0} {
		s := newSmall(t, 1)
		s.days[0]["cold"] = true
		s.meal(1, "midday", hour, nil, nil, s.eats(rice, 100, ""))
		mj := s.food(rice).Preparation.HeatMJ
		s.days[0]["heat_mj"], s.more["heat_mj"] = mj, mj
		if got := s.found(menucheck.Heat); len(got) != want {
			t.Errorf("%g MJ on a cold day at %g: %v, want %d", mj, hour, got, want)
		}
	}
	// Rice must be heated: less than its heat cannot be; oats may be soaked.
	for pack, want := range map[string]int{rice: 1, "rolled-oats-510g-canister": 0} {
		s := newSmall(t, 1)
		s.meal(1, "midday", 13, nil, nil, s.eats(pack, 100, ""))
		if got := s.found(menucheck.Heat); len(got) != want {
			t.Errorf("no heat for %s: %v, want %d", pack, got, want)
		}
	}
	// The heat of the days is that of the menu.
	s := newSmall(t, 2)
	s.more["heat_mj"] = 0.01
	if got := s.found(menucheck.Heat); len(got) != 1 || math.Abs(got[0]-0.01) > 1e-9 {
		t.Errorf("0.01 MJ of no day: %v", got)
	}
}

// TestWaterOfSoakedOats: 100 g of rolled oats take 590 mL by themselves and 300 mL soaked
// (preparation.csv, dish_parts.csv); instant oats 430 mL, and in their place 300 × 430/590 =
// 218.6 mL. What is said of a day lies between; milk in cartons takes none, in either way.
func TestWaterOfSoakedOats(t *testing.T) {
	const dish = "soaked-oats-raisins"
	for _, c := range []struct {
		pack, dish  string
		least, most float64 // L for 100 g
	}{
		{"rolled-oats-510g-canister", dish, 0.3, 0.59}, {"rolled-oats-510g-canister", "", 0.59, 0.59}, {"rolled-oats-510g-canister", "no-such-dish", 0.59, 0.59},
		{"instant-oats", dish, 0.2186, 0.43}, {"instant-oats", "", 0.43, 0.43}, {"long-life-milk", dish, 0, 0}, {rice, dish, -1, -1},
	} {
		s := newSmall(t, 1)
		var f *foods.Food
		for _, x := range s.table.Foods {
			switch {
			case c.pack == "instant-oats" && x.NDB == "08122", c.pack == "long-life-milk" && x.NDB == "01077":
				f = x
			}
		}
		if f == nil {
			f = s.food(c.pack)
		}
		if c.least < 0 { // what is no part of the dish takes what it takes by itself
			c.least = f.Preparation.WaterML / 1000
			c.most = c.least
		}
		for _, say := range []float64{c.least - 0.002, c.least, c.most, c.most + 0.002} {
			s.days[0]["meals"] = []any{}
			s.meal(1, "breakfast", 8, nil, nil, map[string]any{"food": f.Name, "dish": c.dish, "grams": 100.0})
			s.plan.People[0].Foods = []ration.PersonFood{{Food: f.Name, Grams: 100}}
			s.days[0]["water_l"], s.more["water_l"] = say, say
			want := 0
			if say < c.least-0.001 || say > c.most+0.001 {
				want = 1
			}
			if got := s.found(menucheck.Water); len(got) != want {
				t.Errorf("100 g of %s in %q with %g L: %v, want %d", f.Name, c.dish, say, got, want)
			}
		}
	}
}

// TestNoSpareWaterForOthers: two litres that are stored beyond all needs may go into food where
// they are kept for people alone: not where some is kept for pets, heat or illness, or for who
// is not fed, and not where no plan says how much there is.
func TestNoSpareWaterForOthers(t *testing.T) {
	for name, c := range map[string]struct {
		ask  func(*ration.Request)
		plan func(*ration.Plan)
		want int
	}{
		"people alone":  {want: 0},
		"pets":          {ask: func(r *ration.Request) { r.Pets = 1 }, want: 1},
		"heat":          {ask: func(r *ration.Request) { r.Hot = true }, want: 1},
		"illness":       {ask: func(r *ration.Request) { r.Ill = []string{"A"} }, want: 1},
		"not fed":       {plan: func(p *ration.Plan) { p.Refused = []ration.Refused{{Name: "C"}} }, want: 1},
		"no totals":     {plan: func(p *ration.Plan) { p.Totals = nil }, want: 1},
		"usual washing": {ask: func(r *ration.Request) { r.WashingL = nil }, plan: func(p *ration.Plan) { p.Totals.WaterL += stores.HygieneL().Value - 1 - 0.2 }, want: 1},
		"as much of it": {ask: func(r *ration.Request) { r.WashingL = nil }, plan: func(p *ration.Plan) { p.Totals.WaterL += stores.HygieneL().Value - 1 }, want: 0},
		"drinking":      {plan: func(p *ration.Plan) { p.People[0].DrinkLPerDay = 1 }, want: 1},
	} {
		s := newSmall(t, 1)
		s.ask = c.ask
		f := s.food(rice)
		takes := 10 * f.Preparation.WaterML / 1000 // of a kilogram
		s.plan.People[0].Foods = []ration.PersonFood{{Food: f.Name, Grams: 1000}}
		s.plan.Totals.WaterL = 1.1*takes + 1.1*2 + 1
		if c.plan != nil {
			c.plan(s.plan)
		}
		s.meal(1, "midday", 12, nil, nil, s.eats(rice, 1000*(takes+1.9)/takes, ""))
		s.days[0]["water_l"], s.more["water_l"] = takes+1.9, takes+1.9
		if got := s.found(menucheck.Water); len(got) != c.want {
			t.Errorf("%s: %v, want %d", name, got, c.want)
		}
	}
}

// TestWaterOfTheMenu: the days together take what the menu says, to a thousandth of a litre, and
// two people of a row, or two foods, twice as much as one.
func TestWaterOfTheMenu(t *testing.T) {
	for _, c := range []struct {
		day, menu float64 // L, of two foods of 100 g for two people: 4 × 100 g
		want      int
	}{{0, 0, 0}, {0, 0.0009, 0}, {0, 0.002, 1}, {0, -0.002, 1}, {0.002, 0.002, 1}, {-0.002, -0.002, 1}} {
		s := newSmall(t, 1)
		s.plan.People[0].Count = 2
		takes := 4 * s.food(rice).Preparation.WaterML / 1000
		s.meal(1, "midday", 13, nil, nil, s.eats(rice, 100, ""), s.eats(rice, 100, ""))
		people := s.days[0]["meals"].([]any)[0].(map[string]any)["people"].([]any)[0].(map[string]any)
		people["count"] = 2
		s.plan.People[0].Foods = []ration.PersonFood{{Food: s.food(rice).Name, Grams: 200}}
		s.days[0]["water_l"], s.more["water_l"] = takes+c.day, takes+c.menu
		if got := s.found(menucheck.Water); len(got) != c.want {
			t.Errorf("%+g L on the day, %+g L in the menu: %v, want %d", c.day, c.menu, got, c.want)
		}
	}
}

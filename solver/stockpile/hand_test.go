package stockpile

import (
	"errors"
	"math"
	"slices"
	"testing"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/rules"
)

// byHand is a request and a plan of it that nobody searched for: three people and two pets for ten
// days, two packs of rice bought and one from stock, 61 L of water, of which 8 are on hand, 6 MJ.
func byHand(t *testing.T) (*ration.Request, *ration.Plan) {
	t.Helper()
	signe, odd := rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Odd", 40, nutrients.Male)
	odd.Count = 2
	req := rationtest.Request(t, signe, odd)
	req.Days, req.Start, req.Pets, req.Stove, req.Demo = 10, "2026-11-25", 2, "canister-230", ration.Demo{Prices: true}
	pack := ration.FindPack(req, "white-rice-907g-bag")
	value := 12.5
	plan := &ration.Plan{
		Notice: "a word", Least: ration.LeastVolume, Value: &value, Days: 10,
		Totals: &ration.Totals{WaterL: 61, OwnWaterL: 8, HeatMJ: 6, OwnHeatMJ: 1, Currency: "TSD"},
		Packs:  []ration.PlanPack{{Pack: pack.Key, Food: pack.Food.Name, Count: 3, FromStock: 1}},
		People: []ration.PlanPerson{{Name: "Signe", Count: 1, DrinkLPerDay: 1.5}, {Name: "Odd", Count: 2, DrinkLPerDay: 2}},
	}
	return req, plan
}

// TestStoreByHand: what stands beside the food of a plan: the water, heat and space of its figures,
// with packs of the sizes of the tables; fuel for the heat that is not on hand on the stove that is
// asked for; the supplies for these people, days and pets.
func TestStoreByHand(t *testing.T) {
	req, plan := byHand(t)
	high := StockpileOptions{AltitudeM: 2500, DeviceUsers: 1}
	s, err := Of(req, plan, high)
	if err != nil {
		t.Fatal(err)
	}
	if s.Days != 10 || s.Heads != 3 || s.Pets != 2 || s.Start != "2026-11-25" || s.Least != ration.LeastVolume || *s.Value != 12.5 || s.Currency != "TSD" || !s.Demo.Prices || s.Notice != "a word" {
		t.Errorf("head %+v", s)
	}
	pack := ration.FindPack(req, "white-rice-907g-bag")
	box := s.Water.Containers[0].Container
	stove, err := stores.StoveByName("canister-230")
	if err != nil {
		t.Fatal(err)
	}
	containers := int(math.Ceil(61 * 1000 / box.NetML))
	// 5 MJ are not on hand.
	cans := int(math.Ceil(math.Max(5/(stove.EnergyMJ*stove.EffLow), 5*s.Heat.Fuels[0].Reserve/(stove.EnergyMJ*stove.EffTyp)) - 1e-9))
	rice, water, fuel := stores.LoadOfPack(pack, 3), stores.LoadOfContainer(box, containers), stores.LoadOfFuel(stove, cans)
	kg := map[string]float64{"food": 3 * pack.GrossG / 1000, "water": float64(containers) * box.GrossG() / 1000, "fuel": float64(cans) * stove.GrossG / 1000}
	litres := map[string]float64{"food": rice.BoxL(), "water": water.BoxL(), "fuel": fuel.BoxL()}
	packs := map[string]int{"food": 3, "water": containers, "fuel": cans}
	for _, part := range []string{"food", "water", "fuel"} {
		kg["all"], litres["all"], packs["all"] = kg["all"]+kg[part], litres["all"]+litres[part], packs["all"]+packs[part]
	}
	if len(s.Space) != 4 {
		t.Fatalf("space %+v", s.Space)
	}
	for _, line := range s.Space {
		if line.Packs != packs[line.What] || math.Abs(line.Kg-kg[line.What]) > 1e-9 || math.Abs(line.BoxL-litres[line.What]) > 1e-9 || line.Packs == 0 {
			t.Errorf("%s: %+v, want %d packs of %g kg and %g L", line.What, line, packs[line.What], kg[line.What], litres[line.What])
		}
	}
	if s.Heat.UsefulMJ != 6 || s.Heat.OnHandMJ != 1 || math.Abs(s.Heat.PerDayMJ-0.6) > 1e-12 || s.Heat.Stove != "canister-230" || s.Heat.Fuels[0].Stove.Name != "canister-230" ||
		s.Heat.Fuels[0].Packs != cans || s.Heat.Cook != ration.CookBoil || s.Heat.DaysWithout != nil || len(s.Heat.Rules) != 3 {
		t.Errorf("heat %+v", s.Heat)
	}
	if s.Boil.Minutes != 3 { // CDC: one minute, three above 2000 m
		t.Errorf("boil %+v", s.Boil)
	}
	if low, err := Of(req, plan, StockpileOptions{}); err != nil || low.Boil.Minutes != 1 {
		t.Errorf("by the sea boil %+v, %v", low.Boil, err)
	}
	if s.PetNeeds == nil || s.PetNeeds.FoodDays != 10 || s.PetNeeds.WaterL != 20*s.PetNeeds.Water.RecommendedL || s.PetNeeds.Water.RecommendedL < 3.785 {
		t.Errorf("pets %+v", s.PetNeeds)
	}
	fuelLines := 0
	kit := stores.Kit(stores.KitInput{People: ration.Filled(req).People, Days: 10, Pets: 2, DeviceUsers: 1})
	medicines, rest := stores.Medicines(kit)
	if len(s.Kit) != len(rest) || len(s.Medicines) != len(medicines) {
		t.Errorf("%d supplies and %d medicines, want %d and %d", len(s.Kit), len(s.Medicines), len(rest), len(medicines))
	}
	for i, line := range s.Kit {
		want := rest[i]
		if line.ID == stores.KitFuel {
			fuelLines++
			want.Quantity, want.Unit = cans, stove.Pack
			if line.Rule != "computed from the plan: see heat and fuel" {
				t.Errorf("fuel by %q", line.Rule)
			}
		}
		if line.ID != want.ID || line.Quantity != want.Quantity || line.Unit != want.Unit {
			t.Errorf("%+v, want %+v", line, want)
		}
	}
	if fuelLines != 1 {
		t.Errorf("%d lines of fuel", fuelLines)
	}
	if s.Shelves != nil {
		t.Errorf("shelves %+v, but there are none", s.Shelves)
	}
	for _, c := range []struct {
		name   string
		change func(*ration.Request, *ration.Plan, *StockpileOptions)
		check  func(*Stockpile) bool
	}{
		{"another stove", func(_ *ration.Request, _ *ration.Plan, o *StockpileOptions) { o.Stove = "kerosene" },
			func(s *Stockpile) bool { return s.Heat.Stove == "kerosene" && s.Heat.Fuels[0].Stove.Name == "kerosene" }},
		{"no heat", func(_ *ration.Request, p *ration.Plan, _ *StockpileOptions) {
			p.Totals.HeatMJ, p.Totals.OwnHeatMJ = 0, 0
		},
			func(s *Stockpile) bool {
				cold := !slices.ContainsFunc(s.Kit, func(l stores.KitLine) bool { return l.ID == stores.KitFuel })
				return cold && s.Heat.Fuels[0].PackDays == nil && s.Space[2].Packs == 0 && s.Space[3].Packs == s.Space[0].Packs+s.Space[1].Packs
			}},
		{"no pets", func(r *ration.Request, _ *ration.Plan, _ *StockpileOptions) { r.Pets = 0 }, func(s *Stockpile) bool { return s.PetNeeds == nil && s.Pets == 0 }},
		{"no water", func(_ *ration.Request, p *ration.Plan, _ *StockpileOptions) { p.Totals.WaterL = 0 },
			func(s *Stockpile) bool {
				return s.Space[1].Packs == 0 && s.Space[0].Packs == 3 && s.Water.PlanCount == 0
			}},
		{"shelves asked for", func(_ *ration.Request, _ *ration.Plan, o *StockpileOptions) {
			o.Shelves = []stores.Shelf{{Name: "board", WidthCm: 300, DepthCm: 60, HeightCm: 60, LoadKg: 500}}
		}, func(s *Stockpile) bool {
			return s.Shelves != nil && s.Shelves.Stands && len(s.Shelves.Loads) == 2 && len(s.Shelves.Left) == 0
		}},
		{"a shelf too weak", func(r *ration.Request, _ *ration.Plan, _ *StockpileOptions) {
			r.Shelves = []stores.Shelf{{Name: "board", WidthCm: 300, DepthCm: 60, HeightCm: 60, LoadKg: 5}}
		}, func(s *Stockpile) bool { return s.Shelves != nil && !s.Shelves.Stands && len(s.Shelves.Left) > 0 }},
		{"shelves of the plan", func(r *ration.Request, p *ration.Plan, _ *StockpileOptions) {
			r.Shelves = []stores.Shelf{{Name: "board", WidthCm: 300, DepthCm: 60, HeightCm: 60, LoadKg: 500}}
			p.Request, p.Shelves = &ration.RequestRecord{Shelves: r.Shelves}, &ration.ShelfFit{Replanned: 7}
		}, func(s *Stockpile) bool { return s.Shelves != nil && s.Shelves.Replanned == 7 }},
	} {
		req, plan := byHand(t)
		opt := StockpileOptions{}
		c.change(req, plan, &opt)
		if s, err := Of(req, plan, opt); err != nil || !c.check(s) {
			t.Errorf("%s: %+v, %v", c.name, s, err)
		}
	}
	for name, change := range map[string]func(*ration.Request, *ration.Plan, *StockpileOptions){
		"a stove that there is not": func(_ *ration.Request, _ *ration.Plan, o *StockpileOptions) { o.Stove = "moonlight" },
		"one of the request":        func(r *ration.Request, _ *ration.Plan, _ *StockpileOptions) { r.Stove = "moonlight" },
		"no day":                    func(r *ration.Request, _ *ration.Plan, _ *StockpileOptions) { r.Start = "tomorrow" },
		"no ration":                 func(_ *ration.Request, p *ration.Plan, _ *StockpileOptions) { p.Totals = nil },
	} {
		req, plan := byHand(t)
		opt := StockpileOptions{}
		change(req, plan, &opt)
		if _, err := Of(req, plan, opt); err == nil || name == "no ration" && !errors.Is(err, ration.ErrNoRation) || name == "no day" && !errors.Is(err, stores.ErrDay) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestCautionsOfAStore: of water always; of the stove where something is heated, of illness where
// somebody is ill.
func TestCautionsOfAStore(t *testing.T) {
	texts := func(change func(*ration.Request, *ration.Plan)) (ids []string) {
		req, plan := byHand(t)
		change(req, plan)
		s, err := Of(req, plan, StockpileOptions{})
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range s.Cautions {
			ids = append(ids, c.ID)
		}
		return ids
	}
	want := func(stoves []string, tags ...stores.Tag) (ids []string) {
		req, _ := byHand(t)
		for _, c := range rules.CautionsOf(stores.Situation{People: ration.Filled(req).People, Pets: 2, Stoves: stoves,
			Tags: append([]stores.Tag{stores.AnyWater, stores.DoubtfulWater, stores.Bleach, stores.Sanitation}, tags...)}) {
			ids = append(ids, c.ID)
		}
		return ids
	}
	warm, cold := texts(func(*ration.Request, *ration.Plan) {}), texts(func(_ *ration.Request, p *ration.Plan) { p.Totals.HeatMJ = 0 })
	ill := texts(func(r *ration.Request, p *ration.Plan) { r.Ill, p.Totals.HeatMJ = []string{"Signe"}, 0 })
	if !slices.Equal(warm, want([]string{"canister-230"})) || !slices.Equal(cold, want(nil)) || !slices.Equal(ill, want(nil, stores.Illness)) {
		t.Errorf("with a flame %v, cold %v, with illness %v", warm, cold, ill)
	}
	if len(warm) <= len(cold) || len(ill) <= len(cold) || len(cold) == 0 {
		t.Errorf("%d with a flame, %d cold, %d with illness: the test shows nothing", len(warm), len(cold), len(ill))
	}
}

// TestHeatOnHandInDays: 6 MJ in ten days; of what is on hand whole days are heated, and the others are
// without; none is without where nothing is heated.
func TestHeatOnHandInDays(t *testing.T) {
	for _, c := range []struct {
		have, heat float64
		want       int // -1: not said
	}{{0, 6, 10}, {0.59, 6, 10}, {0.6, 6, 9}, {1.19, 6, 9}, {1.8, 6, 7}, {5.9, 6, 1}, {6, 6, 0}, {60, 6, 0}, {3, 0, -1}} {
		req := &ration.Request{Days: 10, Stove: stores.UsualStove, Cook: ration.CookBoil, StockHeatMJ: &c.have}
		h, err := storedHeat(req, &ration.Plan{Totals: &ration.Totals{HeatMJ: c.heat}}, "")
		if err != nil || (h.DaysWithout == nil) != (c.want < 0) || h.DaysWithout != nil && *h.DaysWithout != c.want {
			t.Errorf("%g MJ of %g: %v days without, want %d, %v", c.have, c.heat, h.DaysWithout, c.want, err)
		}
	}
}

// TestShortOfWater: where nothing comes to what is on hand, what is missing is said; not where it
// suffices or where nothing is known of it.
func TestShortOfWater(t *testing.T) {
	for _, c := range []struct {
		have  *float64
		short bool
	}{{nil, false}, {new(float64), true}, {amountOf(1e4), false}, {amountOf(20), true}} {
		req, plan := byHand(t)
		req.StockWaterL = c.have
		s, err := Of(req, plan, StockpileOptions{})
		if err != nil || (s.Water.Short != nil) != c.short {
			t.Errorf("%v on hand: %+v, %v", c.have, s.Water.Short, err)
		}
	}
	if day, err := monthsAfter("2026-08-31", 18); err != nil || day != "2028-03-02" { // the 31st of a February of 29 days
		t.Errorf("18 months later is %s, %v", day, err)
	}
	if day, err := monthsAfter("", 18); day != "" || err != nil {
		t.Errorf("of no day %s, %v", day, err)
	}
	if _, err := monthsAfter("x", 18); !errors.Is(err, stores.ErrDay) {
		t.Errorf("of what is no day: %v", err)
	}
}

func amountOf(v float64) *float64 { return &v }

// TestNeverRulesSay: each water that nothing makes safe, or an agent that does not, is named with why.
func TestNeverRulesSay(t *testing.T) {
	list := NeverRules()
	if len(list) == 0 || len(list) != len(stores.NeverDrink()) {
		t.Fatalf("%d rules of %d", len(list), len(stores.NeverDrink()))
	}
	for i, d := range stores.NeverDrink() {
		what := d.Condition
		if what == "any" {
			what = d.Agent
		}
		if list[i].What != what || list[i].What == "any" || list[i].Why != d.Dose || list[i].Source != d.Source {
			t.Errorf("%+v of %+v", list[i], d)
		}
	}
}

// TestRotationByHand: of the plan two packs of rice are bought on the day of start and one keeps its
// date from the stock, water is filled for what is not on hand, in whole containers; of a stock all
// lines and goods stand as they are. Prices come with their currency, losses of the plan with it.
func TestRotationByHand(t *testing.T) {
	req, plan := byHand(t)
	pack := ration.FindPack(req, "white-rice-907g-bag")
	req.Stock = []foods.StockLine{{Pack: pack, Count: 1, BestBefore: "2027-02-28"}}
	plan.Packs = append(plan.Packs, ration.PlanPack{Pack: "moon", Count: 3}, ration.PlanPack{Pack: pack.Key, Count: 4, FromStock: 4})
	in := RotationInput{Plan: plan, Req: req, Start: "2026-11-25", TempC: UsualStoreC, Months: 6}
	r, err := RotationOf(in)
	if err != nil {
		t.Fatal(err)
	}
	if r.Start != "2026-11-25" || r.TempC != 21 || r.Months != 6 || r.Factor != 1 || r.Notice != "a word" || r.Currency != pack.Currency || pack.Currency == "" {
		t.Errorf("%+v", r)
	}
	container := stores.PlanContainer(nil)
	wantL := math.Ceil((61-8)*1000/container.NetML) * container.NetML / 1000
	rice, dated, water, other := 0.0, 0.0, 0.0, 0
	for _, a := range r.Actions {
		switch {
		case a.Pack == pack.Key && a.By <= "2027-02-28":
			dated += a.Count
			rice += a.Count
		case a.Pack == pack.Key:
			rice += a.Count
		case a.Pack == "water-home-filled":
			if water += a.Count; a.By[:9] != "2027-05-2" { // six months (CDC), 25 May or a day later by their length in days
				t.Errorf("water is renewed by %s", a.By)
			}
		case a.Pack == "water-allowance":
			t.Errorf("%+v", a)
		default:
			other++
		}
	}
	if rice != 3 || dated != 1 || water != wantL || other == 0 {
		t.Errorf("%g of rice, %g by its date, %g L of water, %d of the kit, want 3, 1 and %g L", rice, dated, water, other, wantL)
	}
	line := r.Programme.Lines[0]
	if len(r.Programme.Lines) != 1 || line.Pack != pack.Key || line.Target != 7 { // 3 and 4 of the plan's lines
		t.Errorf("%+v", r.Programme.Lines)
	}
	if len(r.Followed) != 1 || r.Followed[0].Pack != pack.Key || r.Followed[0].Months != 60 || r.Followed[0].Target != 7 || r.Followed[0].Least < 7 || r.Followed[0].Wasted != 0 {
		t.Errorf("%+v", r.Followed)
	}
	s, err := stores.Simulate(&line, in.Start, 60)
	if err != nil {
		t.Fatal(err)
	}
	if f := r.Followed[0]; f.Bought != s.Bought || f.Eaten != s.Eaten || f.Tight != s.Tight || f.Least != s.Least || f.Cost != s.Cost || s.Bought <= 0 || s.Eaten <= 0 || math.Abs(f.Cost-float64(f.Bought)*pack.Price) > 1e-6 {
		t.Errorf("%+v, want %+v", f, s)
	}
	// The older allowance is renewed every three months.
	req.Allowance = true
	if r, err = RotationOf(in); err != nil || !slices.ContainsFunc(r.Actions, func(a stores.Action) bool {
		return a.Pack == "water-allowance" && a.By[:9] == "2027-02-2" && a.Count == wantL
	}) {
		t.Errorf("the usual allowance: %+v, %v", r.Actions, err)
	}
	plan.Totals.WaterL = 8 // all on hand
	if r, err = RotationOf(in); err != nil || slices.ContainsFunc(r.Actions, func(a stores.Action) bool { return a.Pack == "water-allowance" || a.Pack == "water-home-filled" }) {
		t.Errorf("all the water on hand: %+v, %v", r.Actions, err)
	}
	for name, change := range map[string]func(*RotationInput){
		"too hot":   func(in *RotationInput) { in.TempC = 99 },
		"no day":    func(in *RotationInput) { in.Start = "tomorrow" },
		"no ration": func(in *RotationInput) { in.Plan = &ration.Plan{} },
		"no stove":  func(in *RotationInput) { r := *in.Req; r.Stove = "moonlight"; in.Req = &r },
	} {
		bad := in
		change(&bad)
		if _, err := RotationOf(bad); err == nil || name == "too hot" && !errors.Is(err, stores.ErrTooHot) || name == "no day" && !errors.Is(err, stores.ErrDay) || name == "no ration" && !errors.Is(err, ration.ErrNoRation) {
			t.Errorf("%s: %v", name, err)
		}
	}
	// A stock with goods, and an open pack that is held for nobody.
	stock := rationtest.StockOf(t, req.Table, pack.Key+",2,2027-06-30,,,", pack.Key+",1,,2026-11-24,,", "water-home-filled,20,,,,")
	if r, err = RotationOf(RotationInput{Stock: stock, Start: "2026-11-25", TempC: HotStoreC, Months: 6}); err != nil {
		t.Fatal(err)
	}
	if r.Factor >= 1 || r.Notice != "" || r.Programme.Lines[0].Target != 2 || r.Currency != pack.Currency {
		t.Errorf("a stock: %+v", r)
	}
	count := map[string]float64{}
	for _, a := range r.Actions {
		count[a.Pack] += a.Count
	}
	if count[pack.Key] != 3 || count["water-home-filled"] != 20 {
		t.Errorf("of the stock %v", count)
	}
}

// TestWaterIsRenewed: water that one filled oneself is renewed every six months (CDC), the older
// allowance every three, what was bought by its own date: within a year and a half of the start, and
// without a start on no day.
func TestWaterIsRenewed(t *testing.T) {
	req, plan := byHand(t)
	s, err := Of(req, plan, StockpileOptions{})
	if err != nil {
		t.Fatal(err)
	}
	least := map[string]int{"water-home-filled": 2, "water-allowance": 5, "water-bottled": 0}
	first := map[string]string{"water-home-filled": "2027-05-2", "water-allowance": "2027-02-2"}
	if len(s.Water.Renew) != len(least) {
		t.Errorf("%+v", s.Water.Renew)
	}
	for _, r := range s.Water.Renew {
		if n := len(r.Dates); n < least[r.Key] || n > least[r.Key]+1 || n > 0 && r.Dates[0][:9] != first[r.Key] || n > 0 && least[r.Key] == 0 {
			t.Errorf("%s on %v", r.Key, r.Dates)
		}
	}
	if len(s.Never) == 0 || len(s.Never) != len(NeverRules()) || len(s.Treat) == 0 {
		t.Errorf("%d rules of what is never drunk, %d ways to treat", len(s.Never), len(s.Treat))
	}
	req.Start = ""
	if s, err = Of(req, plan, StockpileOptions{}); err != nil || slices.ContainsFunc(s.Water.Renew, func(r Renewing) bool { return len(r.Dates) > 0 }) {
		t.Errorf("without a start %+v, %v", s.Water.Renew, err)
	}
	r, err := RotationOf(RotationInput{Plan: plan, Req: req, Start: "2026-11-25", TempC: UsualStoreC, Months: 6})
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range r.Actions {
		if a.Pack == "water-home-filled" && a.Unit != "L" {
			t.Errorf("water in %q", a.Unit)
		}
	}
}

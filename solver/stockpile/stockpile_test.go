package stockpile

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/answer"
	"rationwright/solver/model"
	"rationwright/solver/plantest"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/rules"
	"rationwright/solver/search"
)

// recomputed is the water and the heat of a plan by arithmetic of its own, from
// the packs' foods as the table describes their preparation, and the published
// figures written out here:
//
//   - a tenth on top of drinking and cooking for spills (common practice, no
//     source), a litre a head and day for hands and dishes (the same);
//   - a US gallon, 3.785411784 L, a pet and day (CDC, Creating and Storing an
//     Emergency Water Supply);
//   - at least 3 quarts a day, printed as 2.839 L, for the pregnant and, infants
//     apart, in the heat, and 4, 3.785 L, for the sick (CDC, emergency water
//     supplies, 2009).
func recomputed(req *ration.Request, p *ration.Plan) (waterL, heatMJ float64) {
	days := float64(p.Days)
	food := map[string]*foods.Food{}
	for _, f := range req.Table.Foods {
		food[f.Name] = f
	}
	person := map[string]nutrients.Person{}
	for _, who := range req.People {
		person[who.Name] = who
	}
	for _, e := range p.People {
		who, n := person[e.Name], float64(e.Count)
		kept := e.DrinkLPerDay
		if who.AgeMonths >= 6 {
			if who.Pregnant() || req.Hot && who.AgeMonths >= 12 {
				kept = math.Max(kept, 2.839)
			}
			for _, ill := range req.Ill {
				if ill == e.Name {
					kept = math.Max(kept, 3.785)
				}
			}
		}
		waterL += n * days * (1.1*kept + 1)
		for _, line := range e.Foods {
			f := food[line.Food]
			grams := line.Grams
			if f.HasTag("infant-formula") {
				grams *= 1.1 // a tenth of the feeds is discarded (common practice, no source)
			}
			if f.Preparation == nil {
				continue
			}
			waterL += 1.1 * n * grams * f.Preparation.WaterML / 100 / 1000
			hot := map[string]int{"none": 0, "warm": 1, "boil": 2, "simmer": 3}
			cook := string(req.Cook)
			if cook == "" {
				cook = "boil"
			}
			if f.Preparation.ColdOK && hot[f.Preparation.Class] > hot[cook] {
				continue // eaten cold
			}
			heatMJ += n * grams * f.Preparation.HeatMJ / 100
		}
		if req.BoilWater {
			heatMJ += n * days * e.DrinkLPerDay * 0.36 // MJ a litre, fuel_rules.csv
		}
	}
	return waterL + float64(req.Pets)*days*3.785411784, heatMJ
}

func TestWaterAndHeatOfAPlan(t *testing.T) {
	pregnant := rationtest.Adult("Ragna", 29, nutrients.Female)
	pregnant.State = nutrients.Pregnant2
	for _, c := range []struct {
		name string
		req  func() *ration.Request
	}{
		{"a woman", func() *ration.Request { return rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female)) }},
		{"by every need", func() *ration.Request { return rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female)) }},
		{"two alike, pets, heat", func() *ration.Request {
			r := rationtest.Basics(t, rationtest.Adult("Leif", 44, nutrients.Male), nutrients.Person{Name: "Ylva", AgeMonths: 30, Sex: nutrients.Female, Activity: nutrients.LowActive, Count: 2})
			r.Pets, r.Hot = 3, true
			return r
		}},
		{"pregnant and ill", func() *ration.Request {
			r := rationtest.Basics(t, pregnant, rationtest.Adult("Leif", 44, nutrients.Male))
			r.Ill = []string{"Leif"}
			return r
		}},
		{"formula under six months", func() *ration.Request {
			return rationtest.Basics(t, rationtest.Infant("Tor", 3, 6.2, nutrients.FormulaFed))
		}},
		{"an ill infant of eight months", func() *ration.Request {
			r := rationtest.Basics(t, rationtest.Infant("Tor", 8, 8.4, nutrients.FormulaFed))
			r.Ill = []string{"Tor"}
			return r
		}},
		{"nothing heated", func() *ration.Request {
			r := rationtest.Basics(t, rationtest.Adult("Leif", 44, nutrients.Male))
			r.Cook = ration.CookNone
			return r
		}},
		{"boiled water, least cost", func() *ration.Request {
			r := rationtest.Basics(t, rationtest.Adult("Leif", 44, nutrients.Male))
			r.BoilWater, r.Least, r.Cook = true, ration.LeastCost, ration.CookSimmer
			return r
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			req := c.req()
			p := plantest.MustMake(t, req)
			if p.Totals == nil {
				t.Fatalf("status %s, %v", p.Status, p.Conflict)
			}
			water, heat := recomputed(req, p)
			if !rationtest.Near1(p.Totals.WaterL, water) || !rationtest.Near1(p.Totals.HeatMJ, heat) {
				t.Errorf("the plan says %g L and %g MJ, its foods %g L and %g MJ", p.Totals.WaterL, p.Totals.HeatMJ, water, heat)
			}
			need := stores.ComputeWater(WaterInputOf(req, p))
			if !rationtest.Near1(need.Litres, water) {
				t.Errorf("stores computes %g L, the plan's foods take %g", need.Litres, water)
			}
			s, err := Of(req, p, StockpileOptions{AltitudeM: math.NaN()})
			if err != nil {
				t.Fatal(err)
			}
			if s.Water.Recommended < water-1e-6 || !rationtest.Near1(s.Water.Recommended, p.Totals.WaterL) {
				t.Errorf("recommends %g L of %g L computed, where the plan counts %g", s.Water.Recommended, water, p.Totals.WaterL)
			}
			for _, choice := range s.Water.Containers {
				if float64(choice.Count)*choice.Container.NetML/1000 < s.Water.Recommended-0.001*float64(choice.Count) {
					t.Errorf("%d of %s do not hold %g L", choice.Count, choice.Container.Key, s.Water.Recommended)
				}
			}
			fuel := s.Heat.Fuels[0]
			if useful := float64(fuel.Packs) * 10.37 * 0.40; fuel.Stove.Name != "butane-cartridge" || useful < heat-1e-9 {
				t.Errorf("%d cartridges of 10.37 MJ at 0.40 (fuel.csv) give %g MJ of %g", fuel.Packs, useful, heat)
			}
		})
	}
}

// Whoever a clinician must plan for still has the water that they need, all of
// it to drink, as no food is known to bring any.
func TestRefusedHaveWater(t *testing.T) {
	sick := rationtest.Adult("Bodil", 60, nutrients.Female)
	sick.Conditions = []nutrients.Condition{nutrients.KidneyDisease}
	req := rationtest.Basics(t, rationtest.Adult("Leif", 44, nutrients.Male), sick)
	p := plantest.MustMake(t, req)
	water, _ := recomputed(req, p)
	water += 14 * (1.1*2.7 + 1) // AI of a woman, IOM DRI for water (2005); a litre to wash
	if !rationtest.Near1(p.Totals.WaterL, water) || !rationtest.Near1(stores.ComputeWater(WaterInputOf(req, p)).Litres, water) {
		t.Errorf("%g L stored, %g computed, want %g with hers", p.Totals.WaterL, stores.ComputeWater(WaterInputOf(req, p)).Litres, water)
	}
}

// moisture is the litres of water that the food of a plan brings along, and the
// grams of food that is dry: under 15 g of water in 100 g.
func moisture(req *ration.Request, p *ration.Plan) (litres, dryG float64) {
	for _, e := range p.People {
		for _, line := range e.Foods {
			f := rules.FoodNamed(req.Table, line.Food)
			water := f.Per100g.Known(nutrients.Water)
			litres += float64(e.Count) * line.Grams * water / 100 / 1000
			if water < 15 {
				dryG += float64(e.Count) * line.Grams
			}
		}
	}
	return litres, dryG
}

// When water is scarce or dear, the food brings more of it: dry food needs
// water, canned food has it.
func TestWaterTradeOff(t *testing.T) {
	t.Run("scarce", func(t *testing.T) {
		req := rationtest.Basics(t, rationtest.Adult("Leif", 44, nutrients.Male))
		req.Least = ration.LeastCost
		free := plantest.MustMake(t, req)
		l0, dry0 := moisture(req, free)
		most := 0.8 * free.Totals.WaterL
		req.Limits.WaterL = &most
		scarce := plantest.MustMake(t, req)
		if scarce.Totals == nil {
			t.Fatalf("nothing fits: %v", scarce.Conflict)
		}
		l1, dry1 := moisture(req, scarce)
		if scarce.Totals.WaterL > most*(1+1e-6) || l1 < l0+0.1*free.Totals.WaterL || dry1 >= dry0 {
			t.Errorf("stored %.1f L of at most %.1f, food brings %.1f L where it brought %.1f, and %.0f g of it is dry instead of %.0f",
				scarce.Totals.WaterL, most, l1, l0, dry1, dry0)
		}
		if *scarce.Value < *free.Bound {
			t.Errorf("costs %g with a limit, under the bound %g without", *scarce.Value, *free.Bound)
		}
	})
	// A litre with its container weighs 1.06 kg and fills 1.32 L (packages.csv).
	// Were it next to nothing, the lightest and the smallest plan would be dry.
	for _, least := range []ration.Least{ration.LeastWeight, ration.LeastVolume} {
		t.Run("heavy, least "+string(least), func(t *testing.T) {
			req := rationtest.Basics(t, rationtest.Adult("Leif", 44, nutrients.Male))
			req.Least = least
			got := map[bool][2]float64{}
			for _, light := range []bool{true, false} {
				m, err := model.Build(req)
				if err != nil {
					t.Fatal(err)
				}
				if light {
					m.Supplies.Water = rules.Supply{WeightKg: 0.01, VolumeL: 0.01}
					m = model.AimedAtLimit(m, model.RowInfo{Total: least})
				}
				result := search.Solve(t.Context(), m, nil, nil)
				if result.X == nil {
					t.Fatal(result.Status, result.Why)
				}
				litres, dry := moisture(req, answer.Write(m, result.X))
				got[light] = [2]float64{litres, dry}
			}
			if light, real := got[true], got[false]; real[0] < light[0]+5 || real[1] > 0.9*light[1] {
				t.Errorf("food brings %.1f L and %.0f g of it is dry; were water light, %.1f L and %.0f g", real[0], real[1], light[0], light[1])
			}
		})
	}
	t.Run("dear", func(t *testing.T) {
		req := rationtest.Basics(t, rationtest.Adult("Leif", 44, nutrients.Male))
		req.Least, req.Cook = ration.LeastCost, ration.CookSimmer
		cheap := plantest.MustMake(t, req)
		l0, dry0 := moisture(req, cheap)
		req.Table = rationtest.Table(t)
		if _, err := req.Table.ReadPrices("prices.csv", strings.NewReader("pack,price\nwater,8\n")); err != nil {
			t.Fatal(err)
		}
		dear := plantest.MustMake(t, req)
		l1, dry1 := moisture(req, dear)
		if dear.Totals.WaterL >= cheap.Totals.WaterL || l1 <= l0 || dry1 >= dry0 {
			t.Errorf("at 8 a litre %.1f L are stored instead of %.1f, food brings %.1f L instead of %.1f and %.0f g of it is dry instead of %.0f",
				dear.Totals.WaterL, cheap.Totals.WaterL, l1, l0, dry1, dry0)
		}
		if want := dear.Totals.Food.Cost + 8*dear.Totals.WaterL + dear.Totals.HeatMJ*2.40/(10.37*0.40); !rationtest.Near1(dear.Totals.Cost, want) {
			t.Errorf("costs %g, want %g: food, 8 a litre, 2.40 for a cartridge of 10.37 MJ at 0.40", dear.Totals.Cost, want)
		}
	})
}

// The class of cooking is a limit: no food that needs more is in the plan, and
// where nothing is heated no heat is used.
func TestCookingActs(t *testing.T) {
	rank := map[string]int{"none": 0, "warm": 1, "boil": 2, "simmer": 3}
	for _, c := range []struct {
		cook  ration.Cook
		stove string
		most  string
	}{
		{ration.CookNone, "", "none"}, {ration.CookWarm, "", "warm"}, {ration.CookBoil, "", "boil"}, {ration.CookSimmer, "", "simmer"},
		{ration.CookSimmer, "wick-can", "warm"}, // fuel.csv: "keep warm only"
		{ration.CookSimmer, "hexamine", "boil"}, // "boil only"
	} {
		req := rationtest.Basics(t, rationtest.Adult("Leif", 44, nutrients.Male))
		req.Least, req.Cook, req.Stove = ration.LeastCost, c.cook, c.stove
		p := plantest.MustMake(t, req)
		if p.Totals == nil {
			t.Fatalf("%+v: nothing fits: %v", c, p.Conflict)
		}
		for _, line := range p.People[0].Foods {
			f := rules.FoodNamed(req.Table, line.Food)
			if prep := f.Preparation; prep != nil && !prep.ColdOK && rank[prep.Class] > rank[c.most] {
				t.Errorf("%+v: %s needs %s", c, f.Name, prep.Class)
			}
		}
		if p.Request.Options["cook"] != c.most {
			t.Errorf("%+v: recorded as %s, want %s", c, p.Request.Options["cook"], c.most)
		}
		if c.most == "none" && p.Totals.HeatMJ > 0 {
			t.Errorf("%g MJ where nothing is heated", p.Totals.HeatMJ)
		}
		if c.most == "simmer" && p.Totals.HeatMJ <= 0 {
			t.Error("the cheapest food of all takes no cooking: the test shows nothing")
		}
		pile, err := Of(req, p, StockpileOptions{AltitudeM: math.NaN()})
		if err != nil {
			t.Fatal(err)
		}
		if fuel := slices.ContainsFunc(pile.Kit, func(l stores.KitLine) bool { return l.ID == stores.KitFuel }); fuel != (p.Totals.HeatMJ > 0) {
			t.Errorf("%+v: %g MJ, fuel among the supplies %v", c, p.Totals.HeatMJ, fuel)
		}
	}
}

// --max-heat holds, and costs something.
func TestHeatLimitActs(t *testing.T) {
	req := rationtest.Basics(t, rationtest.Adult("Leif", 44, nutrients.Male))
	req.Least, req.Cook = ration.LeastCost, ration.CookSimmer
	all := 1e6 // under any limit what can be eaten cold is counted cold
	req.Limits.HeatMJ = &all
	free := plantest.MustMake(t, req)
	most := free.Totals.HeatMJ / 2
	req.Limits.HeatMJ = &most
	p := plantest.MustMake(t, req)
	if p.Totals.HeatMJ > most*(1+1e-6) || *p.Value < *free.Bound {
		t.Errorf("%g MJ of at most %g, value %g, bound under a limit that does not bind %g", p.Totals.HeatMJ, most, *p.Value, *free.Bound)
	}
}

// The fuel in the objective is that of the stove, at the low end of its
// efficiency, and the water that of 20 L containers. Figures from fuel.csv and
// packages.csv, written out.
func TestSuppliesOfAStove(t *testing.T) {
	req := rationtest.Basics(t, rationtest.Adult("Leif", 44, nutrients.Male))
	req.Least, req.Cook = ration.LeastCost, ration.CookSimmer
	for _, c := range []struct {
		stove                        string
		energyMJ, low, grossKg, boxL float64
	}{
		{"", 10.37, 0.40, 0.330, 0.068 * 0.068 * 0.190 * 1000},
		{"alcohol", 21.17, 0.35, 0.870, 0.085 * 0.085 * 0.240 * 1000},
		{"charcoal", 27, 0.08, 1.010, 0.160 * 0.120 * 0.150 * 1000},
	} {
		req.Stove = c.stove
		p := plantest.MustMake(t, req)
		packs := p.Totals.HeatMJ / (c.energyMJ * c.low)
		weight := p.Totals.Food.WeightKg + p.Totals.WaterL*(20+1.2)/20 + packs*c.grossKg
		volume := p.Totals.Food.VolumeL + p.Totals.WaterL*(0.345*0.165*0.465*1000)/20 + packs*c.boxL
		if !rationtest.Near1(p.Totals.WeightKg, weight) || !rationtest.Near1(p.Totals.VolumeL, volume) || packs <= 0 {
			t.Errorf("%s: %g kg and %g L, want %g and %g", c.stove, p.Totals.WeightKg, p.Totals.VolumeL, weight, volume)
		}
	}
	req.Stove = "gas range"
	if _, err := model.Build(req); !errors.Is(err, stores.ErrUnknownStove) {
		t.Errorf("stove %q: %v", req.Stove, err)
	}
}

// Heat doubles what everyone drinks; a pet takes a gallon a day and nothing
// else; the sick have 4 quarts.
func TestClimatePetsAndIllnessActs(t *testing.T) {
	who := rationtest.Adult("Leif", 44, nutrients.Male)
	make := func(change func(*ration.Request)) *ration.Plan {
		req := rationtest.Basics(t, who)
		change(req)
		return plantest.MustMake(t, req)
	}
	plain := make(func(*ration.Request) {})
	hot := make(func(r *ration.Request) { r.Hot = true })
	// AI of a man: 3.7 L of water a day (IOM DRI for water, 2005).
	for p, want := range map[*ration.Plan]float64{plain: 3.7, hot: 7.4} {
		if n := p.People[0].Need("water"); n == nil || n.Amount < want-1e-6 {
			t.Errorf("gets %+v of water, want %g L", n, want)
		}
	}
	// Of which at least 45 % is drunk, and stored with a tenth to spare.
	if least := 14 * (1.1*0.45*7.4 + 1); hot.Totals.WaterL < least-1e-6 || hot.Totals.WaterL <= plain.Totals.WaterL {
		t.Errorf("%g L in the heat, want at least %g; %g L without", hot.Totals.WaterL, least, plain.Totals.WaterL)
	}
	pets := make(func(r *ration.Request) { r.Pets = 2 })
	water, _ := recomputed(rationtest.Basics(t, who), pets)
	if more := pets.Totals.WaterL - water; !rationtest.Near1(more, 2*14*3.785411784) {
		t.Errorf("two pets take %g L more than the people", more)
	}
	ill := make(func(r *ration.Request) { r.Ill = []string{"Leif"} })
	if ill.Totals.WaterL < 14*(1.1*3.785+1)-1e-6 {
		t.Errorf("%g L with someone ill, want 4 quarts a day of it to drink", ill.Totals.WaterL)
	}
	if _, err := model.Build(&ration.Request{People: []nutrients.Person{who}, Table: rationtest.Table(t), Ill: []string{"Nobody"}}); !errors.Is(err, ration.ErrNobody) {
		t.Errorf("an unknown name among the ill: %v", err)
	}
}

func TestBoilingNeedsAStove(t *testing.T) {
	for _, change := range []func(*ration.Request){
		func(r *ration.Request) { r.Cook = ration.CookNone }, func(r *ration.Request) { r.Stove = "wick-can" },
	} {
		req := rationtest.Basics(t, rationtest.Adult("Leif", 44, nutrients.Male))
		req.BoilWater = true
		change(req)
		if _, err := model.Build(req); !errors.Is(err, ration.ErrNoBoiling) {
			t.Errorf("cook %q on %q: %v, want ErrNoBoiling", req.Cook, req.Stove, err)
		}
	}
}

package rules

import (
	"errors"
	"math"
	"testing"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// TestCookingByClass: what needs so much cooking is made where there is as much or more, or
// cold where it may be; it is eaten cold where there is less, or where heat is limited.
func TestCookingByClass(t *testing.T) {
	heat := 5.0
	for _, c := range []struct {
		class   string
		coldOK  bool
		cook    ration.Cook
		limited bool
		can     bool
		cold    bool
	}{
		{"none", false, ration.CookNone, false, true, false}, {"warm", false, ration.CookNone, false, false, false}, {"warm", true, ration.CookNone, false, true, true},
		{"warm", true, ration.CookWarm, false, true, false}, {"warm", true, ration.CookWarm, true, true, true}, {"boil", false, ration.CookWarm, false, false, false},
		{"boil", false, ration.CookBoil, false, true, false}, {"boil", false, ration.CookBoil, true, true, false}, {"simmer", false, ration.CookBoil, false, false, false},
		{"simmer", false, ration.CookSimmer, false, true, false}, {"boil", true, ration.CookSimmer, false, true, false},
	} {
		f := &foods.Food{Preparation: &foods.Preparation{Class: c.class, ColdOK: c.coldOK}}
		req := &ration.Request{Cook: c.cook}
		if c.limited {
			req.Limits.HeatMJ = &heat
		}
		if can, cold := CanCook(c.cook, f), EatenCold(req, f); can != c.can || cold != c.cold {
			t.Errorf("%+v: can %v, eaten cold %v", c, can, cold)
		}
	}
	if !CanCook(ration.CookNone, &foods.Food{}) {
		t.Error("what has no preparation cannot be eaten")
	}
	for cook, fails := range map[ration.Cook]bool{ration.CookNone: true, ration.CookWarm: true, ration.CookBoil: false, ration.CookSimmer: false} {
		if err := CheckBoiling(&ration.Request{BoilWater: true, Cook: cook}); errors.Is(err, ration.ErrNoBoiling) != fails {
			t.Errorf("boiled water with cooking %s: %v", cook, err)
		}
		if err := CheckBoiling(&ration.Request{Cook: cook}); err != nil {
			t.Errorf("no boiled water with cooking %s: %v", cook, err)
		}
	}
	// More cooking keeps the stove that serves it, and takes the usual one where it does not.
	for _, s := range stores.Stoves() {
		for _, cook := range []ration.Cook{ration.CookWarm, ration.CookBoil, ration.CookSimmer} {
			more := WithCooking(&ration.Request{Stove: s.Name, Cook: ration.CookNone}, cook)
			serves := ration.CookRank[s.MostCooking()] >= ration.CookRank[string(cook)]
			if more.Cook != cook || (more.Stove == s.Name) != (serves || s.Name == stores.UsualStove) {
				t.Errorf("%s to %s: %s on %s", s.Name, cook, more.Cook, more.Stove)
			}
		}
	}
}

// TestWeakHands: a household of older people only, from 65 on, with nobody from 14 to 64 who
// could open for them, has weak hands; children do not count.
func TestWeakHands(t *testing.T) {
	for _, c := range []struct {
		months []int
		want   bool
	}{{[]int{780}, true}, {[]int{779}, false}, {[]int{780, 900}, true}, {[]int{780, 167}, true}, {[]int{780, 168}, false}, {[]int{100}, false}, {nil, false}, {[]int{500, 780}, false}} {
		var people []nutrients.Person
		for _, m := range c.months {
			people = append(people, nutrients.Person{AgeMonths: m})
		}
		if got := OlderOnly(people); got != c.want {
			t.Errorf("of %v months: %v, want %v", c.months, got, c.want)
		}
	}
	easy, heavy := &foods.Pack{EasyOpen: true, GrossG: 400}, &foods.Pack{EasyOpen: true, GrossG: 1600}
	for _, only := range []bool{true, false} {
		req := &ration.Request{EasyOpen: only}
		if !CanOpen(req, easy) || CanOpen(req, heavy) == only || anyOpens(req, &foods.Food{Packs: []*foods.Pack{heavy}}) == only || !anyOpens(req, &foods.Food{Packs: []*foods.Pack{heavy, easy}}) {
			t.Errorf("easy packs only %v: the packs that open are others", only)
		}
	}
}

// TestGlycaemicBalance: with half of the grains of low glycaemic index at least, a serving
// of low index counts half and one of any other takes half away.
func TestGlycaemicBalance(t *testing.T) {
	grain := func(gi string, per100 float64) *foods.Food {
		return &foods.Food{GIClass: gi, Serves: []foods.Serving{{Group: "grains", Per100g: per100}}}
	}
	low, high := grain("low", 3), grain("high", 4)
	if got := LowGIWeight(low); math.Abs(got-0.015) > 1e-12 {
		t.Errorf("low: %g, want half of 0.03", got)
	}
	if got := LowGIWeight(high); math.Abs(got+0.02) > 1e-12 {
		t.Errorf("high: %g, want minus half of 0.04", got)
	}
	if AnyLowGI([]*foods.Food{high, grain("low", 0)}) || !AnyLowGI([]*foods.Food{high, low}) {
		t.Error("whether there is a grain of low index")
	}
	for _, c := range []nutrients.Condition{nutrients.Diabetes1, nutrients.Diabetes2, nutrients.Diabetes2Diet, nutrients.DiabetesPregnancy, nutrients.Coeliac, nutrients.Vegan} {
		if got, want := HasDiabetes(&nutrients.Person{Conditions: []nutrients.Condition{c}}), c != nutrients.Coeliac && c != nutrients.Vegan; got != want {
			t.Errorf("%s is diabetes: %v", c, got)
		}
	}
}

// TestContainersToTheLitre: containers that hold so much are as many as hold all, and not
// one more for the last digit of the arithmetic.
func TestContainersToTheLitre(t *testing.T) {
	c := &stores.Container{NetML: 20_000}
	for litres, want := range map[float64]int{0: 0, 0.1: 1, 19.9: 1, 20: 1, 20 + 1e-6: 1, 20.1: 2, 40: 2, 41: 3} {
		if got := ContainersFor(litres, c); got != want {
			t.Errorf("%g L in containers of 20: %d, want %d", litres, got, want)
		}
	}
	// Two boards of 100 × 50 × 40 cm are 400 L; of that the usable share holds boxes.
	boards := []stores.Shelf{{WidthCm: 100, DepthCm: 50, HeightCm: 40, LoadKg: 80}, {WidthCm: 100, DepthCm: 50, HeightCm: 40, LoadKg: 60}}
	if boxL, kg := ShelfSpace(boards); math.Abs(boxL-400*stores.UsableShare().Value) > 1e-9 || kg != 140 {
		t.Errorf("boards hold %g L and bear %g kg", boxL, kg)
	}
}

// TestSuppliesByHand: a litre of water weighs and fills what a full container does, over
// its litres; a MJ what a pack of fuel does, over the heat that it gives at the poor
// efficiency.
func TestSuppliesByHand(t *testing.T) {
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	for _, stove := range stores.Stoves() {
		s, err := SuppliesOf(&ration.Request{Table: table, Stove: stove.Name})
		if err != nil {
			t.Fatal(err)
		}
		price, err := table.Supply(stove.Name)
		if err != nil {
			t.Fatal(err)
		}
		useful := stove.EnergyMJ * stove.EffLow
		if math.Abs(s.Heat.Cost-price.Price/useful) > 1e-9 || math.Abs(s.Heat.WeightKg-stove.GrossG/1000/useful) > 1e-9 ||
			math.Abs(s.Heat.VolumeL-stove.LengthMM*stove.WidthMM*stove.HeightMM/1e6/useful) > 1e-9 {
			t.Errorf("%s: a MJ is %+v", stove.Name, s.Heat)
		}
		if s.Heat.Of(ration.LeastCost) != s.Heat.Cost || s.Heat.Of(ration.LeastWeight) != s.Heat.WeightKg || s.Heat.Of(ration.LeastVolume) != s.Heat.VolumeL {
			t.Errorf("%s: the objectives are mixed up", stove.Name)
		}
		if w := s.Water.WeightKg; w < 1 || w > 1.2 || s.Water.VolumeL < 1 || s.Water.VolumeL > 1.6 { // water weighs 1 kg a litre, its container little
			t.Errorf("a litre of water is %+v", s.Water)
		}
	}
	if got := PackSupply(&foods.Pack{Price: 3, GrossG: 480, NetG: 400, VolumeL: 0.6}); got != (Supply{3, 0.48, 0.6}) {
		t.Errorf("a pack is %+v", got)
	}
}

// TestWhatAKitchenHolds: foods that are sold or in stock, of packs that can be opened, and a
// mother's milk; with what the request leaves out and then what it cannot cook.
func TestWhatAKitchenHolds(t *testing.T) {
	all, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	of := func(name string, easy bool, class string) *foods.Food {
		f := food(name, nil)
		f.Packs, f.Preparation = []*foods.Pack{{Key: name, EasyOpen: easy, GrossG: 400, Food: f}}, &foods.Preparation{Class: class}
		return f
	}
	table := *all
	named := all.Foods[0]
	easy, hard, soup, unsold := of("easy", true, "none"), of("hard", false, "none"), of("soup", true, "simmer"), food("unsold", nil)
	human := food("human", nil)
	human.Tags = []string{foods.TagHumanMilk}
	table.Foods = []*foods.Food{named, easy, hard, soup, unsold, human}
	stock := func(f *foods.Food, easy ...bool) (list []foods.StockLine) {
		for _, e := range easy {
			list = append(list, foods.StockLine{Pack: &foods.Pack{Food: f, EasyOpen: e, GrossG: 400}})
		}
		return list
	}
	for _, c := range []struct {
		name string
		req  ration.Request
		any  bool
		want string // with why it is left out
	}{
		{"all", ration.Request{Cook: ration.CookSimmer}, false, "easy: hard: soup: human:"},
		{"less cooking", ration.Request{Cook: ration.CookBoil}, false, "easy: hard: soup:no cooking beyond boiling, under 20 minutes' simmering human:"},
		{"no cooking", ration.Request{Cook: ration.CookNone}, false, "easy: hard: soup:no cooking human:"},
		{"any cooking", ration.Request{Cook: ration.CookNone}, true, "easy: hard: soup: human:"},
		{"weak hands", ration.Request{Cook: ration.CookSimmer, EasyOpen: true}, false, "easy: soup: human:"},
		{"a stock", ration.Request{Cook: ration.CookSimmer, Stock: stock(unsold, false)}, false, "easy: hard: soup: unsold: human:"},
		{"a stock for weak hands", ration.Request{Cook: ration.CookSimmer, EasyOpen: true, Stock: stock(unsold, false)}, false, "easy: soup: human:"},
		{"a stock of which one is for weak hands", ration.Request{Cook: ration.CookSimmer, EasyOpen: true, Stock: stock(unsold, true, false)}, false, "easy: soup: unsold: human:"},
		{"a stock alone", ration.Request{Cook: ration.CookSimmer, StockOnly: true, Stock: stock(hard, false)}, false, "hard: human:"},
		{"without one", ration.Request{Cook: ration.CookNone, Without: []string{named.Name}}, false, named.Name + ":without " + named.Name + " easy: hard: soup:no cooking human:"},
	} {
		c.req.Table = &table
		if len(c.req.Without) == 0 {
			table.Foods = table.Foods[1:]
		}
		k, err := OpenKitchen(&c.req, c.any)
		if table.Foods = []*foods.Food{named, easy, hard, soup, unsold, human}; err != nil {
			t.Fatal(err)
		}
		got := ""
		for _, f := range k.Foods {
			got += f.Name + ":" + k.locks[f] + " "
		}
		if got != c.want+" " {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
	// What is left out keeps its own words where it cannot be cooked either.
	named.Preparation, table.Foods = &foods.Preparation{Class: "simmer"}, []*foods.Food{named}
	if k, _ := OpenKitchen(&ration.Request{Table: &table, Cook: ration.CookNone, Without: []string{named.Name}}, false); k.locks[named] != "without "+named.Name {
		t.Errorf("left out by %q", k.locks[named])
	}
	if _, err := OpenKitchen(&ration.Request{Table: &table, Without: []string{"moon cheese of the far side"}}, false); err == nil {
		t.Error("what there is not is left out")
	}
}

// TestWhoGetsWhat: of 80 g at a sitting and 160 a day; what somebody is allergic to is none of
// theirs, what they do not like stays with why, after what the household leaves out; an infant's milk
// stays where somebody else of the house is allergic to it.
func TestWhoGetsWhat(t *testing.T) {
	all, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	table := *all
	of := func(name string, allergens ...string) *foods.Food {
		f := food(name, map[nutrients.Nutrient]float64{nutrients.AddedSugars: 0, nutrients.Energy: 67})
		f.OccasionG, f.DayG, f.Allergens, f.Packs, f.Keeping = 80, 160, allergens, []*foods.Pack{{Key: name}}, &foods.Keeping{AfterOpenHours: 1}
		return f
	}
	liked, cheese, none, named := of("liked"), of("cheese", "milk"), of("none"), all.Foods[0]
	none.OccasionG, none.DayG = 0, 0
	formula := of("formula", "milk")
	formula.Tags = []string{foods.TagInfantFormula}
	table.Foods = []*foods.Food{liked, cheese, none, named, formula}
	signe := nutrients.Person{Name: "Signe", AgeMonths: 400, Sex: nutrients.Female, Dislikes: []string{named.Name}}
	house := nutrients.Person{Name: "Odd", AgeMonths: 400, Allergies: []nutrients.Allergy{{Allergen: "milk", Level: nutrients.AllergyHousehold}}}
	liv := nutrients.Person{Name: "Liv", AgeMonths: 4, Feeding: nutrients.FormulaFed}
	fed := &nutrients.Feed{Only: true, FormulaML: most(700)}
	for _, c := range []struct {
		name    string
		who     nutrients.Person
		feed    *nutrients.Feed
		house   []nutrients.Person
		without []string
		want    string
		kept    string
	}{
		{"alone", signe, nil, nil, nil, "liked: cheese: " + named.Name + ":Signe does not like " + named.Name + " ", ""},
		{"left out as well", signe, nil, nil, []string{named.Name}, "liked: cheese: " + named.Name + ":without " + named.Name + " ", ""},
		{"beside an allergy", signe, nil, []nutrients.Person{house}, nil, "liked: ", ""}, // ghee holds milk
		{"the infant", liv, fed, nil, nil, "formula: ", ""},
		{"the infant beside an allergy", liv, fed, []nutrients.Person{house}, nil, "formula: ", "holds milk, and somebody in the household has a severe allergy to it"},
		{"an infant who is nursed", liv, &nutrients.Feed{Only: true}, nil, nil, "", ""},
	} {
		k, err := OpenKitchen(&ration.Request{Table: &table, Days: 10, Cook: ration.CookSimmer, Without: c.without, People: append(c.house, c.who)}, false)
		if err != nil {
			t.Fatal(err)
		}
		list, _, err := k.Serve(&nutrients.Needs{Person: c.who, Feed: c.feed})
		if err != nil {
			t.Fatal(err)
		}
		got := ""
		for _, a := range list {
			got += a.Food.Name + ":" + a.Lock + " "
			if a.Food == liked && (a.CapG != 1600 || a.WindowG != 80) {
				t.Errorf("%s: %+v", c.name, a)
			}
			if a.Food == formula && (math.Abs(a.CapG-7000) > 1e-9 || a.Kept != c.kept) { // 1 mL a gram
				t.Errorf("%s: %+v", c.name, a)
			}
		}
		if got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// TestLoadsOfAPlan: packs of one kind are one load, in all lines together, and the water comes in
// whole containers, none where there is none.
func TestLoadsOfAPlan(t *testing.T) {
	rice, oats := &foods.Pack{Key: "rice", VolumeL: 1, GrossG: 900}, &foods.Pack{Key: "oats", VolumeL: 8, GrossG: 500}
	req := &ration.Request{Table: &foods.Table{Packs: []*foods.Pack{rice, oats}}}
	box, ok := stores.ContainerByKey("can_water_20")
	if !ok {
		t.Fatal("no container")
	}
	for litres, containers := range map[float64]int{0: 0, 0.1: 1, 40: 2, 41: 3} {
		loads := LoadsOf(req, &ration.Plan{Totals: &ration.Totals{WaterL: litres, Cost: 900}, Packs: []ration.PlanPack{
			{Pack: "rice", Count: 3, FromStock: 1}, {Pack: "oats", Count: 2}, {Pack: "moon", Count: 9}, {Pack: "rice", Count: 4, Reserve: true}}}, box)
		want := map[string]int{"rice": 7, "oats": 2}
		if containers > 0 {
			want["can_water_20"] = containers
		}
		got := map[string]int{}
		for _, l := range loads {
			got[l.Key] = l.Count
		}
		if len(loads) != len(want) || len(got) != len(want) {
			t.Errorf("%g L: %v, want %v", litres, got, want)
		}
		for key, n := range want {
			if got[key] != n {
				t.Errorf("%g L: %d of %s, want %d", litres, got[key], key, n)
			}
		}
		if loads[0].LengthMM != 100 || loads[0].Kg != 0.9 { // a cube of a litre
			t.Errorf("rice is %+v", loads[0])
		}
	}
}

// TestGlassesOfAChild: what a child under nine gladly eats at a sitting, in grams or cups, by the
// planning rules of kind_caps.csv: a cup of milk powder is 16 g under four and 24 from four on; what
// is none at all is no glass, and from nine years on nothing is said.
func TestGlassesOfAChild(t *testing.T) {
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	powder := food("powder", nil)
	powder.Kinds = []string{"dry milk"}
	nuts := food("nuts", nil)
	nuts.Kinds = []string{"snack nuts and seeds"} // 30 g of a grown person, half of that from four to eight
	for _, c := range []struct {
		months       int
		powder, nuts float64
	}{{12, 16, 0}, {47, 16, 0}, {48, 24, 15}, {107, 24, 15}, {108, 0, 0}, {400, 0, 0}} {
		got := map[*foods.Food]float64{}
		for _, l := range Glasses(table, &nutrients.Person{AgeMonths: c.months}) {
			if l.Days != 0 || l.Most <= 0 {
				t.Errorf("%d months: %+v", c.months, l)
			}
			for _, f := range []*foods.Food{powder, nuts} {
				if l.Counts(f) == 1 {
					got[f] = l.Most
				}
			}
		}
		if got[powder] != c.powder || got[nuts] != c.nuts {
			t.Errorf("%d months: %g g of powder and %g of nuts, want %g and %g", c.months, got[powder], got[nuts], c.powder, c.nuts)
		}
	}
}

// TestDosesAndKeeping: 15 g of sugars treat a low (ADA); a pack that is finished within a day of opening
// is one dose, and one whose keeping nobody knows as well; up to twenty are bought to hold doses.
func TestDosesAndKeeping(t *testing.T) {
	for _, c := range []struct {
		net, hours, doses float64
		holds             bool
	}{{15, 48, 1, true}, {14.9, 48, 0, false}, {60, 48, 4, true}, {60, 24, 1, true}, {60, 25, 4, true}, {60, -1, 1, true}, {300, 48, 20, true}, {315, 48, 21, false}, {315, 2, 1, true}} {
		f := food("sweets", map[nutrients.Nutrient]float64{nutrients.Sugars: 100})
		f.Tags = []string{foods.TagFastSugar}
		if c.hours >= 0 {
			f.Keeping = &foods.Keeping{AfterOpenHours: c.hours}
		}
		k := &foods.Pack{Food: f, NetG: c.net}
		if Doses(k) != c.doses || HoldsDoses(k) != c.holds {
			t.Errorf("%+v: %g doses, holds %v", c, Doses(k), HoldsDoses(k))
		}
	}
}

// TestOneOpeningByHand: of a food that keeps two days with 50 µg of vitamin K in 100 g, an opening
// holds two fifths of 90 µg a day: 0.4 × 90 × 2 / 0.5 = 144 g, and less where another nutrient is
// scarcer; what holds none of it, or is not to be kept alike, is free.
func TestOneOpeningByHand(t *testing.T) {
	f := food("greens", map[nutrients.Nutrient]float64{nutrients.VitaminK: 50, nutrients.Sodium: 1000, nutrients.Iron: 0})
	f.Keeping = &foods.Keeping{AfterOpenHours: 48}
	needs := func(steady ...nutrients.Nutrient) *nutrients.Needs {
		return &nutrients.Needs{Steady: steady, List: []nutrients.Need{{Nutrient: nutrients.VitaminK, Floor: most(90)}, {Nutrient: nutrients.Sodium, Floor: most(1500)},
			{Nutrient: nutrients.Iron, Floor: most(8)}, {Nutrient: nutrients.Zinc}}}
	}
	for _, c := range []struct {
		steady []nutrients.Nutrient
		want   float64
	}{
		{[]nutrients.Nutrient{nutrients.VitaminK}, 144}, {[]nutrients.Nutrient{nutrients.Sodium}, 120}, {[]nutrients.Nutrient{nutrients.VitaminK, nutrients.Sodium}, 120},
		{[]nutrients.Nutrient{nutrients.Sodium, nutrients.VitaminK}, 120}, {nil, math.Inf(1)}, {[]nutrients.Nutrient{nutrients.Iron, nutrients.Zinc}, math.Inf(1)},
	} {
		if got := evenG(needs(c.steady...), f); got != c.want && math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%v: %g g, want %g", c.steady, got, c.want)
		}
	}
}

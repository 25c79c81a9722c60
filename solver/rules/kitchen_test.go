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

package rules

import (
	"math"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// food is one made for a test: 100 g hold so much of some nutrients, nothing is known of
// the others.
func food(name string, per100 map[nutrients.Nutrient]float64) *foods.Food {
	f := &foods.Food{Name: name, Per100g: nutrients.Unknown()}
	for n, v := range per100 {
		f.Per100g[n] = v
	}
	return f
}

func most(v float64) *nutrients.Limit {
	return &nutrients.Limit{Amount: v, Source: "S", Verified: "yes: a copy"}
}

// TestIntakeByHand: 700 g at 10 mg and 280 g at 5 mg per 100 g, in 14 days, are 6 mg a day;
// what is unknown of a food is said and counts as nothing.
func TestIntakeByHand(t *testing.T) {
	a, b := food("a", map[nutrients.Nutrient]float64{nutrients.Iron: 10, nutrients.Zinc: 0}), food("b", map[nutrients.Nutrient]float64{nutrients.Iron: 5})
	eaten := []Portion{{a, 700}, {b, 280}}
	if got, unknown := Intake(eaten, nutrients.Iron, 14); math.Abs(got-6) > 1e-12 || unknown {
		t.Errorf("iron %g, unknown %v, want 6 and known", got, unknown)
	}
	if got, unknown := Intake(eaten, nutrients.Zinc, 14); got != 0 || !unknown {
		t.Errorf("zinc %g, unknown %v, want 0 and unknown of one", got, unknown)
	}
}

// TestNeedLines: what is enforced stands as at least and at most, what is only shown as a
// target; a share of energy is of what is eaten, or of what must be where that is more,
// and the tighter of two limits stands. By hand: 14 kg at 200 kcal per 100 g are 2000 kcal
// a day; 10 to 35 % of it as protein at 4 kcal a gram are 50 to 175 g; the water of the
// food is 0.5 L a day, 1.5 L are drunk.
func TestNeedLines(t *testing.T) {
	f := food("f", map[nutrients.Nutrient]float64{nutrients.Energy: 200, nutrients.Protein: 8, nutrients.Water: 50, nutrients.Fat: 3})
	f.Preparation = &foods.Preparation{EatenML: 0}
	share := nutrients.Share{Nutrient: nutrients.Protein, KcalPerG: 4, Min: most(10), Max: most(35)}
	for _, c := range []struct {
		name          string
		energyFloor   float64
		floor, top    float64 // of protein by itself; 0 none
		least, atMost float64 // in the line
	}{
		{"by itself", 1900, 0, 0, 50, 175},
		{"a floor that is lower", 1900, 46, 0, 50, 175},
		{"a floor that is higher", 1900, 60, 0, 60, 175},
		{"a ceiling that is lower", 1900, 46, 100, 50, 100},
		{"a ceiling that is higher", 1900, 46, 200, 50, 175},
		{"too little is eaten", 2400, 0, 0, 60, 210},
	} {
		need := nutrients.Need{Nutrient: nutrients.Protein}
		if c.floor > 0 {
			need.Floor = most(c.floor)
		}
		if c.top > 0 {
			need.Ceiling = most(c.top)
		}
		needs := nutrients.Needs{List: []nutrients.Need{{Nutrient: nutrients.Energy, Floor: most(c.energyFloor)}}, Shares: []nutrients.Share{share}, Water: nutrients.WaterNeed{Total: most(2.7)}}
		if c.floor > 0 || c.top > 0 {
			needs.List = append(needs.List, need)
		}
		list := PersonNeeds(&ration.Request{Days: 14}, needs, []Portion{{f, 14000}}, 1.5)
		byName := map[string]ration.PersonNeed{}
		for _, l := range list {
			byName[l.Nutrient] = l
		}
		p := byName["protein"]
		if p.Floor == nil || p.Ceiling == nil || math.Abs(*p.Floor-c.least) > 1e-9 || math.Abs(*p.Ceiling-c.atMost) > 1e-9 || math.Abs(p.Amount-80) > 1e-9 {
			t.Errorf("%s: protein %+v, want 80 g between %g and %g", c.name, p, c.least, c.atMost)
		}
		w := byName["water"]
		if math.Abs(w.Amount-2) > 1e-9 || w.Floor == nil || *w.Floor != 2.7 || w.Unit != "L" {
			t.Errorf("%s: water %+v, want 2 L of at least 2.7", c.name, w)
		}
		if e := byName["energy"]; math.Abs(e.Amount-2000) > 1e-9 || *e.Floor != c.energyFloor || e.Ceiling != nil {
			t.Errorf("%s: energy %+v", c.name, e)
		}
	}
	shown := PersonNeed(nutrients.Need{Nutrient: nutrients.Fat, Floor: most(1), Ceiling: most(9), Target: most(5), Shown: true}, []Portion{{f, 14000}}, 14)
	if shown.Floor != nil || shown.Ceiling != nil || shown.Target == nil || *shown.Target != 5 || shown.Source != "S" || math.Abs(shown.Amount-30) > 1e-9 {
		t.Errorf("what is only shown: %+v", shown)
	}
	target := PersonNeed(nutrients.Need{Nutrient: nutrients.Fat, Target: &nutrients.Limit{Amount: 5, Source: "T", Verified: "from memory"}}, nil, 14)
	if target.Source != "T (from memory)" || target.Amount != 0 {
		t.Errorf("a target alone: %+v", target)
	}
}

// TestWaterPerGram: a kilogram of rice at 12 % moisture, of which 200 mL per 100 g are taken
// and 190 eaten, takes 2 L and brings 0.12 + 1.9 L; only what is liquid is fluid.
func TestWaterPerGram(t *testing.T) {
	f := food("rice", map[nutrients.Nutrient]float64{nutrients.Water: 12})
	if got := 1000 * WaterEatenLPerG(f); math.Abs(got-0.12) > 1e-12 || WaterTakenLPerG(f) != 0 {
		t.Errorf("without a preparation it brings %g L and takes %g", got, WaterTakenLPerG(f))
	}
	f.Preparation = &foods.Preparation{WaterML: 200, EatenML: 190}
	if taken, eaten := 1000*WaterTakenLPerG(f), 1000*WaterEatenLPerG(f); math.Abs(taken-2) > 1e-12 || math.Abs(eaten-2.02) > 1e-12 {
		t.Errorf("takes %g L and brings %g, want 2 and 2.02", taken, eaten)
	}
	if FluidLPerG(f) != 0 {
		t.Error("rice is a drink")
	}
	f.Tags = []string{foods.TagJuice}
	if got := 1000 * FluidLPerG(f); math.Abs(got-2.02) > 1e-12 {
		t.Errorf("as a juice it is %g L of fluid, want 2.02", got)
	}
}

// TestNeedsAddUp: what a person gets of two foods and of two helpings adds up, also of water; a
// share of a nutrient that stands first in the list is in that line; each line names the source of
// the limit that stands in it, a shown need without a figure none that is another's.
func TestNeedsAddUp(t *testing.T) {
	from := func(v float64, source string) *nutrients.Limit {
		return &nutrients.Limit{Amount: v, Source: source, Verified: "from memory"}
	}
	f := food("f", map[nutrients.Nutrient]float64{nutrients.Energy: 200, nutrients.Protein: 8, nutrients.Water: 50})
	g := food("g", map[nutrients.Nutrient]float64{nutrients.Energy: 100, nutrients.Protein: 2, nutrients.Water: 80})
	eaten := []Portion{{f, 7000}, {g, 7000}} // 500 g each a day: 1500 kcal, 50 g of protein, 0.65 L
	needs := nutrients.Needs{
		List: []nutrients.Need{
			{Nutrient: nutrients.Protein, Floor: from(46, "floor"), Ceiling: from(200, "ceiling")}, {Nutrient: nutrients.Energy},
			{Nutrient: nutrients.Sodium, Ceiling: from(9, "top")}, {Nutrient: nutrients.Iron, Floor: from(8, "RDA"), Target: from(18, "target")},
		},
		Shares: []nutrients.Share{
			{Nutrient: nutrients.Protein, KcalPerG: 4, Min: from(10, "least share"), Max: from(35, "most share")},
			{Nutrient: nutrients.Fat, KcalPerG: 9, Max: from(30, "most fat")},
			{Nutrient: nutrients.Carbohydrate, KcalPerG: 4, Min: from(45, "least carbohydrate"), Max: from(65, "most carbohydrate")},
		},
		Water: nutrients.WaterNeed{Total: from(2, "water")},
	}
	want := []struct {
		name       string
		amount     float64
		floor, top float64 // -1 none
		source     string
	}{
		{"protein", 50, 46, 131.25, "floor (from memory)"}, // 10 % are 37.5 g; 35 % are 131.25
		{"energy", 1500, -1, -1, ""}, {"sodium", 0, -1, 9, "top (from memory)"}, {"iron", 0, 8, -1, "RDA (from memory)"},
		{"fat", 0, -1, 50, "most fat (from memory)"}, {"carbohydrate", 0, 168.75, 243.75, "least carbohydrate (from memory)"},
		{"water", 1.65, 2, -1, "water"},
	}
	got := PersonNeeds(&ration.Request{Days: 14}, needs, eaten, 1)
	if len(got) != len(want) {
		t.Fatalf("%d lines, want %d", len(got), len(want))
	}
	for i, w := range want {
		l := got[i]
		same := func(p *float64, v float64) bool { return p == nil && v < 0 || p != nil && math.Abs(*p-v) < 1e-9 }
		if l.Nutrient != w.name || math.Abs(l.Amount-w.amount) > 1e-9 || !same(l.Floor, w.floor) || !same(l.Ceiling, w.top) || l.Source != w.source {
			t.Errorf("line %d: %+v, want %+v", i, l, w)
		}
	}
	needs.Shares[0].Min = from(20, "least share") // 75 g
	if l := PersonNeeds(&ration.Request{Days: 14}, needs, eaten, 1)[0]; *l.Floor != 75 || l.Source != "least share (from memory)" {
		t.Errorf("a share over the floor: %+v", l)
	}
}

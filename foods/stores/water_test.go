package stores

import (
	"math"
	"strings"
	"testing"
)

func near(a, b float64) bool { return math.Abs(a-b) < 1e-9 }

// The usual allowance: 7 US gallons a person for a fortnight, renewed every
// three months (common practice, no source). The published one: a gallon a day
// (FEMA and American Red Cross; CDC).
func TestAllowances(t *testing.T) {
	usual, published := UsualAllowance(), PublishedAllowance()
	if got := usual.Litres(1, 14); !near(got, 7*3.785411784) {
		t.Errorf("usual: %g L a fortnight, want 7 US gallons, %g", got, 7*3.785411784)
	}
	if usual.RenewMonths != 3 || !usual.NoSource() {
		t.Errorf("usual: %+v, want renewed at 3 months and marked as without a source", usual)
	}
	if got := published.Litres(5, 14); !near(got, 5*14*3.785411784) || published.Source == "" || published.NoSource() {
		t.Errorf("published: %g L for five, %+v", got, published)
	}
	if row := waterRule("FEMA/Red Cross", "person", "total").Value; math.Abs(published.LPerHeadDay-row) > 0.0005 || published.LPerHeadDay < row {
		t.Errorf("published: %g L a day, row %g", published.LPerHeadDay, row)
	}
}

func lines(n WaterNeed) map[string]float64 {
	m := map[string]float64{}
	for _, l := range n.Lines {
		m[l.What] = l.Litres
	}
	return m
}

// Each case is reckoned by hand in the comments.
func TestComputeWater(t *testing.T) {
	adult := WaterPerson{Name: "a", Count: 2, DrinkLPerDay: 2}
	tests := []struct {
		name  string
		in    WaterInput
		want  map[string]float64
		total float64
	}{
		// drink 2 × 2 × 14 = 56; spill 0.1 × (56 + 10 + 5) = 7.1; hygiene 2 × 14 = 28
		{"plain", WaterInput{People: []WaterPerson{adult}, Days: 14, PreparationL: 10, FormulaL: 5},
			map[string]float64{"drinking": 56, "preparing food": 10, "infant formula": 5, "spills and spoilage": 7.1, "washing hands and dishes": 28}, 106.1},
		// FEMA: heat doubles 56; spill 11.2
		{"hot", WaterInput{People: []WaterPerson{adult}, Days: 14, Hot: true},
			map[string]float64{"drinking": 56, "drinking in the heat": 56, "spills and spoilage": 11.2, "washing hands and dishes": 28}, 151.2},
		// CDC: 2.839 L at least in heat, 1.2 doubled is 2.4: 0.439 more
		{"hot, drinks little", WaterInput{People: []WaterPerson{{Count: 1, DrinkLPerDay: 1.2}}, Days: 10, Hot: true},
			map[string]float64{"drinking": 12, "drinking in the heat": 12, "drinking in the heat, least": 4.39, "spills and spoilage": 2.839, "washing hands and dishes": 10}, 41.229},
		// CDC: 4 quarts, 3.785, when ill: 1.785 more a day
		{"ill", WaterInput{People: []WaterPerson{{Count: 1, DrinkLPerDay: 2, Tags: []Tag{Ill}}}, Days: 10},
			map[string]float64{"drinking": 20, "drinking when ill": 17.85, "spills and spoilage": 3.785, "washing hands and dishes": 10}, 51.635},
		// CDC: 3 quarts, 2.839, in pregnancy: 0.839 more
		{"pregnant", WaterInput{People: []WaterPerson{{Count: 1, DrinkLPerDay: 2, Tags: []Tag{Pregnant}}}, Days: 10},
			map[string]float64{"drinking": 20, "drinking in pregnancy": 8.39, "spills and spoilage": 2.839, "washing hands and dishes": 10}, 41.229},
		// no plain water under 6 months, whatever is said; hygiene all the same
		{"infant", WaterInput{People: []WaterPerson{{Count: 1, DrinkLPerDay: 1, Tags: []Tag{Infant, InfantUnder6, Ill}}}, Days: 10, Hot: true},
			map[string]float64{"washing hands and dishes": 10}, 10},
		// not fed by the plan: FEMA's 2 quarts, 1.893
		{"refused", WaterInput{People: []WaterPerson{{Count: 1, Refused: true}}, Days: 10},
			map[string]float64{"drinking, not fed by the plan": 18.93, "spills and spoilage": 1.893, "washing hands and dishes": 10}, 30.823},
		// 2 L of hygiene; two cats at a gallon (CDC), a dog of 80 kg at 65.2 mL/kg = 5.216
		{"pets and hygiene", WaterInput{People: []WaterPerson{{Count: 1, DrinkLPerDay: 2}}, Days: 10, WashingL: ptr(2), Pets: []Pet{{Count: 2}, {WeightKg: 80}}},
			map[string]float64{"drinking": 20, "spills and spoilage": 2, "washing hands and dishes": 20, "pets": 2*37.85411784 + 52.16}, 42 + 2*37.85411784 + 52.16},
		{"no washing", WaterInput{People: []WaterPerson{{Count: 1, DrinkLPerDay: 2}}, Days: 10, WashingL: ptr(0)},
			map[string]float64{"drinking": 20, "spills and spoilage": 2}, 22},
		{"nobody", WaterInput{Days: 14}, map[string]float64{}, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			n := ComputeWater(tt.in)
			got := lines(n)
			for what, litres := range tt.want {
				if !near(got[what], litres) {
					t.Errorf("%s: %g L, want %g", what, got[what], litres)
				}
			}
			if len(got) != len(tt.want) {
				t.Errorf("lines %v, want %v", got, tt.want)
			}
			if !near(n.Litres, tt.total) {
				t.Errorf("total %g L, want %g", n.Litres, tt.total)
			}
			for _, l := range n.Lines {
				if l.Source == "" || l.Rule == "" {
					t.Errorf("%s has no source or rule", l.What)
				}
			}
		})
	}
}

func ptr(v float64) *float64 { return &v }

// Nothing is taken from the drinks of each of those for whom that is so, with the floors
// that hold for them, reckoned by hand for 10 days; nor from the feeds. Of others nothing is
// protected, and what one has does not depend on who is beside.
func TestProtectedDrinks(t *testing.T) {
	for _, c := range []struct {
		name string
		tags []Tag
		hot  bool
		want float64 // of one who drinks 2 L a day, L a day
	}{
		{"nobody special", nil, false, 0},
		{"an elder", []Tag{Older}, false, 0},
		{"heat alone", nil, true, 0},
		{"infant", []Tag{Infant}, false, 2},
		{"nursing", []Tag{Nursing}, false, 2},
		{"nursing in the heat", []Tag{Nursing}, true, 4},          // FEMA: doubled
		{"pregnant", []Tag{Pregnant}, false, 2.839},               // CDC: 3 quarts
		{"ill", []Tag{Ill}, false, 3.785},                         // CDC: 4 quarts
		{"under 6 months", []Tag{Infant, InfantUnder6}, false, 0}, // no plain water
	} {
		p := WaterPerson{Count: 3, DrinkLPerDay: 2, Tags: c.tags}
		in := WaterInput{People: []WaterPerson{p}, Days: 10, Hot: c.hot}
		alone := ComputeWater(in).ProtectedL
		if !near(alone, 3*10*c.want) {
			t.Errorf("%s: %g L protected, want %g", c.name, alone, 3*10*c.want)
		}
		in.People, in.FormulaL = append(in.People, WaterPerson{Count: 2, DrinkLPerDay: 5}), 8
		if got := ComputeWater(in).ProtectedL; !near(got, alone+8) {
			t.Errorf("%s beside two others and feeds of 8 L: %g L protected, want %g", c.name, got, alone+8)
		}
	}
}

// One amount is recommended, that of the plan, and the answer says which it is;
// the allowances stand beside it.
func TestRecommendWhatThePlanCounts(t *testing.T) {
	one := []WaterPerson{{Count: 1, DrinkLPerDay: 2}}
	small := ComputeWater(WaterInput{People: one, Days: 14, PreparationL: 1}) // 1.1 × 29 + 14 = 45.9 L
	a := Recommend(small, small.Litres)
	if !near(a.Recommended, 45.9) || !strings.Contains(a.Because, "computed need") || !strings.Contains(a.Because, "published allowance is 7 L more") || !near(a.AllowanceL[0], 7*3.785411784) || !near(a.AllowanceL[1], 14*3.785411784) {
		t.Errorf("small need: %+v", a)
	}
	if a := Recommend(small, 60); a.Recommended != 60 || !strings.Contains(a.Because, "older allowance") {
		t.Errorf("with the allowance: %+v", a)
	}
	large := ComputeWater(WaterInput{People: one, Days: 14, PreparationL: 30}) // 1.1 × 58 + 14 = 77.8 L
	if a := Recommend(large, large.Litres); !near(a.Recommended, 77.8) || strings.Contains(a.Because, "published") {
		t.Errorf("large need: %+v", a)
	}
	// IOM: 3.8 − 2.7 L for a nursing mother. FEMA: the drinking half, 1.893 L,
	// again in the heat. CDC: 3.785 − 1.893 when ill, 2.839 − 1.893 in pregnancy.
	for _, tt := range []struct {
		name string
		tags []Tag
		hot  bool
		more float64 // litres a day
	}{
		{"nursing", []Tag{Nursing}, false, 1.1}, {"nursing in the heat", []Tag{Nursing}, true, 1.1 + 1.893},
		{"ill", []Tag{Ill}, false, 1.892}, {"pregnant", []Tag{Pregnant}, false, 0.946}, {"heat", nil, true, 1.893},
		{"small infant in the heat", []Tag{Infant, InfantUnder6, Ill}, true, 0},
	} {
		n := ComputeWater(WaterInput{People: []WaterPerson{{Count: 1, Tags: tt.tags}}, Days: 10, Hot: tt.hot})
		if a := Recommend(n, n.Litres); !near(a.AllowanceL[1], 10*(3.785411784+tt.more)) {
			t.Errorf("%s: published %g L in ten days, want a gallon and %g L a day", tt.name, a.AllowanceL[1], tt.more)
		}
	}
	// The pets' gallon comes on top of the people's.
	pets := ComputeWater(WaterInput{People: one, Days: 14, Pets: []Pet{{}}})
	if a := Recommend(pets, pets.Litres); !near(a.AllowanceL[1], 2*14*3.785411784) {
		t.Errorf("with a pet: %g L, want two gallons a day", a.AllowanceL[1])
	}
}

func TestWaterForPet(t *testing.T) {
	for _, tt := range []struct {
		pet                Pet
		recommended, least float64
	}{
		{Pet{}, 3.785411784, 0.946},            // CDC gallon; a utility's quart
		{Pet{WeightKg: 5}, 3.785411784, 0.326}, // 1 fl oz a lb: 65.2 mL/kg
		{Pet{WeightKg: 80}, 5.216, 5.216},
	} {
		w := WaterForPet(tt.pet)
		if !near(w.RecommendedL, tt.recommended) || !near(w.LeastL, tt.least) || len(w.Refs) != 2 {
			t.Errorf("%+v: %+v, want %g and %g", tt.pet, w, tt.recommended, tt.least)
		}
	}
	// The rule of thumb in its own units: 29.5735295625 mL a pound.
	if rule := waterRule("Rule of thumb", "dog or cat", "drinking").Value; math.Abs(rule-MLPerFlOz/KgPerLb) > 0.05 {
		t.Errorf("rule of thumb: %g mL/kg, want %g", rule, MLPerFlOz/KgPerLb)
	}
}

// The drinks of several people are protected each, and the words say whether they are
// doubled for the heat already.
func TestSeveralProtected(t *testing.T) {
	people := []WaterPerson{{Count: 2, DrinkLPerDay: 1, Tags: []Tag{Infant}}, {DrinkLPerDay: 3, Tags: []Tag{Nursing}}, {DrinkLPerDay: 9}}
	if got := ComputeWater(WaterInput{People: people, Days: 10}).ProtectedL; !near(got, 10*(2+3)) {
		t.Errorf("%g L protected, want 50", got)
	}
	for _, tt := range []struct {
		hot, counted bool
		rule         string
	}{
		{false, false, "drinks of the plan: water required less the water in food"}, {true, false, "drinks of the plan: water required less the water in food"},
		{false, true, "drinks of the plan: water required less the water in food"}, {true, true, "drinks of the plan: twice the water required, for the heat, less the water in food"},
	} {
		need := ComputeWater(WaterInput{People: people, Days: 10, Hot: tt.hot, HeatCounted: tt.counted})
		if need.Lines[0].What != "drinking" || need.Lines[0].Rule != tt.rule {
			t.Errorf("hot %v, counted %v: %+v", tt.hot, tt.counted, need.Lines[0])
		}
	}
	if w := WaterForPet(Pet{}); w.Rule != "1 US gallon a pet a day; 1 quart for a dog or cat is the least" {
		t.Errorf("%q", w.Rule)
	}
	if w := WaterForPet(Pet{WeightKg: 5}); w.Rule != "1 US gallon a pet a day; 1 fl oz per lb of body weight is the least" {
		t.Errorf("%q", w.Rule)
	}
}

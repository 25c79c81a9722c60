package menu

import (
	"math"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// costOf is the least that a program costs with some of its columns fixed.
func costOf(t *testing.T, p *program, fixed map[int]float64) float64 {
	t.Helper()
	for j, v := range fixed {
		p.Cols[j].Lower, p.Cols[j].Upper = v, v
	}
	return relaxed(t, p)
}

// TestEnergyOfADay: about a mean of 1000 kcal a day from 910 to 1090 costs nothing, from there on
// 6 a kcal; where what one eats is free three times that, and under 905 and over 1095, near the
// tenth, 40, but not where a medicine asks to keep something alike. Of who is fed 300 kcal of milk
// it is what is eaten beside that.
func TestEnergyOfADay(t *testing.T) {
	for _, c := range []struct {
		free, medicine bool
		fed, day, want float64
	}{
		{false, false, 0, 910, 0}, {false, false, 0, 890, 20 * 6}, {false, false, 0, 1120, 30 * 6},
		{true, false, 0, 910, 0}, {true, false, 0, 1090, 0}, {true, false, 0, 907, 3 * 18}, {true, false, 0, 905, 5 * 18}, {true, false, 0, 1095, 5 * 18},
		{true, false, 0, 904, 5*18 + 40}, {true, false, 0, 1096, 5*18 + 40}, {true, false, 0, 880, 5*18 + 25*40},
		{true, true, 0, 880, 30 * 18}, {true, true, 0, 1120, 30 * 18},
		{true, false, 300, 610, 0}, {true, false, 300, 590, 5*18 + 15*40}, {true, false, 300, 801, 5*18 + 6*40},
	} {
		e := &eater{kcal: 1000}
		if c.free {
			e.may = map[*foods.Food]bool{}
		}
		if c.medicine {
			e.steady = []evened{{of: nutrients.VitaminK, mean: 100}}
		}
		p := &program{}
		m := p.dayMean(14, 1000, c.fed, false)
		j := p.col(0, inf)
		m.add(p, p.energyGoal(m, e), j, 1)
		if got := costOf(t, p, map[int]float64{j: c.day}); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("a day of %g kcal and %g of milk about 1000, free %v, a medicine %v: costs %g, want %g", c.day, c.fed, c.free, c.medicine, got, c.want)
		}
	}
}

// TestCarbohydrateOfAMeal: of three meals of one day, one with more and one with less than
// the mean, by as much: within 9 g, nine tenths of the 10 g, they cost nothing, from there on
// 90 a gram, and beyond 5 g more four times that; where what one eats is free, three times as
// much. Within a band that was ordered the mean says nothing.
func TestCarbohydrateOfAMeal(t *testing.T) {
	for _, c := range []struct {
		off     float64 // g
		free    bool
		ordered *ration.MealRange
		want    float64
	}{
		{9, false, &ration.MealRange{}, 0}, {12, false, &ration.MealRange{}, 2 * 3 * 90}, {14, false, &ration.MealRange{}, 2 * 5 * 90},
		{16, false, &ration.MealRange{}, 2 * (5*90 + 2*360)}, {12, true, &ration.MealRange{}, 3 * 2 * 3 * 90},
		{15, false, &ration.MealRange{Enforced: true, LowG: 45, HighG: 75}, 0}, {17, false, &ration.MealRange{Enforced: true, LowG: 45, HighG: 75}, 2 * 2 * 90},
		{17, false, &ration.MealRange{Enforced: true, LowG: 43, HighG: 76}, 90}, {17, false, &ration.MealRange{Enforced: true, LowG: 44, HighG: 75}, 270}, {17, false, &ration.MealRange{Enforced: true, LowG: 43, HighG: 77}, 0},
	} {
		e := &eater{band: c.ordered}
		if c.free {
			e.may = map[*foods.Food]bool{}
		}
		p := &program{}
		mean, all := p.meanColumn(e, 1)
		grams := map[int]float64{}
		for _, g := range []float64{60, 60 + c.off, 60 - c.off} {
			j := p.col(0, inf)
			grams[j] = g
			p.Set(all, j, 1)
			for _, row := range p.carbohydrateRows(e, mean) {
				if row >= 0 {
					p.Set(row, j, 1)
				}
			}
		}
		if got := costOf(t, p, grams); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("%+g g about 60, free %v, %+v: costs %g, want %g", c.off, c.free, c.ordered, got, c.want)
		}
	}
	if mean, row := (&program{}).meanColumn(&eater{}, 1); mean != -1 || row != -1 {
		t.Errorf("who counts nothing: column %d, row %d", mean, row)
	}
}

// TestMeanOfFreeDays: where the grams are free the mean is that of the days: days of 700 and
// 500 kcal beside 400 kcal of milk feeds are 1100 and 900 about a mean of 1000: each a tenth
// off, where 9 % are free.
func TestMeanOfFreeDays(t *testing.T) {
	for _, c := range []struct{ first, second, fed, want float64 }{
		{700, 500, 400, 2 * 10}, {1090, 910, 0, 0}, {1100, 900, 0, 2 * 10}, {690, 510, 400, 0}, {220, 200, 1000, 0},
	} {
		p := &program{}
		m := p.dayMean(2, math.NaN(), c.fed, true)
		days := map[int]float64{}
		for _, kcal := range []float64{c.first, c.second} {
			rows := m.goal(p, EnergyRoom, 1)
			j := p.col(0, inf)
			days[j] = kcal
			m.add(p, rows, j, 1)
		}
		if got := costOf(t, p, days); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("%g and %g kcal, fed %g: costs %g, want %g", c.first, c.second, c.fed, got, c.want)
		}
	}
	p := &program{} // fixed: 600 kcal a day beside 400 kcal of milk are a mean of 1000
	m := p.dayMean(2, 1000, 400, false)
	rows := m.goal(p, EnergyRoom, 1)
	j := p.col(0, inf)
	m.add(p, rows, j, 1)
	if got := costOf(t, p, map[int]float64{j: 500}); math.Abs(got-10) > 1e-6 {
		t.Errorf("500 and 400 kcal about 1000: costs %g, want 10", got)
	}
}

// TestAlikeByHand: of potassium with a mean of 1000 mg a day, 270 mg either way are free, a
// tenth of the mean beyond that costs a tenth of 12,000. Food without a figure counts nothing.
func TestAlikeByHand(t *testing.T) {
	rice, oil := &foods.Food{Per100g: nutrients.Unknown()}, &foods.Food{Per100g: nutrients.Unknown()}
	rice.Per100g[nutrients.Potassium] = 200
	for _, c := range []struct{ grams, weight, want float64 }{{635, 1, 0}, {730, 1, 1200 * 1.9}, {685, 1, 1200}, {685, 3, 3600}, {365, 1, 0}, {315, 1, 1200}} {
		p := &program{}
		list := p.alike(14, []evened{{of: nutrients.Potassium, mean: 1000}}, false)
		rows := list.goals(p, c.weight)
		j, k := p.col(0, inf), p.col(0, inf)
		list.add(p, rows, j, rice)
		list.add(p, rows, k, oil)
		if got := costOf(t, p, map[int]float64{j: c.grams, k: 1000}); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("%g g of 2 mg a gram about 1000 mg: costs %g, want %g", c.grams, got, c.want)
		}
	}
	if w := (&eater{}).dayWeight(); w != 1 {
		t.Errorf("a day counts %g, want 1", w)
	}
}

// TestMustBeEven: of kale with 300 µg of vitamin K in 100 g, packs of 30 g of who has 900 µg
// a day hold more than a tenth of it, of 29 g in their mean not quite; what others of the
// household eat of it, or who takes no such medicine, says nothing.
func TestMustBeEven(t *testing.T) {
	kale := &foods.Food{Per100g: nutrients.Unknown()}
	kale.Per100g[nutrients.VitaminK] = 300
	for _, c := range []struct {
		grams  float64
		packs  int
		takes  bool
		eats   bool
		expect bool
	}{{303, 10, true, true, true}, {297, 10, true, true, false}, {31, 0, true, true, true}, {31, 1, false, true, false}, {303, 10, true, false, false}} {
		s := &stocked{food: kale, packs: make([]opened, c.packs)}
		one, other := &eater{grams: map[*foods.Food]float64{kale: c.grams}}, &eater{grams: map[*foods.Food]float64{kale: 1e4}}
		if c.takes {
			one.steady = []evened{{of: nutrients.VitaminK, mean: 900}}
		}
		if !c.eats {
			one.may = map[*foods.Food]bool{}
		}
		if got := s.mustBeEven([]*eater{other, one}); got != c.expect {
			t.Errorf("%+v: %v", c, got)
		}
	}
}

// TestCrumbsByHand: under 0.12 of the usual 100 g of a part is a crumb, of who has half servings
// under 6 g; what a medicine asks to keep alike is none from a fiftieth of the mean on, what
// is nearly at its most of a day never; salt, which gives no energy, is none beside the dishes.
func TestCrumbsByHand(t *testing.T) {
	f := &foods.Food{Name: "f", OccasionG: 100, DayG: 100, Per100g: nutrients.Unknown()}
	f.Per100g[nutrients.Energy], f.Per100g[nutrients.Potassium] = 300, 100
	salt := &foods.Food{Name: "salt", OccasionG: 100, DayG: 100, Per100g: nutrients.Unknown()}
	dish := dishOf("dish", "none", 0, nil, "base", f)
	dish.parts[0].options[0].Factor = 1
	for _, c := range []struct {
		name   string
		size   float64
		factor float64
		food   *foods.Food
		part   bool
		mean   float64 // mg of potassium that are kept alike
		grams  float64
		want   bool
	}{
		{"a spoon", 1, 1, f, true, 0, 11.9, true}, {"enough", 1, 1, f, true, 0, 12.1, false}, {"half a serving", 0.5, 1, f, true, 0, 6.1, false}, {"less than that", 0.5, 1, f, true, 0, 5.9, true},
		{"of which twice is taken", 1, 2, f, true, 0, 23.9, true}, {"enough of that", 1, 2, f, true, 0, 24.1, false},
		{"kept alike", 1, 1, f, true, 500, 10.1, false}, {"too little to be felt", 1, 1, f, true, 500, 9.9, true},
		{"beside", 1, 1, f, false, 0, 4.9, true}, {"15 kcal beside", 1, 1, f, false, 0, 5.1, false}, {"beside, of half size", 0.5, 1, f, false, 0, 2.6, false}, {"salt", 1, 1, salt, false, 0, 1, false},
	} {
		e := &eater{size: c.size, person: &nutrients.Person{AgeMonths: 400, Sex: nutrients.Female}}
		if c.mean > 0 {
			e.steady = []evened{{of: nutrients.Potassium, mean: c.mean}}
		}
		v := serving{eater: e, food: &stocked{food: c.food}}
		if c.part {
			dish.dish.Parts[0].Options[0].Factor = c.factor
			v.of, v.part = dish, &dish.parts[0]
		}
		if got := v.isCrumb(c.grams, 14); got != c.want {
			t.Errorf("%s: %g g a crumb %v, want %v", c.name, c.grams, got, c.want)
		}
	}
}

// TestOpeningsByHand: in how many openings two women, who eat 100 g of canned fish at a
// sitting and 150 g in a day, and a man who has none can eat what they have of it.
func TestOpeningsByHand(t *testing.T) {
	fish := &foods.Food{Group: "canned fish", OccasionG: 100, DayG: 150, Per100g: nutrients.Unknown()}
	for _, c := range []struct {
		name  string
		grams float64 // of each of the two
		packs int
		meal  bool
		days  int
		want  int
	}{
		{"a sitting", 100, 4, true, 14, 1},
		{"a little more", 101, 4, true, 14, 2},   // nobody eats more at once
		{"three sittings", 300, 20, true, 14, 4}, // 600 g of 150 g that three quarters of a sitting are
		{"as many as there are packs", 300, 2, true, 14, 2},
		{"a day's", 150, 4, false, 14, 1},
		{"more than a day's", 151, 4, false, 14, 2},
		{"every meal of a day", 700, 20, true, 1, 5},
		{"one a day", 700, 20, false, 3, 3},
	} {
		woman := &eater{count: 2, person: &nutrients.Person{AgeMonths: 400}, grams: map[*foods.Food]float64{fish: c.grams}}
		man := &eater{count: 1, person: woman.person, grams: map[*foods.Food]float64{}}
		h := &household{days: c.days, eaters: []*eater{woman, man}}
		s := &stocked{food: fish, grams: 2 * c.grams, packs: make([]opened, c.packs), meal: c.meal}
		if got := h.openingsNeeded(s); got != c.want {
			t.Errorf("%s: %d openings, want %d", c.name, got, c.want)
		}
	}
	child, none := &eater{person: &nutrients.Person{AgeMonths: 400}}, &stocked{food: &foods.Food{}, grams: 33}
	if got := child.mostOf(none); got != 33 {
		t.Errorf("without a figure %g g at most, want all 33 g", got)
	}
}

// TestKeepsTheDay: what is opened at half past seven and keeps eleven and a half hours is
// there in the evening at seven, not what keeps eleven, nor what is finished at its meal.
func TestKeepsTheDay(t *testing.T) {
	for hours, want := range map[float64]bool{11: false, 11.5: true, 24: true} {
		s := &stocked{food: &foods.Food{Keeping: &foods.Keeping{AfterOpenHours: hours}}}
		if s.keepsTheDay() != want {
			t.Errorf("%g h: %v, want %v", hours, !want, want)
		}
		if s.meal = true; s.keepsTheDay() {
			t.Errorf("%g h and finished at the meal: keeps the day", hours)
		}
	}
	if (&stocked{food: &foods.Food{}}).keepsTheDay() {
		t.Error("what does not keep keeps the day")
	}
}

// TestMainMealsOfPacks: at how many main meals packs can be eaten, one at a time.
func TestMainMealsOfPacks(t *testing.T) {
	for _, c := range []struct {
		hours float64
		days  int // that it keeps
		packs int
		want  int
	}{
		{2, 0, 3, 3}, {5, 0, 3, 3}, {5.5, 0, 3, 6}, // breakfast and midday
		{11.5, 0, 3, 9}, {48, 2, 3, 18}, {48, 2, 30, 42}, // three meals on each of 14 days
	} {
		s := &stocked{food: &foods.Food{Keeping: &foods.Keeping{AfterOpenHours: c.hours}}, days: c.days, packs: make([]opened, c.packs), openings: []*opening{}}
		if got := s.sittings(14); got != c.want {
			t.Errorf("%d packs that keep %g h: at %d main meals, want %d", c.packs, c.hours, got, c.want)
		}
	}
	if got := (&stocked{food: &foods.Food{}, packs: make([]opened, 3)}).sittings(14); got != 0 {
		t.Errorf("what keeps all days: %d", got)
	}
	if got := (&stocked{food: &foods.Food{}, packs: make([]opened, 3), openings: []*opening{}}).sittings(14); got != 3 {
		t.Errorf("of what no hours are known: at %d meals, want 3", got)
	}
}

// TestTooFewPlaces: two of 100 g at a sitting each eat 400 g at two meals and not more, nor
// one 21 g in two days of what 10 g a day are published for.
func TestTooFewPlaces(t *testing.T) {
	fish := &foods.Food{OccasionG: 100, DayG: 300, Per100g: nutrients.Unknown()}
	for _, c := range []struct {
		grams  float64
		places []int
		limit  float64 // a day, 0 none
		want   bool
	}{
		{200, []int{atMidday, meals + atMidday}, 0, false}, {201, []int{atMidday, meals + atMidday}, 0, true},
		{20, []int{atMidday, meals + atMidday}, 10, false}, {21, []int{atMidday, meals + atMidday}, 10, true}, {20, []int{atMidday, atEvening}, 10, true},
	} {
		one := &eater{count: 2, person: &nutrients.Person{AgeMonths: 400}, grams: map[*foods.Food]float64{fish: c.grams}}
		other := &eater{count: 1, person: one.person, grams: map[*foods.Food]float64{}}
		if c.limit > 0 {
			one.limits = limitOf(c.limit)
		}
		s := &stocked{food: fish, meal: true, grams: 2 * c.grams}
		if got := s.tooFew(&household{eaters: []*eater{other, one}}, c.places); got != c.want {
			t.Errorf("%+v: %v", c, got)
		}
	}
}

// limitOf is a most of a day that each gram of any food counts in.
func limitOf(most float64) []rules.Limit {
	return []rules.Limit{{Most: most, Days: 7, Counts: func(*foods.Food) float64 { return 100 }}, {Most: most, Days: 1, Counts: func(*foods.Food) float64 { return 1 }}}
}

// TestTightLimit: from six tenths of a most of a day on average small servings are what keeps
// the days under it: 6 g a day of 10 g are not yet more. A week's most says nothing, nor does
// what the food does not count in.
func TestTightLimit(t *testing.T) {
	f, g := &foods.Food{Name: "f"}, &foods.Food{Name: "g"}
	for _, c := range []struct {
		grams, other float64
		want         bool
	}{{84, 0, false}, {85, 0, true}, {42, 41, false}, {42, 43, true}} {
		e := &eater{limits: limitOf(10), grams: map[*foods.Food]float64{f: c.grams, g: c.other}}
		if got := e.isTight(f, 14); got != c.want {
			t.Errorf("%g g and %g g in 14 days of 10 g a day: tight %v, want %v", c.grams, c.other, got, c.want)
		}
		if got := e.dayMost(f); got != 10 {
			t.Errorf("%g g a day at most, want 10", got)
		}
	}
	e := &eater{limits: []rules.Limit{{Most: 1, Days: 1, Counts: func(*foods.Food) float64 { return 0 }}}, grams: map[*foods.Food]float64{f: 100}}
	if e.isTight(f, 14) || !math.IsInf(e.dayMost(f), 1) {
		t.Error("a limit in which it does not count")
	}
}

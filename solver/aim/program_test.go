package aim

import (
	"math"
	"slices"
	"testing"

	"rationwright/foods"
	"rationwright/foods/kinds"
	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// aimed is the second aim of one woman over so many days, with every weight, whose first
// aim comes to value.
func aimed(t *testing.T, days int, value, slack float64) *program {
	t.Helper()
	req := rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female))
	req.Days = days
	m, err := model.Build(ration.Filled(req))
	if err != nil {
		t.Fatal(err)
	}
	weights, err := ration.DefaultWeights()
	if err != nil {
		t.Fatal(err)
	}
	return newProgram(m, value, slack, weights)
}

// TestSlackIsSpentOnce: with 3 % on 200 the second aim may come to 206 and no more; with
// none to 200. A hundredth of the value counts as the weight of price says.
func TestSlackIsSpentOnce(t *testing.T) {
	for slack, most := range map[float64]float64{0: 200, 0.03: 206, 0.5: 300} {
		p := aimed(t, 14, 200, slack)
		at := slices.IndexFunc(p.model.Larder, func(lf *model.LarderFood) bool { return len(lf.Buy) > 0 })
		pack := p.model.Larder[at].Buy[0]
		row := -1
		for i := range p.Rows {
			if p.Rows[i].Name == "slack" {
				row = i
			}
		}
		if row < 0 || math.Abs(p.Rows[row].Upper-most) > 1e-9 {
			t.Fatalf("a slack of %g: row %d, want at most %g", slack, row, most)
		}
		per := 0.0
		for _, e := range p.Cols[pack.Col].Entries {
			if e.Row == row {
				per = e.Value
			}
		}
		if cost := p.model.Problem.Cols[pack.Col].Cost; per != cost || cost <= 0 {
			t.Errorf("a pack counts %g in the slack and costs %g", per, cost)
		}
		if got, want := p.Cols[pack.Col].Cost, 100*p.weights.Of(ration.AimPrice)/200*per; math.Abs(got-want) > 1e-12 {
			t.Errorf("a pack counts %g in the second aim, want %g", got, want)
		}
	}
}

// TestVarietyByDays: how many different foods of a kind are asked for holds for a
// fortnight: half as many for a week, no more for longer; and never more than there are.
func TestVarietyByDays(t *testing.T) {
	caps := rationtest.Table(t).HouseholdCaps(1)
	for days, share := range map[int]float64{7: 0.5, 14: 1, 28: 1} {
		p := aimed(t, days, 200, 0.03)
		tried := 0
		for _, c := range caps {
			if c.Measure != kinds.FoodsLeast || p.weights.OfKind(ration.AimVariety, c.Kind) == 0 {
				continue
			}
			var of []int
			for _, li := range p.in([]string{c.Kind}) {
				if _, may := p.eats[0][li]; may {
					of = append(of, li)
				}
			}
			want := math.Min(math.Round(c.Value*share), float64(len(of)))
			if want <= 0 {
				continue
			}
			tried++
			k := slices.IndexFunc(p.varieties, func(v variety) bool { return slices.Equal(v.foods, of) && v.least == want })
			if k < 0 {
				t.Errorf("%d days: nothing asks for %g of %s: %v", days, want, c.Kind, p.varieties)
				continue
			}
			if top := p.Cols[p.varieties[k].missing].Upper; top != want {
				t.Errorf("%d days: up to %g of %s may be missing, want %g", days, top, c.Kind, want)
			}
		}
		if tried == 0 {
			t.Errorf("%d days: no variety is asked for", days)
		}
	}
}

// TestCrumbsToTheLastGram: an amount is a crumb from a little over nothing to a little
// under the least, and no more.
func TestCrumbsToTheLastGram(t *testing.T) {
	s := &sharing{x: make([]float64, 1)}
	for grams, want := range map[float64]bool{0: false, model.Dust / 2: false, 1: true, 49: true, 51: true, 99.9: true, 100: false, 120: false} {
		s.x[0] = grams
		if got := s.isCrumb(share{least: 100, cap: 1000}); got != want {
			t.Errorf("%g g of at least 100 are a crumb: %v", grams, got)
		}
	}
}

// TestWhatAGramCounts: sodium counts for those only who are to have little of it, by its
// amount; bare salt, sugar and fat count for all.
func TestWhatAGramCounts(t *testing.T) {
	p := aimed(t, 14, 200, 0.03)
	salty, plain := &foods.Food{Per100g: nutrients.Unknown()}, &foods.Food{Per100g: nutrients.Unknown()}
	salty.Per100g[nutrients.Sodium], plain.Per100g[nutrients.Sodium] = 800, 0
	anybody, little := &model.Eater{}, &model.Eater{}
	little.Person.Conditions = []nutrients.Condition{nutrients.LowSodium}
	for _, c := range []struct {
		eater *model.Eater
		food  *foods.Food
		want  float64
	}{{anybody, salty, 0}, {anybody, plain, 0}, {little, plain, 0}, {little, salty, 8 * p.perMgSodium()}} {
		if got := p.perGram(c.eater, c.food); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("a gram at %g mg of sodium counts %g, want %g", c.food.Per100g[nutrients.Sodium], got, c.want)
		}
	}
	if p.perMgSodium() <= 0 {
		t.Error("sodium counts nothing")
	}
	bare := 0
	for _, w := range p.weights {
		if w.Part == ration.AimBare && w.Value > 0 {
			bare++
			if got := p.perGram(anybody, &foods.Food{Per100g: nutrients.Unknown(), Kinds: w.Kinds[:1]}); got < w.Value/100-1e-12 {
				t.Errorf("a gram of bare %s counts %g, want %g", w.Kinds[0], got, w.Value/100)
			}
		}
	}
	if bare == 0 {
		t.Error("nothing bare counts")
	}
}

// TestGramsOfAlikePeople: what a gram counts, it counts for each of the people that a row
// stands for: three alike count as three rows of one.
func TestGramsOfAlikePeople(t *testing.T) {
	costs := func(heads ...int) map[string]float64 {
		var people []nutrients.Person
		for i, n := range heads {
			p := rationtest.Adult([]string{"Signe", "Aud", "Siv"}[i], 30, nutrients.Female)
			p.Count = n
			people = append(people, p)
		}
		m, err := model.Build(ration.Filled(rationtest.Request(t, people...)))
		if err != nil {
			t.Fatal(err)
		}
		weights, err := ration.DefaultWeights()
		if err != nil {
			t.Fatal(err)
		}
		p := newProgram(m, 200, 0.03, weights)
		of := map[string]float64{}
		for _, e := range m.Eaters {
			for _, y := range e.Eats {
				of[m.Larder[y.Food].Food.Name] += p.Cols[y.Col].Cost
			}
		}
		return of
	}
	one, alike, apart := costs(1), costs(3), costs(1, 1, 1)
	counted := 0
	for food, cost := range one {
		if cost > 0 {
			counted++
		}
		if math.Abs(alike[food]-3*cost) > 1e-12 || math.Abs(apart[food]-3*cost) > 1e-12 {
			t.Errorf("a gram of %s counts %g for one, %g for three alike, %g for three apart", food, cost, alike[food], apart[food])
		}
	}
	if counted == 0 {
		t.Error("no gram counts: the test shows nothing")
	}
}

// TestWhatMayBeLeftOver, by hand: of packs of one size three quarters of a pack may be left
// over, of several sizes three quarters of the smallest that is bought, and of the
// largest where none is; more only where more is left over already.
func TestWhatMayBeLeftOver(t *testing.T) {
	packs := []model.PackCol{{Col: 0, Usable: 1000}, {Col: 1, Usable: 400}, {Col: 2, Usable: 2000}}
	for _, c := range []struct {
		counts [3]float64
		eaten  float64
		want   float64
	}{
		{[3]float64{0, 0, 0}, 0, 1500},
		{[3]float64{1, 0, 0}, 900, 750},
		{[3]float64{0, 1, 0}, 400, 300},
		{[3]float64{0, 0, 1}, 1900, 1500},
		{[3]float64{1, 1, 0}, 1300, 300},
		{[3]float64{1, 0, 2}, 4900, 750},
		{[3]float64{3, 2, 1}, 5700, 300},
		{[3]float64{3, 2, 1}, 5500, 300},
		{[3]float64{3, 2, 1}, 5499, 301}, // 5800 are there
		{[3]float64{1, 1, 0}, 400, 1000},
		{[3]float64{0, 1, 0}, 100, 300},
		{[3]float64{0, 1, 0}, 99, 301},
	} {
		r := &leftRow{packs: packs, left: []linear.Entry{{Row: 0, Value: 1000}, {Row: 1, Value: 400}, {Row: 2, Value: 2000}, {Row: 3, Value: -1}}}
		if got := r.most([]float64{c.counts[0], c.counts[1], c.counts[2], c.eaten}); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%v packs of 1000, 400 and 2000 g and %g g eaten: %g g may be left over, want %g", c.counts, c.eaten, got, c.want)
		}
	}
}

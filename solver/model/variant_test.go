package model_test

import (
	"math"
	"slices"
	"testing"

	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// small is a model of two people, of five foods, with a budget and a limit of heat, that makes the cost
// least.
func small(t *testing.T) *model.Model {
	t.Helper()
	signe, odd := rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Odd", 40, nutrients.Male)
	odd.Count = 2
	req := rationtest.Basics(t, signe, odd)
	of := func(pack string) string { return ration.FindPack(req, pack).Food.Name }
	req.Table = rationtest.SmallTable(t, of("white-rice-907g-bag"), of("peanut-butter-454g-jar"), of("canned-kidney-beans-439g-can"), "rolled oats", "hard candy")
	req.Standard, req.Least = nutrients.StandardRDA, ration.LeastCost
	budget, heat := 500.0, 9.0
	req.Limits.Budget, req.Limits.HeatMJ = &budget, &heat
	req.Shelves = []stores.Shelf{{Name: "board", WidthCm: 300, DepthCm: 60, HeightCm: 60, LoadKg: 500}}
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// TestVariantsChangeTheirRows: each variant of a model changes the ends of the rows that it is about as
// it says and no other; the model itself stays as it was.
func TestVariantsChangeTheirRows(t *testing.T) {
	m := small(t)
	base := slices.Clone(m.Problem.Rows)
	at := func(name string) int {
		i := rowNamed(m.Problem, name)
		if i < 0 {
			t.Fatalf("no row %s", name)
		}
		return i
	}
	low := func(name string) float64 { return base[at(name)].Lower }
	type ends map[string][2]float64
	planning := ends{}
	for i, info := range m.Rows {
		if info.Class == model.Planning {
			planning[base[i].Name] = [2]float64{-inf, inf}
		}
	}
	if len(planning) < 5 {
		t.Fatalf("%d planning rules", len(planning))
	}
	lower := *m // with lower floors of stored vitamins
	lower.Problem = m.Problem.Clone()
	lower.Problem.Rows[at("vitamin_d[Odd]")].Lower, lower.Problem.Rows[at("iron[Odd]")].Lower = 3, 4
	short := []ration.Shortfall{{Person: "Signe", Nutrient: "vitamin_d", Amount: 5}, {Person: "Odd", Nutrient: "vitamin_a", Amount: 1e9}, {Person: "Signe", Nutrient: "iron", Amount: 1}}
	stored := ends{}
	for _, who := range []string{"[Signe]", "[Odd]"} {
		for _, n := range []string{"vitamin_a", "vitamin_d", "vitamin_b12"} { // kept by the body for longer than a fortnight
			stored[n+who] = [2]float64{-inf, base[at(n+who)].Upper}
		}
	}
	for _, c := range []struct {
		name string
		of   *model.Model
		want ends
	}{
		{"without stored vitamins", model.WithoutStoredVitamins(m), stored},
		{"with a shortfall", model.WithShortfalls(m, short), ends{"vitamin_d[Signe]": {5 * 14 * (1 - ration.CheckTolerance), base[at("vitamin_d[Signe]")].Upper}}},
		{"with little sodium", model.WithSodium(m, map[string]float64{"Odd": 1500, "Arne": 1}), ends{"sodium[Odd]": {low("sodium[Odd]"), 1500 * 14}}},
		{"with more sodium than may be", model.WithSodium(m, map[string]float64{"Odd": 9e9}), ends{}},
		{"with nobody's sodium", model.WithSodium(m, nil), ends{}},
		{"without planning limits", model.WithoutPlanningLimits(m), planning},
		{"with the stored vitamins of another", model.WithStoredOf(m, &lower), ends{"vitamin_d[Odd]": {3, base[at("vitamin_d[Odd]")].Upper}}},
		{"with more water", model.WithMoreWater(m, 7), ends{"water-stored": {low("water-stored") + 7, inf}}},
		{"with other shelves", model.WithShelves(m, 11, 12), ends{"shelf-space": {-inf, 11}, "shelf-load": {-inf, 12}}},
		{"without a limit", model.WithoutLimit(m, at("budget")), ends{"budget": {-inf, inf}}},
	} {
		for i, r := range c.of.Problem.Rows {
			want, ok := c.want[r.Name]
			if !ok {
				want = [2]float64{base[i].Lower, base[i].Upper}
			}
			if !near(r.Lower, want[0]) || !near(r.Upper, want[1]) {
				t.Errorf("%s: %s %g to %g, want %g to %g", c.name, r.Name, r.Lower, r.Upper, want[0], want[1])
			}
		}
		if !slices.Equal(m.Problem.Rows, base) {
			t.Fatalf("%s: the model itself is changed", c.name)
		}
	}
}

// TestAims: what is made least: what a limit is on, a total of packs by the coefficients of that total,
// water or heat by itself; or the activity of a row.
func TestAims(t *testing.T) {
	m := small(t)
	row := func(name string) int { return rowNamed(m.Problem, name) }
	for _, c := range []struct {
		name string
		of   *linear.Problem
		want func(j int) float64
	}{
		{"the budget", model.AimedAtLimit(m, m.Rows[row("budget")]).Problem, func(j int) float64 { return m.Coefficient(j, ration.LeastCost) }},
		{"weight", model.AimedAtLimit(m, model.RowInfo{Total: ration.LeastWeight}).Problem, func(j int) float64 { return m.Coefficient(j, ration.LeastWeight) }},
		{"heat", model.AimedAtLimit(m, m.Rows[row("max-heat")]).Problem, func(j int) float64 {
			if j == m.Heat {
				return 1
			}
			return 0
		}},
		{"water", model.AimedAtLimit(m, model.RowInfo{On: model.OnWater}).Problem, func(j int) float64 {
			if j == m.Water {
				return 1
			}
			return 0
		}},
	} {
		for j, col := range c.of.Cols {
			if col.Cost != c.want(j) {
				t.Errorf("%s: %s costs %g, want %g", c.name, col.Name, col.Cost, c.want(j))
			}
		}
	}
	p := m.Problem.Clone()
	of := row("iron[Signe]")
	model.AimAtRow(p, of)
	some := 0
	for j, col := range p.Cols {
		want := 0.0
		for _, e := range m.Problem.Cols[j].Entries {
			if e.Row == of {
				want = e.Value
				some++
			}
		}
		if col.Cost != want {
			t.Errorf("iron: %s costs %g, want %g", col.Name, col.Cost, want)
		}
	}
	if some == 0 {
		t.Error("no food holds iron")
	}
	x := make([]float64, len(m.Cols))
	for j := range x {
		x[j] = 2.25
	}
	x[slices.IndexFunc(m.Problem.Cols, func(c linear.Col) bool { return c.Integer })] = 3 + 1e-12 // what rounds
	first := true
	for j, v := range m.PacksUp(x) {
		want := 2.25
		if m.Problem.Cols[j].Integer {
			if want = 3; first && v != 3 {
				t.Errorf("%g packs are rounded up to %g", x[j], v)
			}
			first = false
		}
		if v != want {
			t.Errorf("%s: %g becomes %g, want %g", m.Problem.Cols[j].Name, x[j], v, want)
		}
	}
}

// TestLoosenedRules: a planning rule that is loosened lies at its new amount, a share at its part of
// the energy, never under what it was; of somebody else, another kind or unit nothing changes. A point
// beyond a rule is told with its amount; one just at it is not.
func TestLoosenedRules(t *testing.T) {
	m := small(t)
	cap, share := -1, -1 // a rule of amounts and one of shares of Odd's
	for i, info := range m.Rows {
		if info.Class != model.Planning || m.Eaters[info.Eater].Person.Name != "Odd" {
			continue
		}
		if info.Kind == model.RowKindCap && info.Unit == "g" && info.Limit > 0 && cap < 0 {
			cap = i
		}
		if info.Kind == model.RowKindShare && share < 0 {
			share = i
		}
	}
	if cap < 0 || share < 0 {
		t.Fatal("no rules")
	}
	ofCap, ofShare := m.Rows[cap], m.Rows[share]
	energy := slices.IndexFunc(m.Problem.Cols, func(c linear.Col) bool { return c.Name == "energy-eaten[Odd]" })
	entry := func(p *linear.Problem, row, col int) float64 {
		v := 0.0
		for _, e := range p.Cols[col].Entries {
			if e.Row == row {
				v += e.Value
			}
		}
		return v
	}
	loosen := func(person, kind, unit string, amount float64) []ration.Loosened {
		return []ration.Loosened{{Person: person, Kind: kind, Unit: unit, Amount: amount}}
	}
	for _, c := range []struct {
		name       string
		list       []ration.Loosened
		cap, share float64 // a day; per cent
	}{
		{"nothing", nil, ofCap.Limit, ofShare.Limit},
		{"the amount", loosen("Odd", ofCap.Group, "g", 2*ofCap.Limit), 2 * ofCap.Limit, ofShare.Limit},
		{"the share", loosen("Odd", ofShare.Group, ration.PartOfEnergy, ofShare.Limit+5), ofCap.Limit, ofShare.Limit + 5},
		{"both", append(loosen("Odd", ofShare.Group, ration.PartOfEnergy, ofShare.Limit+5), loosen("Odd", ofCap.Group, "g", 3*ofCap.Limit)...), 3 * ofCap.Limit, ofShare.Limit + 5},
		{"to less", append(loosen("Odd", ofShare.Group, ration.PartOfEnergy, 1), loosen("Odd", ofCap.Group, "g", ofCap.Limit/2)...), ofCap.Limit, ofShare.Limit},
		{"of somebody else", loosen("Signe", ofCap.Group, "g", 9e3), ofCap.Limit, ofShare.Limit},
		{"in another unit", loosen("Odd", ofCap.Group, "cup-eq", 9e3), ofCap.Limit, ofShare.Limit},
		{"of another kind", loosen("Odd", "moon cheese", "g", 9e3), ofCap.Limit, ofShare.Limit},
	} {
		p := m.Raised(c.list).Problem
		if got := p.Rows[cap].Upper / 14; math.Abs(got/c.cap-1) > 1e-7 {
			t.Errorf("%s: at most %g g a day, want %g", c.name, got, c.cap)
		}
		if got := -100 * entry(p, share, energy); math.Abs(got/c.share-1) > 1e-7 {
			t.Errorf("%s: at most %g %% of energy, want %g", c.name, got, c.share)
		}
	}
	// A tenth of room beyond what is loosened, of all rules of who has one in the list.
	p := m.Roomier(loosen("Odd", ofCap.Group, "g", 2*ofCap.Limit), 0.1).Problem
	if cap, share := p.Rows[cap].Upper/14/ofCap.Limit, -100*entry(p, share, energy)/ofShare.Limit; math.Abs(cap-2.2) > 1e-6 || math.Abs(share-1.1) > 1e-6 {
		t.Errorf("with room the amount is %g times, the share %g times; want 2.2 and 1.1", cap, share)
	}
	for i, info := range m.Rows {
		if info.Kind == model.RowKindCap && m.Eaters[info.Eater].Person.Name == "Signe" && p.Rows[i].Upper != m.Problem.Rows[i].Upper {
			t.Errorf("%s of Signe is loosened", info.Group)
		}
	}
	// Odd eats one food of the rule alone, just its amount or a hundredth more.
	for _, over := range []float64{1, 1.01} {
		x := make([]float64, len(m.Cols))
		for j := range m.Cols {
			if v := entry(m.Problem, cap, j); v != 0 {
				x[j] = ofCap.Limit * 14 * over / v
				break
			}
		}
		told := -1.0
		for _, l := range m.Loosened(x) {
			if l.Person == "Odd" && l.Kind == ofCap.Group && l.Unit == "g" {
				if told = l.Amount; l.Limit != ofCap.Limit {
					t.Errorf("%+v, of a limit of %g", l, ofCap.Limit)
				}
			}
		}
		if over == 1 && told >= 0 || over > 1 && math.Abs(told-ofCap.Limit*over) > 1e-9 {
			t.Errorf("%g times the rule: told %g", over, told)
		}
	}
	// Of 1000 kcal of Odd's all, or nearly all, are of a food of the rule of shares, the rest of another:
	// he passes it by that part; one who eats nothing passes none.
	var in, other int
	for _, y := range m.Eaters[ofShare.Eater].Eats {
		if entry(m.Problem, share, y.Col) != 0 {
			in = y.Col
		} else {
			other = y.Col
		}
	}
	row := rowNamed(m.Problem, "energy-eaten[Odd]")
	for _, part := range []float64{0, ofShare.Limit, ofShare.Limit + 1, 90, 100} {
		x := make([]float64, len(m.Cols))
		x[in], x[other] = part*10/entry(m.Problem, row, in), (1000-part*10)/entry(m.Problem, row, other)
		told := -1.0
		for _, l := range m.Loosened(x) {
			if l.Person == "Odd" && l.Kind == ofShare.Group && l.Unit == ration.PartOfEnergy {
				told = l.Amount
			}
		}
		if passes := part > ofShare.Limit; passes != (told >= 0) || passes && math.Abs(told-part) > 1e-9 {
			t.Errorf("%g %% of %s, of at most %g: told %g", part, ofShare.Group, ofShare.Limit, told)
		}
	}
	if list := m.Loosened(make([]float64, len(m.Cols))); len(list) > 0 {
		t.Errorf("of nothing %v", list)
	}
	if !m.HasPlanning() {
		t.Error("it has planning rules")
	}
	free, err := m.WithoutPlanning()
	if err != nil || free.HasPlanning() || !free.Request.IgnoreEatable || m.Request.IgnoreEatable {
		t.Errorf("without planning rules: %v, %v", free.HasPlanning(), err)
	}
	plan := &ration.Plan{Eatable: &ration.Eatable{Loosened: loosen("Odd", ofCap.Group, "g", 2*ofCap.Limit)}}
	if built, err := model.BuildFor(m.Request, plan); err != nil || math.Abs(built.Problem.Rows[cap].Upper/14/ofCap.Limit-2) > 1e-7 {
		t.Errorf("built for a plan: %v", err)
	}
	if built, err := model.BuildFor(m.Request, &ration.Plan{}); err != nil || built.Problem.Rows[cap].Upper != m.Problem.Rows[cap].Upper {
		t.Errorf("built for a plan that loosens nothing: %v", err)
	}
}

// TestLeastThatIsNeeded: the least energy of all heads over the days; the unit of what is made least;
// the cheapest gram of a food by the cost of its packs.
func TestLeastThatIsNeeded(t *testing.T) {
	m := small(t)
	want := 0.0
	for _, e := range m.Eaters {
		for _, n := range e.Needs.List {
			if n.Nutrient == nutrients.Energy {
				want += e.Count * 14 * n.Floor.Amount
			}
		}
	}
	if got := m.NeededKcal(); !near(got, want) || want == 0 {
		t.Errorf("%g kcal, want %g", got, want)
	}
	for least, unit := range map[ration.Least]string{ration.LeastCost: m.Currency(), ration.LeastWeight: "kg", ration.LeastVolume: "L"} {
		of, req := *m, *m.Request
		req.Least, of.Request = least, &req
		if of.Unit() != unit || unit == "" {
			t.Errorf("least %s in %q, want %q", least, of.Unit(), unit)
		}
	}
	for _, lf := range m.Larder {
		if len(lf.Buy) < 2 {
			continue
		}
		for dear := range lf.Buy {
			got, col := lf.GramCost(func(j int) float64 { // one pack is half as dear by the gram
				for i, k := range lf.Buy {
					if k.Col == j && i == dear {
						return k.Usable
					} else if k.Col == j {
						return 2 * k.Usable
					}
				}
				return 0
			})
			if got != 1 || col != lf.Buy[dear].Col {
				t.Errorf("%s: %g a gram of column %d, want 1 of %d", lf.Food.Name, got, col, lf.Buy[dear].Col)
			}
		}
	}
	none := &model.LarderFood{}
	if got, col := none.GramCost(nil); got != model.Inf || col != -1 {
		t.Errorf("of no pack %g, %d", got, col)
	}
	entries := model.Merged([]linear.Entry{{Row: 3, Value: 1}, {Row: 1, Value: 2}, {Row: 3, Value: 4}, {Row: 2, Value: 5}, {Row: 2, Value: -5}})
	if want := []linear.Entry{{Row: 1, Value: 2}, {Row: 3, Value: 5}}; !slices.Equal(entries, want) {
		t.Errorf("%v, want %v", entries, want)
	}
}

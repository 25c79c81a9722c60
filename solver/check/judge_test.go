package check

import (
	"context"
	"errors"
	"math"
	"slices"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/elastic"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
	"rationwright/solver/verify"
)

// alone is the model of what people have of a small shop, and of nothing else.
func alone(t *testing.T, standard nutrients.Standard, days int, rows []string, people ...nutrients.Person) *model.Model {
	t.Helper()
	small := rationtest.SmallTable(t, rationtest.SmallShop...)
	req := &ration.Request{
		People: people, Table: small, Start: "2026-11-25", Days: days, Time: time.Minute, Standard: standard, Least: ration.LeastCost,
		StockOnly: true, IgnoreEatable: true, Stock: rationtest.StockOf(t, small, rows...).Lines,
	}
	m, err := model.Build(ration.Filled(req))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func judged(t *testing.T, m *model.Model) *StockCheck {
	t.Helper()
	out := &StockCheck{}
	if err := out.judge(t.Context(), m); err != nil {
		t.Fatal(err)
	}
	return out
}

// TestShortOfEachNeed: what a stock of rice and oil for ten days is short of is, of each person,
// every need that gets less than its floor, as much as it gets and no other; what matters more
// first, of what matters alike that which is the smallest part of its floor.
func TestShortOfEachNeed(t *testing.T) {
	m := alone(t, nutrients.StandardRDA, 10, []string{"white-rice-907g-bag,6,,,,", "sunflower-oil-0.5l-bottle,1,,,,", "canned-kidney-beans-439g-can,2,,,,"},
		rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Torgeir", 40, nutrients.Male))
	little := 5.0
	req := *m.Request
	req.Limits.WaterL = &little
	m, err := model.Build(&req)
	if err != nil {
		t.Fatal(err)
	}
	out := judged(t, m)
	if water := (StockShort{Nutrient: ration.ShortWater, Unit: "L", Amount: 0.5, Floor: out.WaterNeededL / 10}); !slices.Contains(out.Short, water) || water.Floor <= 0.5 {
		t.Errorf("short of %+v, want %+v of the water on hand", out.Short, water)
	}
	type key struct{ person, nutrient string }
	listed := map[key]StockShort{}
	for i, s := range out.Short {
		listed[key{s.Person, s.Nutrient}] = s
		if i == 0 {
			continue
		}
		before := out.Short[i-1]
		if a, b := elastic.Rank(before.Nutrient), elastic.Rank(s.Nutrient); a > b || a == b && before.Amount/before.Floor > s.Amount/s.Floor {
			t.Errorf("%+v stands before %+v", before, s)
		}
	}
	short := 0
	for _, p := range out.People {
		for _, n := range p.Needs {
			s, ok := listed[key{p.Name, n.Nutrient}]
			if n.Nutrient == nutrients.Energy.Name() || n.Nutrient == nutrients.Iron.Name() || n.Nutrient == nutrients.Calcium.Name() {
				if lacks := n.Amount < *n.Floor*(1-1e-6); lacks != ok || lacks && (math.Abs(s.Amount-n.Amount) > 1e-6*n.Amount || math.Abs(s.Floor-*n.Floor) > 1e-6**n.Floor || s.Unit != n.Unit || s.Ceiling != 0) {
					t.Errorf("%s gets %g of %g %s %s, said %+v", p.Name, n.Amount, *n.Floor, n.Unit, n.Nutrient, s)
				}
			}
			if ok {
				short++
			}
		}
	}
	if len(out.People) != 2 || short < 10 || short > len(out.Short) || out.Days != 0 || out.Balanced || out.First == "" || out.WaterNeededL <= 0 {
		t.Errorf("%d people, %d needs are short: %+v", len(out.People), short, out)
	}
	if want := caloriesLast(m); want <= 0 || out.DaysCalories != want {
		t.Errorf("calories last %g days, want %g", out.DaysCalories, want)
	}
}

// TestEnergyDaysByHand: six foods last by their energy for as many days as hold the
// floor of the energy, of each food no more than a day's most: counted by the table alone.
func TestEnergyDaysByHand(t *testing.T) {
	signe := rationtest.Adult("Signe", 30, nutrients.Female)
	m := alone(t, nutrients.StandardBasic, 14, []string{
		"white-rice-907g-bag,3,,,,", "rolled-oats-510g-canister,2,,,,", "sunflower-oil-0.5l-bottle,1,,,,", "canned-kidney-beans-439g-can,9,,,,", "peanut-butter-454g-jar,2,,,,", "sugar-454g-bag,1,,,,",
	}, signe)
	floor := 0.0
	for _, n := range m.Eaters[0].Needs.List {
		if n.Nutrient == nutrients.Energy {
			floor = n.Floor.Amount
		}
	}
	days := 0
	for holds := true; holds && days < 365; days++ {
		kcal := 0.0
		for _, l := range m.Request.Stock {
			f := l.Pack.Food
			_, day, _ := foods.Cap(&signe, f)
			kcal += math.Min(l.Count*l.Pack.NetG, day*float64(days+1)) * rationtest.Kcal(f) / 100
		}
		holds = kcal >= floor*float64(days+1)
		if !holds {
			break
		}
	}
	if got := judged(t, m); got.DaysEnergy != days || days < 5 {
		t.Errorf("energy for %d days, want %d, of %v", got.DaysEnergy, days, got.People[0].Foods)
	}
}

// TestPlentyLastsAYear: what lasts for the longest horizon that is looked at runs out of nothing;
// what is of use for all of it is balanced, and none of it short.
func TestPlentyLastsAYear(t *testing.T) {
	var rows []string
	for _, pack := range rationtest.SmallShop {
		rows = append(rows, pack+",3000,,,,")
	}
	out := judged(t, alone(t, nutrients.StandardBasic, 14, rows, rationtest.Adult("Signe", 30, nutrients.Female)))
	if out.Days != 365 || out.DaysEnergy != 365 || !out.Balanced || out.First != "" || len(out.Short) > 0 || len(out.Unsettled) > 0 {
		t.Errorf("%d days, %d by energy, balanced %v, first %q, short of %v, unsettled %v", out.Days, out.DaysEnergy, out.Balanced, out.First, out.Short, out.Unsettled)
	}
	// All of it is good to one day, and runs out with it: of the longest horizon nothing does.
	for _, c := range []struct {
		date     string
		days     int
		balanced bool
		first    string
	}{{"2026-12-08", 14, true, "energy after day 14 (Signe)"}, {"2026-12-07", 13, false, "energy after day 13 (Signe)"}, {"2027-11-24", 365, true, ""}, {"2027-11-23", 364, true, "energy after day 364 (Signe)"}} {
		var dated []string
		for _, pack := range rationtest.SmallShop {
			dated = append(dated, pack+",3000,"+c.date+",,,")
		}
		out := judged(t, alone(t, nutrients.StandardBasic, 14, dated, rationtest.Adult("Signe", 30, nutrients.Female)))
		if out.Days != c.days || out.DaysEnergy != c.days || out.Balanced != c.balanced || out.First != c.first || (len(out.Short) == 0) != c.balanced {
			t.Errorf("good to %s: %d days, %d by energy, balanced %v, first %q, short of %v", c.date, out.Days, out.DaysEnergy, out.Balanced, out.First, out.Short)
		}
	}
}

// TestTooLittleSugarToSetAside: where all needs are met and a bag of sugar holds fewer doses than
// are set aside against a low, that alone is short: the 30 whole doses of 15 g of a bag of 454 g
// that is all sugar (USDA, sugars, granulated: 99.8 g of 100 g).
func TestTooLittleSugarToSetAside(t *testing.T) {
	ola := rationtest.Adult("Ola", 40, nutrients.Male)
	ola.Conditions, ola.Count = []nutrients.Condition{nutrients.Diabetes1}, 4
	var rows []string
	for _, pack := range rationtest.SmallShop {
		if pack != "sugar-454g-bag" {
			rows = append(rows, pack+",3000,,,,")
		}
	}
	m := alone(t, nutrients.StandardBasic, 14, append(rows, "sugar-454g-bag,1,,,,"), ola)
	out := judged(t, m)
	want := []StockShort{{Nutrient: ration.ShortReserve, Unit: "doses", Amount: 30, Floor: m.Doses()}}
	if m.Doses() <= 30 || out.Balanced || out.Days != 365 || !slices.Equal(out.Short, want) {
		t.Errorf("balanced %v for %d days, short of %+v, want %+v", out.Balanced, out.Days, out.Short, want)
	}
	m = alone(t, nutrients.StandardBasic, 14, append(rows, "sugar-454g-bag,30,,,,"), ola)
	if out := judged(t, m); !out.Balanced || len(out.Short) > 0 {
		t.Errorf("30 bags: balanced %v, short of %+v", out.Balanced, out.Short)
	}
	// Among needs that matter alike, of the recommended amounts, its place is by its part, 30 of 40.
	out = judged(t, alone(t, nutrients.StandardRDA, 14, append(rows, "sugar-454g-bag,1,,,,"), ola))
	place := slices.IndexFunc(out.Short, func(s StockShort) bool { return s.Nutrient == ration.ShortReserve })
	after := 0
	for i, s := range out.Short {
		if part := s.Amount / s.Floor; elastic.Rank(s.Nutrient) == 3 && (i < place && part > 0.75 || i > place && part < 0.75) {
			t.Errorf("%+v stands in place %d, the doses in place %d", s, i, place)
		}
		if i > place {
			after++
		}
	}
	if place < 0 || after == 0 {
		t.Errorf("short of %+v: the test shows nothing", out.Short)
	}
}

// TestNoTimeIsSaid: where the time is up before it is known whether the stock is balanced, it is
// not said either way.
func TestNoTimeIsSaid(t *testing.T) {
	over, stop := context.WithDeadline(t.Context(), time.Now().Add(-time.Second))
	defer stop()
	out := &StockCheck{Taken: []string{"rice: white rice"}}
	m := alone(t, nutrients.StandardBasic, 14, []string{"white-rice-907g-bag,9,,,,"}, rationtest.Adult("Signe", 30, nutrients.Female))
	if err := out.judge(over, m); !errors.Is(err, ration.ErrNoPlan) || out.Balanced || !slices.Equal(out.Unsettled, []string{"for how many days more than 0 the stock meets every need"}) {
		t.Errorf("balanced %v, unsettled %q, %v", out.Balanced, out.Unsettled, err)
	}
}

// TestNobodyIsFedFromAStock: of a household whom a clinician must feed, a stock is said to feed
// nobody, what each line was taken for is told, and nothing is bought.
func TestNobodyIsFedFromAStock(t *testing.T) {
	ola := rationtest.Adult("Ola", 40, nutrients.Male)
	ola.Conditions = []nutrients.Condition{nutrients.TubeFeeding}
	small := rationtest.SmallTable(t, rationtest.SmallShop...)
	req := &ration.Request{
		People: []nutrients.Person{ola}, Table: small, Start: "2026-11-25", Days: 9, Time: time.Minute,
		Stock: rationtest.StockOf(t, small, "white-rice-907g-bag,2,,,,", "sugar-454g-bag,3,2026-11-27,,,").Lines,
	}
	req.Stock[0].Taken, req.Stock[1].Taken = "rice: white rice", "sugar: white sugar"
	water, heat := 12.0, 3.0
	req.StockWaterL, req.StockHeatMJ = &water, &heat
	out, err := Check(t.Context(), req, nil)
	if err != nil {
		t.Fatal(err)
	}
	if out.Horizon != 9 || out.Balanced || out.Days != 0 || len(out.Refused) != 1 || out.Refused[0].Name != "Ola" || *out.WaterOnHandL != 12 || *out.HeatOnHandMJ != 3 || out.Currency == "" {
		t.Errorf("%+v", out)
	}
	if !slices.Equal(out.Taken, []string{"rice: white rice", "sugar: white sugar"}) {
		t.Errorf("taken for %q", out.Taken)
	}
	const nobody = "nobody here is fed from it"
	if want := []Useless{{"white-rice-907g-bag", req.Stock[0].Pack.Food.Name, 2, nobody}, {"sugar-454g-bag", req.Stock[1].Pack.Food.Name, 3, nobody}}; !slices.Equal(out.Useless, want) {
		t.Errorf("useless: %+v, want %+v", out.Useless, want)
	}
	if len(out.EatBy) != 1 || out.EatBy[0].Day != 3 || out.EatBy[0].EatenG != 0 || len(out.Buy) > 0 || out.BuyCost != nil {
		t.Errorf("eat by %+v, buy %+v", out.EatBy, out.Buy)
	}
	req.Cook = "fry"
	if _, err := Check(t.Context(), &ration.Request{Table: small}, nil); !errors.Is(err, ration.ErrNobody) {
		t.Errorf("nobody at all: %v", err)
	}
}

// needless takes packs away as is said: the dearest first, one at a time while there is a ration of
// what is left, by the relaxation with all rows in.
func needless(t *testing.T, m *model.Model, x []float64) []float64 {
	t.Helper()
	p := m.Problem.Clone()
	m.FixPacks(p, x)
	var bought []model.PackCol
	for _, lf := range m.Larder {
		for _, k := range append(slices.Clone(lf.Buy), lf.Reserve...) {
			if k.Line < 0 {
				bought = append(bought, k)
			}
		}
	}
	slices.SortStableFunc(bought, func(a, b model.PackCol) int {
		switch ca, cb := m.Problem.Cols[a.Col].Cost, m.Problem.Cols[b.Col].Cost; {
		case ca > cb:
			return -1
		case ca < cb:
			return 1
		}
		return 0
	})
	left := slices.Clone(x)
	for _, k := range bought {
		for left[k.Col] > 0 {
			p.Cols[k.Col].Lower, p.Cols[k.Col].Upper = left[k.Col]-1, left[k.Col]-1
			if ok, err := rationtest.WholeFeasible(t, p); err != nil {
				t.Fatal(err)
			} else if !ok {
				p.Cols[k.Col].Lower, p.Cols[k.Col].Upper = left[k.Col], left[k.Col]
				break
			}
			left[k.Col]--
		}
	}
	return left
}

// TestNeedlessPacksGoTheDearestFirst: of a dozen of each pack as many go as are not needed, the
// dearest first; of the packs set aside against a low as well.
func TestNeedlessPacksGoTheDearestFirst(t *testing.T) {
	ola := rationtest.Adult("Ola", 40, nutrients.Male)
	ola.Conditions = []nutrients.Condition{nutrients.Diabetes1}
	req := &ration.Request{
		People: []nutrients.Person{ola}, Table: rationtest.SmallTable(t, append(slices.Clone(rationtest.SmallShop), "hard-candy-198g-bag")...), Start: "2026-11-25", Days: 3, Time: time.Minute,
		Standard: nutrients.StandardBasic, Least: ration.LeastCost, IgnoreEatable: true,
	}
	m, err := model.Build(ration.Filled(req))
	if err != nil {
		t.Fatal(err)
	}
	x := make([]float64, len(m.Cols))
	x[m.Water], x[m.Heat] = 300, 300 // as much as the food may take
	aside := 0
	for _, lf := range m.Larder {
		for _, k := range lf.Buy {
			x[k.Col] = 12
		}
		for _, k := range lf.Reserve {
			x[k.Col] = 3
			aside++
		}
	}
	if aside == 0 {
		t.Fatal("nothing can be set aside")
	}
	want, got := needless(t, m, x), withoutNeedless(t.Context(), m, x)
	gone := 0
	for j, c := range m.Problem.Cols {
		if c.Integer && math.Round(got[j]) != want[j] {
			t.Errorf("%g of %s stay, want %g", got[j], c.Name, want[j])
		}
		if c.Integer && want[j] < x[j] {
			gone++
		}
	}
	if gone < 5 {
		t.Errorf("%d packs go: the test shows nothing", gone)
	}
	if missed, err := m.Problem.Check(got, search.LimitTolerance); err != nil || len(missed) > 0 {
		t.Errorf("what is left is no ration: %v, %v", missed, err)
	}
}

// TestOwnPacksAreEatenOrSetAside: what is set aside of a line of the stock is not eaten, and of the
// points with what is bought that which weighs least is taken.
func TestOwnPacksAreEatenOrSetAside(t *testing.T) {
	ola := rationtest.Adult("Ola", 40, nutrients.Male)
	ola.Conditions = []nutrients.Condition{nutrients.Diabetes1}
	heavy := 400.0
	for _, limit := range []*float64{nil, &heavy} { // a limit on a sum of packs changes how it is sought
		small := rationtest.SmallTable(t, rationtest.SmallShop...)
		var rows []string
		for _, pack := range rationtest.SmallShop {
			rows = append(rows, pack+",30,,,,")
		}
		req := &ration.Request{
			People: []nutrients.Person{ola}, Table: small, Start: "2026-11-25", Days: 3, Time: time.Minute, Limits: ration.Limits{WeightKg: limit},
			Standard: nutrients.StandardBasic, Least: ration.LeastCost, IgnoreEatable: true, Stock: rationtest.StockOf(t, small, rows...).Lines,
		}
		m, err := model.Build(ration.Filled(req))
		if err != nil {
			t.Fatal(err)
		}
		x := make([]float64, len(m.Cols))
		x[m.Water], x[m.Heat] = 300, 300
		var sugar *model.LarderFood
		for _, lf := range m.Larder {
			for _, k := range lf.Buy {
				x[k.Col] = 4
			}
			for _, k := range lf.Reserve {
				if k.Line >= 0 {
					x[k.Col], sugar = 29, lf
				}
			}
		}
		if sugar == nil || m.HasTotals() != (limit != nil) {
			t.Fatalf("no sugar can be set aside, or a sum of packs is limited: %v", m.HasTotals())
		}
		got := withoutNeedless(t.Context(), m, x)
		if missed, err := m.Problem.Check(got, search.LimitTolerance); err != nil || len(missed) > 0 {
			t.Errorf("what is left is no ration: %v, %v", missed, err)
		}
		p := m.Problem.Clone()
		for _, lf := range m.Larder {
			for _, k := range lf.Buy {
				if got[k.Col] != 0 {
					t.Errorf("%g of %s are bought, with 30 in stock", got[k.Col], k.Pack.Key)
				}
				p.Cols[k.Col].Upper = 0
			}
			for _, k := range lf.Reserve {
				if n := math.Round(got[k.Col]); k.Line >= 0 && n != 29 || k.Line < 0 && n != 0 {
					t.Errorf("%g of %s are set aside, line %d", n, k.Pack.Key, k.Line)
				}
				p.Cols[k.Col].Lower, p.Cols[k.Col].Upper = math.Round(got[k.Col]), math.Round(got[k.Col])
			}
		}
		weighs := func(x []float64) float64 {
			kg := 0.0
			for j := range m.Cols {
				kg += m.Coefficient(j, ration.LeastWeight) * x[j]
			}
			return kg
		}
		for j := range p.Cols {
			p.Cols[j].Cost = m.Coefficient(j, ration.LeastWeight)
		}
		least := search.Run(t.Context(), p, search.Options{Gap: 1e-3, MinDenom: 1, Work: 20000})
		if least.X == nil || weighs(got) > least.Value*(1+3e-3) || weighs(got) < least.Bound*(1-1e-6) {
			t.Errorf("what is taken weighs %g kg, the least is %g to %g kg", weighs(got), least.Bound, least.Value)
		}
	}
}

// TestQuickCompletion: where the work is limited, what completes a stock is searched for quickly:
// the plan keeps the independent check, its bound is no more than its value, and what its packs
// cost is what is bought.
func TestQuickCompletion(t *testing.T) {
	small := rationtest.SmallTable(t, rationtest.SmallShop...)
	req := &ration.Request{
		People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female)}, Table: small, Start: "2026-11-25", Days: 5, Time: time.Minute, Work: 3000,
		Standard: nutrients.StandardBasic, IgnoreEatable: true, Within: 0.02, Stock: rationtest.StockOf(t, small, "white-rice-907g-bag,2,,,,").Lines,
	}
	out := checked(t, req)
	if out.Balanced || out.TopUp == nil || out.TopUp.Totals == nil || out.BuyCost == nil || len(out.Buy) == 0 {
		t.Fatalf("%+v", out)
	}
	for _, v := range verify.Check(rationtest.Loaded(out.TopUp, t, req), out.TopUp) {
		t.Error(v)
	}
	cost := 0.0
	for _, b := range out.Buy {
		cost += b.Cost
	}
	p := out.TopUp
	if math.Abs(cost-*out.BuyCost) > 1e-9 || math.Abs(cost-p.Totals.Food.Cost) > 1e-9 || p.Bound == nil || *p.Bound > *p.Value+1e-9 || *p.Bound < *p.Value*0.9 || out.WaterNeededL != p.Totals.WaterL || out.HeatNeededMJ != p.Totals.HeatMJ || p.Least != ration.LeastCost {
		t.Errorf("bought for %g, said %g, food for %g; value %v, bound %v, least %s", cost, *out.BuyCost, p.Totals.Food.Cost, *p.Value, *p.Bound, p.Least)
	}
}

// TestShortOfWaterToTheTolerance: of 20 L on hand, as of a half, more than a millionth beyond it is
// short, of one at least, and what is told is the litres of a day of ten.
func TestShortOfWaterToTheTolerance(t *testing.T) {
	for _, c := range []struct {
		have, over float64
		short      bool
	}{{20, 1.9e-5, false}, {20, 20e-6, false}, {20, 2.1e-5, true}, {0.5, 0.95e-6, false}, {0.5, 1.05e-6, true}, {1, 1e-6, false}, {20, 5, true}, {20, -5, false}} {
		m := alone(t, nutrients.StandardBasic, 10, []string{"white-rice-907g-bag,2,,,,"}, rationtest.Adult("Signe", 30, nutrients.Female))
		req := *m.Request
		req.Limits = ration.Limits{WaterL: &c.have, HeatMJ: &c.have}
		m, err := model.Build(&req)
		if err != nil {
			t.Fatal(err)
		}
		x := make([]float64, len(m.Cols))
		x[m.Eaters[0].Eats[0].Col] = 500 // out of no pack, which is no matter here
		x[m.Water], x[m.Heat] = c.have+c.over, c.have+c.over
		if c.over == 20e-6 || c.over == 1e-6 { // just at it
			x[m.Water] = c.have + search.ShortTolerance*c.have
			x[m.Heat] = x[m.Water]
		}
		want := []StockShort{}
		if c.short {
			want = []StockShort{
				{Nutrient: ration.ShortWater, Unit: "L", Amount: c.have / 10, Floor: (c.have + c.over) / 10},
				{Nutrient: ration.ShortHeat, Unit: "MJ", Amount: c.have / 10, Floor: (c.have + c.over) / 10},
			}
		}
		got := slices.DeleteFunc(shortages(m, x), func(s StockShort) bool { return s.Person != "" || s.Nutrient == ration.ShortWashing })
		if !slices.Equal(got, want) {
			t.Errorf("%g beyond %g: %+v, want %+v", c.over, c.have, got, want)
		}
	}
}

// TestWaterOnHandLimitsTheDays: with food for all days and 2 L of water and 0.5 MJ on hand the water
// runs out first, within the first days, and what of both is lacking is bought at least to a unit.
func TestWaterOnHandLimitsTheDays(t *testing.T) {
	small := rationtest.SmallTable(t, rationtest.SmallShop...)
	var rows []string
	for _, pack := range rationtest.SmallShop {
		rows = append(rows, pack+",30,,,,")
	}
	water, heat := 2.0, 0.5
	req := &ration.Request{
		People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female)}, Table: small, Start: "2026-11-25", Days: 5, Time: time.Minute, Work: 3000,
		Standard: nutrients.StandardBasic, IgnoreEatable: true, Within: 0.02, Stock: rationtest.StockOf(t, small, rows...).Lines, StockWaterL: &water, StockHeatMJ: &heat,
	}
	out := checked(t, req)
	if out.Balanced || out.Days > 1 || out.First != "stored water" || !slices.ContainsFunc(out.Short, func(s StockShort) bool { return s.Nutrient == ration.ShortWater && s.Amount == water/5 }) {
		t.Errorf("balanced %v for %d days, first %q, short of %+v", out.Balanced, out.Days, out.First, out.Short)
	}
	bought := 0
	for _, b := range out.Buy {
		if b.Pack == "water" {
			bought = b.Count
		}
	}
	if lacks := out.TopUp.Totals.WaterL - 2; float64(bought) < lacks-1e-6 || float64(bought) >= lacks+1 {
		t.Errorf("%d L are bought, %g are lacking", bought, lacks)
	}
}

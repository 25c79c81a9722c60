package check

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/elastic"
	"rationwright/solver/model"
	"rationwright/solver/plantest"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/referee"
	"rationwright/solver/verify"
)

// Days of supply are what trying one horizon after another gives; the last day
// that fits and the first that does not are decided by the referee as well.
func TestDaysAgreeWithTryingEachDay(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 2026))
	all := rationtest.Table(t)
	bases := [][]string{
		{"white-rice-2268g-bag", "canned-kidney-beans-439g-can", "sunflower-oil-0.5l-bottle", "light-tuna-oil-142g-can", "saltines-454g-box", "pasta-sauce-425g-can", "pasta-454g-bag", "peanut-butter-454g-jar"},
		{"pasta-907g-box", "canned-chickpeas-439g-can", "tomatoes-411g-can", "peanut-butter-454g-jar", "rye-crispbread-500g-box", "canned-chicken-354g-can", "whole-wheat-crackers-255g-box", "beef-stew-425g-can"},
		{"rolled-oats-510g-canister", "whole-dry-milk-360g-can", "raisins-340g-bag", "sardines-oil-106g-can", "baked-beans-454g-can", "chili-with-beans-425g-can", "meat-ravioli-425g-can", "granola-bars-420g-box"},
	}
	ends := map[int]int{}
	for n := range 6 * *rationtest.Campaign {
		var rows []string
		for _, key := range bases[n%len(bases)] {
			row := fmt.Sprintf("%s,%d", key, 2+rng.IntN(18))
			switch rng.IntN(9) {
			case 0:
				row += fmt.Sprintf(",2026-%02d-%02d", 11+rng.IntN(2), 1+rng.IntN(28))
			case 1:
				row += ",,2026-11-24"
			}
			rows = append(rows, row+strings.Repeat(",", 5-strings.Count(row, ",")))
		}
		req := &ration.Request{
			People: []nutrients.Person{rationtest.Adult("Signe", 30+rng.IntN(50), nutrients.Female)}, Table: all, IgnoreEatable: true, StockOnly: true,
			Standard: nutrients.StandardBasic, Stock: rationtest.StockOf(t, all, rows...).Lines, Start: "2026-11-25",
		}
		if n%2 == 1 {
			req.People = append(req.People, rationtest.Adult("Torgeir", 20+rng.IntN(40), nutrients.Male))
		}
		for _, kind := range []struct {
			name   string
			loosen func(*model.Model) *model.Model
		}{{"needs", forNeeds}, {"energy", forEnergy}} {
			days, err := longest(context.Background(), ration.Filled(req), kind.loosen)
			if err != nil {
				t.Fatal(err)
			}
			ends[days.fits]++
			for d := 1; d <= days.fits+3; d++ {
				m, err := buildFor(req, d)
				if err != nil {
					t.Fatal(err)
				}
				m = kind.loosen(m)
				want, err := rationtest.WholeFeasible(t, m.Problem)
				if err != nil {
					t.Fatal(err)
				}
				if got := d <= days.fits; got != want {
					t.Errorf("stock %v: %s for %d days: found %d days, this day alone says %v", rows, kind.name, d, days.fits, want)
				}
				if d != days.fits && d != days.fits+1 {
					continue
				}
				if second := rationtest.FitsByReferee(t, m.Problem); second != want {
					t.Errorf("stock %v: %s for %d days: %v, the referee says %v", rows, kind.name, d, want, second)
				}
			}
		}
	}
	t.Logf("horizons found: %v", ends)
	if len(ends) < 4 {
		t.Error("the stocks end nearly all on the same day: the test shows little")
	}
}

// A stock with whole packs: what the relaxation says lasts is eaten from whole
// packs, and the plan made of it passes the independent check.
func TestStockAloneMakesAPlanForItsDays(t *testing.T) {
	all := rationtest.Table(t)
	req := &ration.Request{
		People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female)}, Table: all, IgnoreEatable: true, StockOnly: true,
		Standard: nutrients.StandardBasic, Start: "2026-11-25", Least: ration.LeastWeight, Time: time.Minute, Within: 0.5,
		Stock: rationtest.StockOf(t, all, "white-rice-907g-bag,3,,,,", "canned-kidney-beans-439g-can,6,,,,", "sunflower-oil-0.5l-bottle,2,,,,",
			"light-tuna-oil-142g-can,8,2026-11-29,,,", "saltines-454g-box,2,,,,").Lines,
	}
	days, err := longest(context.Background(), ration.Filled(req), forNeeds)
	if err != nil {
		t.Fatal(err)
	}
	if days.fits < 2 {
		t.Fatalf("the stock lasts %d days: the test shows nothing", days)
	}
	for d, want := range map[int]string{days.fits: ration.StatusOptimal, days.fits + 1: ration.StatusInfeasible} {
		req.Days = d
		plan := plantest.MustMake(t, req)
		if plan.Status != want {
			t.Errorf("%d days: status %s, want %s", d, plan.Status, want)
		}
		if want == ration.StatusOptimal {
			for _, v := range verify.Check(req, plan) {
				t.Errorf("%d days: %v", d, v)
			}
		}
	}
}

// What is bought completes the stock, and each pack bought is needed: without
// it there is no ration that costs as little.
func TestTopUpCompletesTheStock(t *testing.T) {
	all := rationtest.SmallTable(t, rationtest.SmallShop...)
	req := &ration.Request{
		People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female)}, Table: all, IgnoreEatable: true, Standard: nutrients.StandardBasic,
		Start: "2026-11-25", Time: time.Minute, Within: 0.02,
		Stock: rationtest.StockOf(t, all, "white-rice-907g-bag,2,,,,", "peanut-butter-454g-jar,1,2026-11-30,,,", "tomatoes-411g-can,4,2026-11-01,,,").Lines,
	}
	check, err := Check(context.Background(), req, nil)
	if err != nil {
		t.Fatal(err)
	}
	if check.Balanced || check.TopUp == nil || check.TopUp.Totals == nil || len(check.Buy) == 0 {
		t.Fatalf("balanced %v, buys %v: want a stock that is short and is completed", check.Balanced, check.Buy)
	}
	for _, v := range verify.Check(req, check.TopUp) {
		t.Errorf("stock and purchases: %v", v)
	}
	cost := 0.0
	for _, b := range check.Buy {
		cost += b.Cost
	}
	if math.Abs(cost-*check.BuyCost) > 1e-9 || math.Abs(cost-check.TopUp.Totals.Food.Cost) > 1e-9 {
		t.Errorf("the purchases cost %g, printed %g, in the plan %g", cost, *check.BuyCost, check.TopUp.Totals.Food.Cost)
	}
	bought := map[string]int{}
	for _, b := range check.Buy {
		bought[b.Pack] = b.Count
	}
	for key := range bought {
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		for _, lf := range m.Larder {
			for _, k := range lf.Buy {
				n := float64(bought[k.Pack.Key])
				if k.Pack.Key == key {
					n--
				}
				m.Problem.Cols[k.Col].Lower, m.Problem.Cols[k.Col].Upper = n, n
			}
		}
		row := m.Problem.AddRow("as cheap", math.Inf(-1), *check.TopUp.Value)
		for j := range m.Cols {
			m.Problem.Set(row, j, m.Problem.Cols[j].Cost)
		}
		if rationtest.FitsByReferee(t, m.Problem) {
			t.Errorf("one %s fewer would do as well", key)
		}
	}
}

// withPlanInStock asks about a stock that is all the packs of a plan for one woman.
func withPlanInStock(t *testing.T) (*ration.Request, *ration.Plan) {
	t.Helper()
	made, err := plantest.OnePlan()
	if err != nil {
		t.Fatal(err)
	}
	req := rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female))
	for _, line := range made.Packs {
		k, err := req.Table.Pack(line.Pack)
		if err != nil {
			t.Fatal(err)
		}
		req.Stock = append(req.Stock, foods.StockLine{Pack: k, Count: float64(line.Count)})
	}
	return req, made
}

// A balanced stock needs nothing: days reach the horizon and nothing is bought.
func TestBalancedStockBuysNothing(t *testing.T) {
	req, _ := withPlanInStock(t)
	check, err := Check(context.Background(), req, nil)
	if err != nil {
		t.Fatal(err)
	}
	if !check.Balanced || check.Days < ration.DefaultDays || check.DaysEnergy < check.Days || len(check.Short) > 0 || len(check.Buy) > 0 {
		t.Errorf("the packs of a plan for %d days: balanced %v, %d days, %d by energy, short of %v, buys %v",
			ration.DefaultDays, check.Balanced, check.Days, check.DaysEnergy, check.Short, check.Buy)
	}
	for _, v := range verify.Check(rationtest.Loaded(check.TopUp, t, req), check.TopUp) {
		t.Error(v)
	}
	// With less water than the plan takes, the same stock is short of water alone.
	half := check.WaterNeededL / 2
	req.StockWaterL = &half
	check, err = Check(context.Background(), req, nil)
	if err != nil {
		t.Fatal(err)
	}
	if check.Balanced || check.Days >= ration.DefaultDays || check.Days < 1 {
		t.Errorf("with half the water: balanced %v for %d days", check.Balanced, check.Days)
	}
	if len(check.Short) != 1 || check.Short[0].Nutrient != ration.ShortWater || check.First != "stored water" {
		t.Errorf("with half the water: short of %v, first %q; want stored water alone", check.Short, check.First)
	}
	if got := check.TopUp.Totals.OwnWaterL; math.Abs(got-half) > 1e-6 {
		t.Errorf("the completed plan takes %g L of the %g L on hand", got, half)
	}
}

// Stock that is of no use is named with its reason.
func TestUselessStock(t *testing.T) {
	all := rationtest.Table(t)
	allergic := rationtest.Adult("Signe", 30, nutrients.Female)
	allergic.Allergies = []nutrients.Allergy{{Allergen: "peanut"}}
	for _, c := range []struct {
		name, row string
		cook      ration.Cook
		want      string
	}{
		{"past its date", "white-rice-907g-bag,1,2026-11-24,,,", ration.CookBoil, "past its date"},
		{"dated on day one", "white-rice-907g-bag,1,2026-11-25,,,", ration.CookBoil, ""},
		{"open for too long", "tomatoes-411g-can,1,,2026-11-20,,", ration.CookBoil, "open for longer than it keeps"},
		{"open and keeping", "sugar-454g-bag,1,,2026-11-20,,", ration.CookBoil, ""},
		{"allergen", "peanut-butter-454g-jar,1,,,,", ration.CookBoil, "nobody here may eat it"},
		{"infant food for an adult", "infant-rice-cereal-227g-box,1,,,,", ration.CookBoil, "nobody here may eat it"},
		{"too much cooking", "dry-kidney-beans-454g-bag,1,,,,", ration.CookBoil, "takes more cooking"},
		{"cooking enough", "dry-kidney-beans-454g-bag,1,,,,", ration.CookSimmer, ""},
		{"too large once open", "tomatoes-794g-can,1,,,,", ration.CookBoil, "too large"},
		{"more than can be eaten", "salt-737g-canister,40,,,,", ration.CookBoil, "more than all here may eat"},
		{"put up at home", ",1,,,white rice\\, long grain\\, enriched,800", ration.CookBoil, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			row := strings.ReplaceAll(c.row, `\,`, "\x00")
			cells := strings.Split(row, ",")
			for i := range cells {
				cells[i] = `"` + strings.ReplaceAll(cells[i], "\x00", ",") + `"`
			}
			req := &ration.Request{
				People: []nutrients.Person{allergic}, Table: all, IgnoreEatable: true, StockOnly: true, Cook: c.cook,
				Stock: rationtest.StockOf(t, all, strings.Join(cells, ",")).Lines, Start: "2026-11-25",
			}
			m, err := model.Build(req)
			if err != nil {
				t.Fatal(err)
			}
			got := ""
			if list := useless(m); len(list) > 0 {
				got = list[0].Reason
			}
			if c.want == "" && got != "" || !strings.Contains(got, c.want) {
				t.Errorf("useless because %q, want %q", got, c.want)
			}
		})
	}
}

// TestEatBy: stock whose last day is within the horizon is listed with that day of the plan,
// which begins on the 25th of November, the earliest first, and with what is in the packs:
// what was over the day before or earlier is past and counts for nothing, what is good for the
// first day is not past. What keeps until the last day or beyond is not listed.
func TestEatBy(t *testing.T) {
	all := rationtest.Table(t)
	rows := []string{
		"white-rice-907g-bag,3,2026-11-27,,,", "white-rice-907g-bag,1,2026-11-23,,,", "white-rice-907g-bag,2,2026-11-24,,,", "white-rice-907g-bag,4,2026-11-25,,,",
		"white-rice-907g-bag,5,2026-12-07,,,", "white-rice-907g-bag,6,2026-12-08,,,", "white-rice-907g-bag,7,2026-12-09,,,", "white-rice-907g-bag,8,,,,", "white-rice-907g-bag,9,2025-11-25,,,",
	}
	m, err := model.Build(&ration.Request{
		People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female)}, Table: all, IgnoreEatable: true, StockOnly: true, Cook: ration.CookBoil,
		Stock: rationtest.StockOf(t, all, rows...).Lines, Start: "2026-11-25", Days: 14,
	})
	if err != nil {
		t.Fatal(err)
	}
	want := []struct {
		count float64
		day   int
		past  bool
	}{{1, 0, true}, {2, 0, true}, {9, 0, true}, {4, 1, false}, {3, 3, false}, {5, 13, false}}
	list := eatBy(m)
	if len(list) != len(want) {
		t.Fatalf("%d lines, want %d: %+v", len(list), len(want), list)
	}
	for i, w := range want {
		got := list[i]
		if got.Count != w.count || got.Day != w.day || got.Past != w.past || math.Abs(got.Grams-907*w.count) > 1 {
			t.Errorf("line %d: %+v, want %g packs by day %d, past %v", i+1, got, w.count, w.day, w.past)
		}
		if w.past != (got.EatenG == 0) || got.EatenG > got.Grams+1e-9 {
			t.Errorf("line %d: %g g of %g are eaten by day %d", i+1, got.EatenG, got.Grams, got.Day)
		}
	}
}

// TestTooMuchInSeveralLines: packs of a food are used until all have what they may eat of it,
// line by line: of several lines as many are left over as of one with all packs, and what is
// used is the fewest packs that reach what all may eat.
func TestTooMuchInSeveralLines(t *testing.T) {
	all := rationtest.Table(t)
	over := func(counts ...int) (left float64) {
		var rows []string
		for at, n := range counts {
			rows = append(rows, fmt.Sprintf("white-rice-907g-bag,%d,2028-01-%02d,,,", n, at+1)) // lines differ by their dates
		}
		m, err := model.Build(&ration.Request{
			People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female)}, Table: all, IgnoreEatable: true, StockOnly: true,
			Stock: rationtest.StockOf(t, all, rows...).Lines, Start: "2026-11-25",
		})
		if err != nil {
			t.Fatal(err)
		}
		for _, u := range useless(m) {
			left += u.Count
		}
		if lf := m.LarderOf(m.Request.Stock[0].Pack.Food); len(counts) == 1 && left > 0 {
			if used := float64(counts[0]) - left; used*907 < lf.CapG || (used-1)*907 >= lf.CapG {
				t.Errorf("of %d bags of 907 g %g are used, all may eat %g g", counts[0], used, lf.CapG)
			}
		}
		return left
	}
	whole := over(40)
	if whole <= 0 || whole >= 37 {
		t.Fatalf("%g of 40 bags are too many: the lines below cannot tell anything", whole)
	}
	for _, counts := range [][]int{{20, 20}, {1, 39}, {39, 1}, {1, 1, 1, 37}, {2, 1, 37}} {
		if got := over(counts...); got != whole {
			t.Errorf("lines of %v bags: %g are too many, want %g as of one line", counts, got, whole)
		}
	}
}

// A pack dated on day e counts for what its eaters may eat of it by then.
func TestDatedPackCountsUntilItsDay(t *testing.T) {
	all := rationtest.Table(t)
	req := &ration.Request{
		People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female)}, Table: all, IgnoreEatable: true, StockOnly: true, Start: "2026-11-25",
		Stock: rationtest.StockOf(t, all, "saltines-454g-box,20,2026-11-28,,,").Lines,
	}
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	list := eatBy(m)
	if len(list) != 1 {
		t.Fatalf("eat by: %v, want one line", list)
	}
	f := req.Stock[0].Pack.Food
	_, perDay, _ := foods.Cap(&req.People[0], f)
	if got := list[0]; got.Day != 4 || got.Past || math.Abs(got.EatenG-4*perDay) > 1e-9 {
		t.Errorf("20 boxes dated on day 4: day %d, %g g eaten, past %v; want day 4 and 4 × %g g", got.Day, got.EatenG, got.Past, perDay)
	}
	p := m.Problem.Clone()
	for j := range p.Cols {
		p.Cols[j].Cost = 0
	}
	y, _ := m.Eaters[0].Eating(slices.IndexFunc(m.Larder, func(lf *model.LarderFood) bool { return lf.Food == f }))
	p.Cols[y.Col].Cost = -1
	for i, info := range m.Rows {
		if info.Class != model.Structural {
			p.Rows[i].Lower, p.Rows[i].Upper = math.Inf(-1), model.Inf
		}
		if info.Kind == model.RowCompanion {
			p.Rows[i].Lower, p.Rows[i].Upper = math.Inf(-1), model.Inf
		}
	}
	opinion, err := referee.Solve(context.Background(), p.Relaxation())
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(opinion.Value+4*perDay) > 1e-6 {
		t.Errorf("the model lets %g g of the dated boxes be eaten, want 4 × %g g", -opinion.Value, perDay)
	}
}

// Energy days are no fewer than days that meet every need.
func TestEnergyLastsLongerThanBalance(t *testing.T) {
	all := rationtest.Table(t)
	req := &ration.Request{
		People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Torgeir", 40, nutrients.Male)}, Table: all, IgnoreEatable: true,
		Stock: rationtest.StockOf(t, all, "white-rice-2268g-bag,4,,,,", "sunflower-oil-1l-bottle,2,,,,", "sugar-1814g-bag,2,,,,", "saltines-454g-box,9,,,,", "pasta-907g-box,6,,,,", "canned-kidney-beans-439g-can,30,,,,", "rolled-oats-510g-canister,9,,,,").Lines,
		Start: "2026-11-25", StockOnly: true,
	}
	out := &StockCheck{}
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	if err := out.judge(context.Background(), m); err != nil {
		t.Fatal(err)
	}
	if out.Days != 0 || out.DaysEnergy < 7 || out.First == "" {
		t.Errorf("grains, beans, oil and sugar: %d days, %d by energy, first %q; want none, a week or more, and what runs out", out.Days, out.DaysEnergy, out.First)
	}
	if len(out.Short) == 0 || out.Short[0].Nutrient == nutrients.Iron.Name() {
		t.Errorf("short of %v: want energy, protein or water before minerals", out.Short)
	}
	for i := 1; i < len(out.Short); i++ {
		if elastic.Rank(out.Short[i-1].Nutrient) > elastic.Rank(out.Short[i].Nutrient) {
			t.Errorf("%s is listed before %s", out.Short[i-1].Nutrient, out.Short[i].Nutrient)
		}
	}
}

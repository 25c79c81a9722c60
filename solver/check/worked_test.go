package check

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/rules"
	"rationwright/solver/search"
)

func checked(t *testing.T, req *ration.Request) *StockCheck {
	t.Helper()
	out, err := Check(context.Background(), req, nil)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// A stock is balanced that lasts to the last day, and not one that lasts to the day
// before.
func TestBalancedToTheLastDay(t *testing.T) {
	for date, days := range map[string]int{"2026-12-07": 13, "2026-12-08": 14} { // the first is 25 November
		if out := checked(t, stocked(t, 200, date)); out.Balanced != (days == 14) || days < 14 && out.Days != days || days == 14 && out.Days < 14 {
			t.Errorf("good to %s: balanced %v for %d days, want %d", date, out.Balanced, out.Days, days)
		}
	}
}

// Without sugar for a low blood sugar no stock is balanced, whatever else there is.
func TestDosesAreNeeded(t *testing.T) {
	for _, sugar := range []bool{false, true} {
		req := stocked(t, 200, "")
		req.People = req.People[:1]
		req.People[0].Conditions = []nutrients.Condition{nutrients.Diabetes1}
		if !sugar {
			req.Stock = slices.DeleteFunc(req.Stock, func(l foods.StockLine) bool { return l.Pack.Food.FastSugarG() > 0 })
		}
		out := checked(t, req)
		lacks := slices.ContainsFunc(out.Short, func(s StockShort) bool { return s.Nutrient == ration.ShortReserve && s.Amount == 0 && s.Floor > 0 })
		if out.Balanced != sugar || lacks == sugar || out.Days < req.Days {
			t.Errorf("sugar %v: balanced %v, %d days, short of %v", sugar, out.Balanced, out.Days, out.Short)
		}
	}
}

// What completes a stock, and what is eaten of one that needs nothing more, takes no pack of it
// beyond what is eaten: of every food less than one of its packs is left over, with two hundred of
// each there, fifteen, or a few of the rice alone.
func TestNoMoreOfAStockThanIsEaten(t *testing.T) {
	for _, c := range []struct {
		name  string
		count float64
		packs []string
		buys  bool
	}{
		{"all there is, much of it", 200, nil, false},
		{"rice alone, much of it", 200, []string{"white-rice-907g-bag"}, true},
		{"rice alone, some", 15, []string{"white-rice-907g-bag"}, true},
	} {
		out := checked(t, stocked(t, c.count, "", c.packs...))
		if out.TopUp == nil || len(out.TopUp.Packs) == 0 || (len(out.Buy) > 0) != c.buys {
			t.Fatalf("%s: buys %v", c.name, out.Buy)
		}
		if takes := out.TopUp.Totals; out.WaterNeededL != takes.WaterL || out.HeatNeededMJ != takes.HeatMJ || takes.HeatMJ <= 0 {
			t.Errorf("%s: said to take %g L and %g MJ, its plan takes %g L and %g MJ", c.name, out.WaterNeededL, out.HeatNeededMJ, takes.WaterL, takes.HeatMJ)
		}
		eaten := map[string]float64{}
		for _, p := range out.TopUp.People {
			for _, f := range p.Foods {
				eaten[f.Food] += f.Grams * float64(p.Count)
			}
		}
		brought, least, own := map[string]float64{}, map[string]float64{}, 0
		for _, line := range out.TopUp.Packs {
			if line.Reserve {
				continue
			}
			brought[line.Food] += float64(line.Count) * line.NetG
			if line.FromStock > 0 {
				own++
				if g, ok := least[line.Food]; !ok || line.NetG < g {
					least[line.Food] = line.NetG
				}
			}
		}
		if own == 0 {
			t.Fatalf("%s: nothing of the stock is eaten", c.name)
		}
		for name, pack := range least {
			if over := brought[name] - eaten[name]; over >= pack {
				t.Errorf("%s: %g g of %s are taken and %g g eaten, with packs of %g g", c.name, brought[name], name, eaten[name], pack)
			}
		}
	}
}

// Whatever a search bought while two hundred of each pack stood in stock goes again, for packs of the
// stock, of which no more is taken than there is.
func TestStockTakesThePlaceOfWhatWasBought(t *testing.T) {
	req := stocked(t, 200, "")
	req.IgnoreEatable = true
	m, err := model.Build(ration.Filled(req))
	if err != nil {
		t.Fatal(err)
	}
	shop := m.Problem.Clone()
	for _, lf := range m.Larder {
		for _, k := range lf.Stock {
			shop.Cols[k.Col].Upper = 0
		}
	}
	packs := func(x []float64) (bought, own int) {
		for _, lf := range m.Larder {
			for _, k := range lf.Buy {
				bought += int(math.Round(x[k.Col]))
			}
			for _, k := range lf.Stock {
				own += int(math.Round(x[k.Col]))
				if x[k.Col] > 200 {
					t.Errorf("%g of 200 %s are taken", x[k.Col], k.Pack.Key)
				}
			}
		}
		return bought, own
	}
	x := search.Run(t.Context(), shop, search.OptionsOf(m, nil, nil)).X
	if x == nil {
		t.Fatal("the shop alone feeds nobody")
	}
	if bought, own := packs(x); bought == 0 || own != 0 {
		t.Fatalf("the shop alone: %d packs bought, %d of the stock", bought, own)
	}
	if bought, own := packs(withoutNeedless(t.Context(), m, x)); bought != 0 || own == 0 {
		t.Errorf("%d packs are bought still, and %d taken of the stock", bought, own)
	}
}

// Calories last for what is good divided by what everybody requires a day: 9 bags of
// rice that are good, 9 that are past their date, for three.
func TestCaloriesOfWhatIsGood(t *testing.T) {
	req := stocked(t, 9, "", "white-rice-907g-bag")
	req.Stock = append(req.Stock, req.Stock[0])
	req.Stock[1].BestBefore = "2026-11-24"
	req.People[0].Count = 2
	rice := req.Stock[0].Pack
	need := 0.0
	for _, p := range req.People {
		needs, err := nutrients.For(p, rules.NeedOptions(ration.Filled(req)))
		if err != nil {
			t.Fatal(err)
		}
		need += float64(p.Count) * needs.EER.Amount
	}
	want := 9 * rice.NetG / 100 * rationtest.Kcal(rice.Food) / need
	if out := checked(t, req); math.Abs(out.DaysCalories-want) > 1e-9 {
		t.Errorf("calories last %g days, want %g", out.DaysCalories, want)
	}
}

// What is short of water is told for a day, and what is bought is the whole litres
// between what the ration takes and what is on hand, at the price of stored water.
func TestWaterToBuy(t *testing.T) {
	req, _ := withPlanInStock(t)
	water, err := req.Table.Supply(foods.StoredWater)
	if err != nil {
		t.Fatal(err)
	}
	none := 0.0
	req.StockWaterL = &none
	takes := checked(t, req).TopUp.Totals.WaterL
	if takes < 20 {
		t.Fatalf("%g L of water in a fortnight", takes)
	}
	for _, short := range []float64{-3, 0.2, 0.4, 0.7, 1.4, takes / 2} {
		have := takes - short
		req.StockWaterL = &have
		out := checked(t, req)
		lacks := math.Max(0, out.TopUp.Totals.WaterL-have)
		want := int(math.Ceil(lacks - 1e-4))
		if math.Abs(lacks-math.Max(0, short)) > 0.15 {
			t.Errorf("%g L on hand of %g: the completion takes %g", have, takes, out.TopUp.Totals.WaterL)
		}
		got, cost := 0, 0.0
		for _, b := range out.Buy {
			if b.Pack == "water" {
				got, cost = b.Count, b.Cost
			}
		}
		if got != want || math.Abs(cost-float64(want)*water.Price) > 1e-9 || math.Abs(*out.BuyCost-cost) > 1e-9 {
			t.Errorf("%.2f L are lacking: %d L bought for %g, in all %g, want %d at %g", lacks, got, cost, *out.BuyCost, want, water.Price)
		}
		if short != takes/2 {
			continue
		}
		if len(out.Short) != 1 || math.Abs(out.Short[0].Amount-have/14) > 1e-9 || math.Abs(out.Short[0].Floor-out.WaterNeededL/14) > 0.1 {
			t.Errorf("short of %+v, want %g of %g L a day", out.Short, have/14, out.WaterNeededL/14)
		}
	}
}

// What runs out first is, of needs equally short, what matters most: water before
// energy before protein, as the closest ration gives them up.
func TestFirstShortByWhatMatters(t *testing.T) {
	req := stocked(t, 200, "2026-11-28") // nothing at all from the fifth day on
	out := checked(t, req)
	if want := fmt.Sprintf("energy after day 4 (%s)", req.People[0].Name); out.First != want {
		t.Errorf("what runs out first is %q, want %q", out.First, want)
	}
}

// What would be passed if all of a stock were eaten, by hand: 40 packs of one food in a
// fortnight, or as much of it as anybody may have, at most the energy of the day; what
// that holds a day.
func TestExcessOfAStock(t *testing.T) {
	signe := rationtest.Adult("Signe", 30, nutrients.Female)
	req := ration.Filled(&ration.Request{People: []nutrients.Person{signe}, Table: rationtest.Table(t), Start: "2026-11-25", Days: 14, Time: time.Minute})
	needs, err := nutrients.For(signe, rules.NeedOptions(req))
	if err != nil {
		t.Fatal(err)
	}
	tried := 0
	for _, f := range req.Table.Foods {
		if len(f.Packs) == 0 || f.Group == seasoning || tried == 3 {
			continue
		}
		_, day, _ := foods.Cap(&signe, f)
		aDay := math.Min(40*f.Packs[0].NetG/14, day)
		aDay *= math.Min(1, needs.EER.Amount/(aDay/100*rationtest.Kcal(f)))
		want := map[string]float64{}
		for _, n := range needs.List {
			if amount := aDay / 100 * f.Per100g.Known(n.Nutrient); n.Ceiling != nil && !n.Shown && n.Nutrient != nutrients.Energy && amount > n.Ceiling.Amount {
				want[n.Nutrient.Name()] = amount
			}
		}
		if ok, _ := foods.Eligible(signe, req.People, f); len(want) == 0 || !ok || !rules.CanCook(req.Cook, f) {
			continue
		}
		tried++
		req.Stock = []foods.StockLine{{Pack: f.Packs[0], Count: 40}, {Pack: req.Table.Packs[0], Count: 0}}
		got := checked(t, req).Excess
		for _, e := range got {
			if math.Abs(e.Amount-want[e.Nutrient]) > 1e-9*e.Amount || e.Person != "Signe" {
				t.Errorf("%s: %+v, want %g", f.Name, e, want[e.Nutrient])
			}
		}
		if len(got) != len(want) {
			t.Errorf("%s: %d are passed, want %v", f.Name, len(got), want)
		}
	}
	if tried < 3 {
		t.Errorf("only %d foods pass a ceiling alone", tried)
	}
}

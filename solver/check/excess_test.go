package check

import (
	"context"
	"math"
	"slices"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// built is the model of a stock alone of some people for two weeks.
func built(t *testing.T, rows []string, people ...nutrients.Person) *model.Model {
	t.Helper()
	req := rationtest.Request(t, people...)
	req.IgnoreEatable, req.StockOnly, req.Days, req.Least = true, true, 14, ration.LeastCost
	req.Stock = rationtest.StockOf(t, req.Table, rows...).Lines
	m, err := model.Build(ration.Filled(req))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// TestExcessByHand: of a stock of salty foods and salt each person passes the ceiling of sodium
// where what of the foods is eaten, by the part of the energy that they require, holds more
// than it: salt is used as needed and not counted, nor what is past its date. All is eaten
// where it is less than the energy of all, else as much as that takes.
func TestExcessByHand(t *testing.T) {
	packs := []string{"luncheon-meat-340g-can", "cheese-crackers-352g-box", "saltines-454g-box"}
	ida, leif := rationtest.Adult("Ida", 33, nutrients.Female), rationtest.Adult("Leif", 60, nutrients.Male)
	for _, count := range []string{"1", "8", "400"} {
		rows := []string{"salt-737g-canister,5,2029-01-01,,,", "canned-beef-340g-can,99,2020-01-01,,,"}
		for _, pack := range packs {
			rows = append(rows, pack+","+count+",2029-01-01,,,")
		}
		m := built(t, rows, ida, leif)
		all, energy, sodium := 0.0, 0.0, 0.0 // a day
		for _, e := range m.Eaters {
			all += e.Needs.EER.Amount
		}
		for _, line := range m.Request.Stock {
			if lf := m.LarderOf(line.Pack.Food); slices.Contains(packs, line.Pack.Key) {
				grams := math.Min(line.Count*line.Pack.NetG, lf.CapG) / 14
				energy += grams / 100 * lf.Food.Per100g.Known(nutrients.Energy)
				sodium += grams / 100 * lf.Food.Per100g.Known(nutrients.Sodium)
			}
		}
		sodium *= math.Min(1, all/energy)
		got := map[string]StockShort{}
		for _, s := range excess(m) {
			if s.Nutrient == nutrients.Sodium.Name() {
				got[s.Person] = s
			}
		}
		for _, e := range m.Eaters {
			share, ceiling := sodium*e.Needs.EER.Amount/all, math.Inf(1)
			for _, need := range e.Needs.List {
				if need.Nutrient == nutrients.Sodium && need.Ceiling != nil && !need.Shown {
					ceiling = need.Ceiling.Amount
				}
			}
			s, over := got[e.Person.Name]
			if over != (share > ceiling) || over && (math.Abs(s.Amount-share) > 1e-6 || s.Ceiling != ceiling || s.Floor != 0 || s.Unit != nutrients.Sodium.Unit()) {
				t.Errorf("%s packs: %s has %g mg of at most %g, said %+v", count, e.Person.Name, share, ceiling, s)
			}
		}
		if count == "1" && len(got) > 0 || count == "400" && len(got) != 2 {
			t.Errorf("%s packs: %v, energy %g of %g: the test shows nothing", count, got, energy, all)
		}
	}
}

// TestShortOfWaterOnHand: more water or heat than is on hand is short, a day, and what is within
// it is not; people's needs stand before.
func TestShortOfWaterOnHand(t *testing.T) {
	req := rationtest.Request(t, rationtest.Adult("Ida", 33, nutrients.Female))
	req.IgnoreEatable, req.StockOnly, req.Days, req.Least = true, true, 10, ration.LeastCost
	water, heat := 20.0, 3.0
	req.Limits = ration.Limits{WaterL: &water, HeatMJ: &heat}
	m, err := model.Build(ration.Filled(req))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ water, heat float64 }{{20, 3}, {25, 3}, {20, 4.5}, {25, 4.5}, {19, 2}} {
		x := make([]float64, len(m.Cols))
		x[m.Water], x[m.Heat] = c.water, c.heat
		got := map[string]StockShort{}
		for _, s := range shortages(m, x) {
			if s.Person == "" {
				got[s.Nutrient] = s
			}
		}
		for name, limit := range map[string][2]float64{ration.ShortWater: {20, c.water}, ration.ShortHeat: {3, c.heat}} {
			s, short := got[name]
			if short != (limit[1] > limit[0]) || short && (math.Abs(s.Amount-limit[0]/10) > 1e-9 || math.Abs(s.Floor-limit[1]/10) > 1e-9) {
				t.Errorf("%+v: %s %+v", c, name, s)
			}
		}
	}
}

// TestDosesOfAStock: whole packs of sugar count for lows of blood sugar, by their doses, where
// they keep and are of use for that; rice does not.
func TestDosesOfAStock(t *testing.T) {
	ola := rationtest.Adult("Ola", 40, nutrients.Male)
	ola.Conditions = []nutrients.Condition{nutrients.Diabetes1}
	one := dosesInStock(built(t, []string{"sugar-454g-bag,1,2029-01-01,,,"}, ola))
	three := dosesInStock(built(t, []string{"sugar-454g-bag,2,2029-01-01,,,", "white-rice-907g-bag,7,2029-01-01,,,", "sugar-454g-bag,1,2029-02-01,,,"}, ola))
	if one < 1 || math.Abs(three-3*one) > 1e-9 {
		t.Errorf("%g doses of one bag, %g of three", one, three)
	}
	m := built(t, []string{"sugar-454g-bag,1,2029-01-01,,,"}, ola)
	m.Request.Stock[0].Count = 1.9 // of an open bag nothing is set aside
	if got := dosesInStock(m); got != one {
		t.Errorf("%g doses of a bag and a part of one, want %g", got, one)
	}
	if got := dosesInStock(built(t, []string{"white-rice-907g-bag,7,2029-01-01,,,"}, ola)); got != 0 {
		t.Errorf("%g doses of rice", got)
	}
}

// TestWaterRunsOutFirst: where the food would do and the water on hand would not, water runs out
// first; where there is no food, a need of the person.
func TestWaterRunsOutFirst(t *testing.T) {
	req, _ := withPlanInStock(t)
	alone := *req
	alone.StockOnly, alone.IgnoreEatable, alone.Least = true, true, ration.LeastCost
	made := ration.Filled(&alone) // judged by the stock alone
	little := 1.0
	made.Limits.WaterL = &little
	first, err := firstShort(context.Background(), made, made.Days)
	if err != nil || !rationtest.ContainsText(first, "water") {
		t.Errorf("%q, %v, want the water", first, err)
	}
	made.Limits.WaterL = nil
	made.Stock = made.Stock[:0]
	first, err = firstShort(context.Background(), made, made.Days)
	if err != nil || !rationtest.ContainsText(first, "Signe") {
		t.Errorf("%q, %v, want a need of Signe's", first, err)
	}
}

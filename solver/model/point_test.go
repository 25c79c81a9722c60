package model_test

import (
	"slices"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestPacksInTheirPlaces: the packs of a plan's line stand in the columns of the model as
// often as the line says: from stock line by line, none with more than it holds, what is
// bought in its own column; nothing where there is none.
func TestPacksInTheirPlaces(t *testing.T) {
	req := rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female))
	const pack = "white-rice-907g-bag"
	stock := rationtest.StockOf(t, req.Table, pack+",2,2030-01-01,,,", pack+",3,2031-01-01,,,")
	req.Stock = stock.Lines
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	food := ration.FindPack(req, pack).Food.Name
	for _, c := range []struct{ count, own int }{{0, 0}, {4, 0}, {1, 1}, {2, 2}, {4, 3}, {5, 5}, {9, 5}} {
		x := make([]float64, len(m.Cols))
		m.PlacePacks(x, ration.PlanPack{Pack: pack, Food: food, Count: c.count, FromStock: c.own})
		var own, bought, all float64
		for _, lf := range m.Larder {
			for _, k := range lf.Supply() {
				all += x[k.Col]
				switch {
				case k.Pack.Key != pack:
				case k.Line < 0:
					bought += x[k.Col]
				default:
					own += x[k.Col]
					if holds := []float64{2, 3}[k.Line]; x[k.Col] > holds {
						t.Errorf("%d of %d from stock: line %d of %g packs gives %g", c.own, c.count, k.Line, holds, x[k.Col])
					}
				}
			}
		}
		if own != float64(c.own) || bought != float64(c.count-c.own) || all != float64(c.count) {
			t.Errorf("%d packs, %d from stock: %g, and %g bought, %g in all", c.count, c.own, own, bought, all)
		}
	}
}

// TestOwnTotalsComeFirst: of the rows that whole packs can break, totals of the household
// stand before others, and one limit on what is made least is found as such.
func TestOwnTotalsComeFirst(t *testing.T) {
	req := rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female))
	of := func(budget, kg, litres float64) *model.Model {
		t.Helper()
		asked := *req
		asked.Least = ration.LeastCost
		some := func(v float64) *float64 {
			if v == 0 {
				return nil
			}
			return &v
		}
		asked.Limits.Budget, asked.Limits.WeightKg, asked.Limits.VolumeL = some(budget), some(kg), some(litres)
		m, err := model.Build(&asked)
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	if m := of(0, 0, 0); m.HasTotals() || m.OwnLimit() >= 0 {
		t.Errorf("without limits: totals %v, own %d", m.HasTotals(), m.OwnLimit())
	}
	m := of(40, 60, 70)
	if limits := m.PackLimits(m.Problem); len(limits) != 3 || m.OwnLimit() >= 0 {
		t.Errorf("%d limits, own %d; want 3 and none by itself", len(limits), m.OwnLimit())
	}
	p := m.Problem.Clone() // in which a row of no total can be broken by whole packs as well
	for j := range p.Cols {
		if c := &p.Cols[j]; c.Integer && c.Upper > c.Lower && m.Rows[c.Entries[0].Row].Total == "" {
			row := c.Entries[0].Row
			c.Entries[0].Value = 1
			p.Rows[row].Upper = c.Upper / 2
			break
		}
	}
	limits, others := m.PackLimits(p), false
	if len(limits) != 4 {
		t.Errorf("%d limits with one that is no total, want 4", len(limits))
	}
	for _, i := range limits {
		if others = others || m.Rows[i].Total == ""; others && m.Rows[i].Total != "" {
			t.Error("a total stands behind another row")
		}
	}
	for _, c := range []struct {
		budget, kg float64
		own        bool
	}{{40, 0, true}, {0, 60, false}} {
		if m := of(c.budget, c.kg, 0); (m.OwnLimit() >= 0) != c.own {
			t.Errorf("least cost with a budget of %g and %g kg: own limit %d, want one %v", c.budget, c.kg, m.OwnLimit(), c.own)
		}
	}
}

// TestPointOfAPlan: every figure of a plan stands in its column, for all days where the plan
// says it of a day; figures are made up, each another one.
func TestPointOfAPlan(t *testing.T) {
	two := rationtest.Adult("Odd", 40, nutrients.Male)
	two.Count = 2
	req := rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female), two)
	water, heat := 50.0, 9.0
	req.StockWaterL, req.StockHeatMJ = &water, &heat
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	rice := ration.FindPack(req, "white-rice-907g-bag").Food.Name
	x := m.PointOf(&ration.Plan{
		Packs: []ration.PlanPack{{Pack: "white-rice-907g-bag", Food: rice, Count: 7}},
		People: []ration.PlanPerson{
			{Name: "Signe", Count: 1, DrinkLPerDay: 1.5, Foods: []ration.PersonFood{{Food: rice, Grams: 1100}}},
			{Name: "Odd", Count: 2, DrinkLPerDay: 2, Foods: []ration.PersonFood{{Food: rice, Grams: 1300}}},
		},
		Totals: &ration.Totals{WaterL: 80, HeatMJ: 12, OwnWaterL: 41, OwnHeatMJ: 8},
	})
	want := map[string]float64{
		"buy[white-rice-907g-bag]": 7, "eat[Signe," + rice + "]": 1100, "eat[Odd," + rice + "]": 1300,
		"drink[Signe]": 1.5 * 14, "drink[Odd]": 2 * 14, m.Problem.Cols[m.Water].Name: 80, m.Problem.Cols[m.Heat].Name: 12,
		"own-water": 41, "own-heat": 8,
	}
	for j, c := range m.Problem.Cols {
		if x[j] != want[c.Name] {
			t.Errorf("%s = %g, want %g", c.Name, x[j], want[c.Name])
		}
		delete(want, c.Name)
	}
	if len(want) > 0 {
		t.Errorf("no columns for %v", want)
	}
}

// TestPackThatSeveralOpen: of a large can that does not keep open as many sittings can be
// eaten as there are people, in one row or in several; never more than is in it.
func TestPackThatSeveralOpen(t *testing.T) {
	const pack = "tomatoes-794g-can"
	usable := func(heads ...int) float64 {
		var people []nutrients.Person
		for i, n := range heads {
			p := rationtest.Adult([]string{"Signe", "Aud", "Siv"}[i], 30, nutrients.Female)
			p.Count = n
			people = append(people, p)
		}
		req := rationtest.Basics(t, people...)
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		k := ration.FindPack(req, pack)
		return m.LarderOf(k.Food).Usable(k)
	}
	net := ration.FindPack(rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female)), pack).NetG
	one := usable(1)
	if one <= 0 || 2*one >= net {
		t.Fatalf("one person eats %g of %g g: the test shows nothing", one, net)
	}
	for _, heads := range [][]int{{2}, {1, 1}, {3}, {1, 2}, {1, 1, 1}, {20}} {
		n := 0
		for _, h := range heads {
			n += h
		}
		if got, want := usable(heads...), min(net, float64(n)*one); got < want-1e-9 || got > want+1e-9 {
			t.Errorf("%v people: %g g of a can of %g g, want %g", heads, got, net, want)
		}
	}
}

// TestFoodsWithoutAPackAreClosed: what is eaten of a food, and of it by a date, is fixed at none
// where no pack of it is left, bought or of the stock, and stays as it was where one of them is,
// whichever; so do other foods. A pack that is set aside against a low is none that is eaten, and
// a mother's milk comes without a pack.
func TestFoodsWithoutAPackAreClosed(t *testing.T) {
	signe := rationtest.Adult("Signe", 30, nutrients.Female)
	signe.Conditions = []nutrients.Condition{nutrients.Diabetes1} // quick sugar is set aside
	req := rationtest.Basics(t, signe, rationtest.Adult("Odd", 40, nutrients.Male), rationtest.Infant("Liv", 4, 7, nutrients.BreastFed))
	req.Stock = rationtest.StockOf(t, req.Table, "white-rice-907g-bag,2,2026-11-29,,,", "white-rice-907g-bag,2,2026-12-02,,,", "peanut-butter-454g-jar,3,,,,").Lines
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	var packless, several, stocked, dated, aside int
	for li, lf := range m.Larder {
		supply := lf.Supply()
		if len(supply) > 1 {
			several++
		}
		if len(lf.Stock) > 0 {
			stocked++
		}
		if len(lf.Reserve) > 0 {
			aside++
		}
		if len(supply) == 0 {
			packless++
		}
		// Of its packs all are left, each alone, all but each, and none.
		lefts := [][]int{nil, nil}
		for i := range supply {
			lefts[0] = append(lefts[0], i)
			lefts = append(lefts, []int{i})
			var others []int
			for j := range supply {
				if j != i {
					others = append(others, j)
				}
			}
			lefts = append(lefts, others)
		}
		for _, left := range lefts {
			p := m.Problem.Clone()
			open := len(supply) == 0
			for i, k := range supply {
				if !slices.Contains(left, i) {
					p.Cols[k.Col].Upper = 0
				} else if p.Cols[k.Col].Upper > 0 {
					open = true
				}
			}
			m.CloseEmpty(p)
			for _, e := range m.Eaters {
				for _, y := range e.Eats {
					want := m.Problem.Cols[y.Col].Upper
					if y.Food == li && !open {
						want = 0
					}
					if got := p.Cols[y.Col].Upper; got != want {
						t.Errorf("of %s packs %v of %d are left: %s at most %g, want %g", lf.Food.Name, left, len(supply), p.Cols[y.Col].Name, got, want)
					}
				}
			}
			for _, v := range m.ByDate {
				want := m.Problem.Cols[v.Col].Upper
				if v.Larder == li && !open {
					want = 0
				}
				if v.Larder == li {
					dated++
				}
				if got := p.Cols[v.Col].Upper; got != want {
					t.Errorf("of %s packs %v of %d are left: %s at most %g, want %g", lf.Food.Name, left, len(supply), p.Cols[v.Col].Name, got, want)
				}
			}
		}
	}
	if packless == 0 || several == 0 || stocked != 2 || dated == 0 || aside == 0 {
		t.Errorf("%d foods without a pack, %d with several, %d in stock, %d by a date, %d set aside: not all is tried", packless, several, stocked, dated, aside)
	}
}

// TestPartOfTheTime: a model with a part of the time has that part of it, to the millisecond, and
// one with its work counted from a time has that; the rest of the request is as it was, and so is
// the model that it comes from.
func TestPartOfTheTime(t *testing.T) {
	req := rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female))
	req.Time, req.Effort = time.Minute, 2*time.Second
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	for part, want := range map[float64]time.Duration{0: 0, 0.05: 3 * time.Second, 0.3: 18 * time.Second, 0.5: 30 * time.Second, 0.999: 59940 * time.Millisecond, 1: time.Minute, 1.5: 90 * time.Second} {
		got := m.WithTime(part)
		if (got.Request.Time-want).Abs() > time.Millisecond || got.Request.Effort != 2*time.Second || got.Request.Days != m.Request.Days || got.Problem != m.Problem {
			t.Errorf("%g of a minute: %v, effort %v, want %v and %v", part, got.Request.Time, got.Request.Effort, want, 2*time.Second)
		}
		if worked := m.WithEffort(want); worked.Request.Effort != want || worked.Request.Time != time.Minute || worked.Problem != m.Problem {
			t.Errorf("work of %v: %v, time %v", want, worked.Request.Effort, worked.Request.Time)
		}
		if m.Request.Time != time.Minute || m.Request.Effort != 2*time.Second {
			t.Fatalf("the model itself has %v, effort %v", m.Request.Time, m.Request.Effort)
		}
	}
}

package model_test

import (
	"testing"

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
	p := m.CopyProblem() // in which a row of no total can be broken by whole packs as well
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

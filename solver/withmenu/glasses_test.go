package withmenu

import (
	"context"
	"math"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/menu"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// TestCupOfEachCarton: with dishes a child of 20 months has 150 g of long-life milk at a
// sitting (kind_caps.csv) and six tenths more out of each of three litre cartons, 720 g in
// all, where a plan without meals gives her more; where no dishes were found otherwise, as
// much as that. The limit is of whole milk alone: nothing else is bought.
func TestCupOfEachCarton(t *testing.T) {
	const milk = "whole milk, vitamin D, long-life"
	req := ration.Filled(&ration.Request{
		People: []nutrients.Person{rationtest.Adult("Ida", 33, nutrients.Female), {Name: "Tuva", AgeMonths: 20, Sex: nutrients.Female, Activity: nutrients.LowActive, Count: 1}},
		Table:  rationtest.Table(t), Start: "2026-01-05",
	})
	book, err := menu.BookOf(req)
	if err != nil {
		t.Fatal(err)
	}
	most := func(glasses float64) float64 {
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		in := make([]bool, len(m.Larder))
		for li := range in {
			in[li] = true
		}
		all := (&larder{in: in}).dishes(ways[len(ways)-1].beside)
		m.AddDishes(model.Menu{Book: book, Foods: in, Table: all, Own: all, Between: between, Beside: 0.4, Glasses: glasses})
		for j := range m.Problem.Cols {
			m.Problem.Cols[j].Cost = 0
		}
		cartons := m.Problem.AddRow("three cartons", math.Inf(-1), 3)
		for li, lf := range m.Larder {
			if lf.Food.Name != milk {
				continue
			}
			for _, k := range lf.Buy {
				m.Problem.Set(cartons, k.Col, 1)
				if k.Pack.NetG < 1000 {
					m.Problem.Cols[k.Col].Upper = 0
				}
			}
			for _, e := range m.Eaters {
				if y, ok := e.Eating(li); ok && e.Person.Name == "Tuva" {
					m.Problem.Cols[y.Col].Cost = -1
				}
			}
		}
		s, err := search.Relax(m.Problem)
		if err != nil {
			t.Fatal(err)
		}
		r := s.Solve(context.Background())
		if r.Status != simplex.Optimal {
			t.Fatal(r.Status, r.Why)
		}
		return -r.Value
	}
	if got, want := most(glassRoom), 3*150*1.6; math.Abs(got-want) > 1e-3 {
		t.Errorf("%.1f g of milk out of three cartons, want %.0f", got, want)
	}
	if got := most(math.Inf(1)); got < 800 {
		t.Errorf("%.1f g of milk where a carton is no limit: the test shows nothing", got)
	}
}

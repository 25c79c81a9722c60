package elastic

import (
	"math"
	"slices"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestClosestSaysWhatItHolds: somebody eats one food alone, little or much of it, each of
// the table in turn. What is said to be short is less than its target, once each; every
// floor that is not reached is said, of one by the energy needed where the share of what is
// eaten is too small as well, and so is every share of energy that is
// passed, by what is eaten and the shares of the needs.
func TestClosestSaysWhatItHolds(t *testing.T) {
	req := ration.Filled(&ration.Request{People: []nutrients.Person{rationtest.Adult("Signe", 36, nutrients.Female)}, Table: rationtest.Table(t), Start: "2026-11-25"})
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	e := m.Eaters[0]
	passed, kept, short := 0, 0, 0
	for _, y := range e.Eats {
		for _, perDay := range []float64{200, 2500} {
			x := make([]float64, len(m.Cols))
			x[y.Col] = perDay * m.Days()
			c := WriteClosest(m, x)
			food := m.Larder[y.Food].Food
			seen := map[string]bool{}
			for _, s := range c.Shortfalls {
				key := s.Person + s.Nutrient + s.Unit
				if seen[key] || s.Amount >= s.Target {
					t.Errorf("%g g of %s: short of %s with %g of %g, listed before %v", perDay, food.Name, s.Nutrient, s.Amount, s.Target, seen[key])
				}
				seen[key] = true
			}
			kcal := food.Per100g.Known(nutrients.Energy)
			for _, n := range c.People[0].Needs {
				least := slices.IndexFunc(e.Needs.Shares, func(s nutrients.Share) bool { return s.Nutrient.Name() == n.Nutrient && s.Min != nil })
				if least >= 0 { // a floor by the energy needed: what is short of energy only says that
					s := e.Needs.Shares[least]
					if kcal <= 0 || 100*food.Per100g.Known(s.Nutrient)*s.KcalPerG/kcal >= s.Min.Amount*0.99 {
						continue
					}
				}
				if n.Floor != nil && n.Amount < *n.Floor*0.99 {
					if short++; !seen["Signe"+n.Nutrient+n.Unit] {
						t.Errorf("%g g of %s: %g %s of %s, of %g, is not said", perDay, food.Name, n.Amount, n.Unit, n.Nutrient, *n.Floor)
					}
				}
			}
			for _, s := range e.Needs.Shares {
				if s.Max == nil || kcal <= 0 {
					continue
				}
				share := 100 * food.Per100g.Known(s.Nutrient) * s.KcalPerG / kcal
				said := slices.ContainsFunc(c.Passed, func(o ration.Over) bool { return o.Nutrient == s.Nutrient.Name() && o.Unit == "g" })
				switch {
				case share > s.Max.Amount*1.01:
					if passed++; !said {
						t.Errorf("%s has %.0f %% of its energy from %s, at most %g: not said", food.Name, share, s.Nutrient.Name(), s.Max.Amount)
					}
				case share < s.Max.Amount*0.99:
					if kept++; said {
						t.Errorf("%s has %.0f %% of its energy from %s, at most %g: said to be passed", food.Name, share, s.Nutrient.Name(), s.Max.Amount)
					}
				}
			}
		}
	}
	if passed < 100 || kept < 100 || short < 1000 {
		t.Errorf("%d shares passed, %d kept, %d floors not reached: the test shows little", passed, kept, short)
	}
}

// TestDrinksMayBeMissed: where no water is to be had, the ration that comes closest drinks
// none of it and is short of all that is drunk; where there is half of it, of half.
func TestDrinksMayBeMissed(t *testing.T) {
	for _, part := range []float64{0, 0.5} {
		req := rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female))
		washing := 0.0
		req.WashingL, req.IgnoreEatable = &washing, true
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		drink := m.Eaters[0].Drink
		least := m.Problem.Cols[drink].Lower
		litres := part * least
		req.Limits.WaterL = &litres
		if m, err = model.Build(req); err != nil {
			t.Fatal(err)
		}
		e := New(m, IsNeed, true)
		water := e.Costs(func(i model.RowInfo) bool { return i.Text == ration.ShortDrink })
		point, _ := e.RelaxedLeast(t.Context(), [][]float64{water}, nil, 0)
		if point == nil {
			t.Fatalf("no ration comes closest to %g L of %g L", litres, least)
		}
		short := -1.0
		for k := range e.Rows {
			if e.Kinds[k].Text == ration.ShortDrink {
				short = point[e.Cols[k]]
			}
		}
		if drunk := point[drink]; drunk > litres+1e-6 || math.Abs(drunk+short-least) > 1e-6 {
			t.Errorf("of %g L %g are drunk, %g of %g are missing", litres, drunk, short, least)
		}
	}
}

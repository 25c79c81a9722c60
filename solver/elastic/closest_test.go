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
// passed, by what is eaten and the shares of the needs, and every ceiling. Amounts and
// targets are those of the plan; the gravest comes first, of equals what is least of its target.
func TestClosestSaysWhatItHolds(t *testing.T) {
	req := ration.Filled(&ration.Request{People: []nutrients.Person{rationtest.Adult("Signe", 36, nutrients.Female)}, Table: rationtest.Table(t), Start: "2026-11-25"})
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	e := m.Eaters[0]
	passed, kept, short, over := 0, 0, 0, 0
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
			for k, s := range c.Shortfalls {
				byShare := slices.ContainsFunc(e.Needs.Shares, func(o nutrients.Share) bool { return o.Nutrient.Name() == s.Nutrient && o.Min != nil }) // its floor is the larger of two
				if n := c.People[0].Need(s.Nutrient); n != nil && n.Floor != nil && n.Unit == s.Unit && (!byShare && math.Abs(s.Target-*n.Floor) > 1e-6**n.Floor || math.Abs(s.Amount-n.Amount) > 1e-6**n.Floor) {
					t.Errorf("%g g of %s: %g of %g %s of %s, want %g of %g", perDay, food.Name, s.Amount, s.Target, s.Unit, s.Nutrient, n.Amount, *n.Floor)
				}
				if k == 0 {
					continue
				}
				before := c.Shortfalls[k-1]
				if a, b := Rank(before.Nutrient), Rank(s.Nutrient); a > b || a == b && before.Amount/before.Target > s.Amount/s.Target {
					t.Errorf("%g g of %s: %s, %g of it, comes before %s, %g of it", perDay, food.Name, before.Nutrient, before.Amount/before.Target, s.Nutrient, s.Amount/s.Target)
				}
			}
			for _, n := range c.People[0].Needs {
				if n.Ceiling == nil {
					continue
				}
				same := func(o ration.Over) bool {
					return o.Nutrient == n.Nutrient && o.Unit == n.Unit && o.Ceiling == *n.Ceiling
				}
				at := slices.IndexFunc(c.Over, same)
				switch {
				case n.Amount > *n.Ceiling*1.01:
					if over++; at < 0 || c.Over[at].Amount != n.Amount || c.Over[at].Person != "Signe" || !slices.ContainsFunc(c.Passed, same) {
						t.Errorf("%g g of %s: %g %s of %s, at most %g: %+v", perDay, food.Name, n.Amount, n.Unit, n.Nutrient, *n.Ceiling, c.Over)
					}
				case n.Amount < *n.Ceiling*0.99 && at >= 0:
					t.Errorf("%g g of %s: %g %s of %s is said to be over %g", perDay, food.Name, n.Amount, n.Unit, n.Nutrient, *n.Ceiling)
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
	if passed < 100 || kept < 100 || short < 1000 || over < 100 {
		t.Errorf("%d shares passed, %d kept, %d floors not reached, %d ceilings passed: the test shows little", passed, kept, short, over)
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

// TestWashingWaterOfADay, by hand: of the water for washing of all heads over all days, and of
// what each drinks, what is lacking and what there is is told by the day; what is just enough
// is not short.
func TestWashingWaterOfADay(t *testing.T) {
	for _, c := range []struct {
		days  int
		heads int     // one who is one, and a row of the others
		wash  float64 // L a head and day
		left  float64 // L for washing of all heads over all days
		drink float64 // part of what each is to drink at least
	}{
		{14, 3, 1, 42, 1}, {14, 3, 1, 41, 1}, {14, 3, 1, 21, 1}, {14, 3, 1, 0, 1}, {14, 3, 0.5, 10.5, 1}, {7, 2, 2, 7, 1}, {1, 4, 1, 3, 1}, {14, 2, 1, 14, 0.5}, {14, 2, 1, 28, 0.5},
	} {
		others := rationtest.Adult("Odd", 40, nutrients.Male)
		others.Count = c.heads - 1
		wash := c.wash
		req := ration.Filled(&ration.Request{
			People: []nutrients.Person{rationtest.Adult("Signe", 36, nutrients.Female), others}, Table: rationtest.Table(t), Start: "2026-11-25", Days: c.days, WashingL: &wash,
		})
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		x := make([]float64, len(m.Cols))
		water := c.left
		least := map[string]float64{}
		for _, e := range m.Eaters {
			least[e.Person.Name] = m.Problem.Cols[e.Drink].Lower / float64(c.days)
			x[e.Drink] = c.drink * m.Problem.Cols[e.Drink].Lower
			water += 1.1 * e.Count * x[e.Drink] // and a tenth for what is spilt
		}
		x[m.Water] = water
		all := c.wash * float64(c.heads)
		washing, drinks := 0, 0
		for _, s := range WriteClosest(m, x).Shortfalls {
			switch s.Nutrient {
			case ration.ShortWashing:
				washing++
				if want := c.left / float64(c.days); math.Abs(s.Amount-want) > 1e-6 || math.Abs(s.Target-all) > 1e-9 || s.Person != "" || s.Unit != "L" {
					t.Errorf("%+v: %g of %g %s a day to wash with, want %g of %g", c, s.Amount, s.Target, s.Unit, want, all)
				}
			case ration.ShortDrink:
				drinks++
				if want := least[s.Person]; math.Abs(s.Target-want) > 1e-9 || math.Abs(s.Amount-c.drink*want) > 1e-9 || want <= 0 {
					t.Errorf("%+v: %s drinks %g of %g L a day, want %g of %g", c, s.Person, s.Amount, s.Target, c.drink*want, want)
				}
			}
		}
		if short := c.left < all*float64(c.days); (washing == 1) != short || (drinks == 2) != (c.drink < 1) || washing+drinks > 3 {
			t.Errorf("%+v: short of washing %d times, of drinks %d", c, washing, drinks)
		}
	}
}

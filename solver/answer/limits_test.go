package answer_test

import (
	"math"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/solver/answer"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/verify"
)

// TestOwnLimitsAtTheirEnds: with each limit of the household's own set half-way between
// the least that a ration takes and what it takes when led to no end, the plan led to the
// limit comes near it, and passes the check. The usual allowance binds where a small child
// needs less.
func TestOwnLimitsAtTheirEnds(t *testing.T) {
	fromStock := func(r *ration.Request) { // which weighs and fills as what is bought does
		r.StockOnly = true
		for _, f := range r.Table.Foods {
			if len(f.Packs) > 0 {
				r.Stock = append(r.Stock, foods.StockLine{Pack: f.Packs[0], Count: 12})
			}
		}
	}
	shelf := func(litres float64) []stores.Shelf {
		return []stores.Shelf{{Name: "floor", WidthCm: litres / 5, DepthCm: 100, HeightCm: 50, LoadKg: 1e5}}
	}
	for _, c := range []struct {
		row  string
		set  func(*ration.Request, float64)
		much float64 // that binds nothing
	}{
		{"budget", func(r *ration.Request, v float64) { r.Limits.Budget = &v }, 3000},
		{"max-weight", func(r *ration.Request, v float64) { r.Limits.WeightKg = &v }, 3000},
		{"max-litres", func(r *ration.Request, v float64) { r.Limits.VolumeL = &v }, 3000},
		{"max-weight of a stock", func(r *ration.Request, v float64) { r.Limits.WeightKg = &v; fromStock(r) }, 3000},
		{"max-litres of a stock", func(r *ration.Request, v float64) { r.Limits.VolumeL = &v; fromStock(r) }, 3000},
		{"shelf-space", func(r *ration.Request, v float64) { r.Shelves = shelf(v) }, 3000},
		{"water-allowance", func(r *ration.Request, v float64) { r.Allowance = v == 0 }, 0},
	} {
		t.Run(c.row, func(t *testing.T) {
			t.Parallel()
			build := func(v float64) (*ration.Request, *model.Model, int) {
				req := askedFor(t, "name,age_years,sex", "Tiril,2,f")
				req.Least = ration.LeastCost
				c.set(req, v)
				m, err := model.Build(req)
				if err != nil {
					t.Fatal(err)
				}
				for i := range m.Problem.Rows {
					if name, _, _ := strings.Cut(c.row, " "); m.Problem.Rows[i].Name == name {
						return req, m, i
					}
				}
				t.Fatalf("no row %s", c.row)
				return nil, nil, 0
			}
			req, m, row := build(c.much)
			cols, values := m.Problem.ByRow().Row(row)
			of := func(x []float64) float64 {
				sum := 0.0
				for k, j := range cols {
					sum += values[k] * x[j]
				}
				return sum
			}
			if c.row == "water-allowance" {
				x := leading(t, m).towards([]int{m.Water}, []float64{1}, false)
				if x == nil {
					t.Fatal("no point")
				}
				for _, v := range verify.Check(req, answer.Write(m, x)) {
					t.Error(v)
				}
				if got, want := x[m.Water], 7*3.785411784; math.Abs(got-want) > 1e-3 { // 7 US gallons a head for a fortnight: trade practice, common practice, no source
					t.Errorf("%g L are stored for a child, want the allowance of %g", got, want)
				}
				return
			}
			food, grows := sumOf(m, row) // what is led: no more water is stored than is needed
			led := leading(t, m)
			low, high := led.towards(food, grows, false), led.towards(food, grows, true)
			if low == nil || high == nil || of(high) < 1.2*of(low) {
				t.Fatalf("there is no room between the least and the most: %v, %v", low != nil, high != nil)
			}
			most := (of(low) + of(high)) / 2
			if c.row == "shelf-space" { // litres of boxes that the share of a board holds
				most /= m.Problem.Rows[row].Upper / c.much
			}
			req, m, row = build(most)
			x := leading(t, m).towards(food, grows, true)
			if x == nil {
				t.Fatal("no point under the limit")
			}
			for _, v := range verify.Check(req, answer.Write(m, x)) {
				t.Error(v)
			}
			if got := of(x); got < 0.6*m.Problem.Rows[row].Upper {
				t.Errorf("%g of at most %g: the limit is not near", got, m.Problem.Rows[row].Upper)
			}
		})
	}
}

// TestKeptPacks: what is to stay as it is stands in a row of its own, whichever pack of a
// food it is, and the others of that food are free.
func TestKeptPacks(t *testing.T) {
	for _, which := range []int{0, 1} {
		req := askedFor(t, "name,age_years,sex", "Signe,30,f")
		var food *foods.Food
		for _, f := range req.Table.Foods {
			if food == nil && len(f.Packs) == 2 {
				food = f
			}
		}
		kept := food.Packs[which]
		req.Keep = map[string]int{kept.Key: 3}
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		rows := 0
		for i, info := range m.Rows {
			if info.Kind != model.RowKeep {
				continue
			}
			rows++
			cols, values := m.Problem.ByRow().Row(i)
			if row := m.Problem.Rows[i]; row.Lower != 3 || row.Upper != 3 || info.Group != kept.Key || len(cols) != 1 || values[0] != 1 || m.Problem.Cols[cols[0]].Name != "buy["+kept.Key+"]" {
				t.Errorf("pack %d of %s: %+v over %v × %v", which, food.Name, row, values, cols)
			}
		}
		if rows != 1 {
			t.Errorf("pack %d of %s: %d rows, want one", which, food.Name, rows)
		}
	}
}

package aim

import (
	"math"
	"slices"
	"testing"

	"rationwright/solver/linear"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestPriceOfSodiumByHand: 1000 kcal of two foods of 1 kcal a gram, for 0.01 and 2 mg of sodium, or for
// 0.03 and none. For 20 in all half is of each, with 1000 mg; a mg less costs 0.02/2. For 30 none is of
// the first; for 9 there is no point. The model is as it was.
func TestPriceOfSodiumByHand(t *testing.T) {
	c := rationtest.NewCounter(ration.LeastCost)
	c.Problem.Rows[c.Energy].Lower = 1000
	c.Sell(1, 50, 100, 5000, 1, 0)
	c.Sell(3, 50, 100, 5000, 1, 0)
	p := &program{model: c.Model}
	mg := make([]float64, len(c.Cols))
	mg[c.Eat(0)] = 2
	for _, k := range []struct{ most, price, bound float64 }{{20, 0.01, 1000}, {28, 0.01, 200}, {31, 0, 0}, {9, 0, math.Inf(-1)}} {
		q := p.leastSodium(mg, k.most)
		price, bound := pricePerMg(t.Context(), q)
		if math.Abs(price-k.price) > 1e-9 || bound != k.bound && math.Abs(bound-k.bound) > 1e-6 {
			t.Errorf("for %g: a mg is worth %g, %g are proven, want %g and %g", k.most, price, bound, k.price, k.bound)
		}
		if row := q.Rows[len(q.Rows)-1]; row.Upper != k.most || !math.IsInf(row.Lower, -1) || q.Cols[c.Eat(0)].Cost != 2 || q.Cols[c.Pack(0)].Cost != 0 {
			t.Errorf("for %g: the program is %+v", k.most, row)
		}
	}
	if c.Problem.Cols[c.Pack(0)].Cost != 1 {
		t.Error("the model is changed")
	}
}

// TestLessSodiumIsTaken: a point is taken that is within the slack and has no more sodium than the one
// that there is, of all who are to have little together; allowed is so many times what there is, and no
// more than before.
func TestLessSodiumIsTaken(t *testing.T) {
	c := rationtest.NewCounter(ration.LeastCost)
	c.Sell(1, 50, 100, 5000, 1, 0)
	c.Sell(3, 50, 100, 5000, 1, 0)
	c.Problem.Rows[c.Protein].Upper = 900
	point := func(packs, grams float64) []float64 {
		x := make([]float64, len(c.Cols))
		x[c.Pack(0)], x[c.Eat(0)] = packs, grams
		return x
	}
	p := &program{model: c.Model, sodium: []sodiumRow{{row: c.Protein, most: 900, count: 2, mg: []linear.Entry{term(c.Eat(0), 3)}}}}
	for _, k := range []struct {
		packs, grams float64
		taken        bool
	}{{9, 100, true}, {10, 100, true}, {10.01, 100, false}, {9, 99, true}, {9, 101, false}} { // 300 mg, for at most 10
		s := &lower{program: p, x: point(8, 100), most: 10}
		y := append(point(k.packs, k.grams), 7, 7)
		if got := s.take(y); got != k.taken || k.taken != slices.Equal(s.x, y[:len(c.Cols)]) || s.take(nil) {
			t.Errorf("%+v: taken %v, %v", k, got, s.x)
		}
	}
	s := &lower{program: p, x: point(8, 100), most: 10}
	for times, want := range map[float64]float64{0.5: 150, 1: 300, 2: 600, 4: 900} {
		got := s.allowing(s.x, times).Rows[c.Protein].Upper
		if got < want || got > math.Min(900, want*1.0001) {
			t.Errorf("%g times 300 mg: %g are allowed, want %g", times, got, want)
		}
	}
	if c.Problem.Rows[c.Protein].Upper != 900 {
		t.Error("the model is changed")
	}
	if got := p.sodiumAt(s.x); got != 600 { // two alike
		t.Errorf("%g mg of both, want 600", got)
	}
}

// TestWhatStandsBeyondIsNone: of the foods that may not be used nothing is bought or eaten in the program
// of the search, and no column that speaks of them is more than nothing; all others are as they were.
func TestWhatStandsBeyondIsNone(t *testing.T) {
	weights, err := ration.DefaultWeights()
	if err != nil {
		t.Fatal(err)
	}
	p := plates(t, weights)
	m := p.model
	x := make([]float64, len(m.Cols))
	var in []int
	for li := range m.Larder {
		if li%2 == 0 {
			in = append(in, li)
		}
	}
	d, err := newDescent(p, x, 1e9, in, 1000)
	if err != nil {
		t.Fatal(err)
	}
	p.keepSodium(x)
	q := d.among(x)
	closed := make([]bool, len(p.Cols))
	for li, lf := range m.Larder {
		if d.in[li] != (li%2 == 0 || lf.Balance < 0) {
			t.Fatalf("%s may be used: %v", lf.Food.Name, d.in[li])
		}
		if d.in[li] {
			continue
		}
		for _, k := range lf.Buy {
			closed[k.Col], closed[p.sizes[li][k.Col]], closed[p.bought[li]] = true, true, true
		}
		if e, ok := p.counts[li]; ok {
			closed[e] = true
		}
		for ei, e := range m.Eaters {
			if y, ok := e.Eating(li); ok {
				closed[y.Col] = true
			}
			if z, ok := p.eats[ei][li]; ok {
				closed[z], closed[z+1] = true, true // a portion, and a crumb
			}
		}
	}
	for j, c := range q.Cols {
		want := p.Cols[j]
		if closed[j] {
			want.Lower, want.Upper = 0, 0
		}
		if c.Lower != want.Lower || c.Upper != want.Upper || c.Cost != want.Cost {
			t.Errorf("%s is from %g to %g, want %g to %g", c.Name, c.Lower, c.Upper, want.Lower, want.Upper)
		}
	}
}

package search

import (
	"math"
	"slices"
	"testing"

	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/simplex"
)

// TestWholePacksOnly: of a pack for 1 and up to 0.9 of what may be had in parts for 0.8 a unit 2.5 are
// needed. 1.6 and 0.9 are the cheapest; with two packs 0.5 are enough, for 2.4. What is had in parts is
// not rounded, a pack that is left out is not bought, and the bounds are as they were.
func TestWholePacksOnly(t *testing.T) {
	p := &linear.Problem{}
	need := p.AddRow("need", 2.5, math.Inf(1))
	pack, part, out := p.AddCol("pack", 1, 0, 9, true), p.AddCol("part", 0.8, 0, 0.9, false), p.AddCol("left out", 0.1, 0, 9, true)
	for _, j := range []int{pack, part, out} {
		p.Set(need, j, 1)
	}
	x, err := RelaxWithout(p, []bool{false, false, true})
	if err != nil {
		t.Fatal(err)
	}
	got := x.DiveUp(t.Context())
	if len(got) != 3 || got[0] != 2 || math.Abs(got[1]-0.5) > 1e-9 || got[2] != 0 {
		t.Errorf("%v, want 2 packs and 0.5", got)
	}
	for j, upper := range []float64{9, 0.9} {
		if lower, high := x.Bounds(j); lower != 0 || high != upper {
			t.Errorf("column %d is left between %g and %g", j, lower, high)
		}
	}
	if better := x.Descend(t.Context(), []float64{3, 0, 0}); better[0] != 2 || math.Abs(better[1]-0.5) > 1e-9 {
		t.Errorf("from three packs: %v, want 2 and 0.5", better)
	}
}

// TestWhatIsOnHandIsIn: foods that are on hand, set aside, or come without a pack are in from the start,
// others where it is said; so that what is on hand and not for sale is eaten: 1000 kcal for nothing.
func TestWhatIsOnHandIsIn(t *testing.T) {
	c := rationtest.NewCounter(ration.LeastCost)
	c.Problem.Rows[c.Energy].Lower = 1000
	for range 5 {
		c.Sell(5, 9, 500, 4000, 1, 0)
	}
	c.Larder[1].Stock, c.Larder[1].Buy = c.Larder[1].Buy, nil
	c.Problem.Cols[c.Larder[1].Stock[0].Col].Cost = 0
	c.Larder[2].Reserve = []model.PackCol{c.Larder[2].Buy[0]}
	c.Larder[3].Balance = -1
	in := []bool{false, false, false, false, true}
	q, err := NewMaster(c.Model, c.Problem, in)
	if err != nil {
		t.Fatal(err)
	}
	if want := []bool{false, true, true, true, true}; !slices.Equal(q.in, want) || in[1] {
		t.Errorf("in are %v, want %v; it was said %v", q.in, want, in)
	}
	c.Larder[3].Balance = c.Larder[2].Balance + 1
	if q, err = NewMaster(c.Model, c.Problem, make([]bool, 5)); err != nil {
		t.Fatal(err)
	}
	if r := q.Solve(t.Context()); r.Status != simplex.Optimal || math.Abs(r.Value) > 1e-9 || math.Abs(r.X[c.Eat(1)]-1000) > 1e-6 {
		t.Errorf("%v for %g, %g g of what is on hand", r.Status, r.Value, r.X[c.Eat(1)])
	}
}

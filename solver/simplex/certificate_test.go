package simplex

import (
	"context"
	"math"
	"testing"

	"rationwright/solver/linear"
)

// TestCertificateLimits: what an optimum of min x with 2 ≤ x + y ≤ 7, 0 ≤ x ≤ 9, y ≥ 0 may miss,
// just inside and just outside of each limit, by hand: a side or bound by 1e-6 of one more
// than its size; a multiplier without a bound to lean on by 1e-6 of one more than the largest
// cost, 1; multipliers times distances by 1e-6 of one more than the value.
func TestCertificateLimits(t *testing.T) {
	const tol = 1e-6
	inf := math.Inf(1)
	for _, c := range []struct {
		name          string
		x, y, row     float64 // of the columns and the row
		ofX, ofY, mul float64 // reduced costs and multiplier
		value         float64
		optimal       bool
	}{
		{"exact", 0, 2, 2, 1, 0, 0, 0, true},
		{"under the row", 0, 2, 2 - 2.9*tol, 0, 0, 0, 0, true},
		{"too far under the row", 0, 2, 2 - 3.1*tol, 0, 0, 0, 0, false},
		{"over the row", 0, 2, 7 + 7.9*tol, 0, 0, 0, 0, true},
		{"too far over the row", 0, 2, 7 + 8.1*tol, 0, 0, 0, 0, false},
		{"under the bound", -0.9 * tol, 2, 2, 0, 0, 0, 0, true},
		{"too far under the bound", -1.1 * tol, 2, 2, 0, 0, 0, 0, false},
		{"over the bound", 9 + 9.9*tol, 2, 2, 0, 0, 0, 0, true},
		{"too far over the bound", 9 + 10.1*tol, 2, 2, 0, 0, 0, 0, false},
		{"a row that is no number", 0, 2, math.NaN(), 0, 0, 0, 0, false},
		{"a column that is no number", math.NaN(), 2, 2, 0, 0, 0, 0, false},
		{"y's price leans on nothing", 0, 2, 2, 0, -1.9 * tol, 0, 0, true},
		{"y's price leans on nothing too much", 0, 2, 2, 0, -2.1 * tol, 0, 0, false},
		{"x's price leans on its upper bound", 9, 2, 2, -1, 0, 0, 0, true},
		{"x's price leans on its upper bound from afar", 0, 2, 2, -1, 0, 0, 0, false},
		{"x priced a little above its bound", 2.9 * tol, 2, 2, 1, 0, 0, 2, true},
		{"x priced too far above its bound", 3.1 * tol, 2, 2, 1, 0, 0, 2, false},
		{"the same beside a value below zero", 2.9 * tol, 2, 2, 1, 0, 0, -2, true},
		{"a multiplier a little off its side", 0, 2, 2 + 1.4*tol, 0, 0, 2, 2, true},
		{"a multiplier too far off its side", 0, 2, 2 + 1.6*tol, 0, 0, 2, 2, false},
		{"a multiplier that leans on the upper side", 0, 2, 7 - 1.4*tol, 0, 0, -2, 2, true},
		{"price and multiplier together", 1.6 * tol, 2, 2 + 1.6*tol, 1, 0, 1, 2, false},
		{"price and multiplier that do not make up for each other", 1.6 * tol, 2, 7 - 1.6*tol, 1, 0, -1, 2, false},
		{"no number to price", 0, 2, 2, math.NaN(), 0, 0, 0, false},
	} {
		for _, maximize := range []bool{false, true} { // a maximum has every sign of price turned
			sign := 1.0
			if maximize {
				sign = -1
			}
			p := &linear.Problem{Maximize: maximize}
			p.AddRow("r", 2, 7)
			p.Set(0, p.AddCol("x", sign, 0, 9, false), 1)
			p.Set(0, p.AddCol("y", 0, 0, inf, false), 1)
			s := unscaled(t, p)
			r := Result{Status: Optimal, Value: sign * c.value, X: []float64{c.x, c.y}, RowValue: []float64{c.row},
				Reduced: []float64{sign * c.ofX, sign * c.ofY}, Dual: []float64{sign * c.mul}}
			s.certify(&r)
			if (r.Status == Optimal) != c.optimal || (r.Why == "") != c.optimal || r.Status != Optimal && r.Status != Numerical {
				t.Errorf("%s, maximise %v: %v %q with residuals of %g, %g, %g", c.name, maximize, r.Status, r.Why, r.PrimalResidual, r.DualResidual, r.Complementarity)
			}
		}
	}
}

// TestBoundOfBasis, by hand: with nothing but the slack basic, costs are reduced costs, so
// that 2y − x with 1 ≤ y ≤ 4 proves 2 − 3 with x ≤ 3 and nothing with x endless, unless its
// cost is within what an optimum may have too, 1e-8. The constant counts.
func TestBoundOfBasis(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		cost, upper float64
		bound       float64
		has         bool
	}{
		{-1, 3, -1, true}, {-1, inf, 0, false}, {1, inf, 2, true}, {-0.9e-8, inf, 2, true}, {-1.1e-8, inf, 0, false}, {0, inf, 2, true},
	} {
		for _, maximize := range []bool{false, true} {
			sign := 1.0
			if maximize {
				sign = -1
			}
			p := &linear.Problem{Maximize: maximize, Offset: sign * 10}
			p.AddRow("r", -inf, 5)
			p.Set(0, p.AddCol("x", sign*c.cost, 0, c.upper, false), 1)
			p.Set(0, p.AddCol("y", sign*2, 1, 4, false), 1)
			s := unscaled(t, p)
			s.core.refresh(true)
			var r Result
			s.fill(&r)
			if r.HasBound != c.has || c.has && math.Abs(r.Bound-sign*(10+c.bound)) > 1e-12 || !c.has && r.Bound != 0 {
				t.Errorf("cost %g, up to %g, maximise %v: bound %g, %v; want %g, %v", c.cost, c.upper, maximize, r.Bound, r.HasBound, sign*(10+c.bound), c.has)
			}
			if r.Value != sign*12 || r.X[0] != 0 || r.X[1] != 1 || r.RowValue[0] != 1 || r.Dual[0] != 0 || r.Reduced[0] != sign*c.cost || r.Reduced[1] != sign*2 {
				t.Errorf("cost %g, maximise %v: %+v, want the point (0, 1) of value %g", c.cost, maximize, r, sign*12)
			}
		}
	}
}

// TestRayLimits: x ≤ side and x ≥ side·(1 + room) contradict each other if the room is more
// than rounding of the two figures may be, 1e-12 of each; of a free column nothing may be
// left but 1e-12 of what cancels.
func TestRayLimits(t *testing.T) {
	for _, side := range []float64{1, -1, 1000, -1000} {
		for room, want := range map[float64]bool{0: false, 1.9e-12: false, 2.1e-12: true, 1e-6: true, -1e-6: false} {
			p := &linear.Problem{}
			p.AddRow("least", side+math.Abs(side)*room, linear.Inf)
			p.Set(0, p.AddCol("x", 1, -linear.Inf, side, false), 1)
			if got := unscaled(t, p).proves([]float64{1}); got != want {
				t.Errorf("x ≤ %g and %g more, proven %v, want %v", side, room, got, want)
			}
			q := &linear.Problem{} // the same from the other side
			q.AddRow("most", -linear.Inf, side-math.Abs(side)*room)
			q.Set(0, q.AddCol("x", 1, side, linear.Inf, false), 1)
			if got := unscaled(t, q).proves([]float64{-1}); got != want {
				t.Errorf("x ≥ %g and %g less, proven %v, want %v", side, room, got, want)
			}
		}
	}
	for _, size := range []float64{1, 1e-3, 1e3} {
		for left, want := range map[float64]bool{0: true, 1.9e-12: true, 2.1e-12: false, -2.1e-12: false} {
			p := &linear.Problem{}
			p.AddRow("a", 9, linear.Inf)
			p.AddRow("b", 1, 1)
			f, x := p.AddCol("f", 0, -linear.Inf, linear.Inf, false), p.AddCol("x", 0, 0, 3, false)
			p.Set(0, f, size)
			p.Set(1, f, size)
			p.Set(0, x, 1)
			if got := unscaled(t, p).proves([]float64{1, -1 + left}); got != want {
				t.Errorf("%g of the free column's %g left: proven %v, want %v", left, size, got, want)
			}
		}
	}
}

// TestEndless, by hand: min −x − y (or max x + y) over x − y ≤ 5 and x + z ≥ −3, x and y endless upwards, z
// between 0 and 4. Any multiple of a direction must keep every bound and row and gain.
func TestEndless(t *testing.T) {
	for _, c := range []struct {
		name  string
		costs [3]float64
		ray   []float64
		want  bool
	}{
		{"along y", [3]float64{-1, -1, 0}, []float64{0, 1, 0}, true},
		{"along x, which the row ends", [3]float64{-1, -1, 0}, []float64{1, 0, 0}, false},
		{"along both", [3]float64{-1, -1, 0}, []float64{1, 1, 0}, true},
		{"along both, x a little more", [3]float64{-1, -1, 0}, []float64{1 + 2.2e-10, 1, 0}, false},
		{"along both, x more by rounding", [3]float64{-1, -1, 0}, []float64{1 + 1.8e-10, 1, 0}, true},
		{"along both, y more", [3]float64{-1, -1, 0}, []float64{1, 2, 0}, true},
		{"down y, which its bound ends", [3]float64{-1, 1, 0}, []float64{0, -1, 0}, false},
		{"along z, which its bound ends", [3]float64{-1, -1, -1}, []float64{0, 1, 1e-3}, false},
		{"down z", [3]float64{-1, -1, 1}, []float64{0, 1, -1e-3}, false},
		{"nothing gained", [3]float64{0, 0, 0}, []float64{0, 1, 0}, false},
		{"something lost", [3]float64{-1, 1, 0}, []float64{0, 1, 0}, false},
		{"as much lost as gained", [3]float64{-1, 1, 0}, []float64{1, 1, 0}, false},
		{"a little more gained", [3]float64{-1 - 2.2e-10, 1, 0}, []float64{1, 1, 0}, true},
		{"more gained by rounding", [3]float64{-1 - 1.8e-10, 1, 0}, []float64{1, 1, 0}, false},
		{"no direction", [3]float64{-1, -1, 0}, []float64{0, 0, 0}, false},
	} {
		for _, maximize := range []bool{false, true} {
			p := &linear.Problem{Maximize: maximize}
			p.AddRow("r", -linear.Inf, 5)
			p.AddRow("s", -3, linear.Inf)
			for k, upper := range []float64{linear.Inf, linear.Inf, 4} {
				cost := c.costs[k]
				if maximize {
					cost = -cost
				}
				p.AddCol(string(rune('x'+k)), cost, 0, upper, false)
			}
			p.Set(0, 0, 1)
			p.Set(1, 0, 1)
			p.Set(0, 1, -1)
			p.Set(1, 2, 1)
			if got := unscaled(t, p).endless(c.ray); got != c.want {
				t.Errorf("%s, maximise %v: %v, want %v", c.name, maximize, got, c.want)
			}
		}
	}
}

// TestLimitsSaySo stops a solve by each limit and asks what it says of it.
func TestLimitsSaySo(t *testing.T) {
	c := &core{n: 3, m: 2, iterations: 7}
	cancelled, cancel := context.WithCancel(context.Background())
	cancel()
	for _, k := range []struct {
		name string
		ctl  control
		want outcome
		why  string
	}{
		{"one to go", control{ctx: context.Background(), last: 8}, done, ""},
		{"none to go", control{ctx: context.Background(), last: 7}, stopped, "the iteration limit was reached"},
		{"cancelled, between looks", control{ctx: cancelled, last: forever, tries: pollEvery}, done, ""},
		{"cancelled, at a look", control{ctx: cancelled, last: forever, tries: pollEvery - 1}, stopped, "cancelled"},
		{"as many as there may be", control{ctx: context.Background(), last: forever, tries: hopeless*105 - 1}, done, ""},
		{"more", control{ctx: context.Background(), last: forever, tries: hopeless * 105}, broken, ""},
	} {
		if got := k.ctl.mayIterate(c); got != k.want || k.ctl.why != k.why {
			t.Errorf("%s: %v %q, want %v %q", k.name, got, k.ctl.why, k.want, k.why)
		}
	}
}

// TestStall: after 50 steps of length zero, and 50 more, a method perturbs, unless that is
// forbidden or Bland's rules hold; a step that moves begins anew.
func TestStall(t *testing.T) {
	count := func(ctl *control, steps int, lengths func(k int) float64) (perturbed []int) {
		for k := 1; k <= steps; k++ {
			if ctl.stepped(lengths(k)) {
				perturbed = append(perturbed, k)
			}
		}
		return perturbed
	}
	none := func(int) float64 { return 0 }
	for _, c := range []struct {
		name    string
		ctl     control
		lengths func(k int) float64
		want    int // the first of them, 0 none
		many    int
		bland   bool
	}{
		{"none moves", control{blandAt: forever}, none, 50, 3, false},
		{"exact", control{blandAt: forever, exact: true}, none, 0, 0, false},
		{"Bland's rules from 60 on", control{blandAt: 60}, none, 50, 1, true},
		{"Bland's rules from 160 on", control{blandAt: 160}, none, 50, 3, false},
		{"the tenth moves", control{blandAt: 60}, func(k int) float64 { return map[bool]float64{true: 1}[k == 10] }, 60, 1, true},
		{"the tenth moves back", control{blandAt: forever}, func(k int) float64 { return map[bool]float64{true: -1}[k == 10] }, 60, 2, false},
		{"every fortieth moves", control{blandAt: 60}, func(k int) float64 { return map[bool]float64{true: 1}[k%40 == 0] }, 0, 0, false},
	} {
		got := count(&c.ctl, 159, c.lengths)
		if len(got) != c.many || c.many > 0 && got[0] != c.want || c.ctl.bland != c.bland {
			t.Errorf("%s: perturbs at %v, Bland %v; want %d from %d on, %v", c.name, got, c.ctl.bland, c.many, c.want, c.bland)
		}
	}
}

// TestTroubleEnds: twenty restarts, each fewer than eight iterations after the one before,
// are the most; eight iterations without one begin anew.
func TestTroubleEnds(t *testing.T) {
	for apart, want := range map[int]int{0: 20, 7: 20, 8: 100, 9: 100} {
		c, tr, n := &core{}, &trouble{}, 0
		for ; n < 100 && tr.mayRestart(c); n++ {
			c.iterations += apart
		}
		if n != want {
			t.Errorf("%d iterations apart: %d restarts, want %d", apart, n, want)
		}
	}
}

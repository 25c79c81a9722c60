package search

import (
	"math"
	"testing"

	"rationwright/solver/linear"
)

// Worked by hand: 5 are needed of two packs of 3 (cost 3) and 2 (cost 2.5) and one of 5
// (cost 4). From two, one and one, the dearest first: the one of 5 goes (4), then of the
// others, 3·2+2 = 8 ≥ 5, one of 3 (3), and no more: 5 are left, of 3 and 2, for 5.5.
func TestDescendByHand(t *testing.T) {
	p := &linear.Problem{Name: "packs"}
	need := p.AddRow("need", 5, math.Inf(1))
	for _, k := range []struct{ cost, holds float64 }{{3, 3}, {2.5, 2}, {4, 5}} {
		p.Set(need, p.AddCol("pack", k.cost, 0, 9, true), k.holds)
	}
	x, err := Relax(p)
	if err != nil {
		t.Fatal(err)
	}
	got := x.Descend(t.Context(), []float64{2, 1, 1})
	if want := []float64{1, 1, 0}; got[0] != want[0] || got[1] != want[1] || got[2] != want[2] {
		t.Errorf("%v, want %v", got, want)
	}
	for j := range p.Cols {
		if lower, upper := x.Bounds(j); lower != 0 || upper != 9 {
			t.Errorf("column %d is left between %g and %g", j, lower, upper)
		}
	}
}

// TestAlmostWholeIsWhole: 3 - 5e-7 packs, as much as the need asks for, are three, not two: all
// are within a millionth of whole. Two would leave the need unmet, where there is no point.
func TestAlmostWholeIsWhole(t *testing.T) {
	for _, need := range []float64{3 - 5e-7, 3} {
		p := &linear.Problem{Name: "packs"}
		p.Set(p.AddRow("need", need, math.Inf(1)), p.AddCol("pack", 1, 0, 9, true), 1)
		x, err := Relax(p)
		if err != nil {
			t.Fatal(err)
		}
		if got := x.DiveUp(t.Context()); len(got) != 1 || got[0] != 3 {
			t.Errorf("%g needed: %v, want 3", need, got)
		}
	}
}

package branch

import (
	"context"
	"math"
	"testing"

	"rationwright/solver/simplex"
)

// What the groups are blamed for adds up to the distance of a point from the
// root's optimum, where every column is in a group: an identity of linear
// programming (complementary slackness with the slacks left in), not a figure of
// ours.
func TestBlameAddsUp(t *testing.T) {
	for seed := uint64(1); seed <= 5; seed++ {
		p := rationLike(seed, 2, 30, 8)
		found := Solve(context.Background(), p, Options{Gap: 0.05, Work: 20000})
		if found.X == nil {
			t.Fatalf("seed %d: no point: %v %s", seed, found.Status, found.Why)
		}
		s := &space{program: newProgram(p)}
		r, err := newRelaxation(s, nil, nil)
		if err != nil {
			t.Fatal(err)
		}
		out := r.solve(context.Background(), math.Inf(1), 0)
		if out.status != simplex.Optimal {
			t.Fatalf("seed %d: the relaxation is %v", seed, out.status)
		}
		h := newLNS(s, s.newGuide(out), 1)
		sum := 0.0
		for g, b := range h.blame(found.X) {
			if b < 0 {
				t.Errorf("seed %d: group %d is blamed for %g, want no less than 0", seed, g, b)
			}
			sum += b
		}
		if want := found.Value - out.value; math.Abs(sum-want) > 1e-6*math.Abs(found.Value) {
			t.Errorf("seed %d: the groups are blamed for %.9g, want %.9g: value %.9g less relaxation %.9g", seed, sum, want, found.Value, out.value)
		}
	}
}

// A point that is the root's optimum has nobody to blame; parts are still drawn,
// of the size asked for.
func TestNobodyToBlame(t *testing.T) {
	p := rationLike(1, 2, 30, 8)
	s := &space{program: newProgram(p)}
	r, err := newRelaxation(s, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	out := r.solve(context.Background(), math.Inf(1), 0)
	h := newLNS(s, s.newGuide(out), 1)
	x := append([]float64(nil), out.x...)
	for g, b := range h.blame(x) {
		if b > 1e-6*out.value {
			t.Errorf("group %d is blamed for %g of a solveBox optimum of %g, want nothing", g, b, out.value)
		}
	}
	used, free := 0.0, 0.0
	inUse := h.inUse(x)
	for g, f := range h.blamed(x) {
		if inUse[g] {
			used++
			if f {
				free++
			}
		}
	}
	if want := math.Ceil(h.share * used); used == 0 || free != want {
		t.Errorf("%g of %g groups in use are free, want %g: the share is %g", free, used, want, h.share)
	}
}

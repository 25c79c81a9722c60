package referee

import (
	"math"
	"testing"

	"rationwright/solver/linear"
)

// TestProvenLimits holds what the referee calls proven, 1e-7 of the value, from
// both sides: min x with x ≥ 100 has the optimum 100 with the multiplier 1.
func TestProvenLimits(t *testing.T) {
	p := &linear.Problem{}
	p.AddRow("need", 100, linear.Inf)
	p.Set(0, p.AddCol("x", 1, 0, 1000, false), 1)
	s, _, _ := standardise(p)
	for away, want := range map[float64]bool{0: true, 0.99e-5: true, 1.01e-5: false, 1: false} {
		op := Opinion{Verdict: Optimal, X: []float64{100 + away}, Value: 100 + away}
		if s.addDual(&op, []float64{1}); op.Proven != want || math.Abs(op.Bound-100) > 1e-12 {
			t.Errorf("%v from the bound %v: proven %v, want %v", away, op.Bound, op.Proven, want)
		}
	}
}

// TestJudgeLimits holds the row that a point may miss, 1e-7 of the 100 it asks
// for, from both sides.
func TestJudgeLimits(t *testing.T) {
	p := &linear.Problem{}
	p.AddRow("need", 100, linear.Inf)
	p.Set(0, p.AddCol("x", 1, 0, linear.Inf, false), 1)
	s, _, _ := standardise(p)
	for short, want := range map[float64]Verdict{0: Optimal, 0.99e-5: Optimal, 1.01e-5: Silent, 1: Silent} {
		if op := s.judge(Opinion{}, nil, []float64{100 - short}, outcome{}); op.Verdict != want {
			t.Errorf("%v short: %v, want %v", short, op, want)
		}
	}
}

// A ray shows that nothing fits only where it bounds the rows away from each other:
// one of noughts, or one that a point meets, proves nothing.
func TestRayThatProvesNothing(t *testing.T) {
	for _, c := range []struct {
		most float64 // of x, of which 100 are needed
		ray  float64
		want bool
	}{{99, 1, true}, {99, 0, false}, {100, 1, false}, {101, 1, false}, {99, -1, false}} {
		p := &linear.Problem{}
		p.AddRow("need", 100, linear.Inf)
		p.Set(0, p.AddCol("x", 1, 0, c.most, false), 1)
		s, _, _ := standardise(p)
		if op := s.infeasible([]float64{c.ray}, "by hand"); op.Proven != c.want {
			t.Errorf("at most %g of 100 needed, ray %g: proven %v, want %v", c.most, c.ray, op.Proven, c.want)
		}
	}
}

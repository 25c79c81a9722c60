package simplex

import (
	"context"
	"math/rand/v2"
	"testing"
)

// TestBland solves with Bland's rules from the first step of length zero on:
// the last resort against circles must reach the same answers.
func TestBland(t *testing.T) {
	for _, f := range families {
		t.Run(f.name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(14, uint64(len(f.name))))
			for range 20 * *campaign {
				p := f.make(r)
				s, err := New(p)
				if err != nil {
					t.Fatal(err)
				}
				for _, primal := range []bool{false, true} {
					s.SetSlackBasis()
					ctl := s.control(context.Background(), Limits{})
					ctl.blandAt, ctl.exact = 1, true
					got := s.attempt(ctl, primal)
					verify(t, p, got)
					if want := solveFresh(t, p); !same(got, want) {
						t.Errorf("primal first %v: %v %g, want %v %g\n%v", primal, got.Status, got.Value, want.Status, want.Value, p)
					}
				}
				if t.Failed() {
					return
				}
			}
		})
	}
}

// TestRecoveries takes each way of recovery on programs that need none. The last,
// without scaling, may fail on programs that need scaling, but not by a wrong
// word.
func TestRecoveries(t *testing.T) {
	for _, f := range families {
		t.Run(f.name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(15, uint64(len(f.name))))
			for range 10 * *campaign {
				p := f.make(r)
				s, err := New(p)
				if err != nil {
					t.Fatal(err)
				}
				want := s.Solve(context.Background(), Limits{})
				for k, try := range recoveries {
					got := try(s, s.control(context.Background(), Limits{}))
					if got.Status == Numerical && k == len(recoveries)-1 && f.name == "blend" {
						continue
					}
					verify(t, p, got)
					if !same(got, want) {
						t.Errorf("way %d: %v %g, want %v %g\n%v", k, got.Status, got.Value, want.Status, want.Value, p)
					}
					if after := s.Solve(context.Background(), Limits{}); !same(after, want) {
						t.Errorf("after way %d: %v %g, want %v %g", k, after.Status, after.Value, want.Status, want.Value)
					}
				}
				if t.Failed() {
					return
				}
			}
		})
	}
}

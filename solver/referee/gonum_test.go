package referee

import (
	"context"
	"errors"
	"strings"
	"testing"
)

// x + y = 2 from the basis {x}, and from one whose point is negative.
func TestIterate(t *testing.T) {
	cols := [][]float64{{1}, {1}, {-1}}
	c := []float64{2, 1, 5}
	z, err := iterate(context.Background(), c, cols, []float64{2}, []int{0})
	if err != nil || len(z) != 3 || z[0] != 0 || z[1] != 2 || z[2] != 0 {
		t.Errorf("z = %v (%v), want 0 2 0", z, err)
	}
	z, err = iterate(context.Background(), c, cols, []float64{2}, []int{2})
	if z != nil || err == nil || !strings.Contains(err.Error(), "panicked") {
		t.Errorf("z = %v (%v), want gonum's panic as an error", z, err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if z, err = iterate(ctx, c, cols, []float64{2}, []int{0}); z != nil || !errors.Is(err, context.Canceled) {
		t.Errorf("z = %v (%v), want context.Canceled", z, err)
	}
}

func TestWatchedStopsAfterItsReads(t *testing.T) {
	w := &watched{ctx: context.Background(), cols: [][]float64{{1, 2}, {3, 4}}, rows: 2, left: 2}
	defer func() {
		thrown, ok := recover().(stop)
		if !ok || !errors.Is(thrown.err, errTooLong) {
			t.Errorf("thrown %v, want errTooLong", thrown)
		}
	}()
	for _, j := range []int{0, 1, 0} {
		if w.At(0, j) != w.cols[j][0] || w.At(1, j) != w.cols[j][1] {
			t.Errorf("column %d reads wrong", j)
		}
	}
	t.Error("a third column was read")
}

func TestOpinionString(t *testing.T) {
	for _, c := range []struct {
		op   Opinion
		want string
	}{
		{Opinion{Why: "too large"}, "no opinion: too large"},
		{Opinion{Verdict: Optimal, Proven: true, Value: 1.5}, "optimal, proven, value 1.5"},
		{Opinion{Verdict: Infeasible}, "infeasible, unproven"},
		{Opinion{Verdict: Unbounded, Why: "column x"}, "unbounded, unproven: column x"},
	} {
		if got := c.op.String(); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

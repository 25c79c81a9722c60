package simplex

import (
	"slices"
	"testing"

	"rationwright/solver/linear"
)

// unscaled is a solver of p in the program's own figures, at the slack basis.
func unscaled(t *testing.T, p *linear.Problem) *Solver {
	t.Helper()
	s, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	s.scale = unit(s.a.rows, s.a.cols)
	s.core = newCore(&s.program, &s.scale)
	s.core.start()
	return s
}

// TestUnboundedIsProven: max x + y with x − y ≤ side and x, y ≥ 0 has no end along y
// from a feasible point. What the method takes for a direction and what it takes for a
// point are looked at again: x alone ends at the row, and 0 is no point of x − y ≤ −1.
func TestUnboundedIsProven(t *testing.T) {
	for _, c := range []struct {
		name   string
		side   float64
		column int32
		want   Status
	}{
		{"along y", 5, 1, Unbounded},
		{"along x, which the row ends", 5, 0, Numerical},
		{"along y from what is no point", -1, 1, Numerical},
		{"along y from the very end of a row", 0, 1, Unbounded},
	} {
		p := &linear.Problem{Maximize: true}
		p.AddRow("r", -linear.Inf, c.side)
		p.Set(0, p.AddCol("x", 1, 0, linear.Inf, false), 1)
		p.Set(0, p.AddCol("y", 1, 0, linear.Inf, false), -1)
		s := unscaled(t, p)
		clear(s.core.spike)
		s.core.candidates = append(s.core.candidates[:0], c.column)
		r := s.unbounded()
		if r.Status != c.want || r.HasBound || r.Bound != 0 || (r.Why == "") != (c.want == Unbounded) {
			t.Errorf("%s: %v %v %q, bound %g %v; want %v and no bound", c.name, r.Status, r.Ray, r.Why, r.Bound, r.HasBound, c.want)
		}
	}
}

// TestRayLeansOnLimits: a multiplier leans on the lower limit of its row, or turned round on
// the upper; a row without that limit is left out of the ray, and so is what is rounding
// beside the rest. x ≥ 1 and x ≤ 0 contradict each other whatever a row without limits says.
func TestRayLeansOnLimits(t *testing.T) {
	p := &linear.Problem{}
	p.AddRow("least", 1, linear.Inf)
	p.AddRow("most", -linear.Inf, 0)
	p.AddRow("free", -linear.Inf, linear.Inf)
	p.AddRow("is", 3, 3)
	p.AddRow("least too", 1, linear.Inf)
	x := p.AddCol("x", 1, -9, 9, false)
	for i := range 3 {
		p.Set(i, x, 1)
	}
	s := unscaled(t, p)
	y := []float64{1, 2, 3, 4, 1e-12}
	for sign, want := range map[float64][]float64{1: {1, 0, 0, 4, 0}, -1: {0, -2, 0, -4, 0}} {
		if got := s.rowRay(y, sign); !slices.Equal(got, want) {
			t.Errorf("%v times %g gives %v, want %v", y, sign, got, want)
		}
	}
	for _, y := range [][]float64{{1, -1, 0.5, 0, 0}, {-1, 1, 0.5, 0, 0}, {1, -1, 0, 0, 0}} {
		if ray, proven := s.proof(y); !proven || !slices.Equal(ray, []float64{1, -1, 0, 0, 0}) {
			t.Errorf("%v: %v, proven %v", y, ray, proven)
		}
	}
	if ray, proven := s.proof([]float64{1, 0, 0, 0, 0}); proven {
		t.Errorf("x ≥ 1 alone is proven impossible by %v", ray)
	}
}

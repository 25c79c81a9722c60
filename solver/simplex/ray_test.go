package simplex

import (
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
		if r := s.unbounded(); r.Status != c.want {
			t.Errorf("%s: %v %v, want %v", c.name, r.Status, r.Ray, c.want)
		}
	}
}

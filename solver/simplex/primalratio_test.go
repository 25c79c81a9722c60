package simplex

import (
	"math"
	"testing"

	"rationwright/solver/linear"
)

// TestPrimalStep: rows a = x from 1 to 10 and b = 2x from 0 to 15, x from 0 to its
// upper bound, now 3. So a is 3 and b is 6. Downwards a ends first, 2 away, where b
// would be after 3; upwards b does, after 4.5, where a would be after 7. A bound of x
// itself that is nearer ends it before. Every rule for the step says the same.
func TestPrimalStep(t *testing.T) {
	for _, c := range []struct {
		name         string
		dir          float64
		lower, upper float64 // of x
		least, most  float64 // of a
		row          int
		step         float64
	}{
		{"down to the least of a", -1, -99, 99, 1, 10, 0, 2},
		{"up to the most of b", 1, -99, 99, 1, 10, 1, 4.5},
		{"down to the least of b, a without end", -1, -99, 99, -linear.Inf, 10, 1, 3},
		{"up to the most of a", 1, -99, 99, 1, 7, 0, 4},
		{"a stands at its end", -1, -99, 99, 3, 10, 0, 0},
		{"x ends after a", -1, 0.999, 3, 1, 10, 0, 2},
		{"x ends before a", -1, 1.001, 3, 1, 10, -1, 1.999},
	} {
		p := &linear.Problem{}
		p.AddRow("a", c.least, c.most)
		p.AddRow("b", 0, 15)
		j := p.AddCol("x", -1, c.lower, c.upper, false)
		p.Set(0, j, 1)
		p.Set(1, j, 2)
		s := unscaled(t, p)
		core := s.core
		core.x[0] = 3
		for i, k := range core.head { // rows are −1 times their slack: B⁻¹·column
			row := int(k) - core.n
			core.x[k] = []float64{3, 6}[row]
			core.spike[i] = []float64{-1, -2}[row]
		}
		for _, rule := range []string{"harris", "bland"} {
			at, step := primalMethod{core}.primalRatio(0, c.dir, false, rule == "bland")
			row := -1
			if at >= 0 {
				row = int(core.head[at]) - core.n
			}
			if row != c.row || math.Abs(step-c.step) > 1e-7 {
				t.Errorf("%s by %s: %g to row %d, want %g to row %d", c.name, rule, step, row, c.step, c.row)
			}
		}
	}
}

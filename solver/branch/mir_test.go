package branch

import (
	"testing"

	"rationwright/solver/linear"
)

// TestWholeSlack: the slack of a row is whole where columns, coefficients and side are; of
// a cut it is never taken to be, since its figures come of rounding.
func TestWholeSlack(t *testing.T) {
	for _, c := range []struct {
		name         string
		side, factor float64
		whole        bool
		want         bool
	}{{"whole", 7, 3, true, true}, {"a side in parts", 7.5, 3, true, false}, {"a coefficient in parts", 7, 3.5, true, false}, {"a column in parts", 7, 3, false, false}} {
		p := &linear.Problem{}
		row := p.AddRow("r", -linear.Inf, c.side)
		p.Set(row, p.AddCol("x", 1, 0, 9, true), 2)
		p.Set(row, p.AddCol("y", 1, 0, 9, c.whole), c.factor)
		s := &space{program: newProgram(p)}
		if got := s.wholeSlack(0, true); got != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
		s.cuts = []*cut{{terms: []term{{0, 1}, {1, 1}}, upper: 2}, {terms: []term{{0, 1}}, upper: 1}}
		if s.wholeSlack(s.m, true) || s.wholeSlack(s.m+1, true) {
			t.Errorf("%s: the slack of a cut is taken to be whole", c.name)
		}
	}
}

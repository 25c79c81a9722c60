package search

import (
	"math"
	"slices"
	"testing"

	"rationwright/solver/linear"
)

// TestWithoutFixed: of min 2a + 3b + 5c + 1 with a = 4, c = −1, 10 ≤ a + b + c ≤ 20 and
// a ≤ 7, 3b + 4 is left with 7 ≤ b ≤ 17 and the row that a keeps by itself; a point of it is
// a point of the whole with what was fixed, and back again where it has that.
func TestWithoutFixed(t *testing.T) {
	p := &linear.Problem{Offset: 1}
	a, b, c := p.AddCol("a", 2, 4, 4, true), p.AddCol("b", 3, 0, 30, true), p.AddCol("c", 5, -1, -1, false)
	sum, own, free := p.AddRow("sum", 10, 20), p.AddRow("own", math.Inf(-1), 7), p.AddRow("free", math.Inf(-1), math.Inf(1))
	for _, j := range []int{a, b, c} {
		p.Set(sum, j, 1)
	}
	p.Set(own, a, 1)
	p.Set(free, b, 1)
	s := WithoutFixed(p)
	want := "minimise\n  3 b + 4\nsubject to\n  sum: 7 <= b <= 17\n  own: 0 <= 3\n"
	if len(s.Problem.Cols) != 1 || len(s.Problem.Rows) != 2 || s.Problem.Offset != 4 || s.Problem.Cols[0].Cost != 3 || !s.Problem.Cols[0].Integer || s.Problem.Cols[0].Upper != 30 ||
		s.Problem.Rows[0].Lower != 7 || s.Problem.Rows[0].Upper != 17 || s.Problem.Rows[1].Upper != 3 || !math.IsInf(s.Problem.Rows[1].Lower, -1) {
		t.Errorf("%+v, want %s", s.Problem, want)
	}
	whole := s.Expand([]float64{9})
	if !slices.Equal(whole, []float64{4, 9, -1}) {
		t.Errorf("9 of b is %v of the whole", whole)
	}
	if s.Expand([]float64{2}); !slices.Equal(s.Expand([]float64{9}), whole) {
		t.Error("one point is changed by another")
	}
	if got := s.Restrict(whole); !slices.Equal(got, []float64{9}) {
		t.Errorf("%v of the whole is %v", whole, got)
	}
	for _, other := range [][]float64{{3, 9, -1}, {4, 9, 0}, {4, 9, -1.01}} {
		if got := s.Restrict(other); got != nil {
			t.Errorf("%v of the whole is %v, though another value is fixed", other, got)
		}
	}
}

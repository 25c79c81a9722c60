package referee

import (
	"math"
	"testing"

	"rationwright/solver/linear"
)

// TestResidual: by hand, 1 ≤ x ≤ 4, 0 ≤ y ≤ 10, 2 ≤ x + y ≤ 8. The most by which a
// point misses is that of its worst bound or row, relative to the larger of 1, that bound
// and, of a row, the sizes of its terms together; nothing is missed by a point inside.
func TestResidual(t *testing.T) {
	p := &linear.Problem{Name: "residual"}
	x := p.AddCol("x", 1, 1, 4, false)
	y := p.AddCol("y", 1, 0, 10, false)
	row := p.AddRow("sum", 2, 8)
	p.Set(row, x, 1)
	p.Set(row, y, 1)
	s := &standard{p: p}
	for _, c := range []struct{ x, y, want float64 }{
		{2, 2, 0}, {1, 1, 0}, {4, 4, 0},
		{0.5, 5, 0.5},    // under the bound of x by a half, of 1
		{5, 2, 0.25},     // over it by 1, of 4
		{1, 0.5, 0.25},   // the row falls short by a half, of 2
		{4, 8, 4.0 / 12}, // the row is passed by 4, of terms of 12
		{5, 8, 5.0 / 13}, // both: the row is worse
		{-1, 8.5, 2},     // both: the bound is worse
	} {
		pt, err := p.Evaluate([]float64{c.x, c.y})
		if err != nil {
			t.Fatal(err)
		}
		if got := s.residual([]float64{c.x, c.y}, pt); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("(%g, %g) misses by %g, want %g", c.x, c.y, got, c.want)
		}
	}
}

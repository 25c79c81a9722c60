package branch

import (
	"math"
	"math/rand/v2"
	"testing"
)

// TestImpliedSide: the least side with which a row implies a cut over a box is the row's
// side and the most that the cut has more than the row anywhere in it; a corner of the box
// has that most, and small whole numbers are exact.
func TestImpliedSide(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 4))
	for range 300 {
		const n = 4
		a := &auditor{wideLower: make([]float64, n), wideUpper: make([]float64, n)}
		row, of, c := make([]interval, n), make([]float64, n), &cut{}
		for j := range n {
			a.wideLower[j] = float64(rng.IntN(7) - 3)
			a.wideUpper[j] = a.wideLower[j] + float64(rng.IntN(5))
			row[j] = exactly(float64(rng.IntN(5) - 2))
			if of[j] = float64(rng.IntN(5) - 2); of[j] != 0 {
				c.terms = append(c.terms, term{col: j, value: of[j]})
			}
		}
		right := float64(rng.IntN(9) - 4)
		most := math.Inf(-1)
		for corner := range 1 << n {
			more := 0.0
			for j := range n {
				at := a.wideLower[j]
				if corner>>j&1 == 1 {
					at = a.wideUpper[j]
				}
				more += (of[j] - row[j].lo) * at
			}
			most = math.Max(most, more)
		}
		if got := a.impliedSide(row, right, c); got < right+most || got > right+most+1e-9 {
			t.Fatalf("row %v ≤ %g, cut %v, box %v to %v: side %g, want %g", row, right, of, a.wideLower, a.wideUpper, got, right+most)
		}
	}
}

package branch

import (
	"math"
	"math/rand/v2"
	"testing"

	"rationwright/solver/linear"
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

// TestRowThatCannotHold: an empty box is taken for implied by a row only where the row cannot hold
// at all: of x + y, both from 0 to 2, there is 0 to 4, so none of 4.1 and none of -0.1.
func TestRowThatCannotHold(t *testing.T) {
	for _, c := range []struct {
		lower, upper float64
		want         bool
	}{{4.1, inf, true}, {3.9, inf, false}, {0.1, 3.9, false}, {-inf, 0.1, false}, {-inf, -0.1, true}} {
		p := &linear.Problem{}
		p.AddRow("r", c.lower, c.upper)
		col(p, 0, 0, 2, false, 1)
		col(p, 0, 0, 2, false, 1)
		a := newAuditor(p, &trail{}, &AuditReport{})
		if got := a.rowAllows(&boundChange{lower: 1, upper: 0, why: whyRow}, a.lower, a.upper); got != c.want {
			t.Errorf("x + y from %g to %g: cannot hold %v, want %v", c.lower, c.upper, got, c.want)
		}
	}
}

package branch

import (
	"math"
	"testing"
)

// TestNothingIsLearntFromNoBound: where a relaxation that ended early proved no bound, −∞, there is
// no rise to learn from; −∞ less −∞ is no number, and one such sum left no column to branch on.
func TestNothingIsLearntFromNoBound(t *testing.T) {
	none := math.Inf(-1)
	for _, c := range []struct{ bound, from, want float64 }{{5, 3, 2}, {3, 5, 0}, {none, 3, 0}, {none, none, 0}, {5, none, 0}} {
		if got := risen(c.bound, c.from); got != c.want {
			t.Errorf("from %g to %g: a rise of %g, want %g", c.from, c.bound, got, c.want)
		}
	}
	p := newPseudocosts(2)
	p.learn(observation{0, true, 4})
	for _, gain := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		p.learn(observation{0, true, gain})
		p.learn(observation{1, true, gain})
	}
	if got := p.unit(0, true); got != 4 {
		t.Errorf("a column that gained 4: %g", got)
	}
	if got := p.unit(1, true); got != 4 { // the average of all
		t.Errorf("a column of which nothing was seen: %g, want 4", got)
	}
}

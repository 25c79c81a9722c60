package branch

import (
	"math"
	"testing"
)

// TestHalve: of a node with 0 to 5 of column 0 that is branched on at 2.5 what strong
// branching closed is closed, with its own proof and bound; the other half goes on with the
// better of its bound and that of the node, and with the proof of that bound.
func TestHalve(t *testing.T) {
	whole, down, up := &certificate{}, &certificate{}, &certificate{}
	for _, c := range []struct {
		name   string
		d      decision
		closed []float64 // bounds of the leaves
		half   [2]float64
		bound  float64
		proof  *certificate
	}{
		{"both closed, one dearer", decision{closed: [2]bool{true, true}, bound: [2]float64{30, 40}}, []float64{30, 40}, [2]float64{}, 0, nil},
		{"both closed", decision{closed: [2]bool{true, true}, bound: [2]float64{math.Inf(1), math.Inf(1)}}, []float64{math.Inf(1), math.Inf(1)}, [2]float64{}, 0, nil},
		{"down closed, up dearer", decision{closed: [2]bool{true, false}, bound: [2]float64{30, 12}}, []float64{30}, [2]float64{3, 5}, 12, up},
		{"down closed, up not known as dear", decision{closed: [2]bool{true, false}, bound: [2]float64{30, 8}}, []float64{30}, [2]float64{3, 5}, 10, whole},
		{"up closed, down dearer", decision{closed: [2]bool{false, true}, bound: [2]float64{12, 30}}, []float64{30}, [2]float64{0, 2}, 12, down},
		{"up closed, down not known as dear", decision{closed: [2]bool{false, true}, bound: [2]float64{8, 30}}, []float64{30}, [2]float64{0, 2}, 10, whole},
	} {
		w := &worker{r: &relaxation{lower: []float64{0}, upper: []float64{5}}, audit: true, leafBound: math.Inf(1)}
		c.d.value, c.d.proof = 2.5, [2]*certificate{down, up}
		rest := w.halve(&node{bound: 10, proof: whole}, c.d)
		var closed []float64
		for _, l := range w.leaves {
			closed = append(closed, l.bound)
			if proof := map[float64]*certificate{0: down, 3: up}[l.box.lower]; l.proof != proof {
				t.Errorf("%s: the leaf from %g has the other's proof", c.name, l.box.lower)
			}
		}
		if len(closed) != len(c.closed) || closed[0] != c.closed[0] || closed[len(closed)-1] != c.closed[len(closed)-1] || w.leafBound != c.closed[0] {
			t.Errorf("%s: leaves of bounds %v, at least %g, want %v", c.name, closed, w.leafBound, c.closed)
		}
		switch {
		case c.proof == nil && rest != nil:
			t.Errorf("%s: %v stays open", c.name, rest.box)
		case c.proof != nil && (rest == nil || rest.bound != c.bound || rest.proof != c.proof || rest.box.lower != c.half[0] || rest.box.upper != c.half[1]):
			t.Errorf("%s: %+v goes on, want %v from a bound of %g", c.name, rest, c.half, c.bound)
		}
	}
}

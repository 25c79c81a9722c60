package branch

import (
	"context"
	"math"
	"testing"

	"rationwright/solver/linear"
)

// TestLinksByHand: of a·y ≤ c·x, y up to u, the link is y ≤ min(u, c/a)·x, in whichever sense
// the row is written, with a part for each of several integers; none where it is kept already
// or the row leaves y something without them.
func TestLinksByHand(t *testing.T) {
	for _, c := range []struct {
		name    string
		a, u    float64
		c       []float64
		side    float64 // of the row
		y, x    float64 // the point, each integer at x
		want    []float64
		reverse bool
	}{
		{"one gram is one", 1, 5, []float64{4}, 0, 3, 0.5, []float64{4}, false},
		{"half of it", 2, 5, []float64{4}, 0, 1.5, 0.5, []float64{2}, false},
		{"twice of it", 0.5, 10, []float64{4}, 0, 4.5, 0.5, []float64{8}, false},
		{"no more than there is", 2, 5, []float64{100}, 0, 4, 0.5, []float64{5}, false},
		{"no more than there is, by a little", 2, 5, []float64{11}, 0, 2.6, 0.5, []float64{5}, false},
		{"two packs", 2, 5, []float64{4, 14}, 0, 4, 0.5, []float64{2, 5}, false},
		{"the other way round", 2, 5, []float64{4, 14}, 0, 4, 0.5, []float64{2, 5}, true},
		{"twice of it, the other way round", 0.5, 10, []float64{4}, 0, 4.5, 0.5, []float64{8}, true},
		{"kept already", 2, 5, []float64{4}, 0, 0.9, 0.5, nil, false},
		{"something is free", 2, 5, []float64{4}, 1, 1.5, 0.5, nil, false},
	} {
		p := &linear.Problem{}
		sign := 1.0
		row := p.AddRow("held", -linear.Inf, c.side)
		if c.reverse {
			sign, p.Rows[row].Lower, p.Rows[row].Upper = -1, -c.side, linear.Inf
		}
		p.Set(row, p.AddCol("y", -1, 0, c.u, false), sign*c.a)
		x := []float64{c.y}
		for range c.c {
			x = append(x, c.x)
		}
		for _, v := range c.c {
			p.Set(row, p.AddCol("x", 1, 0, 3, true), -sign*v)
		}
		s := &search{space: &space{program: newProgram(p)}, ctx: context.Background()}
		s.findLocks()
		s.findVariableBounds()
		r, err := newRelax(s.space, nil, nil)
		if err != nil {
			t.Fatal(err)
		}
		got := r.links(newWorkspace(len(x)), x)
		if (len(got) == 1) != (c.want != nil) {
			t.Errorf("%s: %d links, want %v", c.name, len(got), c.want)
			continue
		}
		if c.want == nil {
			continue
		}
		if g := got[0]; len(g.terms) != len(x) || math.Abs(g.upper) > 1e-6 || g.terms[0] != (term{0, 1}) {
			t.Errorf("%s: %v ≤ %g", c.name, g.terms, g.upper)
			continue
		}
		for k, want := range c.want {
			if v := got[0].terms[k+1].value; math.Abs(v+want) > 1e-9 {
				t.Errorf("%s: y ≤ %g·x%d, want %g", c.name, -v, k+1, want)
			}
		}
	}
}

package branch

import (
	"testing"

	"rationwright/solver/linear"
)

// TestReplaces: tins of column j in place of a can k that gives 300 g for 100 at a need of
// 900 g. As many replace it as give no less for no more; a bound on the tins keeps them
// from it unless the tins alone meet the need.
func TestReplaces(t *testing.T) {
	for _, c := range []struct {
		name        string
		cost, grams float64 // of a tin
		upper       float64
		want        float64
	}{
		{"as good and as dear", 100, 300, linear.Inf, 0}, // the later of two equals stays; see below
		{"cheaper", 99, 300, linear.Inf, 1},
		{"a little dearer", 101, 300, linear.Inf, 0},
		{"a gram less", 90, 299, linear.Inf, 0},
		{"three small ones", 33, 100, linear.Inf, 3},
		{"three small ones that cost a little more", 34, 100, linear.Inf, 0},
		{"nine of them meet the need", 33, 100, 9, 3},
		{"eight do not", 33, 100, 8, 0},
		{"one cheaper, of which three meet the need", 99, 300, 3, 1},
		{"of which two do not", 99, 300, 2, 0},
	} {
		p := &linear.Problem{}
		p.AddRow("need", 900, linear.Inf)
		col(p, 100, 0, linear.Inf, true, 300)
		col(p, c.cost, 0, c.upper, true, c.grams)
		g := newProgram(p)
		if got := g.replaces(1, 0); got != c.want {
			t.Errorf("%s: %g tins replace a can, want %g", c.name, got, c.want)
		}
	}
	p := &linear.Problem{}
	p.AddRow("need", 900, linear.Inf)
	col(p, 100, 0, linear.Inf, true, 300)
	col(p, 100, 0, linear.Inf, true, 300)
	if got := newProgram(p).replaces(0, 1); got != 1 {
		t.Errorf("of two that are equal the first replaces the other %g times", got)
	}
	// A row that has room for no more of the tins' weight is no need.
	p = &linear.Problem{}
	p.AddRow("need", 900, linear.Inf)
	p.AddRow("weight", -linear.Inf, 2000)
	col(p, 100, 0, linear.Inf, true, 300, 400)
	col(p, 50, 0, linear.Inf, true, 300, 401)
	if got := newProgram(p).replaces(1, 0); got != 0 {
		t.Errorf("a heavier tin replaces a can under a limit on weight: %g", got)
	}
}

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
	// Rows that only one of them is in, before or after those of both: tins may not add to what
	// is limited, nor be without what is needed; what they spare or add of use is no matter.
	for _, c := range []struct {
		name         string
		ofCan, ofTin [3]float64
		lower, upper [3]float64
		want         float64
	}{
		{"tins add to a limit after it", [3]float64{0, 300}, [3]float64{0, 300, 4}, [3]float64{-linear.Inf, 900, -linear.Inf}, [3]float64{linear.Inf, linear.Inf, 20}, 0},
		{"tins add to a limit before it", [3]float64{0, 300}, [3]float64{4, 300}, [3]float64{-linear.Inf, 900, -linear.Inf}, [3]float64{20, linear.Inf, linear.Inf}, 0},
		{"tins are without a need after it", [3]float64{0, 300, 4}, [3]float64{0, 300}, [3]float64{-linear.Inf, 900, 8}, [3]float64{linear.Inf, linear.Inf, linear.Inf}, 0},
		{"tins are without a need before it", [3]float64{4, 300}, [3]float64{0, 300}, [3]float64{8, 900, -linear.Inf}, [3]float64{linear.Inf, linear.Inf, linear.Inf}, 0},
		{"tins spare a limit", [3]float64{4, 300, 4}, [3]float64{0, 300}, [3]float64{-linear.Inf, 900, -linear.Inf}, [3]float64{20, linear.Inf, 20}, 1},
		{"tins serve a need", [3]float64{0, 300}, [3]float64{4, 300, 4}, [3]float64{8, 900, 8}, [3]float64{linear.Inf, linear.Inf, linear.Inf}, 1},
	} {
		p := &linear.Problem{}
		for i := range c.lower {
			p.AddRow("", c.lower[i], c.upper[i])
		}
		col(p, 100, 0, linear.Inf, true, c.ofCan[:]...)
		col(p, 50, 0, linear.Inf, true, c.ofTin[:]...)
		if got := newProgram(p).replaces(1, 0); got != c.want {
			t.Errorf("%s: %g tins replace a can, want %g", c.name, got, c.want)
		}
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

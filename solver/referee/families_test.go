package referee_test

import (
	"fmt"
	"math"
	"math/rand/v2"

	"rationwright/solver/linear"
)

// A family makes small random programs that share a difficulty.
type family struct {
	name string
	make func(*rand.Rand) *linear.Problem
}

var families = []family{
	{"plain", func(rng *rand.Rand) *linear.Problem { return newSketch(rng).around(3).problem() }},
	{"anything goes", func(rng *rand.Rand) *linear.Problem { return newSketch(rng).anyRows().problem() }},
	{"degenerate", degenerate},
	{"redundant", redundant},
	{"free", func(rng *rand.Rand) *linear.Problem { return newSketch(rng).loosen().around(2).problem() }},
	{"fixed", func(rng *rand.Rand) *linear.Problem { return newSketch(rng).fix().around(1).problem() }},
	{"empty", func(rng *rand.Rand) *linear.Problem { return newSketch(rng).hollow().around(2).problem() }},
	{"one point", onePoint},
	{"almost feasible", almostFeasible},
	{"badly scaled", badlyScaled},
	{"covering", covering},
	{"transport", transport},
}

// sketch is a dense program in the making, with a point x inside the bounds.
type sketch struct {
	rng          *rand.Rand
	a            [][]float64
	cost         []float64
	lower, upper []float64
	x            []float64
	rowLower     []float64
	rowUpper     []float64
}

// newSketch has whole coefficients, costs and bounds of at most 5 in size, about
// half of the coefficients zero, and columns bounded on one or both sides. One
// in twelve is four times as large as the others.
func newSketch(rng *rand.Rand) *sketch {
	m, n := 1+rng.IntN(8), 1+rng.IntN(10)
	if rng.IntN(12) == 0 {
		m, n = 4*m, 4*n
	}
	s := &sketch{rng: rng}
	for range m {
		row := make([]float64, n)
		for j := range row {
			if rng.IntN(2) == 0 {
				row[j] = s.whole(5)
			}
		}
		s.a = append(s.a, row)
	}
	for range n {
		lower := s.whole(3)
		upper := lower + float64(1+rng.IntN(6))
		s.x = append(s.x, lower+float64(rng.IntN(int(upper-lower)+1)))
		switch rng.IntN(4) {
		case 0:
			upper = inf
		case 1:
			lower = -inf
		}
		s.cost = append(s.cost, s.whole(5))
		s.lower, s.upper = append(s.lower, lower), append(s.upper, upper)
	}
	s.rowLower, s.rowUpper = make([]float64, m), make([]float64, m)
	return s
}

// whole returns a whole number of at most most in size.
func (s *sketch) whole(most int) float64 { return float64(s.rng.IntN(2*most+1) - most) }

func (s *sketch) activity(i int) float64 {
	v := 0.0
	for j, a := range s.a[i] {
		v += a * s.x[j]
	}
	return v
}

// around gives each row bounds that x meets, at most room away.
func (s *sketch) around(room int) *sketch {
	for i := range s.a {
		v := s.activity(i)
		s.rowLower[i], s.rowUpper[i] = v-float64(s.rng.IntN(room+1)), v+float64(s.rng.IntN(room+1))
		switch s.rng.IntN(5) {
		case 0:
			s.rowLower[i] = -inf
		case 1:
			s.rowUpper[i] = inf
		case 2:
			s.rowLower[i], s.rowUpper[i] = v, v
		}
	}
	return s
}

// anyRows gives rows bounds without a thought for feasibility.
func (s *sketch) anyRows() *sketch {
	for i := range s.a {
		lower := s.whole(9)
		s.rowLower[i], s.rowUpper[i] = lower, lower+float64(s.rng.IntN(9))
		switch s.rng.IntN(4) {
		case 0:
			s.rowLower[i] = -inf
		case 1:
			s.rowUpper[i] = inf
		}
	}
	return s
}

// loosen takes bounds from most columns and some rows.
func (s *sketch) loosen() *sketch {
	for j := range s.lower {
		if s.rng.IntN(3) > 0 {
			s.lower[j], s.upper[j] = -inf, inf
		}
	}
	return s
}

// fix fixes about half of the columns.
func (s *sketch) fix() *sketch {
	for j := range s.lower {
		if s.rng.IntN(2) == 0 {
			s.lower[j], s.upper[j] = s.x[j], s.x[j]
		}
	}
	return s
}

// hollow empties some rows and columns.
func (s *sketch) hollow() *sketch {
	for i := range s.a {
		for j := range s.a[i] {
			if (i+j)%3 == 0 || s.rng.IntN(3) == 0 {
				s.a[i][j] = 0
			}
		}
		if s.rng.IntN(3) == 0 {
			clear(s.a[i])
		}
	}
	for j := range s.x {
		if s.rng.IntN(3) == 0 {
			for i := range s.a {
				s.a[i][j] = 0
			}
		}
	}
	return s
}

func (s *sketch) problem() *linear.Problem {
	p := &linear.Problem{Name: "random", Maximize: s.rng.IntN(2) == 0, Offset: s.whole(3)}
	for i := range s.a {
		p.AddRow(fmt.Sprint("r", i), s.rowLower[i], s.rowUpper[i])
	}
	for j := range s.x {
		p.AddCol(fmt.Sprint("x", j), s.cost[j], s.lower[j], s.upper[j], false)
		for i := range s.a {
			p.Set(i, j, s.a[i][j])
		}
	}
	return p
}

// degenerate puts x on a bound of every column and row: every vertex there is
// the meeting of many more constraints than it needs.
func degenerate(rng *rand.Rand) *linear.Problem {
	s := newSketch(rng)
	for j := range s.x {
		if rng.IntN(4) == 0 {
			s.lower[j], s.upper[j] = 0, 1
		} else {
			s.lower[j], s.upper[j] = 0, inf
		}
		s.x[j] = 0
		for i := range s.a {
			s.a[i][j] = math.Copysign(math.Min(1, math.Abs(s.a[i][j])), s.a[i][j])
		}
	}
	for i := range s.a {
		s.rowLower[i], s.rowUpper[i] = -inf, 0
		if rng.IntN(3) == 0 {
			s.rowLower[i], s.rowUpper[i] = 0, inf
		}
	}
	p := s.problem()
	// A ceiling, or almost all would be unbounded.
	r := p.AddRow("ceiling", -inf, 7)
	for j := range p.Cols {
		p.Set(r, j, 1)
	}
	return p
}

// redundant repeats rows as they are, multiplied, and added up.
func redundant(rng *rand.Rand) *linear.Problem {
	s := newSketch(rng).around(1)
	m := len(s.a)
	for range 1 + rng.IntN(m) {
		i, k := rng.IntN(m), rng.IntN(m)
		f := []float64{1, -1, 0.5, 3, 1. / 3}[rng.IntN(5)]
		row := make([]float64, len(s.x))
		for j := range row {
			row[j] = f * s.a[i][j]
			if k != i {
				row[j] += s.a[k][j]
			}
		}
		s.a = append(s.a, row)
		s.rowLower, s.rowUpper = append(s.rowLower, 0), append(s.rowUpper, 0)
		v := s.activity(len(s.a) - 1)
		s.rowLower[len(s.a)-1], s.rowUpper[len(s.a)-1] = v, v
		for _, r := range []int{i, k} { // an equation only follows from equations
			v := s.activity(r)
			s.rowLower[r], s.rowUpper[r] = v, v
		}
	}
	return s.problem()
}

// onePoint has rows that together leave x alone, or x and little more.
func onePoint(rng *rand.Rand) *linear.Problem {
	s := newSketch(rng)
	for i := range s.a {
		v := s.activity(i)
		s.rowLower[i], s.rowUpper[i] = -inf, v
		row := make([]float64, len(s.x))
		for j := range row {
			row[j] = -s.a[i][j]
		}
		s.a = append(s.a, row)
		s.rowLower, s.rowUpper = append(s.rowLower, -inf), append(s.rowUpper, -v)
	}
	return s.problem()
}

// almostFeasible is onePoint with one row moved by a thousandth, which most
// often makes it infeasible, by far more than any tolerance.
func almostFeasible(rng *rand.Rand) *linear.Problem {
	p := onePoint(rng)
	p.Rows[rng.IntN(len(p.Rows))].Upper -= 1e-3
	return p
}

// badlyScaled multiplies rows and columns of a plain program by powers of ten.
func badlyScaled(rng *rand.Rand) *linear.Problem {
	p := newSketch(rng).around(3).problem()
	row := make([]float64, len(p.Rows))
	for i := range row {
		row[i] = math.Pow(10, float64(rng.IntN(7)-3))
		p.Rows[i].Lower *= row[i]
		p.Rows[i].Upper *= row[i]
	}
	for j := range p.Cols {
		c := &p.Cols[j]
		f := math.Pow(10, float64(rng.IntN(5)-2))
		c.Lower, c.Upper, c.Cost = c.Lower/f, c.Upper/f, c.Cost*f
		for k, e := range c.Entries {
			c.Entries[k].Value *= f * row[e.Row]
		}
	}
	return p
}

// covering is the shape of a ration: floors and ceilings on sums of contents
// that are never negative, amounts capped, costs positive.
func covering(rng *rand.Rand) *linear.Problem {
	p := &linear.Problem{Name: "covering"}
	m, n := 2+rng.IntN(7), 3+rng.IntN(10)
	for i := range m {
		floor := 5 + 20*rng.Float64()
		ceiling := inf
		if rng.IntN(3) == 0 {
			ceiling = floor * (1 + rng.Float64())
		}
		p.AddRow(fmt.Sprint("need", i), floor, ceiling)
	}
	for j := range n {
		upper := inf
		if rng.IntN(2) == 0 {
			upper = 1 + 6*rng.Float64()
		}
		p.AddCol(fmt.Sprint("food", j), 0.2+rng.Float64(), 0, upper, false)
		for i := range m {
			if rng.IntN(5) > 1 {
				p.Set(i, j, math.Round(rng.ExpFloat64()*200)/100)
			}
		}
	}
	return p
}

// transport ships from places that have to places that need, in whole amounts:
// its equations are dependent and nearly all of its vertices degenerate.
func transport(rng *rand.Rand) *linear.Problem {
	p := &linear.Problem{Name: "transport"}
	from, to := 2+rng.IntN(3), 2+rng.IntN(3)
	need := make([]float64, to)
	have := make([]float64, from)
	for i := range from {
		for k := range to {
			v := float64(rng.IntN(4))
			have[i] += v
			need[k] += v
		}
	}
	for i := range from {
		p.AddRow(fmt.Sprint("have", i), have[i], have[i])
	}
	for k := range to {
		p.AddRow(fmt.Sprint("need", k), need[k], need[k])
	}
	for i := range from {
		for k := range to {
			j := p.AddCol(fmt.Sprint("ship", i, "_", k), float64(1+rng.IntN(6)), 0, inf, false)
			p.Set(i, j, 1)
			p.Set(from+k, j, 1)
		}
	}
	return p
}

// integers makes about two thirds of the columns integer, and gives those both
// bounds: without them no search need ever end.
func integers(p *linear.Problem, rng *rand.Rand) *linear.Problem {
	for j := range p.Cols {
		c := &p.Cols[j]
		if c.Integer = rng.IntN(3) > 0; !c.Integer {
			continue
		}
		if math.IsInf(c.Lower, 0) {
			c.Lower = math.Min(c.Upper, 5) - 10
		}
		if math.IsInf(c.Upper, 0) {
			c.Upper = math.Max(c.Lower, 0) + 10
		}
	}
	return p
}

// boxed makes a program small enough to try every point of: at most six
// columns, all integer, with at most five values each. Three in four get row
// bounds wide enough for some point of the box.
func boxed(p *linear.Problem, rng *rand.Rand) *linear.Problem {
	if len(p.Cols) > 6 {
		p.Cols = p.Cols[:6]
	}
	for j := range p.Cols {
		c := &p.Cols[j]
		switch {
		case !math.IsInf(c.Lower, 0):
			c.Lower = math.Ceil(c.Lower)
		case !math.IsInf(c.Upper, 0):
			c.Lower = math.Floor(c.Upper) - 4
		default:
			c.Lower = -2
		}
		c.Upper = math.Min(math.Floor(math.Max(c.Upper, c.Lower)), c.Lower+float64(rng.IntN(5)))
		c.Integer = true
	}
	if rng.IntN(4) == 0 {
		return p // most often infeasible
	}
	x := make([]float64, len(p.Cols))
	for j := range x {
		x[j] = p.Cols[j].Lower + float64(rng.IntN(int(p.Cols[j].Upper-p.Cols[j].Lower)+1))
	}
	if pt, err := p.Evaluate(x); err == nil {
		for i := range p.Rows {
			p.Rows[i].Lower = math.Min(p.Rows[i].Lower, pt.Activity[i])
			p.Rows[i].Upper = math.Max(p.Rows[i].Upper, pt.Activity[i])
		}
	}
	return p
}

package simplex

import (
	"math"
	"math/rand/v2"

	"rationwright/solver/linear"
)

// family makes random programs of one kind.
type family struct {
	name string
	make func(r *rand.Rand) *linear.Problem
}

// families are of middle size, up to about forty rows: far too large to
// enumerate, so their answers are checked by what they prove.
var families = []family{
	{"around a point", aroundPoint},
	{"any right-hand side", anySides},
	{"assignment", assignment},
	{"transport", transport},
	{"blend", blend},
	{"equations", equations},
	{"repeated rows", repeated},
	{"covering", covering},
	{"stairs", stairs},
	{"hardly feasible", hardlyFeasible},
}

// bounds draws free, one-sided, fixed and boxed bounds.
func bounds(r *rand.Rand) (lower, upper float64) {
	switch r.IntN(8) {
	case 0:
		return math.Inf(-1), math.Inf(1)
	case 1:
		return math.Inf(-1), float64(r.IntN(10))
	case 2:
		v := float64(r.IntN(5))
		return v, v
	case 3, 4:
		lo := float64(r.IntN(9) - 4)
		return lo, lo + float64(r.IntN(9))
	}
	return 0, math.Inf(1)
}

// sides draws row bounds that v satisfies.
func sides(r *rand.Rand, v float64) (lower, upper float64) {
	switch r.IntN(5) {
	case 0:
		return v, v
	case 1:
		return v, math.Inf(1)
	case 2:
		return math.Inf(-1), v
	case 3:
		return v - 1 - 5*r.Float64(), v
	}
	return math.Inf(-1), v + 5*r.Float64()
}

// aroundPoint has small whole coefficients and a whole point that meets many
// rows exactly: feasible, degenerate, often without end.
func aroundPoint(r *rand.Rand) *linear.Problem {
	p := &linear.Problem{Maximize: r.IntN(2) == 0, Offset: float64(r.IntN(3))}
	m, n := 1+r.IntN(40), 1+r.IntN(60)
	activity := make([]float64, m)
	for range m {
		p.AddRow("", 0, 0)
	}
	for j := range n {
		lo, up := bounds(r)
		p.AddCol("", float64(r.IntN(11)-5), lo, up, false)
		x := max(lo, min(up, float64(r.IntN(7)-3)))
		for i := range m {
			if r.IntN(4) == 0 {
				v := float64(r.IntN(7) - 3)
				p.Set(i, j, v)
				activity[i] += v * x
			}
		}
	}
	for i := range m {
		p.Rows[i].Lower, p.Rows[i].Upper = sides(r, activity[i])
	}
	return p
}

// anySides has right-hand sides out of nowhere: mostly infeasible.
func anySides(r *rand.Rand) *linear.Problem {
	p := &linear.Problem{}
	m, n := 1+r.IntN(40), 1+r.IntN(60)
	for range m {
		lo, up := sides(r, float64(r.IntN(21)-10))
		p.AddRow("", lo, up)
	}
	for j := range n {
		lo, up := bounds(r)
		p.AddCol("", float64(r.IntN(7)-1), lo, up, false)
		for i := range m {
			if r.IntN(5) == 0 {
				p.Set(i, j, float64(r.IntN(9)-4))
			}
		}
	}
	return p
}

// assignment is as degenerate as programs get: every basis has k − 1 zeros.
func assignment(r *rand.Rand) *linear.Problem {
	p := &linear.Problem{Maximize: r.IntN(2) == 0}
	k := 2 + r.IntN(9)
	for range 2 * k {
		p.AddRow("", 1, 1)
	}
	for i := range k {
		for j := range k {
			at := p.AddCol("", float64(r.IntN(5)), 0, math.Inf(1), false)
			p.Set(i, at, 1)
			p.Set(k+j, at, 1)
		}
	}
	return p
}

// transport ships to demands within supplies and capacities.
func transport(r *rand.Rand) *linear.Problem {
	p := &linear.Problem{}
	from, to := 2+r.IntN(6), 2+r.IntN(8)
	need := 0
	for range to {
		d := 1 + r.IntN(9)
		need += d
		p.AddRow("", float64(d), math.Inf(1))
	}
	for range from {
		p.AddRow("", math.Inf(-1), float64(need*2/from+r.IntN(4)-1))
	}
	for i := range from {
		for j := range to {
			at := p.AddCol("", float64(1+r.IntN(9)), 0, float64(2+r.IntN(9)), false)
			p.Set(j, at, 1)
			p.Set(to+i, at, 1)
		}
	}
	return p
}

// blend has coefficients, costs and bounds over many powers of ten.
func blend(r *rand.Rand) *linear.Problem {
	p := &linear.Problem{}
	m, n := 1+r.IntN(30), 1+r.IntN(60)
	for range m {
		lo := 50 * math.Exp(8*r.Float64()-4)
		up := math.Inf(1)
		if r.IntN(3) == 0 {
			up = lo * (1 + r.Float64())
		}
		p.AddRow("", lo, up)
	}
	for j := range n {
		p.AddCol("", math.Exp(3*r.NormFloat64()), 0, 100*math.Exp(2*r.NormFloat64()), false)
		for i := range m {
			if r.IntN(2) == 0 {
				p.Set(i, j, math.Exp(4*r.NormFloat64()))
			}
		}
	}
	return p
}

// equations is a dense system whose right-hand side may be a little off.
func equations(r *rand.Rand) *linear.Problem {
	p := &linear.Problem{}
	m, n := 1+r.IntN(30), 1+r.IntN(60)
	off := 0.1 * float64(r.IntN(4)/3)
	for range m {
		p.AddRow("", off, off)
	}
	for j := range n {
		cost := 0.0
		if r.IntN(3) == 0 {
			cost = r.NormFloat64()
		}
		p.AddCol("", cost, 0, 5, false)
		x := float64(r.IntN(4))
		for i := range m {
			if r.IntN(3) == 0 {
				v := r.NormFloat64()
				p.Set(i, j, v)
				p.Rows[i].Lower += v * x
				p.Rows[i].Upper = p.Rows[i].Lower
			}
		}
	}
	return p
}

// repeated says half of its rows again, times a whole number.
func repeated(r *rand.Rand) *linear.Problem {
	p := aroundPoint(r)
	for i := range len(p.Rows) {
		if r.IntN(2) == 0 {
			continue
		}
		f := float64(1 + r.IntN(3))
		k := p.AddRow("", p.Rows[i].Lower*f, p.Rows[i].Upper*f)
		for j := range p.Cols {
			for _, e := range p.Cols[j].Entries {
				if e.Row == i {
					p.Set(k, j, e.Value*f)
				}
			}
		}
	}
	return p
}

// covering has only zeros and ones: ties everywhere.
func covering(r *rand.Rand) *linear.Problem {
	p := &linear.Problem{}
	m, n := 1+r.IntN(40), 1+r.IntN(60)
	for range m {
		p.AddRow("", 1, math.Inf(1))
	}
	for j := range n {
		p.AddCol("", float64(1+r.IntN(2)), 0, 1, false)
		for i := range m {
			if r.IntN(4) == 0 {
				p.Set(i, j, 1)
			}
		}
	}
	return p
}

// stairs is a store kept over several periods: make, keep, use.
func stairs(r *rand.Rand) *linear.Problem {
	p := &linear.Problem{}
	periods, goods := 2+r.IntN(8), 1+r.IntN(5)
	for range periods {
		for range goods {
			need := float64(r.IntN(20))
			p.AddRow("", need, need)
		}
		p.AddRow("", math.Inf(-1), float64(30+r.IntN(40)))
	}
	for t := range periods {
		base := t * (goods + 1)
		for g := range goods {
			j := p.AddCol("", 1+9*r.Float64(), 0, math.Inf(1), false) // make
			p.Set(base+g, j, 1)
			p.Set(base+goods, j, 0.5+r.Float64())
			j = p.AddCol("", 0.1+r.Float64(), 0, 40, false) // keep, with some loss
			p.Set(base+g, j, -1)
			if t+1 < periods {
				p.Set(base+goods+1+g, j, 0.9+0.1*r.Float64())
			}
		}
	}
	return p
}

// hardlyFeasible asks for a sum that its columns reach exactly, or miss by a
// little more than any tolerance.
func hardlyFeasible(r *rand.Rand) *linear.Problem {
	p := &linear.Problem{}
	m, n := 1+r.IntN(10), 2+r.IntN(20)
	most := make([]float64, m)
	for range m {
		p.AddRow("", 0, math.Inf(1))
	}
	for j := range n {
		up := float64(1 + r.IntN(5))
		p.AddCol("", float64(r.IntN(9)-4), 0, up, false)
		for i := range m {
			if r.IntN(3) > 0 {
				v := float64(1+r.IntN(30)) / 10
				p.Set(i, j, v)
				most[i] += v * up
			}
		}
	}
	for i := range m {
		p.Rows[i].Lower = most[i]
		if r.IntN(4) == 0 {
			p.Rows[i].Lower += 1e-4 * (1 + most[i])
		} else if r.IntN(2) == 0 {
			p.Rows[i].Lower -= r.Float64()
		}
	}
	return p
}

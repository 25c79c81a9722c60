package branch

import (
	"math"
)

// checkCuts derives again every cut that some proof rests on, directly or
// through other cuts.
func (a *auditor) checkCuts() {
	used := map[int]bool{}
	var visit func(row int)
	visit = func(row int) {
		if row < a.m || used[row-a.m] {
			return
		}
		used[row-a.m] = true
		for _, i := range a.cuts[row-a.m].origin.rows {
			visit(int(i))
		}
	}
	proof := func(c *certificate) {
		if c != nil {
			for _, i := range c.rows {
				visit(int(i))
			}
		}
	}
	proof(a.trail.root)
	for k := range a.trail.log {
		proof(a.trail.log[k].proof)
	}
	for _, l := range a.trail.leaves {
		proof(l.proof)
		for c := l.box; c != nil; c = c.up {
			proof(c.proof)
		}
	}
	for k := range a.cuts {
		if !used[k] {
			continue
		}
		a.rep.Cuts++
		if a.ctx.Err() == nil && a.derives(a.cuts[k]) {
			a.rep.CutsDerived++
		} else {
			a.rep.CutsTrusted++
			a.rep.note("cut %d is trusted", k)
		}
	}
}

// derives says whether a cut follows from its derivation.
func (a *auditor) derives(c *cut) bool {
	side, ok := a.rounding(c)
	return ok && side <= c.upper
}

// rounding repeats the mixed-integer rounding of [space.round] in intervals and
// returns the side from which on the cut follows from the result over the box;
// ok is false if it follows with none.
func (a *auditor) rounding(c *cut) (side float64, ok bool) {
	o := &c.origin
	lower, upper := a.atCut[0], a.atCut[1]
	coef, order := make([]interval, a.g.n), []int(nil)
	touched := make([]bool, a.g.n)
	touch := func(j int) {
		if !touched[j] {
			touched[j] = true
			order = append(order, j)
		}
	}
	sum := interval{}
	for k, row := range o.rows {
		b, terms, _ := a.sideOf(int(row), o.atUpper[k])
		if math.IsInf(b, 0) {
			return 0, false
		}
		m := exactly(o.mult[k])
		sum = sum.plus(m.times(exactly(b)))
		for _, t := range terms {
			touch(t.col)
			coef[t.col] = coef[t.col].plus(m.times(exactly(t.value)))
		}
	}
	flipped := map[int]bool{}
	for _, j := range o.flipped {
		flipped[int(j)] = true
	}
	// Measured from bounds, a smaller coefficient and a larger side are weaker:
	// from here on both are plain numbers again.
	for _, j := range order {
		v := coef[j]
		from := lower[j]
		if flipped[j] {
			from = upper[j]
		}
		if v.lo == 0 && v.hi == 0 {
			continue
		}
		if math.IsInf(from, 0) {
			return 0, false
		}
		sum = sum.minus(v.times(exactly(from)))
	}
	b := sum.hi
	f := b - math.Floor(b)
	if f <= 0 || f >= 1 {
		return 0, false
	}
	right := exactly(math.Floor(b))
	result := make([]interval, a.g.n)
	for _, j := range order {
		v := coef[j]
		if v.lo == 0 && v.hi == 0 {
			continue
		}
		at, sign, from := v.lo, 1.0, lower[j]
		if flipped[j] {
			at, sign, from = -v.hi, -1, upper[j]
		}
		r := exactly(sign * roundedBelow(at, f, a.g.integer[j]))
		result[j] = r
		right = right.plus(r.times(exactly(from)))
	}
	for k, row := range o.rows {
		s, terms, equation := a.sideOf(int(row), o.atUpper[k])
		if equation {
			continue
		}
		m, sign := o.mult[k], -1.0
		if !o.atUpper[k] {
			m, sign = -m, 1
		}
		if o.whole[k] && !a.wholeSlack(int(row), o.atUpper[k]) {
			return 0, false
		}
		r := exactly(roundedBelow(m, f, o.whole[k]))
		for _, t := range terms {
			result[t.col] = result[t.col].plus(exactly(sign).times(r).times(exactly(t.value)))
		}
		right = right.plus(exactly(sign).times(r).times(exactly(s)))
	}
	return a.impliedSide(result, right.hi, c), true
}

// roundedBelow is mirCoefficient rounded downwards.
func roundedBelow(v, f float64, integer bool) float64 {
	one := interval{below(1 - f), above(1 - f)}
	if !integer {
		return exactly(math.Min(0, v)).over(one).lo
	}
	down := math.Floor(v)
	frac := v - down
	if frac <= f {
		return down
	}
	part := interval{below(frac - f), above(frac - f)}
	return below(down + part.over(one).lo)
}

// impliedSide returns the least side with which Σ coef·x ≤ right implies the
// cut for all x in the box.
func (a *auditor) impliedSide(coef []interval, right float64, c *cut) float64 {
	sum, terms := exactly(right), c.terms
	diff := func(j int, v interval) {
		if v.lo == 0 && v.hi == 0 {
			return
		}
		sum = sum.plus(v.times(interval{a.wideLower[j], a.wideUpper[j]}))
	}
	for j, v := range coef { // the cut's terms ascend
		of := interval{}
		if len(terms) > 0 && terms[0].col == j {
			of, terms = exactly(terms[0].value), terms[1:]
		}
		diff(j, of.minus(v))
	}
	return sum.hi
}

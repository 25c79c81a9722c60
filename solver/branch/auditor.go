package branch

import (
	"context"
	"math"

	"rationwright/solver/linear"
)

// auditor repeats a search's reasoning with outward rounding. Its program
// starts as the original and follows the log.
type auditor struct {
	*space
	ctx   context.Context // ends the audit: what is left then is unconfirmed
	g     *program
	trail *trail
	rep   *AuditReport
	value float64 // a point of this value is known; +Inf if none

	lower, upper []float64 // the root box as it stands
	// The same with what rows and value imply for columns without bounds.
	wideLower, wideUpper []float64
	atCut                [2][]float64
	confirmed            map[*boundChange]bool
	prices               map[*certificate][]interval
	base                 map[*certificate]float64 // see dearer
	sums                 map[*certificate]interval
}

func newAuditor(p *linear.Problem, t *trail, rep *AuditReport) *auditor {
	g := newProgram(p)
	g.step = t.step
	a := &auditor{space: &space{program: g, cuts: t.cuts}, g: g, trail: t, rep: rep, value: t.value}
	a.lower = append([]float64(nil), g.lower...)
	a.upper = append([]float64(nil), g.upper...)
	a.wideLower = append([]float64(nil), g.lower...)
	a.wideUpper = append([]float64(nil), g.upper...)
	a.confirmed = map[*boundChange]bool{}
	a.base = map[*certificate]float64{}
	return a
}

// rangeOf returns the range of a row's sum over a box, rounded outwards.
func rangeOf(terms []term, lower, upper []float64, skip int) interval {
	sum := interval{}
	for _, t := range terms {
		if t.col == skip {
			continue
		}
		sum = sum.plus(exactly(t.value).times(interval{lower[t.col], upper[t.col]}))
	}
	return sum
}

// implied fills bounds of columns that have none: from the rows, and from the
// objective being no worse than the value known. Points that cost more do not
// matter to a bound.
func (a *auditor) implied(lower, upper []float64) {
	var objective []term
	for j, c := range a.g.cost {
		if c != 0 {
			objective = append(objective, term{j, c})
		}
	}
	for range impliedRounds {
		changed := a.impliedBy(objective, math.Inf(-1), a.value, lower, upper)
		for i := range a.g.rows {
			changed = a.impliedBy(a.g.rows[i], a.g.rowLower[i], a.g.rowUpper[i], lower, upper) || changed
		}
		if !changed {
			return
		}
	}
}

// impliedBy does so for one row.
func (a *auditor) impliedBy(terms []term, lo, up float64, lower, upper []float64) bool {
	changed := false
	for _, t := range terms {
		j := t.col
		if !math.IsInf(lower[j], -1) && !math.IsInf(upper[j], 1) {
			continue
		}
		x := solveFor(t, lo, up, rangeOf(terms, lower, upper, j))
		if math.IsInf(lower[j], -1) && x.lo > -1e15 {
			lower[j], changed = x.lo, true
		}
		if math.IsInf(upper[j], 1) && x.hi < 1e15 {
			upper[j], changed = x.hi, true
		}
	}
	return changed
}

// solveFor returns the range that lo ≤ value·x + rest ≤ up leaves for x.
func solveFor(t term, lo, up float64, rest interval) interval {
	if math.IsInf(lo, -1) {
		rest.hi = math.Inf(1)
	}
	if math.IsInf(up, 1) {
		rest.lo = math.Inf(-1)
	}
	x := interval{math.Inf(-1), math.Inf(1)}
	if !math.IsInf(rest.hi, 1) {
		v := exactly(lo).minus(exactly(rest.hi)).over(exactly(t.value))
		if t.value > 0 {
			x.lo = v.lo
		} else {
			x.hi = v.hi
		}
	}
	if !math.IsInf(rest.lo, -1) {
		v := exactly(up).minus(exactly(rest.lo)).over(exactly(t.value))
		if t.value > 0 {
			x.hi = v.hi
		} else {
			x.lo = v.lo
		}
	}
	return x
}

// priced returns, for a certificate, the sum over its rows and the reduced cost
// of every column, each as an interval, computed once.
func (a *auditor) priced(c *certificate) (interval, []interval) {
	if d, ok := a.prices[c]; ok {
		return a.sums[c], d
	}
	d := make([]interval, a.g.n)
	if !c.ray {
		for j, v := range a.g.cost {
			d[j] = exactly(v)
		}
	}
	sum := interval{}
	for k, i := range c.rows {
		y := c.duals[k]
		terms, lo, up := a.rowTerms(int(i))
		side := boundAt(y, lo, up)
		if math.IsInf(side, 0) {
			continue // this multiplier proves nothing: taken as zero
		}
		sum = sum.plus(exactly(y).times(exactly(side)))
		for _, t := range terms {
			d[t.col] = d[t.col].minus(exactly(y).times(exactly(t.value)))
		}
	}
	if a.prices == nil || len(a.prices) > 64 {
		a.prices, a.sums = map[*certificate][]interval{}, map[*certificate]interval{}
	}
	a.prices[c], a.sums[c] = d, sum
	return sum, d
}

// certified returns a bound (its lower end) that the certificate proves over a
// box: on the objective, or for a ray on zero. A certificate that uses a cut
// which is not confirmed still counts; the report says how many cuts are
// trusted.
func (a *auditor) certified(c *certificate, lower, upper []float64) interval {
	sum, d := a.priced(c)
	for j := range d {
		if d[j].lo == 0 && d[j].hi == 0 {
			continue
		}
		v := d[j].times(interval{lower[j], upper[j]})
		if math.IsInf(v.lo, -1) {
			return interval{math.Inf(-1), 0}
		}
		sum.lo = below(sum.lo + v.lo)
	}
	if c.ray {
		if sum.lo > 0 {
			return exactly(math.Inf(1))
		}
		return interval{math.Inf(-1), 0}
	}
	return sum
}

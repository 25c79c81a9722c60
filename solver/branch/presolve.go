package branch

import (
	"context"
	"math"
)

// activity is the range of a row's sum over a box, with the infinite
// contributions counted apart.
type activity struct {
	min, max       float64
	minInf, maxInf int
}

// low returns the least sum, −Inf if unbounded.
func (a activity) low() float64 {
	if a.minInf > 0 {
		return math.Inf(-1)
	}
	return a.min
}

// high returns the greatest sum, +Inf if unbounded.
func (a activity) high() float64 {
	if a.maxInf > 0 {
		return math.Inf(1)
	}
	return a.max
}

// add counts one term with its column in [lower, upper].
func (a *activity) add(value, lower, upper float64) {
	if value < 0 {
		lower, upper = upper, lower
	}
	if math.IsInf(lower, 0) {
		a.minInf++
	} else {
		a.min += value * lower
	}
	if math.IsInf(upper, 0) {
		a.maxInf++
	} else {
		a.max += value * upper
	}
}

// remove takes back one term that was added.
func (a *activity) remove(value, lower, upper float64) {
	var t activity
	t.add(value, lower, upper)
	a.min, a.max = a.min-t.min, a.max-t.max
	a.minInf, a.maxInf = a.minInf-t.minInf, a.maxInf-t.maxInf
}

// without returns the least and the greatest sum of the other terms.
func (a activity) without(value, lower, upper float64) (low, high float64) {
	a.remove(value, lower, upper)
	return a.low(), a.high()
}

// implied returns the bounds that lo ≤ value·x + rest ≤ up implies for x in
// [curLo, curUp], with a the range of the whole sum.
func (a activity) implied(value, lo, up, curLo, curUp float64) (newLo, newUp float64) {
	restLow, restHigh := a.without(value, curLo, curUp)
	newLo, newUp = (lo-restHigh)/value, (up-restLow)/value
	if value < 0 {
		newLo, newUp = newUp, newLo
	}
	if math.IsNaN(newLo) {
		newLo = math.Inf(-1)
	}
	if math.IsNaN(newUp) {
		newUp = math.Inf(1)
	}
	return newLo, newUp
}

// misses says whether no sum of the range keeps the sides of a row, to feasTol.
func (a activity) misses(lower, upper float64) bool {
	return a.low() > upper+feasTol*(1+math.Abs(upper)) || a.high() < lower-feasTol*(1+math.Abs(lower))
}

// activityOf returns the range of a row's sum over a box.
func activityOf(terms []term, lower, upper []float64) activity {
	var a activity
	for _, t := range terms {
		a.add(t.value, lower[t.col], upper[t.col])
	}
	return a
}

// rowActivity returns the range of row i over the bounds that the relaxation
// has.
func (g *program) rowActivity(i int) activity { return activityOf(g.rows[i], g.lower, g.upper) }

// presolve (M. Savelsbergh, Preprocessing and probing techniques for mixed integer
// programming problems, ORSA J. on Computing 6 (1994)) tightens the program in place and logs each step. It returns false
// if it proves that no integer point exists. Nothing is removed: a row that is
// redundant loses its sides, a column that is decided has equal bounds.
func (g *program) presolve(ctx context.Context) bool {
	for _, j := range g.integers {
		if !g.roundBounds(j) {
			return false
		}
	}
	for round := 0; round < presolveRounds && ctx.Err() == nil; round++ {
		changed := false
		for i := range g.rows {
			if i%presolvePoll == 0 && ctx.Err() != nil {
				break
			}
			c, ok := g.presolveRow(i)
			if !ok {
				return false
			}
			changed = changed || c
		}
		if g.fixByDual() {
			changed = true
		}
		if !changed {
			break
		}
	}
	g.fixDominated()
	g.findStep()
	return true
}

// presolvePoll is how often, in rows, presolve looks whether its time is up.
const presolvePoll = 256

// roundBounds moves an integer column's bounds to integers.
func (g *program) roundBounds(j int) bool {
	lo, up := wholeBounds(g.lower[j], g.upper[j])
	if lo != g.lower[j] || up != g.upper[j] {
		g.log = append(g.log, reduction{kind: roundedBound, col: j, lower: lo, upper: up})
	}
	g.lower[j], g.upper[j] = lo, up
	g.impliedLower[j], g.impliedUpper[j] = lo, up
	return lo <= up
}

// presolveRow does what one row alone can: prove infeasibility, lose redundant
// sides, imply bounds, tighten coefficients.
func (g *program) presolveRow(i int) (changed, ok bool) {
	lo, up := g.rowLower[i], g.rowUpper[i]
	if math.IsInf(lo, -1) && math.IsInf(up, 1) {
		return false, true
	}
	a := g.rowActivity(i)
	if a.misses(lo, up) {
		return false, false
	}
	// A side is dropped only if it holds with nothing to spare for rounding.
	if a.low() >= lo && !math.IsInf(lo, -1) {
		lo = math.Inf(-1)
		g.dropSide(i, lo, up)
	}
	if a.high() <= up && !math.IsInf(up, 1) {
		up = math.Inf(1)
		g.dropSide(i, lo, up)
	}
	if math.IsInf(lo, -1) && math.IsInf(up, 1) {
		return true, true
	}
	// What one column gains shows in the range from the next sweep on: a range
	// computed anew after each would take the square of the row's length.
	// The implied bounds must not be used to drop or to change the row: it may be what
	// implied them.
	a = activityOf(g.rows[i], g.impliedLower, g.impliedUpper)
	for _, t := range g.rows[i] {
		c, ok := g.tightenBound(i, t, a)
		if !ok {
			return false, false
		}
		changed = changed || c
	}
	if g.tightenCoefficients(i) {
		changed = true
	}
	return changed, true
}

// dropSide gives row i the sides that are left.
func (g *program) dropSide(i int, lower, upper float64) {
	g.rowLower[i], g.rowUpper[i] = lower, upper
	g.log = append(g.log, reduction{kind: droppedSide, row: i, rowLower: lower, rowUpper: upper})
}

// tightenBound applies what row i, with range a, implies for the column of t.
// Integer columns and singleton rows change the bounds of the relaxation;
// other continuous columns only get implied bounds, and those only where the
// column had none: bounds copied from rows make the relaxation degenerate.
func (g *program) tightenBound(i int, t term, a activity) (changed, ok bool) {
	j := t.col
	curLo, curUp := g.impliedLower[j], g.impliedUpper[j]
	newLo, newUp := a.implied(t.value, g.rowLower[i], g.rowUpper[i], curLo, curUp)
	if g.integer[j] {
		newLo, newUp = math.Ceil(newLo-intTol), math.Floor(newUp+intTol)
		if newLo <= curLo && newUp >= curUp {
			return false, true
		}
		newLo, newUp = math.Max(newLo, curLo), math.Min(newUp, curUp)
		g.log = append(g.log, reduction{kind: rowBound, col: j, row: i, lower: newLo, upper: newUp})
		g.lower[j], g.upper[j] = newLo, newUp
		g.impliedLower[j], g.impliedUpper[j] = newLo, newUp
		return true, newLo <= newUp
	}
	if len(g.rows[i]) == 1 {
		return g.absorbSingleton(i, j, newLo, newUp)
	}
	lo, up := curLo, curUp
	if math.IsInf(curLo, -1) && newLo > -1e9 {
		lo = newLo
	}
	if math.IsInf(curUp, 1) && newUp < 1e9 {
		up = newUp
	}
	if lo == curLo && up == curUp || lo > up {
		return false, true
	}
	g.log = append(g.log, reduction{kind: rowBound, col: j, row: i, lower: lo, upper: up})
	g.impliedLower[j], g.impliedUpper[j] = lo, up
	return true, true
}

// absorbSingleton turns a row with one continuous column into bounds.
func (g *program) absorbSingleton(i, j int, newLo, newUp float64) (changed, ok bool) {
	lo, up := math.Max(newLo, g.lower[j]), math.Min(newUp, g.upper[j])
	if lo > up {
		if lo > up+feasTol*(1+math.Abs(up)) {
			return false, false
		}
		return false, true // a matter of tolerance: leave it to the simplex method
	}
	if lo == g.lower[j] && up == g.upper[j] {
		return false, true
	}
	g.log = append(g.log, reduction{kind: rowBound, col: j, row: i, lower: lo, upper: up})
	g.lower[j], g.upper[j] = lo, up
	g.impliedLower[j], g.impliedUpper[j] = math.Max(lo, g.impliedLower[j]), math.Min(up, g.impliedUpper[j])
	return true, true
}

// tightenCoefficients shrinks the coefficients of integer columns in a row with
// one side. For a·x + rest ≤ b with a < 0: if the row is slack by D whatever
// the rest does as soon as x leaves its lower bound l, then (a + D)·x + rest ≤
// b + D·l has the same integer points and a tighter relaxation. The other three
// cases are mirror images. (Savelsbergh, Preprocessing and probing techniques
// for mixed integer programming problems, ORSA J. Computing 6 (1994), §1.2.)
func (g *program) tightenCoefficients(i int) bool {
	one := math.IsInf(g.rowLower[i], -1) != math.IsInf(g.rowUpper[i], 1)
	if !one {
		return false
	}
	side := 1.0 // the row as side·(a·x) ≤ side·b
	b := g.rowUpper[i]
	if math.IsInf(b, 1) {
		side, b = -1, -g.rowLower[i]
	}
	changed := false
	act := g.rowActivity(i)
	for k := range g.rows[i] {
		t := g.rows[i][k]
		j := t.col
		if !g.integer[j] || g.fixed(j) {
			continue
		}
		restLow, restHigh := act.without(t.value, g.lower[j], g.upper[j])
		rest := restHigh
		if side < 0 {
			rest = -restLow
		}
		if math.IsInf(rest, 0) {
			continue
		}
		a := side * t.value
		at, step := g.lower[j], 1.0 // the bound that makes the row tightest, and the way from it
		if a > 0 {
			at, step = g.upper[j], -1
		}
		if a == 0 || math.IsInf(at, 0) {
			continue
		}
		d := b - (rest + a*(at+step))
		if d <= 1e-7*math.Max(1, math.Abs(b)) || rest+a*at <= b {
			continue
		}
		newA, newB := a+step*d, b+step*d*at
		if a < 0 && at == 0 {
			newA, newB = b-rest, b
		}
		if math.Abs(newA) < 1e-9 {
			continue
		}
		b = newB
		g.setCoefficient(i, j, side*newA)
		act.remove(t.value, g.lower[j], g.upper[j])
		act.add(side*newA, g.lower[j], g.upper[j])
		if side > 0 {
			g.rowUpper[i] = newB
		} else {
			g.rowLower[i] = -newB
		}
		g.log = append(g.log, reduction{kind: coefficient, col: j, row: i, value: side * newA,
			rowLower: g.rowLower[i], rowUpper: g.rowUpper[i]})
		changed = true
	}
	return changed
}

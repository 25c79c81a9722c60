package branch

import "math"

// replay follows the log of presolve and root fixing and confirms each step
// against the program and the box as they stood.
func (a *auditor) replay() {
	for k := range a.trail.log {
		r := &a.trail.log[k]
		if r.kind == costFixed && a.atCut[0] == nil {
			a.mark()
		}
		a.rep.Reductions++
		if a.ctx.Err() == nil && a.step1(r) {
			a.rep.ReductionsOK++
		} else {
			a.rep.note("reduction %d (kind %d, column %d, row %d)", k, r.kind, r.col, r.row)
		}
	}
	if a.atCut[0] == nil {
		a.mark()
	}
}

// mark remembers the box that presolve left: cuts were made in it.
func (a *auditor) mark() {
	a.atCut[0] = append([]float64(nil), a.lower...)
	a.atCut[1] = append([]float64(nil), a.upper...)
	a.implied(a.wideLower, a.wideUpper)
}

// narrow gives column j new bounds.
func (a *auditor) narrow(j int, lower, upper float64) {
	a.lower[j], a.upper[j] = math.Max(a.lower[j], lower), math.Min(a.upper[j], upper)
	a.widen(j, lower, upper)
}

// widen gives column j new implied bounds.
func (a *auditor) widen(j int, lower, upper float64) {
	a.wideLower[j], a.wideUpper[j] = math.Max(a.wideLower[j], lower), math.Min(a.wideUpper[j], upper)
}

// step1 confirms one reduction and carries it out.
func (a *auditor) step1(r *reduction) bool {
	j := r.col
	switch r.kind {
	case roundedBound:
		ok := a.g.integer[j] && losesNone(r.lower, r.upper, interval{a.lower[j], a.upper[j]})
		a.narrow(j, r.lower, r.upper)
		return ok
	case rowBound:
		return a.rowBoundOK(r)
	case coefficient:
		return a.coefficientOK(r)
	case droppedSide:
		sum := rangeOf(a.g.rows[r.row], a.lower, a.upper, -1)
		lo, up := a.g.rowLower[r.row], a.g.rowUpper[r.row]
		ok := (r.rowLower == lo || math.IsInf(r.rowLower, -1) && notBelow(sum.lo, lo)) &&
			(r.rowUpper == up || math.IsInf(r.rowUpper, 1) && notBelow(up, sum.hi))
		a.g.rowLower[r.row], a.g.rowUpper[r.row] = r.rowLower, r.rowUpper
		return ok
	case dualFixed:
		up, down := a.g.locks(j)
		ok := agree(r.lower, a.lower[j]) && !down && a.g.cost[j] >= 0 || agree(r.upper, a.upper[j]) && !up && a.g.cost[j] <= 0
		a.narrow(j, r.lower, r.upper)
		return ok && r.lower == r.upper
	case dominated:
		g := *a.g
		g.lower, g.upper = a.lower, a.upper
		ok := a.g.integer[j] && a.g.integer[r.by] && a.lower[j] == 0 && a.upper[r.by] > a.lower[r.by] &&
			r.times*a.g.cost[r.by] <= a.g.cost[j] && g.rowsAllow(r.by, j, r.times) && g.boundAllows(r.by)
		a.narrow(j, 0, 0)
		return ok
	case costFixed:
		ok := r.proof != nil && a.dearer(r.proof, r.cutoff, j, r.lower, r.upper, a.wideLower, a.wideUpper)
		a.narrow(j, r.lower, r.upper)
		return ok
	}
	return false
}

// losesNone says whether every integer of x is in [lower, upper].
func losesNone(lower, upper float64, x interval) bool {
	return (math.IsInf(lower, -1) || lower-1 < x.lo) && (math.IsInf(upper, 1) || upper+1 > x.hi)
}

// notBelow says whether x is at least y up to the audit's tolerance.
func notBelow(x, y float64) bool {
	return x >= y-auditTol*math.Max(1, math.Abs(y)) || math.IsInf(x, 1) || math.IsInf(y, -1)
}

// rowBoundOK confirms bounds that a row implies. A continuous column gets the
// outward value, which may be a little wider than the one the search used.
func (a *auditor) rowBoundOK(r *reduction) bool {
	j := r.col
	terms := a.g.rows[r.row]
	v := coefficientOf(terms, j)
	if v == 0 {
		return false
	}
	x := solveFor(term{j, v}, a.g.rowLower[r.row], a.g.rowUpper[r.row], rangeOf(terms, a.wideLower, a.wideUpper, j))
	x.lo, x.hi = math.Max(x.lo, a.wideLower[j]), math.Min(x.hi, a.wideUpper[j])
	if a.g.integer[j] {
		ok := losesNone(r.lower, r.upper, x)
		a.narrow(j, r.lower, r.upper)
		return ok
	}
	if len(terms) == 1 {
		a.narrow(j, x.lo, x.hi)
	}
	a.widen(j, x.lo, x.hi)
	return notBelow(x.lo, r.lower) && notBelow(r.upper, x.hi)
}

// coefficientOK confirms a tightened coefficient: at the bound that the column
// is measured from the row is the old one, and everywhere else it holds
// whatever the other columns do.
func (a *auditor) coefficientOK(r *reduction) bool {
	i, j := r.row, r.col
	if !a.g.integer[j] {
		return false
	}
	side, oldB, newB := 1.0, a.g.rowUpper[i], r.rowUpper
	if math.IsInf(oldB, 1) {
		side, oldB, newB = -1, -a.g.rowLower[i], -r.rowLower
	}
	terms := a.g.rows[i]
	oldA, newA := side*coefficientOf(terms, j), side*r.value
	rest := rangeOf(terms, a.lower, a.upper, j)
	high := rest.hi
	if side < 0 {
		high = -rest.lo
	}
	at, next, far := a.lower[j], a.lower[j]+1, a.upper[j]
	if oldA > 0 {
		at, next, far = a.upper[j], a.upper[j]-1, a.lower[j]
	}
	ok := !math.IsInf(at, 0) && notBelow(newB-newA*at, oldB-oldA*at) && notBelow(newB-newA*next, high)
	if math.IsInf(far, 0) {
		ok = ok && (oldA < 0) == (newA <= 0)
	} else {
		ok = ok && notBelow(newB-newA*far, high)
	}
	a.g.setCoefficient(i, j, r.value)
	a.g.rowLower[i], a.g.rowUpper[i] = r.rowLower, r.rowUpper
	return ok
}

// dearer says whether the certificate prices every value of column j outside
// [lower, upper] at the cutoff or more, and whether the cutoff is no lower than
// the value known. The certificate's bound over the whole box is computed once,
// when it is first asked for; boxes only get smaller after that.
func (a *auditor) dearer(c *certificate, cutoff float64, j int, lower, upper float64, boxLower, boxUpper []float64) bool {
	if !notBelow(a.roundUp(cutoff), a.value) {
		return false
	}
	base, known := a.base[c]
	if !known {
		base = a.certified(c, boxLower, boxUpper).lo
		a.base[c] = base
	}
	_, reduced := a.priced(c)
	d := reduced[j]
	share := d.times(interval{boxLower[j], boxUpper[j]}).lo
	if math.IsInf(base, -1) || math.IsInf(share, -1) {
		return false
	}
	rest := below(base - share)
	outside := func(lo, up float64) bool {
		return notBelow(below(rest+d.times(interval{lo, up}).lo), cutoff)
	}
	return (upper >= boxUpper[j] || outside(upper+1, boxUpper[j])) &&
		(lower <= boxLower[j] || outside(boxLower[j], lower-1))
}

// contradiction says whether the box that the log leaves is empty or breaks a
// row whatever the columns do.
func (a *auditor) contradiction() bool {
	for j := range a.lower {
		if a.lower[j] > a.upper[j] {
			return true
		}
	}
	for i, terms := range a.g.rows {
		sum := rangeOf(terms, a.wideLower, a.wideUpper, -1)
		if sum.lo > a.g.rowUpper[i] || sum.hi < a.g.rowLower[i] {
			return true
		}
	}
	return false
}

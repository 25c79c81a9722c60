package branch

import (
	"maps"
	"math"
	"slices"
)

// locks says whether a row may be broken by moving the column up or down.
func (g *program) locks(j int) (up, down bool) {
	for _, e := range g.cols[j] {
		lo, hi := !math.IsInf(g.rowLower[e.Row], -1), !math.IsInf(g.rowUpper[e.Row], 1)
		if e.Value < 0 {
			lo, hi = hi, lo
		}
		up = up || hi
		down = down || lo
	}
	return up, down
}

// fixByDual fixes columns that cost and rows push the same way (T. Achterberg,
// R. Bixby, Z. Gu, E. Rothberg and D. Weninger, Presolve reductions in mixed integer
// programming, INFORMS J. on Computing 32 (2020), as are dominated columns). A column that
// they push to infinity is left alone: the relaxation will say unbounded.
func (g *program) fixByDual() bool {
	changed := false
	for j := range g.cols {
		if g.fixed(j) {
			continue
		}
		up, down := g.locks(j)
		var at float64
		switch {
		case !down && g.cost[j] >= 0 && !math.IsInf(g.lower[j], -1):
			at = g.lower[j]
		case !up && g.cost[j] <= 0 && !math.IsInf(g.upper[j], 1):
			at = g.upper[j]
		default:
			continue
		}
		g.log = append(g.log, reduction{kind: dualFixed, col: j, lower: at, upper: at})
		g.fix(j, at)
		changed = true
	}
	return changed
}

// fix gives column j one value.
func (g *program) fix(j int, at float64) {
	g.lower[j], g.upper[j] = at, at
	g.impliedLower[j], g.impliedUpper[j] = at, at
}

// fixDominated fixes integer columns that a few units of another column replace
// at no higher cost: for packs, a can that two smaller tins beat in content and
// price. Columns are compared when they meet in a row that needs them (the
// first row they share); times is at most dominateTimes.
//
// The replacement must fit under the other column's upper bound. It need not
// if that bound is as much as every row can use: then the other column stops
// there and all rows hold.
func (g *program) fixDominated() {
	byRow := map[int][]int{}
	for _, j := range g.integers {
		if g.fixed(j) || len(g.cols[j]) == 0 || g.lower[j] != 0 || g.cost[j] < 0 {
			continue
		}
		r := g.cols[j][0].Row
		byRow[r] = append(byRow[r], j)
	}
	for _, r := range slices.Sorted(maps.Keys(byRow)) {
		m := byRow[r]
		if len(m) > dominateGroup {
			continue // a dense row of a general program: not worth the pairs
		}
		for _, k := range m {
			for _, j := range m {
				if j == k || g.fixed(j) || g.fixed(k) {
					continue
				}
				if t := g.replaces(j, k); t > 0 {
					g.log = append(g.log, reduction{kind: dominated, col: k, lower: 0, upper: 0, by: j, times: t})
					g.fix(k, 0)
				}
			}
		}
	}
}

// replaces returns the least t for which t units of column j do all that one
// unit of k does at no higher cost, 0 if there is none.
func (g *program) replaces(j, k int) float64 {
	for t := 1.0; t <= dominateTimes; t++ {
		if t*g.cost[j] > g.cost[k] {
			return 0
		}
		if g.rowsAllow(j, k, t) && g.boundAllows(j) {
			// Of two equal columns only the later goes.
			if t == 1 && t*g.cost[j] == g.cost[k] && j > k && g.rowsAllow(k, j, 1) {
				return 0
			}
			return t
		}
	}
	return 0
}

// rowsAllow says whether every row is at least as well served by t·j as by k.
func (g *program) rowsAllow(j, k int, t float64) bool {
	cj, ck := g.cols[j], g.cols[k]
	a, b := 0, 0
	for a < len(cj) || b < len(ck) {
		var row int
		var vj, vk float64
		switch {
		case b >= len(ck) || a < len(cj) && cj[a].Row < ck[b].Row:
			row, vj = cj[a].Row, cj[a].Value
			a++
		case a >= len(cj) || ck[b].Row < cj[a].Row:
			row, vk = ck[b].Row, ck[b].Value
			b++
		default:
			row, vj, vk = cj[a].Row, cj[a].Value, ck[b].Value
			a++
			b++
		}
		d := t*vj - vk // change of the row's sum
		if d > 0 && !math.IsInf(g.rowUpper[row], 1) || d < 0 && !math.IsInf(g.rowLower[row], -1) {
			return false
		}
	}
	return true
}

// boundAllows says whether column j has room for the replacement: no upper
// bound, or one at which each row that wants more of j is satisfied whatever
// the rest does.
func (g *program) boundAllows(j int) bool {
	if math.IsInf(g.upper[j], 1) {
		return true
	}
	for _, e := range g.cols[j] {
		act := g.rowActivity(e.Row)
		low, high := act.without(e.Value, g.lower[j], g.upper[j])
		if e.Value < 0 && high+e.Value*g.upper[j] > g.rowUpper[e.Row] {
			return false
		}
		if e.Value > 0 && low+e.Value*g.upper[j] < g.rowLower[e.Row] {
			return false
		}
	}
	return true
}

// findLocks notes which columns some row holds back in each direction.
func (s *space) findLocks() {
	s.upLocked, s.downLocked = make([]bool, s.n), make([]bool, s.n)
	for j := range s.upLocked {
		s.upLocked[j], s.downLocked[j] = s.locks(j)
	}
}

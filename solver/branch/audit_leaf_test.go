package branch

import (
	"context"
	"math"
	"testing"

	"rationwright/solver/linear"
)

// TestLeavesCover draws trees over two whole columns and one in parts, each from 0 to 9: the
// leaves must leave no whole number out, wherever it is.
func TestLeavesCover(t *testing.T) {
	branch := func(up *boundChange, col int, lower, upper float64) *boundChange {
		return &boundChange{col: col, lower: lower, upper: upper, up: up}
	}
	byRow := func(up *boundChange, col int, lower, upper float64) *boundChange {
		c := branch(up, col, lower, upper)
		c.why = whyRow
		return c
	}
	low := branch(nil, 0, 0, 4)
	tight := byRow(low, 1, 0, 3)
	for _, c := range []struct {
		name  string
		boxes []*boundChange
		want  bool
	}{
		{"nothing was split", []*boundChange{nil}, true},
		{"no leaves", nil, false},
		{"two halves", []*boundChange{low, branch(nil, 0, 5, 9)}, true},
		{"two halves, the upper first", []*boundChange{branch(nil, 0, 5, 9), low}, true},
		{"halves that overlap", []*boundChange{low, branch(nil, 0, 3, 9)}, true},
		{"5 is left out", []*boundChange{low, branch(nil, 0, 6, 9)}, false},
		{"0 is left out", []*boundChange{branch(nil, 0, 1, 4), branch(nil, 0, 5, 9)}, false},
		{"9 is left out", []*boundChange{low, branch(nil, 0, 5, 8)}, false},
		{"one half", []*boundChange{low}, false},
		{"halves of two columns", []*boundChange{low, branch(nil, 1, 5, 9)}, false},
		{"halves of a column in parts", []*boundChange{branch(nil, 2, 0, 4), branch(nil, 2, 5, 9)}, false},
		{"three parts", []*boundChange{low, branch(nil, 0, 5, 6), branch(nil, 0, 7, 9)}, false},
		{"one part that is all", []*boundChange{branch(nil, 0, 0, 9)}, true},
		{"one part that lacks 9", []*boundChange{branch(nil, 0, 0, 8)}, false},
		{"one part that lacks 0", []*boundChange{branch(nil, 0, 1, 9)}, false},
		{"a half of a half", []*boundChange{branch(low, 0, 0, 2), branch(low, 0, 3, 4), branch(nil, 0, 5, 9)}, true},
		{"a half of a half that lacks 4", []*boundChange{branch(low, 0, 0, 2), branch(low, 0, 3, 3), branch(nil, 0, 5, 9)}, false},
		{"a half of a half that lacks 0", []*boundChange{branch(low, 0, 1, 2), branch(low, 0, 3, 4), branch(nil, 0, 5, 9)}, false},
		{"a half of a half by another column", []*boundChange{branch(low, 1, 0, 2), branch(low, 1, 3, 9), branch(nil, 0, 5, 9)}, true},
		{"one that lacks its other half", []*boundChange{branch(low, 1, 0, 2), branch(nil, 0, 5, 9)}, false},
		{"a row's box", []*boundChange{tight, branch(nil, 0, 5, 9)}, true},
		{"a row's box that is split", []*boundChange{branch(tight, 1, 0, 1), branch(tight, 1, 2, 3), branch(nil, 0, 5, 9)}, true},
		{"a row's box that is split short of its end", []*boundChange{branch(tight, 1, 0, 1), branch(tight, 1, 2, 2), branch(nil, 0, 5, 9)}, false},
		{"what closes in one half is open in the other", []*boundChange{branch(byRow(low, 1, 0, 3), 1, 0, 3), branch(branch(nil, 0, 5, 9), 1, 0, 3)}, false},
	} {
		a := auditorOf(inf, func(p *linear.Problem) {
			p.AddRow("r", -inf, 12) // 3y ≤ 12 with x ≤ 4: what byRow says is another test's matter
			col(p, 1, 0, 9, true, 1)
			col(p, 1, 0, 9, true, 3)
			col(p, 1, 0, 9, false)
		})
		for _, b := range c.boxes {
			a.trail.leaves = append(a.trail.leaves, leaf{box: b, bound: math.Inf(-1)})
		}
		a.checkLeaves()
		if a.rep.Covered != c.want || a.rep.Leaves != len(c.boxes) {
			t.Errorf("%s: covered %v with %d leaves, want %v", c.name, a.rep.Covered, a.rep.Leaves, c.want)
		}
	}
}

// TestLeafBounds, by hand: min x + 3y with x + y ≥ 4, x from 0 to 5, y from 0 to 9, both whole. The
// multiplier 1 proves 4 and prices y at 2: with y ≥ 2 it proves 4 + 2·2 = 8. The multiplier 3
// prices x at −2 and proves 12 − 2·5 = 2, with x ≤ 1 then 10. Parts prove the least of what
// each proves. As a ray the multiplier 1 proves 4 − 5 − 9 < 0, nothing, and with y ≤ 0 and x ≤ 3,
// 4 − 3 > 0, that no point is there.
func TestLeafBounds(t *testing.T) {
	build := func(p *linear.Problem) {
		p.AddRow("r", 4, inf)
		col(p, 1, 0, 5, true, 1)
		col(p, 3, 0, 9, true, 1)
	}
	times := func(y float64, ray bool) *certificate {
		return &certificate{rows: []int32{0}, duals: []float64{y}, ray: ray}
	}
	box := func(col int, lower, upper float64, up *boundChange) *boundChange {
		return &boundChange{col: col, lower: lower, upper: upper, up: up}
	}
	for _, c := range []struct {
		name  string
		leaf  leaf
		want  float64
		wrong bool
	}{
		{"the whole box", leaf{nil, times(1, false), 4}, 4, false},
		{"stated too high", leaf{nil, times(1, false), 4.001}, 4, true},
		{"stated lower than it is", leaf{nil, times(1, false), 3}, 4, false},
		{"y at least 2", leaf{box(1, 2, 9, nil), times(1, false), 8}, 8, false},
		{"y at least 2, stated too high", leaf{box(1, 2, 9, nil), times(1, false), 8.001}, 8, true},
		{"x priced below zero", leaf{nil, times(3, false), 2}, 2, false},
		{"x at most 1", leaf{box(0, 0, 1, nil), times(3, false), 10}, 10, false},
		{"x at most 1, after it was at most 2", leaf{box(0, 0, 1, box(0, 0, 2, nil)), times(3, false), 10}, 10, false},
		{"a wider box that was named later", leaf{box(0, 0, 2, box(0, 0, 1, nil)), times(3, false), 10}, 10, false},
		{"a multiplier that leans on nothing", leaf{nil, times(-1, false), 0}, 0, false},
		{"the same, stated too high", leaf{nil, times(-1, false), 1}, 0, true},
		{"no point in the box", leaf{box(0, 0, 3, box(1, 0, 0, nil)), times(1, true), inf}, inf, false},
		{"one point in the box", leaf{box(0, 0, 4, box(1, 0, 0, nil)), times(1, true), inf}, math.Inf(-1), true},
		{"a box of nothing", leaf{box(0, 0, 2, box(0, 3, 5, nil)), nil, inf}, inf, false},
		{"without a proof", leaf{nil, nil, 0}, math.Inf(-1), true},
		{"without a proof, and nothing said", leaf{nil, nil, math.Inf(-1)}, math.Inf(-1), false},
	} {
		a := auditorOf(inf, build)
		b, ok := a.leafBound(c.leaf)
		if b != c.want && !(math.Abs(b-c.want) < 1e-9) || ok == c.wrong {
			t.Errorf("%s: bound %g, confirmed %v; want %g, %v", c.name, b, ok, c.want, !c.wrong)
		}
	}
	a := auditorOf(inf, build)
	a.trail.leaves = []leaf{{box(1, 2, 9, nil), times(1, false), 8}, {box(1, 0, 1, nil), times(1, false), 4}}
	if b := a.checkLeaves(); math.Abs(b-4) > 1e-9 || a.rep.LeavesOK != 2 || len(a.rep.Unconfirmed) > 0 {
		t.Errorf("both parts prove %g, %+v, want 4", b, a.rep)
	}
	a = auditorOf(inf, build)
	a.trail.leaves = []leaf{{box(1, 2, 9, nil), times(1, false), 8}, {box(1, 0, 1, nil), times(1, false), 5}}
	if a.checkLeaves(); a.rep.LeavesOK != 1 || a.rep.Leaves != 2 || len(a.rep.Unconfirmed) != 1 {
		t.Errorf("of two parts of which one states too much: %+v", a.rep)
	}
	cancelled, cancel := context.WithCancel(context.Background())
	cancel()
	a = auditorOf(inf, build)
	a.ctx = cancelled
	if b, ok := a.leafBound(leaf{nil, times(1, false), 4}); ok || !math.IsInf(b, -1) {
		t.Errorf("with no time left a leaf is confirmed at %g", b)
	}
}

// TestBoxesOfRows: what 2x + 3y ≤ 12 says of whole columns in a box, by hand, and the
// nearest that it does not say.
func TestBoxesOfRows(t *testing.T) {
	for _, c := range []struct {
		name         string
		col          int
		lower, upper float64
		yLower       float64
		want         bool
	}{
		{"x ≤ 4 where y ≥ 1", 0, 0, 4, 1, true},
		{"x ≤ 3 where y ≥ 1", 0, 0, 3, 1, false},
		{"x ≤ 3 where y ≥ 2", 0, 0, 3, 2, true},
		{"x ≥ 1", 0, 1, 4, 1, false},
		{"no x where y ≥ 5", 0, 1, 0, 5, true},
		{"no x where y ≥ 4", 0, 1, 0, 4, false},
		{"a column in parts", 2, 0, 9, 0, false},
		{"a column that the row has not", 3, 0, 9, 0, false},
	} {
		a := auditorOf(inf, func(p *linear.Problem) {
			p.AddRow("r", -inf, 12)
			col(p, 1, 0, 9, true, 2)
			col(p, 1, 0, 9, true, 3)
			col(p, 1, 0, 9, false, 1)
			col(p, 1, 0, 9, true)
		})
		lower, upper := []float64{0, c.yLower, 0, 0}, []float64{9, 9, 9, 9}
		change := &boundChange{col: c.col, lower: c.lower, upper: c.upper, why: whyRow}
		if got := a.changeOK(change, lower, upper); got != c.want {
			t.Errorf("%s: confirmed %v, want %v", c.name, got, c.want)
		}
	}
}

// TestRootIsConfirmed, by hand: min x + 3y with x + y ≥ 4 over 0 ≤ x ≤ 5, 0 ≤ y ≤ 9 is at
// least 4 by the multiplier 1, for a constant of 10 at least 14; max −x − 3y − 10 is at most
// −14 by the multiplier −1. x + y ≥ 15 has no point, x + y ≥ 14 has one.
func TestRootIsConfirmed(t *testing.T) {
	build := func(maximize bool, least float64) *linear.Problem {
		p := &linear.Problem{Maximize: maximize, Offset: 10}
		sign := 1.0
		if maximize {
			p.Offset, sign = -10, -1
		}
		p.AddRow("r", least, inf)
		col(p, sign, 0, 5, false, 1)
		col(p, 3*sign, 0, 9, false, 1)
		return p
	}
	for _, c := range []struct {
		name     string
		maximize bool
		least    float64
		r        Result
		want     bool
		bound    float64
	}{
		{"at least", false, 4, Result{Status: Optimal, RootDual: []float64{1}, RootBound: 14}, true, 14},
		{"at least, stated too high", false, 4, Result{Status: Optimal, RootDual: []float64{1}, RootBound: 14.001}, false, 14},
		{"at least, stated lower", false, 4, Result{Status: Optimal, RootDual: []float64{1}, RootBound: 13}, true, 14},
		{"at most", true, 4, Result{Status: Optimal, RootDual: []float64{-1}, RootBound: -14}, true, -14},
		{"at most, stated too low", true, 4, Result{Status: Optimal, RootDual: []float64{-1}, RootBound: -14.001}, false, -14},
		{"no point", false, 15, Result{Status: Infeasible, Ray: []float64{1}}, true, inf},
		{"no point, by the ray turned round", false, 15, Result{Status: Infeasible, Ray: []float64{-1}}, true, inf},
		{"one point", false, 14, Result{Status: Infeasible, Ray: []float64{1}}, false, math.Inf(-1)},
		{"no point to a maximum", true, 15, Result{Status: Infeasible, Ray: []float64{1}}, true, math.Inf(-1)},
		{"nothing to show of an optimum", false, 4, Result{Status: Optimal}, false, math.Inf(-1)},
		{"nothing to show of an end", false, 4, Result{Status: Limit}, false, math.Inf(-1)},
		{"nothing to show of no point", false, 4, Result{Status: Infeasible}, true, math.Inf(-1)},
	} {
		a := Audit(context.Background(), build(c.maximize, c.least), c.r)
		if a.RootOK != c.want || a.Kept || a.BoundOK || a.RootBound != c.bound && !(math.Abs(a.RootBound-c.bound) < 1e-9) {
			t.Errorf("%s: %+v, want confirmed %v at %g", c.name, a, c.want, c.bound)
		}
	}
	// The value is that of the point, which must be one.
	for _, c := range []struct {
		x     []float64
		value float64
		want  bool
	}{{[]float64{4, 0}, 14, true}, {[]float64{4, 0}, 14.001, false}, {[]float64{3.99, 0}, 13.99, false}, {nil, 0, false}} {
		a := Audit(context.Background(), build(false, 4), Result{Status: Optimal, X: c.x, Value: c.value, RootDual: []float64{1}, RootBound: 14})
		if a.ValueOK != c.want {
			t.Errorf("%v of value %g: %+v, want %v", c.x, c.value, a, c.want)
		}
	}
}

// TestAuditByHand: of min x + 3y with x + y ≥ 4, x from 0 to 5, y from 0 to 9, both whole, what is kept
// of a search confirms what it proves and no more, whichever part of it the proof is.
func TestAuditByHand(t *testing.T) {
	build := func(maximize bool, least float64) *linear.Problem {
		p := &linear.Problem{Maximize: maximize}
		sign := 1.0
		if maximize {
			sign = -1
		}
		p.AddRow("r", least, inf)
		col(p, sign, 0, 5, true, 1)
		col(p, 3*sign, 0, 9, true, 1)
		return p
	}
	times := func(y float64, ray bool) *certificate {
		return &certificate{rows: []int32{0}, duals: []float64{y}, ray: ray}
	}
	none := math.Inf(-1)
	for _, c := range []struct {
		name   string
		least  float64
		trail  trail
		status Status
		bound  float64 // stated
		want   bool
	}{
		{"by a leaf", 4, trail{leaves: []leaf{{nil, times(1, false), 4}}, value: 4}, Optimal, 4, true},
		{"by a leaf, stated too high", 4, trail{leaves: []leaf{{nil, times(1, false), 4}}, value: 4}, Optimal, 4.001, false},
		{"by the root", 4, trail{leaves: []leaf{{nil, nil, none}}, root: times(1, false), value: 4}, Optimal, 4, true},
		{"by the root, stated too high", 4, trail{leaves: []leaf{{nil, nil, none}}, root: times(1, false), value: 4}, Optimal, 4.001, false},
		{"by the root at an upper bound", 4, trail{leaves: []leaf{{nil, nil, none}}, root: times(3, false), value: 4}, Limit, 2, true},
		{"by the root at an upper bound, stated too high", 4, trail{leaves: []leaf{{nil, nil, none}}, root: times(3, false), value: 4}, Limit, 2.001, false},
		{"by whole costs", 4, trail{leaves: []leaf{{nil, times(0.875, false), 3.5}}, value: 4, step: 1}, Optimal, 4, true},
		{"by costs that need not be whole", 4, trail{leaves: []leaf{{nil, times(0.875, false), 3.5}}, value: 4}, Optimal, 4, false},
		{"no more than the value", 4, trail{leaves: []leaf{{nil, times(1, false), 4}}, value: 3.9}, Optimal, 4, false},
		{"by nothing", 4, trail{value: 4}, Optimal, 4, false},
		{"nothing stated", 4, trail{leaves: []leaf{{nil, nil, none}}, value: inf}, Limit, none, true},
		{"no point, by a ray", 15, trail{leaves: []leaf{{nil, times(1, true), inf}}, value: inf}, Infeasible, inf, true},
		{"no point, of a program that has one", 14, trail{leaves: []leaf{{nil, times(1, true), inf}}, value: inf}, Infeasible, inf, false},
		{"no point, by a bound", 4, trail{leaves: []leaf{{nil, times(1, false), 4}}, value: inf}, Infeasible, 4, false},
		{"no point, as a row says", 15, trail{value: inf}, Infeasible, inf, true},
		{"no point, as no row says", 14, trail{value: inf}, Infeasible, inf, false},
	} {
		for _, maximize := range []bool{false, true} {
			bound, kept := c.bound, c.trail
			if maximize {
				bound = -bound
			}
			rep := Audit(context.Background(), build(maximize, c.least), Result{Status: c.status, Bound: bound, trail: &kept})
			if rep.BoundOK != c.want || !rep.Kept {
				t.Errorf("%s, maximise %v: %+v, want confirmed %v", c.name, maximize, rep, c.want)
			}
		}
	}
	// What rows say of columns without bounds, x ≥ 2 here, is part of a root's bound.
	p := &linear.Problem{}
	p.AddRow("r", 2, inf)
	col(p, 1, none, inf, false, 1)
	for bound, want := range map[float64]bool{2: true, 2.001: false} {
		if rep := Audit(context.Background(), p, Result{Status: Optimal, RootDual: []float64{0}, RootBound: bound}); rep.RootOK != want {
			t.Errorf("a root bound of %g: %+v", bound, rep)
		}
	}
}

// TestAuditDerivesCuts: max x + y with 2x + 2y ≤ 3 over noughts and ones is at most 1 by the
// cut x + y ≤ 1, half of the row rounded; the cut counts where a proof leans on it, and what
// is tighter than its derivation is trusted only, not derived.
func TestAuditDerivesCuts(t *testing.T) {
	p := &linear.Problem{}
	p.AddRow("r", -inf, 3)
	col(p, -1, 0, 1, true, 2)
	col(p, -1, 0, 1, true, 2)
	s := &space{program: newProgram(p)}
	c := &combination{}
	c.add(0, 1, true)
	half := s.round(newWorkspace(2), c, 2, []float64{0.75, 0.75}, 0)
	if half == nil {
		t.Fatal("no cut")
	}
	leaning := &certificate{rows: []int32{1}, duals: []float64{-1}}
	for _, k := range []struct {
		name                   string
		loosened               float64
		trail                  trail
		cuts, derived, trusted int
	}{
		{"a leaf leans on it", 1e-6, trail{leaves: []leaf{{nil, leaning, -1.00001}}}, 1, 1, 0},
		{"the root leans on it", 1e-6, trail{leaves: []leaf{{nil, nil, math.Inf(-1)}}, root: leaning}, 1, 1, 0},
		{"a box leans on it", 1e-6, trail{leaves: []leaf{{&boundChange{col: 0, upper: 1, why: whyCost, proof: leaning}, nil, math.Inf(-1)}}}, 1, 1, 0},
		{"a reduction leans on it", 1e-6, trail{leaves: []leaf{{nil, nil, math.Inf(-1)}}, log: []reduction{{kind: costFixed, col: 0, upper: 1, proof: leaning}}}, 1, 1, 0},
		{"nothing leans on it", 1e-6, trail{leaves: []leaf{{nil, &certificate{rows: []int32{0}, duals: []float64{-0.5}}, -1.6}}}, 0, 0, 0},
		{"tighter than it is derived", -1e-3, trail{leaves: []leaf{{nil, leaning, -1}}}, 1, 0, 1},
	} {
		used := *half
		used.upper += k.loosened
		kept := k.trail
		kept.cuts, kept.value = []*cut{&used}, -1
		rep := Audit(context.Background(), p, Result{Status: Limit, Bound: -2, trail: &kept})
		if rep.Cuts != k.cuts || rep.CutsDerived != k.derived || rep.CutsTrusted != k.trusted {
			t.Errorf("%s: %+v", k.name, rep)
		}
	}
}

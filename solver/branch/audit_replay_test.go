package branch

import (
	"context"
	"math"
	"testing"

	"rationwright/solver/linear"
)

// auditorOf is an auditor of a program and of a point of the value given.
func auditorOf(value float64, build func(p *linear.Problem)) *auditor {
	p := &linear.Problem{}
	build(p)
	a := newAuditor(p, &trail{value: value}, &AuditReport{})
	a.ctx = context.Background()
	return a
}

// TestReductionsAreConfirmed offers single steps of presolve, each right one beside the
// nearest wrong one, by hand.
func TestReductionsAreConfirmed(t *testing.T) {
	// What holds of the columns x and y, and of rows over them.
	xy := func(xLower, xUpper float64, xWhole bool, yLower, yUpper float64, lower, upper, ofX, ofY float64) func(p *linear.Problem) {
		return func(p *linear.Problem) {
			p.AddRow("r", lower, upper)
			col(p, 0, xLower, xUpper, xWhole, ofX)
			col(p, 0, yLower, yUpper, false, ofY)
		}
	}
	most := xy(0, 9, true, 1, 9, -inf, 12, 2, 3)          // 2x + 3y ≤ 12 with y ≥ 1: x ≤ 4.5
	least := xy(0, 9, true, 0, 2, 12, inf, 2, 3)          // 2x + 3y ≥ 12 with y ≤ 2: x ≥ 3
	minus := xy(0, 9, true, 0, 2, -inf, -3, -2, 1)        // y − 2x ≤ −3: x ≥ 1.5
	single := xy(0, 9, false, 0, 9, 3, 12, 2, 0)          // 3 ≤ 2x ≤ 12: 1.5 ≤ x ≤ 6
	box := xy(0, 4, true, 0, 4, 0, 8, 1, 1)               // 0 ≤ x + y ≤ 8 says nothing
	tight := xy(0, 4, true, 0, 4, 0.5, 7.5, 1, 1)         // 0.5 ≤ x + y ≤ 7.5 does
	knapsack := xy(0, 1, true, 0, 3, -inf, 10, 10, 1)     // 10x + y ≤ 10, y ≤ 3
	parts := xy(0, 1, false, 0, 3, -inf, 10, 10, 1)       // the same with x in parts
	packs := xy(0, inf, true, 0, 300, -inf, 0, -1000, 1)  // y ≤ 1000x, y ≤ 300
	fewPacks := xy(0, 3, true, 0, 8, -inf, 5, -10, 1)     // y − 10x ≤ 5, y ≤ 8, x ≤ 3
	needed := xy(0, 5, true, 0, 9, 4, inf, 10, 1)         // 10x + y ≥ 4
	rounded := xy(0.4, 5.6, true, 0, 9, -inf, inf, 1, 1)  // x from 0.4 to 5.6
	inParts := xy(0.4, 5.6, false, 0, 9, -inf, inf, 1, 1) // the same with x in parts
	endless := xy(math.Inf(-1), inf, true, 0, 9, -inf, inf, 1, 1)
	bounds := func(kind reductionKind, lower, upper float64) reduction {
		return reduction{kind: kind, lower: lower, upper: upper}
	}
	sides := func(lower, upper float64) reduction {
		return reduction{kind: droppedSide, rowLower: lower, rowUpper: upper}
	}
	shrunk := func(value, lower, upper float64) reduction {
		return reduction{kind: coefficient, value: value, rowLower: lower, rowUpper: upper}
	}
	priced := func(cost, lower, upper float64) func(p *linear.Problem) { // one row over one column of a price
		return func(p *linear.Problem) {
			p.AddRow("r", lower, upper)
			col(p, cost, 0, 9, true, 1)
		}
	}
	tins := func(upper, price, grams, canLower float64, whole bool) func(p *linear.Problem) {
		return func(p *linear.Problem) { // a can of 500 g at 3 beside tins, 800 g needed
			p.AddRow("grams", 800, inf)
			col(p, 3, canLower, 9, true, 500)
			col(p, price, 0, upper, whole, grams)
		}
	}
	swap := func(times float64) reduction { return reduction{kind: dominated, by: 1, times: times} }
	for _, c := range []struct {
		name  string
		build func(p *linear.Problem)
		step  reduction
		want  bool
	}{
		{"rounded bounds", rounded, bounds(roundedBound, 1, 5), true},
		{"rounded too far up", rounded, bounds(roundedBound, 2, 5), false},
		{"rounded too far down", rounded, bounds(roundedBound, 1, 4), false},
		{"rounded outwards", rounded, bounds(roundedBound, 0, 6), true},
		{"rounded though in parts", inParts, bounds(roundedBound, 1, 5), false},
		{"bounds of a column without any", endless, bounds(roundedBound, math.Inf(-1), inf), true},
		{"a lower bound of a column without any", endless, bounds(roundedBound, -1e9, inf), false},
		{"an upper bound of a column without any", endless, bounds(roundedBound, math.Inf(-1), 1e9), false},

		{"a row's upper bound", most, bounds(rowBound, 0, 4), true},
		{"a row's upper bound too low", most, bounds(rowBound, 0, 3), false},
		{"a lower bound that no row says", most, bounds(rowBound, 1, 4), false},
		{"a row's lower bound", least, bounds(rowBound, 3, 9), true},
		{"a row's lower bound too high", least, bounds(rowBound, 4, 9), false},
		{"an upper bound that no row says", least, bounds(rowBound, 3, 8), false},
		{"a lower bound by a coefficient below zero", minus, bounds(rowBound, 2, 9), true},
		{"too high a one", minus, bounds(rowBound, 3, 9), false},
		{"bounds of a row of one column", single, bounds(rowBound, 1.5, 6), true},
		{"too high a lower one", single, bounds(rowBound, 1.501, 6), false},
		{"too low an upper one", single, bounds(rowBound, 1.5, 5.999), false},
		{"a bound by a row without the column", xy(0, 9, true, 0, 9, -inf, 3, 0, 1), bounds(rowBound, 0, 9), false},

		{"an upper side that says nothing", box, sides(0, inf), true},
		{"a lower side that says nothing", box, sides(-inf, 8), true},
		{"both", box, sides(-inf, inf), true},
		{"an upper side that says something", tight, sides(0.5, inf), false},
		{"a lower side that says something", tight, sides(-inf, 7.5), false},
		{"another upper side", box, sides(0, 7), false},
		{"another lower side", box, sides(1, 8), false},

		{"fixed below, which rows and cost like", priced(1, -inf, 5), bounds(dualFixed, 0, 0), true},
		{"fixed below, which costs nothing", priced(0, -inf, 5), bounds(dualFixed, 0, 0), true},
		{"fixed above that", priced(1, -inf, 5), bounds(dualFixed, 1, 1), false},
		{"fixed to a range", priced(1, -inf, 5), bounds(dualFixed, 0, 1), false},
		{"fixed below, which costs", priced(-1, -inf, 5), bounds(dualFixed, 0, 0), false},
		{"fixed below, which a row needs", priced(1, 2, inf), bounds(dualFixed, 0, 0), false},
		{"fixed above, which row and cost like", priced(-1, 2, inf), bounds(dualFixed, 9, 9), true},
		{"fixed under that", priced(-1, 2, inf), bounds(dualFixed, 8, 8), false},
		{"fixed above, which costs", priced(1, 2, inf), bounds(dualFixed, 9, 9), false},
		{"fixed above, which a row forbids", priced(-1, -inf, 5), bounds(dualFixed, 9, 9), false},

		{"two tins for a can", tins(inf, 1.4, 300, 0, true), swap(2), true},
		{"one for a can", tins(inf, 1.4, 300, 0, true), swap(1), false},
		{"three for a can, which are dearer", tins(inf, 1.4, 300, 0, true), swap(3), false},
		{"two at the can's price", tins(inf, 1.5, 300, 0, true), swap(2), true},
		{"two that are dearer", tins(inf, 1.51, 300, 0, true), swap(2), false},
		{"two that hold as much", tins(inf, 1.4, 250, 0, true), swap(2), true},
		{"two that hold less", tins(inf, 1.4, 249, 0, true), swap(2), false},
		{"tins that meet the need alone", tins(3, 1.4, 300, 0, true), swap(2), true},
		{"tins that do not", tins(2, 1.4, 300, 0, true), swap(2), false},
		{"a can that must be there", tins(inf, 1.4, 300, 1, true), swap(2), false},
		{"tins in parts", tins(inf, 1.4, 300, 0, false), swap(2), false},

		{"3x + y ≤ 3", knapsack, shrunk(3, -inf, 3), true},
		{"4x + y ≤ 4, which is weaker", knapsack, shrunk(4, -inf, 4), true},
		{"2x + y ≤ 2, which y = 3 breaks at x = 0", knapsack, shrunk(2, -inf, 2), false},
		{"4x + y ≤ 3, which x = 1 breaks", knapsack, shrunk(4, -inf, 3), false},
		{"3x + y ≤ 3 in parts", parts, shrunk(3, -inf, 3), false},
		{"y ≤ 300x", packs, shrunk(-300, -inf, 0), true},
		{"y ≤ 299x", packs, shrunk(-299, -inf, 0), false},
		{"y ≤ 300, which is weaker", packs, shrunk(0, -inf, 300), true},
		{"y ≤ 299, which y = 300 breaks at x = 1", packs, shrunk(0, -inf, 299), false},
		{"y − 3x ≤ 5", fewPacks, shrunk(-3, -inf, 5), true},
		{"y − 2x ≤ 5, which y = 8 breaks at x = 1", fewPacks, shrunk(-2, -inf, 5), false},
		{"y + 4x ≤ 12, which x = 3 breaks", fewPacks, shrunk(4, -inf, 12), false},
		{"y − 3x ≤ 4, which y = 5 breaks at x = 0", fewPacks, shrunk(-3, -inf, 4), false},
		{"4x + y ≥ 4", needed, shrunk(4, 4, inf), true},
		{"3x + y ≥ 4, which y = 0 breaks at x = 1", needed, shrunk(3, 4, inf), false},
		{"4x + y ≥ 5, which y = 4 breaks at x = 0", needed, shrunk(4, 5, inf), false},

		{"no step that is known", box, reduction{kind: droppedSide + 1}, false},
	} {
		a := auditorOf(inf, c.build)
		if got := a.step1(&c.step); got != c.want {
			t.Errorf("%s: confirmed %v, want %v", c.name, got, c.want)
		}
	}
}

// TestColumnsTooDear, by hand: min x + 3y − 2z with x + y ≥ 4, all whole from 0 to 5, 0 to 9 and 0 to 5. The
// multiplier 1 proves 4 − 2·5 = −6 and leaves y a price of 2, z one of −2. Against a cutoff
// of 0, y may be 2 (−6 + 2·3 = 0 is none better) and z not less than 3 (−6 + 2·3 = 0).
func TestColumnsTooDear(t *testing.T) {
	build := func(p *linear.Problem) {
		p.AddRow("r", 4, inf)
		col(p, 1, 0, 5, true, 1)
		col(p, 3, 0, 9, true, 1)
		col(p, -2, 0, 5, true)
	}
	proof := &certificate{rows: []int32{0}, duals: []float64{1}}
	for _, c := range []struct {
		name         string
		col          int
		lower, upper float64
		cutoff       float64
		value        float64
		proof        *certificate
		want         bool
	}{
		{"y up to what is no better", 1, 0, 2, 0, 0, proof, true},
		{"y less", 1, 0, 1, 0, 0, proof, false},
		{"y for a cutoff that nothing reaches", 1, 0, 2, 0.1, 0.1, proof, false},
		{"y from more than nothing", 1, 1, 2, 0, 0, proof, false},
		{"z down to what is no better", 2, 3, 5, 0, 0, proof, true},
		{"z more", 2, 4, 5, 0, 0, proof, false},
		{"z up to less than it may", 2, 3, 4, 0, 0, proof, false},
		{"x, which is priced at nothing", 0, 0, 4, 0, 0, proof, false},
		{"x as it is", 0, 0, 5, 0, 0, proof, true},
		{"a cutoff under the value known", 1, 0, 2, 0, 0.5, proof, false},
		{"a cutoff above it", 1, 0, 2, 0, -1, proof, true},
		{"without a proof", 1, 0, 9, 0, 0, nil, false},
	} {
		a := auditorOf(c.value, build)
		got := a.step1(&reduction{kind: costFixed, col: c.col, lower: c.lower, upper: c.upper, cutoff: c.cutoff, proof: c.proof})
		if got != c.want {
			t.Errorf("%s: confirmed %v, want %v", c.name, got, c.want)
		}
		// The same of a box in the tree.
		a = auditorOf(c.value, build)
		box := &boundChange{col: c.col, lower: c.lower, upper: c.upper, cutoff: c.cutoff, proof: c.proof, why: whyCost}
		if got := a.changeOK(box, a.wideLower, a.wideUpper); got != c.want {
			t.Errorf("%s, in a box: confirmed %v, want %v", c.name, got, c.want)
		}
	}
	// Without a bound above, z's share of the proof is endless.
	a := auditorOf(0, func(p *linear.Problem) { build(p); p.Cols[2].Upper = inf })
	if a.step1(&reduction{kind: costFixed, col: 1, upper: 2, proof: proof}) {
		t.Error("confirmed by a proof that proves nothing")
	}
}

// TestStepsFollowOneAnother: what a step is confirmed by is what the steps before it left.
func TestStepsFollowOneAnother(t *testing.T) {
	// 2x + 3y ≤ 12 gives y ≤ 4; once y is at least 2, x ≤ 3; then the row x + y ≤ 7 says
	// nothing, and z, which only that row held, may go up to 9.
	a := auditorOf(inf, func(p *linear.Problem) {
		p.AddRow("r", -inf, 12)
		p.AddRow("s", -inf, 7)
		p.AddRow("t", 2, 9)
		col(p, 1, 0, 9, true, 2, 1)
		col(p, 1, 0, 9, true, 3, 1, 1)
		col(p, -1, 0, 0, true, 0, 1)
	})
	steps := []reduction{
		{kind: rowBound, col: 1, row: 2, lower: 2, upper: 9},
		{kind: rowBound, col: 1, row: 0, lower: 2, upper: 4},
		{kind: rowBound, col: 0, row: 0, lower: 0, upper: 3},
		{kind: droppedSide, row: 1, rowLower: -inf, rowUpper: inf},
		{kind: dualFixed, col: 2, lower: 0, upper: 0},
	}
	a.trail.log = steps
	a.replay()
	if a.rep.Reductions != len(steps) || a.rep.ReductionsOK != len(steps) || len(a.rep.Unconfirmed) > 0 {
		t.Errorf("of %d steps in their order %d are confirmed: %v", a.rep.Reductions, a.rep.ReductionsOK, a.rep.Unconfirmed)
	}
	if a.upper[0] != 3 || a.lower[1] != 2 || a.upper[1] != 4 || a.wideUpper[0] != 3 {
		t.Errorf("they leave %v to %v, want x ≤ 3, 2 ≤ y ≤ 4", a.lower, a.upper)
	}
	for k := range steps[:4] { // each needs those before it
		b := auditorOf(inf, func(p *linear.Problem) { *p = *a.g.orig.Clone() })
		b.trail.log = steps[k:4]
		b.replay()
		if all := b.rep.ReductionsOK == 4-k; all != (k == 0) {
			t.Errorf("from step %d on all are confirmed: %v", k, all)
		}
	}
	cancelled, cancel := context.WithCancel(context.Background())
	cancel()
	c := auditorOf(inf, func(p *linear.Problem) { *p = *a.g.orig.Clone() })
	c.ctx, c.trail.log = cancelled, steps
	if c.replay(); c.rep.ReductionsOK != 0 || c.rep.Reductions != len(steps) {
		t.Errorf("with no time left %d of %d steps are confirmed", c.rep.ReductionsOK, c.rep.Reductions)
	}
}

// TestContradiction: a box that is empty, and one whose rows cannot hold, by a little.
func TestContradiction(t *testing.T) {
	for _, c := range []struct {
		lower, upper, xUpper float64
		want                 bool
	}{
		{-inf, inf, 4, false}, {8, inf, 4, false}, {8.001, inf, 4, true}, {-inf, 2, 4, false}, {-inf, 1.999, 4, true}, {-inf, inf, 1, true}, {-inf, inf, 2, false},
	} {
		a := auditorOf(inf, func(p *linear.Problem) {
			p.AddRow("r", c.lower, c.upper) // of x + y with 2 ≤ x, 0 ≤ y ≤ 4
			col(p, 0, 2, 4, true, 1)
			col(p, 0, 0, 4, true, 1)
		})
		a.upper[0] = c.xUpper
		if got := a.contradiction(); got != c.want {
			t.Errorf("row from %g to %g, x up to %g: %v, want %v", c.lower, c.upper, c.xUpper, got, c.want)
		}
	}
}

// TestSolveFor, by hand: what 3 ≤ ±2x + rest ≤ 12 leaves x, with each end there or not.
func TestSolveFor(t *testing.T) {
	none := math.Inf(-1)
	for _, c := range []struct {
		factor, lo, up float64
		rest           interval
		want           interval
	}{
		{2, 3, 12, interval{1, 4}, interval{-0.5, 5.5}}, {-2, 3, 12, interval{1, 4}, interval{-5.5, 0.5}},
		{2, none, 12, interval{1, 4}, interval{none, 5.5}}, {2, 3, inf, interval{1, 4}, interval{-0.5, inf}},
		{-2, none, 12, interval{1, 4}, interval{-5.5, inf}}, {-2, 3, inf, interval{1, 4}, interval{none, 0.5}},
		{2, 3, 12, interval{none, 4}, interval{-0.5, inf}}, {2, 3, 12, interval{1, inf}, interval{none, 5.5}}, {2, 3, 12, interval{none, inf}, interval{none, inf}},
		{-2, 3, 12, interval{none, 4}, interval{none, 0.5}}, {-2, 3, 12, interval{1, inf}, interval{-5.5, inf}},
	} {
		near := func(got, want float64) bool { return got == want || math.Abs(got-want) < 1e-12 }
		if got := solveFor(term{0, c.factor}, c.lo, c.up, c.rest); !near(got.lo, c.want.lo) || !near(got.hi, c.want.hi) || got.lo > c.want.lo || got.hi < c.want.hi {
			t.Errorf("%+v leaves %v", c, got)
		}
	}
	// x + y ≤ 10 with y ≥ 2 leaves x ≤ 8, and x ≥ −1 then y ≤ 11; a value known of 20 for
	// x + y + 2z leaves z ≤ 9.5; nothing says how small z may be.
	a := auditorOf(20, func(p *linear.Problem) {
		p.AddRow("r", none, 10)
		p.AddRow("s", -3, inf)
		col(p, 1, none, inf, false, 1, 3)
		col(p, 1, 2, inf, false, 1)
		col(p, 2, none, inf, false)
	})
	a.implied(a.wideLower, a.wideUpper)
	for j, want := range [][2]float64{{-1, 8}, {2, 11}, {none, 9.5}} {
		if got := [2]float64{a.wideLower[j], a.wideUpper[j]}; got[0] > want[0] || got[1] < want[1] || got[0] < want[0]-1e-9 || got[1] > want[1]+1e-9 {
			t.Errorf("column %d from %g to %g, want %v", j, got[0], got[1], want)
		}
	}
}

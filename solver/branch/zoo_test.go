package branch

import (
	"context"
	"math"
	"testing"

	"rationwright/solver/linear"
)

// animal is one program of the zoo: small, with a trap in it.
type animal struct {
	name   string
	build  func(p *linear.Problem)
	status Status
	value  float64 // when Optimal
}

// col adds a column with its coefficients by row.
func col(p *linear.Problem, cost, lower, upper float64, integer bool, values ...float64) {
	j := p.AddCol("", cost, lower, upper, integer)
	for i, v := range values {
		p.Set(i, j, v)
	}
}

var inf = math.Inf(1)

// zoo holds the programs. Every optimum is worked out by hand in the comment.
var zoo = []animal{
	// minimise nothing: no columns, no rows. The optimum is the constant.
	{"empty", func(p *linear.Problem) { p.Offset = 7 }, Optimal, 7},

	// A row that asks nothing of no columns: the same.
	{"no columns", func(p *linear.Problem) { p.Offset = 7; p.AddRow("r", -inf, 5) }, Optimal, 7},

	// x = 1.0000001, x integer: no whole number is there; x = 1 + 1e-11 is 1 as
	// decimal arithmetic leaves it.
	{"fixed beside a whole number", func(p *linear.Problem) { col(p, 1, 1.0000001, 1.0000001, true) }, Infeasible, 0},
	{"fixed at a whole number", func(p *linear.Problem) { col(p, 1, 1+1e-11, 1+1e-11, true) }, Optimal, 1},

	// 1e-5·y − 600·z = −4e-7, y ≥ 0, z binary: z = 0 asks y = −0.04, so z = 1 and
	// y = 6e7 − 0.04. A tolerance of 1e-6, or 1e-9 of the 600, answers 0.
	{"a row of small numbers", func(p *linear.Problem) {
		p.AddRow("r", -4e-7, -4e-7)
		col(p, 1, 0, inf, false, 1e-5)
		col(p, 1, 0, 1, true, -600)
	}, Optimal, 6e7 - 0.04 + 1},

	// 0 ≥ 1 with no columns at all: a row alone can make a program infeasible.
	{"empty row that cannot hold", func(p *linear.Problem) { p.AddRow("r", 1, inf) }, Infeasible, 0},

	// min x + y, x = 3, y = 4 fixed, x + y ≤ 7: nothing to decide, still checked.
	{"all fixed", func(p *linear.Problem) {
		p.AddRow("r", -inf, 7)
		col(p, 1, 3, 3, true, 1)
		col(p, 1, 4, 4, false, 1)
	}, Optimal, 7},

	// The same with x + y ≤ 6: fixed columns that break a row.
	{"all fixed and infeasible", func(p *linear.Problem) {
		p.AddRow("r", -inf, 6)
		col(p, 1, 3, 3, true, 1)
		col(p, 1, 4, 4, false, 1)
	}, Infeasible, 0},

	// An integer column with bounds 0.4 and 0.6: the relaxation has points, the
	// integers have none.
	{"no integer between the bounds", func(p *linear.Problem) {
		p.AddRow("r", -inf, 1)
		col(p, 1, 0.4, 0.6, true, 1)
	}, Infeasible, 0},

	// 2x + 2y = 3: parity. The relaxation is feasible and bounded; no cut of the
	// box is infeasible by bounds alone.
	{"parity", func(p *linear.Problem) {
		p.AddRow("r", 3, 3)
		col(p, 1, 0, 5, true, 2)
		col(p, 1, 0, 5, true, 2)
	}, Infeasible, 0},

	// 6x + 10y + 15z = 29 over 0..9: 29 is the greatest number that 6, 10 and 15
	// do not make (their Frobenius number), so branching has to go all the way.
	{"Frobenius number", func(p *linear.Problem) {
		p.AddRow("r", 29, 29)
		col(p, 0, 0, 9, true, 6)
		col(p, 0, 0, 9, true, 10)
		col(p, 0, 0, 9, true, 15)
	}, Infeasible, 0},

	// min 5x + 4y + 3z, 6x + 10y + 15z = 31: only x = 1, y = 1, z = 1 makes 31.
	{"equality knapsack", func(p *linear.Problem) {
		p.AddRow("r", 31, 31)
		col(p, 5, 0, 9, true, 6)
		col(p, 4, 0, 9, true, 10)
		col(p, 3, 0, 9, true, 15)
	}, Optimal, 12},

	// max x + y over x + y ≤ 2.5 with x integer ≥ 0 and y free: both directions
	// are open, the row closes them. Optimum 2.5.
	{"free continuous column", func(p *linear.Problem) {
		p.Maximize = true
		p.AddRow("r", -inf, 2.5)
		col(p, 1, 0, inf, true, 1)
		col(p, 1, -inf, inf, false, 1)
	}, Optimal, 2.5},

	// min x, x free integer, 3x ≥ −7: x = −2 (−7/3 = −2.33 rounds up, not to 0).
	{"free integer column", func(p *linear.Problem) {
		p.AddRow("r", -7, inf)
		col(p, 1, -inf, inf, true, 3)
	}, Optimal, -2},

	// min −x − y, 2x + 3y ≤ −4, x in −5..−1, y in −6..3: the corner of the
	// relaxation is x = −1, y = −2/3; integers: x = −1 → y ≤ −1 (3y ≤ −2), value 2;
	// x = −2 → y ≤ 0, value 2; x = −5 → y ≤ 2, value 3. Optimum 2.
	{"negative bounds", func(p *linear.Problem) {
		p.AddRow("r", -inf, -4)
		col(p, -1, -5, -1, true, 2)
		col(p, -1, -6, 3, true, 3)
	}, Optimal, 2},

	// max x, x integer, no row holds it: unbounded, and 0 is a point.
	{"unbounded", func(p *linear.Problem) {
		p.Maximize = true
		p.AddRow("r", 0, inf)
		col(p, 1, 0, inf, true, 1)
	}, Unbounded, 0},

	// max y with 2x = 1, x integer: the relaxation is unbounded in y, but no
	// integer point exists. "Unbounded" would be the wrong word.
	{"unbounded relaxation, no integer point", func(p *linear.Problem) {
		p.Maximize = true
		p.AddRow("half", 1, 1)
		p.AddRow("y", 0, inf)
		col(p, 0, 0, 4, true, 2)
		col(p, 1, 0, inf, false, 0, 1)
	}, Infeasible, 0},

	// min y, y ≥ x − ½, y ≥ ½ − x, x integer free, no bound on x: the relaxation
	// says 0 at x = ½, every integer has y = ½ or more; branching alone must
	// close it from both sides.
	{"split in the middle", func(p *linear.Problem) {
		p.AddRow("a", -0.5, inf) // y − x ≥ −½
		p.AddRow("b", 0.5, inf)  // y + x ≥ ½
		col(p, 0, -inf, inf, true, -1, 1)
		col(p, 1, -inf, inf, false, 1, 1)
	}, Optimal, 0.5},

	// Fixed charge: min 10z + y, y ≥ 3 and y ≤ 1e6·z, z binary. A relaxation
	// that lets z = 3e-6 pass as integral would answer 3 instead of 13.
	{"big M", func(p *linear.Problem) {
		p.AddRow("use", -inf, 0)
		col(p, 10, 0, 1, true, -1e6)
		col(p, 1, 3, inf, false, 1)
	}, Optimal, 13},

	// The same with M too large for the integer tolerance: z = 3e-9. Tightening
	// M to the bound of y (here 5) saves it.
	{"huge M with a bound", func(p *linear.Problem) {
		p.AddRow("use", -inf, 0)
		col(p, 10, 0, 1, true, -1e9)
		col(p, 1, 3, 5, false, 1)
	}, Optimal, 13},

	// Three depots with fixed costs 5, 6, 9 and room 2, 3, 5 serve 5 at unit
	// costs 3, 2, 1: depot 3 alone costs 9 + 5 = 14; 1 and 2: 11 + 6 + 6 = 23.
	{"fixed charge", func(p *linear.Problem) {
		p.AddRow("need", 5, inf)
		p.AddRow("d1", -inf, 0)
		p.AddRow("d2", -inf, 0)
		p.AddRow("d3", -inf, 0)
		col(p, 5, 0, 1, true, 0, -2)
		col(p, 6, 0, 1, true, 0, 0, -3)
		col(p, 9, 0, 1, true, 0, 0, 0, -5)
		col(p, 3, 0, inf, false, 1, 1)
		col(p, 2, 0, inf, false, 1, 0, 1)
		col(p, 1, 0, inf, false, 1, 0, 0, 1)
	}, Optimal, 14},

	// A covering program without upper bounds whose bound of the relaxation
	// rests on reduced costs at infinite bounds. An early version took the
	// infinite bound as the value that a reduced cost counts from, put the box
	// at [+∞, +∞] and split it for ever. min 2x + 3y, 3x + 5y ≥ 11: (2,1) costs
	// 7, (0,3) 9, (4,0) 8, (1,2) 8.
	{"covering without upper bounds", func(p *linear.Problem) {
		p.AddRow("need", 11, inf)
		col(p, 2, 0, inf, true, 3)
		col(p, 3, 0, inf, true, 5)
	}, Optimal, 7},

	// min x − y with x = y, both integer and free: optimum 0, where no relative
	// gap can be met. An early version called this numerical.
	{"optimum zero", func(p *linear.Problem) {
		p.AddRow("same", 0, 0)
		col(p, 1, -9, 9, true, 1)
		col(p, -1, -9, 9, true, -1)
	}, Optimal, 0},

	// max x + y, x + y ≤ 1 stated three times, and twice as large once more:
	// redundant rows, every basis degenerate.
	{"redundant rows", func(p *linear.Problem) {
		p.Maximize = true
		for range 3 {
			p.AddRow("", -inf, 1.5)
		}
		p.AddRow("", -inf, 3)
		col(p, 1, 0, 1, true, 1, 1, 1, 2)
		col(p, 1, 0, 1, true, 1, 1, 1, 2)
	}, Optimal, 1},

	// Packs: 250 g at 2.00, 400 g at 2.90, 1,000 g at 6.60 for 1,150 g wanted.
	// 400 + 3·250 = 1,150 costs 8.90; 1,000 + 250 costs 8.60; 3·400 costs 8.70;
	// 250 g are dominated by nothing (3 of 400 are dearer per pack).
	{"packs", func(p *linear.Problem) {
		p.AddRow("grams", 1150, inf)
		col(p, 2, 0, 5, true, 250)
		col(p, 2.9, 0, 3, true, 400)
		col(p, 6.6, 0, 2, true, 1000)
	}, Optimal, 8.6},

	// A pack that two of another beat: 500 g at 3 against 300 g at 1.40. With
	// the 300 g pack capped at 1 the big one must come back: 800 g need one of
	// each (4.40), not three small ones.
	{"dominated but capped", func(p *linear.Problem) {
		p.AddRow("grams", 800, inf)
		col(p, 3, 0, 4, true, 500)
		col(p, 1.4, 0, 1, true, 300)
	}, Optimal, 4.4},
}

// TestZoo solves every program of the zoo, with one worker and with two, and
// audits the proof.
func TestZoo(t *testing.T) {
	for _, a := range zoo {
		t.Run(a.name, func(t *testing.T) {
			p := &linear.Problem{}
			a.build(p)
			for _, workers := range []int{1, 2, 3} {
				r := Solve(context.Background(), p, Options{Workers: workers, Audit: true})
				if r.Status != a.status {
					t.Fatalf("%d workers: status %v (%s), want %v", workers, r.Status, r.Why, a.status)
				}
				if a.status != Optimal {
					continue
				}
				if math.Abs(r.Value-a.value) > 1e-6*math.Max(1, math.Abs(a.value)) {
					t.Fatalf("%d workers: value %v, want %v", workers, r.Value, a.value)
				}
				if r.Bound > r.Value != p.Maximize && r.Bound != r.Value {
					t.Fatalf("%d workers: bound %v beyond the value %v", workers, r.Bound, r.Value)
				}
				if v, ok := Check(p, r.X); !ok || math.Abs(v-r.Value) > 1e-9 {
					t.Fatalf("%d workers: point %v: feasible %v, value %v, stated %v", workers, r.X, ok, v, r.Value)
				}
				if len(p.Cols) > 0 && a.name != "free continuous column" && a.name != "split in the middle" {
					if rep := Audit(context.Background(), p, r); !rep.BoundOK || rep.CutsTrusted > 0 {
						t.Fatalf("%d workers: audit %+v", workers, rep)
					}
				}
			}
		})
	}
}

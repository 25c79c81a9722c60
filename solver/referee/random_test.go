package referee_test

import (
	"bytes"
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"rationwright/solver/branch"
	"rationwright/solver/linear"
	"rationwright/solver/referee"
)

// Every random program comes from one of these seeds, so that a failure comes
// back.
const (
	lpSeed  = 1939
	mipSeed = 1945
)

// show prints a program that a test failed on, so that it can be kept.
func show(t testing.TB, p *linear.Problem) {
	t.Helper()
	var b bytes.Buffer
	if err := linear.WriteMPS(&b, p); err != nil {
		t.Log(err)
	}
	t.Logf("%v\n%s", p, b.String())
}

// Linear programs: the simplex method's answer proves itself (checkPoint,
// checkRay, checkDirection, duals against value), and the referee agrees.
func TestRandomLP(t *testing.T) {
	for n, f := range families {
		t.Run(f.name, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(lpSeed, uint64(n)))
			seen := map[string]int{}
			silent := 0
			for range 200 * *campaign {
				p := f.make(rng)
				got := lpAnswer(solveLP(t, p))
				seen[got.status]++
				op := opinion(t, p)
				switch {
				case op.Verdict == referee.Silent:
					silent++
					t.Logf("the referee has no opinion: %s", op.Why)
				case op.Verdict.String() != got.status:
					t.Errorf("the referee says %v, the engine %s", op, got.status)
				case op.Verdict == referee.Optimal && !near(got.value, op.Value):
					t.Errorf("the referee says %v, the engine %.10g", op, got.value)
				case op.Verdict == referee.Optimal && !op.Proven:
					t.Errorf("the referee does not prove it: %v", op)
				}
				if t.Failed() {
					show(t, p)
					return
				}
			}
			t.Logf("%v, referee silent on %d", seen, silent)
			if silent > *campaign {
				t.Errorf("the referee is silent on %d programs of %d", silent, 200**campaign)
			}
		})
	}
}

// small says whether a search for whole numbers must end soon. Equations with
// random coefficients in tens of integer columns keep every solver busy.
func small(p *linear.Problem) bool { return len(p.Cols) <= 12 }

// best tries every point of a boxed program. It returns false if none is
// feasible.
func best(p *linear.Problem) (float64, bool) {
	x := make([]float64, len(p.Cols))
	for j := range x {
		x[j] = p.Cols[j].Lower
	}
	value, found := 0.0, false
	for {
		if missed, err := p.Check(x, 1e-9); err == nil && len(missed) == 0 {
			if pt, err := p.Evaluate(x); err == nil && (!found || (pt.Value < value) != p.Maximize) {
				value, found = pt.Value, true
			}
		}
		j := 0
		for ; j < len(x); j++ {
			if x[j]++; x[j] <= p.Cols[j].Upper {
				break
			}
			x[j] = p.Cols[j].Lower
		}
		if j == len(x) {
			return value, found
		}
	}
}

// Integer programs small enough to try every point.
func TestRandomIntegerByEnumeration(t *testing.T) {
	for n, f := range families {
		t.Run(f.name, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(mipSeed, uint64(n)))
			seen := map[string]int{}
			for range 40 * *campaign {
				p := boxed(f.make(rng), rng)
				want, feasible := best(p)
				got := mipAnswer(solveMIP(t, p))
				seen[got.status]++
				switch {
				case feasible != (got.status == "optimal"):
					t.Errorf("status %s, but some point is feasible: %v", got.status, feasible)
				case feasible && !near(got.value, want):
					t.Errorf("optimum %.10g, the best of all points is %.10g", got.value, want)
				}
				if t.Failed() {
					show(t, p)
					return
				}
			}
			t.Logf("%v", seen)
		})
	}
}

// The two engines agree where they answer the same question: a program without
// integers is the same to branch and cut, and relaxing integers never hurts.
func TestRandomEnginesAgree(t *testing.T) {
	for n, f := range families {
		t.Run(f.name, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(lpSeed+mipSeed, uint64(n)))
			for range 20 * *campaign {
				p := f.make(rng)
				relaxed := lpAnswer(solveLP(t, p))
				same := mipAnswer(solveMIP(t, p))
				if same.status != relaxed.status || (same.status == "optimal" && !near(same.value, relaxed.value)) {
					t.Errorf("branch says %s %.10g, simplex %s %.10g", same.status, same.value, relaxed.status, relaxed.value)
				}
				if t.Failed() {
					show(t, p)
					return
				}
				if !small(p) {
					continue
				}
				p = integers(p, rng)
				relaxed = lpAnswer(solveLP(t, p))
				whole := mipAnswer(solveMIP(t, p))
				slack := tight * math.Max(1, math.Abs(relaxed.value))
				switch {
				case relaxed.status == "infeasible" && whole.status != "infeasible":
					t.Errorf("the relaxation is infeasible, the program %s", whole.status)
				case relaxed.status == "optimal" && whole.status != "optimal" && whole.status != "infeasible":
					t.Errorf("the relaxation is optimal, the program %s", whole.status)
				case whole.status != "optimal" || relaxed.status != "optimal":
				case !p.Maximize && whole.value < relaxed.value-slack, p.Maximize && whole.value > relaxed.value+slack:
					t.Errorf("the program's optimum %.10g beats its relaxation's %.10g", whole.value, relaxed.value)
				}
				if t.Failed() {
					show(t, p)
					return
				}
			}
		})
	}
}

// Structured integer programs: branch and cut proves its own answers, alike
// with one worker and with two, and its root bound is the referee's optimum of
// the relaxation. Where general solvers are installed they see more of these in
// TestRandomAgainstSolvers.
func TestRandomStructured(t *testing.T) {
	for n, f := range structured {
		t.Run(f.name, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(mipSeed-lpSeed, uint64(n)))
			seen := map[string]int{}
			for range 3 * *campaign {
				p := f.make(rng)
				r := solveMIP(t, p)
				got := mipAnswer(r)
				seen[got.status]++
				ctx, stop := context.WithTimeout(t.Context(), patience)
				alone := mipAnswer(branch.Solve(ctx, p, branch.Options{Gap: 1e-9, Workers: 1}))
				stop()
				if alone.status != got.status || (got.status == "optimal" && !near(alone.value, got.value)) {
					t.Errorf("one worker says %s %.10g, two %s %.10g", alone.status, alone.value, got.status, got.value)
				}
				op := opinion(t, p)
				switch {
				case op.Verdict == referee.Infeasible && got.status != "infeasible":
					t.Errorf("the referee says of the relaxation %v, branch %s", op, got.status)
				case got.status == "optimal" && (!op.Proven || !near(op.Value, r.RootBound)):
					t.Errorf("the referee says of the relaxation %v, branch has the root bound %.10g", op, r.RootBound)
				}
				if t.Failed() {
					show(t, p)
					return
				}
			}
			t.Logf("%v", seen)
		})
	}
}
